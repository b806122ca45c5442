"""What a number that does not fit probably is: ten times, a tenth, inch for mm, digits swapped.

Invariant: a suspicion is words; no number is ever changed by it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

RIGHT = 0.25
"""Of what agrees: a reading with its digits put right lies this near the earlier one, or it is another."""


def factors(unit: str = "mm") -> tuple[tuple[float, str], ...]:
    """Factors by which slips and gauges are out where a unit is asked, most usual first, each in words."""
    from rules.limits import MM_PER_INCH

    point = (
        (10.0, "ten times {} (the point in the wrong place?)"),
        (0.1, "a tenth of {} (the point in the wrong place?)"),
        (100.0, "a hundred times {} (the point in the wrong place?)"),
        (0.01, "a hundredth of {} (the point in the wrong place?)"),
    )
    mixed = f"{MM_PER_INCH:g} times {{}} (inch and mm mixed up?)"
    if unit == "in":
        return ((MM_PER_INCH, "{} in mm (is the gauge set to mm?)"), *point, (1 / MM_PER_INCH, mixed))
    inch = (1 / MM_PER_INCH, "{} in inch (is the gauge set to inch?)")
    return (*point[:2], inch, (MM_PER_INCH, mixed), *point[2:])


def suspect(
    value: float,
    earlier: Sequence[float],
    low: float,
    high: float,
    *,
    decimals: int = 2,
    agree: float = 0.20,
    unit: str = "mm",
) -> str:
    """Name what may have happened, or "".

    `value`, `earlier`, `low`, `high` and `agree` share the unit that is asked. With earlier readings the
    number is held against the middle one, and one that agrees within `agree` is not suspected. Without any,
    only a number outside `low` to `high` is suspected, when the slip would put it inside.
    """
    if earlier:
        middle = sorted(earlier)[len(earlier) // 2]
        if abs(value - middle) <= agree:
            return ""
        near = (middle - agree * RIGHT, middle + agree * RIGHT)
        return _against(value, middle - agree, middle + agree, decimals, "the earlier reading", unit, near)
    if low <= value <= high:
        return ""
    return _against(value, low, high, decimals, "what can be", unit)


def _against(
    value: float,
    low: float,
    high: float,
    decimals: int,
    what: str,
    unit: str,
    near: tuple[float, float] | None = None,
) -> str:
    """The slips, at most two and in inch the likeliest, that would bring a number from between `low` and
    `high`, with two digits swapped from between `near`, to `value`.
    """
    lowest, highest = near or (low, high)
    half_step = 0.5 * 10.0**-decimals
    found = [
        words.format(what)
        for factor, words in factors(unit)
        if (low - 1e-9) * factor - half_step <= value <= (high + 1e-9) * factor + half_step
    ]
    if any(lowest <= candidate <= highest for candidate in swaps(value, decimals)):
        found.append(f"{what} with two digits swapped")
    most = 1 if unit == "in" else 2
    return "looks like " + ", or ".join(found[:most]) if found else ""


def swaps(value: float, decimals: int) -> Iterator[float]:
    """Every number made by swapping two neighbouring digits of `value` written with `decimals` places."""
    digits = f"{round(abs(value) * 10**decimals):0{decimals + 1}d}"
    for place in range(len(digits) - 1):
        first, second = digits[place], digits[place + 1]
        if first != second:
            swapped = digits[:place] + second + first + digits[place + 2 :]
            yield int(swapped) / 10**decimals

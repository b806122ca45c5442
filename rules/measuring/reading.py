"""Readings of one size: which of them count, and how well the size is known.

Invariant: a size counts as settled only when at least two readings agree; a reading is set aside only when
others agree without it, and it is never changed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from rules.checks import OutOfRange, number
from rules.measuring import budget
from rules.measuring.student import coverage_factor

DIAMETERS_AGREE_MM = 0.20
"""Two readings of a diameter agree within this: what lies inside is ovality and scatter (own judgement)."""
HEIGHTS_AGREE_MM = 0.05
"""The same for walls, heights and thicknesses (own judgement)."""
RING_HEIGHTS_AGREE_MM = 2.0 * HEIGHTS_AGREE_MM
"""For the height of a finished ring, the largest of four places each time (own judgement)."""
OVAL_BETWEEN_MM = 0.03
"""Two crossing readings further apart ask for the two between (own judgement)."""
CLOCK = ("12", "3", "1:30", "4:30", "6", "9", "7:30", "10:30")
"""Clock positions in the order in which they are read: two crossing ones first."""
REPEATS, DIFFERENCE = "repeat readings", "difference of the readings"
"""Components of a budget that come from readings of this one size."""
_SLACK_MM = 1e-9


@dataclass(frozen=True, slots=True)
class Agreement:
    """What the readings of one size say together;
    a reading is named by its index in the order keyed, from 0.
    """

    used: tuple[int, ...]
    """The largest group of readings that agree."""
    struck: tuple[int, ...]
    """Readings that no other one agrees with, once others agree."""
    settled: bool
    """True when two or more agree and no other group is as large."""
    difference_mm: float | None
    """From the last reading to the nearest other one, mm; None when settled or alone."""
    flagged: tuple[int, ...] = ()
    """Readings outside the group used that came at least twice: kept, and said."""


def _largest_group(values: Sequence[float], indexes: Sequence[int], within_mm: float) -> tuple[int, ...]:
    """The most readings that lie within `within_mm` of one another; of equals the one keyed first."""
    best: tuple[int, ...] = ()
    for start in indexes:
        group = tuple(k for k in indexes if 0 <= values[k] - values[start] <= within_mm + _SLACK_MM)
        if (len(group), -min(group)) > (len(best), -min(best, default=0)):
            best = group
    return best


def judge(readings_mm: Sequence[float], *, within_mm: float) -> Agreement:
    """Which readings count, in the order keyed; raises OutOfRange for a reading that is not a finite number.

    >>> judge([33.20, 30.50, 33.24], within_mm=0.20)
    Agreement(used=(0, 2), struck=(1,), settled=True, difference_mm=None, flagged=())
    """
    number("agreement", within_mm, low=0, high=5, unit="mm")
    values = [number("reading", value, low=0, high=1000, unit="mm") for value in readings_mm]
    indexes = range(len(values))
    used = _largest_group(values, indexes, within_mm)
    rest = tuple(k for k in indexes if k not in used)
    rival = _largest_group(values, rest, within_mm)
    settled = len(used) >= 2 and len(rival) < len(used)
    flagged = tuple(
        k for k in rest if any(j != k and abs(values[j] - values[k]) <= within_mm + _SLACK_MM for j in rest)
    )
    struck = tuple(k for k in rest if k not in flagged) if len(used) >= 2 else ()
    difference = None
    if not settled and len(values) >= 2:
        difference = min(abs(values[-1] - value) for value in values[:-1])
        if flagged and len(rival) == len(used):
            difference = min(abs(values[j] - values[k]) for j in used for k in rival)
    return Agreement(used=used, struck=struck, settled=settled, difference_mm=difference, flagged=flagged)


@dataclass(frozen=True, slots=True)
class Summary:
    """One size from its readings, as read: the sizing, which knows the materials, corrects it to 20 C."""

    mean_mm: float
    n: int
    range_mm: float
    """Largest less smallest reading, mm."""
    ovality_mm: float
    """Largest less smallest over the clock positions, mm: a range of the part, not noise of the reading."""
    u_mm: float
    """Standard uncertainty of the mean, mm."""
    dof: float
    """Effective degrees of freedom; infinite when limits rule."""
    expanded_mm: float
    """"Good to": expanded uncertainty, 95 %, mm."""
    components: tuple[budget.Component, ...]
    """The budget: what the uncertainty is made of."""


def mean_and_deviation(values: Sequence[float]) -> tuple[float, float]:
    """Mean, summed exactly, and standard deviation (n - 1) about it: large equal parts cancel; 0 for one."""
    count = len(values)
    mean = math.fsum(values) / count
    if count < 2:
        return mean, 0.0
    return mean, math.sqrt(math.fsum((value - mean) ** 2 for value in values) / (count - 1))


def _scatter(values: Sequence[float], positions: Sequence[str] | None) -> tuple[float, float, float]:
    """Standard uncertainty of the mean from repeats, its degrees of freedom, and the ovality, mm."""
    if positions is None:
        _, deviation = mean_and_deviation(values)
        return deviation / math.sqrt(len(values)), len(values) - 1.0, max(values) - min(values)
    if len(positions) != len(values):
        raise OutOfRange(
            f"positions: {len(positions)} for {len(values)} readings; give each reading its position"
        )
    groups: dict[str, list[float]] = {}
    for position, value in zip(positions, values, strict=True):
        groups.setdefault(position, []).append(value)
    means = [mean_and_deviation(group) for group in groups.values()]
    freedom = float(len(values) - len(groups))
    squares = math.fsum(
        (len(group) - 1) * s * s for group, (_, s) in zip(groups.values(), means, strict=True)
    )
    ovality = max(mean for mean, _ in means) - min(mean for mean, _ in means)
    noise = math.sqrt(squares / freedom / len(values)) if freedom > 0 else 0.0
    return noise, freedom, ovality


def _good_to(together: budget.Combined, noise_mm: float, freedom: float) -> float:
    """Expanded uncertainty, 95 %; wider than the GUM's for a single degree of freedom.

    With two readings the effective degrees of freedom trust a scatter that came out small by
    luck, and cover only 88 to 92 % (by simulation). There the geometric mean with the parts
    expanded one by one covers 93 % and more.
    """
    plain = together.good_to_mm()
    if noise_mm == 0.0 or freedom >= 2.0:
        return plain
    rest = math.sqrt(max(0.0, together.u_mm**2 - noise_mm**2))
    apart = math.hypot(coverage_factor(1.0) * noise_mm, coverage_factor(math.inf) * rest)
    return math.sqrt(plain * apart)


def _type_b(values: Sequence[float], *, limit: float, step: float, ground: bool) -> list[budget.Component]:
    """The components that do not come from repeats: limit of error and resolution (GUM 4.3), and what the
    readings of a round part differ by.
    """
    _, deviation = mean_and_deviation(values)
    rounding = budget.rectangular(step / 2.0)
    if deviation > step / 2.0:  # where readings differ by more than the step, rounding averages out
        rounding /= math.sqrt(len(values))
    apart = budget.rectangular((max(values) - min(values)) / 2.0)
    return [
        budget.Component("limit of error of the instrument", budget.rectangular(limit), basis="rectangular"),
        budget.Component("resolution", rounding, basis="rectangular, half a step"),
        *([budget.Component(DIFFERENCE, apart, basis="rectangular")] if ground else []),
    ]


def summarise(
    readings_mm: Sequence[float],
    *,
    limit_of_error_mm: float,
    resolution_mm: float,
    positions: Sequence[str] | None = None,
    ground: bool = False,
) -> Summary:
    """The size from its readings, with a budget (GUM 4.2, 4.3, G.4).

    Without `positions` all readings count as repeats of one size (Student's t on their scatter). With a
    clock position for each reading only repeats at one position count as noise; what differs between
    positions is ovality. Without any repeat the instrument's limit of error stands for the noise as well.
    ground: the part is round; half of what the readings differ by is a limit of error of its own.
    Range: readings 0.01 to 1000 mm, limit of error 0 to 1, resolution 0 to 1 mm. Raises OutOfRange.
    """
    if not readings_mm:
        raise OutOfRange("readings: none given; at least one is needed")
    values = [number("reading", value, low=0.01, high=1000, unit="mm") for value in readings_mm]
    limit = number("limit of error", limit_of_error_mm, low=0, high=1, unit="mm")
    step = number("resolution", resolution_mm, low=0, high=1, unit="mm")
    mean, _ = mean_and_deviation(values)
    components = _type_b(values, limit=limit, step=step, ground=ground)
    noise, freedom, ovality = _scatter(values, positions)
    freedom = 0.0 if ground else freedom
    if freedom >= 1.0:
        repeats = budget.Component(REPEATS, noise, freedom, basis="scatter of the readings")
        components.insert(0, repeats)
    together = budget.combine(components)
    return Summary(
        mean_mm=mean,
        n=len(values),
        range_mm=max(values) - min(values),
        ovality_mm=ovality,
        u_mm=together.u_mm,
        dof=together.dof,
        expanded_mm=_good_to(together, noise if freedom >= 1.0 else 0.0, freedom),
        components=together.components,
    )


def as_they_repeat(size: Summary, *, sd_mm: float, dof: float) -> Summary:
    """The size with how one reading repeats in this shop, known from many pairs, where that is more than its
    own few readings show: two that are alike by luck are not trusted. Nothing changes for a size by plug.
    """
    learned = budget.Component(
        REPEATS, sd_mm / math.sqrt(size.n), dof, basis="pairs of readings in this shop"
    )
    own = [one.u_mm for one in size.components if one.name in (REPEATS, DIFFERENCE)]
    if not size.components or any(u >= learned.u_mm for u in own):
        return size
    rest = [one for one in size.components if one.name not in (REPEATS, DIFFERENCE)]
    together = budget.combine((learned, *rest))
    return replace(
        size,
        u_mm=together.u_mm,
        dof=together.dof,
        expanded_mm=max(size.expanded_mm, together.good_to_mm()),
        components=together.components,
    )

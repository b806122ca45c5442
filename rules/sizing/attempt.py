"""The next ring: what an attempt at fitting says about the bore of the next one.

Invariant: the change proposed keeps the squeeze inside the band, or is nought and says what to measure.
The steps (half the way to the end of the band, at least 0.02 mm on the bore) are our judgement, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.checks import known, number

LEAST_CHANGE_MM = 0.02
"""On the bore, the diameter: a smaller change drowns in the cutting."""

_TIGHTER, _LOOSER, _SAME = -1, 1, 0
_ADVICE: dict[str, tuple[int, str]] = {
    "home": (_SAME, "Home and level: accept it."),
    "too_easy": (_TIGHTER, "It went in too easily."),
    "would_not_start": (
        _LOOSER,
        "It would not start: look at the entry chamfer; start square, moisten.",
    ),
    "shaved": (_LOOSER, "The ring was shaved: dress the burr off, cut a longer entry chamfer."),
    "chipped": (_LOOSER, "The glass chipped: fit another glass and measure that one first."),
    "bezel_moved": (_LOOSER, "The bezel moved: measure the seat again and support the bezel all round."),
}
OUTCOMES = tuple(_ADVICE)


@dataclass(frozen=True, slots=True)
class NextRing:
    """What to do after an attempt."""

    outcome: str
    """home, too_easy, would_not_start, shaved, chipped or bezel_moved."""
    accept: bool
    """True only for a ring that is home and level."""
    bore_change_mm: float
    """Change of the bore diameter for the next ring; negative is smaller, so tighter."""
    bore_mm: float
    """The bore to cut."""
    squeeze_pct: float
    """Nominal squeeze that bore gives in the same gap, percent of the wall."""
    words: str
    """What happened and what to do, in plain words."""


def next_ring_change(
    outcome: str,
    *,
    wall_mm: float,
    gap_mm: float,
    bore_mm: float,
    low_pct: float = 5.0,
    high_pct: float = 13.0,
) -> NextRing:
    """The bore of the next ring after an outcome of fitting, inside the band of squeeze.

    wall_mm: mean wall as measured. gap_mm: half of seat minus glass. bore_mm: bore of the ring tried; the
    outside diameter stays. low_pct, high_pct: band of the nominal squeeze, percent of the wall.
    Half the way to the end of the band, at least 0.02 mm on the bore, whole hundredths. A ring that was
    only shaved, and not tight, keeps its bore. Raises OutOfRange for an unknown outcome or sizes that
    cannot be.
    """
    _check(wall_mm, gap_mm, low_pct, high_pct)
    direction, advice = known("outcome", outcome, _ADVICE)
    now = 100.0 * (1.0 - gap_mm / wall_mm)
    if outcome == "shaved" and now <= (low_pct + high_pct) / 2:
        direction = _SAME
    change = _change_mm(direction, now, wall_mm, gap_mm, low_pct, high_pct)
    squeeze = 100.0 * (1.0 - gap_mm / (wall_mm - change / 2.0))
    return NextRing(
        outcome=outcome,
        accept=outcome == "home",
        bore_change_mm=change,
        bore_mm=round(bore_mm + change, 4),
        squeeze_pct=squeeze,
        words=f"{advice}{_change_words(outcome, direction, change, squeeze)}",
    )


def _change_mm(direction: int, now: float, wall: float, gap: float, low: float, high: float) -> float:
    """Signed change of the bore; 0 when the band has no room in that direction."""
    if direction == _SAME:
        return 0.0
    start = min(max(now, low), high)
    target = (start + (high if direction == _TIGHTER else low)) / 2
    wanted = direction * max(direction * _bore_change(target, wall, gap), LEAST_CHANGE_MM)
    tightest = math.ceil(_bore_change(high, wall, gap) * 100 - 1e-6) / 100
    loosest = math.floor(_bore_change(low, wall, gap) * 100 + 1e-6) / 100
    change = min(max(round(wanted, 2), tightest), loosest)
    return change if tightest <= loosest and direction * change > 0 else 0.0


def _bore_change(squeeze_pct: float, wall: float, gap: float) -> float:
    return 2.0 * (wall - gap / (1.0 - squeeze_pct / 100.0))


def _change_words(outcome: str, direction: int, change: float, squeeze: float) -> str:
    if outcome == "home":
        return ""
    if change:
        turned = "smaller" if change < 0 else "larger"
        return f" Next ring: bore {abs(change):.2f} mm {turned}, squeeze {squeeze:.1f} %."
    if direction == _SAME:
        return " Next ring: the same bore."
    end = "tight" if direction == _TIGHTER else "loose"
    return f" The bore is already at the {end} end of the band: measure seat, glass and wall again first."


def _check(wall: float, gap: float, low: float, high: float) -> None:
    number("wall", wall, low=0.02, high=10.0, unit="mm", advice="measure it with a ball anvil")
    number("gap", gap, low=0.02, high=10.0, unit="mm", advice="measure seat and glass again")
    number("upper limit of the squeeze", high, low=0.0, high=50.0, unit="%", advice="")
    number(
        "lower limit of the squeeze", low, low=0.0, high=high, unit="%", advice="give it under the upper one"
    )

"""Whether a ring as made and measured lies in its band.

Invariant: "fits" and "does not" are said only when the whole 95 % interval lies on that side; everything else
is undecided, and undecided never stops the job. Source of the rule: ISO 14253-1 and JCGM 106, from memory.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist

from rules.checks import OutOfRange, fixed, numbers, to_places
from rules.lengths import length
from rules.measuring.budget import COVERAGE
from rules.sizing.squeeze import USUAL_BAND, Band, squeeze_pct

FITS, DOES_NOT, UNDECIDED = "fits", "does_not", "undecided"


@dataclass(frozen=True, slots=True)
class RingDecision:
    """Whether the ring as measured lies in its band."""

    squeeze_pct: float
    """Interference over wall, percent; negative for a loose ring."""
    squeeze_u_pct: float
    """Its expanded uncertainty, 95 %, percent of wall."""
    decision: str
    """fits, does_not or undecided."""
    words: str
    measure_better: str | None
    """What to measure better when undecided, the wall or the gap; None where no bore works."""
    off: str
    """Loose or tight, where by the wall's own uncertainty no squeeze of its interval lies in the band;
    else empty.
    """

    def chance_in(self, band: Band) -> float:
        """The chance that its squeeze lies in a band, 0 to 1; normal, with half its uncertainty as spread."""
        squeeze = NormalDist(self.squeeze_pct, max(self.squeeze_u_pct / COVERAGE, 1e-9))
        return squeeze.cdf(band.high_pct) - squeeze.cdf(band.low_pct)


def ring_decision(
    *,
    walls_mm: Sequence[float],
    wall_u_mm: float,
    gap_mm: float,
    gap_u_mm: float,
    band: Band = USUAL_BAND,
    shut: str = "",
) -> RingDecision:
    """Judge a made ring by its walls, the gap it goes into and the band that was decided with it.

    walls_mm: wall at four or more angles; the mean counts, because the glass settles between a thin and a
    thick side. wall_u_mm, gap_u_mm: expanded uncertainty (95 %) of the mean wall and of the gap, mm.
    shut: the limits that cannot both be met, where no bore works: no ring fits then, however it is measured.
    u of squeeze = sqrt((gap/wall u_wall)^2 + u_gap^2)/wall (GUM, first order). Raises OutOfRange.
    """
    _in_range(walls_mm, wall_u_mm, gap_mm, gap_u_mm)
    wall = math.fsum(walls_mm) / len(walls_mm)
    from_wall, squeeze = gap_mm / wall * wall_u_mm, squeeze_pct(wall_mm=wall, gap_mm=gap_mm)
    half = 100.0 * math.hypot(from_wall, gap_u_mm) / wall
    off = _off(squeeze, 100.0 * from_wall / wall, band)
    decision = _decision(squeeze, half, band, shut)
    better = None
    if decision == UNDECIDED and not shut:
        better = "wall" if from_wall >= gap_u_mm else "gap"
    words = f"{_read(squeeze, half, band)} {_verdict(decision, better, off, shut)}"
    return RingDecision(squeeze, half, decision, words + _round_it(walls_mm, gap_mm), better, off)


def _in_range(walls_mm: Sequence[float], wall_u_mm: float, gap_mm: float, gap_u_mm: float) -> None:
    if not walls_mm:
        raise OutOfRange("wall: none was given; measure it at four angles")
    numbers(
        *(("wall", wall, 0.05, 10.0, "mm") for wall in walls_mm),
        ("gap", gap_mm, 0.02, 10.0, "mm"),
        ("uncertainty of the wall", wall_u_mm, 0.0, 1.0, "mm"),
        ("uncertainty of the gap", gap_u_mm, 0.0, 1.0, "mm"),
        advice="measure it again",
    )


def _round_it(walls_mm: Sequence[float], gap_mm: float) -> str:
    """What the differences round the ring say, where they are no trifle beside the interference."""
    range_mm = max(walls_mm) - min(walls_mm)
    if not range_mm > 0.5 * (math.fsum(walls_mm) / len(walls_mm) - gap_mm) > 0:
        return ""
    return f" The wall differs by {length(range_mm, 3)} round the ring: the bore is not central."


def _decision(squeeze: float, half: float, band: Band, shut: str) -> str:
    if band.low_pct + half <= squeeze <= band.high_pct - half:
        return UNDECIDED if shut else FITS
    far = squeeze + half < band.low_pct or squeeze - half > band.high_pct
    return DOES_NOT if far else UNDECIDED


def _off(squeeze: float, of_wall: float, band: Band) -> str:
    if squeeze + of_wall < band.low_pct:
        return "loose"
    return "tight" if squeeze - of_wall > band.high_pct else ""


def _read(squeeze: float, half: float, band: Band) -> str:
    shown, good_to = (fixed(to_places(figure, 2), 1) for figure in (squeeze, half))  # written in hundredths
    return f"Squeeze {shown} % of the wall, good to {good_to}; band {band.words} %."


def _verdict(decision: str, better: str | None, off: str, shut: str) -> str:
    if decision == FITS:
        return "It fits."
    if decision == DOES_NOT:
        return f"It does not fit: too {off}."
    if off:
        return f"By its wall it is too {off}; only the doubt about the gap could bring it in."
    if better is None:
        return f"Undecided: no bore meets every requirement, {shut} cannot both be met."
    what = "the wall (ball anvil, more angles)" if better == "wall" else "the gap (seat and glass diameters)"
    return f"Undecided: measure {what} better, or go on: pressing will show."


USED_RING = "A used ring is a pattern to measure, not one to fit again."
"""Pressed once it has taken a set, and its edges are worn (common practice, no source)."""
FREE_DIAMETER = (
    "The free ring is not measured across: it bends by millimetres under a newton. "
    "What seals is wall minus gap, so the wall is measured."
)
"""Why the diameter of the free ring is not asked."""

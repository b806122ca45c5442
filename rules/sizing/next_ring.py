"""The next ring: what an attempt at fitting says about the wall of the next one.

Invariant: the ring proposed lies inside the band and on the right side of the ring as it was measured, or
there is none and the words say what to measure. The steps (half the way to the end of the band, at least
0.02 mm on the bore) are our judgement, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules import limits
from rules.checks import fixed, known, numbers, sizes_near
from rules.sizing.squeeze import USUAL_BAND, Band, squeeze_pct, wall_for_mm

LEAST_CHANGE_MM = 0.02
"""On the bore, the diameter: a smaller change is lost in the spread of the cut."""

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


@dataclass(frozen=True, slots=True)
class NextRing:
    """What to do after an attempt."""

    bore_mm: float | None
    """The bore of the next ring; None when the band has no room: measure seat, glass and wall again first."""
    wall_mm: float | None
    """The wall that bore gives; None with it."""
    squeeze_pct: float
    """Nominal squeeze of that wall in the same gap, percent of the wall;
    without one that of the ring tried.
    """
    words: str
    """What happened and what to do, in plain words."""


def next_ring(
    outcome: str,
    *,
    wall_mm: float,
    gap_mm: float,
    outside_mm: float,
    band: Band = USUAL_BAND,
    step_mm: float = limits.SIZE_STEP_MM,
) -> NextRing:
    """The next ring after an outcome of fitting, inside the band of squeeze.

    wall_mm: mean wall as measured on the ring tried. gap_mm: half of seat minus glass. outside_mm: as the
    next ring will be made; its bore is this less twice the wall wanted. band: that was decided with the ring.
    step_mm: of the lathe, on the diameter. Half the way from the ring as made to the end of the band, at
    least 0.02 mm on the bore. A ring that was only shaved, and not tight, keeps its wall, as does one that is
    home. Raises OutOfRange for an unknown outcome or impossible sizes.
    """
    numbers(("wall", wall_mm, 0.02, 10.0, "mm"), ("gap", gap_mm, 0.02, 10.0, "mm"), advice="measure it again")
    direction, advice = known("outcome", outcome, _ADVICE)
    now = squeeze_pct(wall_mm=wall_mm, gap_mm=gap_mm)
    if outcome == "shaved" and now <= (band.low_pct + band.high_pct) / 2:
        direction = _SAME
    least, wanted, most = _walls(direction, wall_mm, gap_mm, band)
    bores = sizes_near(
        outside_mm - 2.0 * wanted,
        low_mm=outside_mm - 2.0 * most,
        high_mm=outside_mm - 2.0 * least,
        steps_mm=(step_mm, limits.SIZE_STEP_MM, limits.FINEST_STEP_MM),
    )
    bore = bores[0] if bores else None
    wall = None if bore is None else (outside_mm - bore) / 2.0
    squeeze = now if wall is None else squeeze_pct(wall_mm=wall, gap_mm=gap_mm)
    return NextRing(
        bore_mm=bore,
        wall_mm=wall,
        squeeze_pct=squeeze,
        words=f"{advice}{_change_words(outcome, direction, wall_mm, wall, squeeze)}",
    )


def _walls(direction: int, made_mm: float, gap_mm: float, band: Band) -> tuple[float, float, float]:
    """The least wall, the one wanted and the most wall of the next ring, mm."""
    least, most = band.walls_mm(gap_mm)
    if direction == _SAME:
        return least, made_mm, most
    now = squeeze_pct(wall_mm=made_mm, gap_mm=gap_mm)
    start = min(max(now, band.low_pct), band.high_pct)
    end = band.high_pct if direction == _TIGHTER else band.low_pct
    wanted = wall_for_mm(squeeze_pct=(start + end) / 2.0, gap_mm=gap_mm)
    if direction == _TIGHTER:
        return max(least, made_mm + LEAST_CHANGE_MM / 2.0), wanted, most
    return least, wanted, min(most, made_mm - LEAST_CHANGE_MM / 2.0)


def _change_words(outcome: str, direction: int, made: float, wall: float | None, squeeze: float) -> str:
    if outcome == "home":
        return ""
    if wall is None:
        end = {_TIGHTER: "at the tight end of", _LOOSER: "at the loose end of", _SAME: "outside"}[direction]
        return f" It is already {end} the band: measure seat, glass and wall again first."
    kept = "as thick as this one" if direction == _SAME else f"this one has {fixed(made, 3)}"
    return f" Next ring: wall {fixed(wall, 3)} mm ({kept}), squeeze {squeeze:.1f} %."

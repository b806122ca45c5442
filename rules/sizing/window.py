"""How far off the bore may be cut: the window, the band it is cut to, the aim in it,
and the chance to land in it.

Invariant: window, band and chance of a ring come from the same limits on its wall.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rules.checks import hundredth
from rules.ring import RingSizes
from rules.sizing import chance
from rules.sizing.demands import End, Limit, ends, wall_limits
from rules.sizing.learned import bounds
from rules.sizing.not_judged import not_judged, without_words
from rules.sizing.resolved import Resolved
from rules.sizing.squeeze import Band, squeeze_pct
from rules.sizing.thumb import rules_of_thumb

AGAIN = "measure seat, glass and the wall of the ring again first"
_NOISE_MM = 1e-9
"""Of sums in floating point."""


@dataclass(frozen=True, slots=True)
class Window:
    """The bores that work, for the ring's outside diameter; None where no bore works."""

    bore_low_mm: float | None
    """Smaller bores are too tight."""
    bore_high_mm: float | None
    """Larger bores are too loose."""
    target_bore_mm: float | None
    """The bore with the greatest chance of all steps of the lathe in the window."""
    chance: float
    """That a cut aimed at the target lands in the band, 0 to 1."""
    binds_low: str
    """What forbids a smaller bore."""
    binds_high: str
    """What forbids a larger bore."""
    feasible: bool
    band: Band
    """Squeezes of the bores that work; where none does, those that the metal allows."""
    outside_low_mm: float | None = None
    outside_high_mm: float | None = None
    """Outside diameters that work with the target bore."""
    ring_chance: float = 0.0
    """The same chance for the ring of the answer."""
    tenth_chance: float = 0.0
    """The same chance for a tenth of a millimetre on the diameter, the bore to a hundredth."""
    nine_chance: float = 0.0
    """The same chance for nine per cent of the wall, the bore to a hundredth."""
    best_chance: float = 0.0
    """At the best bore, not rounded to a step."""
    landing_sigma_mm: float = 0.0
    """Standard deviation with which a cut lands, on the bore, measuring and turning combined."""
    chance_before: float | None = None
    """The chance of the ring of the answer with the gap as measured; None where no ring tried has taught."""
    shut_by_rings: str = ""
    """Why no bore is left between what the rings tried have said and the band; empty where one is."""
    not_judged: tuple[str, ...] = ()
    """Limits that these chances leave out, because a figure they need is not known."""
    help: tuple[str, ...] = ()
    """What would help, and the chance then, when no bore works or the chance is poor."""

    @property
    def clash(self) -> str:
        """The two limits that leave least room, the one on the thin side first."""
        return f"{self.binds_high} and {self.binds_low}"

    @property
    def chance_words(self) -> str:
        """What stands behind a chance in per cent: nothing, or which limits it leaves out."""
        return without_words(self.not_judged)

    def off_words(self, bore_mm: float) -> str:
        """What is wrong with a bore outside the window; empty inside it, and where no bore works."""
        if self.bore_low_mm is not None and bore_mm < self.bore_low_mm - _NOISE_MM:
            return f"bore under the smallest that works: {self.binds_low}"
        if self.bore_high_mm is not None and bore_mm > self.bore_high_mm + _NOISE_MM:
            return f"bore over the largest that works: {self.binds_high}"
        return ""

    @property
    def squeeze_low_pct(self) -> float:
        """Lower end of the band, per cent of the wall."""
        return self.band.low_pct

    @property
    def squeeze_high_pct(self) -> float:
        """Upper end of the band, per cent of the wall."""
        return self.band.high_pct

    @property
    def works_mm(self) -> tuple[float, float] | None:
        """Smallest and largest bore that works as a person keys them:
        hundredths inside the window, thousandths where it has none; None where no bore works.
        """
        if self.bore_low_mm is None or self.bore_high_mm is None:
            return None
        for per_mm in (100, 1000):
            low = math.ceil(self.bore_low_mm * per_mm - _NOISE_MM) / per_mm
            high = math.floor(self.bore_high_mm * per_mm + _NOISE_MM) / per_mm
            if low <= high:
                return low, high
        return self.bore_low_mm, self.bore_high_mm


def window_of(resolved: Resolved, made: RingSizes) -> Window:
    """The window for the outside diameter and height of a ring."""
    demands, height = resolved.demands, made.height_mm
    gap = demands.joint.gap_mm
    found = wall_limits(demands, height)
    (least, looser), (most, tighter) = ends(found, gap_mm=gap, height_mm=height)
    shut = Window(
        bore_low_mm=None,
        bore_high_mm=None,
        target_bore_mm=None,
        chance=0.0,
        binds_low=tighter.words,
        binds_high=looser.words,
        feasible=False,
        band=Band(high_pct=100.0 * demands.most_squeeze),
        not_judged=not_judged(demands, height),
    )
    if math.isfinite(least):
        landing = chance.Landing(
            found, gap_mm=gap, height_mm=height, spread=resolved.spread, least_mm=least, most_mm=most
        )
        shut = _with_chances(shut, landing, made, gap)
        if least <= most:
            shut = replace(shut, band=_band(least, most, gap))
            (least, looser), (most, tighter) = _as_tried(resolved, (least, looser), (most, tighter))
            shut = replace(shut, binds_low=tighter.words, binds_high=looser.words)
            if least > most:
                return replace(shut, shut_by_rings=_shut_words(looser, tighter), help=(AGAIN,))
            return _opened(shut, landing, made.outside_diameter_mm, (least, most), resolved)
    return _held_back(shut, resolved, made, gap)


def _held_back(shut: Window, resolved: Resolved, made: RingSizes, gap_mm: float) -> Window:
    """Where no bore works: after rings tried not even the ring by the rules of thumb, if it lies past what
    they said outright, or over the band.
    """
    known, wall = bounds(resolved.question.tried), made.wall_mm
    squeeze = squeeze_pct(wall_mm=wall, gap_mm=gap_mm)
    if resolved.question.bore_mm is not None or not resolved.question.tried:
        return shut
    if known.least_mm <= wall <= known.most_mm and squeeze <= shut.band.high_pct:
        return shut
    return replace(shut, shut_by_rings=f"no bore works after the rings tried: {AGAIN}", help=(AGAIN,))


def _band(least_mm: float, most_mm: float, gap_mm: float) -> Band:
    """The squeezes between two walls."""
    return Band(*(squeeze_pct(wall_mm=wall, gap_mm=gap_mm) for wall in (least_mm, most_mm)))


def _as_tried(resolved: Resolved, least: End, most: End) -> tuple[End, End]:
    """The least and the most wall that the rings tried leave: what the hand said outright
    is never aimed past, though it is no demand on the ring and enters no chance.
    """
    known = bounds(resolved.question.tried)
    if known.least_mm > least[0]:
        least = known.least_mm, Limit(known.least_words, False, lambda *_: known.least_mm)
    if known.most_mm < most[0]:
        most = known.most_mm, Limit(known.most_words, True, lambda *_: known.most_mm)
    return least, most


def _shut_words(looser: Limit, tighter: Limit) -> str:
    """Why what the rings tried have said leaves no bore."""
    return f"no bore is left between the wall {looser.words} and the most, {tighter.words}: {AGAIN}"


def _with_chances(shut: Window, landing: chance.Landing, made: RingSizes, gap: float) -> Window:
    """The chances of this ring and of the two rules of thumb."""
    outside = made.outside_diameter_mm
    thumb = rules_of_thumb(gap, outside_mm=outside)
    return replace(
        shut,
        ring_chance=landing.chance(made.wall_mm),
        tenth_chance=landing.chance((outside - hundredth(thumb.tenth_bore_mm)) / 2.0),
        nine_chance=landing.chance((outside - hundredth(thumb.nine_bore_mm)) / 2.0),
    )


def _opened(
    shut: Window, landing: chance.Landing, outside: float, walls: tuple[float, float], resolved: Resolved
) -> Window:
    """The window between the least and the most wall, with the best bore in it."""
    least, most = walls
    wall = landing.best_wall(least, most)
    target = landing.best_bore(
        outside - 2.0 * wall,
        outside_mm=outside,
        least_mm=least,
        most_mm=most,
        step_mm=resolved.question.lathe_step_mm,
    )
    on_step = landing.chance((outside - target) / 2.0)
    return replace(
        shut,
        bore_low_mm=outside - 2.0 * most,
        bore_high_mm=outside - 2.0 * least,
        target_bore_mm=target,
        chance=on_step,
        feasible=True,
        outside_low_mm=target + 2.0 * least,
        outside_high_mm=target + 2.0 * most,
        best_chance=max(landing.chance(wall), on_step),
        landing_sigma_mm=2.0 * resolved.spread.difference_mm,
    )

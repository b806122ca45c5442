"""How far off the bore may be cut: the window, the aim in it, the chance to land in it, and what follows.

Invariant: `size` is a pure function of the question; every verdict in the answer comes from the same limits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from rules import limits
from rules.checks import hundredth
from rules.measuring.budget import Line
from rules.sizing import advice, chance
from rules.sizing.band import Limit, Terms, band_limits
from rules.sizing.fit import Fit
from rules.sizing.glass import Pane, pane, smallest_support_ok
from rules.sizing.question import Case, Question, resolve
from rules.sizing.seated import seat
from rules.sizing.squeeze import Ring, Thumb, free_height_mm, propose, ring, rules_of_thumb

__all__ = ["Answer", "Question", "Window", "size"]

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
    """Standard deviation with which a cut lands, on the bore, measuring and turning together."""
    most_squeeze: float = limits.MOST_SQUEEZE
    """Upper end of the band, a part of the wall: less for plated and thin gold bezels."""
    help: tuple[str, ...] = ()
    """What would help, when no bore works or the chance is poor."""

    def off_words(self, bore_mm: float) -> str:
        """What is wrong with a bore outside the window; empty inside it, and where no bore works."""
        if self.bore_low_mm is not None and bore_mm < self.bore_low_mm - _NOISE_MM:
            return f"bore under the smallest that works: {self.binds_low}"
        if self.bore_high_mm is not None and bore_mm > self.bore_high_mm + _NOISE_MM:
            return f"bore over the largest that works: {self.binds_high}"
        return ""

    @property
    def works_mm(self) -> tuple[float, float] | None:
        """Smallest and largest bore that works as a person keys them: hundredths inside the window, thousandths
        where it has none; None where no bore works.
        """
        if self.bore_low_mm is None or self.bore_high_mm is None:
            return None
        for per_mm in (100, 1000):
            low = math.ceil(self.bore_low_mm * per_mm - _NOISE_MM) / per_mm
            high = math.floor(self.bore_high_mm * per_mm + _NOISE_MM) / per_mm
            if low <= high:
                return low, high
        return self.bore_low_mm, self.bore_high_mm


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything the sizing has to say."""

    ring: Ring
    """The one with the best chance in its window, by the rules of thumb where no bore works; or the one
    that was given.
    """
    fit: Fit
    window: Window
    consequences: advice.Consequences
    glass: Pane
    budget: tuple[Line, ...]
    """Of the radial interference, line by line."""
    interference_u_mm: float
    """Standard uncertainty of the radial interference, mm."""
    thumb: Thumb
    assumed: tuple[str, ...]
    warnings: tuple[str, ...]
    case: Case
    """The question made whole: sizes at 20 C, materials, surround."""
    question: Question
    """As it was asked."""


def _terms(question: Question, case: Case, height_mm: float | None) -> Terms:
    return Terms(
        joint=case.joint,
        height_mm=height_mm,
        ovality_mm=case.ovality_mm,
        overpressure_bar=question.overpressure_bar,
        press_force_n=question.press_force_n,
        room_mm=case.room_mm,
        case_wall_mm=question.case_wall_mm,
    )


def _ends(
    band: tuple[Limit, ...], gap: float, height: float
) -> tuple[tuple[float, Limit], tuple[float, Limit]]:
    """The least wall and the most wall, each with the limit that binds it."""
    walls = [(one.wall_mm(gap, height), one) for one in band]
    least = max((end for end in walls if not end[1].most), key=lambda end: end[0])
    most = min((end for end in walls if end[1].most), key=lambda end: end[0])
    return least, most


def window_of(question: Question, case: Case, made: Ring) -> Window:
    """The window for the outside diameter and height of a ring."""
    gap, height = case.joint.gap_mm, made.height_mm
    terms = _terms(question, case, height)
    band = band_limits(terms)
    (least, looser), (most, tighter) = _ends(band, gap, height or 0.0)
    shut = Window(None, None, None, 0.0, tighter.words, looser.words, False, most_squeeze=terms.most_squeeze)
    if math.isfinite(least):
        landing = chance.Landing(
            band,
            gap_mm=gap,
            height_mm=height,
            spread=chance.Spread(case.gap_sigma_mm, case.wall_sigma_mm, question.height_spread_mm),
            least_mm=least,
            most_mm=most,
        )
        outside = made.outside_diameter_mm
        thumb = _thumb(case, outside)
        shut = replace(
            shut,
            ring_chance=landing.chance(made.wall_mm),
            tenth_chance=landing.chance((outside - hundredth(thumb.tenth_bore_mm)) / 2.0),
            nine_chance=landing.chance((outside - hundredth(thumb.nine_bore_mm)) / 2.0),
        )
        if least <= most:
            found = _opened(shut, landing, outside, (least, most), question.lathe_step_mm)
            poor = found.best_chance < advice.POOR_CHANCE
            reliefs = (tighter.relief, looser.relief)
            return replace(
                found,
                landing_sigma_mm=2.0 * math.hypot(case.gap_sigma_mm, case.wall_sigma_mm),
                help=advice.measure_better(case, reliefs) if poor else (),
            )
    return replace(shut, help=_what_opens(question, case, height, (looser.words, tighter.words)))


def _thumb(case: Case, outside_mm: float) -> Thumb:
    """The rules of thumb as bores for this outside."""
    return rules_of_thumb(
        case_bore_mm=case.joint.case_bore_mm, glass_mm=case.joint.glass_mm, outside_mm=outside_mm
    )


def _opened(
    shut: Window, landing: chance.Landing, outside: float, walls: tuple[float, float], step: float
) -> Window:
    """The window between the least and the most wall, with the best bore in it."""
    least, most = walls
    wall = landing.best_wall(least, most)
    target = landing.best_bore(
        outside - 2.0 * wall, outside_mm=outside, least_mm=least, most_mm=most, step_mm=step
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
    )


def _what_opens(
    question: Question, case: Case, height_mm: float | None, clash: tuple[str, str]
) -> tuple[str, ...]:
    """What was tried and opens the window, in words."""

    def opens(changed: Question, other_height_mm: float | None) -> bool:
        other = resolve(changed)
        band = band_limits(_terms(changed, other, other_height_mm))
        (least, _), (most, _) = _ends(band, other.joint.gap_mm, other_height_mm or 0.0)
        return least <= most and math.isfinite(least)

    return advice.what_helps(question, case, height_mm, opens, clash)


def _ring(case: Case, outside_mm: float, bore_mm: float, height_mm: float | None) -> Ring:
    """A ring with its chamfers, from its sizes."""
    return ring(
        outside_mm=outside_mm,
        bore_mm=bore_mm,
        height_mm=height_mm,
        interference_mm=(outside_mm - bore_mm) / 2.0 - case.joint.gap_mm,
    )


def _proposed(question: Question, case: Case) -> tuple[Ring, Window]:
    """The ring with the best chance in its own window, as high as its squeeze allows; the one by the rules of
    thumb where no bore works.
    """
    place = case.joint
    made = propose(
        case_bore_mm=place.case_bore_mm,
        glass_mm=place.glass_mm,
        height_mm=question.height_mm,
        seat_depth_mm=question.seat_depth_mm,
        glass_edge_mm=question.glass_edge_mm,
        ovality_mm=case.ovality_mm,
        outside_mm=question.outside_mm,
    )
    window = window_of(question, case, made)
    while window.target_bore_mm is not None:
        made = _ring(case, made.outside_diameter_mm, window.target_bore_mm, made.height_mm)
        window = replace(window, ring_chance=window.chance)
        allowed = free_height_mm(
            seat_depth_mm=question.seat_depth_mm,
            glass_edge_mm=question.glass_edge_mm,
            squeeze=1.0 - place.gap_mm / made.wall_mm,
        )
        if question.height_mm is not None or not (made.height_mm or 0.0) > (allowed or 0.0):
            break
        lower = replace(made, height_mm=allowed)
        below = window_of(question, case, lower)
        if not below.feasible:
            break
        made, window = lower, below
    return made, window


def _asked_about(question: Question, case: Case) -> tuple[Ring, Window]:
    """The ring that is asked about, given or proposed, and its window."""
    if question.outside_mm is None or question.bore_mm is None:
        return _proposed(question, case)
    limits.thick_enough((question.outside_mm - question.bore_mm) / 2.0)
    made = _ring(case, question.outside_mm, question.bore_mm, question.height_mm)
    return made, window_of(question, case, made)


def size(question: Question) -> Answer:
    """Ring, window, consequences, glass and budget for one job; raises OutOfRange.

    Range: limits.RANGES. The model's validity stands in `strip`; what was assumed is listed in the answer.
    """
    case = resolve(question)
    smallest_support_ok(question.support_mm, question.glass_mm)
    made, window = _asked_about(question, case)
    fit = seat(case.joint, wall_mm=made.wall_mm, height_mm=made.height_mm)
    under_test = pane(
        glass=case.joint.glass,
        glass_mm=case.joint.glass_mm,
        thickness_mm=question.glass_thickness_mm,
        overpressure_bar=question.overpressure_bar,
        support_mm=question.support_mm,
        domed=question.glass_domed,
    )
    consequences = advice.consequences(question, case, made, fit)
    return Answer(
        ring=made,
        fit=fit,
        window=window,
        consequences=consequences,
        glass=under_test,
        budget=case.budget.lines,
        interference_u_mm=case.budget.u_mm,
        thumb=_thumb(case, made.outside_diameter_mm),
        assumed=case.assumed,
        warnings=advice.warnings(
            question, case, made, fit, feasible=window.feasible, off_words=window.off_words(made.bore_mm)
        ),
        case=case,
        question=question,
    )

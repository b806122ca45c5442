"""How far off the bore may be cut: the window, the aim in it, the chance to land in it, and what follows.

Invariant: `size` is a pure function of the question; every verdict in the answer comes from the same limits.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules import limits
from rules.measuring.budget import Line
from rules.sizing import advice, chance
from rules.sizing.band import Limit, Terms, band_limits
from rules.sizing.fit import Fit
from rules.sizing.glass import Pane, pane, smallest_support_ok
from rules.sizing.question import Case, Question, resolve
from rules.sizing.seated import seat
from rules.sizing.squeeze import Ring, Thumb, propose, ring, rules_of_thumb

__all__ = ["Answer", "Question", "Window", "size"]


@dataclass(frozen=True, slots=True)
class Window:
    """The bores that work, for the ring's outside diameter; None where no bore works."""

    bore_low_mm: float | None
    """Smaller bores are too tight."""
    bore_high_mm: float | None
    """Larger bores are too loose."""
    target_bore_mm: float | None
    """The bore with the greatest chance, on a step of the lathe."""
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
    best_chance: float = 0.0
    """At the best bore, not rounded to a step."""
    landing_sigma_mm: float = 0.0
    """Standard deviation with which a cut lands, on the bore, measuring and turning together."""
    help: tuple[str, ...] = ()
    """What would help, when no bore works or the chance is poor."""


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything the sizing has to say."""

    ring: Ring
    """The ring by the rules of thumb, or the one that was given."""
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
    band = band_limits(_terms(question, case, height))
    (least, looser), (most, tighter) = _ends(band, gap, height or 0.0)
    if not math.isfinite(least):
        help_words = _what_opens(question, case, height, (looser.words, tighter.words))
        return Window(None, None, None, 0.0, tighter.words, looser.words, False, help=help_words)
    landing = chance.Landing(
        band,
        gap_mm=gap,
        height_mm=height,
        spread=chance.Spread(case.gap_sigma_mm, case.wall_sigma_mm, question.height_spread_mm),
        least_mm=least,
        most_mm=most,
    )
    here = landing.chance(made.wall_mm)
    if not least <= most:
        help_words = _what_opens(question, case, height, (looser.words, tighter.words))
        return Window(
            None, None, None, 0.0, tighter.words, looser.words, False, ring_chance=here, help=help_words
        )
    wall = landing.best_wall(least, most)
    outside, step = made.outside_diameter_mm, question.lathe_step_mm
    exact = outside - 2.0 * wall
    aims = [math.floor(exact / step) * step, math.ceil(exact / step) * step]
    target = min(aims, key=lambda bore: landing.risk((outside - bore) / 2.0, (most - least) / 50.0))
    target = round(target, 6)
    on_step = landing.chance((outside - target) / 2.0)
    best = max(landing.chance(wall), on_step)
    poor = best < advice.POOR_CHANCE
    return Window(
        bore_low_mm=outside - 2.0 * most,
        bore_high_mm=outside - 2.0 * least,
        target_bore_mm=target,
        chance=on_step,
        binds_low=tighter.words,
        binds_high=looser.words,
        feasible=True,
        outside_low_mm=target + 2.0 * least,
        outside_high_mm=target + 2.0 * most,
        ring_chance=here,
        best_chance=best,
        landing_sigma_mm=2.0 * math.hypot(case.gap_sigma_mm, case.wall_sigma_mm),
        help=advice.measure_better(case, (tighter.relief, looser.relief)) if poor else (),
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


def _ring(question: Question, case: Case) -> Ring:
    """The ring that is asked about: given, or proposed."""
    place = case.joint
    if question.outside_mm is None or question.bore_mm is None:
        return propose(
            case_bore_mm=place.case_bore_mm,
            glass_mm=place.glass_mm,
            height_mm=question.height_mm,
            seat_depth_mm=question.seat_depth_mm,
            glass_edge_mm=question.glass_edge_mm,
            ovality_mm=case.ovality_mm,
        )
    wall = (question.outside_mm - question.bore_mm) / 2.0
    limits.thick_enough(wall)
    return ring(
        outside_mm=question.outside_mm,
        bore_mm=question.bore_mm,
        height_mm=question.height_mm,
        interference_mm=wall - place.gap_mm,
    )


def size(question: Question) -> Answer:
    """Ring, window, consequences, glass and budget for one job; raises OutOfRange.

    Range: limits.RANGES. The model's validity stands in `strip`; what was assumed is listed in the answer.
    """
    case = resolve(question)
    made = _ring(question, case)
    smallest_support_ok(question.support_mm, question.glass_mm)
    fit = seat(case.joint, wall_mm=made.wall_mm, height_mm=made.height_mm)
    window = window_of(question, case, made)
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
        thumb=rules_of_thumb(case_bore_mm=case.joint.case_bore_mm, glass_mm=case.joint.glass_mm),
        assumed=case.assumed,
        warnings=advice.warnings(question, case, made, fit, window.feasible),
        case=case,
        question=question,
    )

"""The ring that fits a seat and a glass, and everything the sizing has to say of it.

Invariant: `size` is a pure function of the question; every verdict in it comes from the same limits.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules.ring import RingSizes
from rules.sizing import advice
from rules.sizing.fit import Fit
from rules.sizing.glass import Pane, pane
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import Resolved, resolve
from rules.sizing.seated import seat
from rules.sizing.thumb import Thumb, free_height_mm, propose, ring, rules_of_thumb
from rules.sizing.window import Window, window_of


@dataclass(frozen=True, slots=True)
class Sizing:
    """Everything the sizing has to say."""

    ring: RingSizes
    """The one with the best chance in its window, by the rules of thumb where no bore works; or the one
    that was given.
    """
    fit: Fit
    window: Window
    consequences: advice.Consequences
    glass: Pane
    thumb: Thumb
    warnings: tuple[str, ...]
    resolved: Resolved
    """The question, its sizes at 20 C, materials, surround, budget of the radial interference."""


def _proposed(resolved: Resolved) -> tuple[RingSizes, Window]:
    """The ring with the best chance in its own window, as high as its squeeze allows; the one by the rules of
    thumb where no bore works.
    """
    question, joint = resolved.question, resolved.joint
    room, gap = resolved.demands.room_mm, joint.gap_mm
    made = propose(
        case_bore_mm=joint.case_bore_mm,
        glass_mm=joint.glass_mm,
        height_mm=question.height_mm,
        room_mm=room,
        ovality_mm=resolved.demands.ovality_mm,
        outside_mm=question.outside_mm,
        learned_mm=joint.learned_mm,
    )
    window = window_of(resolved, made)
    while window.target_bore_mm is not None:
        outside, height = made.outside_diameter_mm, made.height_mm
        made = ring(outside_mm=outside, bore_mm=window.target_bore_mm, height_mm=height, gap=gap)
        window = replace(window, ring_chance=window.chance)
        allowed = free_height_mm(room, 1.0 - gap / made.wall_mm)
        if question.height_mm is not None or not (height or 0.0) > (allowed or 0.0):
            break
        lower = replace(made, height_mm=allowed)
        below = window_of(resolved, lower)
        if not below.feasible:
            break
        made, window = lower, below
    return made, window


def _asked_about(resolved: Resolved) -> tuple[RingSizes, Window]:
    """The ring that is asked about, given or proposed, and its window."""
    outside, bore = resolved.question.outside_mm, resolved.question.bore_mm
    if outside is None or bore is None:
        return _proposed(resolved)
    height, gap = resolved.question.height_mm, resolved.joint.gap_mm
    made = ring(outside_mm=outside, bore_mm=bore, height_mm=height, gap=gap)
    return made, window_of(resolved, made)


def size(question: SizingQuestion) -> Sizing:
    """Ring, window, consequences, glass and budget for one job.

    Raises OutOfRange for a material that is not in the tables and a wall too thin to turn.
    The model's validity stands in `strip`; what was assumed is listed in the answer.
    """
    resolved = resolve(question)
    joint = resolved.joint
    made, window = _asked_about(resolved)
    if resolved.believed != resolved.measured:
        before = window_of(resolve(replace(question, tried=())), made)
        window = replace(window, chance_before=before.ring_chance)
    fit = seat(joint, wall_mm=made.wall_mm, height_mm=made.height_mm)
    return Sizing(
        ring=made,
        fit=fit,
        window=window,
        consequences=advice.consequences(resolved, made, fit),
        glass=pane(
            glass=joint.glass,
            glass_mm=joint.glass_mm,
            thickness_mm=question.glass_thickness_mm,
            overpressure_bar=question.overpressure_bar,
            support_mm=question.support_mm,
            domed=question.glass_domed,
        ),
        thumb=rules_of_thumb(joint.gap_mm, outside_mm=made.outside_diameter_mm),
        warnings=advice.warnings(resolved, made, fit, window),
        resolved=resolved,
    )

"""The ring that fits a seat and a glass, and everything the sizing has to say of it.

Invariant: `size` is a pure function of the question; every verdict in it comes from the same limits.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules.ring import RingSizes
from rules.sizing import advice, remedies
from rules.sizing.fit import Fit
from rules.sizing.glass import Pane, pane
from rules.sizing.proposal import asked_about
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import Resolved, resolve
from rules.sizing.seated import seat
from rules.sizing.thumb import Thumb, rules_of_thumb
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
    remedies: tuple[remedies.Remedy, ...] = ()
    """What raises the chance, where no bore works or the chance is poor; most first."""


def size(question: SizingQuestion) -> Sizing:
    """Ring, window, consequences, glass and budget for one job.

    Raises OutOfRange for a material that is not in the tables and a wall too thin to turn.
    The model's validity stands in `strip`; what was assumed is listed in the answer.
    """
    resolved = resolve(question)
    joint = resolved.joint
    made, window = asked_about(resolved)
    if resolved.believed != resolved.measured:
        before = window_of(resolve(replace(question, tried=())), made)
        window = replace(window, chance_before=before.ring_chance)
    found, window = remedies.advised(resolved, window)
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
        warnings=advice.warnings(resolved, made, fit, window, truing=remedies.truing_words(resolved, window)),
        resolved=resolved,
        remedies=found,
    )

"""The ring that is proposed to a question, or given with it, and its window.

Invariant: a proposed ring lies in its own window wherever there is one.
"""

from __future__ import annotations

from dataclasses import replace

from rules.ring import RingSizes
from rules.sizing.resolved import Resolved
from rules.sizing.thumb import free_height_mm, propose, ring
from rules.sizing.window import Window, window_of


def proposed(resolved: Resolved) -> tuple[RingSizes, Window]:
    """The ring with the best chance in its own window, as high as its squeeze allows; the one by the rules of
    thumb where no bore works. Raises OutOfRange for a wall too thin to turn.
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


def asked_about(resolved: Resolved) -> tuple[RingSizes, Window]:
    """The ring that is asked about, given or proposed, and its window."""
    outside, bore = resolved.question.outside_mm, resolved.question.bore_mm
    if outside is None or bore is None:
        return proposed(resolved)
    height, gap = resolved.question.height_mm, resolved.joint.gap_mm
    made = ring(outside_mm=outside, bore_mm=bore, height_mm=height, gap=gap)
    return made, window_of(resolved, made)

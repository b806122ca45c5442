"""What the figures mean at the bench: consequences and warnings, in the trade's words.

Invariant: words are made from the answer's own figures; no warning says the opposite of another.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules import limits, strip
from rules.ring import RingSizes
from rules.sizing import climate, pressing
from rules.sizing.fit import Fit
from rules.sizing.resolved import Resolved
from rules.sizing.window import Window

SWELLS_FROM = 0.01
"""Growth when saturated from which a plastic is said to swell (own judgement)."""


@dataclass(frozen=True, slots=True)
class Consequences:
    """What follows from the fit. None means not known."""

    force_words: str
    """What seats the glass."""
    stretch_words: str
    """What the bezel does."""
    chamfer_needed_mm: float
    """Least width of the entry chamfer for the glass edge."""
    room_left_mm: float | None
    """Height left above the grown ring."""
    swelling_um: float | None
    """How much thicker the wall grows when saturated with water."""
    model_words: str
    """How far the model can be trusted here."""


def _trust(fit: Fit, friction: float) -> str:
    """Validity of the model for these proportions."""
    if fit.height_over_wall is None:
        return ""
    ratio = fit.height_over_wall
    if ratio > strip.FAR_HEIGHT_RATIO:
        return f"ring {ratio:.1f} times as high as its wall: outside the range the model was compared in"
    if friction > strip.TRIED_FRICTION:
        return f"friction {friction:g}: above the range the model was compared in"
    about = f"about +-{strip.PROMISED_PCT:.0f} % (own judgement, not tried at the bench)"
    if ratio > strip.HIGH_RATIO:
        low = f"reads up to {strip.HIGH_READS_LOW_PCT:.0f} % low"
        return f"ring {ratio:.1f} times as high as its wall: {low}, besides {about}"
    return f"estimate, {about}"


def what_is_missing(resolved: Resolved, made: RingSizes) -> str:
    """Why force, pressure and bezel are not known; empty when they are."""
    joint = resolved.joint
    if joint.metal is not None and joint.metal.youngs_modulus_mpa is None:
        return f"{joint.metal.name}: not computed"
    if joint.plastic.stress_cap_mpa is None or joint.plastic.youngs_modulus_mpa is None:
        return f"how {joint.plastic.name} takes a squeeze is not known"
    missing = [] if made.height_mm is not None else ["height of the ring"]
    if joint.around is None:
        missing.append("metal, wall and height of the case")
    return f"needs {' and '.join(missing)}" if missing else ""


def consequences(resolved: Resolved, made: RingSizes, fit: Fit) -> Consequences:
    """What the fit means for press, bezel, chamfer, room and years."""
    joint = resolved.joint
    force, room = fit.answer.seating_force_n.mid, resolved.demands.room_mm
    left, growth = None, fit.answer.axial_growth_mm
    if room is not None and made.height_mm is not None and growth is not None:
        left = room - made.height_mm - growth
    return Consequences(
        force_words="not known" if force is None or joint.rigid else pressing.force_words(force),
        stretch_words=pressing.stretch_words(
            fit.case_yields,
            brittle=bool(joint.metal and joint.metal.brittle),
            unknown=fit.case_hoop_stress_mpa is None,
        ),
        chamfer_needed_mm=pressing.entry_chamfer_mm(
            interference_mm=fit.interference_mm,
            glass_mm=joint.glass_mm,
            edge_mm=resolved.question.glass_edge_mm,
        ),
        room_left_mm=left,
        swelling_um=climate.swelling_um(plastic=joint.plastic, wall_mm=made.wall_mm),
        model_words=_trust(fit, joint.friction),
    )


Remark = tuple[bool | None, str]
"""Whether a warning is due, and its words."""


def _about_parts(resolved: Resolved, truing: str) -> tuple[Remark, ...]:
    """Warnings about the parts themselves; `truing`: what truing the seat would bring."""
    joint, question, ovality = resolved.joint, resolved.question, resolved.demands.ovality_mm
    plastic, edge = joint.plastic, question.glass_edge_mm
    return (
        (
            joint.gap_mm > limits.LARGE_GAP_MM + 1e-9,
            f"gap over {limits.LARGE_GAP_MM:g} mm: is this the right glass, or a ring with a foot?",
        ),
        (bool(truing), f"seat {ovality:.2f} mm out of round: {truing}"),
        (not plastic.advised, f"{plastic.name} creeps: not advised for this ring"),
        (
            (plastic.water_growth or 0.0) >= SWELLS_FROM,
            f"{plastic.name} swells in water: not the ring that was measured",
        ),
        (
            joint.metal is not None and joint.metal.key == "plastic",
            "plastic case: softer than the ring, not computed; fit by thumb",
        ),
        (
            joint.glass is not None and joint.glass.key == "acrylic",
            "acrylic is normally held by its own spring or a metal tension ring",
        ),
        (
            edge is not None and edge < limits.SHORT_EDGE_MM,
            f"straight edge of the glass under {limits.SHORT_EDGE_MM:g} mm: little for the ring to hold",
        ),
        (
            question.old_glass == "other",
            "new glass thinner than the old one or of other material: the old marking may not hold",
        ),
    )


def _about_squeeze(fit: Fit, most_squeeze: float, off_words: str) -> str:
    """What is wrong with the squeeze, or else with the bore beside its window; empty when nothing is."""
    squeeze, least, most = fit.nominal_squeeze_pct, 100.0 * limits.LEAST_SQUEEZE, 100.0 * limits.MOST_SQUEEZE
    if fit.interference_mm <= 0.0:
        return "the ring is loose: it holds nothing"
    if squeeze < least - 1e-6:
        return f"squeeze {_apart(squeeze, least)} %, under {least:g} %: it may leak"
    if squeeze > most + 1e-6:
        allowed = 100.0 * most_squeeze
        return f"squeeze {_apart(squeeze, allowed)} %, over {allowed:g} %: may shave, or crack glass or bezel"
    return off_words


def _apart(value: float, limit: float) -> str:
    """A value with as many places, from one on, as tell it from a limit.

    >>> _apart(14.38, 13.0), _apart(4.98, 5.0)
    ('14.4', '4.98')
    """
    told = (f"{value:.{places}f}" for places in range(1, 7))
    return next((text for text in told if float(text) != limit), f"{value:.1f}")


def _about_years(fit: Fit) -> str:
    """What a bezel that may stay stretched leaves of the pressure; empty where that is enough, or where the
    figures of a bezel that springs back are too low themselves.
    """
    least, years = limits.LEAST_PRESSURE_MPA, fit.ten_years_mpa
    if fit.perhaps is None or years is None or not years[0] < least <= years[1]:
        return ""
    left = _apart(years[0], least)
    return f"if the bezel stays stretched, about {left} MPa are left after ten years, under {least:g}"


def _about_ring(resolved: Resolved, made: RingSizes, fit: Fit, window: Window) -> tuple[Remark, ...]:
    """Warnings about the ring, its height and what it takes to press it in."""
    height, least_height = made.height_mm, limits.RANGES["height"][0]
    over = made.outside_diameter_mm - resolved.joint.case_bore_mm
    room, press = resolved.demands.room_mm, resolved.demands.press_force_n
    force = None if resolved.joint.rigid else fit.answer.seating_force_n.mid
    growth = fit.answer.axial_growth_mm or 0.0
    years = _about_years(fit)
    squeeze = _about_squeeze(fit, resolved.demands.most_squeeze, window.off_words(made.bore_mm))
    return (
        (
            made.wall_mm < limits.SLIGHT_WALL_MM,
            f"wall under {limits.SLIGHT_WALL_MM:.2f} mm: hard to turn, part and measure",
        ),
        (
            height is not None and height < least_height,
            f"ring under {least_height:g} mm high: the seat or the glass edge is too shallow for it",
        ),
        (bool(squeeze), squeeze),
        (
            abs(over) > limits.OUTSIDE_OFF_MM + 1e-9,
            f"outside {'larger' if over > 0.0 else 'smaller'} than the seat by more than "
            f"{limits.OUTSIDE_OFF_MM:g} mm",
        ),
        (not window.feasible, "no bore meets every requirement"),
        (bool(years), years),
        (
            fit.case_yields,
            "the bezel will stay stretched: support it under the seat, or a smaller squeeze",
        ),
        (
            room is not None and height is not None and height + growth > room + 1e-9,
            "the pressed ring is higher than its room: it stands proud or keeps the glass up",
        ),
        (
            force is not None and press is not None and force > press,
            f"needs about {force or 0.0:.0f} N, more than the press gives ({press or 0.0:g} N)",
        ),
    )


def warnings(
    resolved: Resolved, made: RingSizes, fit: Fit, window: Window, *, truing: str = ""
) -> tuple[str, ...]:
    """Everything that needs a second look, few and in order: parts, ring, height, press."""
    rows = (*_about_parts(resolved, truing), *_about_ring(resolved, made, fit, window))
    return tuple(words for due, words in rows if due)

"""What the figures mean at the bench: consequences, warnings and what would help, in the trade's words.

Invariant: words are made from the answer's own figures; no warning says the opposite of another.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules import limits
from rules.ring import RingSizes
from rules.sizing import climate, pressing, strip
from rules.sizing.demands import Demands, some_wall_works
from rules.sizing.fit import Fit
from rules.sizing.resolved import Resolved
from rules.tables import plastics

POOR_CHANCE = 0.5
"""Under this even chance the aim is not worth cutting for (own judgement)."""
SWELLS_FROM = 0.01
"""Growth when saturated from which a plastic is said to swell (own judgement)."""


@dataclass(frozen=True, slots=True)
class Consequences:
    """What follows from the fit. None means not known."""

    force_words: str
    """What seats the glass."""
    stretch_words: str
    """What the bezel does."""
    entry: pressing.EntryChamfer
    """Whether the entry chamfer takes the glass edge."""
    room_left_mm: float | None
    """Height left above the grown ring."""
    swelling_um: float | None
    """How much thicker the wall grows when saturated with water."""
    model_words: str
    """How far the model is to be trusted here."""


def _trust(fit: Fit, friction: float) -> str:
    """Validity of the model for these proportions."""
    if fit.height_over_wall is None:
        return ""
    ratio = fit.height_over_wall
    if ratio > strip.FAR_HEIGHT_RATIO:
        return f"ring {ratio:.1f} times as high as its wall: outside the range the model was compared in"
    if friction > strip.TRIED_FRICTION:
        return f"friction {friction:g}: above the range the model was compared in"
    return "estimate, about +-25 % (own judgement, not tried at the bench)"


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
    force, room = fit.seating_force_n.mid, resolved.demands.room_mm
    left = None
    if room is not None and made.height_mm is not None and fit.axial_growth_mm is not None:
        left = room - made.height_mm - fit.axial_growth_mm
    return Consequences(
        force_words="not known" if force is None or joint.rigid else pressing.force_words(force),
        stretch_words=pressing.stretch_words(
            fit.case_yields,
            brittle=bool(joint.metal and joint.metal.brittle),
            unknown=fit.case_hoop_stress_mpa is None,
        ),
        entry=pressing.entry(
            chamfer_mm=made.chamfer_mm,
            interference_mm=fit.interference_mm,
            glass_mm=joint.glass_mm,
            edge_mm=resolved.question.glass_edge_mm,
        ),
        room_left_mm=left,
        swelling_um=climate.swelling_um(plastic=joint.plastic, wall_mm=made.wall_mm),
        model_words=_trust(fit, joint.friction),
    )


def _about_parts(resolved: Resolved) -> list[str]:
    """Warnings about the parts themselves."""
    joint, question, ovality = resolved.joint, resolved.question, resolved.demands.ovality_mm
    said = []
    if joint.gap_mm > limits.LARGE_GAP_MM:
        said.append(f"gap over {limits.LARGE_GAP_MM:g} mm: is this the right glass, or a ring with a foot?")
    if ovality > limits.OVAL_MM:
        said.append(f"seat {ovality:.2f} mm out of round: true the bezel first")
    if not joint.plastic.advised:
        said.append(f"{joint.plastic.name} creeps: not advised for this ring")
    if (joint.plastic.water_growth or 0.0) >= SWELLS_FROM:
        said.append(f"{joint.plastic.name} swells in water: not the ring that was measured")
    if joint.metal is not None and joint.metal.key == "plastic":
        said.append("plastic case: gives more than the ring, not computed; fit by thumb")
    if joint.glass is not None and joint.glass.key == "acrylic":
        said.append("acrylic is normally held by its own spring or a metal tension ring")
    if question.glass_edge_mm is not None and question.glass_edge_mm < limits.SHORT_EDGE_MM:
        said.append(
            f"straight edge of the glass under {limits.SHORT_EDGE_MM:g} mm: little for the ring to hold"
        )
    if question.old_glass == "other":
        said.append("new glass thinner than the old one or of other material: the old marking may not hold")
    return said


def _about_ring(resolved: Resolved, made: RingSizes, fit: Fit, feasible: bool, off_words: str) -> list[str]:
    """Warnings about the ring; off_words: what is wrong with its bore beside its window."""
    joint, said = resolved.joint, []
    if made.wall_mm < limits.SLIGHT_WALL_MM:
        said.append(f"wall under {limits.SLIGHT_WALL_MM:.2f} mm: hard to turn, part and measure")
    least = 100.0 * limits.LEAST_SQUEEZE
    least_height = limits.RANGES["height"][0]
    if made.height_mm is not None and made.height_mm < least_height:
        said.append(f"ring under {least_height:g} mm high: the seat or the glass edge is too shallow for it")
    if fit.interference_mm <= 0.0:
        said.append("the ring is loose: it holds nothing")
    elif fit.nominal_squeeze_pct < least - 1e-6:
        said.append(f"squeeze {fit.nominal_squeeze_pct:.1f} %, under {least:g} %: it may leak")
    elif fit.nominal_squeeze_pct > 100.0 * limits.MOST_SQUEEZE + 1e-6:
        most = 100.0 * resolved.demands.most_squeeze
        said.append(
            f"squeeze {fit.nominal_squeeze_pct:.1f} %, over {most:g} %: may shave, or crack glass or bezel"
        )
    elif off_words:
        said.append(off_words)
    if abs(made.outside_diameter_mm - joint.case_bore_mm) > limits.OUTSIDE_OFF_MM:
        side = "larger" if made.outside_diameter_mm > joint.case_bore_mm else "smaller"
        said.append(f"outside {side} than the seat by more than {limits.OUTSIDE_OFF_MM:g} mm")
    if not feasible:
        said.append("no bore meets every requirement")
    if fit.case_yields:
        said.append("the bezel will stay stretched: support it under the seat, or a smaller squeeze")
    return said


def warnings(
    resolved: Resolved, made: RingSizes, fit: Fit, *, feasible: bool, off_words: str
) -> tuple[str, ...]:
    """Everything that wants a second look, few and in order: parts, ring, height, press."""
    said = _about_parts(resolved) + _about_ring(resolved, made, fit, feasible, off_words)
    room, press = resolved.demands.room_mm, resolved.demands.press_force_n
    if room is not None and made.height_mm is not None:
        growth = fit.axial_growth_mm or 0.0
        if made.height_mm + growth > room + 1e-9:
            said.append("the pressed ring is higher than its room: it stands proud or keeps the glass up")
    force = fit.seating_force_n.mid
    if force is not None and press is not None and not resolved.joint.rigid and force > press:
        said.append(f"needs about {force:.0f} N, more than the press gives ({press:g} N)")
    return tuple(said)


def measure_better(resolved: Resolved, reliefs: tuple[str, ...]) -> tuple[str, ...]:
    """What to work on when the window is there but the chance is poor: the budget, and what binds."""
    worst = max(resolved.budget.components, key=lambda one: one.share)
    words = {
        "case bore": "measure the seat more closely: compare with a micrometer, or turn a stepped plug",
        "glass": "measure the glass with a micrometer",
        "turning": "measure the wall before the last pass and correct it",
        "temperature": "let case, glass and instruments stand together until they are equally warm",
    }
    return (words[worst.name], *(relief for relief in reliefs if relief))


Change = tuple[str, Demands, float | None]
"""Words, the changed demands and the height of the ring."""


def _changes(demands: Demands, height_mm: float | None) -> list[Change]:
    """What could be done differently, simplest first."""
    joint = demands.joint
    tried: list[Change] = []
    if demands.ovality_mm > 0.0:
        tried.append(("true the bezel first", replace(demands, ovality_mm=0.0), height_mm))
    if demands.press_force_n is not None:
        tried.append(("a stronger press", replace(demands, press_force_n=None), height_mm))
    if joint.case_yield_mpa is not None:
        held = replace(demands, joint=replace(joint, case_yield_mpa=None))
        tried.append(("support the bezel under the seat while pressing", held, height_mm))
    low, high, _ = limits.RANGES["height"]
    for factor, words in ((0.75, "a lower ring"), (1.33, "a higher ring")):
        if height_mm is not None and low <= height_mm * factor <= high:
            other = height_mm * factor
            tried.append((f"{words}, about {other:.1f} mm", demands, other))
    if demands.overpressure_bar:
        words = "a lower test pressure, and venting slowly"
        tried.append((words, replace(demands, overpressure_bar=None), height_mm))
    for plastic in plastics().values():
        if plastic.advised and plastic.key != joint.plastic.key:
            other_joint = replace(joint, plastic=plastic)
            tried.append((f"another plastic: {plastic.name}", replace(demands, joint=other_joint), height_mm))
    return tried


def what_helps(demands: Demands, height_mm: float | None, clash: tuple[str, str]) -> tuple[str, ...]:
    """Changes that were tried and open the window: alone, or else two together; of plastics the first."""
    tried = _changes(demands, height_mm)
    found = [words for words, changed, height in tried if some_wall_works(changed, height)]
    others = [words for words in found if words.startswith("another plastic")]
    found = [words for words in found if words not in others[1:]]
    if found:
        return tuple(found)
    for k, (words, changed, height) in enumerate(tried[:4]):
        for more, further, other_height in _changes(changed, height)[k:]:
            if more != words and some_wall_works(further, other_height):
                return (f"{words}, and {more}",)
    return (f"nothing tried helps: {clash[0]} and {clash[1]} cannot both be met; check the sizes",)

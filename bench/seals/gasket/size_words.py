"""How a proposed gasket is put before the repairer: sizes, squeeze, force, what binds, what would help.

Invariant: every figure that is shown is one of the sizing; a range is said as a range.
"""

from __future__ import annotations

from bench.job.job import Job
from bench.job.steps import Choice, Gauge, Picture, Step, Why, Words
from bench.seals.gasket import own_keys
from bench.seals.gasket.decided import decided_words
from bench.seals.gasket.measure import RoomMeasured
from bench.seals.gasket.size_steps import RUBBER_WORKS, SAID
from rules.checks import fixed, span
from rules.gasket.law import RubberLaw
from rules.gasket.materials import SEATING_MPA, TURNED
from rules.gasket.needs import MOST_FILL, STANDS_MM
from rules.gasket.sizing import GasketSizing
from rules.lengths import bare, length, short, translated

MPA_PER_BAR = 0.1


def gasket_step(job: Job, measured: RoomMeasured, sizing: GasketSizing, rests: Words) -> Step:
    """The step on which a gasket is accepted, or another one keyed."""
    other = own_keys.THICKNESS_WANTED if sizing.question.way == TURNED else own_keys.SHEET
    thick = "another thickness" if sizing.question.way == TURNED else "a sheet that I have, measured"
    return Step(
        key=own_keys.ACCEPTED,
        stage="size",
        kind="choice",
        title=f"Gasket {job.attempt}: accept it?" if job.attempt > 1 else "The gasket: accept it?",
        say=(size_line(sizing), squeeze_line(sizing)),
        consequence=(*checks(sizing), *follows(measured, sizing)),
        choices=(
            Choice("accept", "accept it", with_it=decided_words(measured, sizing)),
            Choice("thickness", thick, goto=other),
            Choice("width", "another width", goto=own_keys.WIDTH_WANTED),
            Choice("material", "another material", goto=own_keys.MATERIAL),
            Choice("way", "made in another way", goto=own_keys.WAY),
        ),
        gauge=window_gauge(sizing),
        picture=section(sizing),
        rests_on=rests,
        waits_for="a gasket to be accepted",
        why=why(sizing),
        figures=figures(measured, sizing),
    )


def size_line(sizing: GasketSizing) -> str:
    """The sizes, what it is made of and how."""
    one, question = sizing.sizes, sizing.question
    sizes = f"outside {bare(one.outside_mm)}, inside {bare(one.inside_mm)}, thick {bare(one.thick_mm)}"
    return f"{sizes} ({short()}), {question.material.name}, {SAID[question.way]}"


def squeeze_line(sizing: GasketSizing) -> str:
    """How far it is squeezed, by what, and how full its room is then."""
    state, one = sizing.state, sizing.question.material
    works = f" ({RUBBER_WORKS} works)" if one.rubber else ""
    by = "the stop squeezes it" if sizing.question.room.stopped else "the force squeezes it"
    room = f"fills {100 * state.fill:.0f} % of its room ({100 * MOST_FILL:.0f} at most)"
    return f"{by} to {length(state.height_mm)}: {100 * state.squeeze:.1f} %{works}; {room}"


def checks(sizing: GasketSizing) -> Words:
    """What is to be looked at before it is made."""
    return tuple(f"CHECK  {text}" for text in sizing.warnings)


def follows(measured: RoomMeasured, sizing: GasketSizing) -> Words:
    """Window and chance, force, pressure, and what would help."""
    lines, window = [], sizing.window
    chance = f"chance that yours meets every need {100 * sizing.chance:.0f} %"
    if window is None:
        lines.append(f"no thickness meets every need at this width; {chance}")
    else:
        low, high = bare(window.low_mm), bare(window.high_mm)
        lines.append(
            f"thicknesses that work: {low} (thinner: {window.binds_low}) to {high} "
            f"(thicker: {window.binds_high}); {chance}"
        )
    drive = measured.drive
    gives = f"{translated(drive.words)}, gives {span(drive.low_n, drive.high_n)} N"
    takes = f"it takes {span(*sizing.forces_n)} N" if measured.room.stopped else "it takes all of it"
    lines.append(f"{gives}; {takes}")
    lines.append(pressing(sizing))
    lines += [f"it would help: {text}" for text in sizing.help[:2]]
    return tuple(lines)


def pressing(sizing: GasketSizing) -> str:
    """How hard it presses, now and after years, beside the water."""
    low, high = (fixed(value, 1) for value in sizing.pressures_mpa)
    now = low if low == high else f"{low} to {high}"
    later = sizing.later_mpa
    after = "" if later is None else f", after years about {fixed(min(later), 1)}"
    return f"presses with {now} MPa{after} (estimate); water at 10 bar presses with {10 * MPA_PER_BAR:.0f}"


def window_gauge(sizing: GasketSizing) -> Gauge | None:
    """The thicknesses that work, and the one proposed."""
    window = sizing.window
    if window is None or window.low_mm == window.high_mm:
        return None
    spread = 2.0 * sizing.question.thick_u_mm(sizing.sizes.thick_mm)
    words = ("too thin", "works", "too thick")
    return Gauge(window.low_mm, window.high_mm, sizing.sizes.thick_mm, words, half_width=spread)


def section(sizing: GasketSizing) -> Picture:
    """The numbers of the gasket in its room."""
    room, one = sizing.question.room, sizing.sizes
    return Picture(
        "gasket",
        (
            ("room_outside_mm", room.outside_mm),
            ("room_inside_mm", room.inside_mm),
            ("room_height_mm", room.height_mm),
            ("outside_mm", one.outside_mm),
            ("inside_mm", one.inside_mm),
            ("thick_mm", one.thick_mm),
            ("stopped", float(room.stopped)),
            ("walled", float(room.walled)),
        ),
    )


def why(sizing: GasketSizing) -> str:
    """What the proposal follows from."""
    if sizing.question.material.rubber:
        needs = (
            "Rubber changes its shape and not its volume: what leaves its thickness needs room beside it. "
            f"It is squeezed by {RUBBER_WORKS}: less is gone once it has set, more creases it."
        )
    else:
        needs = (
            f"Hard plastic closes turning marks under pressure, about {SEATING_MPA:g} MPa, not by a large "
            "squeeze: a hundredth of a millimetre of squeeze takes what a thread can give. So it is narrow."
        )
    stop = (
        "The parts meet: height and thickness alone set the squeeze."
        if sizing.question.room.stopped
        else f"Nothing stops the lid: it may stand {length(STANDS_MM)} off where it is wanted."
    )
    return f"{needs} {stop}"


RUBBER_WHY = (
    "E (4/3 e + k S^2 (l^-3 - l)/3) / l, S = width / (2 thickness), l = 1 - e",
    "Designing with rubber, of doughnuts, for a small squeeze; beyond it fitted to finite elements",
)
"""How hard it presses: formula, and whose; of rubber, and of plastic."""
PLASTIC_WHY = (
    "2/sqrt 3 (1 + mu w / (2 h)) cap (1 - exp(-E e / cap))",
    "slab method of metal forming, with friction; elastic in plane strain for a small squeeze",
)


def figures(measured: RoomMeasured, sizing: GasketSizing) -> tuple[Why, ...]:
    """Where the figures come from."""
    state, one, room = sizing.state, sizing.sizes, measured.room
    thick, wide = length(one.thick_mm), length(one.width_mm)
    formula, of = RUBBER_WHY if isinstance(sizing.question.material.law, RubberLaw) else PLASTIC_WHY
    low, high = sizing.pressures_mpa
    return (
        Why(
            f"squeeze {100 * state.squeeze:.1f} %",
            "1 - height / thickness" if room.stopped else "the squeeze that balances the force",
            f"height {length(room.height_mm, 3)}, thickness {thick}",
            "geometry",
        ),
        Why(
            f"fill {100 * state.fill:.0f} %",
            "width x thickness / (width of the room x height)",
            f"width {wide}, room {length(room.width_mm, 3)}",
            f"geometry; at most {100 * MOST_FILL:.0f} %: own judgement",
        ),
        Why(
            f"presses with {low:.1f} to {high:.1f} MPa",
            formula,
            f"squeeze {100 * state.squeeze:.1f} %, width {wide}; the lower where greased faces let it slide",
            of,
        ),
        Why(
            f"chance {100 * sizing.chance:.0f} %",
            "of thickness, width, room, height and force to meet every need together",
            f"thickness to {length(sizing.question.thick_u_mm(one.thick_mm), 3)}, "
            f"width to {length(sizing.question.width_u_mm, 3)}, height to {length(room.height_u_mm, 3)} "
            "(standard deviations)",
            "normal quantities, summed by Gauss' rules",
        ),
    )

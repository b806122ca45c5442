"""How a chosen O-ring is put before the repairer: sizes, squeeze, fill, chance, years and cold, what else.

Invariant: every figure that is shown is one of the sizing; a range is said as a range.
"""

from __future__ import annotations

from bench.job.job import Job
from bench.job.steps import Choice, Gauge, Picture, Step, Why, Words
from bench.seals.oring import own_keys
from bench.seals.oring.decided import decided_words
from bench.seals.oring.measure import GrooveMeasured
from rules.checks import fixed, span
from rules.lengths import INCH, bare, length, short, spoken, translated
from rules.oring.fitted import COLD_C
from rules.oring.housing import FACE, FEMALE, Oring
from rules.oring.judging import OringSizing
from rules.oring.needs import LEFT_AT_LEAST, MOST_FILL, STRETCH, squeeze_ends
from rules.oring.stock import BY_READING, BY_WORDS

WORN_MM = 0.02
"""What is worn more than this on the diameter is said (own judgement: a tenth of a small ring's squeeze)."""


def oring_step(job: Job, measured: GrooveMeasured, sizing: OringSizing, rests: Words) -> Step:
    """The step on which a ring is accepted, or another one keyed."""
    return Step(
        key=own_keys.ACCEPTED,
        stage="size",
        kind="choice",
        title=f"O-ring {job.attempt}: accept it?" if job.attempt > 1 else "The O-ring: accept it?",
        say=(size_line(sizing), squeeze_line(sizing)),
        consequence=(*checks(measured, sizing), *follows(sizing)),
        choices=(
            Choice("accept", "accept it", with_it=decided_words(measured, sizing)),
            Choice("there", "a new ring that is there, measured", goto=own_keys.HAND_CORD),
            Choice("material", "another rubber", goto=own_keys.MATERIAL),
            Choice("step", "cords in other steps", goto=own_keys.STEP),
        ),
        gauge=cord_gauge(sizing),
        picture=section(sizing),
        rests_on=rests,
        waits_for="an O-ring to be accepted",
        why=why(sizing),
        figures=figures(sizing),
    )


def size_line(sizing: OringSizing) -> str:
    """The sizes, what it is made of, and how far it is stretched."""
    ring, part = sizing.ring, sizing.state.stretch
    how = "pressed together" if part < 0.0 else "stretched"
    order = f"{sold_as(ring)}; " if sold_as(ring) else ""
    return (
        f"inside {bare(ring.inside.mm)}, cord {cord_said(ring)} ({short()}), {sizing.question.of.name}; "
        f"{order}{how} by {100 * abs(part):.1f} %"
    )


def sold_as(ring: Oring) -> str:
    """A stock size as it is ordered, where lengths are said in inch; empty in mm, and of a ring in hand."""
    if spoken() != INCH or ring.cord_by == BY_READING:
        return ""
    return f"sold as {fixed(ring.inside.mm)} x {fixed(ring.cord.mm)} mm"


def cord_said(ring: Oring) -> str:
    """A cord as it is sold, or to the thousandth as it was read."""
    return bare(ring.cord.mm, 3 if ring.cord_by == BY_READING else 2)


def squeeze_line(sizing: OringSizing) -> str:
    """How far it is squeezed over all tolerances, and how full its groove is then."""
    state, worst = sizing.state, sizing.worst
    works = span(*(100 * end for end in squeeze_ends(sizing.question.housing)))
    low, high = (f"{100 * one:.0f}" for one in (worst.least_squeeze, worst.most_squeeze))
    return (
        f"squeezed by {100 * state.squeeze:.1f} %, over all tolerances {low} to {high} ({works} % works); "
        f"fills {100 * state.fill:.0f} % of its groove, {100 * worst.most_fill:.0f} at worst "
        f"({100 * MOST_FILL:.0f} at most)"
    )


def checks(measured: GrooveMeasured, sizing: OringSizing) -> Words:
    """What is to be looked at before it is taken."""
    wear = measured.wear_mm
    worn = (
        (f"worn by {length(wear, 3)} where the ring runs: it costs squeeze; a new part is surer",)
        if wear is not None and wear > WORN_MM
        else ()
    )
    return tuple(f"CHECK  {text}" for text in (*sizing.warnings, *worn))


def follows(sizing: OringSizing) -> Words:
    """What works and what binds, the chance and what it goes by, years and cold, what else would do."""
    window, ring = sizing.window, sizing.ring
    lines = [f"chance that yours meets every need {100 * sizing.chance:.0f} %; {limits(sizing)}"]
    if window is None:
        lines.append(f"no cord meets every need with {length(ring.inside.mm)} inside")
    else:
        lines.append(
            f"cords that work: {bare(window.low_mm)} (thinner: {window.binds_low}) to {bare(window.high_mm)} "
            f"(thicker: {window.binds_high})"
        )
    left = sizing.state
    later, cold = 100 * left.later, 100 * left.later_cold
    lines.append(
        f"squeeze left after years {later:.1f} %, then at {COLD_C:.0f} C {cold:.1f} "
        f"({100 * LEFT_AT_LEAST:.0f} at least; estimate)"
    )
    if sizing.others:
        in_mm = " mm" if spoken() == INCH else ""
        others = "; ".join(
            f"{fixed(one.ring.inside.mm)} x {fixed(one.ring.cord.mm)}{in_mm} ({100 * one.chance:.0f} %)"
            for one in sizing.others
        )
        lines.append(f"not to be had? next: {others}")
    lines += [f"it would help: {translated(text)}" for text in sizing.help[:2]]
    return tuple(lines)


def limits(sizing: OringSizing) -> str:
    """What is known of the ring, and what that goes by."""
    ring = sizing.ring
    inside, cord = ring.inside, ring.cord
    if ring.inside_by == ring.cord_by:
        both = f"inside to {bare(inside.limit_mm)}, cord to {bare(cord.limit_mm)}"
        return f"{both} by {BY_WORDS[ring.cord_by]}"
    return (
        f"inside to {bare(inside.limit_mm)} by {BY_WORDS[ring.inside_by]}, "
        f"cord to {bare(cord.limit_mm)} by {BY_WORDS[ring.cord_by]}"
    )


def cord_gauge(sizing: OringSizing) -> Gauge | None:
    """The cords that work, and the one chosen."""
    window = sizing.window
    if window is None or window.high_mm - window.low_mm < 0.005:
        return None
    return Gauge(window.low_mm, window.high_mm, sizing.ring.cord.mm, ("too thin", "works", "too thick"))


def section(sizing: OringSizing) -> Picture:
    """The numbers of the ring in its groove."""
    housing, state = sizing.question.housing, sizing.state
    return Picture(
        "oring",
        (
            ("depth_mm", housing.depth_mm),
            ("width_mm", housing.width_mm),
            ("cord_mm", state.cord_mm),
            ("on_the_wall", float(housing.lies == FACE)),
        ),
    )


def why(sizing: OringSizing) -> str:
    """What the choice follows from."""
    housing = sizing.question.housing
    short_, long = (100 * end for end in STRETCH[housing.lies])
    lies = {
        FACE: f"Water presses it inwards: it lies on the inner wall, 0 to {long:.0f} % stretched.",
        FEMALE: f"It reaches the floor of its groove, pressed together by {-short_:.0f} % at most.",
    }.get(housing.lies, f"It is stretched on the floor by 1 to 5 %, {long:.0f} at most.")
    rubs = " Something rubs on it, so it is squeezed less." if housing.moving else ""
    return (
        "Rubber keeps its volume: stretched, the cord gets thinner; squeezed, it needs room beside it. "
        f"{lies}"
        f"{rubs} Years take part of the squeeze, cold a little more."
    )


def figures(sizing: OringSizing) -> tuple[Why, ...]:
    """Where the figures come from."""
    state, ring, housing = sizing.state, sizing.ring, sizing.question.housing
    cord, depth = length(state.cord_mm, 3), length(housing.depth_mm, 3)
    rubber = sizing.question.of
    return (
        Why(
            f"cord in its place {cord}",
            "d2 sqrt((d1 + d2) / middle of the place it takes)",
            f"d1 {bare(ring.inside.mm)}, d2 {bare(ring.cord.mm)}, on {length(housing.rests_on_mm)}",
            "volume kept; measured rings get thinner by up to 1 % more (from memory)",
        ),
        Why(
            f"squeeze {100 * state.squeeze:.1f} %",
            "1 - depth / cord",
            f"depth {depth}, cord {cord}",
            "geometry",
        ),
        Why(
            f"fill {100 * state.fill:.0f} %",
            "pi/4 cord^2 / (depth x width - corners)",
            f"width {length(housing.width_mm, 3)}, corners {length(housing.corner_mm)}",
            f"geometry; at most {100 * MOST_FILL:.0f} % at worst tolerances, as open handbooks have it",
        ),
        Why(
            f"after years, cold {100 * state.later_cold:.1f} %",
            "1 - depth / ((depth + (1 - set)(cord - depth)) cold)",
            f"set {100 * (rubber.set_part or 0.0):.0f} % of the squeeze, "
            f"rubber {1e6 * (rubber.cte_per_k or 0.0):.0f}"
            "e-6 per K, held round by the metal",
            rubber.cited["set_part"].words,
        ),
        Why(
            f"chance {100 * sizing.chance:.0f} %",
            "of ring, groove and set to meet every need together",
            limits(sizing),
            "normal quantities with their limits of error over root 3 (GUM), set evenly in its range",
        ),
    )

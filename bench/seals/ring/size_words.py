"""How a proposed ring is put before the repairer:
sizes, squeeze, both rules of thumb, what follows, what is unknown.

Invariant: a figure that is not known is called unknown, never left out and never guessed.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.job import Job
from bench.job.kept import UNKNOWN
from bench.job.remembered import remembered
from bench.job.steps import Choice, Gauge, Picture, Step, Why, Words
from bench.seals.ring.decided import decided_words
from bench.seals.ring.measure import Measured
from rules import limits
from rules.checks import span
from rules.lengths import INCH, MM, bare, good_to, length, short, size, spoken, translated
from rules.measuring.instruments import on_a_wall
from rules.sizing import why, why_words
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size as sized

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def ring_step(
    job: Job, *, measured: Measured, sizing: Sizing, spares: str, rests_on: Words, said: Words = ()
) -> Step:
    """The step on which a ring is accepted, or another one keyed; said: of the rings tried before it."""
    sizes, rest = size_lines(sizing)
    read, squeezed, *follow = consequences(measured, sizing)
    return Step(
        key=keys.RING,
        stage="size",
        kind="choice",
        title=f"Ring {job.attempt}: accept it?" if job.attempt > 1 else "The ring: accept it?",
        say=(sizes, squeezed, rest, *said),
        consequence=(*(f"CHECK  {translated(text)}" for text in sizing.warnings), read, *follow),
        choices=(
            Choice("accept", "accept it", with_it=decided_words(measured, sizing, spares)),
            Choice("bore", "key another bore", goto=keys.BORE_WANTED),
            Choice("outside", "key another outside", goto=keys.OUTSIDE_WANTED),
            Choice("plastic", "another plastic", goto=keys.PLASTIC),
            Choice(
                "metal",
                f"name the metal round it{'' if follows(sizing) else METAL_TELLS}",
                goto=keys.CASE_METAL,
            ),
            Choice("at_hand", "measure a ring I have", goto=keys.AT_HAND),
        ),
        gauge=window_gauge(sizing),
        rests_on=rests_on,
        picture=section(measured, sizing),
        why=" ".join(why_words.sentences(sizing)),
        figures=figures(sizing),
    )


def of_the_spare(step: Step, attempt: int, *, is_one: bool) -> Step:
    """The same; where the ring is a spare that lies there it is taken and measured, and nothing is turned."""
    if not is_one:
        return step
    take, *others = step.choices
    return replace(
        step,
        title=f"Ring {attempt} is the spare: take it?",
        choices=(replace(take, text="take it: it is measured next, nothing is turned"), *others),
    )


def window_gauge(sizing: Sizing) -> Gauge | None:
    """The window of bores that work, for the bar under the figures."""
    window = sizing.window
    if window.works_mm is None:
        return None
    return Gauge(
        *window.works_mm,
        sizing.ring.bore_mm,
        ("too tight", "works", "too loose"),
        half_width=2 * window.landing_sigma_mm,
    )


def size_lines(sizing: Sizing) -> Words:
    """The sizes as a person reads them to the lathe."""
    ring = sizing.ring
    height = bare(ring.height_mm) if ring.height_mm is not None else UNKNOWN
    return (
        f"outside {bare(ring.outside_diameter_mm)}, bore {size(ring.bore_mm)}, high {height}",
        f"wall {bare(ring.wall_mm, 3)}, entry chamfer {bare(ring.chamfer_mm)}, "
        f"lower edge {bare(ring.lower_chamfer_mm)} ({short()})",
    )


def wall_by_calliper(shop: Shop, question: SizingQuestion, sizing: Sizing) -> Words:
    """What it costs in chance that the wall is read with a calliper; nothing where it is not."""
    tool = on_a_wall(shop.instruments)
    if tool.kind == "ball_micrometer":
        return ()
    ring = sizing.ring
    closely = replace(
        question,
        turning_spread_mm=shop.turning_spread_mm,
        outside_mm=ring.outside_diameter_mm,
        bore_mm=ring.bore_mm,
        height_mm=ring.height_mm,
    )
    now, then = (100.0 * one.window.ring_chance for one in (sizing, sized(closely)))
    return (f"Wall read with the {tool.name}: chance {now:.0f} %; with a ball micrometer {then:.0f} %.",)


def consequences(measured: Measured, sizing: Sizing) -> Words:
    """What follows: squeeze, the window, both rules of thumb, force, bezel, ten years."""
    fit, thumb, window = sizing.fit, sizing.thumb, sizing.window
    tenth = f"{THUMB[spoken()]} {bare(thumb.tenth_bore_mm)}"
    seat, glass = measured.seat, measured.glass
    works = "works" if window.feasible else "is usual"
    lines = [
        f"seat {bare(seat.mean_mm)} good to {good_to(seat.expanded_mm)}, "
        f"glass {bare(glass.mean_mm)} good to {good_to(glass.expanded_mm)}, {gap_words(sizing)}",
        f"squeeze {fit.nominal_squeeze_pct:.1f} % of the wall ({window.band.words} {works})",
    ]
    if window.works_mm is not None:
        low, high = (size(bore) for bore in window.works_mm)
        lines.append(
            f"bores that work: {low} ({translated(window.binds_low)}) "
            f"to {high} ({translated(window.binds_high)}); "
            f"chance that your cut lands in the band {100 * window.ring_chance:.0f} %{window.chance_words}"
        )
    lines.append(
        f"rules of thumb: {tenth}, chance {100 * window.tenth_chance:.0f} %; "
        f"{100 * limits.USUAL_SQUEEZE:.0f} % {bare(thumb.nine_bore_mm)}, "
        f"chance {100 * window.nine_chance:.0f} %{between_steps(sizing)}"
    )
    lines += [f"it would help: {translated(text)}" for text in window.help[:2]]
    return (*lines, *follows(sizing))


def between_steps(sizing: Sizing) -> str:
    """Why a rule of thumb has a greater chance than the ring proposed: its bore lies between two steps."""
    window, step = sizing.window, sizing.resolved.question.lathe_step_mm
    better = max(window.tenth_chance, window.nine_chance) - sizing.window.ring_chance
    if better < LEAST_BETTER or sizing.ring.bore_mm != window.target_bore_mm or step <= limits.SIZE_STEP_MM:
        return ""
    return f"; planned in the lathe's steps of {length(step)}, between which its bore lies"


LEAST_BETTER = 0.005
"""A chance is said in whole per cent."""


def gap_words(sizing: Sizing) -> str:
    """The gap that is sized for; as it was measured too, where rings tried before say otherwise."""
    measured, believed = sizing.resolved.measured.mean_mm, sizing.resolved.believed.mean_mm
    if bare(measured, 3) == bare(believed, 3):
        return f"gap {length(measured, 3)}"
    return f"gap measured {bare(measured, 3)}, taken as {length(believed, 3)}"


THUMB = {MM: "a tenth", INCH: "four thou"}
"""What the first rule of thumb is called: in inch a tenth is something else."""
METAL_TELLS = ": press, bezel"
"""What is unknown until the metal is known."""


def follows(sizing: Sizing) -> Words:
    """Force, bezel and ten years in one line; none where all of them are unknown."""
    after = sizing.fit.ten_years_mpa
    years = f"presses with {span(*after)} MPa (estimate)" if after is not None else UNKNOWN
    said = sizing.consequences
    force, bezel = (text.replace("not known", UNKNOWN) for text in (said.force_words, said.stretch_words))
    if {force, bezel, years} == {UNKNOWN}:
        return ()
    return (f"press: {force}; bezel: {bezel}; after ten years: {years}",)


def section(measured: Measured, sizing: Sizing) -> Picture:
    """The numbers of the section of ring, seat and glass."""
    ring = sizing.ring
    return Picture(
        "section",
        (
            ("case_bore_mm", measured.seat.mean_mm),
            ("glass_mm", measured.glass.mean_mm),
            ("outside_mm", ring.outside_diameter_mm),
            ("bore_mm", ring.bore_mm),
            ("height_mm", ring.height_mm or 1.0),
            ("chamfer_mm", ring.chamfer_mm),
            ("lower_chamfer_mm", ring.lower_chamfer_mm),
            ("seat_depth_mm", measured.seat_depth_mm),
        ),
    )


OPENED = (
    "ring.bore_mm",
    "ring.height_mm",
    "ring.chamfer_mm",
    "fit.nominal_squeeze_pct",
    "gap.believed_mm",
    "gap.believed_u_mm",
    "window.chance_before",
    "window.bore_low_mm",
    "window.bore_high_mm",
    "window.ring_chance",
    "fit.seating_force_n.mid",
    "fit.case_hoop_stress_mpa",
    "fit.contact_pressure_10y_mpa",
    "fit.contact_pressure_cold_mpa",
    "fit.contact_pressure_warm_mpa",
)
"""The shown figures that can be opened under "why"."""


@remembered
def figures(sizing: Sizing) -> tuple[Why, ...]:
    """Where the figures of the proposal come from; unknown ones are left out."""
    every = (one for name in OPENED for one in why.first_the_answer(sizing, name))
    return tuple(Why(*found) for name in every if (found := why_words.opened(sizing, name)) is not None)


def cannot(reason: str, rests: Words) -> Step:
    """The screen that says why no ring can be proposed."""
    return Step(
        key=keys.NO_RING,
        stage="size",
        kind="result",
        title="No ring can be proposed from these figures.",
        say=(translated(reason), "Go back with / and measure again, or change a usual value from the list."),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=rests,
        waits_for="other measurements",
        why="A ring outside these limits cannot be turned or would not seal.",
    )

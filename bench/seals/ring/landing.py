"""A ring sized by how the rings finished in this shop came out.

Invariant: what is used stands in the mark of this job; other jobs are not read here.
"""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import TYPE_CHECKING

from bench.asking.lately import lands_words, odd_words, repeat_words
from bench.job import keys
from bench.job.job import Job
from bench.job.learned import Learned, is_to_be_looked_up
from bench.job.steps import Choice, Step
from bench.seals.ring.measure import Measured
from bench.seals.ring.past import how_read, line, tool_text
from bench.seals.ring.planning import chosen
from rules.checks import fixed
from rules.limits import no_more
from rules.measuring.instruments import GLASS, SEAT
from rules.measuring.reading import as_they_repeat
from rules.sizing.question import SizingQuestion
from rules.turning.tool_choice import boring_for

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def as_measured(measured: Measured, learned: Learned | None) -> Measured:
    """Seat and glass as well as they are known by how readings repeat here."""
    seat, glass = (learned.seat, learned.glass) if learned else (None, None)
    return replace(
        measured,
        seat=as_they_repeat(measured.seat, sd_mm=seat.sd_mm, dof=seat.dof) if seat else measured.seat,
        glass=as_they_repeat(measured.glass, sd_mm=glass.sd_mm, dof=glass.dof) if glass else measured.glass,
    )


def as_learned(question: SizingQuestion, learned: Learned | None) -> SizingQuestion:
    """The question with the spread with which walls land here; the aim allows for where they land."""
    if learned is None:
        return question
    lands = learned.lands
    spread = no_more("turning spread", 2.0 * lands.sd_mm)
    return replace(question, turning_spread_mm=spread, turning_dof=lands.dof)


def looked_up_first(step: Step, job: Job, shop: Shop, question: SizingQuestion) -> Step:
    """The step with what is to be looked up before it: the line of the ring, and how seat and glass are read;
    nothing where it was, or where the shop does not go by it.
    """
    if not shop.learn_from_jobs or not is_to_be_looked_up(job):
        return step
    lathe = shop.lathe_named(chosen(job, keys.LATHE)) or shop.lathes[0]
    tools = shop.tools_of(chosen(job, keys.TOOL_SET)) or shop.tools_of(shop.tool_sets[0])
    boring = boring_for(tools, question.glass_mm)
    plastic = (
        question.material if isinstance(question.material, str) else getattr(question.material, "key", "")
    )
    rings = line(lathe.name, tool_text(asdict(boring)) if boring else "", plastic)
    return replace(step, learns=(rings, how_read(job, SEAT), how_read(job, GLASS)))


def with_landing(step: Step, learned: Learned | None) -> Step:
    """The step whose ring, where it is turned, is kept with where walls land here, and which says so, with
    what is assumed otherwise.
    """
    if learned is None:
        return step
    lands = learned.lands
    kept = (f"lands {fixed(lands.mean_mm, 3)} mm", f"lands_sd {lands.sd_mm:.4f} mm")
    choices = tuple(
        replace(one, with_it=(*one.with_it, *kept)) if is_turned(one) else one for one in step.choices
    )
    read = ((SEAT, learned.seat), (GLASS, learned.glass))
    repeat = (repeat_words(what, found.sd_mm, found.pairs) for what, found in read if found is not None)
    said = (lands_words(lands), *odd_words(lands), *repeat)
    told = " ".join(f"{text[:1].upper()}{text[1:]}." for text in said)
    return replace(step, choices=choices, why=f"{step.why} {told} {ALLOWED}")


def is_turned(choice: Choice) -> bool:
    """Whether a ring is decided with a choice that is still to be turned."""
    names = {word.partition(" ")[0] for word in choice.with_it}
    return "chance" in names and "at_hand" not in names


ALLOWED = "The lathe aims to allow for where walls land; the chance goes by how far they spread."

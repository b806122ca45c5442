"""Rings of the drawer where a ring is about to be proposed: those that fit, judged as one of ours.

Invariant: only what stands in this job is read: the mark of the look into the drawer, and its own rings. One
that is offered was measured and never pressed.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.in_drawer import Lying, due_again, lying_from, name_of, swells
from bench.job.job import Job
from bench.job.past import PastRing, from_json
from bench.job.steps import Choice, Step, Words
from bench.job.values import named_text
from bench.seals.ring.drawer import KINDS, in_drawer, taken_before
from bench.seals.ring.hand import Hand, judge
from bench.seals.ring.hand_steps import DRAWER, LIES
from bench.seals.ring.known import sized
from bench.seals.ring.measure import Measured
from bench.seals.ring.text import OUTCOMES
from rules.checks import OutOfRange, fixed
from rules.lengths import bare, length
from rules.measuring.instruments import walls_by
from rules.sizing.question import SizingQuestion
from rules.tables import Plastic

if TYPE_CHECKING:
    from bench.shop.shop import Shop

OUTSIDE_MM = 0.06
"""A ring whose outside, as it was cut, differs by more from what this seat asks for is not offered: it would
be slack, or buckle (own judgement). The seat itself is the gauge.
"""
MOST_OFFERED = 3
WRONG = (ValueError, TypeError, KeyError)


@dataclass(frozen=True, slots=True)
class DrawerOffer:
    """A ring of the drawer that fits."""

    piece: Lying
    chance: float
    """That its squeeze lies in the band, 0 to 1."""

    @property
    def choice(self) -> Choice:
        """How it is chosen, and what is kept then."""
        one = self.piece
        walls = "" if one.again else f"walls {' '.join(f'{wall:.3f}' for wall in one.walls_mm)} mm"
        height = f"height {fixed(one.height_mm)} mm" if one.high_as_measured and not one.again else ""
        edges = f"chamfer {fixed(one.chamfer_mm)} mm", f"lower_chamfer {fixed(one.lower_chamfer_mm)} mm"
        kept = (f"from {one.ref}", walls, height, *edges)
        return Choice(one.ref, f"drawer: {self.said}", with_it=tuple(filter(None, kept)))

    @property
    def said(self) -> str:
        """The same in one line."""
        one = self.piece
        then = "; nylon that lay for a month: measured again first" if one.again else ""
        return f"{one.name}, wall {bare(one.wall_mm, 3)}, chance {100 * self.chance:.0f} %{then}"


@dataclass(frozen=True, slots=True)
class Found:
    """What the look into the drawer found for this seat and this glass."""

    lying: tuple[Lying, ...] = ()
    gone: frozenset[str] = frozenset()
    """Rings of this job, or chosen for it, that another one took."""
    like: PastRing | None = None
    """The newest ring of a job with such a seat and such a glass."""
    beside: tuple[Lying, ...] = ()
    """What else of that job lies in the drawer."""


def asks(measured: Measured, plastic: str) -> Words:
    """What is to be looked up."""
    return (
        f"plastic {plastic}",
        f"seat {fixed(measured.seat.mean_mm, 3)} mm",
        f"glass {fixed(measured.glass.mean_mm, 3)} mm",
    )


def found_in(job: Job, asked: Words) -> Found:
    """What the mark of this sitting keeps; nothing where it was written for something else, or another job
    may have taken what it names since.
    """
    mark = job.fresh(keys.LOOKED_IN, (keys.SITTING, keys.ATTEMPT))
    if mark is None:
        return Found()
    gone = frozenset(word.partition(" ")[2] for word in mark.words if word.startswith("gone "))
    if mark.words[1 : 1 + len(asked)] != asked:
        return Found(gone=gone)
    lying: dict[str, list[Lying]] = {"lies": [], "beside": []}
    like: tuple[PastRing, ...] = ()
    for word in mark.words[1 + len(asked) :]:
        name, _, text = word.partition(" ")
        with suppress(*WRONG):
            if name in lying:
                lying[name].append(lying_from(json.loads(text)))
            elif name == "like":
                like = from_json(text)
    return Found(tuple(lying["lies"]), gone, like[0] if like else None, tuple(lying["beside"]))


def candidates(job: Job, found: Found, plastic: str, of: object) -> tuple[Lying, ...]:
    """The rings that may be offered: those found, and the job's own; measured, of its plastic, not used.

    of: that plastic as it is known, where it is.
    """
    own = tuple(one for one in in_drawer(job).lying if one.ref not in found.gone) if job.attempt > 1 else ()
    begun = job.newest(keys.SITTING)
    if isinstance(of, Plastic) and swells(of) and begun is not None:
        own = tuple(replace(one, again=due_again(one, begun.at)) for one in own)
    used = taken_before(job)
    return tuple(
        one for one in (*own, *found.lying) if one.walls_mm and one.plastic == plastic and one.ref not in used
    )


def offers(
    pieces: Iterable[Lying], shop: Shop, measured: Measured, question: SizingQuestion | None
) -> tuple[DrawerOffer, ...]:
    """Those that fit, the likeliest first; none where no ring can be proposed."""
    pieces = tuple(pieces)
    if question is None or not pieces:
        return ()
    made: list[DrawerOffer] = []
    with suppress(OutOfRange):
        outside = sized(question).ring.outside_diameter_mm
        for one in pieces:
            if abs(outside - one.outside_mm) <= OUTSIDE_MM + 1e-9:
                made += offer_of(one, shop, measured, question, outside)
    return tuple(sorted(made, key=lambda one: -one.chance)[:MOST_OFFERED])


def offer_of(
    piece: Lying, shop: Shop, measured: Measured, question: SizingQuestion, outside_mm: float
) -> list[DrawerOffer]:
    """A ring of the drawer as an offer, in a list; none where it does not fit."""
    by = walls_by(shop.instruments)[0]
    hand = Hand(DRAWER, piece.walls_mm, piece.height_mm, LIES, (), by)
    try:
        found = judge(hand, measured, question, outside_mm)
    except OutOfRange:  # no ring such as this could be made here
        return []
    chance = found.decision.chance_in(found.sizing.window.band)
    return [DrawerOffer(piece, chance)] if found.fits else []


def choices(job: Job, offered: Sequence[DrawerOffer]) -> tuple[Choice, ...]:
    """Those that fit as choices; one that was chosen stays one, whatever was found since."""
    chosen = job.fresh(keys.AT_HAND, (keys.ATTEMPT,))
    of = named_text(chosen.words, "from") if chosen is not None else ""
    made = tuple(one.choice for one in offered if one.piece.ref != of)
    if chosen is None or not of:
        return made
    kept = tuple(word for word in chosen.words[1:] if not word.startswith("stands "))
    return (*made[: MOST_OFFERED - 1], Choice(chosen.word, f"drawer: {name_of(of)}", with_it=kept))


def said(offered: Sequence[DrawerOffer], found: Found) -> Words:
    """The job that this one is like, and the rings that fit, a line each."""
    lines = [] if found.like is None else [like_words(found.like, found.beside)]
    return (*lines, *(f"drawer: {one.said}" for one in offered[:1]))


def like_words(like: PastRing, beside: Sequence[Lying]) -> str:
    """A ring that was made for such a seat and such a glass, what happened to it, and what lies beside it."""
    came = OUTCOMES.get(like.outcome, "given up for its size")
    wall = sum(like.walls_mm) / len(like.walls_mm) if like.walls_mm else like.aimed_mm
    leaked = ", but its joint leaked" if like.leaked else ""
    spare = ""
    if beside:
        measured = any(one.walls_mm for one in beside)
        hint = "" if measured else f", not measured: key its wall in job {like.job} (* 2) to have it offered"
        spare = f"; its {beside[0].kind} lies in the drawer{hint}"
    return (
        f"like job {like.job}, seat {bare(like.seat_mm)}, glass {length(like.glass_mm)}: its ring, wall "
        f"{bare(wall, 3)}, {came}{leaked}{spare}"
    )


OWN: Words = ("spares of this job",)
"""What is looked up where one of them may be tried next: whether another job took it."""


def still_there(job: Job, spares: Sequence[Choice]) -> tuple[Choice, ...]:
    """The spares of this job, as choices, without those that another job took."""
    gone = {ref.rpartition(" ")[2] for ref in found_in(job, ()).gone}
    there = [one.piece for one in in_drawer(job).lying if one.piece not in gone]
    kinds = {KINDS[one.word]: one for one in spares if one.word in KINDS}
    return tuple(one for kind, one in kinds.items() if any(piece.startswith(f"{kind}-") for piece in there))


@dataclass(frozen=True, slots=True)
class LookedThrough:
    """The drawer as far as it concerns the ring that is proposed."""

    asked: Words
    """What is to be looked up."""
    offered: tuple[DrawerOffer, ...]
    choices: tuple[Choice, ...]
    found: Found

    def judged(self, step: Step, hand: Hand) -> Step:
        """The page that judges a ring that is there: one of the drawer is looked up once more, as another job
        may have taken it since.
        """
        of = tuple(word for word in hand.chosen if word.startswith("from "))
        if not of:
            return step
        step = replace(step, looks_for=(*self.asked, *of))
        if of[0].partition(" ")[2] not in self.found.gone:
            return step
        ways = tuple(one for one in step.choices if one.goto)
        return replace(step, title=TAKEN, choices=ways)

    def beside(self, step: Step) -> Step:
        """The proposal with what lies there for it, and what is to be looked up before it."""
        ways = step.choices
        if self.offered:
            ways = tuple(replace(one, text=OR_DRAWER) if one.goto == keys.AT_HAND else one for one in ways)
        lines = said(self.offered, self.found)
        return replace(step, say=(*step.say, *lines), choices=ways, looks_for=self.asked)


TAKEN = "The ring of the drawer: another job has taken it since. What next?"
OR_DRAWER = "measure a ring I have, or take one of the drawer"


def looked_through(
    job: Job, shop: Shop, measured: Measured, plastic: str, question: SizingQuestion | None
) -> LookedThrough:
    """What the drawer holds for the ring that is about to be proposed."""
    asked = asks(measured, plastic)
    found = found_in(job, asked)
    offered = offers(
        candidates(job, found, plastic, question and question.material), shop, measured, question
    )
    return LookedThrough(asked, offered, choices(job, offered), found)

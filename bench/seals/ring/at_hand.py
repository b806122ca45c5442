"""A ring that is there: measured, judged against this seat and glass like one of ours, then used or copied.

Invariant: it is judged as a ring that was made; a used one is never accepted, only a new one made after it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure
from bench.seals.ring.decided import as_turned, decided_from, decided_words
from bench.seals.ring.hand_steps import (
    BUCKLES,
    HAND_HEIGHT,
    HAND_SEAT,
    LIES,
    MADE,
    NONE,
    PRESSED,
    SLACK,
    USED,
    WALL_STEP,
)
from bench.seals.ring.in_place import asked_at_hand, named, taking
from bench.seals.ring.kind import WALL_PLACES
from bench.seals.ring.made import judged
from bench.seals.ring.measure import Measured
from bench.seals.ring.size_words import consequences, follows, ring_step
from bench.stages.common import Dimension, readings
from rules.checks import hundredth
from rules.instrument import Instrument
from rules.lengths import bare, length, size as said_size, translated
from rules.limits import LEAST_WALL_MM
from rules.measuring.instruments import walls_by
from rules.measuring.reading import HEIGHTS_AGREE_MM
from rules.sizing.decision import DOES_NOT, FITS, USED_RING, RingDecision
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size as sized
from rules.sizing.thumb import free_height_mm

if TYPE_CHECKING:
    from bench.shop.shop import Shop

PROUD_MM = 0.03
"""A ring higher by no more than this than what is planned is left as it is (own judgement)."""


@dataclass(frozen=True, slots=True)
class Hand:
    """A ring that is there, as it was measured."""

    what: str
    walls_mm: tuple[float, ...]
    height_mm: float
    lies: str
    keys: Words
    by: Instrument
    """What its walls were measured with."""

    @property
    def wall_mm(self) -> float:
        """Mean of the walls."""
        return sum(self.walls_mm) / len(self.walls_mm)

    @property
    def said(self) -> str:
        """Its sizes in one line."""
        walls = f"wall {bare(self.wall_mm, 3)} (mean of {len(self.walls_mm)})"
        return f"{walls}, height {length(self.height_mm)}"


def ring_at_hand(job: Job, shop: Shop) -> Stage[Hand | None]:
    """Whether there is one, and what it measures."""
    what = yield from word(asked_at_hand(job))
    if what == NONE:
        return None
    tools = walls_by(shop.instruments)
    wall = read_with(WALL_STEP, tools[0], tools, before=1, low_mm=LEAST_WALL_MM, high_mm=3.0)
    walls = yield from readings(Dimension(wall, HEIGHTS_AGREE_MM, places=WALL_PLACES, least=4))
    height = yield from figure(HAND_HEIGHT)
    lies = LIES if what in (MADE, PRESSED) else (yield from word(HAND_SEAT))
    by = instrument_of(walls.answers, tools[0], tools)
    return Hand(what, walls.counted_mm, height, lies, (*walls.keys, keys.HAND_HEIGHT, keys.HAND_SEAT), by)


@dataclass(frozen=True, slots=True)
class Judged:
    """A ring that is there against seat and glass."""

    hand: Hand
    sizing: Sizing
    """What it does, as of any ring that is given."""
    decision: RingDecision
    highest_mm: float | None
    """What there is room for, where it is higher; None where it is not."""

    @property
    def fits(self) -> bool:
        """Whether nothing speaks against it."""
        off = self.sizing.window.off_words(self.sizing.ring.bore_mm)
        loose_or_tight = self.decision.decision == DOES_NOT or bool(off)
        return self.sizing.window.feasible and not loose_or_tight and self.hand.lies != BUCKLES

    @property
    def verdict(self) -> str:
        """The same in a few words."""
        if self.hand.lies == BUCKLES:
            return "too large for this seat"
        if self.fits:
            return "it fits" if self.decision.decision == FITS else "it may fit"
        window, bore = self.sizing.window, self.sizing.ring.bore_mm
        if not window.feasible and self.decision.decision != DOES_NOT:
            return "no ring meets every requirement here"
        over = window.bore_high_mm is not None and bore > window.bore_high_mm
        side = "loose" if over or self.decision.squeeze_pct < window.band.low_pct else "tight"
        return f"too {side}" if self.decision.decision == DOES_NOT else f"likely too {side}"

    @property
    def checks(self) -> Words:
        """What warns."""
        due = (
            (self.hand.lies == SLACK, "slack in the seat: keep it in its place as the glass goes in"),
            (self.hand.lies == BUCKLES, "too large for this seat: it would be shaved or buckle"),
            (self.highest_mm is not None, f"too high here: dressed to {length(self.highest_mm or 0)} first"),
        )
        return tuple(f"CHECK  {text}" for is_due, text in due if is_due)

    @property
    def lines(self) -> Words:
        """What it measures and what that means, one line each."""
        judged_in_words = self.decision.words
        if self.hand.what in (USED, PRESSED):  # it is not pressed, or was: nothing more will show then
            judged_in_words = judged_in_words.partition(" Undecided")[0]
        return (f"It has {self.hand.said}.", judged_in_words)

    def follows(self, measured: Measured) -> Words:
        """What follows for seat, glass and press; nothing of a cut, as none is made."""
        said = consequences(measured, self.sizing)
        thin, thick = self.sizing.window.band.walls_mm(self.sizing.fit.gap_mm)
        warned = tuple(f"CHECK  {translated(text)}" for text in self.sizing.warnings)
        works = (f"walls that work: {bare(thin, 3)} to {length(thick, 3)}",) * self.sizing.window.feasible
        return (*warned, said[0], *works, *follows(self.sizing))


def judge(hand: Hand, measured: Measured, question: SizingQuestion, outside_mm: float) -> Judged:
    """The ring against seat and glass; its outside is taken as the seat's, where it is pressed.

    Raises OutOfRange where its sizes cannot be.
    """
    bore = outside_mm - 2.0 * hand.wall_mm
    given = sized(replace(question, outside_mm=outside_mm, bore_mm=bore, height_mm=hand.height_mm))
    as_kept = decided_from(decided_words(measured, given, spares="0"))
    room = free_height_mm(question.room_mm, given.fit.nominal_squeeze_pct / 100.0)
    proud = room is not None and hand.height_mm > room + PROUD_MM
    decision = judged(hand.by, hand.walls_mm, as_kept.gap, given.window.band, as_kept.shut)
    return Judged(hand, given, decision, room if proud and hand.what != PRESSED else None)


def hand_step(
    job: Job, found: Judged, proposed: Sizing, measured: Measured, spares: str, rests: Words
) -> Step:
    """The step on which the ring that is there is used, or another one made."""
    rests = (*rests, *found.hand.keys)
    if found.hand.what == USED:
        return pattern_step(job, found, proposed, measured, spares, rests)
    step = ring_step(job, measured=measured, sizing=found.sizing, spares="0", rests_on=rests)
    use = Choice(
        "accept",
        taking(found.hand.what, fits=found.fits),
        with_it=used_words(job, found, measured, spares),
    )
    make = Choice("make", "make a ring instead", goto=keys.AT_HAND)
    ways = (use, make) if found.fits else (make, use)
    return replace(
        step,
        title=f"{named(found.hand.what)}: {found.verdict}. What next?",
        say=(*found.checks, *found.lines),
        consequence=found.follows(measured),
        gauge=None,
        figures=(),
        picture=None if found.hand.what == PRESSED else step.picture,
        choices=tuple(way for way in ways if way is make or found.hand.lies != BUCKLES),
        why=f"It is judged like a ring that is made here: what seals is wall minus gap. {USED_RING}",
    )


def used_words(job: Job, found: Judged, measured: Measured, spares: str) -> Words:
    """What is written where the ring that is there is accepted: one from elsewhere has no spares, and its
    plastic is only known where it was named.
    """
    made_here = found.hand.what in (MADE, PRESSED)
    sizing = as_turned(job, found.sizing) if made_here else found.sizing
    words = decided_words(measured, sizing, spares if made_here else "0")
    if not made_here and job.newest(keys.PLASTIC) is None:
        words = tuple(item for item in words if not item.startswith("plastic "))
    walls = " ".join(f"{wall:.3f}" for wall in found.hand.walls_mm)
    highest = () if found.highest_mm is None else (f"highest {found.highest_mm:.2f} mm",)
    return (*words, f"at_hand {found.hand.what}", f"walls {walls} mm", *highest)


def pattern_step(
    job: Job, found: Judged, proposed: Sizing, measured: Measured, spares: str, rests: Words
) -> Step:
    """A used ring: a new one is made after it where it is judged fit, or as proposed."""
    hand = found.hand
    step = ring_step(job, measured=measured, sizing=proposed, spares=spares, rests_on=rests)
    seen = (f"used_wall {hand.wall_mm:.3f} mm", f"used_height {hand.height_mm:.2f} mm")
    accept = Choice(
        "accept",
        f"make the ring as proposed, bore {said_size(proposed.ring.bore_mm)}",
        with_it=(*step.choices[0].with_it, *seen),
    )
    ways: tuple[Choice, ...] = (accept, Choice("make", "leave the used ring out of it", goto=keys.AT_HAND))
    like = copied(found, proposed) if found.fits else None
    if like is not None:
        copy = Choice(
            "pattern",
            f"make a new ring after it, bore {said_size(like.ring.bore_mm)}",
            with_it=(*decided_words(measured, like, spares), *seen, "after used"),
        )
        ways = (copy, *ways)
    judged_fit = f"{found.verdict} as a pattern" if like is not None else f"{found.verdict}: no pattern here"
    return replace(
        step,
        title=f"Used ring, not to be fitted again. {judged_fit.capitalize()}. What is made?",
        say=(*found.lines, USED_RING),
        consequence=(f"Proposed: {step.say[0]}", *step.consequence),
        choices=ways,
        why=f"{USED_RING} Its wall may have set a little under the squeeze, so it reads thin.",
    )


def copied(found: Judged, proposed: Sizing) -> Sizing | None:
    """A new ring of the wall of a used one, no higher than there is room for; None outside the window."""
    question, outside = found.sizing.resolved.question, proposed.ring.outside_diameter_mm
    room = proposed.ring.height_mm
    height = found.hand.height_mm if room is None else min(found.hand.height_mm, room)
    bore = hundredth(outside - 2.0 * found.hand.wall_mm)
    like = sized(replace(question, outside_mm=outside, bore_mm=bore, height_mm=height))
    return None if like.window.off_words(bore) else like

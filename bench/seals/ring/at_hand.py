"""A ring that is there: measured, judged against this seat and glass like one of ours, then used or copied.

Invariant: it is judged as a ring that was made; a used one is never accepted, only a new one made after it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.job import Job
from bench.job.read_by import instrument_of, read_with
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure, named, named_text, several
from bench.seals.ring.decided import as_turned, decided_words
from bench.seals.ring.hand import Hand, Judged
from bench.seals.ring.hand_steps import (
    BUCKLES,
    DRAWER,
    HAND_HEIGHT,
    HAND_SEAT,
    LIES,
    MADE,
    NONE,
    PRESSED,
    USED,
    WALL_STEP,
)
from bench.seals.ring.in_place import asked_at_hand, said_of, taking
from bench.seals.ring.kind import WALL_PLACES
from bench.seals.ring.measure import Measured
from bench.seals.ring.pattern import pattern_step
from bench.seals.ring.size_words import ring_step
from bench.stages.common import Dimension, readings
from rules.limits import LEAST_WALL_MM
from rules.measuring.instruments import walls_by
from rules.measuring.reading import HEIGHTS_AGREE_MM
from rules.sizing.decision import USED_RING
from rules.sizing.sizing import Sizing

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def ring_at_hand(job: Job, shop: Shop, drawn: Sequence[Choice] = ()) -> Stage[Hand | None]:
    """Whether there is one, and what it measures; drawn: those of the drawer, as choices."""
    asked = asked_at_hand(job)
    chosen = yield from words(replace(asked, choices=(*asked.choices, *drawn)))
    what = DRAWER if named_text(chosen, "from") else chosen[0]
    if what == NONE:
        return None
    tools = walls_by(shop.instruments)
    walls, by = several(chosen, "walls"), tools[0]
    read: Words = ()
    if not walls:
        wall = read_with(WALL_STEP, tools[0], tools, before=1, low_mm=LEAST_WALL_MM, high_mm=3.0)
        taken = yield from readings(Dimension(wall, HEIGHTS_AGREE_MM, places=WALL_PLACES, least=4))
        walls, by, read = taken.counted_mm, instrument_of(taken.answers, tools[0], tools), taken.keys
    height = named(chosen, "height") if what == DRAWER else None
    if height is None:
        height = yield from figure(HAND_HEIGHT)
    lies = LIES if what in (MADE, PRESSED) else (yield from word(HAND_SEAT))
    return Hand(what, walls, height, lies, (*read, keys.HAND_HEIGHT, keys.HAND_SEAT), by, chosen)


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
        title=f"{said_of(found.hand.what)}: {found.verdict}. What next?",
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
    ours, chosen = found.hand.what in (MADE, PRESSED), found.hand.chosen
    sizing = as_turned(job, found.sizing) if ours else as_cut(found.sizing, chosen)
    kept = decided_words(measured, sizing, spares if ours else "0")
    of = tuple(word for word in chosen if word.startswith("from "))
    if not ours and not of and job.newest(keys.PLASTIC) is None:
        kept = tuple(item for item in kept if not item.startswith("plastic "))
    walls = " ".join(f"{wall:.3f}" for wall in found.hand.walls_mm)
    highest = () if found.highest_mm is None else (f"highest {found.highest_mm:.2f} mm",)
    return (*kept, f"at_hand {found.hand.what}", *of, f"walls {walls} mm", *highest)


def as_cut(sizing: Sizing, chosen: Words) -> Sizing:
    """The sizing with the edges that are kept with a ring of the drawer."""
    edges = {f"{name}_mm": named(chosen, name) for name in ("chamfer", "lower_chamfer")}
    cut = {name: value for name, value in edges.items() if value is not None}
    return replace(sizing, ring=replace(sizing.ring, **cut))

"""A ring changed by hand held against itself: its sizes, its squeeze and the room it goes into.

Invariant: every limit is the one by which a ring is turned and sized.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from bench.job import keys
from bench.job.job import Answer, newest_of
from bench.job.kept import UNKNOWN
from bench.job.values import named, number, several
from bench.seals.ring.aim import aimed_at
from bench.seals.ring.decided import Decided, decided_from
from rules.checks import OutOfRange, fixed, numbers
from rules.sizing.climate import REFERENCE_C
from rules.sizing.squeeze import squeeze_pct
from rules.tables import Glass, Metal, glasses, metals
from rules.turning.order import LARGEST_SPARES, check_ring

ROUNDED_PCT, ROUNDED_MM = 0.05, 0.0005
"""How far a squeeze, and a gap out of two diameters, may be off by being written in 0.1 % and 0.001 mm."""


def expected(answer: Answer, before: Sequence[Answer]) -> Iterator[str]:
    """What is expected of an answer that contradicts itself, or what stands before it."""
    if answer.key == keys.RING:
        yield from _ring(answer, before)
    if answer.key == keys.FIT_OUTCOME:
        yield from _pressed(answer, before)


def _ring(ring: Answer, before: Sequence[Answer]) -> Iterator[str]:
    if named(ring.words, "seat") is None:
        return
    try:
        decided = decided_from(ring.words)
        check_ring(decided.ring)
        check_ring(aimed_at(decided))
        numbers(("spares", decided.spares, 0, LARGEST_SPARES, ""), advice="so many are planned in one set-up")
    except OutOfRange as why:
        yield f"a ring that can be turned ({why})"
        return
    if not 0.0 < decided.gap.glass_mm < decided.gap.case_bore_mm:
        yield "a glass smaller than the seat"
    yield from _squeeze(decided, named(ring.words, "squeeze"), before)
    yield from _height(decided, before)


def _squeeze(decided: Decided, said: float | None, before: Sequence[Answer]) -> Iterator[str]:
    walls = decided.walls_mm or (decided.ring.wall_mm,)
    yield from _off(walls, decided.gap.mm, said, ROUNDED_MM + _moved_mm(decided, before))


def _off(walls: Sequence[float], gap: float, said: float | None, gap_off_mm: float) -> Iterator[str]:
    """A squeeze that does not follow from walls and a gap that may be off by so much."""
    wall = sum(walls) / len(walls)
    is_now = squeeze_pct(wall_mm=wall, gap_mm=gap)
    if said is not None and abs(said - is_now) > ROUNDED_PCT + 100.0 * gap_off_mm / wall:
        yield (
            f"sizes that go together: a wall of {fixed(wall, 3)} mm in a gap of {fixed(gap, 3)} mm "
            f"is a squeeze of {is_now:.1f} %, not {said:.1f} %"
        )


def _pressed(fitted: Answer, before: Sequence[Answer]) -> Iterator[str]:
    """The walls of a ring that was pressed in are those that were read of it, and give its squeeze."""
    ring, walls = newest_of(before, keys.RING), several(fitted.words, "walls")
    if ring is None or not walls:
        return
    since = [one for one in before if one.n > ring.n and re.fullmatch(rf"{keys.WALL}_\d+", one.key)]
    read = {round(number(one.word), 3) for one in since}
    if read and not read.issuperset(round(wall, 3) for wall in walls):
        yield "walls that were read of this ring"
    elif min(walls) > 0.0:
        yield from _off(walls, decided_from(ring.words).gap.mm, named(fitted.words, "squeeze"), ROUNDED_MM)


def _moved_mm(decided: Decided, before: Sequence[Answer]) -> float:
    """The most by which the gap at 20 C, of which the squeeze is said, is another than the one as read."""
    keyed = newest_of(before, keys.TEMPERATURE)
    if keyed is None or keyed.word == UNKNOWN:
        return 0.0
    tables: tuple[Mapping[str, Glass | Metal], ...] = (glasses(), metals())
    most = max(one.cte_per_k or 0.0 for table in tables for one in table.values())
    return most * abs(number(keyed.word) - REFERENCE_C) * decided.gap.case_bore_mm / 2.0


def _height(decided: Decided, before: Sequence[Answer]) -> Iterator[str]:
    """A ring is no higher than its seat is deep, unless that height was asked for or is there already."""
    measured = [one for one in before if one.key in (keys.SEAT_DEPTH, keys.SEAT_DEPTH_AGAIN)]
    wanted = newest_of(before, keys.HEIGHT_WANTED)
    as_wanted = wanted is not None and wanted.word[:1].isdigit()
    height = decided.ring.height_mm
    if not measured or height is None or as_wanted or decided.at_hand:
        return
    if height > number(measured[-1].word):
        yield f"a height of no more than the seat is deep ({measured[-1].word})"

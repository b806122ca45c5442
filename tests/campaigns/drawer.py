"""The drawer over simulated lives of a shop: the book that the program keeps beside a recount from the files,
and what is offered beside what lies there.

    python -m tests.campaigns.drawer [--long]

The short form is part of the tests; the long form is 2,000 lives.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from bench.job import keys
from bench.job.in_drawer import Drawer, Lying
from bench.past.drawer import drawer_in
from tests.campaigns.common import Counts
from tests.campaigns.drawer_lives import GOES_ON, Life, straight, used
from tests.independent.drawer_count import Book, counted

SHORT, LONG, EVENTS = 6, 2000, 9
DAY, ROUNDED_MM = timedelta(days=1), 0.001
FAULTS = {
    "what another job took lies there still": "bench.seals.ring.drawer.taken",
    "a ring that was pressed lies there": "bench.seals.ring.drawer.pressed_after",
    "nylon is never measured again": "bench.past.drawer.due_again",
}
"""What is made to say nothing, by what comes of it."""


def run(*, lives: int, seed: int, until_wrong: bool = False) -> Counts:
    """So many lives; until_wrong: no more than it takes to find something wrong."""
    counts = Counts()
    for nth in range(lives):
        if until_wrong and not counts.clean:
            break
        with TemporaryDirectory() as folder:
            life = Life(Path(folder), random.Random(seed * 100_003 + nth))
            for _ in range(EVENTS):
                event(life, counts)
            same(life, counts)
            together(counted(life.folder), life, counts)
        counts.tried += 1
    return counts


def event(life: Life, counts: Counts) -> None:
    """Something happens in the shop."""
    waiting = [job for job in life.jobs if at_the_ring(life, job)]
    if life.jobs and life.chance.random() < 0.08:
        life.take_back(life.chance.choice(sorted(life.jobs)))
        counts.seen["answers taken back"] += 1
        return
    job = life.chance.choice(waiting) if waiting and life.chance.random() < 0.5 else life.begin()
    life.now += life.chance.choice((1, 4, 40)) * DAY
    life.say(job, ("mark", keys.SITTING, ("work", GOES_ON)))
    proposed(life, job, counts)
    if life.chance.random() < 0.3:
        same(life, counts)


def at_the_ring(life: Life, job: str) -> bool:
    """Whether a job waits for a ring to be chosen: cheaply, from its newest entry that says so."""
    said = [one.value for one in life.jobs[job] if isinstance(one.value, tuple)]
    words = [word for value in said for word in value if str(word).startswith("stands ")]
    return bool(words) and words[-1] == GOES_ON


def proposed(life: Life, job: str, counts: Counts) -> None:
    """A ring is proposed: what is offered is held against the files, then one is made or taken out."""
    now = life.walked(job)
    step, found = now.open, now.step(keys.AT_HAND)
    if step is None or step.key != keys.RING:
        counts.seen["on another page"] += 1
        return
    offers = (
        [one for one in found.choices if any(word.startswith("from ") for word in one.with_it)]
        if found
        else []
    )
    book = counted(life.folder)
    chosen = own_choice(life, job)
    for one in offers:
        counts.seen["rings offered"] += 1
        if one.word != chosen:
            held(one.word, bool(one.with_it[1].startswith("walls ")), job, book, life, counts)
    if not offers or life.chance.random() < 0.4:
        life.make(job, step) if step.choices[0].with_it and not chosen else None
        return
    taken_out(life, job, life.chance.choice(offers).word, counts)


def own_choice(life: Life, job: str) -> str:
    """The ring of the drawer that a job has chosen already."""
    newest = life.job(job).fresh(keys.AT_HAND, (keys.ATTEMPT,))
    return newest.word if newest is not None else ""


def held(ref: str, measured: bool, job: str, book: Book, life: Life, counts: Counts) -> None:
    """An offer against the files: there, measured, free, not used, and measured again where it has to be."""
    there = book.lying.get(ref)
    if there is None or ref in book.used or ref in book.pressed:
        counts.fail("offered though it is gone", ref)
    elif not there.walls or not (there.free or ref.startswith(f"{job} ")):
        counts.fail("offered though not measured or not free", ref)
    elif there.again(life.wall()) and measured:
        counts.fail("nylon offered as it is", ref)
    else:
        counts.seen[f"{there.kind} offered"] += 1
        counts.seen["nylon to be measured again"] += there.again(life.wall())
        counts.seen["own rings offered"] += ref.startswith(f"{job} ")


def taken_out(life: Life, job: str, ref: str, counts: Counts) -> None:
    """One is taken out, and left, put back, or pressed."""
    found = life.walked(job).step(keys.AT_HAND)
    choice = found.choice(ref) if found is not None else None
    assert choice is not None
    life.say(job, ("answer", keys.AT_HAND, (ref, *choice.with_it)))
    counts.seen["rings taken out"] += 1
    fate = life.chance.random()
    if fate < 0.2:
        counts.seen["left on the bench"] += 1
        return
    if fate < 0.4:
        life.say(job, ("answer", keys.AT_HAND, ("none",)))
        counts.seen["put back"] += 1
        return
    step = used(life, job, tuple(keys.nth(keys.HAND_WALL, n) for n in range(1, 5)))
    use = step.choice("accept") if step is not None else None
    if use is None:
        counts.seen["judged not to fit after all"] += 1
        return
    life.say(job, ("answer", keys.RING, ("accept", *use.with_it)))
    if life.chance.random() < 0.7:
        life.say(job, *straight().pressed)
        counts.seen["pressed"] += 1
    else:
        life.again(job, ("answer", keys.OFF_BAND, ("another",)))
        counts.seen["taken out and not pressed"] += 1


def same(life: Life, counts: Counts) -> None:
    """The book of the program beside the recount."""
    kept, book = drawer_in(life.folder, life.wall), counted(life.folder)
    found = {one.ref: as_told(one) for one in kept.rings}
    wanted = {
        ref: (one.walls, one.plastic, one.free, one.again(life.wall())) for ref, one in book.lying.items()
    }
    if found != wanted:
        odd = [ref for ref in found.keys() | wanted.keys() if found.get(ref) != wanted.get(ref)]
        first = min(odd)
        counts.fail("another book", f"{first}: {found.get(first)} for {wanted.get(first)}")
    for one in kept.rings:
        if one.ref in book.lying and abs(one.wall_mm - book.lying[one.ref].wall_mm) > ROUNDED_MM:
            counts.fail("another wall", f"{one.ref}: {one.wall_mm} for {book.lying[one.ref].wall_mm}")
    if bars_of(kept) != {kind: left for kind, (_, left) in book.bars.items()}:
        counts.fail("other bars", f"{bars_of(kept)} for {book.bars}")
    counts.seen["books compared"] += 1
    counts.seen["rings in them"] += len(found)


def as_told(one: Lying) -> tuple[object, ...]:
    """A ring as both books tell it."""
    return one.walls_mm, one.plastic, one.free, one.again


def bars_of(kept: Drawer) -> dict[tuple[str, str, str], str]:
    """Bars as they are written."""
    return {
        (one.plastic, one.colour, f"{one.diameter_mm:g} mm"): f"{one.left_mm:.1f} mm" for one in kept.bars
    }


def together(book: Book, life: Life, counts: Counts) -> None:
    """No ring is pressed twice, nor taken by two jobs, but where a job takes back that it gave one back: it
    is told then that another has it.
    """
    for ref, many in Counter(book.pressed).items():
        if many > 1:
            counts.fail("pressed twice", ref)
    for ref, many in Counter(book.used).items():
        if many > 1 and not life.back:
            counts.fail("taken twice", ref)
        counts.seen["wanted back from another job"] += many > 1


@contextmanager
def planted(name: str) -> Iterator[None]:
    """A fault of the program."""
    nothing: object = () if name.endswith(".taken") else False
    with patch(name, lambda *_given, **_named: nothing):
        yield


def main() -> int:
    """Print the figures; 1 where something is not as it has to be."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    counts = run(lives=LONG if parser.parse_args().long else SHORT * 10, seed=7)
    print(counts)
    problems = [] if counts.clean else ["not clean"]
    for said, name in FAULTS.items():
        with planted(name):
            caught = run(lives=SHORT * 10, seed=7, until_wrong=True)
        print(f"fault planted, {said}: {'caught' if not caught.clean else 'NOT CAUGHT'}")
        problems += [said] if caught.clean else []
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())

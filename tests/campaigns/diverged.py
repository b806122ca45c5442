"""Copies of a job that went on apart, joined: `python -m tests.campaigns.diverged [--long]`.

No accepted answer is lost, none is invented, and the result is the same in either order, judged by
`tests/independent/joined_judge.py`, which knows nothing of the program. Faults planted in it are caught.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping, Sequence
from contextlib import AbstractContextManager
from functools import lru_cache
from unittest.mock import patch

from bench.file.load import load
from bench.job.steps import Words
from bench.joining import asked, settling
from bench.joining.asked import Undecided
from bench.joining.joined import join, marks_for
from bench.joining.numbering import Joined
from bench.joining.parting import Placed
from bench.joining.side import Side, side_of
from bench.refusal import Refused
from tests.campaigns.common import Counts, main
from tests.campaigns.diverged_draws import Tree, edited, file_of, shop, tree
from tests.independent.joined_judge import faults

SHORT, LONG = 12, 10_000
TREES_SHORT, TREES_LONG = (5, 8, 10), tuple(range(100))
"""Seeds of the jobs that are gone on with: the short ones reach what is interesting."""
EDITED = 0.15
"""Share of pairs of which a copy is corrected by hand."""
Decided = dict[str, Words | None]
"""What each key that was asked is to say."""
MARKS = marks_for((("one", "0" * 16), ("other", "1" * 16)), at="2026-01-01T00:00:00+00:00")


@lru_cache(maxsize=200)
def planted(seed: int) -> Tree:
    """A tree that is used for many pairs."""
    return tree(seed)


def pair(chance: random.Random, trees: Sequence[int]) -> tuple[bytes, bytes, bool]:
    """Two copies, each left at any answer after they parted, and whether one was edited by hand."""
    chosen = planted(chance.choice(trees))
    one, two = chance.sample(chosen.branches, 2)
    copies = [file_of((*chosen.trunk, *way[: chance.randint(2, max(2, len(way)))])) for way in (one, two)]
    which = chance.randrange(2)
    if chance.random() < EDITED and (by_hand := edited(copies[which], chance)) is not None:
        copies[which] = by_hand
        return copies[0], copies[1], True
    return copies[0], copies[1], False


def decide(one: Side, other: Side, chance: random.Random) -> tuple[Joined, dict[str, int], Decided]:
    """The joined job, by what a person might decide, question by question."""
    choices: dict[str, int] = {}
    decided: Decided = {}
    while True:
        try:
            made = join(one, other, choices, marks=MARKS)
        except Undecided as needed:
            question = needed.question
            choices[question.key] = chance.randrange(2)
            decided[question.key] = question.choices[choices[question.key]]
        else:
            decided.pop(asked.PIECE, None)
            return made, choices, decided


def one_pair(counts: Counts, chance: random.Random, trees: Sequence[int]) -> None:
    """Draw, join in both orders, judge."""
    first, second, by_hand = pair(chance, trees)
    one, two = (side_of(data, "a copy", shop()) for data in (first, second))
    counts.tried += 1
    try:
        made, choices, decided = decide(one, two, chance)
    except Refused as why:
        counts.fail("refused", str(why))
        return
    data = made.render()
    if join(two, one, choices, marks=MARKS).render() != data:
        counts.fail("order", "the other order gives another file")
    loaded = load(data)
    if loaded.gated:
        counts.fail("gated", loaded.message)
        return
    whole = side_of(data, "joined", shop())
    counting = list(whole.counting)[: whole.settled]
    for fault in faults((first, second), data, *rests(one, two, whole), decided, counting):
        what, _, detail = fault.partition(": ")
        counts.fail(what, detail)
    states(counts, (one, two), whole, choices)
    counts.seen["edited by hand"] += by_hand


def rests(one: Side, two: Side, whole: Side) -> tuple[dict[str, Words], dict[str, Words]]:
    """On what each key rests, in the joined job where it is on its route; and all that it rests on at all."""
    known: dict[str, Words] = {}
    at_all: dict[str, Words] = {}
    for side in (one, two, whole):
        for key, found in side.counting.items():
            known[key] = found.step.rests_on
            at_all[key] = tuple(dict.fromkeys((*at_all.get(key, ()), *found.step.rests_on)))
    return known, at_all


def states(counts: Counts, sides: tuple[Side, Side], whole: Side, choices: Mapping[str, int]) -> None:
    """How often something interesting was reached."""
    both = sides[0].counting.keys() & sides[1].counting.keys()
    either = whole.counting.keys() & (sides[0].counting.keys() | sides[1].counting.keys())
    counting = [side.counting for side in sides]
    met = {
        "asked of a key": bool(choices.keys() - {asked.PIECE}),
        "asked which piece": asked.PIECE in choices,
        "a fail on a side": any(asked.failed(side, key) for side in sides for key in asked.OF_TESTS),
        "a hold on one side": any(
            (sides[0].newest(key) is None) != (sides[1].newest(key) is None) for key in asked.OF_TESTS
        ),
        "a finished side": any(side.over for side in sides),
        "both finished": all(side.over for side in sides),
        "another ring": any(side.job.attempt > 1 for side in sides),
        "asked again what counted on both": any(
            not asked.is_check(sides, key) for key in both - whole.counting.keys()
        ),
        "rests on more than a copy knew": any(
            all(
                set(whole.counting[key].step.rests_on) - set(one[key].step.rests_on)
                for one in counting
                if key in one
            )
            for key in either
        ),
    }
    counts.seen.update(key for key, is_so in met.items() if is_so)


def left_out(build: settling.Build, item: Placed) -> None:
    """Leave an item out in place of taking it back."""
    build.items[:] = [one for one in build.items if one is not item]
    build.gone.add(id(item))


PLANTED: dict[str, Callable[[], AbstractContextManager[object]]] = {
    "what differs is decided by order": lambda: patch.object(asked, "differs", lambda sides, key: False),
    "whatever an answer rests on": lambda: patch.object(settling.Build, "is_supported", lambda *_: True),
    "by the routes of the copies alone": lambda: patch.object(settling, "rests_of", lambda *_: {}),
    "a pass counts": lambda: patch.object(settling.Build, "take_tests_out", lambda *_: None),
    "what counts no more is left out": lambda: patch.object(settling.Build, "take_back", left_out),
}
SOON = {"by the routes of the copies alone": (172, TREES_SHORT[:1])}
"""Seed and trees from which a fault that shows in one pair of two hundred shows at once."""


def run(*, long: bool = False, seed: int = 4, count: int = 0) -> Counts:
    """Join many drawn pairs."""
    counts = Counts()
    chance = random.Random(seed)
    for _ in range(count or (LONG if long else SHORT)):
        one_pair(counts, chance, TREES_LONG if long else TREES_SHORT)
    return counts


def caught(fault: str, *, most: int = 200) -> bool:
    """Whether a planted fault is found within so many pairs."""
    seed, trees = SOON.get(fault, (2, TREES_SHORT))
    counts, chance = Counts(), random.Random(seed)
    with PLANTED[fault]():
        for _ in range(most):
            one_pair(counts, chance, trees)
            if not counts.clean:
                return True
    return False


if __name__ == "__main__":
    main(run)

"""What two copies of a job answer differently, and what comes of each key.

Invariant: neither order nor time decides. What only one copy answered again since they parted is taken; what
both answered, or one answered and the other took back, is asked; checks, and tests that did not fail, count
from neither. A question shows nothing that stands behind checks.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from bench.job import keys
from bench.job.begun import is_attempt
from bench.job.steps import Words
from bench.joining.parting import Parted, Placed, split
from bench.joining.side import Counting, Side
from bench.seals.several import of_key

Decisions = Mapping[str, int]
"""By key: 0 or 1, which choice of its question is taken."""
PIECE = keys.ATTEMPT
"""The question which piece goes on, where another one was begun."""
MOST_SAID = 2
"""So many words tell two answers apart that read alike."""
READS = {"n": " readings ", "u": " good to "}
"""How the ends of names kept with an answer are read."""
OF_TESTS = {
    key: sitting for sitting in keys.SITTINGS for key in (sitting.hold, sitting.throughout, sitting.result)
}
"""Keys that are part of a hold, and whose."""


@dataclass(frozen=True, slots=True)
class Question:
    """One key that both copies answered, each otherwise."""

    key: str
    title: str
    choices: tuple[Words | None, Words | None]
    """What each copy says, in the order of the copies; None where it has no answer."""
    said: tuple[str, str]
    """The same for a person."""


class Undecided(Exception):
    """Something has to be decided first."""

    def __init__(self, question: Question) -> None:
        super().__init__(question.key)
        self.question = question


def touched(parted: Parted, which: int) -> frozenset[str]:
    """Keys that a copy answered, or took back, since the copies parted."""
    by_place = {place: item.entry.key for item in _all(parted) for place in item.places}
    found = set()
    for item in parted.own(which):
        if item.entry.kind == "answer":
            found.add(item.entry.key)
        elif item.entry.kind == "undo" and item.entry.of is not None:
            found.add(by_place.get((which, item.entry.of), ""))
    return frozenset(found)


def _all(parted: Parted) -> Iterable[Placed]:
    return (*parted.common, *parted.tails[0], *parted.tails[1])


def failed(side: Side, key: str) -> bool:
    """Whether the newest result of the test that a key belongs to is a fail; it stays, with its hold."""
    result = side.job.newest(OF_TESTS[key].result)
    return result is not None and result.word == "fail"


def questions(sides: tuple[Side, Side], parted: Parted) -> tuple[Question, ...]:
    """All that has to be decided, in the order of the route."""
    return (*_piece(sides, parted), *_by_key(sides, parted))


def _by_key(sides: tuple[Side, Side], parted: Parted) -> Iterable[Question]:
    both = touched(parted, 0) & touched(parted, 1)
    for key in route(sides):
        if key in both and key not in OF_TESTS and differs(sides, key) and not is_check(sides, key):
            yield _question(sides, key)


def _piece(sides: tuple[Side, Side], parted: Parted) -> Iterable[Question]:
    """Which piece goes on: asked where both began one, or one while the other went on with the last."""
    begun = [begins(tail) for tail in parted.tails]
    if all(begun) or (any(begun) and _goes_on(sides, parted, begun.index(False))):
        one, two = (_piece_of(side, parted, which) for which, side in enumerate(sides))
        yield Question(PIECE, "Which one goes on?", ((one,), (two,)), (one, two))


def _piece_of(side: Side, parted: Parted, which: int) -> str:
    """The piece that a copy goes on with, of the seal of which another one was begun."""
    begun = (item for tail in (parted.tails[which], parted.tails[1 - which]) for item in split(list(tail))[1])
    one = of_key(side.job, next(begun).entry.key)
    return f"{one.seal.short} {one.job.attempt}"


def begins(tail: Sequence[Placed]) -> bool:
    """Whether another piece was begun in a tail."""
    return bool(split(list(tail))[1])


def _goes_on(sides: tuple[Side, Side], parted: Parted, which: int) -> bool:
    """Whether a copy answered something about the piece that the other one gave up."""
    mine = touched(parted, which)
    return any(
        key in mine and any(map(is_attempt, one.step.rests_on)) for key, one in sides[which].counting.items()
    )


def route(sides: tuple[Side, Side]) -> tuple[str, ...]:
    """Keys that count on either copy, in the order of the first one's route, then the other's."""
    return tuple(dict.fromkeys(key for side in sides for key in side.counting))


def told(sides: tuple[Side, Side], which: int, key: str) -> Counting | None:
    """What a copy says of a key and is not out of date: on its route, or off it where only the other's route
    leads there.
    """
    own, other = sides[which].counting.get(key), sides[1 - which].counting.get(key)
    if own is not None or other is None:
        return own
    answer = sides[which].job.fresh(key, other.step.rests_on)
    return Counting(other.step, answer) if answer is not None else None


def counted(sides: tuple[Side, Side], which: int, key: str) -> Words | None:
    """The same as words."""
    found = told(sides, which, key)
    return found.words if found is not None else None


def differs(sides: tuple[Side, Side], key: str) -> bool:
    """Whether both copies say something of a key, each otherwise; taking it back is saying something."""
    one, two = (counted(sides, which, key) for which in (0, 1))
    if one is not None and two is not None:
        return one != two
    return any(side.newest(key) is None for side in sides)


def is_check(sides: tuple[Side, Side], key: str) -> bool:
    """Whether a key is a check on either copy."""
    return any(key in side.counting and side.counting[key].step.kind == "safety" for side in sides)


def _question(sides: tuple[Side, Side], key: str) -> Question:
    one, two = (told(sides, which, key) for which in (0, 1))
    known = one or two
    assert known is not None
    words = (one.words if one else None, two.words if two else None)
    title = known.step.title.partition(":")[0] if known.step.guarded_by else known.step.title
    said = (_said(one), _said(two))
    if said[0] == said[1] and not known.step.guarded_by:
        said = (said[0] + _apart(words[0], words[1]), said[1] + _apart(words[1], words[0]))
    return Question(key, title, words, said)


def _apart(words: Words | None, other: Words | None) -> str:
    """What was decided with an answer that reads like the other one: the first of it that differs."""
    told = [word for word in (words or ())[1:] if word not in (other or ())][:MOST_SAID]
    said = (re.sub("_([a-z]*) ", lambda end: READS.get(end[1], f" {end[1]} "), word) for word in told)
    return f": {', '.join(said)}" if told else ""


def _said(one: Counting | None) -> str:
    if one is None:
        return "not answered"
    return "as it was done there" if one.step.guarded_by else one.step.in_words(one.answer.word)


@dataclass(frozen=True, slots=True)
class Final:
    """What a key comes to."""

    words: Words | None
    """None where it counts from neither."""
    sources: tuple[int, ...] = ()
    """Which copies say so."""
    out: bool = False
    """It is to count from neither, so that what was said of it since the copies parted is taken back."""


def finals(sides: tuple[Side, Side], parted: Parted, decisions: Decisions) -> dict[str, Final]:
    """What every key comes to that a copy touched, as far as it is decided; raises Undecided."""
    mine = (touched(parted, 0), touched(parted, 1))
    asked = {question.key: question for question in questions(sides, parted)}
    for key, question in asked.items():
        if decisions.get(key) not in (0, 1):
            raise Undecided(question)
    found: dict[str, Final] = {}
    for key in route(sides):
        if key in asked:
            words = asked[key].choices[decisions[key]]
            found[key] = Final(words, (decisions[key],), out=words is None)
        elif key in mine[0] | mine[1]:
            out = _only_checked(sides, key)
            found[key] = Final(None, out=True) if out else _unasked(sides, mine, key)
    return found


def _only_checked(sides: tuple[Side, Side], key: str) -> bool:
    """Whether a key is a check after which nothing was done: it is made again before anything is."""
    found = [one.step for side in sides for one in side.counting.values()]
    return is_check(sides, key) and not any(key in step.rests_on for step in found)


def _unasked(sides: tuple[Side, Side], mine: tuple[frozenset[str], frozenset[str]], key: str) -> Final:
    one, two = (counted(sides, which, key) for which in (0, 1))
    if key in OF_TESTS:
        kept = [which for which in (0, 1) if key in mine[which] and failed(sides[which], key)]
        return Final(counted(sides, kept[-1], key), (kept[-1],)) if kept else Final(None)
    if one == two:
        return Final(one, (0, 1))
    new = [which for which in (0, 1) if key in mine[which]]
    if one is not None and two is not None:
        return Final((one, two)[new[0]], (new[0],)) if len(new) == 1 else Final(None)
    which = 0 if one is not None else 1
    return Final((one, two)[which], (which,)) if which in new else Final(None)

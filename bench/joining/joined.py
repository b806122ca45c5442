"""Two copies of a job put together into the entries of a third.

Invariant: a pure function of the two copies and what was decided, the same whichever comes first. Every entry
of both is in it, in the order of its copy; what is added repeats an accepted answer, takes one back, or marks
that this was joined. An answer counts only where all it rests on is as it was when it was given.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.file.entry import Entry
from bench.job import keys
from bench.joining.asked import PIECE, Decisions, begins, finals, questions
from bench.joining.numbering import Joined, numbered
from bench.joining.parting import Parted, Placed, content, parted
from bench.joining.settling import Build
from bench.joining.side import Side
from bench.refusal import Refused


def marks_for(copies: Sequence[tuple[str, str]], *, at: str, stands: str = "") -> tuple[Entry, ...]:
    """What stands at the end of a joined job: from which copies it was joined, by name and digest, and that
    work begins, so that every check is asked again; `stands`: the word that says where the job stands.
    """
    told = tuple(word for copy in copies for word in copy)
    begun = ("work", stands) if stands else "work"
    joined = Entry(n=1, at=at, kind="mark", key=keys.JOINED, value=told)
    return joined, Entry(n=1, at=at, kind="mark", key=keys.SITTING, value=begun)


def in_order(one: Side, other: Side) -> tuple[Side, Side]:
    """Two copies in an order that their content alone gives."""
    first, second = sorted((one, other), key=lambda side: [str(content(entry)) for entry in side.entries])
    return first, second


def join(one: Side, other: Side, decisions: Decisions, *, marks: Sequence[Entry] = ()) -> Joined:
    """The joined job. `marks`: entries to stand at its end, numbers left to this.

    Raises Undecided with the first question that `decisions` says nothing of, and Refused for copies that are
    not of one job, did not part, or of which one took back a piece that was begun before they parted.
    """
    if one.head != other.head:
        raise Refused("these are not two copies of one job: their first lines differ")
    sides = in_order(one, other)
    found = parted(sides)
    if not found.diverged:
        raise Refused("nothing to join: one of these is an earlier state of the other")
    _refuse_taken_back(found)
    done = finals(sides, found, decisions)
    last = _last(sides, found, decisions)
    build = Build(sides, found, done, last)
    build.settle()
    return numbered(one.head, [*build.items, *(Placed(mark) for mark in marks)])


def asked_of(one: Side, other: Side) -> tuple[tuple[Side, Side], Parted]:
    """The copies in the order in which questions name them, and where they part."""
    sides = in_order(one, other)
    return sides, parted(sides)


def _refuse_taken_back(found: Parted) -> None:
    begun = {place for item in found.common if item.entry.kind == "mark" for place in item.places}
    for which, tail in enumerate(found.tails):
        for item in tail:
            if item.entry.kind == "undo" and (which, item.entry.of or 0) in begun:
                raise Refused(
                    "on one copy a further piece was taken back that the other goes on with: "
                    "these cannot be joined; go on in one of them"
                )


def _last(sides: tuple[Side, Side], found: Parted, decisions: Decisions) -> int:
    """Which copy's entries come last: whose piece goes on, or who answered more that counts."""
    begun = [begins(tail) for tail in found.tails]
    if any(question.key == PIECE for question in questions(sides, found)):
        return decisions[PIECE]
    if any(begun):
        return begun.index(True)
    answered = [
        len({item.entry.key for item in tail} & sides[which].counting.keys())
        for which, tail in enumerate(found.tails)
    ]
    return int(answered[1] >= answered[0])

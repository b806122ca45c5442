"""Two copies of a job for a person: side by side, what they answer differently, joined once that is decided.

Invariant: nothing is written before every question is answered; leaving is offered on every page.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.desk.copy_effects import Asks, Compare
from bench.desk.effects import Arrival, Close, Effect, Open
from bench.desk.token import Token
from bench.file.disk import REAL, Disk
from bench.job import keys
from bench.joining.asked import OF_TESTS, Question, Undecided, failed
from bench.joining.joined import asked_of
from bench.joining.writing import TwoCopies, pair_of, write_joined
from bench.moments import to_the_minute

if TYPE_CHECKING:
    from bench.shop.shop import Shop

HEADING = "two copies of one job"
BOTH_STAY = "Both files stay as they are; a third is made."
ASKED_AGAIN = "Checks and tests count from neither and are made again; a fail stays."
MOST_NAMED = 4
RESULTS = {"pass": "passed", "fail": "FAILED", "not_judged": "no verdict"}
LEAVE = ("leave", "leave both as they are", Close())


def asks(pair: TwoCopies) -> Asks:
    """The page that shows two copies side by side."""
    jobs = tuple(path.name for path in pair.paths)
    differ = pair.questions
    said = (
        f"CHECK  {HEADING} went on apart",
        *(of_copy(pair, which) for which in (0, 1)),
    )
    return Asks(HEADING, (*said, *differing(differ), *results(pair), BOTH_STAY, ASKED_AGAIN), ways(jobs))


def of_copy(pair: TwoCopies, which: int) -> str:
    """How a copy went on, in one line."""
    side, tail = pair.sides[which], asked_of(*pair.sides)[1].own(which)
    answers = sum(item.entry.kind == "answer" for item in tail)
    last = to_the_minute(side.entries[-1].at)
    end = "finished" if side.over else "not finished"
    bad = "; a test FAILED" if any(failed(side, key) for key in OF_TESTS) else ""
    return f"{pair.names[which]}: {answers} answer{'s' * (answers != 1)} since, to {last}; {end}{bad}"


def differing(differ: tuple[Question, ...]) -> tuple[str, ...]:
    """What both answered, each otherwise; the first few by name."""
    if not differ:
        return ("Nothing has to be asked.",)
    named = tuple(f"{one.title}: {one.said[0]} | {one.said[1]}" for one in differ[:MOST_NAMED])
    more = len(differ) - len(named)
    return ("Answered differently, and asked:", *named, *((f"and {more} more",) if more else ()))


def results(pair: TwoCopies) -> tuple[str, ...]:
    """The tests that came out otherwise on each copy; of these nothing is asked."""
    found = []
    for sitting in keys.SITTINGS:
        words = [side.newest(sitting.result) for side in pair.sides]
        one, two = (RESULTS.get(given[0], given[0]) if given else "none" for given in words)
        if one != two:
            found.append(f"Test of the {sitting.title}: {one} | {two}")
    return tuple(found)


def ways(jobs: tuple[str, ...]) -> tuple[tuple[str, str, Effect], ...]:
    """The ways on from there."""
    return (
        LEAVE,
        ("join", "join them into a third file", Compare(jobs, going=True)),
        *((f"open_{n}", f"open {name}", Open(name)) for n, name in enumerate(jobs, 1)),
    )


def question_page(pair: TwoCopies, needed: Question, decided: tuple[tuple[str, int], ...]) -> Asks:
    """The page that asks one question."""
    jobs = tuple(path.name for path in pair.paths)
    count = f"question {len(decided) + 1} of {len(pair.questions)}"
    choices = tuple(
        (
            f"copy_{which + 1}",
            f"{said}   ({pair.names[which]})",
            Compare(jobs, (*decided, (needed.key, which)), going=True),
        )
        for which, said in enumerate(needed.said)
    )
    return Asks(f"join, {count}", (f"CHECK  {needed.title}", "Which one is right?"), (*choices, LEAVE))


def compared(
    jobs: Path,
    effect: Compare,
    shop: Shop,
    *,
    at: str,
    opens: Callable[[Path], Arrival],
    disk: Disk = REAL,
) -> list[Arrival]:
    """The page that comes next, or the joined file, opened and said; raises Refused, NotSaved."""
    one, other = (jobs / name for name in effect.names)
    pair = pair_of(one, other, shop)
    if not effect.going:
        return [asks(pair)]
    try:
        made = write_joined(pair, dict(effect.decided), shop, at=at, disk=disk)
    except Undecided as needed:
        return [question_page(pair, needed.question, effect.decided)]
    words = f"Joined into {made.name}. Both copies stay as they are, and are asked about no more."
    return [opens(made), Token("said", clean(words), wall=at)]

"""Before an answer is replaced: what stops counting with it, and what would do instead.

Invariant: nothing is written until the person has chosen;
an answer that nothing rests on is replaced at once, as is one to which the open step itself leads.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.desk.desk import Desk
from bench.desk.effects import Append, Effect
from bench.desk.foreseen import ahead
from bench.desk.pages import Outcome, arrive, back, over, say
from bench.desk.token import Leave
from bench.desk.typed import AnswerLine
from bench.job import further

if TYPE_CHECKING:
    from bench.job.steps import Step

PAGE = "replacing"


@dataclass(frozen=True, slots=True)
class Way:
    """One way on."""

    word: str
    text: str
    entries: tuple[Append, ...] = ()
    """What is appended; none leaves everything as it was."""
    leads: tuple[Effect, ...] = ()
    """What is done instead, with nothing appended: the job is left."""


LEAVE = Way("leave", "leave it as it was")


@dataclass(frozen=True, slots=True)
class Sure:
    """Something that is asked before it is done."""

    heading: str
    said: tuple[str, ...]
    """What comes of it."""
    ways: tuple[Way, ...]
    message: str = ""
    """To be said once it is done."""


@dataclass(frozen=True, slots=True)
class Replacing:
    """An answer about to be replaced."""

    step: Step
    was: str
    new: str
    lost: tuple[Step, ...]
    """The answered steps that stop counting, in order."""
    named: tuple[Step, ...]
    """Those of them that may be shown: nothing that stands behind checks not answered in this sitting."""
    ways: tuple[Way, ...]
    message: str = ""
    """To be said once it is replaced."""


def asked_first(desk: Desk, step: Step, entry: Append, message: str) -> Outcome | None:
    """The page that says what stops counting; None where nothing does."""
    from bench.job.stopping import stops_counting
    from bench.seals.several import of_key  # comes with the first job, not with the list of jobs

    walk, job, shop = desk.walk, desk.job, desk.shop
    if not desk.looking_back or walk is None or job is None or shop is None or desk.asked_shop is not None:
        return None
    led_there = walk.open is not None and any(one.goto == step.key for one in walk.open.choices)
    lost = () if led_there else stops_counting(walk, step.key, ahead(desk, entry))
    if not lost:
        return None
    new = entry.value[0] if isinstance(entry.value, tuple) else entry.value
    given = desk.in_force(step)
    one = of_key(job, step.key)
    less = one.seal.instead(one.job, shop, further.theirs(one.number, step.key), str(new))
    ways = (
        *(
            Way(
                "instead",
                way.text,
                tuple(Append(one.own(key), value_of(words)) for key, words in way.answers),
            )
            for way in less
        ),
        Way("replace", "replace it, and give them again", (entry,)),
        LEAVE,
    )
    was = given.word if given is not None else step.usual
    named = tuple(one for one in lost if one.key not in walk.hidden)
    about = Replacing(step, was, str(new), lost, named, ways, message)
    return replace(over(desk, PAGE), replacing=about, line=AnswerLine(), message="", alarm=False), ()


def value_of(words: tuple[str, ...]) -> str | tuple[str, ...]:
    """Words as an entry holds them."""
    return words[0] if len(words) == 1 else words


def answers(count: int) -> str:
    """So many answers, in words."""
    return f"{count} answer" if count == 1 else f"{count} answers"


def choose(desk: Desk) -> Outcome:
    """Enter on the page: one of its ways."""
    about, text = desk.replacing, desk.line.text
    ways = about.ways if about is not None else ()
    index = int(text) - 1 if text.isdigit() else -1
    if about is None or not 0 <= index < len(ways):
        return say(desk, f"there is no choice {text}")
    entries, leads = ways[index].entries, ways[index].leads
    if leads:
        under = back(replace(desk, line=AnswerLine(), replacing=None))
        quits = any(isinstance(effect, Leave) for effect in leads)
        return (replace(under, page="left") if quits else under), leads
    if not entries:
        kept = replace(desk, at="", line=AnswerLine(), replacing=None, alarm=False)
        return arrive(replace(kept, message="left as it was"))
    first, *rest = entries
    return replace(desk, pending=first, then=tuple(rest), message=about.message, alarm=False), (first,)

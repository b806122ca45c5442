"""The search for a leak after a failed test, as data and one pure function.

Invariant: the questions form a graph without loops, so every path ends in a conclusion; where the search
stands follows from the answers alone.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, replace
from functools import lru_cache
from types import MappingProxyType

from rules.checks import Item, known
from rules.tables import raw_table

RENEWED = "other_seal"
"""The conclusion that another seal leaked and has been renewed."""
AGAIN = "again"
"""Pressure is raised as in the test that failed."""


@dataclass(frozen=True, slots=True)
class SearchAnswer:
    """One answer to a question."""

    key: str
    text: str
    leads_to: str
    """Key of the next question or of a conclusion."""


@dataclass(frozen=True, slots=True)
class SearchQuestion:
    """The next thing to find out."""

    key: str
    ask: str
    why: str | None
    """What the answer tells, where that is not plain."""
    answers: tuple[SearchAnswer, ...]
    after_verdict: tuple[str, ...] = ()
    """Key of an answer, and the words of question and answer after a tester's own verdict."""
    renews: tuple[str, ...] = ()
    """Seals that were renewed where an answer to it ends the search at `RENEWED`."""
    raises: str = ""
    """Pressure is raised to answer it: `AGAIN` as in the test that failed, or by the method of that name."""
    unread: str = ""
    """Key of the answer taken, unasked, after a test that showed no reading; else empty."""


@dataclass(frozen=True, slots=True)
class Conclusion:
    """Where the search ended, and where the job goes on."""

    key: str
    words: str
    goes_to: str
    """ring, measure, test or hand_back."""


@dataclass(frozen=True, slots=True)
class Search:
    """The whole graph."""

    start: str
    questions: Mapping[str, SearchQuestion]
    conclusions: Mapping[str, Conclusion]


GLASS, BACK = "glass", "back"
ORING_BACK, ORING_CROWN, ORING_PUSHERS = "oring_back", "oring_crown", "oring_pushers"
JOINTS = (GLASS, BACK, ORING_BACK, ORING_CROWN, ORING_PUSHERS)
"""The joints that the seal of a job may close; an O-ring is looked at in its own way."""


@lru_cache(maxsize=len(JOINTS))
def search(joint: str = GLASS) -> Search:
    """All questions and conclusions for a seal of a joint, read once from the table."""
    raw = raw_table("hunt")
    instead = raw["instead"].get(joint, {})
    questions = {
        key: SearchQuestion(
            key=key,
            ask=entry["ask"],
            why=entry.get("why"),
            answers=tuple(
                SearchAnswer(word, text, instead.get(to, to)) for word, (text, to) in entry["answers"].items()
            ),
            after_verdict=tuple(entry.get("after_verdict", ())),
            renews=tuple(entry.get("renews", ())),
            raises=entry.get("raises", ""),
            unread=entry.get("unread", ""),
        )
        for key, entry in raw["questions"].items()
    }
    conclusions = {
        key: Conclusion(key=key, words=entry["words"], goes_to=entry["next"])
        for key, entry in raw["conclusions"].items()
    }
    return reached(Search(raw["start"], questions, conclusions))


def reached(every: Search) -> Search:
    """A search without what no way leads to."""
    seen: set[str] = set()
    left = [every.start]
    while left:
        place = left.pop()
        if place not in seen:
            seen.add(place)
            question = every.questions.get(place)
            left += [answer.leads_to for answer in question.answers] if question else []
    return Search(every.start, kept(every.questions, seen), kept(every.conclusions, seen))


def kept(some: Mapping[str, Item], names: Set[str]) -> Mapping[str, Item]:
    """What has one of these names."""
    return MappingProxyType({key: one for key, one in some.items() if key in names})


def next_step(answers: Mapping[str, str], seal: str, joint: str = GLASS) -> SearchQuestion | Conclusion:
    """The next question, or the conclusion, from the answers given so far (question key to answer key), with
    the name of the seal that was made in its words; `joint`: which it closes.

    Answers to questions off the path are left out of account. Raises OutOfRange, with the answers
    offered, when a question on the path was answered otherwise.
    """
    graph = search(joint)
    place = graph.start
    while place not in graph.conclusions:
        question = graph.questions[place]
        given = answers.get(place)
        if given is None:
            return worded(question, seal)
        place = known(f"answer to {place}", given, {one.key: one.leads_to for one in question.answers})
    end = graph.conclusions[place]
    which = " and ".join(f"the {one}" for one in _renewed(graph, answers))
    return replace(end, words=end.words.format(seal=seal, which=which))


def worded(question: SearchQuestion, seal: str) -> SearchQuestion:
    """A question with the name of the seal in its words."""
    answers = tuple(replace(one, text=one.text.format(seal=seal)) for one in question.answers)
    return replace(question, ask=question.ask.format(seal=seal), answers=answers)


def after_verdict(question: SearchQuestion) -> SearchQuestion:
    """The same question to somebody whose tester said no more than fail: what that says comes first."""
    if not question.after_verdict:
        return question
    key, ask, text = question.after_verdict
    ordered = sorted(question.answers, key=lambda one: one.key != key)
    said = tuple(replace(one, text=text) if one.key == key else one for one in ordered)
    return replace(question, ask=ask, answers=said)


def renewed(answers: Mapping[str, str]) -> tuple[str, ...]:
    """The seals that a search found leaking and renewed, from its answers so far; most often none.

    >>> renewed({"kind": "gross", "contact": "yes", "opened": "back", "back": "tight"})
    ('back',)
    """
    found = (_renewed(search(joint), answers) for joint in JOINTS)
    return next(filter(None, found), ())


def _renewed(graph: Search, answers: Mapping[str, str]) -> tuple[str, ...]:
    place, last = graph.start, graph.questions[graph.start]
    while (question := graph.questions.get(place)) is not None:
        last = question
        leads = {one.key: one.leads_to for one in question.answers}
        place = leads.get(answers.get(place, question.unread), "")
    return last.renews if place == RENEWED else ()

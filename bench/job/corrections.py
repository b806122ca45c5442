"""Results that were keyed over one another: which one holds, and what it was first given as.

Invariant: a fail holds until a test with a hold of its own follows, or until the person has said
that it was keyed wrong and has keyed the result again; a seal that did not go home likewise.
Whatever is keyed over stays on record.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from bench.job import keys
from bench.job.job import Answer, Job
from bench.job.kept import HOME
from bench.moments import moment_of, utc_text

KEYED_WRONG, AGAIN = "keyed_wrong", "again"
"""What the person may say of a result keyed over a fail."""
CORRECTED, OPEN = "corrected", "open"
"""Keyed over where nothing had to be asked; asked, and not answered yet."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A result of one kind: of a test of one sitting, or of fitting."""

    what: str
    """empty, cased or fitting."""
    result: str
    """Key of its answers."""
    begins: str
    """Key of what begins another: the hold of a test, the making of a seal."""
    asks: str
    """Key of the question which of the two it is."""
    again: str = "tested again"
    """How another result comes about, in words."""

    def bad(self, answer: Answer) -> bool:
        """Whether a result says that the seal cannot be used."""
        return answer.word != HOME if self.what == FITTED else answer.word == "fail"


FITTED = "fitting"
TESTS = {one.name: Kind(one.name, one.result, one.hold, one.correction) for one in keys.SITTINGS}


def fitting(*, result: str, begins: str, asks: str, again: str) -> Kind:
    """How a kind of seal is put in, as results of their own kind."""
    return Kind(FITTED, result, begins, asks, again)


@dataclass(frozen=True, slots=True)
class Over:
    """One result keyed over another."""

    first: Answer
    then: Answer
    how: str
    """keyed_wrong, again, corrected or open."""


@dataclass(frozen=True, slots=True)
class Course:
    """What was keyed of one hold, or of one pressing."""

    holds: Answer | None = None
    """The result that holds."""
    refused: Answer | None = None
    """A better one keyed over it that does not hold."""
    said: str = ""
    """What was said of that: keyed_wrong, again, or nothing yet."""
    over: tuple[Over, ...] = ()

    def then(self, kind: Kind, answer: Answer) -> Course:
        """The course after one more answer."""
        if answer.key == kind.asks:
            return replace(self, said=answer.word) if self.refused else self
        if answer.key != kind.result:
            return self
        if self.holds is None or answer.word == self.holds.word:
            return replace(self, holds=answer, refused=None, said="")
        if kind.bad(self.holds) and not kind.bad(answer) and self.said != KEYED_WRONG:
            return replace(self, refused=answer, said="")
        over = Over(self.holds, answer, self.said or CORRECTED)
        return Course(holds=answer, over=(*self.over, over))

    @property
    def traces(self) -> tuple[Over, ...]:
        """Everything that was keyed over, what does not hold included."""
        if self.holds is None or self.refused is None:
            return self.over
        return (*self.over, Over(self.holds, self.refused, self.said or OPEN))


def courses(answers: Sequence[Answer], kind: Kind) -> Iterator[Course]:
    """Every hold with its results, in order; the answers of one seal, oldest first."""
    course = Course()
    for answer in answers:
        if answer.key == kind.begins:
            yield course
            course = Course()
        course = course.then(kind, answer)
    yield course


def results(answers: Sequence[Answer]) -> list[Answer]:
    """The results of both sittings that hold, in the order of the file."""
    held = [course.holds for kind in TESTS.values() for course in courses(answers, kind)]
    return sorted((answer for answer in held if answer is not None), key=lambda answer: answer.n)


def outcome(answers: Sequence[Answer], fitting: Kind) -> Answer | None:
    """How putting a seal in went, as far as it holds."""
    held = [course.holds for course in courses(answers, fitting)]
    return next((answer for answer in reversed(held) if answer is not None), None)


def bad_result(answer: Answer, fitting: Kind) -> bool:
    """Whether an answer is a result that says that the seal cannot be used."""
    return any(answer.key == kind.result and kind.bad(answer) for kind in (fitting, *TESTS.values()))


def to_ask(job: Job, kind: Kind) -> Course | None:
    """The course of this seal of which it has to be said which it is; None where nothing is to be asked."""
    *_, course = courses(job.attempt_spans()[-1], kind)
    return course if course.refused is not None and course.said != KEYED_WRONG else None


def corrections_of(spans: Sequence[Sequence[Answer]], fitting: Kind) -> list[dict[str, Any]]:
    """Every result that was keyed over, seal by seal, for the sheet."""
    found = [
        (n, kind.what, over)
        for n, span in enumerate(spans, 1)
        for kind in (fitting, *TESTS.values())
        for course in courses(span, kind)
        for over in course.traces
    ]
    return [
        {
            "attempt": n,
            "what": what,
            "first": over.first.word,
            "first_at": given_at(over.first),
            "then": over.then.word,
            "then_at": given_at(over.then),
            "how": over.how,
        }
        for n, what, over in sorted(found, key=lambda one: one[2].then.n)
    ]


def given_at(answer: Answer) -> str | None:
    """When an answer was given, UTC text; None where its time cannot be read."""
    return next((utc_text(text) for text in (*answer.words[1:2], answer.at) if moment_of(text)), None)

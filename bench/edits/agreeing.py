"""Answers changed by hand held against those beside them: a result against its pressure, its hold and its
fitting, a ring against itself.

Invariant: what nobody changed is not looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass, replace
from itertools import chain
from typing import TYPE_CHECKING

from bench.job import further, keys
from bench.job.job import Answer, newest_of
from bench.job.kept import ASKED, HOME, PROGRAM, TESTER, UNKNOWN
from bench.job.keys import Sitting
from bench.job.steps import Words
from bench.job.values import named, named_text, number
from bench.moments import seconds_between
from bench.seals import SEALS, in_place
from rules.testing.methods import methods

if TYPE_CHECKING:
    from bench.shop.shop import Shop

DECIDED = {"PASS": "pass", "FAIL": "fail"}
"""The result that a decision from readings leads to; every other leads to none."""
SAME = 1e-9
CLOCK_OFF_S = 86_400.0
"""A clock that was put right on the way may be a day off."""
RAN_MIN = 0.1
"""A time that ran is written so finely."""


@dataclass(frozen=True, slots=True)
class Disagreement:
    """An answer that was changed, and what is expected of it."""

    n: int
    expected: str


def disagreements(answers: Sequence[Answer], changed: Set[int], shop: Shop) -> Iterator[Disagreement]:
    """What was changed and does not go with what stands beside it; answers in the order of the file."""
    for at, answer in enumerate(answers):
        before = answers[:at]
        for sitting in keys.SITTINGS:
            if answer.key == sitting.result:
                yield from _Test(answer, before, sitting, changed, shop).all()
            if answer.key == sitting.pressure and answer.n in changed:
                yield from _too_high(answer.n, number(answer.word), shop)
        if answer.n in changed:
            yield from _too_late(answer)
            yield from (Disagreement(answer.n, text) for text in _expected(answer, before))


def _expected(answer: Answer, before: Sequence[Answer]) -> Iterator[str]:
    """What the kinds of seal expect of an answer, each seal of the job by its own answers."""
    seal = further.number_of(answer.key)
    said, *others = (replace(one, key=further.theirs(seal, one.key)) for one in (answer, *before))
    own = [one for one in others if one.key]
    return chain.from_iterable(kind.expected(said, own) for kind in SEALS.values())


def _too_high(n: int, bar: float, shop: Shop) -> Iterator[Disagreement]:
    if bar > shop.tester.largest_bar + SAME:
        yield Disagreement(n, f"at most {shop.tester.largest_bar:g} bar, which the tester reaches")


def _too_late(answer: Answer) -> Iterator[Disagreement]:
    after = seconds_between(answer.at, answer.words[1]) if len(answer.words) > 1 else None
    if after is not None and after > CLOCK_OFF_S:
        yield Disagreement(answer.n, f"a time that is not after its answer, {answer.at}")


@dataclass(frozen=True, slots=True)
class _Test:
    """A result with what was said before it."""

    result: Answer
    before: Sequence[Answer]
    sitting: Sitting
    changed: Set[int]
    shop: Shop

    def all(self) -> Iterator[Disagreement]:
        """Everything that does not go together."""
        yield from self.pressures()
        yield from self.holds()
        yield from self.moments()
        yield from self.warmth()
        if self.result.n in self.changed:
            yield from self.verdict()

    def pair(self, other: Answer | None) -> int | None:
        """The number of what was changed of the result and another; None where neither was."""
        if self.result.n in self.changed:
            return self.result.n
        return other.n if other is not None and other.n in self.changed else None

    def pressures(self) -> Iterator[Disagreement]:
        """The pressure of the result is the one that was keyed, and one that the tester reaches."""
        said, keyed = named(self.result.words, "pressure"), newest_of(self.before, self.sitting.pressure)
        n = self.pair(keyed)
        if said is None or n is None:
            return
        if self.result.n in self.changed:
            yield from _too_high(self.result.n, said, self.shop)
        if keyed is not None and abs(number(keyed.word) - said) > SAME:
            yield Disagreement(
                n, f"the same pressure in {keyed.key} ({keyed.word}) and {self.result.key} ({said:g} bar)"
            )

    def holds(self) -> Iterator[Disagreement]:
        """No longer a hold than was begun, and timed as it was begun."""
        hold, held = newest_of(self.before, self.sitting.hold), named(self.result.words, "held")
        n = self.pair(hold)
        if hold is None or n is None:
            return
        ways = self.timed_ways(hold)
        if held is not None and TESTER not in ways and held > number(hold.words[-1]) + SAME:
            yield Disagreement(n, f"held no longer than the hold of {hold.words[-1]}")
        if held is not None and ways == (TESTER,):
            yield Disagreement(n, "held unknown, since the tester timed itself")
        ran = named(self.result.words, "ran")
        if self.result.word == "pass" and held and ran is not None and ran < held - RAN_MIN:
            yield Disagreement(n, f"ran for the {held:g} min that were held, to have passed")
        if named_text(self.result.words, "timed") not in ("", *ways):
            yield Disagreement(n, f"timed {ways[0]}, as the hold was begun")

    def timed_ways(self, hold: Answer) -> Words:
        """By whom the hold may have been timed."""
        if hold.word != "start":
            return (hold.word,)
        if not any(word.endswith(" min") for word in hold.words):
            return (TESTER,)  # nothing was timed
        method = methods().get(named_text(self.result.words, "method"))
        if method is not None and method.own_verdict:
            return (PROGRAM, TESTER)
        asked = newest_of(self.before, self.sitting.throughout)
        return (ASKED,) if asked is not None and asked.n > hold.n else (PROGRAM,)

    def moments(self) -> Iterator[Disagreement]:
        """A result comes after the beginning of its hold and after the fitting."""
        fitted = next((one for one in reversed(self.before) if one.key in in_place()), None)
        begun = newest_of(self.before, self.sitting.hold)
        home = fitted if fitted is not None and fitted.word == HOME else None
        for other, what in ((begun, "the beginning of its hold"), (home, "the fitting")):
            n = self.pair(other)
            if other is None or n is None or len(other.words) < 2 or len(self.result.words) < 2:
                continue
            after = seconds_between(other.words[1], self.result.words[1])
            if after is not None and after < 0:
                yield Disagreement(n, f"a result after {what} ({other.words[1]})")

    def warmth(self) -> Iterator[Disagreement]:
        """The temperature of the result is the one that was keyed since the fitting."""
        keyed = newest_of(self.before, self.sitting.temperature)
        since = max((one.n for one in self.before if one.key in in_place()), default=0)
        n = self.pair(keyed)
        said = named_text(self.result.words, "temperature")
        meant = keyed.word if keyed is not None and keyed.n > since else UNKNOWN
        if n is not None and said and said != meant:
            yield Disagreement(n, f"the same temperature in {self.sitting.temperature} and {self.result.key}")

    def verdict(self) -> Iterator[Disagreement]:
        """A method that there is, and the result that its readings gave."""
        words = self.result.words
        method, decision = named_text(words, "method"), named_text(words, "leak_decision")
        if method and method not in methods():
            yield Disagreement(self.result.n, f"a method such as {', '.join(methods())}")
        if decision and self.result.word not in (DECIDED.get(decision, "not_judged"), "not_judged"):
            yield Disagreement(
                self.result.n, f"{DECIDED.get(decision, 'not_judged')}, as its readings gave {decision}"
            )
        rate, low, high = (named(words, name) for name in ("leak", "leak_low", "leak_high"))
        if rate is not None and low is not None and not low <= rate <= (rate if high is None else high):
            yield Disagreement(self.result.n, "a leak between leak_low and leak_high")

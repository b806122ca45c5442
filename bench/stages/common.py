"""What every stage needs: the asking of repeated readings.

Invariant: a dimension leaves `readings` only once two readings agree, or one agrees with what was expected.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.asking import Stage
from bench.job.job import Answer
from bench.job.mask import Mask
from bench.job.read_by import as_held
from bench.job.steps import Choice, Picture, Step, Words
from bench.job.values import number
from rules.lengths import length, plainly
from rules.measuring.reading import CLOCK, Agreement, judge

DONE = Choice("done", "done")
ONE_BY_ONE = "one by one"
"""The answer to a reading that may be a mean, where the readings are keyed themselves."""


def plain_choices(*pairs: tuple[str, str]) -> tuple[Choice, ...]:
    """Choices from (word, text) pairs."""
    return tuple(Choice(word, text) for word, text in pairs)


INDOORS = Mask(2, 0, "C", 5.0, 40.0)
"""A temperature in a room where somebody works."""


@dataclass(frozen=True, slots=True)
class Readings:
    """Repeated readings of one dimension, as keyed, and which of them are used."""

    answers: tuple[Answer, ...]
    agreement: Agreement
    places: tuple[str, ...]

    @property
    def values_mm(self) -> tuple[float, ...]:
        """Every reading, in the order keyed."""
        return tuple(number(answer.word) for answer in self.answers)

    @property
    def used_mm(self) -> tuple[float, ...]:
        """The readings that agree and are used."""
        return tuple(self.values_mm[i] for i in self.agreement.used)

    @property
    def counted_mm(self) -> tuple[float, ...]:
        """The readings that are used, or every one where none agree and the asking came to its end."""
        alone = len(self.used_mm) < 2 and not self.agreement.settled
        return self.values_mm if alone else self.used_mm

    @property
    def keys(self) -> Words:
        """Keys of all readings: what rests on the dimension rests on these."""
        return tuple(answer.key for answer in self.answers)


def pairs_of(answers: Sequence[Answer], places: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """(place, value) of the readings so far, for the page."""
    return tuple((place, answer.word) for place, answer in zip(places, answers, strict=False))


@dataclass(frozen=True, slots=True)
class Dimension:
    """How one dimension is asked."""

    step: Step
    """The step of the first reading; key without number, title with `{place}`."""
    within_mm: float
    places: tuple[str, ...] = CLOCK
    least: int = 2
    """Readings to ask even when they agree at once."""
    expected_mm: float | None = None
    """What the reading should be near: it counts as one earlier reading."""
    between_mm: float = math.inf
    """Two crossing readings further apart ask for the two between."""
    differs: Words = ()
    """What may lie behind readings that differ too much."""
    one_by_one: Dimension | None = None
    """How it is asked instead where the first answer is `ONE_BY_ONE`: place by place, not as one mean."""

    def enough(self, values: Sequence[float], places: Sequence[str], agreement: Agreement) -> bool:
        """Whether these readings say what the dimension is, or no further place is left to ask."""
        if len(values) == len(self.places) + self.least:
            return True
        if len(values) < self.least or not agreement.settled:
            return False
        used = [values[index] for index in agreement.used]
        return len(set(places)) >= 4 or max(used) - min(used) <= self.between_mm + 1e-9

    def agreement(self, values: Sequence[float]) -> Agreement:
        """Which readings agree, the expected value counting as one where there is one and they differ."""
        alone = judge(values, within_mm=self.within_mm)
        if self.expected_mm is None or (alone.settled and len(alone.used) == len(values)):
            return alone
        with_expected = judge((self.expected_mm, *values), within_mm=self.within_mm)
        if with_expected.settled and 0 in with_expected.used and len(with_expected.used) > 1:
            used = tuple(i - 1 for i in with_expected.used if i)
            return replace(with_expected, used=used, struck=tuple(i - 1 for i in with_expected.struck))
        if alone.settled or not values:
            return alone
        return replace(alone, difference_mm=abs(values[-1] - self.expected_mm))


def readings(dimension: Dimension) -> Stage[Readings]:
    """Ask a dimension until enough readings agree; further readings can be added from the list."""
    answers: list[Answer] = []
    places: list[str] = []
    while True:
        values = [number(answer.word) for answer in answers]
        agreement = dimension.agreement(values)
        enough = dimension.enough(values, places, agreement)
        if enough and dimension.least == 1:
            return Readings(tuple(answers), agreement, tuple(places))
        step = next_reading(dimension, answers, places, agreement, enough=enough)
        answer = yield step
        if dimension.one_by_one is not None and answer.word == ONE_BY_ONE:
            return (yield from readings(dimension.one_by_one))
        if enough and answer.word == "none":
            return Readings(tuple(answers), agreement, tuple(places))
        answers.append(answer)
        places.append(place_of(dimension, places, again=step.blind))


def place_of(dimension: Dimension, places: Sequence[str], *, again: bool) -> str:
    """Where the next reading is taken: the same place again after a disagreement, else the next place."""
    if again and places:
        return places[-1]
    taken = len(dict.fromkeys(places))
    return dimension.places[min(taken, len(dimension.places) - 1)]


def next_reading(
    dimension: Dimension,
    answers: Sequence[Answer],
    places: Sequence[str],
    agreement: Agreement,
    *,
    enough: bool,
) -> Step:
    """The step that asks the next reading of a dimension."""
    n = len(answers) + 1
    again = bool(answers) and not agreement.settled and agreement.difference_mm is not None
    place = place_of(dimension, places, again=again)
    base = dimension.step
    title = base.title.format(place=place) + (", again" if again else "")
    consequence: Words = base.consequence
    if again:
        apart = f"It differs by {length(agreement.difference_mm or 0.0)}: measure again and key it again."
        consequence = (apart, *dimension.differs)
    elif len(answers) >= dimension.least and not enough:
        consequence = (
            f"They differ by more than {plainly(dimension.between_mm)}: measure the two between as well.",
        )
    return replace(
        as_held(base, answers),
        key=base.key if dimension.least == 1 and n == 1 else keys.nth(base.key, n),
        title=title,
        earlier=() if again else pairs_of(answers, places),
        asked_of=tuple(answer.word for answer in answers),
        blind=again,
        consequence=consequence,
        optional=enough,
        usual="none" if enough else base.usual,
        picture=round_the_clock(dimension, answers, places) if not again else None,
    )


def round_the_clock(dimension: Dimension, answers: Sequence[Answer], places: Sequence[str]) -> Picture | None:
    """Readings by clock position, once two crossing ones are there; None for other dimensions."""
    if dimension.places is not CLOCK or len(answers) < 2:
        return None
    series = tuple((place, number(answer.word)) for place, answer in zip(places, answers, strict=False))
    return Picture("clock", series=series)

"""What one session file says of the work of a shop: made, tried, tested, how long, out of which bar.

Invariant: read from the file alone; what happened counts in the month in which it happened, by the times
that can be believed.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime

from bench.edits.judging import judged
from bench.file.entry import Entry
from bench.file.load import load
from bench.job import keys
from bench.job.corrections import outcome, results
from bench.job.job import Answer, Job, replay
from bench.job.kept import HOME, HURRIED
from bench.job.values import named_text
from bench.job.when import believed
from bench.moments import due_after
from bench.seals.lathe.turning_facts import KEPT_WITH, from_text
from bench.seals.seal import Seal
from bench.seals.several import OneSeal, first_of, seals_of
from bench.sheet.bench_time import gaps
from bench.sheet.one_seal import present_tests
from bench.sheet.proofs import last_pass, tests_of
from bench.shop.shop import Shop
from rules.checks import OutOfRange
from rules.turning import operations
from rules.turning.order import Order

MADE, SPARE, TRIED, TESTED, BENCH, SITTING, BAR = (
    *("made", "spare", "tried", "tested", "bench", "sitting", "bar"),
)
"""What may have happened: one made, spares of its set-up, one put in for the first time in its job, a test,
minutes at the bench, a sitting, mm of a bar used.
"""
BEGUN = re.compile(rf"(?:\w+_)?{operations.ROUGH_OUTSIDE}(?:_from_\d+)?")
"""The first cut of a set-up, of whichever kind of seal: from then on its piece of the bar is used."""


@dataclass(frozen=True, slots=True)
class Happened:
    """Something that counts."""

    month: str
    """Such as 2026-03, on the clock of the bench."""
    what: str
    how: str = ""
    """How it came out: `home` or another word of putting it in, a result of a test, the bar."""
    much: float = 1.0
    """How many, how many minutes or mm."""


@dataclass(frozen=True, slots=True)
class JobFacts:
    """What one file says."""

    job: str
    watch: str
    happened: tuple[Happened, ...]
    retest: str
    """The day of the next test, as its sheet says it; empty where none is due."""


def facts_of(shop: Shop, data: bytes) -> JobFacts | None:
    """What a file says; None where its values may not be used before it was looked at."""
    loaded = judged(load(data), shop)
    if loaded.head is None or loaded.gated:
        return None
    job = replay(loaded.head, loaded.usable)
    watch, passed = job.newest(keys.WATCH), last_pass(present_tests(job))
    return JobFacts(
        job=job.head.job,
        watch=watch.word if watch else "",
        happened=tuple(_added(happened(job, loaded.usable))),
        retest=(due_after(passed["at"], early=passed["early"]) if passed else "") or "",
    )


def _added(found: Iterator[Happened]) -> Iterator[Happened]:
    """What is alike, added up."""
    sums: dict[tuple[str, str, str], float] = {}
    for one in found:
        alike = one.month, one.what, one.how
        sums[alike] = sums.get(alike, 0.0) + one.much
    return (Happened(*alike, round(much, 4)) for alike, much in sums.items())


def happened(job: Job, entries: Sequence[Entry]) -> Iterator[Happened]:
    """Everything of a job that counts."""
    when = believed(entries)
    if not when:
        return
    for one in seals_of(job):
        yield from of_seal(one, when)
    for span in first_of(job).job.attempt_spans():
        for answer, test in zip(results(span), tests_of(span), strict=True):
            if test["counts"] and test["timed"] != HURRIED:
                yield Happened(month(when, answer), TESTED, test["result"])
    for gap in gaps(entries):
        if not gap.parked:
            yield Happened(month_of(when[gap.n]), BENCH, much=gap.minutes)
    for mark in job.marks:
        if mark.key == keys.SITTING:
            yield Happened(month(when, mark), SITTING)


def of_seal(one: OneSeal, when: dict[int, datetime]) -> Iterator[Happened]:
    """What was made for one seal of the job, and how the first of it went in."""
    first = True
    for span in one.job.attempt_spans():
        yield from made_in(one.seal, span, when)
        pressed = outcome(span, one.seal.fitting)
        if pressed is not None and first:
            first = False
            yield Happened(month(when, pressed), TRIED, HOME if pressed.word == HOME else pressed.word)


def made_in(seal: Seal, span: Sequence[Answer], when: dict[int, datetime]) -> Iterator[Happened]:
    """What was made in one attempt, and the bar it took."""
    ready = [one for one in span if one.key in seal.made_by]
    begun = next((one for one in span if BEGUN.fullmatch(one.key)), None)
    order = order_of(span) if begun is not None else None
    if ready:
        yield Happened(month(when, ready[-1]), MADE, seal.short)
        if order is not None and order.spares and begun is not None and begun.n < ready[-1].n:
            yield Happened(month(when, ready[-1]), SPARE, seal.short, float(order.spares))
    if order is not None and begun is not None:
        stock, bar = order.stock, order.bar
        name = " ".join(word for word in (bar.plastic, bar.colour, f"{bar.diameter_mm:g} mm") if word)
        yield Happened(month(when, begun), BAR, name, bar.length_mm - stock.left_mm)


def order_of(span: Sequence[Answer]) -> Order | None:
    """The order that an attempt was turned by; None where none can be read."""
    kept = [named_text(one.words, "order") for one in span if one.key in KEPT_WITH]
    try:
        return from_text(next(text for text in reversed(kept) if text))
    except (StopIteration, OutOfRange):
        return None


def month(when: dict[int, datetime], answer: Answer) -> str:
    """The month of an answer."""
    return month_of(when[answer.number])


def month_of(moment: datetime) -> str:
    """The month of a time on its own clock."""
    return moment.isoformat()[:7]


def to_json(facts: JobFacts) -> str:
    """As one line of text."""
    return json.dumps(asdict(facts), separators=(",", ":"))


def from_json(text: str) -> JobFacts:
    """The same back; raises ValueError, TypeError or KeyError where it is none."""
    raw = json.loads(text)
    return JobFacts(**{**raw, "happened": tuple(Happened(**one) for one in raw["happened"])})

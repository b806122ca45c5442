"""The workshop's sheet as text, for the screen, for paper and for the command line.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

from bench.clean import clean
from bench.job import keys
from bench.job.endings import ending_said, reason_said
from bench.job.in_words import RESULTS, moment
from bench.job.kept import ASKED, HURRIED, PROGRAM, TESTER
from bench.moments import EARLY_HOURS
from bench.seals import SEALS
from bench.seals.seal import Section
from bench.sheet.data import WORDS_ONLY
from bench.sheet.one_seal import as_the_first, ended_lines, which
from rules.testing.air import LIMIT_UG_MIN
from rules.testing.methods import methods

TIMED = {
    PROGRAM: "timed by the program",
    ASKED: "the bench was left meanwhile; held throughout, as answered",
    HURRIED: "hurried in a demo: it proves nothing",
}
"""By whom a hold was timed; any other was keyed."""
TESTED = "Tested"
"""Heading of the tests, under which their curves are drawn."""


def sheet_lines(data: dict[str, Any], more: Sequence[Section] = (), *, columns: int = 76) -> tuple[str, ...]:
    """The sheet in lines of at most `columns` characters, with `more` that only the shop's copy says."""
    lines = [f"Job {data['job']}" + (f"   {data['watch']}" if data["watch"] else "")]
    if data["shop_name"]:
        lines.insert(0, data["shop_name"])
    if not data["finished"]:
        lines.insert(0, "NOT FINISHED")
    for part in (*sections(data), *more):
        lines += ["", part.heading, *(f"  {sentence}" for sentence in part.sentences)]
    return folded(lines, columns)


def folded(lines: Iterable[str], columns: int) -> tuple[str, ...]:
    """Lines of at most so many characters, what goes on indented."""
    found: list[str] = []
    for text in lines:
        indent = " " * (len(text) - len(text.lstrip()))
        found += textwrap.wrap(clean(text), max(columns, 20), subsequent_indent=indent + "  ") or [""]
    return tuple(found)


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """The headings with their sentences; an empty one is left out."""
    own = SEALS[data["seal"]].sections(data)
    parts = (*own, *further_sections(data), tests_text(data), notes_text(data))
    return tuple(part for part in parts if part.sentences)


def further_sections(data: dict[str, Any]) -> Iterator[Section]:
    """The same of every further seal, each heading with the seal it is about, and why one was not renewed."""
    for seal, one in as_the_first(data):
        yield from about_it(one, seal.sections(one))
        ended = ended_lines(one)
        yield Section(f"{which(one)[:1].upper()}{which(one)[1:]}", ended, of=one["number"])


def about_it(one: dict[str, Any], parts: Iterable[Section]) -> Iterator[Section]:
    """Sections with the further seal they are about in their headings."""
    for part in parts:
        yield replace(part, heading=f"{part.heading} ({which(one)})", of=one["number"])


def tests_text(data: dict[str, Any]) -> Section:
    """The tests, and what they do not prove."""
    out = [test_text(test) for test in data["tests"]]
    if out and data["tester_number"]:
        out.append(f"Tester: {data['tester_number']}.")
    if data["marking"] == WORDS_ONLY:
        out.append("Marking: water-resistant, without a figure.")
    elif data["marking_bar"] is not None:
        out.append(f"Marking: {data['marking_bar']:g} bar.")
    return Section(TESTED, (*out, *data["not_tested"]))


def test_text(test: dict[str, Any]) -> str:
    """One test as a sentence: by which method, how, and with what result."""
    parts = [f"{keys.BY_NAME[test['sitting']].heading}, tested by method: {method_words(test)}"]
    if test["overpressure_bar"] is not None:
        parts.append(f"{test['overpressure_bar']:g} bar over")
    if test["minutes"] is not None:
        parts.append(f"{held_text(test)} ({TIMED.get(test['timed'], 'time as keyed')})")
    if test["temperature_c"] is not None:
        parts.append(f"{test['temperature_c']:g} C")
    if test["at"]:
        own = "verdict of the tester at " if test["timed"] == TESTER else ""
        parts.append(own + moment(test["at"]))
    text = ", ".join(parts) + f": {RESULTS.get(test['result'], test['result'])}."
    if test["leak"]:
        text += f" {leak_text(test['leak'])}"
    elif test["reason"]:
        text += f" {test['reason'][0].upper()}{test['reason'][1:].removesuffix('.')}."
    if test["needed_minutes"] is not None and (method := methods().get(test["method"] or "")):
        text += f" So short a hold is no pass: it shows {method.claim.shorter}."
    if test["early"]:
        text += f" Early: within {EARLY_HOURS:g} hours of fitting; to be repeated."
    if not test["counts"]:
        text += " Its answers were changed afterwards: it does not count."
    return text


def held_text(test: dict[str, Any]) -> str:
    """How long a test was held, of how long it was meant to be or has to be."""
    of = test["needed_minutes"] if test["needed_minutes"] is not None else test["minutes"]
    if test["stopped_after_min"] is not None:
        return f"stopped after {test['stopped_after_min']:g} of {of:g} min"
    return f"{test['minutes']:g} min" + (f" of {of:g} min" if of != test["minutes"] else "")


def leak_text(leak: dict[str, Any]) -> str:
    """The leak rate with its interval, overpressure and limit."""
    high = "no upper limit" if leak["high_ug_min"] is None else f"{leak['high_ug_min']:.0f}"
    return (
        f"Leak {leak['rate_ug_min']:.0f} ug/min (95 %: {leak['low_ug_min']:.0f} to {high}, "
        f"referred to 2 bar overpressure; limit {LIMIT_UG_MIN:g}): {leak['decision'].replace('_', ' ')}."
    )


def notes_text(data: dict[str, Any]) -> Section:
    """Remark, notes, how it ended and what the customer has to know."""
    out = [data["remark"]] if data["remark"] else []
    out += data["notes"]
    if data["ended"]:
        seal = SEALS[data["seal"]]
        out.append(ending_said(data["ended"], seal.endings))
        if data["ended_because"]:
            reason = reason_said(data["ended"], data["ended_because"], seal.reasons)
            out.append(f"The reason: {reason}.")
    return Section("To know", (*out, *data["cautions"]))


def method_words(test: dict[str, Any]) -> str:
    """A method as the sheet names it."""
    method = methods().get(test["method"] or "")
    return method.claim.words if method else (test["method"] or "not named").replace("_", " ")

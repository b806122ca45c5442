"""A year in words and as a table, for the terminal and for a spreadsheet.

Invariant: every figure is one of the year counted.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from dataclasses import asdict, fields

from bench.desk.effects import JobRow
from bench.moments import to_the_minute
from bench.sheet.bench_time import PARKED_OVER_MIN, hours_words
from bench.year.counted import LONG_DUE_DAYS, Counted, NextTest, Year
from rules.lengths import length

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
WAITS_TOLD = 12
"""So many waiting jobs are named, the longest waiting first."""


def share(part: int, whole: int) -> str:
    """A part of a whole in words."""
    return f"{part} of {whole}" + (f" ({100 * part / whole:.0f} %)" if whole else "")


def several(count: int, one: str) -> str:
    """A count with its word."""
    return f"{count:,} {one}{'' if count == 1 else 's'}"


def whole_lines(year: Year) -> list[str]:
    """The year in a few sentences."""
    whole = year.whole
    kinds = ", ".join(several(count, kind) for kind, count in year.made) or "nothing"
    spares = f", and {several(whole.spares, 'spare')} of the same set-ups" if whole.spares else ""
    judged = whole.passed + whole.failed
    lines = [
        f"made: {kinds}{spares}",
        f"home at the first try: {share(whole.first_home, whole.first_tries)}",
        f"tests passed: {share(whole.passed, judged)}"
        + (f", {whole.not_judged} more not judged" if whole.not_judged else ""),
        f"at the bench: {hours_words(whole.minutes)} in {several(whole.sittings, 'sitting')}, "
        f"without gaps over {PARKED_OVER_MIN:g} min",
        f"taken from bars: {length(whole.bar_mm)}",
    ]
    return lines + [f"  {bar}: {length(taken)}" for bar, taken in year.bars]


def year_lines(year: Year, unused: int) -> list[str]:
    """The year for the terminal: in sentences, then month by month."""
    lines = [f"{year.year}: {several(year.jobs, 'job')}", *(f"  {one}" for one in whole_lines(year)), ""]
    lines.append("        made  spares  first try  tests passed  at the bench  bar")
    for name, month in zip(MONTHS, year.months, strict=True):
        if month != Counted():
            tries = f"{month.first_home} of {month.first_tries}"
            tests = f"{month.passed} of {month.passed + month.failed}"
            lines.append(
                f"  {name}  {month.made:6d}  {month.spares:6d}  {tries:>9}  {tests:>12}  "
                f"{hours_words(month.minutes):>12}  {length(month.bar_mm, 0)}"
            )
    others = ", ".join(f"{one} ({several(count, 'job')})" for one, count in year.others)
    lines += [f"other years: {others}"] if others else []
    return lines + ([f"not counted: {several(unused, 'file')} to be looked at first"] if unused else [])


def reminder_lines(waiting: Sequence[JobRow], due: Sequence[NextTest], longer: int, today: str) -> list[str]:
    """What waits since when, and which watch is due for its next test."""
    longest = sorted(waiting, key=lambda row: row.since or today)
    lines = ["", f"waiting: {several(len(waiting), 'job')}"]
    lines += [
        f"  {row.number:>7}  {row.watch:<28.28}  since {to_the_minute(row.since) or 'not known'}: "
        f"{row.waiting_for or row.stage}"
        for row in longest[:WAITS_TOLD]
    ]
    lines += ["  ... ringwright jobs lists all"] if len(longest) > WAITS_TOLD else []
    lines += ["", f"due for the next test: {several(len(due), 'watch').replace('watchs', 'watches')}"]
    lines += [
        f"  {one.job:>7}  {one.watch:<28.28}  {'since' if one.day <= today[:10] else 'on'} {one.day}"
        for one in due
    ]
    if longer:
        lines.append(f"  {longer} more for over {LONG_DUE_DAYS} days: not named")
    return lines


def table(year: Year) -> str:
    """The year as CSV: a row for each month, then the whole; times in minutes, lengths in mm."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    names = [one.name for one in fields(Counted)]
    writer.writerow(["month", *names])
    rows: Iterable[tuple[str, Counted]] = (
        *((f"{year.year}-{at:02d}", month) for at, month in enumerate(year.months, 1)),
        (str(year.year), year.whole),
    )
    for name, one in rows:
        facts = asdict(one)
        writer.writerow([name, *(facts[each] for each in names)])
    return out.getvalue()

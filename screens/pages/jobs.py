"""The list of jobs, newest first: number, watch, stage, what is waited for and since when.

Invariant: needs no rules, and only the rows that can be seen.
"""

from __future__ import annotations

from bench.desk.desk import Desk
from bench.desk.effects import JobRow
from bench.desk.finding import is_due, picked_words, searches
from bench.desk.jobs_page import looked_into, number_in, room, still_looking
from bench.desk.sought import DIGITS
from bench.moments import to_the_minute
from screens.layout import Line, Part, clipped, line, page, wrapped
from screens.look import Look
from screens.pages.frame import bottom, top

NO_JOBS = (
    "No jobs yet.",
    "",
    "0 Enter starts the first one. The number can be the one on the repair bag:",
    "key it, Enter, then 0 Enter.",
    "",
    "* opens everything else: a sample job to look at, the keys, leaving.",
)


def jobs(desk: Desk, look: Look) -> list[Line]:
    """The page of all jobs."""
    found = desk.fits
    count = len(desk.names)
    heading = f"{len(found)} of " if len(found) < count else ""
    heading += f"{count} job{'s' if count != 1 else ''}"
    if still_looking(desk):
        heading = f"{len(found)} so far, {looked_into(desk)} of {count} jobs looked into"
    heading += f", only {picked_words(desk)}" if picked_words(desk) else ""
    prompt = f"  {desk.line.text or '_'}   number of a job or a size, 0: {new_one(desk)}"
    answer = [line(""), line(clipped(prompt, desk.columns), "entry"), line("")]
    if not count and not desk.line.text:
        body = [piece for text in NO_JOBS for piece in wrapped(f"  {text}", desk.columns, hang="  ")]
        return page(top(desk, "jobs"), [Part(answer), Part(body)], bottom(desk), rows=desk.rows)
    first = min(desk.scroll, max(len(found) - room(desk), 0))
    shown = found[first : first + room(desk)]
    if len(found) > len(shown):
        heading = f"{first + 1} to {first + len(shown)} of {heading}"
    table = [job_line(desk, name) for name in shown]
    head = line(clipped(head_text(desk), desk.columns), "note")
    if not found:
        table = [line("  none fits", "note")]
    return page(
        top(desk, heading), [Part(answer), Part([head], 1), Part(table)], bottom(desk), rows=desk.rows
    )


def new_one(desk: Desk) -> str:
    """What 0 begins, and how one like an old one is begun."""
    return (
        f"a new one like job {number_in(desk.like)}"
        if desk.like
        else "a new one, 0 and a number: one like it"
    )


def job_line(desk: Desk, name: str) -> Line:
    """One job; only its number while nothing else is known."""
    row = desk.known.get(name) or JobRow(number=number_in(name), file=name, waiting_for="...")
    return line(clipped(row_text(desk, row), desk.columns), "ink" if row.finished else "strong")


def widths(columns: int) -> tuple[int, int, int]:
    """Widths of number, watch and stage."""
    return (7, min(28, max(columns - 40, 10)), 8)


def head_text(desk: Desk) -> str:
    """Names of the columns."""
    number, watch, stage = widths(desk.columns)
    return f"  {'job':<{number}} {'watch':<{watch}} {'stage':<{stage}} waits for"


def row_text(desk: Desk, row: JobRow) -> str:
    """One job as a line."""
    number, watch, stage = widths(desk.columns)
    waits = waiting(row, desk.columns - number - watch - stage - 5, desk.wall)
    if (twin := desk.twins.get(row.file)) is not None:
        waits = twin.words
    if searches(desk.line.text) and DIGITS.fullmatch(desk.line.text):
        waits = f"seat {first_of(row.seat)}; glass {first_of(row.glass)}"
    at = "finished" if row.finished else row.stage
    name = clipped(row.watch, watch)
    return f"  {row.number:<{number}} {name:<{watch}} {at:<{stage}} {waits}"


def first_of(readings: str) -> str:
    """The first of some readings, with its unit."""
    return readings.partition(", ")[0] or "-"


def waiting(row: JobRow, columns: int, now: str) -> str:
    """What a job waits for, or its result, and since when, when it is to be tested again, and with which job
    it belongs; times go first where there is no room.
    """
    what = (row.result or "-") if row.finished else row.waiting_for or row.step
    since = to_the_minute(row.since)
    forms = [f"{what} since {since}", f"{what} since {since[:10]}", f"{what}, {since[:10]}"] if since else []
    if row.finished and row.retest:
        due = is_due(row, now)
        told = f"{what}, test due since {row.retest}" if due else f"{forms[0]}, next test {row.retest}"
        forms = [told, *([f"{what}, due {row.retest}"] if due else forms)]
    beside = f"; with {row.linked}" if row.linked else ""
    here = columns - len(beside)
    return (
        next((form for form in forms if len(form) <= here), clipped(what, here) if beside else what) + beside
    )


PAGES = {"jobs": jobs}

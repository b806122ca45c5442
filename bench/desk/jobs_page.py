"""The list of jobs: digits filter by number, Enter opens when one job fits, 0 Enter starts a job.

Invariant: no rules are needed here.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.answering import Outcome, say
from bench.desk.desk import Desk, JobRow, Open, Start
from bench.desk.typed import Line

LONGEST_NUMBER = 9


def type_number(line: Line, text: str) -> Line:
    """The answer line after one key on the list of jobs: digits only."""
    if line.void:
        return Line() if text in ("enter", "back") else line
    if text == "back":
        return Line(line.text[:-1])
    if text in "0123456789" and len(text) == 1:
        return (
            Line(line.text + text) if len(line.text) < LONGEST_NUMBER else Line(void="the number is too long")
        )
    if text == "navigation":
        return Line(void="NumLock is off: press NumLock, then key it again")
    if text in ("enter", "previous", "next", "list"):
        return line
    return Line(void="a job number has digits only")


def fitting(desk: Desk) -> tuple[JobRow, ...]:
    """The jobs that fit the typed digits and the stage chosen, newest first."""
    rows = desk.jobs
    if desk.stage_only:
        rows = tuple(row for row in rows if stage_of(row) == desk.stage_only)
    text = desk.line.text
    if not text or text == "0":
        return rows
    return tuple(row for row in rows if row.number.startswith(text))


def stage_of(row: JobRow) -> str:
    """The stage of a job for the filter."""
    return "finished" if row.finished else row.stage


def choose(desk: Desk) -> Outcome:
    """Enter on the list of jobs."""
    text = desk.line.text
    if text == "0":
        return replace(desk, line=Line(), message="", wanted=""), (Start(desk.wanted),)
    exact = [row for row in desk.jobs if row.number == text]
    fits = exact or list(fitting(desk))
    if len(fits) == 1:
        return replace(desk, line=Line(), message="", wanted=""), (Open(fits[0].file),)
    if fits:
        return say(desk, f"{len(fits)} jobs begin with {text}: key more digits")
    return say(replace(desk, wanted=text), f"There is no job {text}. 0 Enter starts it.")

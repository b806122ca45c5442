"""The list of jobs: digits filter by number, Enter opens when one job fits, 0 Enter starts a job.

Invariant: no rules are needed here.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Effect, Glance, JobRow, Open, Start
from bench.desk.pages import Outcome, say
from bench.desk.typed import AnswerLine
from bench.file.slug import NUMBER_LIMIT, own_number

LONGEST_NUMBER = len(str(NUMBER_LIMIT - 1))
CHUNK = 50
"""Files looked into at once when one stage only is listed; a key that comes meanwhile waits for no more."""
SOON_S = 0.01
"""After this the next of them are looked into."""


def type_number(line: AnswerLine, text: str) -> AnswerLine:
    """The answer line after one key on the list of jobs: digits only."""
    if line.void:
        return AnswerLine() if text in ("enter", "back") else line
    if text == "back":
        return AnswerLine(line.text[:-1])
    if text in "0123456789" and len(text) == 1:
        return (
            AnswerLine(line.text + text)
            if len(line.text) < LONGEST_NUMBER
            else AnswerLine(void="the number is too long")
        )
    if text == "navigation":
        return AnswerLine(void="NumLock is off: press NumLock, then key it again")
    if text in ("enter", "previous", "next", "list"):
        return line
    return AnswerLine(void="a job number has digits only")


def number_in(name: str) -> str:
    """The job number in the name of a session file, without leading zeros."""
    digits = name.partition("-")[0].partition(".")[0]
    return digits.lstrip("0") or digits


def fitting(desk: Desk, before: Desk) -> tuple[str, ...]:
    """Names of the jobs that fit the typed digits and the stage chosen, newest first.

    `before` is the desk before the last change: what fitted fewer digits is not gone through again.
    """
    text = "" if desk.line.text == "0" else desk.line.text
    same = desk.names is before.names and desk.stage_only == before.stage_only and desk.known is before.known
    narrower = same and bool(before.line.text.strip("0")) and text.startswith(before.line.text)
    names: Iterable[str] = before.fits if narrower else desk.names
    if desk.stage_only and not narrower:
        known = desk.known
        names = (name for name in names if name in known and stage_of(known[name]) == desk.stage_only)
    if not text:
        return desk.names if not desk.stage_only else tuple(names)
    return tuple(
        name
        for name in names
        if name.lstrip("0").startswith(text) or str(own_number(name) or "").startswith(text)
    )


def fitted(desk: Desk, before: Desk) -> Desk:
    """The desk with the names that fit brought up to date."""
    changed = (
        desk.names is not before.names
        or desk.line.text != before.line.text
        or desk.stage_only != before.stage_only
        or (bool(desk.stage_only) and desk.known is not before.known)
    )
    if not changed and before.page == "jobs":
        return desk
    other = desk.line.text != before.line.text
    return replace(desk, fits=fitting(desk, before), scroll=0 if other else desk.scroll)


def room(desk: Desk) -> int:
    """How many jobs the page can show."""
    return max(desk.rows - 7, 1)


def unknown(desk: Desk) -> tuple[Effect, ...]:
    """The effect that looks into the files that are to be shown and not known yet."""
    if desk.page != "jobs":
        return ()
    if desk.stage_only:
        wanted = [name for name in desk.names if name not in desk.known][:CHUNK]
    else:
        shown = desk.fits[desk.scroll : desk.scroll + room(desk)]
        wanted = [name for name in shown if name not in desk.known]
    return (Glance(tuple(wanted)),) if wanted else ()


def looked_into(desk: Desk) -> int:
    """How many of the jobs listed are known."""
    return sum(name in desk.known for name in desk.names)


def still_looking(desk: Desk) -> bool:
    """Whether jobs of one stage are still being looked for."""
    return desk.page == "jobs" and bool(desk.stage_only) and looked_into(desk) < len(desk.names)


def glanced(desk: Desk, rows: tuple[JobRow, ...]) -> Outcome:
    """Some more jobs are known."""
    known = {**desk.known, **{row.file: row for row in rows}}
    return replace(desk, known=known), ()


def stage_of(row: JobRow) -> str:
    """The stage of a job for the filter."""
    return "finished" if row.finished else row.stage


def choose(desk: Desk) -> Outcome:
    """Enter on the list of jobs."""
    text = desk.line.text
    if text == "0":
        return replace(desk, line=AnswerLine(), message="", wanted=""), (Start(desk.wanted),)
    fits = desk.fits
    exact = [name for name in fits if text in (number_in(name), str(own_number(name)))]
    if len(exact or fits) == 1:
        return replace(desk, line=AnswerLine(), message="", wanted=""), (Open((exact or fits)[0]),)
    if fits:
        return say(desk, f"{len(fits)} jobs begin with {text}: key more digits")
    return say(replace(desk, wanted=text), f"There is no job {text}. 0 Enter starts it.")

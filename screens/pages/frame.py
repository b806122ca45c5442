"""What every page has in common: the line of job and stage above, message and keys below.

Invariant: these stand in the same places on every page of every size.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from rich.cells import set_cell_size

from bench.desk.desk import Desk
from bench.desk.keys import key_line
from bench.desk.pages import PAGEFUL
from bench.job import keys
from bench.job.other_jobs import linked_number
from bench.job.standing import STAGES
from bench.shop.groups import GROUPS, assumed_words
from screens.layout import Line, apart, line, text_of, wrapped

if TYPE_CHECKING:
    from bench.asking.asking import Asked
    from bench.job.route import Walk

NARROW = 60
"""Below this width a message may take one line more."""


MORE = "  ... there is more: * 1 Enter"
"""Stands on a page that cannot hold all."""
HOW = "  how: * 1 Enter"
"""Stands on a page that holds all but how it is done."""


def job_title(desk: Desk) -> str:
    """Number and watch of the job in hand."""
    if desk.asked_shop is not None:
        return "my shop"
    if desk.job is None:
        return "ringwright"
    watch = desk.job.newest(keys.WATCH)
    sample = " (a sample)" if desk.sample else ""
    linked = linked_number(desk.job)
    beside = f", with job {linked}" if linked else ""
    return f"{desk.job.head.job}  {watch.word if watch else ''}".rstrip() + beside + sample


BESIDE_IT = 6
"""Columns that the line of the stage leaves to the job at its left, blanks counted."""


def stage_line(desk: Desk) -> str:
    """The stage and how far it has come, in words."""
    step = desk.step
    if desk.walk is None or desk.job is None:
        return ""
    if desk.asked_shop is not None:
        return asked_of(desk.asked_shop)
    if step is None or (desk.walk.open is None and not desk.at):
        return "finished"
    which = of_which(desk.walk)
    done = desk.walk.stage_counts(step.stage)
    back = "looking back" if desk.looking_back else f"{done} answered"
    if desk.shop is not None and (assumed := assumed_words(step.goes_by, desk.shop.said)):
        if desk.columns < NARROW:
            return f"seal {desk.walk.number}, {assumed}" if desk.walk.number > 1 else assumed
        back = assumed
    whole = f"{which}{step.stage} {list(STAGES).index(step.stage) + 1} of {len(STAGES)}, {back}"
    shorter = (whole, f"{which}{step.stage}, {back}", f"{which}{step.stage}")
    fits = (said for said in shorter if len(said) <= desk.columns - BESIDE_IT)
    return next(fits, f"seal {desk.walk.number}" if desk.walk.number > 1 else shorter[1])


def of_which(walk: Walk) -> str:
    """The seal in hand, where it is not the first piece of the first seal."""
    named = f"{walk.seal} {walk.piece}" if walk.piece > 1 else walk.seal
    return f"seal {walk.number}, {named}  " if walk.number > 1 else f"{named}  " if walk.piece > 1 else ""


def asked_of(asked: Asked) -> str:
    """Which part of the shop is asked, and how many answers of it are kept so far."""
    count = len(asked.answers)
    return f"{GROUPS[asked.part]}, {count} answered" if asked.part in GROUPS else asked.heading


def top(desk: Desk, heading: str = "") -> list[Line]:
    """The line of job and stage."""
    right = heading or stage_line(desk)
    return [apart(f" {job_title(desk)}", f"{right} ", desk.columns, "title")]


def message(desk: Desk, *, more: bool = False, how: bool = False) -> list[Line]:
    """The one message, led by a word where it warns; else, where the page does not hold all, where all is."""
    words, stop = desk.message or desk.jammed, desk.alarm or not desk.message
    if not words:
        return [line(MORE if more else HOW if how else "", "note")]
    role = "alarm" if stop else "strong"
    lines = wrapped(f"STOP  {words}" if stop else words, desk.columns, role, hang="      " if stop else "")
    most = 3 if desk.columns >= NARROW else 4
    if len(lines) > most:
        last = set_cell_size(text_of(lines[most - 1]), desk.columns - 4).rstrip()
        lines = [*lines[: most - 1], line(f"{last} ...", role)]
    return lines


def bottom(
    desk: Desk, *, dead: frozenset[str] = frozenset(), more: bool = False, how: bool = False
) -> list[Line]:
    """Message and keys; `more`: the page does not hold all; `how`: all but how it is done."""
    keys = key_line(desk.columns - 2, dead=dead | idle(desk))
    return [*message(desk, more=more, how=how), line(f" {keys}".ljust(desk.columns), "key")]


def idle(desk: Desk) -> frozenset[str]:
    """Keys that would do nothing now: take back while nothing is typed, forward at the open question."""
    step = desk.step if desk.page == "step" else None
    back = {"back"} if not (desk.line.text or desk.line.void) else set()
    ahead = step is None or desk.looking_back or len(step.choices) > PAGEFUL
    return frozenset(back if ahead else back | {"next"})

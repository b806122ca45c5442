"""What every page has in common: the line of job and stage above, message and keys below.

Invariant: these stand in the same places on every page of every size.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from bench.desk.desk import Desk
from bench.desk.keys import key_line
from bench.steps import STAGES
from screens.layout import Line, clipped, line, spread, wrapped

Style = Literal["braille", "half", "ascii"]


@dataclass(frozen=True, slots=True)
class Look:
    """How a page may be drawn in this terminal."""

    style: Style = "braille"
    """Raster of the pictures."""

    @property
    def figures(self) -> Literal["half", "ascii"]:
        """Raster of the large figures."""
        return "ascii" if self.style == "ascii" else "half"


def job_title(desk: Desk) -> str:
    """Number and watch of the job in hand."""
    if desk.job is None:
        return "ringwright"
    watch = desk.job.newest("watch")
    sample = " (a sample)" if desk.sample else ""
    return f"{desk.job.head.job}  {watch.word if watch else ''}".rstrip() + sample


def stage_line(desk: Desk) -> str:
    """The stage and how far it has come, in words."""
    step = desk.step
    if desk.walk is None or desk.job is None:
        return ""
    if step is None or (desk.walk.open is None and not desk.at):
        return "finished"
    ring = f"ring {desk.job.attempt}  " if desk.job.attempt > 1 else ""
    done = desk.walk.stage_counts(step.stage)
    back = "looking back" if desk.looking_back else f"{done} answered"
    return f"{ring}{step.stage} {STAGES.index(step.stage) + 1} of 4, {back}"


def top(desk: Desk, heading: str = "") -> list[Line]:
    """The line of job and stage."""
    right = heading or stage_line(desk)
    return [spread(f" {job_title(desk)}", f"{right} ", desk.columns, "title")]


def message(desk: Desk) -> list[Line]:
    """The one message, led by a word where it warns."""
    if desk.jammed and not desk.message:
        return [line(clipped(f"STOP  {desk.jammed}", desk.columns), "alarm")]
    if not desk.message:
        return [line("")]
    if desk.alarm:
        return wrapped(f"STOP  {desk.message}", desk.columns, "alarm", hang="      ")[:2]
    return wrapped(desk.message, desk.columns, "strong")[:2]


def bottom(desk: Desk, *, dead: frozenset[str] = frozenset()) -> list[Line]:
    """Message and keys."""
    keys = key_line(desk.columns - 2, dead=dead)
    return [*message(desk), line(f" {keys}".ljust(desk.columns), "key")]

"""The full screen: the first page at once, then all that serves it, and the shell that paints the rest.

Invariant: the first page is that of the desk which the shell is given; the terminal is given back on every
way out.
"""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from typing import Any

from bench.clocks import wall_now
from bench.desk import jobs_page
from bench.desk.desk import Desk
from bench.desk.effects import Arrival, Glanced, Open
from bench.desk.token import Token
from bench.refusal import BAD_INPUT, Refused
from bench.workbench import Workbench
from screens.first_page import Taken, size_here, stand
from screens.giving_back import give_back, leave_at_once, watch_signals
from screens.lean import left_out
from screens.look import Look, drop_overrides, look_here, refusal_here
from screens.system import settings_now
from screens.view import view


def opening(bench: Workbench, file: str, *, night: bool = False) -> Desk:
    """The desk as it first stands: the list of jobs, or the account of one job."""
    if not file:
        return replace(jobs_page.first(bench.listed()), night=night)
    desk = fed(bench, Desk(night=night), *bench.carry_out([Open(file)]))
    if desk.job is None and not desk.findings:
        raise Refused(desk.message or "the job cannot be opened", 3)
    return desk


def fed(bench: Workbench, desk: Desk, *arrivals: Arrival) -> Desk:
    """The desk after something came, and all that comes of it."""
    from bench.desk.update import update  # the list of jobs stands without it

    waiting = list(arrivals)
    while waiting:
        desk, effects = update(desk, waiting.pop(0))
        waiting += bench.carry_out(effects)
    return desk


def run_full(bench: Workbench, *, file: str = "") -> int:
    """Open the full screen and stay until the person leaves; the exit status."""
    words = refusal_here()
    if words:
        print(f"ringwright: {words}", file=sys.stderr)
        return BAD_INPUT
    drop_overrides()
    here = look_here()
    desk = opening(bench, file, night=here.name == "night")
    attributes = settings_now()

    def at_once() -> None:
        leave_at_once(attributes, bench.leave)

    watch_signals(leave=at_once, at_once=at_once)
    try:
        desk, taken = first_shown(bench, desk, here, attributes)
        from screens.serving import face_of

        face = face_of(bench, desk, here)
        with left_out():
            from screens.app import run_face
    except BaseException:
        give_back(attributes)
        raise
    return run_face(face, taken)


def first_shown(
    bench: Workbench, desk: Desk, here: Look, attributes: list[Any] | None
) -> tuple[Desk, Taken | None]:
    """The first page painted before the toolkit is there, and its desk; nothing where the terminal says too
    little of itself.
    """
    columns, rows = size_here()
    if attributes is None or columns < 1:
        return desk, None
    desk = in_window(bench, desk, columns, rows)
    stand(view(desk, here), here, "night" if desk.night else "day", columns, rows)
    stood = Taken(attributes, time.monotonic())
    if desk.page != "jobs":  # nothing is asked on the list
        desk = fed(bench, desk, Token("painted", at=stood.at, wall=wall_now()))
    return desk, stood


def in_window(bench: Workbench, desk: Desk, columns: int, rows: int) -> Desk:
    """The desk in a window of that size; the list of jobs knows the rows that are to be seen there."""
    if desk.page != "jobs":
        resized = Token("resized", at=time.monotonic(), wall=wall_now(), columns=columns, rows=rows)
        return fed(bench, desk, resized)
    desk = replace(desk, columns=columns, rows=rows)
    for arrival in bench.carry_out(jobs_page.unknown(desk)):
        if isinstance(arrival, Glanced):
            desk, _ = jobs_page.glanced(desk, arrival.rows)
    return desk

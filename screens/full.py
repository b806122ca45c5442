"""The full screen: the desk put into the shell that paints it.

Invariant: nothing is decided here; every effect goes to the workbench, every key to `update`.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import Any

from bench.desk.bounce import settle_ms
from bench.desk.desk import Desk
from bench.desk.effects import Arrival, Open
from bench.desk.hold import rings
from bench.desk.jobs_page import SOON_S, still_looking
from bench.desk.update import update
from bench.refusal import BAD_INPUT, Refused
from bench.workbench import Workbench
from screens.layout import Line
from screens.lean import left_out
from screens.look import drop_overrides, look_here, refusal_here
from screens.view import view


def opening(bench: Workbench, file: str) -> Desk:
    """The desk as it first stands: the list of jobs, or the account of one job."""
    desk = Desk()
    arrivals: list[Arrival] = [bench.listed()] if not file else bench.carry_out([Open(file)])
    while arrivals:
        desk, effects = update(desk, arrivals.pop(0))
        arrivals += bench.carry_out(effects)
    if file and desk.job is None and not desk.findings:
        raise Refused(desk.message or "the job cannot be opened", 3)
    return desk


def run_full(bench: Workbench, *, file: str = "") -> int:
    """Open the full screen and stay until the person leaves; the exit status."""
    words = refusal_here()
    if words:
        print(f"ringwright: {words}", file=sys.stderr)
        return BAD_INPUT
    drop_overrides()
    desk = opening(bench, file)
    with left_out():
        from screens.app import run_face
    from screens.face import Face

    here = look_here()

    def shown(at: Desk) -> list[Line]:
        return view(at, here)

    def carried(effects: Sequence[Any]) -> Sequence[Any]:
        return bench.carry_out(effects)

    face: Face[Desk] = Face(
        desk=desk,
        update=update,
        carry_out=carried,
        view=shown,
        ticking=ticking,
        settle_ms=lambda at: settle_ms(at.bounce, window_ms=at.bounce_ms),
        theme=lambda at: "night" if at.night else "day",
        farewell=bench.farewell,
        closing=bench.leave,
        look=here,
    )
    return run_face(face)


def ticking(desk: Desk) -> float:
    """A second while a timer runs on the step shown; a moment while jobs of one stage are looked for."""
    if still_looking(desk):
        return SOON_S
    step = desk.step
    return (
        desk.page == "step" and step is not None and step.opens_after is not None and desk.rung != rings(step)
    )

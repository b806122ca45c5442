"""The full screen: the desk put into the shell that paints it.

Invariant: nothing is decided here; every effect goes to the workbench, every key to `update`.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from bench.desk.bounce import settle_ms
from bench.desk.desk import Desk
from bench.desk.effects import Arrival, Open
from bench.desk.hold import rings
from bench.desk.jobs_page import SOON_S, still_looking
from bench.desk.token import Token
from bench.desk.update import update
from bench.refusal import BAD_INPUT, Refused
from bench.wire.port import Wires, lines_in
from bench.workbench import Workbench
from screens.face import Face
from screens.first_page import Taken, size_here, stand
from screens.giving_back import give_back, leave_at_once, watch_signals
from screens.layout import Line
from screens.lean import left_out
from screens.look import Look, drop_overrides, look_here, refusal_here
from screens.pages.frame import job_title
from screens.system import settings_now
from screens.view import view


def opening(bench: Workbench, file: str, look: Look | None = None) -> Desk:
    """The desk as it first stands: the list of jobs, or the account of one job."""
    arrivals = bench.carry_out([Open(file)]) if file else [bench.listed()]
    desk = fed(bench, Desk(night=look is not None and look.name == "night"), *arrivals)
    if file and desk.job is None and not desk.findings:
        raise Refused(desk.message or "the job cannot be opened", 3)
    return desk


def fed(bench: Workbench, desk: Desk, *arrivals: Arrival) -> Desk:
    """The desk after something came, and all that comes of it."""
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
    face = face_of(bench, opening(bench, file, here), here)
    attributes = settings_now()

    def at_once() -> None:
        leave_at_once(attributes, bench.leave)

    watch_signals(leave=at_once, at_once=at_once)
    try:
        face, taken = first_shown(bench, face, attributes)
        with left_out():
            from screens.app import run_face
    except BaseException:
        give_back(attributes)
        raise
    return run_face(face, taken)


def first_shown(
    bench: Workbench, face: Face[Desk], attributes: list[Any] | None
) -> tuple[Face[Desk], Taken | None]:
    """The first page painted before the toolkit is there, and its desk; nothing where the terminal says too
    little of itself.
    """
    columns, rows = size_here()
    if attributes is None or columns < 1:
        return face, None
    now, wall = face.now(), face.wall()
    desk = fed(bench, face.desk, Token("resized", at=now, wall=wall, columns=columns, rows=rows))
    stand(face.view(desk), face.look, "night" if desk.night else "day", columns, rows)
    stood = Taken(attributes, face.now())
    desk = fed(bench, desk, Token("painted", at=stood.at, wall=face.wall()))
    return replace(face, desk=desk), stood


def face_of(bench: Workbench, desk: Desk, here: Look) -> Face[Desk]:
    """The desk and what changes, shows and serves it."""

    def shown(at: Desk) -> list[Line]:
        return view(at, here)

    def carried(effects: Sequence[Any]) -> Sequence[Any]:
        return bench.carry_out(effects)

    wires = Wires(lines_in(bench.folder))

    def closed() -> None:
        wires.stop()
        bench.leave()

    return Face(
        desk=desk,
        update=update,
        carry_out=carried,
        view=shown,
        ticking=ticking,
        settle_ms=lambda at: settle_ms(at.bounce, window_ms=at.bounce_ms),
        theme=lambda at: "night" if at.night else "day",
        title=job_title,
        farewell=bench.farewell,
        listen=wires.listen,
        closing=closed,
        look=here,
    )


def ticking(desk: Desk) -> float:
    """A second while a timer runs on the step shown; a moment while jobs of one stage are looked for."""
    if still_looking(desk):
        return SOON_S
    step = desk.step
    return (
        desk.page == "step" and step is not None and step.opens_after is not None and desk.rung != rings(step)
    )

"""The face of the desk: what changes it, shows it and serves it; loaded once the first page stands.

Invariant: nothing is decided here; every effect goes to the workbench, every key to `update`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from bench.desk.bounce import settle_ms
from bench.desk.copies import looking
from bench.desk.desk import Desk
from bench.desk.hold import rings
from bench.desk.jobs_page import SOON_S, still_looking
from bench.desk.update import update
from bench.wire.port import Wires, lines_in
from bench.workbench import Workbench
from screens.face import Face
from screens.layout import Line
from screens.look import Look
from screens.pages.frame import job_title
from screens.view import view


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
    if still_looking(desk) or looking(desk):
        return SOON_S
    step = desk.step
    return (
        desk.page == "step" and step is not None and step.opens_after is not None and desk.rung != rings(step)
    )

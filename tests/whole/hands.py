"""Hands for whole jobs: a clock that is moved, the full screen under the pilot, the plain lines in memory."""

from __future__ import annotations

import io
import random
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from bench.desk.bounce import settle_ms
from bench.desk.desk import Desk, Effect
from bench.desk.token import Token
from bench.desk.update import Arrival, update
from bench.workbench import Workbench
from screens.app import Face, Shell
from screens.full import opening
from screens.look import Look as Terminal
from screens.pages.frame import Look
from screens.plain import Plain
from screens.view import view

START = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
KEYPAD = {".": "full_stop", "-": "minus", "/": "slash", "+": "plus", "*": "asterisk", "E": "enter"}


STEADY_S = 175.0
"""Longest step of a clock that nobody sets: no key of a script comes a quarter of an hour after the one before."""


class Clock:
    """Wall time that goes on by a fixed step each time it is read, and beside it a clock that nobody sets."""

    def __init__(self, step_s: float = 700.0, start: datetime = START) -> None:
        self.now = start
        self.step_s = step_s
        self.steady_s = 100.0

    def steady(self) -> float:
        """Seconds on the clock that nobody sets."""
        return self.steady_s

    def wait(self, seconds: float) -> None:
        """Let time pass on both."""
        self.now += timedelta(seconds=seconds)
        self.steady_s += seconds

    def __call__(self) -> str:
        self.now += timedelta(seconds=self.step_s)
        self.steady_s += min(self.step_s, STEADY_S)
        return self.now.isoformat(timespec="seconds")


def bench_in(folder: Path, *, seed: int = 1, clock: Clock | None = None) -> Workbench:
    """A workbench whose dealing of numbers and wall time are known."""
    return Workbench(folder, chance=random.Random(seed), wall=clock or Clock())


async def press(folder: Path, keys: Sequence[str], *, seed: int = 1, clock: Clock | None = None) -> Desk:
    """Press keypad keys on the full screen through the pilot; E is Enter. The desk as it then stands."""
    clock = clock or Clock()
    bench = bench_in(folder, seed=seed, clock=clock)

    def timed(desk: Desk, token: Arrival) -> tuple[Desk, tuple[Effect, ...]]:
        return update(
            desk, replace(token, at=clock.steady()) if isinstance(token, Token) and token.at else token
        )

    face: Face[Desk] = Face(
        desk=opening(bench, ""),
        update=timed,
        carry_out=bench.carry_out,
        view=lambda desk: view(desk, Look("half")),
        settle_ms=lambda desk: settle_ms(desk.bounce, window_ms=desk.bounce_ms),
        closing=bench.close,
        look=Terminal(),
        now=clock.steady,
        wall=clock,
    )
    shell = Shell(face)
    async with shell.run_test(size=(80, 24)) as pilot:
        for key in keys:
            await pilot.press(KEYPAD.get(key, key))
        await pilot.pause()
        desk: Desk = shell.bench.desk
    bench.close()
    return desk


def lines(
    folder: Path, answers: Iterable[str], *, seed: int = 1, clock: Clock | None = None, file: str = ""
) -> tuple[Desk, str]:
    """Answer in plain lines; the desk as it then stands and everything that was said."""
    clock = clock or Clock()
    out = io.StringIO()
    plain = Plain(
        Desk(hasty=True, bounce_ms=0),
        bench_in(folder, seed=seed, clock=clock),
        out=out,
        wall=clock,
        now=clock.steady,
    )
    plain.start(file)
    plain.run(iter(f"{answer}\n" for answer in answers))
    return plain.desk, out.getvalue()


def without_times(text: str) -> str:
    """A session file without times, random id and checksums."""
    text = re.sub(r'(?m)^(at|crc|id) = ".*"$', r"\1", text)
    text = re.sub(r"ran \d+\.\d min", "ran TIME", text)
    return re.sub(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[^\"]*", "TIME", text)


def session_text(folder: Path, number: int = 1) -> str:
    """The session file of a job."""
    found = sorted((folder / "jobs").glob(f"{number:05d}*.toml"))
    return found[0].read_text(encoding="utf-8")

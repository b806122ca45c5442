"""Hands for whole jobs: a clock that is moved, the full screen under the pilot, the plain lines in memory."""

from __future__ import annotations

import asyncio
import io
import random
import re
import time
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

from textual import events

from bench.desk.away import Moment
from bench.desk.bounce import settle_ms
from bench.desk.desk import Desk
from bench.desk.effects import Arrival, Effect
from bench.desk.hold import seconds_left
from bench.desk.token import Token
from bench.desk.update import update
from bench.file.disk import Disk
from bench.file.entry import random_id
from bench.workbench import Workbench
from screens.app import Shell
from screens.face import Face
from screens.full import opening
from screens.look import Look
from screens.plain import Plain
from screens.view import view
from tests.whole.clock import (
    AT_THE_BENCH_MIN as AT_THE_BENCH_MIN,
    START as START,
    Clock as Clock,
    let_pass as let_pass,
)
from tests.whole.script import MOVES, Typist, each_line

KEYPAD = {".": "full_stop", "-": "minus", "/": "slash", "+": "plus", "*": "asterisk", "E": "enter"}
PATIENCE_S = 20.0


class Unflushed(Disk):
    """A real disk that does not wait until what is written is safe: the plug is not pulled here."""

    def flush(self, fd: int) -> None:
        """Do not wait."""

    def flush_folder(self, path: Path) -> None:
        """Do not wait."""


def bench_in(
    folder: Path,
    *,
    seed: int = 1,
    chance: random.Random | None = None,
    clock: Clock | None = None,
    new_id: Callable[[], str] = random_id,
) -> Workbench:
    """A workbench whose dealing of numbers and wall time are known."""
    return Workbench(
        folder,
        disk=Unflushed(),
        chance=chance or random.Random(seed),
        wall=clock or Clock(),
        new_id=new_id,
    )


def presses(line: str) -> list[str]:
    """One line as presses on the keypad: every character, and E for Enter."""
    return [line] if line in MOVES else [*line, "E"]


async def until(ready: Callable[[], bool]) -> None:
    """Let the program run until something is so; a screen is painted at most sixty times a second."""
    given_up = time.monotonic() + PATIENCE_S
    while not ready():
        assert time.monotonic() < given_up, "never happened"
        await asyncio.sleep(0)


async def press(folder: Path, typing: Iterable[Typist | str], *, seed: int = 1) -> tuple[Desk, list[str]]:
    """Type lines on the keypad of the full screen through the pilot;
    the desk as it then stands, and the keys.
    """
    clock, pressed = Clock(step_s=2.0), list[str]()
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
        look=Look(),
        now=clock.steady,
        wall=clock,
        boot=clock.steady,
    )
    shell = Shell(face)

    def taken(after: Moment | None) -> bool:
        """Whether a further key has come to the desk, and what is then asked stands on the screen."""
        desk = shell.bench.desk
        return desk.last_key is not after and desk.painted == desk.asked

    async with shell.run_test(size=(80, 24)):
        for line in each_line(typing, lambda: shell.bench.desk):
            desk = shell.bench.desk
            clock.wait(
                seconds_left(desk, desk.step) if desk.step else 0.0
            )  # the hand waits for a hold to end
            for key in presses(line):
                before = shell.bench.desk.last_key
                event = events.Key(KEYPAD.get(key, key), None if key == "E" else key)
                event.time = clock.steady()
                shell.post_message(event)
                await until(lambda before=before: taken(before))  # type: ignore[misc]
                pressed.append(key)
        desk = shell.bench.desk
    bench.close()
    return desk, pressed


def lines(
    folder: Path,
    typing: Iterable[Typist | str],
    *,
    seed: int = 1,
    clock: Clock | None = None,
    file: str = "",
    new_id: Callable[[], str] = random_id,
) -> tuple[Desk, str]:
    """Answer in plain lines; the desk as it then stands and everything that was said."""
    clock = clock or Clock()
    out = io.StringIO()
    bench = bench_in(folder, seed=seed, clock=clock, new_id=new_id)
    plain = Plain(
        Desk(hasty=True, bounce_ms=0), bench, out=out, wall=clock, now=clock.steady, boot=clock.steady
    )
    plain.start(file)
    typed = clock.passing(each_line(typing, lambda: plain.desk))
    plain.run(f"{line}\n" for line in typed)
    left = next(typed, None)
    assert left is None, f"never typed: {left!r}"
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

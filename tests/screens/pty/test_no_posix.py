"""The full screen where no POSIX module is, on the toolkit's driver for Windows with a console put in."""

from __future__ import annotations

import tty
from pathlib import Path

from screens.title import BACK
from tests.screens.pty.harness import Terminal
from tests.screens.pty.test_program import MOUSE, kept, to_the_first_reading

LEAVE = "*9\r"


def opened(folder: Path, *job: str) -> Terminal:
    """The full screen; the terminal gives each key as it comes, as a console does."""
    terminal = Terminal(["-m", "tests.whole.no_posix", str(folder), "full", *job])
    tty.setraw(terminal.slave)
    return terminal


def left(terminal: Terminal) -> None:
    """Leave by keypad: the console is given back, and the last words name the file."""
    for key in LEAVE:
        terminal.pace([(0.12, key.encode())])
    assert terminal.wait_exit() == 0
    assert b"modes given back" in terminal.output and BACK.encode() in terminal.output
    assert terminal.screen.title == "1 - ringwright" and not MOUSE.search(terminal.output)
    assert b"\x1b[?1049l" in terminal.output and b"00001.toml" in terminal.output


def test_a_job_is_begun_left_and_opened_again_on_the_toolkits_own_driver(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        terminal.wait_for("number of a job")
        to_the_first_reading(terminal)
        terminal.pace([(0.12, key.encode()) for key in "33.20\r"])
        terminal.wait(lambda: kept(tmp_path) == ["33.20"], "the reading in the file")
        left(terminal)
    with opened(tmp_path, "1") as terminal:
        terminal.wait_for("33.20")
        left(terminal)
    assert kept(tmp_path) == ["33.20"]

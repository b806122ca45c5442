"""The first page on a real terminal: before the toolkit, taken over unseen, keys kept, given back."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pyte
import pytest

from tests.screens.pty.harness import ROOT, Terminal, clean_environment, known

HELD = """
import sys
class Door:
    def find_spec(self, name, path=None, target=None):
        if name == "textual":
            sys.meta_path.remove(self)
            open({door!r}).read()
sys.meta_path.insert(0, Door())
"""
"""Loaded by the interpreter as it starts: the toolkit is not loaded before the door is opened."""
TAKEN_OVER = b"\x1b[?1004h"
"""The toolkit asks for this when it takes the terminal."""
FIRST = "No jobs yet."


@contextmanager
def held(folder: Path, **environment: str) -> Iterator[tuple[Terminal, Path]]:
    """The program on its first page, held before the toolkit; and the door, opened by being written to."""
    door = folder / "door"
    os.mkfifo(door)
    (folder / "sitecustomize.py").write_text(HELD.format(door=str(door)), encoding="utf-8")
    told = clean_environment(PYTHONPATH=f"{folder}{os.pathsep}{ROOT}", **environment)
    words = ["-m", "ringwright", "--folder", str(folder / "home")]
    with Terminal(words, environment=told) as terminal:
        terminal.wait_for(FIRST)
        while terminal.drain(0.05):
            pass
        assert TAKEN_OVER not in terminal.output
        yield terminal, door


def cells(data: bytes) -> list[tuple[object, ...]]:
    """Every cell of a screen of 80 by 24 after some bytes, with its colours and marks."""
    screen = pyte.Screen(80, 24)
    pyte.ByteStream(screen).feed(known(data))
    return [tuple(screen.buffer[row][column]) for row in range(24) for column in range(80)]


@pytest.mark.parametrize("environment", ({}, {"NO_COLOR": "1"}, {"COLORTERM": "", "TERM": "xterm"}), ids=str)
def test_the_toolkit_shows_the_same_cells_and_clears_nothing(
    tmp_path: Path, environment: dict[str, str]
) -> None:
    with held(tmp_path, **environment) as (terminal, door):
        first, last_row = bytes(terminal.output), terminal.screen.display[23].strip().encode()
        assert first.count(last_row) == 1
        door.write_text("")
        terminal.wait(lambda: terminal.output.count(last_row) > 1, "the toolkit's first frame")
        later = bytes(terminal.output[len(first) :])
        assert TAKEN_OVER in later
        assert not any(one in later for one in (b"\x1b[?1049", b"\x1b[2J", b"\x1b[J", b"\x1b[K"))
        assert cells(first) == cells(first + later)


def test_keys_typed_while_the_toolkit_is_loaded_are_all_taken_in_their_order(tmp_path: Path) -> None:
    with held(tmp_path) as (terminal, door):
        before = terminal.text()
        terminal.send(b"4077-\r")
        assert not terminal.drain(0.05) and terminal.text() == before, "a key was echoed"
        door.write_text("")
        terminal.wait_for("There is no job 407.")
        terminal.process.send_signal(signal.SIGTERM)
        assert terminal.wait_exit() == 0 and terminal.given_back()


def test_a_signal_while_the_toolkit_is_loaded_gives_the_terminal_back(tmp_path: Path) -> None:
    with held(tmp_path) as (terminal, _):
        terminal.process.send_signal(signal.SIGTERM)
        assert terminal.wait_exit() == 0 and terminal.given_back()

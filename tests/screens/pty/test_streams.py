"""No reading is merged, lost or invented at any speed; the stock input shows that the test sees it."""

from __future__ import annotations

import re
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from pathlib import Path

from tests.screens.pty.harness import PATIENCE_S, Terminal
from tests.screens.pty.streams import Stream, all_streams

SENTINEL = "55.55"
ATTEMPTS = 4
TERMINALS = 3
"""Streams are played into so many terminals at once."""


def lines_of(path: Path) -> list[str]:
    """The lines kept so far."""
    return path.read_text(encoding="utf-8").splitlines() if path.exists() else []


def play(terminal: Terminal, stream: Stream, path: Path) -> list[str]:
    """Send one stream and a last reading that marks its end; the lines kept because of the stream.

    Where the last reading was swallowed too, its remains stand among the lines and it is sent again.
    """
    before = len(lines_of(path))
    terminal.pace(stream.timed)
    for _ in range(ATTEMPTS):
        terminal.pace(
            [(0.11, b"\r"), *((0.006, bytes([byte])) for byte in SENTINEL.encode()), (0.006, b"\r")]
        )
        end = time.monotonic() + PATIENCE_S / ATTEMPTS
        while time.monotonic() < end:
            if any(SENTINEL in line for line in lines_of(path)[before:]):
                return lines_of(path)[before:-1]
            terminal.drain(0.02)
    raise AssertionError(f"{stream.name} never came to its end; the screen:\n{terminal.text()}")


def test_no_reading_is_merged_lost_or_invented(tmp_path: Path) -> None:
    streams = list(all_streams())
    assert len(streams) == 50
    with ExitStack() as stack, ThreadPoolExecutor(TERMINALS) as hands:
        paths = [tmp_path / f"kept {number}" for number in range(TERMINALS)]
        terminals = [stack.enter_context(demonstration(path)) for path in paths]
        for terminal in terminals:
            terminal.wait_for("ready")
        shares = [streams[number::TERMINALS] for number in range(TERMINALS)]
        assert not [wrong for share in hands.map(wrong_in, terminals, shares, paths) for wrong in share]


def demonstration(path: Path) -> Terminal:
    """The demonstration, whose disk is slow."""
    return Terminal(["-m", "tests.screens.demonstration", str(path), "--save-ms", "10"])


def wrong_in(terminal: Terminal, streams: list[Stream], path: Path) -> list[tuple[str, list[str], list[str]]]:
    """Play streams into one terminal; those of which something else was kept:
    name, what should be, what is.
    """
    wrong = []
    for stream in streams:
        kept = play(terminal, stream, path)
        good = [line.removesuffix(" mm") for line in kept if not line.startswith("!")]
        if good != stream.kept or len(kept) - len(good) != stream.refused:
            wrong.append((stream.name, stream.kept, kept))
    terminal.send(b"*")
    assert terminal.wait_exit() == 0
    return wrong


def test_the_same_streams_merge_readings_in_the_stock_input(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    merged = 0
    with Terminal(["-m", "tests.screens.pty.stock", str(path), "10"]) as terminal:
        terminal.wait_for("ready")
        for stream in [stream for stream in all_streams() if stream.plain][:3]:
            kept = play(terminal, stream, path)
            merged += sum(1 for line in kept if line and not re.fullmatch(r"\d\d\.\d\d", line))
    assert merged >= 1

"""No reading is merged, lost or invented at any speed; the stock input shows that the test sees it."""

from __future__ import annotations

import re
from pathlib import Path

from tests.screens.pty.harness import Terminal
from tests.screens.pty.streams import Stream, all_streams

SENTINEL = "55.55"


def lines_of(path: Path) -> list[str]:
    """The lines kept so far."""
    return path.read_text(encoding="utf-8").splitlines() if path.exists() else []


def play(terminal: Terminal, stream: Stream, path: Path) -> list[str]:
    """Send one stream and a last reading that marks its end; the lines kept because of the stream."""
    before = len(lines_of(path))
    terminal.pace(stream.timed)
    terminal.pace([(0.11, b"\r"), *((0.006, bytes([byte])) for byte in SENTINEL.encode()), (0.006, b"\r")])
    terminal.wait(
        lambda: any(SENTINEL in line for line in lines_of(path)[before:]), f"the end of {stream.name}"
    )
    return lines_of(path)[before:-1]


def test_no_reading_is_merged_lost_or_invented(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    streams = list(all_streams())
    assert len(streams) == 50
    wrong = []
    words = ["-m", "tests.screens.demonstration", str(path), "--save-ms", "10"]
    with Terminal(words) as terminal:
        terminal.wait_for("ready")
        for stream in streams:
            kept = play(terminal, stream, path)
            good = [line.removesuffix(" mm") for line in kept if not line.startswith("!")]
            if good != stream.kept or len(kept) - len(good) != stream.refused:
                wrong.append((stream.name, stream.kept, kept))
        terminal.send(b"*")
        assert terminal.wait_exit() == 0
    assert not wrong


def test_the_same_streams_merge_readings_in_the_stock_input(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    merged = 0
    with Terminal(["-m", "tests.screens.pty.stock", str(path), "10"]) as terminal:
        terminal.wait_for("ready")
        for stream in [stream for stream in all_streams() if stream.plain][:3]:
            kept = play(terminal, stream, path)
            merged += sum(1 for line in kept if line and not re.fullmatch(r"\d\d\.\d\d", line))
    assert merged >= 1

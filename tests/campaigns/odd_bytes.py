"""Odd bytes from keyboards, gauges, pastes and broken lines: the program lives, and gives the terminal back.

Run in full with `python -m tests.campaigns.odd_bytes --long`; the short form runs with the tests. The plant
is the toolkit's own input, which such bytes must bring down.
"""

from __future__ import annotations

import argparse
import random
import signal
import tempfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tests.screens.pty.harness import Terminal

PIECES = (
    *(b"\x1b[", b"\x1b", b"\x1bO", b"\x1b[<", b"\x1b[M", b"\x1b[I", b"\x1b[O"),
    *(b"\x1b[200~", b"\x1b[201~", b"\x1b[200~x\x1b[201~"),
    *(
        b"\x1b[13;1:2u",
        b"\x1b[57414u",
        b"\x1b[99999999999999999999u",
        b"\x1b[1114112;1;1u",
        b"\x1b[49;;1114112u",
    ),
    *(b"\x1b[?2026;1$y", b"\x1b[?2048;2$y", b"\x1b[12;0R", b"\x1b[8;1;1t", b"\x1b[1;99999A"),
    *(b"\x1b[48;10;10;1;1t", b"\x1b[48;0;0;0;0t", b"\x1b[48;"),
    *(b"\x1b[<0;-5;7M", b"\x1b[<999999999999;1;1M"),
    *(b"\xff", b"\xc3", b"\x9b", b"\xb5", b"\x00", b"36.42\r"),
)
LEAVING = (b"\x1a", b"*", b"\x11")
"""Ctrl-Z, and the keys that leave the programs tried here."""


@dataclass
class Counts:
    """What was sent and what became of the programs."""

    programs: int = 0
    bytes_sent: int = 0
    broken_sequences: int = 0
    """Sequences that cannot be read, among what was sent."""
    died: list[int] = field(default_factory=list)
    """Seeds with which the program ended by itself."""
    left_raw: list[int] = field(default_factory=list)
    """Seeds after which the terminal was not given back."""


def noise(chance: random.Random, pieces: int) -> Iterable[bytes]:
    """Odd bytes in writes of uneven length, without the keys that leave."""
    for _ in range(pieces):
        data = b"".join(
            chance.choice(PIECES) if chance.random() < 0.7 else bytes([chance.randrange(256)])
            for _ in range(chance.randrange(1, 30))
        )
        for key in LEAVING:
            data = data.replace(key, b"")
        if data:
            yield data


def one(words: Sequence[str], ready: bytes, seed: int, counts: Counts) -> None:
    """One program under noise, ended by SIGTERM if it is still there."""
    counts.programs += 1
    with Terminal(words, model=False) as terminal:
        terminal.wait(lambda: ready in terminal.output, repr(ready))
        for data in noise(random.Random(seed), 60):
            if terminal.process.poll() is not None:
                counts.died.append(seed)
                return
            counts.bytes_sent += len(data)
            counts.broken_sequences += data.count(b"\x1b[13;1:2u") + data.count(b"\xff")
            terminal.send(data)
        terminal.send(b"\x1b[201~")
        terminal.process.send_signal(signal.SIGTERM)
        if terminal.wait_exit() != 0:
            counts.died.append(seed)
        elif not terminal.given_back():
            counts.left_raw.append(seed)


def run(*, long: bool = False, planted: bool = False) -> Counts:
    """The demonstration under noise; or, as the plant, the toolkit's own input."""
    counts = Counts()
    for seed in range(60 if long else 4):
        with tempfile.TemporaryDirectory() as folder:
            path = str(Path(folder) / "kept")
            if planted:
                one(["-m", "tests.screens.pty.stock", path, "0"], b"ready", seed, counts)
                if counts.died:
                    break
            else:
                one(["-m", "tests.screens.demonstration", path], b"ready", seed, counts)
    return counts


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    found = run(long=parser.parse_args().long)
    print(found)
    raise SystemExit(1 if found.died or found.left_raw else 0)

"""kill -9 at random moments of real writing on the real disk.

A child process appends as fast as it can and tells each entry that was answered as saved; in every second run
its writes go out in small pieces, so that the kill falls between them. After the kill the lock must be free,
every told entry in the file, at most one more, and every cut-off byte beside it. Long form:
`python -m tests.campaigns.kills --long`.
"""

from __future__ import annotations

import os
import random
import signal
import tempfile
import time
from pathlib import Path

from bench.file.disk import REAL, Disk
from bench.file.new_job import create
from bench.file.store import open_session
from tests.campaigns.common import AT, Counts, main

KILLS_A_FILE = 20
RECORD = 8
"""Bytes of one told entry number."""


class InPieces(Disk):
    """The real disk, writing a few bytes at a time and slowly."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)

    def write(self, fd: int, data: bytes) -> int:
        spin(60_000)
        return super().write(fd, data[: self.chance.randint(1, 25)])


def spin(nanoseconds: int) -> None:
    """Be busy for so long."""
    until = time.perf_counter_ns() + nanoseconds
    while time.perf_counter_ns() < until:
        pass


def run(*, long: bool = False) -> Counts:
    """2,400 kills; short: 60."""
    counts = Counts()
    chance = random.Random(3)
    with tempfile.TemporaryDirectory() as folder:
        path, told = Path(), 0
        for number in range(2400 if long else 60):
            if number % KILLS_A_FILE == 0:
                with create(Path(folder), job="A-1042", made_by="ringwright") as job:
                    path, told = job.path, 0
            told = _one(counts, chance, path, told, number)
    return counts


def _one(counts: Counts, chance: random.Random, path: Path, before: int, number: int) -> int:
    """One child, one kill, one look; the number of entries then in the file."""
    counts.tried += 1
    listen, speak = os.pipe()
    child = os.fork()
    if child == 0:
        _write_for_ever(path, speak, InPieces(number) if number % 2 else REAL)
    os.close(speak)
    wanted = chance.randint(0, 6)
    told = b""
    while len(told) < wanted * RECORD:
        piece = os.read(listen, wanted * RECORD - len(told))
        if not piece:
            counts.fail("child", f"kill {number}: it ended by itself")
            break
        told += piece
    spin(chance.randint(0, 1_500_000))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while piece := os.read(listen, 4096):
        told += piece
    os.close(listen)
    last = int.from_bytes(told[-RECORD:], "big") if told else before
    counts.seen["entries told as saved"] += last - before
    return _look(counts, path, last, f"kill {number}")


def _write_for_ever(path: Path, speak: int, disk: Disk) -> None:
    """The child: append, tell, again."""
    try:
        with open_session(path, disk=disk) as job:
            while True:
                entry = job.append(kind="answer", key="case_bore", value=f"{job.loaded.next_n} mm", at=AT)
                os.write(speak, entry.n.to_bytes(RECORD, "big"))
    finally:
        os._exit(1)


def _look(counts: Counts, path: Path, last: int, where: str) -> int:
    damaged = path.read_bytes()
    with open_session(path) as job:
        numbers = [entry.n for entry in job.entries]
        if not job.writable:
            counts.fail("lock", f"{where}: {job.why_read_only}")
    if numbers[:last] != list(range(1, last + 1)):
        counts.fail("lost", f"{where}: {len(numbers)} of {last}")
    elif numbers != list(range(1, len(numbers) + 1)) or len(numbers) > last + 1:
        counts.fail("invented", f"{where}: {numbers[last:]}")
    counts.seen["in flight turned up whole"] += len(numbers) > last
    now = path.read_bytes()
    if now != damaged:
        counts.seen["torn tail"] += 1
        kept = [other.read_bytes() for other in path.parent.glob(f"{path.name}.torn-*")]
        if not damaged.startswith(now) or damaged[len(now) :] not in kept:
            counts.fail("bytes", f"{where}: {len(damaged) - len(now)} bytes are gone")
    return len(numbers)


if __name__ == "__main__":
    main(run)

"""Garbled files: every single-bit flip, and fourteen other kinds of damage and clumsy editing.

No garbled file may give its values away silently: it is read only, asks, or still says exactly what was
written. A file that only lacks its last entries or has an unfinished tail says the truth about all others.
Two copies of one job joined half and half are a known exception, counted by itself. Long form:
`python -m tests.campaigns.garbles --long`.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from bench.file.load import load
from tests.campaigns.common import Counts, Plain, build, main, plain, script
from tests.campaigns.simulated_disk import SimulatedDisk

Garble = Callable[[random.Random, bytes], bytes]


def run(*, long: bool = False) -> Counts:
    """All flips of one job and 900 of each other kind; short: every ninth flip and 25 of each kind."""
    counts = Counts()
    chance = random.Random(7)
    wrote = script(chance, 16)
    disk = SimulatedDisk()
    whole = disk.content(build(disk, wrote, seed=0x2265B1F5).path)
    for bit in range(0, 8 * len(whole), 1 if long else 9):
        flipped = bytearray(whole)
        flipped[bit // 8] ^= 1 << bit % 8
        judge(counts, wrote, whole, bytes(flipped), f"bit {bit} flipped", "flips")
    for garble in KINDS:
        for number in range(900 if long else 25):
            name = garble.__name__
            judge(counts, wrote, whole, garble(chance, whole), f"{name} {number}", name)
    for number in range(30 if long else 5):
        splice(counts, wrote, number)
    return counts


def judge(counts: Counts, wrote: list[Plain], whole: bytes, garbled: bytes, where: str, kind: str) -> None:
    """One garbled file: nothing wrong may be used."""
    counts.tried += 1
    loaded = load(garbled)
    used = plain(loaded.usable)
    if loaded.read_only:
        counts.seen["read only"] += 1
    elif loaded.gated:
        counts.seen["asks"] += 1
    elif used == wrote:
        counts.seen["says the same"] += 1
    elif used == wrote[: len(used)] and (loaded.torn or whole.startswith(garbled.rstrip())):
        counts.seen["tail set aside" if loaded.torn else "cut between two entries"] += 1
        return
    else:
        counts.fail("silent", f"{where}: {loaded.state}, {[e for e in used if e not in wrote]}")
    if loaded.gated and used:
        counts.fail("gate", f"{where}: {len(used)} entries used while it asks")
    counts.seen[f"kind {kind}"] += 1


def splice(counts: Counts, wrote: list[Plain], number: int) -> None:
    """The first half of one copy of a job joined with the second half of another copy:
    the known exception.
    """
    other = [
        (n, kind, key, "12.34 mm" if kind == "answer" else value, of) for n, kind, key, value, of in wrote
    ]
    halves = []
    for entries in (wrote, other):
        disk = SimulatedDisk()
        made = build(disk, entries, seed=number)
        halves.append((disk.content(made.path), made.sizes[len(entries) // 2]))
    joined = halves[0][0][: halves[0][1]] + halves[1][0][halves[1][1] :]
    counts.seen["known splice, asks" if load(joined).gated else "known splice, used"] += 1


def byte_changed(chance: random.Random, data: bytes) -> bytes:
    """One byte is another one."""
    at = chance.randrange(len(data))
    return data[:at] + bytes([(data[at] + chance.randint(1, 255)) % 256]) + data[at + 1 :]


def byte_gone(chance: random.Random, data: bytes) -> bytes:
    """One byte is missing."""
    at = chance.randrange(len(data))
    return data[:at] + data[at + 1 :]


def byte_more(chance: random.Random, data: bytes) -> bytes:
    """One byte too many."""
    at = chance.randrange(len(data))
    return data[:at] + chance.randbytes(1) + data[at:]


def _stretch(chance: random.Random, data: bytes) -> tuple[int, int]:
    at = chance.randrange(len(data))
    return at, min(len(data), at + chance.randint(2, 200))


def stretch_gone(chance: random.Random, data: bytes) -> bytes:
    """A stretch is missing."""
    at, end = _stretch(chance, data)
    return data[:at] + data[end:]


def stretch_twice(chance: random.Random, data: bytes) -> bytes:
    """A stretch stands twice."""
    at, end = _stretch(chance, data)
    return data[:end] + data[at:]


def stretch_zeroed(chance: random.Random, data: bytes) -> bytes:
    """A stretch reads as zeros."""
    at, end = _stretch(chance, data)
    return data[:at] + bytes(end - at) + data[end:]


def stretch_noise(chance: random.Random, data: bytes) -> bytes:
    """A stretch reads as noise."""
    at, end = _stretch(chance, data)
    return data[:at] + chance.randbytes(end - at) + data[end:]


def stretch_copied(chance: random.Random, data: bytes) -> bytes:
    """A stretch is overwritten with text from elsewhere in the file."""
    at, end = _stretch(chance, data)
    start = chance.randrange(len(data) - (end - at))
    return data[:at] + data[start : start + end - at] + data[end:]


def stretches_swapped(chance: random.Random, data: bytes) -> bytes:
    """Two neighbouring stretches changed places."""
    at, middle = _stretch(chance, data)
    end = min(len(data), middle + chance.randint(2, 200))
    return data[:at] + data[middle:end] + data[at:middle] + data[end:]


def line_gone(chance: random.Random, data: bytes) -> bytes:
    """A line is missing."""
    lines = data.splitlines(keepends=True)
    del lines[chance.randrange(len(lines))]
    return b"".join(lines)


def line_twice(chance: random.Random, data: bytes) -> bytes:
    """A line stands twice."""
    lines = data.splitlines(keepends=True)
    at = chance.randrange(len(lines))
    return b"".join(lines[: at + 1] + lines[at:])


def lines_swapped(chance: random.Random, data: bytes) -> bytes:
    """Two lines changed places."""
    lines = data.splitlines(keepends=True)
    a, b = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]
    return b"".join(lines)


def block_gone(chance: random.Random, data: bytes) -> bytes:
    """An entry is missing, not the last one."""
    head, *blocks = data.split(b"\n[[entry]]\n")
    del blocks[chance.randrange(len(blocks) - 1)]
    return b"\n[[entry]]\n".join([head, *blocks])


def digit_changed(chance: random.Random, data: bytes) -> bytes:
    """Someone changed one digit of a value in an editor."""
    digits = [found.start() for found in re.finditer(rb"(?<=value = \")\d|(?<=value = \"\d)\d", data)]
    at = chance.choice(digits)
    return data[:at] + b"%d" % ((data[at] - 48 + chance.randint(1, 9)) % 10) + data[at + 1 :]


KINDS: tuple[Garble, ...] = (
    byte_changed,
    byte_gone,
    byte_more,
    stretch_gone,
    stretch_twice,
    stretch_zeroed,
    stretch_noise,
    stretch_copied,
    stretches_swapped,
    line_gone,
    line_twice,
    lines_swapped,
    block_gone,
    digit_changed,
)

if __name__ == "__main__":
    main(run)

"""Files cut at every byte of their last four blocks, with nothing, zeros,
noise or older text in the lost part.

Every entry that was wholly in the file must be there, nothing else may be used, and every byte that was cut
off must be kept beside the file. Long form: `python -m tests.campaigns.cuts --long`.
"""

from __future__ import annotations

import random

from bench.file.plain import CannotOpen
from bench.file.store import open_session
from tests.campaigns.common import Counts, Made, Plain, build, main, plain, put, script
from tests.campaigns.simulated_disk import SimulatedDisk

FILLS = ("nothing", "zeros", "noise", "older text")
BLOCKS = 4


def run(*, long: bool = False) -> Counts:
    """Five jobs cut at every byte; short: one smaller job cut at every fifth byte."""
    counts = Counts()
    for seed in range(5 if long else 1):
        chance = random.Random(seed)
        disk = SimulatedDisk()
        made = build(disk, script(chance, 30 if long else 12), seed=seed)
        whole = disk.content(made.path)
        for cut in range(made.sizes[-1 - BLOCKS], len(whole) + 1, 1 if long else 5):
            for fill in FILLS:
                damaged = whole[:cut] + filling(fill, len(whole) - cut, whole[:cut], chance)
                one(counts, made, whole, damaged, f"cut at {cut}, {fill}")
    return counts


def filling(fill: str, length: int, older: bytes, chance: random.Random) -> bytes:
    """What stands where the lost part was."""
    if fill == "zeros":
        return bytes(length)
    if fill == "noise":
        return chance.randbytes(length)
    if fill == "older text":
        start = chance.randrange(0, len(older) - length)
        return older[start : start + length]
    return b""


def one(counts: Counts, made: Made, whole: bytes, damaged: bytes, where: str) -> None:
    """Open one damaged file, look at everything that was answered as saved, append, open again."""
    counts.tried += 1
    must = sum(damaged.startswith(whole[:size]) for size in made.sizes[1:])
    may = sum(damaged.startswith(whole[: size - 1]) for size in made.sizes[1:])
    disk = SimulatedDisk()
    disk.put(made.path, damaged)
    try:
        session = open_session(made.path, disk=disk)
    except CannotOpen as refused:
        counts.fail("lost", f"{where}: {refused.why}")
        return
    with session:
        used = plain(session.entries)
        if not session.loaded.gated:
            check_used(counts, made.entries, used, must, may, where)
        else:
            counts.seen["ask" if session.writable else "read only"] += 1
            found = plain(read.entry for read in session.loaded.entries if read.found == "ok")
            if used or any(entry not in found for entry in made.entries[:must]):
                counts.fail("lost", f"{where}: gated, and {len(used)} used, {len(found)} of {must} found")
        check_bytes(counts, disk, made, damaged, where)
        if session.loaded.gated or not session.writable:
            return
        new: Plain = (session.loaded.next_n, "answer", "case_bore", "31.41 mm", None)
        put(session, new)
    with open_session(made.path, disk=disk) as again:
        if plain(again.entries) != [*used, new]:
            counts.fail("lost", f"{where}: after the next answer the file reads otherwise")


def check_used(
    counts: Counts, wrote: list[Plain], used: list[Plain], must: int, may: int, where: str
) -> None:
    """All whole entries are there, in order, and nothing else."""
    if used[:must] != wrote[:must]:
        counts.fail("lost", f"{where}: {len(used)} used, {must} were whole")
    elif used != wrote[: len(used)] or len(used) > may:
        counts.fail("invented", f"{where}: {used[must:]}")
    counts.seen["answers all there"] += 1


def check_bytes(counts: Counts, disk: SimulatedDisk, made: Made, damaged: bytes, where: str) -> None:
    """Every byte of the damaged file is still in it or kept beside it."""
    now = disk.content(made.path)
    kept = {disk.content(path) for path in disk.nodes if ".torn-" in path.name}
    if now == damaged:
        return
    counts.seen["tail set aside"] += 1
    if not damaged.startswith(now) or damaged[len(now) :] not in kept:
        counts.fail("bytes", f"{where}: {len(damaged) - len(now)} bytes are gone")


if __name__ == "__main__":
    main(run)

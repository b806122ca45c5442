"""Power cuts before any call while a job is made, written and recovered,
with any subset of what was not flushed.

Every entry that was answered as saved must be there afterwards; nothing else but the one in flight may be;
every byte that the recovery cut off must stand beside the file. A second cut hits the recovery itself; in a
part of the runs one flush fails and the disk then counts the data as written. Long form:
`python -m tests.campaigns.powercuts --long`.
"""

from __future__ import annotations

import errno
import random
from pathlib import Path

from bench.file.new_job import create
from bench.file.plain import CannotOpen, NotSaved
from bench.file.store import Session, open_session
from tests.campaigns.common import FOLDER, Counts, Plain, main, plain, put, script
from tests.campaigns.simulated_disk import FaultyDisk, PowerCut, SimulatedDisk

MOODS = ("none", "all", "size", "mixed")
ENTRIES = 8


def run(*, long: bool = False) -> Counts:
    """Cut before every call, many subsets each, then cut again before every call of the recovery."""
    counts = Counts()
    chance = random.Random(11)
    for seed in range(4 if long else 1):
        wrote = script(random.Random(seed), ENTRIES)
        call, done = 0, False
        while not done:
            call += 1
            for number in range(14 if long else 4):
                mood = MOODS[number] if number < len(MOODS) else "mixed"
                done = _cut_while_writing(counts, wrote, call, mood, chance, second_cuts=3 if long else 1)
    for number in range(1500 if long else 60):
        _failed_flush(counts, script(random.Random(number), ENTRIES), chance)
    return counts


def _write(disk: FaultyDisk, wrote: list[Plain], saved: list[Plain]) -> Path | None:
    """Make a job in two sittings; `saved` grows with every entry answered as saved.

    Goes on after a refusal.
    """
    with create(FOLDER, job="A-1042", made_by="ringwright", disk=disk, new_id=lambda: "2265b1f5") as job:
        for entry in wrote[: ENTRIES // 2]:
            put(job, entry)
            saved.append(entry)
    with open_session(job.path, disk=disk) as job:
        for entry in wrote[ENTRIES // 2 :]:
            put(job, entry)
            saved.append(entry)
    return job.path


def _cut_while_writing(
    counts: Counts, wrote: list[Plain], call: int, mood: str, chance: random.Random, second_cuts: int
) -> bool:
    """True if the job was finished before the cut came."""
    inner = SimulatedDisk()
    disk = FaultyDisk(inner, lambda n, _: PowerCut() if n >= call else None)
    saved: list[Plain] = []
    done = False
    try:
        _write(disk, wrote, saved)
        done = True
    except PowerCut:
        counts.seen["cut while writing"] += 1
    after = inner.cut(chance, mood)
    where = f"cut before call {call}, {mood}"
    for again in range(1, 40):
        found = _copy(after)
        finished = _recover_with_cut(counts, wrote, saved, found, again, chance, second_cuts, where)
        if finished:
            break
    _check(counts, wrote, saved, after, where)
    return done


def _copy(disk: SimulatedDisk) -> SimulatedDisk:
    return disk.cut(random.Random(0), "all")


def _jobs(disk: SimulatedDisk) -> list[Path]:
    return [path for path in disk.nodes if path.name.endswith(".toml")]


def _recover_with_cut(
    counts: Counts,
    wrote: list[Plain],
    saved: list[Plain],
    found: SimulatedDisk,
    call: int,
    chance: random.Random,
    subsets: int,
    where: str,
) -> bool:
    """Cut again before the given call of the recovery; True if the recovery ended before it came."""
    paths = _jobs(found)
    if not paths:
        return True
    before = found.content(paths[0])
    ended = False
    disk = FaultyDisk(found, lambda n, _: PowerCut() if n >= call else None)
    try:
        with open_session(paths[0], disk=disk):
            ended = True
    except PowerCut:
        counts.seen["cut while recovering"] += 1
    for number in range(subsets):
        twice = found.cut(chance, MOODS[(call + number) % len(MOODS)])
        _check(counts, wrote, saved, twice, f"{where}, again before call {call} of the recovery", before)
    return ended


def _check(
    counts: Counts,
    wrote: list[Plain],
    saved: list[Plain],
    disk: SimulatedDisk,
    where: str,
    before: bytes = b"",
) -> None:
    """Open what was left and compare with what was answered as saved."""
    counts.tried += 1
    paths = _jobs(disk)
    if not paths:
        if saved:
            counts.fail("lost", f"{where}: the file is gone with {len(saved)} entries")
        counts.seen["no file yet"] += 1
        return
    before = before or disk.content(paths[0])
    try:
        with open_session(paths[0], disk=disk) as job:
            used = plain(job.entries)
            counts.seen["torn tail"] += bool(job.set_aside)
            counts.seen["in flight turned up whole"] += len(used) > len(saved)
    except CannotOpen as refused:
        counts.fail("lost", f"{where}: {refused.why}")
        return
    if used[: len(saved)] != saved:
        counts.fail("lost", f"{where}: {len(used)} entries of {len(saved)}")
    elif used != wrote[: len(used)] or len(used) > len(saved) + 1:
        counts.fail("invented", f"{where}: {used[len(saved) :]}")
    now = disk.content(paths[0])
    kept = [disk.content(path) for path in disk.nodes if ".torn-" in path.name]
    if not before.startswith(now) or (now != before and before[len(now) :] not in kept):
        counts.fail("bytes", f"{where}: {len(before) - len(now)} bytes are gone")


def _failed_flush(counts: Counts, wrote: list[Plain], chance: random.Random) -> None:
    """One flush fails, its data never reach the disk; the user saves a copy and goes on there; then a cut."""
    inner = SimulatedDisk()
    bad = chance.randint(3, 2 * ENTRIES)
    flushes = 0

    def plan(_: int, name: str) -> OSError | None:
        nonlocal flushes
        flushes += name == "flush"
        return OSError(errno.EIO, "flush") if name == "flush" and flushes == bad else None

    disk = FaultyDisk(inner, plan)
    saved: list[Plain] = []
    try:
        with create(FOLDER, job="A-1042", made_by="ringwright", disk=disk, new_id=lambda: "2265b1f5") as job:
            for entry in wrote:
                try:
                    put(job, entry)
                    saved.append(entry)
                except NotSaved as refused:
                    counts.seen["flush failed"] += 1
                    if refused.certain or job.writable:
                        counts.fail("stop", f"flush {bad}: {refused.why}")
                    _try_again(counts, job, entry, bad)
                    copy = job.save_copy(FOLDER / "jobs" / "00002-copy.toml")
                    _check_copy(counts, saved, copy, inner.cut(chance, "none"))
                    break
    except NotSaved:
        counts.seen["job not made"] += 1
    _check(counts, wrote, saved, _only_first(inner.cut(chance, chance.choice(MOODS))), f"flush {bad} failed")


def _try_again(counts: Counts, job: Session, entry: Plain, bad: int) -> None:
    """Pressing Enter once more must not write to the same file."""
    try:
        put(job, entry)
    except NotSaved:
        counts.seen["second try refused"] += 1
    else:
        counts.fail("stop", f"flush {bad}: written to again")


def _check_copy(counts: Counts, saved: list[Plain], path: Path, disk: SimulatedDisk) -> None:
    with open_session(path, disk=disk) as job:
        if plain(job.entries) != saved:
            counts.fail("copy", f"{len(job.entries)} entries of {len(saved)}")
    counts.seen["copy complete"] += 1


def _only_first(disk: SimulatedDisk) -> SimulatedDisk:
    for path in [path for path in disk.nodes if path.name.startswith("00002")]:
        del disk.nodes[path]
    return disk


if __name__ == "__main__":
    main(run)

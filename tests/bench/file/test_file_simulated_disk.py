"""The simulated disk does what the real one does, and its power cuts really lose what was not flushed."""

from __future__ import annotations

import os
import random
from pathlib import Path

from bench.file.disk import NEW, READ_ONLY, READ_WRITE, REAL, REPLACE, Disk
from tests.campaigns.simulated_disk import SimulatedDisk

NAMES = ("a", "b", "c")


def _step(disk: Disk, folder: Path, chance: random.Random, fds: list[int]) -> object:
    """One random call; what came of it, without numbers that differ between disks."""
    name = folder / chance.choice(NAMES)
    action = chance.randrange(11)
    flags = chance.choice([NEW, READ_ONLY, READ_WRITE, REPLACE])
    data, size = chance.randbytes(chance.randint(1, 20)), chance.randint(0, 30)
    pick, other = chance.random(), folder / chance.choice(NAMES)
    try:
        if action == 0 and len(fds) < 8:
            fds.append(disk.open(name, flags))
            return "opened"
        if action == 1:
            look = disk.look(name)
            return look.size, look.regular, look.link, look.names
        if action == 2:
            disk.link(name, other)
            return "linked"
        if action == 3:
            disk.unlink(name)
            return "unlinked"
        if action == 4:
            return sorted(disk.names(folder))
        if not fds:
            return None
        fd = fds[int(pick * len(fds))]
        if action == 5:
            fds.remove(fd)
            disk.close(fd)
            return "closed"
        if action == 6:
            return disk.write(fd, data)
        if action == 7:
            return disk.read(fd, 100, size)
        if action == 8:
            disk.truncate(fd, size)
            return "cut"
        if action == 9:
            disk.flush(fd)
            return "flushed"
        return disk.look_at(fd).size
    except OSError as error:
        return type(error).__name__ if isinstance(error, FileNotFoundError | FileExistsError) else "refused"


def test_the_simulated_disk_behaves_like_the_real_one(tmp_path: Path) -> None:
    differences: list[tuple[int, int, object, object]] = []
    for seed in range(60):
        folder = tmp_path / str(seed)
        folder.mkdir()
        simulated = SimulatedDisk()
        simulated.make_folder(Path("/x"))
        fds_real: list[int] = []
        fds_simulated: list[int] = []
        one, two = random.Random(seed), random.Random(seed)
        for number in range(80):
            real = _step(REAL, folder, one, fds_real)
            model = _step(simulated, Path("/x"), two, fds_simulated)
            if real != model:
                differences.append((seed, number, real, model))
                break
        for fd in fds_real:
            os.close(fd)
    assert differences == []


def _written(flushed: bool, named: bool) -> SimulatedDisk:
    disk = SimulatedDisk()
    fd = disk.open(Path("/a"), NEW)
    disk.write(fd, b"hello")
    if flushed:
        disk.flush(fd)
    if named:
        disk.flush_folder(Path("/"))
    return disk


def test_a_power_cut_loses_content_and_names_that_were_not_flushed() -> None:
    chance = random.Random(1)
    assert Path("/a") not in _written(True, False).cut(chance, "none").nodes
    assert _written(False, True).cut(chance, "none").content(Path("/a")) == b""
    assert _written(True, True).cut(chance, "none").content(Path("/a")) == b"hello"
    mixed = {
        found.content(Path("/a")) if Path("/a") in found.nodes else None
        for found in (_written(False, False).cut(chance) for _ in range(200))
    }
    assert {None, b"", b"hello", b"hel", b"\0\0\0\0\0"} <= mixed


def test_after_a_failed_flush_the_data_never_reach_the_disk() -> None:
    disk = _written(False, True)
    fd = disk.open(Path("/a"), READ_WRITE)
    disk.fail_flush(fd)
    disk.flush(fd)
    assert disk.content(Path("/a")) == b"hello"
    assert disk.cut(random.Random(1), "all").content(Path("/a")) == b""

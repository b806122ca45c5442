"""A file-size limit and a full disk while answers are written.

Each refusal is told in words and leaves the file as it was; with room again the job goes on; nothing is lost.
Long form: `python -m tests.campaigns.full_disks --long` (the full disk needs the right to mount a tmpfs).
"""

from __future__ import annotations

import os
import resource
import subprocess
import tempfile
from pathlib import Path

from bench.file.new_job import create
from bench.file.plain import NotSaved
from bench.file.store import open_session
from tests.campaigns.common import AT, Counts, main


def run(*, long: bool = False) -> Counts:
    """File-size limits from 100 to 2,400 bytes, then a tmpfs filled to the brim."""
    counts = Counts()
    limits(counts, step=20 if long else 300)
    for number in range(15 if long else 1):
        full_disk(counts, spare=64 * number)
    return counts


def limits(counts: Counts, *, step: int) -> None:
    """File-size limits from 100 to 2,400 bytes."""
    for limit in range(100, 2401, step):
        with tempfile.TemporaryDirectory() as folder:
            _limited(counts, Path(folder), limit)


def _limited(counts: Counts, folder: Path, limit: int) -> None:
    """A child with a file-size limit writes ten answers; the parent reads without one."""
    counts.tried += 1
    listen, speak = os.pipe()
    child = os.fork()
    if child == 0:
        _write_limited(folder, speak, limit)
    os.close(speak)
    told = b""
    while piece := os.read(listen, 4096):
        told += piece
    os.close(listen)
    if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0:
        counts.fail("crash", f"limit {limit}")
    saved = [line for line in told.decode().splitlines() if line != "refused"]
    counts.seen["refused by the size limit"] += told.count(b"refused")
    paths = list((folder / "jobs").glob("*.toml"))
    if not paths:
        counts.seen["job not made"] += 1
        return
    with open_session(paths[0]) as job:
        found = [str(entry.value) for entry in job.entries]
        if found != saved or job.set_aside or job.loaded.state != "fine":
            counts.fail("lost", f"limit {limit}: {found} of {saved}, {job.loaded.message}")


def _write_limited(folder: Path, speak: int, limit: int) -> None:
    status = 1
    try:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
        try:
            with create(folder, job="A-1042", made_by="ringwright") as job:
                for number in range(10):
                    try:
                        job.append(kind="answer", key="case_bore", value=f"{number}", at=AT)
                        os.write(speak, f"{number}\n".encode())
                    except NotSaved as refused:
                        os.write(speak, b"refused\n" if refused.certain and job.writable else b"wrong\n")
        except NotSaved:
            pass
        status = 0
    finally:
        os._exit(status)


def can_mount() -> str:
    """Why no tmpfs can be mounted here; empty if one can."""
    with tempfile.TemporaryDirectory() as folder:
        done = _mount(Path(folder))
        if done.returncode == 0:
            _unmount(Path(folder))
            return ""
        return done.stderr.decode(errors="replace").strip() or "mount refused"


def _mount(folder: Path) -> subprocess.CompletedProcess[bytes]:
    words = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    try:
        return subprocess.run(words, capture_output=True, check=False)
    except OSError as error:
        return subprocess.CompletedProcess(words, 1, b"", str(error).encode())


def _unmount(folder: Path) -> None:
    subprocess.run(["umount", str(folder)], check=True, capture_output=True)


def full_disk(counts: Counts, spare: int) -> None:
    """Fill a 64 KiB disk but for `spare` bytes of the last page, answer, make room, answer again."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        if _mount(folder).returncode != 0:
            counts.seen["no right to mount, full disk not tried"] += 1
            return
        try:
            counts.tried += 1
            _fill_and_write(counts, folder, spare)
        finally:
            _unmount(folder)


def _fill_and_write(counts: Counts, folder: Path, spare: int) -> None:
    with create(folder, job="x" * spare, made_by="ringwright") as job:
        ballast = folder / "ballast"
        with ballast.open("wb", buffering=0) as file:
            try:
                while True:
                    file.write(b"x" * 4096)
            except OSError:
                counts.seen["disk filled"] += 1
        saved, refused = 0, 0
        while refused < 3:
            before = job.path.read_bytes()
            try:
                job.append(kind="answer", key="case_bore", value=str(saved), at=AT)
                saved += 1
            except NotSaved as told:
                refused += 1
                if not told.certain or "full" not in told.why or job.path.read_bytes() != before:
                    counts.fail("words", told.why)
        counts.seen["refused by the full disk"] += refused
        ballast.unlink()
        for _ in range(3):
            job.append(kind="answer", key="case_bore", value=str(saved), at=AT)
            saved += 1
    with open_session(job.path) as again:
        if [str(entry.value) for entry in again.entries] != [str(number) for number in range(saved)]:
            counts.fail("lost", f"{len(again.entries)} of {saved}")


if __name__ == "__main__":
    main(run)

"""Four processes that all want to write one job, and one that is killed with the job open.

Never two at a time; a refused one is told where the first is; everything answered as saved is in the file, in
order. Long form: `python -m tests.campaigns.writers --long`.
"""

from __future__ import annotations

import os
import signal
import tempfile
from pathlib import Path

from bench.file.new_job import create
from bench.file.store import open_session
from tests.campaigns.common import AT, Counts, main

WRITERS = 4


def run(*, long: bool = False) -> Counts:
    """Twenty-five rounds of four writers; short: two."""
    counts = Counts()
    for number in range(25 if long else 2):
        with tempfile.TemporaryDirectory() as folder:
            _round(counts, Path(folder), turns=12 if long else 6, where=f"round {number}")
    return counts


def _round(counts: Counts, folder: Path, turns: int, where: str) -> None:
    counts.tried += 1
    with create(folder, job="A-1042", made_by="ringwright") as job:
        path = job.path
    listen, speak = os.pipe()
    children = []
    for writer in range(WRITERS):
        child = os.fork()
        if child == 0:
            _writer(folder, path, speak, writer, turns)
        children.append(child)
    os.close(speak)
    told = b""
    while piece := os.read(listen, 4096):
        told += piece
    os.close(listen)
    for child in children:
        if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0:
            counts.fail("together", f"{where}: two writers at a time, or one fell")
    lines = told.decode().splitlines()
    saved = sorted((int(line.split()[1]), line.split()[2]) for line in lines if line.startswith("saved"))
    refused = [line for line in lines if line.startswith("refused")]
    counts.seen["turns refused"] += len(refused)
    counts.seen["entries saved"] += len(saved)
    if any("process" not in line for line in refused):
        counts.seen["refused without a place (the note was just being written)"] += 1
    with open_session(path) as job:
        found = [(entry.n, str(entry.value)) for entry in job.entries]
    if found != saved:
        counts.fail(
            "lost" if len(found) < len(saved) else "invented", f"{where}: {len(found)} of {len(saved)}"
        )


def _writer(folder: Path, path: Path, speak: int, writer: int, turns: int) -> None:
    """The child: take turns until `turns` of them could write."""
    status = 1
    inside = folder / "inside"
    try:
        done = 0
        while done < turns:
            with open_session(path) as job:
                if not job.writable:
                    os.write(speak, f"refused {job.why_read_only}\n".encode())
                    continue
                os.close(os.open(inside, os.O_CREAT | os.O_EXCL))
                for step in range(3):
                    entry = job.append(kind="answer", key="case_bore", value=f"{writer}-{done}-{step}", at=AT)
                    os.write(speak, f"saved {entry.n} {entry.value}\n".encode())
                inside.unlink()
            done += 1
        status = 0
    finally:
        os._exit(status)


def killed_holder(folder: Path) -> tuple[str, bool]:
    """What a second window is told while a child has the job open,
    and whether it can write after a kill -9.
    """
    with create(folder, job="A-1042", made_by="ringwright") as job:
        path = job.path
    listen, speak = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            open_session(path)
            os.write(speak, b"open")
            signal.pause()
        finally:
            os._exit(1)
    os.read(listen, 4)
    with open_session(path) as second:
        why = second.why_read_only
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(listen)
    os.close(speak)
    with open_session(path) as third:
        return why, third.writable


if __name__ == "__main__":
    main(run)

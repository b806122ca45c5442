"""Real permissions: files and folders that the person at the bench may not write or read.

The system manager may write everything, so under that account the tests run in a child with an ordinary one.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from bench.file.new_job import create
from bench.file.plain import CannotOpen, NotSaved
from bench.file.store import open_session
from tests.bench.file.texts import AT, block, job

NOBODY = 65534


@pytest.fixture
def folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as name:
        jobs = Path(name) / "jobs"
        jobs.mkdir()
        for path in (Path(name), jobs):
            path.chmod(0o777)
        yield Path(name)
        jobs.chmod(0o777)


def _as_ordinary(action: Callable[[], str]) -> str:
    """What the action says, done without special rights."""
    if os.geteuid() != 0:
        return action()
    listen, speak = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.setgid(NOBODY)
            os.setuid(NOBODY)
            os.write(speak, action().encode())
        finally:
            os._exit(0)
    os.close(speak)
    said = b""
    while piece := os.read(listen, 4096):
        said += piece
    os.close(listen)
    os.waitpid(child, 0)
    return said.decode()


def _open(path: Path) -> str:
    try:
        with open_session(path) as session:
            return f"{session.why_read_only} / {len(session.entries)} entries"
    except CannotOpen as refused:
        return f"refused: {refused.why}"


def _put(folder: Path, data: bytes, mode: int) -> Path:
    path = folder / "jobs" / "00001.toml"
    path.write_bytes(data)
    path.chmod(mode)
    return path


def test_a_file_that_may_only_be_read_opens_to_read_only(folder: Path) -> None:
    path = _put(folder, job(), 0o444)
    said = _as_ordinary(lambda: _open(path))
    assert "read only: your account has no permission there" in said and "5 entries" in said
    assert path.read_bytes() == job()


def test_a_file_of_someone_else_is_refused_in_words(folder: Path) -> None:
    path = _put(folder, job(), 0o000)
    assert _as_ordinary(lambda: _open(path)).startswith(
        "refused: 00001.toml cannot be opened: your account has no permission"
    )


def test_a_torn_tail_in_a_folder_that_may_only_be_read_is_left_as_it_is(folder: Path) -> None:
    data = job() + block("n = 6\n")
    path = _put(folder, data, 0o666)
    (folder / "jobs").chmod(0o555)
    said = _as_ordinary(lambda: _open(path))
    assert "could not be made safe (your account has no permission there)" in said and "5 entries" in said
    assert path.read_bytes() == data


def test_no_job_can_be_begun_in_a_folder_that_may_only_be_read(folder: Path) -> None:
    (folder / "jobs").chmod(0o555)

    def begin() -> str:
        try:
            create(folder, job="A", made_by="x").close()
        except NotSaved as refused:
            return refused.why
        return "begun"

    assert "no permission" in _as_ordinary(begin)


def test_a_job_in_a_folder_that_may_only_be_read_can_still_be_written(folder: Path) -> None:
    path = _put(folder, job(), 0o666)
    (folder / "jobs").chmod(0o555)

    def write() -> str:
        with open_session(path) as session:
            return str(session.append(kind="note", value="x", at=AT).n)

    assert _as_ordinary(write) == "6"

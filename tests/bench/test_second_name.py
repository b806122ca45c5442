"""A session file that has a second name is said where the job is opened, on the screen and in plain lines."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.desk.effects import Open
from bench.desk.update import update
from screens.look import Look
from screens.view import view
from tests.whole.hands import bench_in, lines
from tests.whole.scripts import STRAIGHT, answers

WORDS = "This file has a second name"


def begun(folder: Path) -> Path:
    """A job with a few answers."""
    lines(folder, answers(STRAIGHT)[:9])
    return next((folder / "jobs").glob("*.toml"))


def opened(folder: Path, path: Path) -> str:
    """The first page of a job that is opened, as one line."""
    bench, desk = bench_in(folder), Desk()
    for arrival in bench.carry_out([Open(path.name)]):
        desk, _ = update(desk, arrival)
    bench.close()
    return " ".join("".join(text for text, _ in spans).strip() for spans in view(desk, Look("ascii")))


@pytest.mark.parametrize("linked", [True, False])
def test_a_second_name_is_said(tmp_path: Path, linked: bool) -> None:
    path = begun(tmp_path)
    if linked:
        os.link(path, tmp_path / "second")
    assert (WORDS in opened(tmp_path, path)) == linked
    assert (WORDS in lines(tmp_path, [], file=str(path))[1]) == linked


def test_it_is_not_said_of_a_file_nothing_can_be_written_to(tmp_path: Path) -> None:
    path = begun(tmp_path)
    os.link(path, tmp_path / "second")
    elsewhere = bench_in(tmp_path)
    elsewhere.carry_out([Open(path.name)])
    assert WORDS not in opened(tmp_path, path)
    elsewhere.close()

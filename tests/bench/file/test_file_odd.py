"""Every odd file is explained, none crashes or hangs, none is written to unless it is understood."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from bench.clean import clean
from bench.file.check import explained
from bench.file.load import load
from bench.file.plain import CannotOpen
from bench.file.store import open_session
from tests.bench.file.odd_files import ODD_FILES

STATES = {"fine", "unfinished", "changed", "damaged", "gap", "newer", "foreign"}
"""Every state but by_hand: a value changed by hand that says so is nothing odd."""


def test_there_are_enough_of_them_and_every_state_occurs() -> None:
    assert len(ODD_FILES) >= 70
    assert {state for _, state in ODD_FILES.values()} == STATES


@pytest.mark.parametrize("name", ODD_FILES)
def test_an_odd_file_is_explained_and_left_alone(tmp_path: Path, name: str) -> None:
    data, state = ODD_FILES[name]
    began = time.perf_counter()
    loaded = load(data)
    assert time.perf_counter() - began < 5.0
    assert loaded.state == state, loaded.message
    for words in (loaded.message, *(finding.words for finding in loaded.findings)):
        assert words and clean(words) == words
        assert "Error" not in words and "\n" not in words and len(words) < 1000
    told = explained(loaded)
    assert all(line >= 1 for line in told.lines)
    assert (told.used == 0) or not loaded.gated
    assert bool(told.lines) == (state not in ("fine", "unfinished"))

    path = tmp_path / "00001.toml"
    path.write_bytes(data)
    try:
        session = open_session(path)
    except CannotOpen:
        assert name == "too large"
    else:
        with session:
            assert session.writable == (not loaded.read_only)
            kept = session.set_aside
        assert path.read_bytes() + kept == data

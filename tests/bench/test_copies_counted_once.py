"""What a shop learns and what its year counts: of copies of one job nothing is counted twice."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from bench.file.codec import render_entry
from bench.file.load import load
from bench.folder import shop_in
from bench.job.job import replay
from bench.joining.writing import pair_of
from bench.past.shelf import rings_in
from bench.refusal import Refused
from bench.side_by_side import asks
from bench.which_job import find_job
from bench.year.look import facts_in
from tests.whole.copies import joined, noted
from tests.whole.past_jobs import SAMPLES
from tests.whole.stated import stated


def counted(folder: Path) -> tuple[int, int, int]:
    """Rings that teach, jobs of the year, and files that are to be looked at first."""
    facts, unused = facts_in(folder, shop_in(folder))
    return len(rings_in(folder)), len(facts), unused


def test_copies_count_once_and_those_apart_when_they_are_joined(tmp_path: Path) -> None:
    folder, jobs = stated(tmp_path), tmp_path / "jobs"
    jobs.mkdir()
    one = Path(shutil.copy(SAMPLES / "00214-harbour-clerk.toml", jobs))
    earlier = Path(shutil.copy(one, jobs / "00214-harbour-clerk (old).toml"))
    assert counted(folder) == (2, 1, 0)  # the same to the byte
    noted(one, "the strap is worn")
    assert counted(folder) == (2, 1, 0) and find_job(folder, "214") == one  # the other is an earlier state
    other = noted(earlier, "the owner came by", into=jobs / "00214-harbour-clerk (bench).toml")
    assert counted(folder) == (0, 0, 2)
    with pytest.raises(Refused, match=r"went on apart: .*ringwright join 214"):
        find_job(folder, "214")
    made = joined(folder, one, other)
    assert counted(folder) == (2, 1, 0) and find_job(folder, "214") == made


def test_a_test_that_came_out_otherwise_is_said_and_its_fail_stays(tmp_path: Path) -> None:
    folder, jobs = stated(tmp_path), tmp_path / "jobs"
    jobs.mkdir()
    passed = Path(shutil.copy(SAMPLES / "00214-harbour-clerk.toml", jobs))
    at = load(passed.read_bytes()).usable[82]
    assert at.key == "empty_result"
    began, _, _ = passed.read_bytes().partition(b"\n[[entry]]\nn = 83")
    failed = jobs / "00214-harbour-clerk (bench).toml"
    fail = replace(at, value=("fail", *at.value[2:]) if isinstance(at.value, tuple) else "fail")
    failed.write_bytes(began + b"\n" + render_entry(fail, salt="4561db47"))
    assert "Test of the empty case: FAILED | passed" in asks(pair_of(failed, passed, shop_in(folder))).said
    made = load(joined(folder, failed, passed).read_bytes())
    assert made.head is not None
    result = replay(made.head, made.usable).newest("empty_result")
    assert result is not None and result.word == "fail"

"""What a shop learns and what its year counts: of copies of one job nothing is counted twice."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from bench.folder import shop_in
from bench.past.shelf import rings_in
from bench.refusal import Refused
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

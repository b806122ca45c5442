"""The steps of the tests as data beside what is kept of them."""

from __future__ import annotations

import pytest

from tests.whole.make_steps import FILE, every_step, jobs, steps_of

KEPT = FILE.read_text(encoding="utf-8").splitlines()
JOBS = dict(jobs())


@pytest.mark.parametrize("name", JOBS)
def test_steps_are_as_they_were_kept(name: str) -> None:
    """`python -m tests.whole.make_steps` keeps them anew, once the difference was looked at."""
    assert sorted(steps_of(JOBS[name]) - set(KEPT)) == []


@pytest.mark.parametrize("name", list(JOBS)[::3])
def test_every_step_of_a_job_says_why_it_is_asked(name: str) -> None:
    assert [step.key for step in every_step(JOBS[name]) if not step.why and step.kind != "mark"] == []


def test_no_kept_step_has_gone() -> None:
    assert sorted(set().union(*map(steps_of, JOBS.values()))) == KEPT


def test_each_reading_of_a_hold_opens_at_its_time_and_rests_on_the_first() -> None:
    """Twelve further readings spread evenly over the hold."""
    lines = [line for line in KEPT if "_signal_" in line and "opens after" in line]
    assert len(lines) >= 12
    for line in lines:
        key, _, rest = line.partition(": ")
        sitting, _, count = key.partition("_signal_")
        assert f"{sitting}_signal_0" in rest and f"{sitting}_hold" in rest
        seconds = float(rest.partition("opens after ")[2].partition(" s")[0])
        whole = seconds / int(count) * 12
        assert whole / 60 == round(whole / 60) and whole >= 600

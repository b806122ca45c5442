"""The one rule of staleness: an answer counts only while it is newer than what it rests on.

A further ring, a replaced answer and a new sitting, each in a whole job through plain lines.
"""

from __future__ import annotations

from pathlib import Path

from bench.desk.desk import Desk
from bench.file.entry import Entry, Head
from bench.job.job import Job, replay
from bench.job.values import named, number
from bench.stages.guard import LATHE_CHECKS
from tests.whole.hands import lines
from tests.whole.script import Back, Hand, Recorder, Typist
from tests.whole.scripts import straight

AT = "2026-03-02T09:00:00+00:00"
HEAD = Head(format=1, id="00000001", job="7", made_by="test")


def job_of(*entries: tuple[str, str, str] | tuple[str, str, str, int]) -> Job:
    """A job from (kind, key, value[, of]) in order."""
    made = [
        Entry(n=n, at=AT, kind=one[0], key=one[1], value=one[2], of=one[3] if len(one) > 3 else None)
        for n, one in enumerate(entries, 1)
    ]
    return replay(HEAD, made)


def upto(key: str, folder: Path, *more: str) -> Desk:
    """The straight job as far as the step `key` is asked, and some answers more."""
    return lines(folder, [straight(until=key), *more])[0]


def asked(desk: Desk) -> str:
    """The key of the open step."""
    assert desk.walk is not None and desk.walk.open is not None
    return desk.walk.open.key


def test_an_answer_counts_while_it_is_newer() -> None:
    job = job_of(("answer", "ring", "a"), ("answer", "wall_1", "0.6 mm"))
    assert job.fresh("wall_1", ("ring",)) is not None
    later = job_of(("answer", "wall_1", "0.6 mm"), ("answer", "ring", "a"))
    assert later.fresh("wall_1", ("ring",)) is None
    assert later.newest("wall_1") is not None  # kept, shown as the old value


def test_an_undone_undo_brings_the_answer_back() -> None:
    job = job_of(("answer", "hold", "front"), ("undo", "hold", "front", 1), ("undo", "hold", "", 2))
    assert [answer.word for answer in job.answers] == ["front"]


def test_a_further_ring_asks_everything_of_the_ring_again(tmp_path: Path) -> None:
    """Went in too easily: ring 2 is tighter, its checks and readings are asked anew, under the same keys."""
    first = upto("fit_outcome", tmp_path)
    second = upto("fit_outcome", tmp_path / "again", "2", "1")
    assert first.job is not None and second.job is not None
    assert second.job.attempt == 2
    assert asked(second) == "ring"
    again = upto("fit_outcome", tmp_path / "on", "2", "1", "1")
    assert asked(again) == "bar_measured"
    assert again.job is not None
    rings = [answer for answer in again.job.answers if answer.key == "ring"]
    outside, bore = (named(rings[-1].words, name) for name in ("outside", "bore"))
    tried = [number(answer.word) for answer in again.job.answers if answer.key.startswith("wall_")]
    assert len(rings) == 2 and outside is not None and bore is not None
    assert (outside - bore) / 2 >= max(tried[-4:]) + 0.01
    assert not any(character.isdigit() for key in ("ring", "lathe_hands", "fit_outcome") for character in key)


def test_a_replaced_reading_makes_the_ring_stale(tmp_path: Path) -> None:
    """Back to the second reading of the seat, keyed again:
    the ring is asked again, the old values stay in the file.
    """
    replaced: list[Typist | str] = [straight(until="rough_outside"), Back("case_bore_2"), "3645", "1"]
    desk, _ = lines(tmp_path / "back", replaced)
    assert asked(desk) == "ring"
    assert desk.walk is not None and desk.walk.stale is not None
    assert desk.walk.stale.word == "accept"
    assert desk.job is not None
    seats = [answer.word for answer in desk.job.answers if answer.key == "case_bore_2"]
    assert seats == ["36.44 mm", "36.45 mm"]


def test_a_new_sitting_asks_the_lathe_again(tmp_path: Path) -> None:
    """Left while finishing the outside and opened again:
    checks, a fresh touch-off, then the step where it stood.
    """
    folder = tmp_path / "job"
    lines(folder, [straight(until="outside_reading")])
    file = str(next((folder / "jobs").glob("*.toml")))
    desk, said = lines(folder, [], file=file)
    assert "Checks at lathe and tester are asked again" in said
    assert asked(desk) == "lathe_hands"
    checks = Recorder(Hand(until="touch_off"))
    lines(folder, [checks], file=file)
    assert len(checks.lines) == len(LATHE_CHECKS) + 1  # and the tool
    desk, _ = lines(folder, [Hand(until="touch_off"), "1"], file=file)
    assert asked(desk) == "outside_reading"


def test_a_finished_job_asks_nothing_in_a_new_sitting(tmp_path: Path) -> None:
    lines(tmp_path, [straight()])
    file = str(next((tmp_path / "jobs").glob("*.toml")))
    before = Path(file).read_bytes()
    desk, said = lines(tmp_path, [], file=file)
    assert desk.walk is not None and desk.walk.open is None
    assert "The job is finished." in said
    assert Path(file).read_bytes() == before

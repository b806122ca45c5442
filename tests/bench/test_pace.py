"""How long turning takes here: from the finished rings of the shop's own jobs, else as assumed."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bench.file.entry import Entry
from bench.sheet.pace import RINGS, pace_in
from bench.workbench import Workbench
from ringwright import main
from rules.turning.duration import ASSUMED
from tests.bench.file.texts import file_of
from tests.whole.places import at
from tests.whole.seen import read

MORNING = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
RING_AND_ACTS = ("ring", "lathe_hands", "rough_outside", "rest", "part", "dress")


def turned(folder: Path, number: int, minutes: float, *, planned: float = 50.0, parked: float = 0.0) -> None:
    """A job of one ring, its acts so many minutes apart; parked before the last."""
    (folder / "jobs").mkdir(parents=True, exist_ok=True)
    entries = []
    for n, key in enumerate(RING_AND_ACTS, 1):
        passed = minutes * (n - 1) / (len(RING_AND_ACTS) - 1) + (parked if key == "dress" else 0.0)
        value = ("done", f"planned {planned:.1f} min") if key == "dress" else "done"
        at_ = (MORNING + timedelta(minutes=passed)).isoformat(timespec="seconds")
        entries.append(Entry(n=n, at=at_, kind="answer", key=key, value=value))
    (folder / "jobs" / f"{number:05}-a.toml").write_bytes(file_of(*entries))


def test_without_finished_rings_it_is_assumed(tmp_path: Path) -> None:
    assert pace_in(tmp_path) == ASSUMED
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "00001-a.toml").write_bytes(b"rubbish planned 50 min \xff")
    assert pace_in(tmp_path) == ASSUMED


def test_the_newest_rings_count_with_what_is_assumed_beside_them(tmp_path: Path) -> None:
    for number in range(1, RINGS + 4):
        turned(tmp_path, number, 25.0 if number <= 3 else 100.0)
    pace = pace_in(tmp_path)
    assert pace.rings == RINGS, "the three oldest are not looked at"
    assert pace.factor == pytest.approx(2.0 ** (RINGS / (RINGS + 2.0)), rel=1e-3)


def test_parked_time_is_no_time_at_the_lathe(tmp_path: Path) -> None:
    """Five gaps of ten minutes; before the last the job lay for two hours: forty minutes are left."""
    turned(tmp_path, 1, 50.0, parked=120.0)
    assert pace_in(tmp_path).factor == pytest.approx((40.0 / 50.0) ** (1.0 / 3.0), rel=1e-3)


def test_a_finished_ring_keeps_what_was_planned_and_the_page_says_which_it_is(tmp_path: Path) -> None:
    repairer = at("dress")
    repairer.answer()
    dressed = next(one for one in repairer.bench.entries if one.key == "dress")
    assert isinstance(dressed.value, tuple)
    assert re.fullmatch(r"planned \d+\.\d min", str(dressed.value[-1]))
    assert re.search(r"At the lathe about \d+ min, assumed: \d+ passes", read(at("lathe_bar").desk))
    for number in (1, 2):
        turned(tmp_path, number, 100.0)
    bench = Workbench(tmp_path)
    opened = bench._open(tmp_path / "jobs" / "00001-a.toml")
    bench.close()
    assert opened.shop.pace.rings == 2


def test_the_printed_plan_says_it_too(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from tests.whole.hands import lines
    from tests.whole.scripts import STRAIGHT, answers

    lines(tmp_path, answers(STRAIGHT))
    capsys.readouterr()
    assert main(["plan", "1", "--folder", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "At the lathe about" in said and "to save time: a face-grooving tool relieved for" in said
    assert "drill would save" not in said, "its tailstock takes none so large"

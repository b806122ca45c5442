"""A plastic that stands in a table alone: a job runs through with it, and every later word names it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.shop.shop import Shop, built_in
from rules import tables
from rules.bars import Bar
from screens.pictures import drawn
from tests.whole.repairer import fresh
from tests.whole.seen import read

TABLE = """
[hornlike]
name = "hornlike (HRN)"
advice = "Invented for this test: clear as horn, and as tough."
youngs_modulus_mpa = { value = 2400, unit = "MPa", source = "memory", basis = "memory" }
stress_cap_mpa = { value = 90, unit = "MPa", source = "memory", basis = "memory" }
poisson_ratio = { value = 0.38, unit = "1", source = "memory", basis = "memory" }
cte_per_k = { value = 95e-6, unit = "1/K", source = "memory", basis = "memory" }
water_growth = { value = 0.004, unit = "1", source = "memory", basis = "memory" }
relaxation_1h = { value = 0.9, unit = "1", source = "memory", basis = "memory" }
relaxation_1000h = { value = 0.5, unit = "1", source = "memory", basis = "memory" }
relaxation_10y = { value = 0.3, unit = "1", source = "memory", basis = "memory" }
friction = { value = 0.2, unit = "1", source = "memory", basis = "memory" }
"""


def forgotten() -> None:
    """Tables read before are read again."""
    for name in ("_plastics", "_metals", "_glasses"):
        getattr(tables, name).cache_clear()


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Shop]:
    """A shop with a bar of a plastic of which one more table in a copy of the data tells."""
    copied = tmp_path / "data"
    shutil.copytree(str(tables.DATA), copied)
    with (copied / "plastics.toml").open("a", encoding="utf-8") as file:
        file.write(TABLE)
    monkeypatch.setattr(tables, "DATA", copied)
    forgotten()
    usual = built_in()
    bar = Bar(plastic="hornlike", diameter_mm=42.0, length_mm=180.0, colour="amber")
    yield replace(usual, bars=(*usual.bars, bar))
    forgotten()


def test_a_job_runs_through_with_it(shop: Shop) -> None:
    repairer = fresh(shop=shop).on_to("ring")
    repairer.pick("usual")
    repairer.pick_key("plastic")
    repairer.key("next")
    assert "hornlike (HRN): Invented for this test" in read(replace(repairer.desk, rows=200, columns=140))
    repairer.give("hornlike")
    repairer.on_to("lathe_bar")
    assert any(text.startswith("bar: ") and " 42.00 mm" in text for text in repairer.step.say)
    repairer.on_to("drill")
    assert repairer.step.picture is not None
    assert drawn(repairer.step.picture, columns=40, rows=8, style="ascii")
    repairer.on_to("")
    job = repairer.desk.job
    assert job is not None
    data = sheet_data(job, finished=True)
    assert data["ring"]["plastic"] == "hornlike" and data["turned"]["colour"] == "amber"
    assert data["made"]["decision"] in ("fits", "undecided") and data["retest"]
    assert "hornlike, amber" in " ".join(sheet_lines(data))


def test_without_its_bar_it_is_said_and_not_turned(shop: Shop) -> None:
    repairer = fresh(shop=replace(shop, bars=built_in().bars)).on_to("ring")
    repairer.pick("usual")
    repairer.pick_key("plastic")
    repairer.give("hornlike")
    repairer.on_to("cannot_turn")
    assert "hornlike" in " ".join(repairer.step.say)

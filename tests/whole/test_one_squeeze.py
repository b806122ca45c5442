"""The ring as cut, judged by what was decided with it: one squeeze, and no fit where no bore works."""

from __future__ import annotations

import re

import pytest

from bench.job.values import named
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from tests.bench.test_size_command import _run
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

TIGHT = {"case_bore_1": "36.42", "case_bore_2": "36.42", "glass_1": "36.08", "glass_2": "36.08"}
"""A gap of 0.17: the thinnest wall that can be turned is too thick for it."""
WALLS = tuple(f"wall_{place}" for place in range(1, 5))


def sheet(repairer: Repairer) -> tuple[dict[str, object], str]:
    """Data and text of the sheet at the end of the job."""
    repairer.on_to("")
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=True)
    return data, "\n".join(sheet_lines(data, columns=200))


def test_a_warm_bench_judges_by_the_gap_that_decided() -> None:
    """At 35 C aluminium has opened by 5 um on the radius: the wall as planned keeps the page's squeeze."""
    warm = at("ring")
    warm.pick("usual")
    warm.pick_key("temperature")
    warm.give("35")
    warm.on_to("ring")
    warm.give("metal")
    warm.give("aluminium")
    warm.on_to("ring", {"case_wall": "3.0", "case_height": "3.0"})
    page = re.search(r"squeeze ([\d.]+) % of the wall", "\n".join(warm.step.say))
    words = warm.step.choices[0].with_it
    wall = re.search(r"wall ([\d.]+)", warm.step.say[2])
    assert page and wall and (named(words, "to_20") or 0.0) < -0.003
    warm.on_to("ring_height", dict.fromkeys(WALLS, wall[1]))
    judged = re.search(r"Squeeze ([\d.]+) %", "\n".join(warm.step.consequence))
    assert judged and float(judged[1]) == pytest.approx(float(page[1]), abs=0.11)


def test_no_ring_fits_where_no_bore_works() -> None:
    repairer = fresh().on_to("ring", TIGHT)
    assert any("no bore meets every requirement" in line for line in repairer.step.consequence)
    wall = re.search(r"wall ([\d.]+)", repairer.step.say[2])
    assert wall
    repairer.on_to("ring_height", dict.fromkeys(WALLS, wall[1]))
    assert "It fits" not in "\n".join(repairer.step.consequence)


def test_a_ring_in_its_band_is_undecided_where_no_bore_works() -> None:
    """A closed window, and a wall well inside the band of squeezes: a thin bezel under a weak spring."""
    repairer = at("ring")
    repairer.give("metal")
    repairer.give("silver")
    repairer.on_to("ring", {"case_wall": "0.5", "case_height": "1.0"})
    assert any("no bore meets every requirement" in line for line in repairer.step.consequence)
    shut = next(text for text in repairer.step.choices[0].with_it if text.startswith("shut "))
    wall = re.search(r"wall ([\d.]+)", repairer.step.say[2])
    assert wall
    repairer.on_to("ring_height", dict.fromkeys(WALLS, wall[1]))
    verdict = "\n".join(repairer.step.consequence)
    assert "It fits" not in verdict
    data, text = sheet(repairer)
    made = data["made"]
    assert isinstance(made, dict) and made["decision"] == "undecided"
    assert made["shut"] == shut.removeprefix("shut ")
    assert "undecided (no bore met every requirement: " in text


def test_a_ceramic_bezel_may_crack_whatever_else_is_not_known(capsys: pytest.CaptureFixture[str]) -> None:
    _run("size --case-bore 33.2 --glass 32.14 --case-metal ceramic --case-wall 2 --case-height 3")
    said = capsys.readouterr().out
    assert "Force, ten years: not known (needs height of the ring)" in said
    assert "Bezel: does not stretch: it may crack" in said

"""A bezel that stays stretched, as `fit` answers: the stretched figures first, the elastic ones under why."""

from __future__ import annotations

import json

import pytest

from bench.command import DONE
from tests.bench.test_size_command import _run

BEZEL = (
    "--case-bore 33.00 --glass 31.96 --outside 33.00 --bore 31.86 --height 1.1 --case-metal 316L "
    "--case-wall 1 --case-height 2.5 --glass-material sapphire --glass-thickness 1.5"
)
ELASTIC = ("0.076", "33 ", "58 ")
"""Growth on the diameter, pressure after ten years and fresh, as if the metal did not yield."""


def _lines(words: str, capsys: pytest.CaptureFixture[str]) -> str:
    assert _run(words) == DONE
    return capsys.readouterr().out


def test_where_it_yields_the_stretched_figures_are_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    said = _lines(f"fit {BEZEL} --case-yield 205", capsys)
    assert "Bezel: will stay stretched; opens about 0.089 mm" in said
    assert "0.053 mm of it for good" in said
    assert "after ten years: about 18 MPa left of 28 MPa" in said
    assert "At -10 C 28 MPa" in said
    for figure in ELASTIC:
        assert figure not in said.partition("Contact pressure")[2].partition("\n")[0]
        assert figure not in said.partition("Bezel:")[2].partition("\n")[0]


def test_the_elastic_figures_stand_under_why_by_their_name(capsys: pytest.CaptureFixture[str]) -> None:
    opened = _lines(f"fit {BEZEL} --case-yield 205 --why fit.contact_pressure_10y_mpa", capsys)
    assert "contact pressure after ten years, as if the bezel did not yield = 33.1" in opened
    opened = _lines(f"fit {BEZEL} --case-yield 205 --why fit.yielded", capsys)
    assert "value: contact pressure after ten years 18.2" in opened
    assert "value: stays wider for good, on the radius 26." in opened
    assert "as if the bezel" not in _lines(f"fit {BEZEL} --case-yield 900 --why", capsys)


def test_where_it_may_yield_both_are_said(capsys: pytest.CaptureFixture[str]) -> None:
    said = _lines(f"fit {BEZEL}", capsys)
    assert "may stay stretched; opens about 0.076 mm on the diameter while pressed" in said
    assert "if it stays stretched (yield 205 MPa) 0.089 mm, 0.053 mm of it for good" in said
    assert "about 33 or 18 MPa left of 58 or 28 MPa" in said


def test_keys_keep_their_meaning(capsys: pytest.CaptureFixture[str]) -> None:
    told = json.loads(_lines(f"fit {BEZEL} --case-yield 205 --json", capsys))["fit"]
    assert told["contact_pressure_10y_mpa"] == pytest.approx(33.18, abs=0.005)
    assert told["case_growth_um"] == pytest.approx(37.90, abs=0.005)
    stretched = told["yielded"]
    assert stretched["contact_pressure_10y_mpa"] == pytest.approx(18.27, abs=0.005)
    assert stretched["case_growth_um"] == pytest.approx(44.73, abs=0.005)
    assert stretched["set_um"] == pytest.approx(26.37, abs=0.05)
    assert stretched["contact_pressure_cold_mpa"] <= stretched["contact_pressure_mpa"] + 1e-6
    assert stretched["contact_pressure_warm_mpa"] < told["contact_pressure_warm_mpa"]
    assert 0.0 < stretched["axial_growth_mm"] < told["axial_growth_mm"]


def test_force_and_height_are_those_of_the_stretched_bezel(capsys: pytest.CaptureFixture[str]) -> None:
    """A press of 700 N: 624 N are needed once it yields, 1287 N if it did not."""
    said = _lines(f"fit {BEZEL} --case-yield 205 --press-force 700", capsys)
    assert "more than the press gives" not in said
    said = _lines(f"fit {BEZEL} --case-yield 205 --press-force 600", capsys)
    assert "needs about 624 N, more than the press gives (600 N)" in said


def test_cold_and_warmth_say_whose_stiffness(capsys: pytest.CaptureFixture[str]) -> None:
    said = _lines(f"fit {BEZEL} --case-yield 900", capsys)
    assert "At -10 C 64 MPa, at +60 C 47 MPa (with the plastic's stiffness there, from memory)" in said
    said = _lines(f"fit {BEZEL} --case-yield 900 --material peek", capsys)
    assert "At -10 C not known, at +60 C not known (how stiff PEEK is there is not known)" in said
    assert "(ten years, cold and warmth not judged)" in said
    glass = BEZEL.replace("--glass-material sapphire", "")
    assert "not known, at +60 C not known (an expansion is not known)" in _lines(f"fit {glass}", capsys)

"""`size` and `fit` as they are scripted: every key there, every refusal one line."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from bench.command import BAD_INPUT, DONE, Parser, Refused, parse, report
from bench.commands import size as commands
from ringwright import main

KNOWN = "--case-metal 316L --case-wall 3.5 --case-height 4 --glass-material sapphire --glass-thickness 1.5"
RING = "--case-bore 33.00 --glass 31.96 --outside 33.00 --bore 31.86 --height 1.1"
FIT_KEYS = {
    *[
        "nominal_squeeze_pct",
        "real_squeeze_pct",
        "contact_pressure_mpa",
        "line_load_n_per_mm",
        "case_growth_um",
    ],
    *["case_hoop_stress_mpa", "case_yields", "seating_force_n", "axial_growth_mm", "contact_pressure_1h_mpa"],
    *["contact_pressure_1000h_mpa", "contact_pressure_10y_mpa", "contact_pressure_cold_mpa"],
    *["contact_pressure_warm_mpa", "yielded"],
}
RING_KEYS = {"outside_diameter_mm", "bore_mm", "height_mm", "wall_mm", "chamfer_mm", "lower_chamfer_mm"}
WINDOW_KEYS = {
    *["bore_low_mm", "bore_high_mm", "target_bore_mm", "chance", "binds_low", "binds_high", "feasible"],
    *["tenth_chance", "nine_chance"],
}
THUMB_KEYS = {"tenth_bore_mm", "tenth_squeeze_pct", "nine_bore_mm", "nine_interference_mm"}
GLASS_KEYS = {
    *["stress_supported_mpa", "stress_clamped_mpa", "deflection_supported_um", "design_stress_mpa"],
    "pressure_at_design_bar",
}


def _run(words: str, folder: Path | None = None) -> int:
    parser = Parser(prog="ringwright")
    parser.set_defaults(folder=folder)
    commands.add(parser.add_subparsers(required=True, parser_class=Parser))
    arguments = parse(parser, words.split())
    return report(arguments.run, arguments)


def _json(words: str, capsys: pytest.CaptureFixture[str], folder: Path | None = None) -> dict[str, Any]:
    assert _run(f"{words} --json", folder) == DONE
    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    return told


@pytest.mark.parametrize(
    "words",
    [
        "size --case-bore 33.20 --glass 32.14",
        f"size --case-bore 33.20 --glass 32.14 --seat-depth 1.4 --glass-edge 1.5 --overpressure 3 {KNOWN}",
        f"fit {RING}",
        f"fit {RING} --rigid",
        f"fit {RING} {KNOWN} --press-force 1000 --ovality 0.02",
    ],
)
def test_every_key_is_always_there(words: str, capsys: pytest.CaptureFixture[str]) -> None:
    told = _json(words, capsys)
    assert set(told) >= {"ring", "fit", "window", "glass", "budget", "assumed"}
    assert set(told["ring"]) == RING_KEYS
    assert set(told["fit"]) == FIT_KEYS
    assert set(told["window"]) >= WINDOW_KEYS
    assert set(told["glass"]) == GLASS_KEYS
    assert set(told["thumb"]) == THUMB_KEYS
    assert set(told["fit"]["seating_force_n"]) == {"low", "mid", "high"}
    assert all(set(line) == {"name", "u_um", "share"} for line in told["budget"])
    assert all(isinstance(words, str) for words in told["assumed"])


def test_proposed_ring(capsys: pytest.CaptureFixture[str]) -> None:
    """Gap 0.53: walls from 0.5579 (5 %) to 0.6092 (13 %), the middle 0.5835 gives a bore of 32.033."""
    told = _json("size --case-bore 33,20 --glass 32.14mm", capsys)
    assert told["ring"]["outside_diameter_mm"] == 33.20
    assert told["ring"]["bore_mm"] == told["window"]["target_bore_mm"] == 32.03
    assert told["ring"]["height_mm"] is None
    assert told["fit"]["contact_pressure_mpa"] is None
    assert told["fit"]["nominal_squeeze_pct"] == pytest.approx(100 * 0.055 / 0.585, abs=1e-6)


def test_given_ring_beside_the_check_table(capsys: pytest.CaptureFixture[str]) -> None:
    """The thick case of the check table: 118.61 MPa, 2620 N, 15.45 um, growth h e/(1-e)."""
    fit = _json(f"fit {RING} {KNOWN}", capsys)["fit"]
    assert fit["contact_pressure_mpa"] == pytest.approx(118.61, abs=0.005)
    assert fit["seating_force_n"]["mid"] == pytest.approx(2620, abs=0.5)
    assert fit["case_growth_um"] == pytest.approx(15.45, abs=0.005)
    e = fit["real_squeeze_pct"] / 100
    assert fit["axial_growth_mm"] == pytest.approx(1.1 * e / (1 - e))


def test_rigid_is_an_upper_bound(capsys: pytest.CaptureFixture[str]) -> None:
    told = _json(f"fit {RING} --rigid", capsys)
    assert told["fit"]["contact_pressure_mpa"] == pytest.approx(141.87, abs=0.005)
    assert told["fit"]["case_growth_um"] is None
    assert any("upper bounds" in words for words in told["assumed"])


def test_loose_ring(capsys: pytest.CaptureFixture[str]) -> None:
    fit = _json(
        f"fit --case-bore 33.2 --glass 32.14 --outside 33.2 --bore 32.3 --height 1.1 {KNOWN}", capsys
    )["fit"]
    assert fit["nominal_squeeze_pct"] < 0
    assert fit["real_squeeze_pct"] == fit["contact_pressure_mpa"] == fit["line_load_n_per_mm"] == 0
    assert fit["seating_force_n"] == {"low": 0, "mid": 0, "high": 0}


def test_yielding_figures_stand_apart(capsys: pytest.CaptureFixture[str]) -> None:
    thin = KNOWN.replace("--case-wall 3.5 --case-height 4", "--case-wall 1.0 --case-height 2.5")
    fit = _json(f"fit {RING} {thin}", capsys)["fit"]
    assert fit["case_yields"] is None
    assert fit["contact_pressure_mpa"] == pytest.approx(58.26, abs=0.005)
    assert fit["yielded"]["contact_pressure_mpa"] == pytest.approx(28.24, abs=0.005)
    assert fit["yielded"]["contact_pressure_10y_mpa"] == pytest.approx(18.27, abs=0.005)


def test_inch_is_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    mm = _json("size --case-bore 33.02 --glass 31.75", capsys)
    inch = _json('size --case-bore 1.3in --glass 1.25"', capsys)
    assert inch == mm


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("size --case-bore 4 --glass 3.9", ["--case-bore", "4", "5 to 80 mm"]),
        ("size --case-bore 90 --glass 32", ["--case-bore", "90", "5 to 80 mm"]),
        ("size --case-bore nan --glass 32", ["--case-bore", "nan", "5 to 80 mm"]),
        ("size --case-bore 1.234,5 --glass 32", ["--case-bore", "1.234,5", "mm"]),
        ("size --case-bore -33 --glass 32", ["--case-bore", "-33", "mm"]),
        ("size --case-bore 33 --glass 33", ["--glass", "33", "4 to under 33 mm"]),
        ("size --case-bore 33 --glass 32.9", ["--glass 32.9", "0.20 mm"]),
        ("size --case-bore 33 --glass 32 --friction 0.7", ["--friction", "0.02 to 0.6"]),
        ("size --case-bore 33 --glass 32 --height 0.2", ["--height", "0.3 to 6 mm"]),
        ("size --case-bore 33 --glass 32 --case-wall 21", ["--case-wall", "0.2 to 20 mm"]),
        ("size --case-bore 33 --glass 32 --glass-thickness 7", ["--glass-thickness", "0.3 to 6 mm"]),
        ("size --case-bore 33 --glass 32 --overpressure 3N", ["--overpressure", "bar"]),
        ("size --case-bore 33 --glass 32 --material wood", ["--material", "wood", "acetal", "pvc"]),
        ("size --case-bore 33 --glass 32 --case-metal tin", ["--case-metal", "tin", "316L", "ceramic"]),
        ("size --case-bore 33 --glass 32 --glass-material ice", ["--glass-material", "ice", "sapphire"]),
        ("fit --case-bore 33 --glass 32 --outside 33 --bore 32.8 --height 1", ["--bore 32.8", "0.20 mm"]),
        ("size --case-bore 33 --glass 32 --why fit.luck", ["fit.luck", "known are outside; bore;"]),
    ],
)
def test_refused_in_one_line(words: str, says: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert _run(words) == BAD_INPUT
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1
    for part in says:
        assert part in told.err


def test_missing_option_is_refused() -> None:
    with pytest.raises(Refused, match="--glass"):
        _run("size --case-bore 33")
    with pytest.raises(Refused, match="--height"):
        _run("fit --case-bore 33 --glass 32 --outside 33 --bore 31.9")


def test_words_for_people(capsys: pytest.CaptureFixture[str]) -> None:
    """Trade words first; newtons only where a figure is opened."""
    assert _run(f"size --case-bore 33.20 --glass 32.14 --height 1.1 --overpressure 3 {KNOWN}") == DONE
    plain = capsys.readouterr().out
    assert "Chance that your cut lands in the band: 94 %" in plain
    assert "screw press and full support" in plain
    assert "below the published design stress of 70 MPa" in plain
    assert " N" not in plain.replace(" N/", "").replace("Not", "")
    assert _run(f"size --case-bore 33.20 --glass 32.14 --height 1.1 {KNOWN} --why") == DONE
    opened = capsys.readouterr().out
    assert "\nseating force = " in opened
    assert "  source: " in opened and "published" in opened and "memory" in opened
    assert "  component: case bore 10.00 um" in opened


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("--height 1.1", "needs metal, wall and height of the case"),
        (KNOWN, "needs height of the ring)"),
        (f"--height 1.1 {KNOWN.replace('316L', 'plastic')}", "plastic case: not computed"),
    ],
)
def test_unknown_says_what_is_missing(more: str, says: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert _run(f"size --case-bore 33.20 --glass 32.14 {more}") == DONE
    told = capsys.readouterr().out
    assert says in told
    assert "MPa of" not in told and "To press it home" not in told


def test_rigid_figures_are_headed_upper_bound(capsys: pytest.CaptureFixture[str]) -> None:
    assert _run(f"fit {RING} --rigid") == DONE
    assert "MPa" not in capsys.readouterr().out
    assert _run(f"fit {RING} --rigid --why fit.contact_pressure_mpa") == DONE
    assert capsys.readouterr().out.strip().startswith("Upper bound")


def test_own_material_from_the_shop(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "shop.toml").write_text(
        'turning_spread_mm = 0.02\n[plastic.blue_acetal]\nname = "blue acetal rod"\n'
        'youngs_modulus_mpa = { value = 2700, unit = "MPa", source = "data sheet", basis = "published" }\n',
        encoding="utf-8",
    )
    told = _json("size --case-bore 33.20 --glass 32.14 --material blue_acetal", capsys, tmp_path)
    assert told["budget"][-1] == {"name": "turning", "u_um": 10.0, "share": pytest.approx(0.444, abs=0.001)}
    assert _run("size --case-bore 33.20 --glass 32.14 --material blue_acetal", tmp_path) == DONE
    assert "blue acetal rod" in capsys.readouterr().out


def test_a_ring_that_is_there_is_given_by_its_wall(capsys: pytest.CaptureFixture[str]) -> None:
    """The free ring is not measured across: its wall says the same as the sizes it would have in the seat."""
    seat = "--case-bore 28.40 --glass 27.36 --height 1"
    by_wall = _json(f"fit {seat} --wall 0.57", capsys)
    by_sizes = _json(f"fit {seat} --outside 28.40 --bore 27.26", capsys)
    assert by_wall["fit"] == by_sizes["fit"] and "used" not in by_wall
    assert _json(f"fit {seat} --wall 0.57 --used", capsys)["used"] is True
    assert _run(f"fit {seat} --wall 0.57 --used") == DONE
    assert "A used ring is a pattern to measure, not one to fit again." in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("", "give --outside and --bore, or --wall alone"),
        ("--outside 28.40", "give --outside and --bore, or --wall alone"),
        ("--wall 0.57 --bore 27.26", "give --outside and --bore, or --wall alone"),
        ("--wall 0.1", "--wall 0.1: outside 0.2 to 3 mm"),
        ("--wall thin", "--wall thin: "),
    ],
)
def test_a_given_ring_is_given_in_one_way(given: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert _run(f"fit --case-bore 28.40 --glass 27.36 --height 1 {given}") == BAD_INPUT
    assert said in capsys.readouterr().err


def test_text_names_figures_in_words_and_takes_either_name(capsys: pytest.CaptureFixture[str]) -> None:
    """Keys stand in JSON alone; one is still understood where a figure is asked for."""
    bezel = "--case-metal brass --case-wall 0.8 --case-height 3 --case-yield 124"
    given = f"fit --case-bore 33.20 --glass 32.10 --outside 33.20 --bore 32.00 --height 1.2 {bezel}"
    assert _run(f"{given} --why") == DONE
    symbols = {"a_case", "a_glass", "a_ring"}
    assert set(re.findall(r"[a-z0-9]+_[a-z0-9_]+", capsys.readouterr().out)) <= symbols
    assert _run(f"{given} --why window.chance") == DONE
    by_key = capsys.readouterr().out
    assert main([*given.split(), "--why", "Chance that your cut lands in the band"]) == DONE
    assert capsys.readouterr().out == by_key

"""`ringwright shop`, `plan` and `plug` as a script would call them."""

from __future__ import annotations

import importlib.util
import json
import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.command import Parser, parse, report
from bench.commands import plan as plan_command, plug, shop
from bench.paper.bar import LONG_MM, draw_bar, scale_for as bar_scale
from bench.paper.page import NotOnPaper, Paper
from bench.paper.plan import BOX_MM, write_plan
from bench.paper.section import scale_for
from bench.seals.ring.drawing import plan_drawing
from bench.seals.seal import Drawing
from bench.sheet.turning import plan_json, plan_text
from bench.shop.shop import built_in
from rules.checks import OutOfRange
from rules.equipment import Axis, Lathe
from rules.measuring.seat_by_plug import seat_from_plug
from rules.ring import Ring
from rules.sizing.squeeze import Gap
from rules.turning.order import SetUp
from rules.turning.passes import Plan
from rules.turning.planning import plan
from rules.turning.plug import PlugPlan, PlugWanted, plan_plug

PASS_KEYS = {
    "n",
    "operation",
    "tool",
    "rpm",
    "axis",
    "reading_text",
    "shows",
    "target_mm",
    "cut_depth_mm",
    "material_diameter_after_mm",
    "minutes",
}


def call(folder: Path, *words: str) -> int:
    parser = Parser(prog="ringwright")
    parser.add_argument("--folder", type=Path, default=folder)
    commands = parser.add_subparsers()
    for module in (shop, plan_command, plug):
        module.add(commands)
    arguments = parse(parser, words)
    return report(arguments.run, arguments)


RING = Ring(outside_diameter_mm=33.20, bore_mm=32.04, height_mm=1.10, chamfer_mm=0.15, lower_chamfer_mm=0.10)


def planned(**changed: Any) -> Plan:
    own = built_in()
    usual = SetUp(lathe=own.lathes[0], tools=own.tools, bar=own.bars_of("acetal")[1])
    return plan(ring=RING, set_up=replace(usual, **changed))


def test_shop_is_shown_and_written_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert call(tmp_path, "shop") == 0
    assert "built-in shop" in capsys.readouterr().out
    assert call(tmp_path, "shop", "--write") == 0
    assert capsys.readouterr().out.strip() == str(tmp_path / "shop.toml")
    assert call(tmp_path, "shop", "--write") == 3
    assert "is there already" in capsys.readouterr().err
    assert call(tmp_path, "shop") == 0
    assert "workshop (shop.toml)" in capsys.readouterr().out
    (tmp_path / "shop.toml").write_text('theme = "dusk"\n', encoding="utf-8")
    assert call(tmp_path, "shop") == 2
    said = capsys.readouterr().err
    assert (
        said == "ringwright: shop.toml line 1: theme: 'dusk' is not known; known are terminal, day, night\n"
    )


def test_plan_as_data_has_every_key_on_every_pass() -> None:
    data = json.loads(json.dumps(plan_json(planned(spares=1)), allow_nan=False))
    for one in data["passes"]:
        assert set(one) >= PASS_KEYS
    rings = {one["ring"] for one in data["passes"]}
    assert rings == {1, 2}
    assert data["tolerance"].startswith("outside +-0.020 mm, holds ISO 286 IT8 (39 um at 33.20 mm)")


def test_plan_as_text_stands_in_a_hundred_columns() -> None:
    dial = replace(
        built_in().lathes[0],
        cross=Axis(
            shows="radius", step_mm=0.01, division_mm=0.02, divisions_per_turn=100, direction="inward"
        ),
    )
    for made in (planned(), planned(spares=3), planned(lathe=dial)):
        text = plan_text(made)
        assert max(map(len, text.splitlines())) <= 100
        for one in made.of("finish_bore"):
            assert one.reading_text in text
    assert re.search(r"\d turns \d+(\.5)? div", plan_text(planned(lathe=dial)))


def wired(monkeypatch: pytest.MonkeyPatch, made: Plan) -> None:
    def plan_of(folder: Path, job: str, _seal: int = 1) -> tuple[Plan, Drawing]:
        assert folder.is_dir()
        assert job == "7"
        return made, plan_drawing(made)

    monkeypatch.setattr("bench.sheet.job_plan.plan_of", plan_of)


def test_plan_command_prints_text_or_data(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    made = planned()
    wired(monkeypatch, made)
    assert call(tmp_path, "plan", "7") == 0
    assert capsys.readouterr().out == plan_text(made)
    assert call(tmp_path, "plan", "7", "--json") == 0
    data = json.loads(json.dumps(plan_json(made)))
    assert json.loads(capsys.readouterr().out) == {"json_format": 1, **data}


def test_plan_on_paper(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    pytest.importorskip("fpdf", reason="the PDF library is an extra")
    bar = replace(built_in().bars_of("acetal")[1], colour="weiß \u767d")
    wired(monkeypatch, planned(bar=bar))
    target = tmp_path / "plan.pdf"
    assert call(tmp_path, "plan", "7", "--pdf", str(target)) == 0
    said = capsys.readouterr().out
    assert "the font lacks U+767D: printed as ?" in said
    assert target.read_bytes().startswith(b"%PDF-")
    assert call(tmp_path, "plan", "7", "--pdf", str(target)) == 0
    other = tmp_path / "notes.txt"
    other.write_text("keep me", encoding="utf-8")
    assert call(tmp_path, "plan", "7", "--pdf", str(other)) == 3
    assert other.read_text(encoding="utf-8") == "keep me"
    assert call(tmp_path, "plan", "7", "--pdf", str(tmp_path / "none" / "x.pdf")) == 3
    said = capsys.readouterr().err
    assert said.count("ringwright: ") == 2


ON_THE_DRAWING = (
    "33.20 ± 0.020 outside",
    "32.04 bore",
    "wall 0.580 ± 0.010",
    "height 1.10 +0/-0.05",
    "entry chamfer 0.15 x 45°",
    "0.10 x 45°",
    "40 : 1",
    "bore: go to 32.04, diameter",
    "seat 33.20, glass 32.14 mm (good to 0.04 and 0.03), gap 0.530 mm",
    "ring and dressing 1.20 mm",
    "blade 1.00 mm",
    "bored 2.50 mm",
    "turned 2.70 mm",
    "out of the chuck 5.50 mm",
    "lengths 10 : 1",
    "seen from above",
    "wall over the open end, burrs off, before the last pass of the bore:  ____________   ____________",
)
GAP = Gap(case_bore_mm=33.20, case_bore_u_mm=0.04, glass_mm=32.14, glass_u_mm=0.03)


def test_the_dimensions_are_drawn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("fpdf", reason="the PDF library is an extra")
    printed: list[str] = []
    plain = Paper.plain

    def noted(self: Paper, text: str) -> str:
        printed.append(plain(self, text))
        return printed[-1]

    monkeypatch.setattr(Paper, "plain", noted)
    assert (
        write_plan(planned(), plan_drawing(planned(), GAP), title="job 7", path=tmp_path / "plan.pdf") == ()
    )
    assert [said for said in ON_THE_DRAWING if said not in "\n".join(printed)] == []
    assert "ISO 286" not in "\n".join(printed) and "IT8" not in plan_text(planned())


@pytest.mark.skipif(importlib.util.find_spec("pypdf") is None, reason="pypdf is in the test extra")
def test_the_file_holds_the_dimensions(tmp_path: Path) -> None:
    from pypdf import PdfReader

    pytest.importorskip("fpdf", reason="the PDF library is an extra")
    write_plan(planned(), plan_drawing(planned(), GAP), title="job 7", path=tmp_path / "plan.pdf")
    text = "".join(page.extract_text() for page in PdfReader(tmp_path / "plan.pdf").pages)
    assert [said for said in ON_THE_DRAWING if said not in text] == []


def test_the_bar_is_drawn_for_every_ring_that_can_be_planned(tmp_path: Path) -> None:
    pytest.importorskip("fpdf", reason="the PDF library is an extra")
    for made in (planned(), planned(spares=3)):
        paper = Paper()
        below = draw_bar(paper, made, left=30.0, top=40.0)
        assert 60.0 < below < paper.pdf.h - 60.0
    along = bar_scale(planned(spares=3).order.stock.stick_out_mm, LONG_MM)
    assert along * planned(spares=3).order.stock.stick_out_mm <= LONG_MM


def test_without_the_library_the_paper_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "fpdf", None)
    with pytest.raises(NotOnPaper, match="needs the library fpdf2"):
        write_plan(planned(), plan_drawing(planned(), GAP), title="job 7", path=tmp_path / "plan.pdf")


def test_the_section_is_to_scale() -> None:
    drawing = plan_drawing(planned())
    assert drawing.wide_mm == pytest.approx(0.58)
    assert drawing.high_mm == pytest.approx(1.1)
    # Shoelace: wall times height less the two corners.
    corners = drawing.outline
    twice = sum(
        x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True)
    )
    assert abs(twice) / 2.0 == pytest.approx(0.58 * 1.1 - 0.15**2 / 2.0 - 0.1**2 / 2.0)
    assert scale_for(drawing, *BOX_MM) == 40.0  # 1.1 mm at 40 : 1 is 44 of 48 mm


def test_plug_is_planned_and_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert call(tmp_path, "plug", "--seat", "33,20", "--json") == 0
    data = json.loads(capsys.readouterr().out)
    assert data["steps_mm"] == [33.14, 33.16, 33.18, 33.2, 33.22, 33.24, 33.26]
    assert call(tmp_path, "plug", "--enters", "33.18", "--not", "33.20", "--json") == 0
    seat = json.loads(capsys.readouterr().out)
    assert (seat["diameter_mm"], seat["low_mm"], seat["high_mm"]) == (33.19, 33.176, 33.204)
    # Half width 0.014 over root three.
    assert seat["standard_uncertainty_mm"] == pytest.approx(0.008083, abs=1e-6)
    assert call(tmp_path, "plug", "--seat", "33.2") == 0
    assert "go to 33.14, diameter" in capsys.readouterr().out


def test_the_plug_carries_the_guard_words_of_a_plan(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert call(tmp_path, "plug", "--seat", "33.2") == 0
    plug_said = " ".join(capsys.readouterr().out.split())
    paper = plan_text(planned())
    guards = ["nothing behind the spindle or in a guide", ", tight, on centre height; chuck key out"]
    warned = re.findall(r"^! ([^:]+):", paper, re.MULTILINE)
    assert len(warned) >= 5
    of_the_ring_alone = {"Parting"}
    for words in (*guards, *(f"! {title}:" for title in warned if title not in of_the_ring_alone)):
        assert words in " ".join(paper.split()) and words in plug_said, words
    assert "spindle stopped" in plug_said
    assert call(tmp_path, "plug", "--seat", "33.2", "--json") == 0
    assert {"spindle", "eyes", "bar_behind_spindle"} <= set(json.loads(capsys.readouterr().out)["cautions"])


BAD: list[tuple[Sequence[str], str]] = [
    ((), "give either --seat MM"),
    (("--seat", "33", "--enters", "33"), "give either --seat MM"),
    (("--enters", "33"), "give either --seat MM"),
    (("--seat", "3"), "expected seat: 3 mm is outside 5 to 80 mm; give"),
    (("--seat", "33", "--steps", "2"), "steps of the plug: 2 is outside 3 to 15; give"),
    (("--seat", "33", "--material", "peek"), "no bar of peek"),
    (("--enters", "33.2", "--not", "33.1"), "give the larger one second"),
    (("--enters", "33x", "--not", "33.1"), "--enters: "),
]


@pytest.mark.parametrize(("words", "said"), BAD, ids=[" ".join(words) or "nothing" for words, _ in BAD])
def test_bad_plug_input_is_refused_in_one_line(
    words: Sequence[str], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert call(tmp_path, "plug", *words) == 2
    error = capsys.readouterr().err
    assert said in error
    assert error.count("\n") == 1


def plug_on(lathe: Lathe) -> PlugPlan:
    own = built_in()
    wanted = PlugWanted(seat_mm=33.2, plastic="acetal")
    return plan_plug(wanted, lathe=lathe, tools=own.tools, bars=own.bars)


def test_every_step_of_the_plug_is_a_full_cut() -> None:
    own = built_in()
    for step in (0.001, 0.01, 0.02, 0.03):
        lathe = replace(own.lathes[0], cross=Axis(shows="diameter", step_mm=step))
        made = plug_on(lathe)
        cuts = [one for one in made.passes if one.operation == "step"]
        standing = [one for one in made.passes if one.operation == "rough"][-1].material_diameter_after_mm
        assert [one.from_face_mm for one in cuts] == [3.0 * (at + 1) for at in range(7)]
        for one, after in zip(cuts, made.steps_mm, strict=True):
            assert one.material_diameter_after_mm == after
            assert one.cut_depth_mm == pytest.approx((standing - after) / 2.0)
            assert one.cut_depth_mm >= 0.05 - 1e-9
        assert any("cannot be set" in word for word in made.words) == (step == 0.03)


def test_a_true_seat_lies_between_the_limits_of_its_plug() -> None:
    made = plug_on(built_in().lathes[0])
    for at in range(100):
        true = 33.145 + 0.001 * at
        enters = max(mm for mm in made.steps_mm if mm <= true)
        stays_out = min(mm for mm in made.steps_mm if mm > true)
        seat = seat_from_plug(enters_mm=enters, stays_out_mm=stays_out)
        assert seat.low_mm <= true <= seat.high_mm
    with pytest.raises(OutOfRange):
        seat_from_plug(enters_mm=float("nan"), stays_out_mm=33.0)

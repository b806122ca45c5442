"""The shop file: the starter loads again, and whatever is wrong is named with its line."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bench.file.slug import SHOP
from bench.shop.shop import Shop, ShopWrong, built_in, load
from bench.shop.starter import write
from tests.whole.repairer import fresh


def test_a_missing_file_is_the_built_in_shop(tmp_path: Path) -> None:
    shop = load(tmp_path)
    assert shop == built_in()
    assert shop.is_built_in
    assert shop.tester.largest_bar == 3.0
    assert {bar.plastic for bar in shop.bars} == {"acetal", "pa66"}
    assert {tool.kind for tool in shop.tools} == {"turning", "boring", "chamfer", "parting"}


def test_the_starter_loads_as_the_built_in_shop_and_is_never_written_over(tmp_path: Path) -> None:
    path = write(tmp_path / "new folder")
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# What stands in this workshop.")
    own: dict[str, dict[str, object]] = {"plastics": {}, "metals": {}, "glasses": {}}
    assert replace(load(path.parent), is_built_in=True, materials={}) == built_in()
    assert load(path.parent).materials == own
    with pytest.raises(FileExistsError):
        write(path.parent)
    assert path.read_text(encoding="utf-8") == text


def changed(tmp_path: Path, old: str, new: str) -> Shop:
    text = write(tmp_path).read_text(encoding="utf-8")
    assert old in text
    (tmp_path / SHOP).write_text(text.replace(old, new, 1), encoding="utf-8")
    return load(tmp_path)


def line_of(tmp_path: Path, words: str) -> int:
    lines = (tmp_path / SHOP).read_text(encoding="utf-8").splitlines()
    return next(number for number, line in enumerate(lines, start=1) if words in line)


WRONG = [
    ("blade_mm = 1.0", "blade_mm = 9.0", "blade of tool 4: 9 mm is outside 0.2 to 6 mm; correct it"),
    ("blade_mm = 1.0", "blad_mm = 1.0", "unknown word 'blad_mm'; did you mean blade_mm?"),
    ("backlash_mm = 0.05", "backlash_mm = nan", "backlash: nan is not a finite number; key a number in mm"),
    ("backlash_mm = 0.05", 'backlash_mm = "0.05"', "backlash_mm must be a number without quotation marks"),
    ('theme = "terminal"', "theme = day", "a text stands in quotation marks"),
    ('theme = "terminal"', 'theme = "dusk"', "theme: 'dusk' is not known; known are terminal, day, night"),
    (
        "hand_scale_pct = 0.8",
        "hand_scale_pct = 9",
        "softness of the hand: 9 points of squeeze is outside 0.2 to 3",
    ),
    ("bell = true", "bell = 1", "bell must be true or false"),
    ("bounce_ms = 80", "bounce_ms = 80.5", "bounce_ms must be a whole number"),
    ('kind = "turning"', 'kind = "milling"', "kind of tool: 'milling' is not known"),
    ('shows = "diameter"', 'shows = "both"', "shows: 'both' is not known"),
    ('plastic = "pa66"', 'plastic = "pa6.6"', "plastic: 'pa6.6' is not known; known are acetal, pa6,"),
    (
        "largest_bar = 3.0",
        "largest_bar = -3.0",
        "largest pressure of the tester: -3 bar is outside 0.1 to 200 bar",
    ),
]


@pytest.mark.parametrize(("old", "new", "reason"), WRONG, ids=[new for _, new, _ in WRONG])
def test_a_wrong_word_is_named_with_its_line(tmp_path: Path, old: str, new: str, reason: str) -> None:
    with pytest.raises(ShopWrong) as why:
        changed(tmp_path, old, new)
    assert reason in str(why.value)
    assert str(why.value).startswith(f"{SHOP} line {line_of(tmp_path, new)}: ")
    assert "\n" not in str(why.value)


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ("number = 2", "number = 1", "tool number 1 stands twice in the set 'bench'"),
        ('kind = "parting"', 'kind = "chamfer"', "the tool set 'bench' lacks a tool for: parting"),
        ('name = "micrometer"', 'name = "calliper"', "instrument 'calliper' stands twice"),
        ("[lathe.cross]", "[lathe.crosss]", "a lathe needs the sections [lathe.cross] and [lathe.carriage]"),
    ],
)
def test_what_is_wrong_as_a_whole_is_said(tmp_path: Path, old: str, new: str, reason: str) -> None:
    with pytest.raises(ShopWrong) as why:
        changed(tmp_path, old, new)
    assert reason in str(why.value)


@pytest.mark.parametrize("raw", [b"\xff\xfe", b'shop_name = "\xe9"', b"x" * 2_000_000, b"a = [" * 5000, b"["])
def test_a_broken_file_is_refused_with_a_line(tmp_path: Path, raw: bytes) -> None:
    (tmp_path / SHOP).write_bytes(raw)
    with pytest.raises(ShopWrong, match=r"shop\.toml line 1: "):
        load(tmp_path)


def test_more_than_one_lathe_tool_set_and_own_plastic(tmp_path: Path) -> None:
    text = write(tmp_path).read_text(encoding="utf-8")
    text += """
[[lathe]]
name = "old lathe"
speeds_rpm = [80, 1200]
stepless = true
largest_rpm = 1000
[lathe.cross]
shows = "radius"
division_mm = 0.02
divisions_per_turn = 100
direction = "inward"
[lathe.long]
division_mm = 0.05
step_mm = 0.05
[[lathe.grip]]
name = "step chuck"
smallest_mm = 20
largest_mm = 60
"""
    for number, kind in enumerate(("turning", "boring", "chamfer", "parting"), start=1):
        sizes = {"boring": "smallest_bore_mm = 6\nlongest_reach_mm = 15\n", "parting": "blade_mm = 0.8\n"}
        text += f'[[tool]]\nset = "old"\nnumber = {number}\nkind = "{kind}"\n{sizes.get(kind, "")}'
    text += """
[plastic.mine]
name = "plastic from the drawer"
youngs_modulus_mpa = { value = 2500, unit = "MPa", source = "maker's sheet", basis = "published" }
[[bar]]
plastic = "mine"
diameter_mm = 40
length_mm = 80
"""
    (tmp_path / SHOP).write_text(text, encoding="utf-8")
    shop = load(tmp_path)
    old = next(one for one in shop.lathes if one.name == "old lathe")
    assert old.cross.is_dial
    assert old.cross.step_mm == 0.02
    assert shop.tool_sets == ("bench", "old")
    assert [tool.blade_mm for tool in shop.tools_of("old") if tool.kind == "parting"] == [0.8]
    assert shop.bars_of("mine")[0].diameter_mm == 40.0
    assert "mine" in shop.materials["plastics"]


def test_an_own_material_without_its_source_is_refused(tmp_path: Path) -> None:
    text = write(tmp_path).read_text(encoding="utf-8")
    text += (
        '[plastic.mine]\nname = "x"\nyoungs_modulus_mpa = { value = 2500, unit = "MPa", basis = "memory" }\n'
    )
    (tmp_path / SHOP).write_text(text, encoding="utf-8")
    number = line_of(tmp_path, 'youngs_modulus_mpa = { value = 2500, unit = "MPa", basis')
    with pytest.raises(ShopWrong, match=f"line {number}: .*source missing"):
        load(tmp_path)


def test_how_soft_the_hand_is_can_be_set(tmp_path: Path) -> None:
    """With a default, with a range, and it is what the page says of the ring after one that was tried."""
    assert built_in().hand_scale_pct == 0.8
    shop = changed(tmp_path, "hand_scale_pct = 0.8", "hand_scale_pct = 1.6")
    assert shop.hand_scale_pct == 1.6
    repairer = fresh(shop=shop).on_to("ring", {"fit_outcome": "too_easy", "remake": "ring"})
    opened = " ".join(one.inputs for one in repairer.step.figures)
    assert "softness of the hand 1.6 points of squeeze" in opened

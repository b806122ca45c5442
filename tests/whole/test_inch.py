"""A shop in inch, whole, and mixed shops: pages, keys, papers and the file.

The scenario is invented: a bench over a bicycle shed, with an old lathe from overseas.
"""

from __future__ import annotations

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from bench.command import DONE
from bench.desk.desk import Desk
from bench.job.number import Refusal, TypedNumber, read_number
from bench.job.read_by import mask_of
from bench.shop.groups import GROUPS
from bench.shop.shop import Shop, ShopWrong, built_in, load
from ringwright import main
from rules.instrument import Instrument
from screens.look import Look
from screens.view import view
from tests.whole.hands import lines, press, session_text
from tests.whole.repairer import Pretended, Repairer
from tests.whole.script import Hand

IN_INCH = 'works_in = "inch"\n'
STRAIGHT = (
    ("case_bore_1", "1.4340"),
    ("case_bore_2", "14345"),
    ("glass_1", "1.3900"),
    ("glass_2", "1.3905"),
    ("seat_depth", "0.0570"),
    ("marking", "bar_5"),
)
"""A seat of 36.43 mm and a glass of 35.31 mm, keyed with digits and point alone."""
INCH_DIALS = """
[[lathe]]
name = "old inch lathe"
speeds_rpm = [300, 600, 1200]
speed_names = ["inner step", "middle step", "outer step"]
largest_rpm = 1200
largest_drill_in = 0.5
drill_unit = "inch"
[lathe.cross]
shows = "radius"
division_in = 0.001
divisions_per_turn = 100
backlash_in = 0.004
direction = "inward"
[lathe.carriage]
shows = "length"
division_in = 0.001
divisions_per_turn = 250
backlash_in = 0.01
[[lathe.grip]]
name = "chuck"
smallest_in = 0.125
largest_mm = 80
length_mm = 20
"""
MM_CALLIPER = """
[[instrument]]
name = "calliper"
kind = "calliper"
resolution_mm = 0.01
limit_of_error_mm = 0.03
"""
INCH_MICROMETER = """
[[instrument]]
name = "inch micrometer"
kind = "micrometer"
resolution_in = 0.0001
limit_of_error_in = 0.0002
"""
MIXED = INCH_DIALS + MM_CALLIPER + INCH_MICROMETER
BY_MM_CALLIPER = (
    ("case_bore_1", "3642"),
    ("case_bore_2", "36.44"),
    ("glass_1", "3531"),
    ("glass_2", "35.30"),
    ("seat_depth", "1.45"),
    ("marking", "bar_5"),
)
A_FACT = "10 bar inside pushes 800 N on a 32 mm glass"
"""A caution that is the same in every shop, its lengths with their unit."""
MM_SIZES = re.compile(r"\b(36\.4\d|35\.[23]\d|1\.20|1\.45|0\.6\d\d?|0\.10|0\.15)\b")
"""What seat, glass and ring measure in mm."""


def shop_of(folder: Path, text: str) -> Shop:
    """A shop from the words of its file; what they leave out is as it is assumed, and was said to be."""
    (folder / "shop.toml").write_text(text, encoding="utf-8")
    return replace(load(folder), said=frozenset(GROUPS))


def page_of(desk: Desk, columns: int, rows: int) -> str:
    """A page as painted, as text."""
    shown = view(replace(desk, columns=columns, rows=rows), Look("half"))
    return "\n".join("".join(piece for piece, _ in spans) for spans in shown)


def pages(shop: Shop, script: tuple[tuple[str, str], ...], columns: int, rows: int) -> dict[str, str]:
    """Every page of a whole job, by the key of its step, and what is said behind it."""
    repairer, left, found = Repairer(Pretended(shop=shop)).open(), dict(script), dict[str, str]()
    while repairer.asked:
        key = repairer.asked
        step = repairer.step
        words = "\n".join((step.title, *step.to_do, *step.consequence, *step.how, step.why))
        found[key] = f"{page_of(repairer.desk, columns, rows)}\n{words}"
        repairer.answer(left)
        left.pop(key, None)
    assert not left
    return found


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (40, 12)])
def test_no_page_of_an_inch_shop_speaks_of_mm(tmp_path: Path, columns: int, rows: int) -> None:
    shop = shop_of(tmp_path, IN_INCH)
    found = pages(shop, STRAIGHT, columns, rows)
    assert {"ring", "rough_bore", "outside_reading", "last_bore", "part", "dress", "hand_back"} <= set(found)
    for key, text in found.items():
        said = " ".join(text.split()).replace(A_FACT, "")
        assert not re.search(r"\bmm\b|whole milli|tenth of a milli", said), (key, said)
        assert not MM_SIZES.search(re.sub(r"0\.6\d* ?%", "", said)), (key, MM_SIZES.findall(said))
    assert "outside 1.4343, bore 1.3860, high 0.0472" in found["ring"]
    assert "drill of 1/2 in: go to " in found["drill"]
    assert "how many sixteenths of an inch" in " ".join(found["lathe_bar"].split())


async def test_a_whole_job_by_keypad_with_digits_and_point_alone(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(IN_INCH, encoding="utf-8")
    desk, pressed = await press(tmp_path, [Hand(STRAIGHT)])
    assert set(pressed) <= set("0123456789.-/+*E")
    assert desk.walk is not None and desk.walk.open is None


def test_papers_are_in_inch_and_data_in_mm(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Seat and glass by hand: (1.4340 + 1.4345) / 2 in are 36.430 mm, (1.3900 + 1.3905) / 2 are 35.312."""
    (tmp_path / "shop.toml").write_text(IN_INCH, encoding="utf-8")
    lines(tmp_path, [Hand(STRAIGHT)])
    capsys.readouterr()
    folder = ("--folder", str(tmp_path))
    for command in (("sheet", "1"), ("sheet", "1", "--shop"), ("plan", "1")):
        assert main([*command, *folder]) == DONE
        text = capsys.readouterr().out
        assert "1.4343" in text
        said = text.replace("(39 um at 36.43 mm)", "").replace(A_FACT, "")
        assert "mm" not in said and not MM_SIZES.search(said), MM_SIZES.findall(said)
    assert main(["sheet", "1", "--json", *folder]) == DONE
    data = json.loads(capsys.readouterr().out)
    assert data["measured"]["case_bore"]["mean_mm"] == pytest.approx(36.430, abs=0.001)
    assert data["measured"]["glass"]["mean_mm"] == pytest.approx(35.312, abs=0.001)
    assert main(["plan", "1", "--json", *folder]) == DONE
    plan = json.loads(capsys.readouterr().out)
    assert plan["ring"]["outside_diameter_mm"] == pytest.approx(36.43)
    assert "5.6 mm standing out" in " ".join(plan["set_up"])


def test_pdfs_are_in_inch(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    pypdf = pytest.importorskip("pypdf")
    (tmp_path / "shop.toml").write_text(IN_INCH, encoding="utf-8")
    lines(tmp_path, [Hand(STRAIGHT)])
    for command, option in (("sheet", "--pdf"), ("sheet", "--slip"), ("plan", "--pdf")):
        file = tmp_path / f"{command}{option}.pdf"
        assert main([command, "1", option, str(file), "--folder", str(tmp_path)]) == DONE
        text = "\n".join(page.extract_text() for page in pypdf.PdfReader(file).pages)
        said = text.replace("(39 um at 36.43 mm)", "").replace(A_FACT, "")
        assert "1.3860" in said and ": 1, in" in said
        assert not re.search(r"\bmm\b", said) and not MM_SIZES.search(said), (option, said)


def test_the_file_keeps_what_was_keyed_and_decides_in_mm(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(IN_INCH, encoding="utf-8")
    lines(tmp_path, [Hand(STRAIGHT)])
    text = session_text(tmp_path)
    assert 'value = "1.4345 in"' in text and '"outside 36.43 mm"' in text and '"walls ' in text
    assert not re.search(r"(outside|bore|height|wall|seat|glass) [0-9.]+ in\b", text)


@pytest.mark.parametrize("works_in", ["mm", "inch"])
def test_a_mixed_shop_keys_each_tool_in_its_own_unit(tmp_path: Path, works_in: str) -> None:
    """Seat, glass, depth and walls by a calliper in mm, the outside by an inch micrometer; dials in inch."""
    shop = shop_of(tmp_path, f'works_in = "{works_in}"\n{MIXED}')
    found = pages(shop, BY_MM_CALLIPER, 80, 24)
    assert re.search(r"should be 1\.4\d\d\d in;", found["outside_reading"])
    assert re.search(r"should be 0\.7\d\d mm;", found["wall_reading"])
    assert " div, makes " in found["finish_outside"] and "by over 0.0040 in" in found["rough_outside"]
    assert ("outside 1.4343" if works_in == "inch" else "outside 36.43") in found["ring"]
    for key in ("rough_outside", "drill", "rough_bore", "finish_outside", "last_bore", "chamfer", "part"):
        said = re.sub(r"dial (at|to) [\d.]+", "", said_of(shop, found[key]))
        bare = re.findall(r"(?<![\d/.])\d+\.\d+(?! ?(?:mm|in|um|times|div|\d))(?:\b)", said)
        assert bare == [], (key, bare)


def said_of(shop: Shop, text: str) -> str:
    """What is said behind a page, without the picture and the name of the program."""
    assert shop.lathes[0].cross.is_dial
    return text.rsplit("\n 0-9", 1)[-1].split("\n", 1)[-1]


def test_the_same_ring_whatever_is_spoken(tmp_path: Path) -> None:
    """A mixed shop that works in mm or in inch decides the same from the same readings."""
    rings = []
    for works_in in ("mm", "inch"):
        folder = tmp_path / works_in
        folder.mkdir()
        bars = '[[bar]]\nplastic = "acetal"\ndiameter_mm = 45\nlength_mm = 150\n'
        (folder / "shop.toml").write_text(f'works_in = "{works_in}"\n{MIXED}{bars}', encoding="utf-8")
        lines(folder, [Hand(BY_MM_CALLIPER)])
        rings.append(
            re.findall(r'"(?:outside|bore|height|seat|glass|walls) [0-9. ]+ mm"', session_text(folder))
        )
    assert rings[0] == rings[1] and len(rings[0]) > 5


def test_mm_keyed_in_an_inch_shop_is_named(tmp_path: Path) -> None:
    """A gauge set to the other unit sends its point: 36.42 for 1.4339."""
    repairer = Repairer(Pretended(shop=shop_of(tmp_path, IN_INCH))).open().on_to("case_bore_1")
    for text in ("36.42", "36.424"):
        repairer.type(text)
        assert repairer.asked == "case_bore_1"
        assert "in mm (is the gauge set to mm?)" in repairer.desk.message
    repairer.type("36424")
    assert repairer.asked == "case_bore_1"
    repairer.type("1.4340")
    repairer.type("36.42")
    assert "the earlier reading in mm (is the gauge set to mm?)" in repairer.desk.message


def test_five_digits_without_a_point_that_are_large_for_a_watch_are_asked_about(tmp_path: Path) -> None:
    """28413 is 28.413 mm without its point, and 2.8413 in: 72 mm."""
    repairer = Repairer(Pretended(shop=shop_of(tmp_path, IN_INCH))).open().on_to("case_bore_1")
    before = len(repairer.bench.entries)
    repairer.type("28413")
    assert len(repairer.bench.entries) == before
    assert "28.413 mm without its point?" in repairer.desk.message
    repairer.type("1")
    assert repairer.asked == "case_bore_2" and len(repairer.bench.entries) == before + 1


def test_inch_keyed_in_a_mm_shop_is_named() -> None:
    repairer = Repairer().open().on_to("case_bore_1")
    for text in ("1.4340", "1.434"):
        repairer.type(text)
        assert repairer.asked == "case_bore_1"
        assert "in inch (is the gauge set to inch?)" in repairer.desk.message


def test_a_gauge_that_sends_its_unit_is_converted_once_it_is_seen(tmp_path: Path) -> None:
    repairer = Repairer(Pretended(shop=shop_of(tmp_path, IN_INCH))).open().on_to("case_bore_1")
    for character in "36.42":
        repairer.key(character)
    for letter in "mm":
        repairer.key(f"char:{letter}")
    repairer.key("enter")
    assert "36.42 mm = 1.4339 in" in repairer.desk.message and repairer.asked == "case_bore_1"
    repairer.key("enter")
    assert repairer.asked == "case_bore_2"


@pytest.mark.parametrize(
    ("resolution_in", "shown"),
    [(0.001, "_.___"), (0.0005, "_.____"), (0.0001, "_.____"), (0.00005, "_._____")],
)
def test_the_mask_follows_the_instrument(resolution_in: float, shown: str) -> None:
    tool = Instrument(
        name="it", kind="calliper", resolution_mm=25.4 * resolution_in, limit_of_error_mm=0.03, unit="inch"
    )
    assert mask_of(tool, 2, 5.0, 80.0).shown == shown


def test_a_number_of_an_inch_mask() -> None:
    mask = mask_of(built_in("inch").instruments[0], 2, 5.0, 80.0)
    assert read_number("14340", mask) == TypedNumber("1.4340 in", 1.434)
    assert read_number("1.4340 in", mask) == TypedNumber("1.4340 in", 1.434)
    for text in ("1.434", "0.1000", "3.2000", "1434", "36.42"):
        assert isinstance(read_number(text, mask), Refusal), text


def test_lengths_in_a_shop_file_may_be_given_in_inch(tmp_path: Path) -> None:
    shop = shop_of(
        tmp_path, IN_INCH + MIXED + '[[bar]]\nplastic = "acetal"\ndiameter_in = 1.5\nlength_in = 8\n'
    )
    assert shop.bars[0].diameter_mm == pytest.approx(38.1)
    assert shop.instruments[1].unit == "inch" and shop.instruments[1].resolution_mm == pytest.approx(0.00254)
    assert shop.lathes[0].cross.unit == "inch" and shop.lathes[0].largest_drill_mm == pytest.approx(12.7)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (MM_CALLIPER + "resolution_in = 0.0005\n", "give resolution_mm or resolution_in, not both"),
        (INCH_MICROMETER.replace("0.0001", "1.5"), "resolution: 1.5000 in is outside 0.0000 to 0.0039 in"),
    ],
)
def test_a_length_given_twice_or_out_of_range_is_refused_with_its_line(
    tmp_path: Path, text: str, why: str
) -> None:
    with pytest.raises(ShopWrong, match=re.escape(why)) as wrong:
        shop_of(tmp_path, text)
    assert re.search(r"shop\.toml line \d+: ", str(wrong.value))


def test_a_job_keyed_in_mm_opens_in_a_shop_that_works_in_inch_since(tmp_path: Path) -> None:
    lines(tmp_path, [Hand((*BY_MM_CALLIPER[:5], ("ring", "accept")), until="lathe_hands")])
    file = tmp_path / "shop.toml"
    file.write_text(file.read_text(encoding="utf-8").replace('works_in = "mm"', 'works_in = "inch"'))
    desk, _ = lines(tmp_path, ["1"])
    assert desk.job is not None and desk.walk is not None and desk.walk.open is not None
    assert desk.walk.open.key == "lathe_hands"

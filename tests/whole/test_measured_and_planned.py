"""The sheet calls measured what was measured, and every page rounds alike."""

from __future__ import annotations

import re

import pytest

from bench.seals.ring.drawing import drawing
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.sheet.tongue import ENGLISH
from ringwright import main
from rules.checks import fixed, hundredth, size_text
from screens.look import Look
from screens.view import view
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

WALLS = {"wall_1": "0.611", "wall_2": "0.613", "wall_3": "0.612", "wall_4": "0.612"}


def sheet(repairer: Repairer) -> tuple[dict[str, object], str]:
    """Data and text of the sheet where the job stands."""
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=False)
    return data, "\n".join(sheet_lines(data))


said = ENGLISH.on_drawing


def test_planned_sizes_are_called_planned_and_measured_ones_measured() -> None:
    repairer = at("wall_1")
    data, text = sheet(repairer)
    assert "Planned: outside 36.43, bore" in text and "Planned: wall 0.620" in text
    drawn = drawing(data)
    assert drawn is not None and "measured" not in said(drawn.across) + said(drawn.upright)
    repairer.on_to("fit_ready", {**WALLS, "ring_height": "1.23"})
    repairer.on_to("marking")
    data, text = sheet(repairer)
    assert re.search(r"Outside measured on the bar, before its last pass: \d+\.\d{3} mm\.", text)
    assert "Wall measured at 4 places: 0.611, 0.613, 0.612, 0.612; height 1.23 mm." in text
    drawn = drawing(data)
    assert drawn is not None
    assert (said(drawn.across), said(drawn.upright)) == ("wall 0.612 measured", "height 1.23 measured")
    assert max(x for x, _ in drawn.outline) == pytest.approx(0.612)
    assert not any("measured" in said(one.words) for one in drawn.leaders), (
        "outside and bore were not measured"
    )


def test_an_outside_that_stayed_as_it_was_read_is_measured() -> None:
    repairer = at("outside_reading")
    repairer.on_to("past_outside", {"outside_reading": "36.350", "outside_reading_2": "36.352"})
    repairer.give("smaller_bore")
    data, text = sheet(repairer)
    assert "Planned: bore" in text and "outside 36.35, bore" not in text
    assert "Outside measured on the bar, as it stayed: 36.352 mm." in text
    drawn = drawing(data)
    assert drawn is not None and any("36.35 measured" in said(one.words) for one in drawn.leaders)


HALVES = {"case_bore_1": "26.87", "case_bore_2": "26.88", "glass_1": "25.90", "glass_2": "25.90"}
"""Seat 26.875, gap 0.4875: a half on both."""


def page(repairer: Repairer) -> str:
    """The page as it is painted."""
    return "\n".join("".join(text for text, _ in line) for line in view(repairer.desk, Look("ascii")))


def test_a_half_is_shown_the_same_on_every_page(capsys: pytest.CaptureFixture[str]) -> None:
    repairer = fresh().on_to("seat_depth", HALVES)
    pages = [page(repairer)]
    pages.append(page(repairer.on_to("ring")))
    pages.append(page(repairer.on_to("fit_ready")))
    assert main(["size", "--case-bore", "26.875", "--glass", "25.9"]) == 0
    text = "\n".join((*pages, sheet(repairer)[1], capsys.readouterr().out))
    assert "0.487" not in text and "26.87" not in text
    assert all("0.488" in one for one in pages[:2]) and text.count("26.88") >= 4


def test_the_squeeze_as_made_is_the_same_on_page_and_sheet() -> None:
    """Wall 0.6045 in a gap of 0.5625: 6.948 %, 6.95 as written, shown as 7.0 on both."""
    walls = {
        f"wall_{place}": wall
        for place, wall in zip("1234", ("0.604", "0.605", "0.604", "0.605"), strict=True)
    }
    repairer = at("wall_1").on_to("fit_ready", walls)
    said = " ".join(repairer.step.consequence)
    repairer.on_to("marking")
    for pattern in (r"[Ss]queeze (\d+\.\d) ", r"(?:of the wall, good to|\+-) (\d\.\d)"):
        shown = [re.search(pattern, text) for text in (said, sheet(repairer)[1])]
        assert shown[0] is not None and shown[1] is not None and shown[0][1] == shown[1][1]
    good = [
        re.search(r"[Gg]lass:? \d+\.\d\d(?: mm,)? good to (\d\.\d\d)", one)
        for one in (" ".join(at("ring").step.consequence), sheet(repairer)[1])
    ]
    assert good[0] is not None and good[1] is not None and good[0][1] == good[1][1]


def test_halves_go_up_by_one_rule() -> None:
    for value, shown in ((26.875, "26.88"), (26.865, "26.87"), (33.2049999999, "33.21"), (0.005, "0.01")):
        assert fixed(value) == shown and f"{hundredth(value):.2f}" == shown
    assert fixed((26.875 - 25.90) / 2, 3) == "0.488" == size_text((26.875 - 25.9) / 2 + 0.0005)

"""All drawings: smaller or looser on one side, whatever is drawn, and a legend of what is what."""

from __future__ import annotations

import re

import pytest

from bench.desk.desk import Desk
from bench.job.steps import Picture
from screens import pictures
from screens.layout import text_of
from screens.look import Look
from screens.raster import DOTS, Style
from screens.view import view
from tests.screens.golden import leak_of
from tests.whole.page_words import pages

STYLES: list[Style] = list(DOTS)
SIZES = ((32, 9), (32, 12), (48, 16))


@pytest.fixture(scope="module")
def drawn_by_a_job(tmp_path_factory: pytest.TempPathFactory) -> list[Picture]:
    """Every picture of a straight job, and a leak."""
    desks: list[Desk] = list(pages(tmp_path_factory.mktemp("sides")))
    found = [desk.step.picture for desk in desks if desk.step and desk.step.picture]
    return [*dict.fromkeys(found), Picture("leak", curve=leak_of(120.0))]


def row_of(lines: list[str], word: str) -> int:
    """The row in which a word stands."""
    return next(at for at, text in enumerate(lines) if word in text)


@pytest.mark.parametrize("style", STYLES)
def test_smaller_stays_on_its_side_and_what_is_what_is_said(
    drawn_by_a_job: list[Picture], style: Style
) -> None:
    met = set()
    for picture in drawn_by_a_job:
        for columns, rows in SIZES:
            lines = pictures.drawn(picture, columns=columns, rows=rows, style=style)
            met.add(picture.name)
            text = "\n".join(lines)
            if picture.name == "bar":
                assert row_of(lines, " bore") < row_of(lines, " outside")
                assert not re.search(r"[^ \d.\n]\d+\.\d+ (bore|outside|< now)", text)
                assert "full: tool" in text and "crossed: ring" in text and "chuck" in text
            elif picture.name == "section":
                assert re.search(r"glass +ring +case", text)
                moves = [found[0] for found in re.finditer(r".v press v.", text)]
                assert bool(moves) == (rows > 12 and "pressed" not in text)
                assert all(found == f" {found.strip()} " for found in moves)
            elif picture.curve is not None:
                first, last = (row_of(lines, f"{end:.3g}") for end in picture.curve.signals[::-1])
                assert first < last and "limit" in text and " fit" in text
            elif picture.name == "clock":
                assert "largest - smallest" in text
    assert {"bar", "section", "leak"} <= met


def test_limits_are_shorter_where_they_are_smaller_in_any_order() -> None:
    for words in (("tight", "works", "loose"), ("loose", "works", "tight")):
        for low, high in ((35.1, 35.3), (35.3, 35.1), (0.02, 9.0)):
            lines = pictures.limit_lines(
                low=low, high=high, target=(low + high) / 2, words=words, style="ascii"
            )
            lengths = [text.rindex("|") - text.index("|") for text in lines]
            assert lengths == sorted(lengths) and lengths[0] < lengths[-1]


def test_the_act_stands_in_one_line_over_every_check(tmp_path_factory: pytest.TempPathFactory) -> None:
    """What to do now is one line at 80 x 24, cautions of the check in it."""
    checks = [
        desk
        for desk in pages(tmp_path_factory.mktemp("one_line"))
        if desk.step is not None and desk.step.key.startswith(("lathe_", "tool_"))
    ]
    assert len(checks) > 8
    for desk in checks:
        assert desk.step is not None
        assert any(text_of(one).strip() == desk.step.title for one in view(desk, Look("ascii"))), (
            desk.step.key
        )
    titles = {desk.step.key: desk.step.title for desk in checks if desk.step}
    for word in ("Gloves", "rings", "watch", "bracelet", "loose cuffs", "tie", "hanging hair"):
        assert word in titles["lathe_hands"]
    for words in ("Spindle stopped", "chuck key out", "tight", "on centre height"):
        assert words in titles["tool_boring"]

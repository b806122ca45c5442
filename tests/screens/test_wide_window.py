"""What a wide window adds: larger figures and drawings, cautions whole, the stages beside the page."""

from __future__ import annotations

import re

import pytest

from bench.desk.desk import Desk
from bench.job.standing import STAGES, standing_of
from rules.cautions import for_places
from screens.layout import text_of
from screens.look import Look
from screens.pages.act import RULE
from screens.view import view
from tests.screens.keying import at_size
from tests.whole.page_words import pages


@pytest.fixture(scope="module")
def straight(tmp_path_factory: pytest.TempPathFactory) -> list[Desk]:
    """Each page of a straight job, with nothing typed."""
    return list(pages(tmp_path_factory.mktemp("wide")))


def shown(desk: Desk, columns: int, rows: int) -> list[str]:
    """The lines of a page."""
    return [text_of(one) for one in view(at_size(desk, columns, rows), Look("braille"))]


def drawn(lines: list[str]) -> int:
    """Cells of a drawing."""
    return sum(0x2800 < ord(letter) < 0x2900 for text in lines for letter in text)


def blocks(lines: list[str]) -> int:
    """Cells of large figures."""
    return sum(letter in "▀▄█" for text in lines for letter in text)


def test_the_page_grows_with_the_window(straight: list[Desk]) -> None:
    sections = numbers = 0
    for desk in straight:
        assert desk.step is not None
        small, large = shown(desk, 80, 24), shown(desk, 100, 30)
        if desk.step.picture is not None and desk.step.picture.name == "section":
            sections += 1
            assert drawn(large) > 1.8 * drawn(small), desk.step.key
        if desk.step.kind == "number":
            numbers += 1
            assert blocks(large) > 1.8 * blocks(small), desk.step.key
        if not desk.step.targets:
            page = " ".join(" ".join(large).split())
            for text in (text for one in for_places(desk.step.cautions) for text in one.lines):
                assert text in page, desk.step.key
    assert sections >= 2 and numbers > 10


def test_the_stages_stand_beside_a_page_that_is_not_changed_by_them(straight: list[Desk]) -> None:
    for desk in straight:
        assert desk.walk is not None and desk.step is not None
        wide, page = shown(desk, 132, 43), shown(desk, 100, 43)
        assert [text[:100].rstrip() for text in wide[1:-1]] == [text.rstrip() for text in page[1:-1]]
        column = " ".join(" ".join(text[100:] for text in wide[1:-1]).split())
        for stage in STAGES:
            assert f"{stage}: " in column
        assert f"> {desk.step.stage}" in column and column.endswith(standing_of(desk.walk).waits_for)
        asked = [one for one in desk.walk.shown if one[0].kind != "safety"]
        assert not asked or asked[-1][0].in_words(asked[-1][1].word) in column


def test_the_bar_grows_beside_the_column_too(straight: list[Desk]) -> None:
    bars = [desk for desk in straight if desk.step and desk.step.targets and desk.step.picture]
    assert len(bars) >= 5
    for desk in bars:
        assert drawn(shown(desk, 132, 43)) > 1.4 * drawn(shown(desk, 100, 30)), desk.step


def test_the_column_says_nothing_that_the_head_of_the_page_says(straight: list[Desk]) -> None:
    for desk in straight:
        head, *wide = shown(desk, 132, 43)
        column = " ".join(" ".join(text[100:] for text in wide[:-1]).split())
        assert desk.step is not None and f"> {desk.step.stage}: now" in column
        assert f"{desk.step.stage} " in head and f"> {desk.step.stage}: {head.split()[-2]}" not in column
        assert "?:" not in column and "accept it? accept it" not in column


def test_what_to_do_now_is_set_off_where_there_is_room(straight: list[Desk]) -> None:
    """One sentence, the first of the page, over a rule as long as its longest line; it costs no word."""
    ruled = 0
    for desk in straight:
        assert desk.step is not None
        large, small = shown(desk, 100, 30), shown(desk, 80, 24)
        assert not any(RULE in text for text in small)
        at = next((at for at, text in enumerate(large) if text.startswith(f"  {RULE}")), 0)
        if not at:
            assert desk.step.targets, desk.step.key
            continue
        ruled += 1
        rule = re.match(f"  ({RULE}+)", large[at])
        assert rule is not None
        acts = [[text[2 : 2 + len(rule[1])].strip() for text in large[top:at]] for top in range(1, at)]
        act = next(one for one in acts if " ".join(one) == desk.step.title)
        assert max(map(len, act)) == len(rule[1])
    assert ruled > 0.8 * len(straight)

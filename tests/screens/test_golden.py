"""Every page at three sizes against the text kept of it, and what no size may lose."""

from __future__ import annotations

import difflib
import re

import pytest

from bench.desk.desk import Desk
from screens.layout import text_of
from screens.pages.frame import Look
from screens.pages.step import shown_choices
from screens.view import view
from tests.screens.album import album
from tests.screens.keying import at_size
from tests.screens.make_golden import SIZES, kept, text_of_pages

GO_TO = re.compile(r"go to (\d+\.\d\d)|(\d+\.\d\d)$")
each_size = pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")


def page_text(desk: Desk, columns: int, rows: int) -> list[str]:
    """The lines of a page."""
    return [text_of(line) for line in view(at_size(desk, columns, rows), Look("half"))]


@each_size
def test_pages_are_as_they_were_kept(size: tuple[int, int]) -> None:
    """`python -m tests.screens.make_golden` keeps them anew, once the difference was looked at."""
    old, new = kept(*size), text_of_pages(*size)
    assert list(old) == list(new)
    for heading, text in new.items():
        difference = difflib.unified_diff(old[heading].splitlines(), text.splitlines(), lineterm="")
        assert old[heading] == text, f"{heading}\n" + "\n".join(difference)


def test_the_album_holds_every_page() -> None:
    pages = {desk.page for desk in album().values()}
    assert pages == {"jobs", "step", "list", "pick", "why", "keys", "sheet", "account", "damage", "text"}
    kinds = {desk.step.kind for desk in album().values() if desk.step is not None}
    assert kinds >= {"number", "choice", "safety", "action", "timer", "result", "text"}
    assert len(album()) > 150


@each_size
def test_no_choice_and_no_caution_is_left_out(size: tuple[int, int]) -> None:
    """Every choice that can be keyed stands on the page, and the word CAUTION where there is one."""
    choices = cautions = 0
    for heading, desk in album().items():
        step = desk.step
        if desk.page != "step" or step is None:
            continue
        lines = page_text(desk, *size)
        for number, choice in enumerate(shown_choices(desk, step), 1):
            if step.kind == "number" or step.readback is not None:
                continue
            choices += 1
            first = choice.text.split()[0]
            assert any(line.startswith(f"  {number}  {first}") for line in lines), (heading, number)
        if step.cautions:
            cautions += 1
            assert any(line.startswith("  CAUTION") for line in lines), heading
    assert choices > 150 and cautions > 50


@each_size
def test_no_figure_to_go_to_is_left_out(size: tuple[int, int]) -> None:
    """The last figure of a turning step stands on its page even in the smallest window."""
    met = 0
    for heading, desk in album().items():
        if desk.page == "step" and desk.step is not None and desk.step.kind == "action" and desk.step.say:
            figure = GO_TO.search(desk.step.say[-1])
            if figure is None:
                continue
            met += 1
            text = " ".join(
                line[: 46 if size[0] == 80 else size[0]].strip() for line in page_text(desk, *size)
            )
            assert (figure[1] or figure[2]) in text, heading
    assert met > 15


@pytest.mark.parametrize("size", SIZES[:2], ids=lambda size: f"{size[0]}x{size[1]}")
def test_a_completed_number_is_as_large_as_an_empty_one(size: tuple[int, int]) -> None:
    """The large figures do not shrink at the moment they are to be read, 40 x 12 apart."""
    met = 0
    for heading, desk in album().items():
        if desk.page == "step" and desk.step is not None and desk.step.kind == "number" and desk.line.text:
            met += 1
            blocks = sum(set(line.strip()) <= set(" ▀▄█m") and "█" in line for line in page_text(desk, *size))
            assert blocks >= 2, heading
    assert met > 20

"""The manual in the program: opened from the list, chosen by number, read to its end with few keys."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS
from bench.manual.chapters import chapters
from bench.manual.lines import lines_of
from screens.layout import text_of
from screens.look import Look
from screens.plain import Plain
from screens.view import view
from tests.screens.keying import at_size
from tests.whole.hands import bench_in
from tests.whole.lathe_judge import SAYS_RAISING, SAYS_TURNING
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

WINDOWS = ((40, 12), (60, 20), (80, 24), (132, 43))


def page(repairer: Repairer) -> list[str]:
    """What stands on the page."""
    return [text_of(one).rstrip() for one in view(repairer.desk, Look("ascii"))]


def opened(repairer: Repairer, chapter: int) -> Repairer:
    """A chapter opened as a person does: *, the number of the manual, the number of the chapter."""
    repairer.key("list")
    repairer.type(str(NUMBERS["manual"]))
    repairer.type(str(chapter))
    return repairer


@pytest.mark.parametrize("size", WINDOWS, ids=lambda size: f"{size[0]}x{size[1]}")
def test_every_chapter_is_read_to_its_end_and_nothing_of_it_is_left_out(size: tuple[int, int]) -> None:
    repairer = fresh()
    repairer.desk = at_size(repairer.desk, *size)
    repairer.key("list")
    repairer.type(str(NUMBERS["manual"]))
    listed = "\n".join(page(repairer))
    assert all(f" {one.number}  {one.title}" in listed for one in chapters())
    repairer.type("1")
    for one in chapters():
        text = [words.rstrip() for words, _ in lines_of(one, size[0] - 3, on_screen=True)]
        read: list[str] = []
        while repairer.desk.chapter == one.number and "end of the manual" not in repairer.desk.message:
            shown = page(repairer)
            assert len(shown) == size[1] and max(map(len, shown)) <= size[0]
            assert not SAYS_TURNING.search("\n".join(shown)) and not SAYS_RAISING.search("\n".join(shown))
            read += [line[2:] for line in shown[1:-2]]
            repairer.key("next")
        assert read[: len(text)] == text and not any(read[len(text) :])


def test_reading_goes_back_page_by_page_and_then_to_where_one_was() -> None:
    repairer = at("drill")
    asked, before = repairer.asked, len(repairer.bench.entries)
    opened(repairer, 4)
    first = page(repairer)
    repairer.key("next")
    second = page(repairer)
    assert second != first
    repairer.key("next")
    repairer.key("back")
    assert page(repairer) == second
    repairer.key("back")
    repairer.key("back")
    assert page(repairer) == first
    repairer.key("previous")
    assert repairer.desk.page == "chapters"
    repairer.key("previous")
    assert (repairer.desk.page, repairer.asked, len(repairer.bench.entries)) == ("step", asked, before)


def test_a_chapter_that_is_not_there_is_said() -> None:
    repairer = opened(fresh(), 0)
    assert repairer.desk.page == "chapters" and repairer.desk.message == "there is no chapter 0"


def test_plain_lines_read_a_chapter_whole_and_ask_again(tmp_path: Path) -> None:
    out = io.StringIO()
    plain = Plain(Desk(bounce_ms=0), bench_in(tmp_path), out=out)
    plain.start()
    plain.run(iter(["*", str(NUMBERS["manual"]), "8", "/"]))
    said = out.getvalue()
    assert "  8 Keeping, moving, removing" in said and said.count("Which one:") == 3
    assert "= Two computers, one folder" in said
    assert said.rstrip().endswith("Number of a job, 0 = new:")

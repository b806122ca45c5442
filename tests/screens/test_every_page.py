"""Every page met on the way through a whole job, at five sizes and in three rasters."""

from __future__ import annotations

import unicodedata
from collections import Counter

import pytest

from bench.desk.desk import Desk
from screens.layout import Line, width
from screens.look import Look, plain
from screens.raster import DOTS, Style
from screens.theme import ROLES
from screens.view import view
from tests.screens.walk import at_size, desks

SIZES = ((80, 24), (60, 20), (40, 12), (200, 60), (80, 40))
WORDS = ("CAUTION", "CHECK", "STOP", "FAIL", "UNDECIDED", "NOT")
UNSAFE = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
CONTROL_GLYPHS = "▲▼►◄↑↓→←"
"""Glyphs that code page 437 has in the places of control characters."""


@pytest.fixture(scope="module")
def states(tmp_path_factory: pytest.TempPathFactory) -> list[Desk]:
    """The desk in every state of a straight job."""
    found = list(desks(tmp_path_factory.mktemp("jobs")))
    assert found[-1].walk is not None and found[-1].walk.open is None, "the job never came to its end"
    return found


def words(line: Line) -> str:
    """The text of a line."""
    return "".join(text for text, _ in line)


def test_the_walk_sees_every_stage(states: list[Desk]) -> None:
    seen = Counter(desk.step.stage for desk in states if desk.step is not None)
    assert set(seen) == {"measure", "size", "cut", "verify"}
    assert min(seen.values()) >= 3


@pytest.mark.parametrize("style", list(DOTS))
@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_a_page_fills_its_window_and_no_more(states: list[Desk], size: tuple[int, int], style: Style) -> None:
    columns, rows = size
    for desk in states:
        lines = view(at_size(desk, columns, rows), Look(style))
        assert len(lines) == rows
        for line in lines:
            assert width(line) <= columns, words(line)
            assert {role for _, role in line} <= set(ROLES)
            assert not {letter for letter in words(line) if unicodedata.category(letter) in UNSAFE}


@pytest.mark.parametrize("size", SIZES[:3], ids=lambda size: f"{size[0]}x{size[1]}")
def test_cautions_and_alarms_begin_with_a_word(states: list[Desk], size: tuple[int, int]) -> None:
    met = 0
    for desk in states:
        before = ""
        for line in view(at_size(desk, *size), Look("half")):
            role = next((role for _, role in line if role in ("caution", "alarm")), "")
            if role and role != before:
                met += 1
                assert words(line).strip().startswith(WORDS), words(line)
            before = role
    assert met > 20


def test_plain_characters_have_a_likeness_for_everything_shown(states: list[Desk]) -> None:
    for desk in states:
        for line in view(at_size(desk, 80, 24), Look("ascii")):
            assert plain(words(line)).count("?") == words(line).count("?"), words(line)


def test_half_block_pages_are_in_code_page_437(states: list[Desk]) -> None:
    for desk in states:
        for line in view(at_size(desk, 80, 24), Look("half")):
            text = "".join(letter for letter in words(line) if letter not in CONTROL_GLYPHS)
            text.encode("cp437")


@pytest.mark.parametrize("size", SIZES[:3], ids=lambda size: f"{size[0]}x{size[1]}")
def test_question_and_keys_stand_on_every_step(states: list[Desk], size: tuple[int, int]) -> None:
    for desk in states:
        if desk.page != "step" or desk.step is None:
            continue
        lines = [words(line) for line in view(at_size(desk, *size), Look("half"))]
        start = desk.step.title.split()[0]
        assert any(start in line for line in lines[:4]), desk.step.key
        assert "Enter" in lines[-1]

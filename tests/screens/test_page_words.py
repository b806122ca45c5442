"""How much there is to read: words on a page of a straight job, and what is known from a metre away."""

from __future__ import annotations

import re
import statistics

import pytest

from bench.desk.desk import Desk
from screens.layout import Line, text_of
from screens.look import Look
from screens.view import view
from tests.screens.keying import at_size
from tests.whole.page_words import SIZES, pages, words_on

WORDY = 58
"""Median of the words on a page, its cautions left out, when how a thing is done stood on it, all keys below
it; the same at 80 x 24 and 100 x 30.
"""
LARGE = ("strong", "entry", "chosen", "caution", "alarm")
"""Roles that are read from a metre away: bold, coloured or in large figures."""
CHOICE = re.compile(r"^ {2}(\d)  \S")
ACTS = r"face|centre|rough|finish|last|chamfer|part|dress|turn|bore|rest|let|raise|low first|set up|vent"


@pytest.fixture(scope="module")
def straight(tmp_path_factory: pytest.TempPathFactory) -> list[Desk]:
    """Each page of a straight job, with nothing typed."""
    return list(pages(tmp_path_factory.mktemp("words")))


def test_a_page_has_at_least_a_quarter_fewer_words(straight: list[Desk]) -> None:
    for size in SIZES:
        counts = [words_on(desk, *size) for desk in straight]
        assert len(counts) > 45 and min(counts) > 10
        assert statistics.median(counts) <= 0.75 * WORDY, sorted(counts)


def far(desk: Desk) -> tuple[str, bool, int]:
    """What is seen from a metre away: words said large, whether a number is asked, how many choices."""
    lines = view(at_size(desk, 80, 24), Look("half"))
    return (
        said_large(lines),
        any(map(asks_a_number, lines)),
        len({one for one in map(number_of, lines) if one}),
    )


def said_large(lines: list[Line]) -> str:
    """Bold words but for those of cautions."""
    bold = (text for one in lines for text, role in one if role == "strong")
    return " ".join(" ".join(bold).split())


def asks_a_number(one: Line) -> bool:
    """Large figures, or the gaps for them."""
    return any(role == "entry" and set(text) & set("▀▄█") for text, role in one)


def number_of(one: Line) -> str:
    """The number of a choice."""
    found = CHOICE.match(text_of(one))
    return found[1] if found else ""


def test_the_next_act_is_known_from_a_metre_away(straight: list[Desk]) -> None:
    """A question or an act in bold, and what is keyed for it: a number, or one of the choices."""
    for desk in straight:
        step = desk.step
        assert step is not None
        said, number, choices = far(desk)
        assert said.startswith(step.title[:40]), (step.key, said)
        if step.kind == "number" or step.readback is not None:
            assert number and not choices, step.key
        else:
            assert choices == len(step.choices), step.key
            assert said.rstrip().endswith("?") or re.match(ACTS, said.lower()), (step.key, said)


def test_the_act_stands_first_and_in_few_lines(straight: list[Desk]) -> None:
    longer = 0
    for desk in straight:
        lines = view(at_size(desk, 80, 24), Look("half"))
        bold = [at for at, one in enumerate(lines) if one and one[0][1] == "strong"]
        assert bold[0] <= 2, desk.at
        assert desk.step is not None
        longer += len(desk.step.title) > 78
        assert len(desk.step.title) <= 2 * 78, desk.step.key
    assert longer <= 8, longer

"""Without any colour every state is still told: by a word of its own, or by weight, reverse or underline."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest
from rich.style import Style

from bench.desk.desk import Desk
from bench.desk.typed import AnswerLine
from screens.look import Look
from screens.pages.overview import LEAST
from screens.theme import styles
from screens.view import view
from tests.screens.album import SIZES, album
from tests.screens.keying import at_size
from tests.screens.painting import rows_of, text_of_row

PLAIN = styles(depth="none")
WORDS = re.compile(r"\b(STOP|CHECK|CAUTION|PASS|FAIL|UNDECIDED|NOT FINISHED)\b")
STATES = ("caution", "alarm", "chosen")
"""Roles that stand for a state."""


def marks(style: Style | None) -> tuple[bool, bool, bool]:
    """Weight, reverse and underline of a style."""
    return (False,) * 3 if style is None else (bool(style.bold), bool(style.reverse), bool(style.underline))


def told_apart(states: dict[str, Style]) -> bool:
    """Whether every state differs from plain ink without a colour."""
    plain = marks(states["ink"])
    return all(marks(states[role]) != plain for role in STATES)


def test_no_colour_is_painted() -> None:
    for desk in list(album().values())[::7]:
        for row in rows_of(desk, (80, 24), PLAIN):
            for segment in row:
                assert segment.style is None or (segment.style.color, segment.style.bgcolor) == (None, None)


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_every_state_painted_is_told_without_colour(size: tuple[int, int]) -> None:
    """Each run of lines in a role of a state begins with its word,
    or differs in its marks from the lines round it.
    """
    met: Counter[str] = Counter()
    for heading, desk in album().items():
        before = ""
        for line in view(at_size(desk, *size), Look("half")):
            role = next((role for _, role in line if role in STATES), "")
            if role and role != before:
                met[role] += 1
                text = "".join(text for text, _ in line)
                assert marks(PLAIN[role]) != marks(PLAIN["ink"]), (heading, role)
                assert role == "chosen" or WORDS.search(text), (heading, text)
            before = role
    assert met["caution"] > 30 and met["alarm"] >= 3 and met["chosen"] >= 1, met


def chosen_line(desk: Desk, size: tuple[int, int], table: dict[str, Style]) -> list[str]:
    """The numbered lines that stand out by their marks; of a second column beside them nothing counts."""
    found = []
    for row in rows_of(desk, (min(size[0], LEAST[0] - 1), size[1]), table):
        text = text_of_row(row)
        if re.match(r"  \d  (?! ?Enter)", text) and any(
            marks(part.style) != marks(table["ink"]) for part in row if part.text.strip()
        ):
            found.append(text.strip())
    return found


@pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def test_exactly_the_entry_chosen_stands_out(size: tuple[int, int]) -> None:
    """On every page with numbered entries, for the first and the second."""
    met = 0
    for heading, desk in album().items():
        empty = replace(desk, line=AnswerLine())
        rows = [text_of_row(row) for row in rows_of(empty, size, PLAIN)]
        numbered = any(re.match(r"  2  ", row) for row in rows)
        if desk.page not in ("step", "list", "pick", "account", "damage") or not numbered:
            continue
        met += 1
        assert chosen_line(empty, size, PLAIN) == [], heading
        there = [digit for digit in "123" if any(row.startswith(f"  {digit}  ") for row in rows)]
        for digit in there[:2]:
            found = chosen_line(replace(desk, line=AnswerLine(digit)), size, PLAIN)
            assert found and found[0].startswith(digit) and all(f[0] == digit for f in found), (
                heading,
                found,
            )
    assert met > 40


def words_of(desk: Desk, size: tuple[int, int] = (80, 60)) -> set[str]:
    """The words of states on a page."""
    return set(
        WORDS.findall("\n".join(text_of_row(row) for row in rows_of(desk, size, PLAIN)).replace("Und", "UND"))
    )


PAIRS: dict[str, Callable[[dict[str, Desk]], tuple[Desk, Desk, str]]] = {
    "refused": lambda a: (replace(a["not saved"], alarm=False), a["not saved"], "STOP"),
    "nothing more is saved": lambda a: (replace(a["jammed"], jammed=""), a["jammed"], "STOP"),
    "set aside": lambda a: (a["account of a job in hand"], a["account, a torn last answer"], "CHECK"),
    "read only": lambda a: (a["account of a job in hand"], a["account, read only"], "CHECK"),
    "changed": lambda a: (a["account of a job in hand"], a["damage: a value changed"], "CHECK"),
    "failed": lambda a: (a["remade: sheet at the end"], a["searched: sheet at the end"], "FAIL"),
    "passed": lambda a: (a["sheet of a job in hand"], a["remade: sheet at the end"], "PASS"),
    "not finished": lambda a: (a["remade: sheet at the end"], a["sheet of a job in hand"], "NOT FINISHED"),
}
"""Pages without and with a state, and its word."""


@pytest.mark.parametrize("state", PAIRS)
def test_a_state_has_its_word(state: str) -> None:
    without, with_it, word = PAIRS[state](album())
    assert word in words_of(with_it) and word not in words_of(without)


def test_undecided_is_said_where_it_is_so() -> None:
    for heading in ("straight: fit_ready", "straight: sheet at the end"):
        text = "\n".join(text_of_row(row) for row in rows_of(album()[heading], (80, 60), PLAIN))
        assert "undecided" in text.lower(), heading


@pytest.mark.parametrize("role", STATES)
def test_a_state_painted_like_plain_ink_is_found(role: str) -> None:
    """A planted fault."""
    assert told_apart(PLAIN)
    assert not told_apart({**PLAIN, role: PLAIN["ink"]})
    if role == "chosen":
        desk = album()["list with an entry chosen"]
        assert chosen_line(desk, (80, 24), PLAIN)
        assert not chosen_line(desk, (80, 24), {**PLAIN, "chosen": PLAIN["ink"]})

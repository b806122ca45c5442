"""What changed in wording is gone from the product:
none of the old phrases that the table gives whole is left.
"""

from __future__ import annotations

import re

import pytest

from tests.house.checks import TOP
from tests.house.test_words import product, sentences
from tests.whole.changed_words import now_said, table, whole_phrases

FIGURE = re.compile(r"[+-]?\d+(?:\.\d+)?")
WITH_UNIT = re.compile(rf"{FIGURE.pattern}(?: [mu]m\b)?")
"""A figure with its unit, which is said with it in mm or in inch."""
ENOUGH = 3
"""Words that make a piece of a phrase that can be told from chance."""


def pieces(phrase: str, figure: re.Pattern[str] = FIGURE) -> list[str]:
    """A phrase between its figures, as the product's text holds it, where it is long enough."""
    return [piece for piece in map(str.strip, figure.split(phrase)) if len(piece.split()) >= ENOUGH]


def said() -> str:
    """Everything the product says, literal by literal, with its tables."""
    tables = [path.read_text(encoding="utf-8") for path in product() if path.suffix == ".toml"]
    return "\n".join([*sentences(), *tables, (TOP / "README.md").read_text(encoding="utf-8")])


def test_no_old_phrase_is_left() -> None:
    text = said()
    left = [
        piece for old, new in whole_phrases() for piece in pieces(old) if piece not in new and piece in text
    ]
    assert left == []


@pytest.mark.parametrize("page", table())
def test_every_row_changes_something(page: str) -> None:
    assert table()[page] and all(old != new for old, new in table()[page])


def test_new_phrases_are_what_is_said() -> None:
    """Of three pieces two stand whole in one literal; the others hold names and words put in."""
    text = said()
    new = [piece for _, new in whole_phrases() for piece in pieces(new, WITH_UNIT) if "..." not in piece]
    there = [piece for piece in new if piece in text]
    assert len(there) >= 2 / 3 * len(new)


def test_the_sheet_is_said_in_the_words_of_now() -> None:
    assert now_said("Empty case: pass by method method not named.") == "Empty case: pass by method not named."

"""Shop files as people write them wrong: each is refused with its line, the reason, what to write instead."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from bench.file.slug import SHOP
from bench.shop.shop import ShopWrong, load
from bench.shop.unreadable import reason

WRONG: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "wrong_shops.toml").read_text(encoding="utf-8")
)["wrong"]
LEAST = 40


def test_they_are_many_and_each_another() -> None:
    assert len({one["text"] for one in WRONG}) == len(WRONG) >= LEAST


@pytest.mark.parametrize("wrong", WRONG, ids=[one["what"] for one in WRONG])
def test_line_reason_and_what_to_write_instead_are_said(tmp_path: Path, wrong: dict[str, Any]) -> None:
    (tmp_path / SHOP).write_text(wrong["text"], encoding="utf-8")
    with pytest.raises(ShopWrong) as why:
        load(tmp_path)
    said = str(why.value)
    assert said.startswith(f"{SHOP} line {wrong['line']}: ")
    assert wrong["reason"] in said
    assert wrong["instead"] in said
    assert "\n" not in said


@pytest.mark.parametrize(
    ("line", "said", "expected"),
    [
        ("a = 1", "Cannot overwrite a value", "a stands twice; take one of them out"),
        ("[bar]", "Cannot declare ('bar',) twice", "[bar] stands twice; take one of them out"),
        ("a = 0,5 # half", "x", "a comma in a number; write a point: a = 0.5"),
        ("a = -0,5", "x", "a comma in a number; write a point: a = -0.5"),
        ("a = 3 mm", "x", "mm behind a number, whose unit stands in its name; write a = 3"),
        ('a = 0.5"', "x", '" behind a number, whose unit stands in its name; write a = 0.5'),
        ("a = Yes", "x", "a must be true or false, in small letters; write a = true"),
        ("a = off", "x", "a must be true or false, in small letters; write a = false"),
        ("a = TRUE", "x", "a must be true or false, in small letters; write a = true"),
        ('a = "b', "x", 'a quotation mark is missing; write a = "b"'),
        ("a = b c", "x", 'a text stands in quotation marks; write a = "b c"'),
        ("a = (5", "x", "x"),
        (
            "a =",
            "Invalid value (at line 1)",
            "the value cannot be read; a text stands in quotation marks, a number without",
        ),
        ("a = 99", "Exceeds the limit", "a number has too many digits"),
        ("a: 5", "x", "a colon where = belongs; write a = 5"),
        ("a 5", "x", "x"),
        ("[bar", "x", "a bracket is missing; write [bar]"),
        ("[[bar]", "x", "a bracket is missing; write [[bar]]"),
        ("[bar]", "x", "x"),
        ("a = \u201cb\u201d", "x", 'quotation marks of a text program; write plain ones: a = "b"'),
    ],
)
def test_a_line_is_explained_by_its_look(line: str, said: str, expected: str) -> None:
    assert reason(line, said) == expected

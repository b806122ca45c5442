"""Shop files as people write them wrong: each is refused with its line, the reason, what to write instead."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from bench.file.slug import SHOP
from bench.shop.shop import ShopWrong, load

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

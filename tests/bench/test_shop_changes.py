"""shop.toml changed by the program: the short form of the campaign, and the faults that it has to see."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from bench.file.slug import SHOP
from bench.shop import pieces, writing
from bench.shop.changes import Change
from bench.shop.file import ShopWrong
from bench.shop.layout import SectionText, comments
from bench.shop.shop import built_in, load
from bench.shop.starter import starter_text
from tests.campaigns import shop_changes
from tests.whole.stated import stated


def test_a_hundred_changes_keep_every_comment_and_what_was_not_said() -> None:
    counts = shop_changes.run()
    assert counts.clean, counts
    for seen in ("grown", "taken out", "line ends kept", "left as it was", "begun anew"):
        assert counts.seen[seen] > 0, counts
    assert counts.seen["written"] == 100
    assert all(counts.seen[f"said: {part}"] for part in shop_changes.PARTS)


def test_comments_lost_with_a_section_are_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pieces, "only_comments", lambda _: "")
    monkeypatch.setattr(writing, "check", lambda *_: None)
    assert shop_changes.run().lost > 0


def test_values_written_anew_without_need_are_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    def all_of_them(edited: Any, way: pieces.Address, _was: object, now: dict[str, Any]) -> None:
        for name, value in now.items():
            if not isinstance(value, list | dict):
                edited.set(way, name, value)

    monkeypatch.setattr(writing, "differ", all_of_them)
    assert shop_changes.run(most=3).seen["WRONG: written anew without need"] > 0


def test_a_text_that_would_lose_a_comment_is_not_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stated(tmp_path)
    text = (
        (tmp_path / SHOP).read_text(encoding="utf-8").replace("length_mm = 150.0", "length_mm = 150.0 # mine")
    )
    (tmp_path / SHOP).write_text(text, encoding="utf-8")
    monkeypatch.setattr(pieces, "only_comments", lambda _: "")
    shop = load(tmp_path)
    with pytest.raises(ShopWrong, match="left as it is"):
        writing.write_said(tmp_path, shop, (Change("bar", (None,) * len(shop.bars)),))
    assert (tmp_path / SHOP).read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ('a = "x # y" # one\n', ["# one"]),
        ("a = 'it''s' # one\n", ["# one"]),
        ('a = """\n# no\n""" # one\n# two', ["# one", "# two"]),
        ("a = [ # one\n 1, # two\n] # three\n", ["# one", "# two", "# three"]),
        ('a = "\\"#" # one', ["# one"]),
        ('a = "b\\\\" # one', ["# one"]),
        ('a = "\\"\\"" # one "two"', ['# one "two"']),
        ("a = 1", []),
    ],
)
def test_a_comment_is_told_from_a_text(text: str, found: Sequence[str]) -> None:
    assert comments(text) == found


@pytest.mark.parametrize("groups", [("press",), ("lathe", "instrument")])
def test_a_file_that_names_a_few_groups_changes_to_inch_and_back(
    tmp_path: Path, groups: tuple[str, ...]
) -> None:
    (tmp_path / SHOP).write_text("# ours\n" + starter_text(built_in(), groups), encoding="utf-8")
    shop = load(tmp_path)
    inch = writing.write_said(tmp_path, shop, (Change("works_in", ("inch",)),))
    assert (inch.works_in, inch.said) == ("inch", frozenset(groups))
    assert inch.tools == built_in("inch").tools and inch.bars == built_in("inch").bars
    assert (inch.lathes == shop.lathes) is ("lathe" in groups)
    assert writing.write_said(tmp_path, inch, (Change("works_in", ("mm",)),)) == shop
    assert "# ours" in (tmp_path / SHOP).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("body", "own", "behind"),
    [
        ("# a\n# b\n", "", "# a\n# b\n"),
        ("a = 1\n", "a = 1\n", ""),
        ("# a\na = 1 # its own\n\n# of the next\n", "# a\na = 1 # its own\n", "\n# of the next\n"),
        ("a = [\n 1,\n\n # two\n 2,\n]\n# next\n", "a = [\n 1,\n\n # two\n 2,\n]\n", "# next\n"),
        ("", "", ""),
    ],
)
def test_what_stands_behind_the_last_value_belongs_to_the_next(body: str, own: str, behind: str) -> None:
    assert SectionText("bar.0", "[[bar]]\n", body).above_the_next == (own, behind)


def test_a_file_without_a_last_line_end_is_not_run_into(tmp_path: Path) -> None:
    """What is written behind it stands on a line of its own, and what stood there stays."""
    (tmp_path / SHOP).write_text('shop_name = "Quay"', encoding="utf-8")
    shop = load(tmp_path)
    writing.write_said(tmp_path, shop, (Change("bar", shop.bars),))
    lines = (tmp_path / SHOP).read_text(encoding="utf-8").split("\n")
    assert lines[0] == 'shop_name = "Quay"' and "[[bar]]" in lines
    again = load(tmp_path)
    assert (again.shop_name, again.bars) == ("Quay", shop.bars)

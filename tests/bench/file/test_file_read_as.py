"""How a file reads after each way of changing it, beside what was kept; and what holds of every way."""

from __future__ import annotations

import pytest

from bench.file.load import load
from tests.bench.file.make_read_as import FILE, many_blocks, read_as, ways

KEPT = {
    name: lines.splitlines()
    for name, _, lines in (part.partition("\n") for part in FILE.read_text(encoding="utf-8").split("== ")[1:])
}
WAYS = dict(ways())


@pytest.mark.parametrize("name", WAYS)
def test_it_reads_as_kept(name: str) -> None:
    """`python -m tests.bench.file.make_read_as` keeps them anew, once the difference was looked at."""
    assert read_as(WAYS[name]) == KEPT[name]


def test_no_way_is_missing() -> None:
    assert list(KEPT) == list(WAYS) and len(WAYS) > 150


@pytest.mark.parametrize("name", [name for name, _ in many_blocks() if name.startswith("in the order")])
def test_the_order_of_the_blocks_says_nothing(name: str) -> None:
    assert [one.n for one in load(WAYS[name]).usable] == [1, 2, 3, 4, 5]


@pytest.mark.parametrize("name", WAYS)
def test_while_anything_is_to_be_looked_at_nothing_counts(name: str) -> None:
    loaded = load(WAYS[name])
    assert loaded.gated == bool(loaded.findings)
    assert not (loaded.gated and loaded.usable)
    assert all(one.line >= 1 and one.words for one in loaded.findings)
    assert loaded.trusted_end + len(loaded.torn) <= len(WAYS[name])

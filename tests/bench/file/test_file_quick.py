"""The quick reading of a block against the TOML reader: the same, or left to it."""

from __future__ import annotations

import tomllib
from collections import Counter

from hypothesis import given, settings, strategies as st

from bench.file.codec import render_entry
from bench.file.entry import Entry
from bench.file.quick import plain_fields
from tests.bench.file.texts import AT
from tests.bench.test_standing import SAMPLES

SEEN: Counter[bool] = Counter()
WORDS = 'true false null NaN inf n value 0x1f 1_000 -0 1e5 12:00:00 2026-01-01 [] [1,] {} {"a":1} [["a"]]'
HARD = (
    '"x"',
    " = ",
    '["a", "b"]',
    '"""',
    '"\\/"',
    "\\u0041",
    "\\ud83d\\ude00",
    "\x7f",
    "\x00",
    "\u0085",
    "\u2028",
    "\u00e9",
)
PIECES = (*"abn_=# \t\n\r\"'\\/,.[]{}0123456789-+eE:", *WORDS.split(), *HARD)


def same(block: bytes) -> None:
    """Both readers agree, or the quick one leaves it."""
    quick = plain_fields(block)
    SEEN[quick is not None] += 1
    if quick is not None:
        assert repr(quick) == repr(tomllib.loads(block.decode("utf-8")))


def test_every_block_of_the_samples_is_read_quickly_and_rightly() -> None:
    for path in SAMPLES:
        blocks = path.read_bytes().split(b"[[entry]]\n")[1:]
        for block in blocks:
            assert plain_fields(block) is not None
            same(block)


@settings(max_examples=1200, deadline=None, database=None)
@given(st.lists(st.sampled_from(PIECES), max_size=12).map("".join), st.sampled_from(("", "n = ", "value = ")))
def test_anything_is_read_as_toml_reads_it(text: str, before: str) -> None:
    same(f"{before}{text}\n".encode("utf-8", "surrogatepass"))


@settings(max_examples=300, deadline=None, database=None)
@given(st.text(max_size=20))
def test_any_text_that_is_written_is_read(text: str) -> None:
    entry = Entry(
        n=1, at=AT, kind="note", key="", value="".join(c for c in text if not "\ud800" <= c <= "\udfff")
    )
    same(render_entry(entry, salt="2265b1f5").partition(b"[[entry]]\n")[2])


def test_both_ways_were_gone() -> None:
    for text in ("n = 1\n", "n = 1 # why\n"):
        same(text.encode())
    assert SEEN[True] and SEEN[False]

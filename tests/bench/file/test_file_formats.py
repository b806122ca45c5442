"""Every format ever released keeps loading: one saved file and its content for each version.

These files are never changed. A new format adds a pair beside them.
"""

from __future__ import annotations

import json
import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from bench.file.codec import render_entry, render_head
from bench.file.entry import FORMAT, Value
from bench.file.load import load

FORMATS = Path(__file__).parent / "formats"
SAVED = sorted(FORMATS.glob("format-*.toml"))


def test_there_is_a_saved_file_for_every_format() -> None:
    assert [path.stem for path in SAVED] == [f"format-{number}" for number in range(1, FORMAT + 1)]


def _as_json(value: Value) -> object:
    if isinstance(value, Decimal):
        return {"decimal": str(value)}
    if isinstance(value, tuple):
        return [_as_json(item) for item in value]
    return value


@pytest.mark.parametrize("path", SAVED, ids=lambda path: path.stem)
def test_a_saved_file_still_says_what_it_said(path: Path) -> None:
    expected = json.loads(path.with_suffix(".json").read_text())
    loaded = load(path.read_bytes())
    head = loaded.head
    assert (loaded.state, loaded.gated, loaded.read_only) == ("fine", False, False)
    assert head is not None
    assert {"format": head.format, "id": head.id, "job": head.job, "made_by": head.made_by} == expected[
        "head"
    ]
    found = [[e.n, e.at, e.kind, e.key, _as_json(e.value), e.of] for e in loaded.usable]
    assert found == expected["usable"]


@pytest.mark.parametrize("path", SAVED, ids=lambda path: path.stem)
def test_a_saved_file_is_ordinary_toml(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(tomllib.loads(text)["entry"]) == len(load(path.read_bytes()).entries)
    assert all(character.isprintable() or character == "\n" for character in text)


def test_the_writer_still_writes_format_1_byte_for_byte() -> None:
    saved = (FORMATS / "format-1.toml").read_bytes()
    loaded = load(saved)
    assert loaded.head is not None
    written = render_head(loaded.head)
    for entry in loaded.usable:
        block = render_entry(entry, salt=loaded.head.id)
        if entry.n == 2:  # corrected by hand in the saved file
            block = block[: block.index(b"crc = ")] + b'crc = "hand"\n'
        written += block
    assert written == saved

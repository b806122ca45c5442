"""Copies of one job that went on apart, made by hand: a further note in a file, and two of them joined."""

from __future__ import annotations

from pathlib import Path

from bench.file.codec import render_entry
from bench.file.entry import Entry
from bench.file.load import load
from bench.folder import shop_in
from bench.joining.writing import pair_of, write_joined

AT = "2026-05-04T09:10:00+00:00"


def noted(path: Path, words: str, *, into: Path | None = None) -> Path:
    """A session file with one more note, or such a copy of it."""
    data = path.read_bytes()
    loaded = load(data)
    assert loaded.head is not None
    note = Entry(n=loaded.next_n, at=AT, kind="note", key="note", value=words)
    (into or path).write_bytes(data + render_entry(note, salt=loaded.head.id))
    return into or path


def joined(folder: Path, one: Path, other: Path) -> Path:
    """The third file of two copies that answer nothing differently."""
    return write_joined(pair_of(one, other, shop_in(folder)), {}, shop_in(folder), at=AT)

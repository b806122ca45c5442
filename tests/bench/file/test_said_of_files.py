"""Everything that is said of files changed outside the program, as it was read once and found true.

python -m tests.bench.file.test_said_of_files writes `said_of_files.md` anew; read the difference first.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from bench.edits.judging import judged
from bench.file.codec import render_entry
from bench.file.entry import Entry
from bench.file.load import Finding, Loaded, load
from bench.shop.shop import built_in
from tests.bench.file.test_file_load import DAMAGES
from tests.bench.file.texts import AT, ENTRIES, HEAD, answer, block, file_of, job, sealed, with_crc_of
from tests.campaigns.edit_draws import blocks_of

KEPT = Path(__file__).with_name("said_of_files.md")
SAMPLES = Path(__file__).resolve().parents[3] / "sample_sessions"
CHANGED = job().replace(b"29.48", b"28.49")
GAP = file_of(*ENTRIES[:2], *ENTRIES[3:])
NEWER = {"n": 6, "at": AT, "kind": "answer", "key": "ring", "value": "x", "later": "y"}


def confirmed(data: bytes) -> bytes:
    """A file with its first finding accepted."""
    loaded = load(data)
    found, head = loaded.findings[0], loaded.head
    assert head is not None
    entry = Entry(n=loaded.next_n, at=AT, kind="confirm", key="", value=found.mark, of=found.of)
    return data + render_entry(entry, salt=head.id)


def put_back() -> bytes:
    """A change that was accepted, and taken back in the editor since."""
    return confirmed(CHANGED).replace(b"28.49", b"29.48")


LONG = answer(6, ("36.430 mm",) * 9, "ring")
DONE = answer(6, ("done", "bore: go to 35.19, diameter"), "last_bore")
UNDO = Entry(n=6, at=AT, kind="undo", key="case_bore_1", value="29.48 mm", of=3)
FILES: dict[str, bytes] = {
    "as it was written": job(),
    "a value changed": CHANGED,
    "a value changed, its first line moved": CHANGED.replace(
        b"\n[[entry]]\nn = 3", b"\n\n\n[[entry]]\nn = 3"
    ),
    "a value changed, and said so": with_crc_of(CHANGED, 3, "hand"),
    "an entry missing": GAP,
    "three entries missing": file_of(ENTRIES[0], ENTRIES[4]),
    **DAMAGES,
    "a damaged entry without a number between two": job().replace(
        b"\n[[entry]]\nn = 2", block('kind = "answer"\nkey = "x"\n') + b"\n[[entry]]\nn = 2"
    ),
    "two entries with one number": file_of(*ENTRIES, answer(3, "30.00 mm")),
    "an entry twice": file_of(*ENTRIES[:3], ENTRIES[2], *ENTRIES[3:]),
    "an entry twice, the second changed": file_of(*ENTRIES)
    + with_crc_of(render_entry(ENTRIES[4], salt=HEAD.id), 5, "0" * 8),
    "text between entries": job().replace(b"\n[[entry]]\nn = 4", b"\nwhat is this\n\n[[entry]]\nn = 4"),
    "an entry whose number was changed": job().replace(b"n = 3", b"n = 9"),
    "a change accepted": confirmed(CHANGED),
    "a gap accepted": confirmed(GAP),
    "a damaged entry accepted": confirmed(DAMAGES["zeros"]),
    "a change accepted and changed again": confirmed(CHANGED).replace(b"28.49", b"27.00"),
    "a change accepted and put back": put_back(),
    "a gap accepted and come back": confirmed(GAP).replace(
        b"\n[[entry]]\nn = 4", render_entry(ENTRIES[2], salt=HEAD.id) + b"\n[[entry]]\nn = 4"
    ),
    "a long value changed": with_crc_of(file_of(*ENTRIES, LONG), 6, "hand"),
    "an act changed": with_crc_of(file_of(*ENTRIES, DONE), 6, "hand"),
    "an undo changed": with_crc_of(file_of(*ENTRIES, UNDO), 6, "hand"),
    "a note changed": job().replace(b"glued before", b"glued"),
    "two values changed": CHANGED.replace(b"30.10", b"31.10"),
    "four values changed": CHANGED.replace(b"30.10", b"31.10")
    .replace(b"1.20", b"1.30")
    .replace(b"29.46", b"1"),
    "the last answer torn": job()[:-30],
    "two answers torn": job()[:-30] + b"\n[[entry]]\nn = 6\n",
    "the head corrected": job().replace(b'"A-1042"', b'"A-1043"').replace(b"\ncrc", b'\ncrc = "hand" #', 1),
    "the head changed": job().replace(b'"A-1042"', b'"A-1043"'),
    "the head gone": job()[job().index(b"\n[[entry]]") :],
    "a newer format": file_of(*ENTRIES, head=replace(HEAD, format=2)),
    "a newer word in an entry": job() + sealed(NEWER),
    "with a byte order mark": b"\xef\xbb\xbf" + CHANGED,
    "in another character code": job().decode().encode("utf-16"),
    "lines ended otherwise": job().replace(b"\n", b"\r\n"),
    "lines ended in a way not understood": job().replace(b"\n", b"\r"),
    "empty": b"",
    "blank": b"\n \n",
    "another text": b"Dear Sir,\n",
    "an archive": b"PK\x03\x04rest",
}
"""Files changed as people and editors change them."""


def edited(key: str, old: str, new: str, sample: str = "00208") -> Callable[[], bytes]:
    """A sample whose newest answer to a key was changed, and said so."""

    def made() -> bytes:
        blocks = blocks_of(next(SAMPLES.glob(f"{sample}-*")).read_text(encoding="utf-8"))
        at = max(n for n, one in enumerate(blocks) if f'key = "{key}"' in one)
        assert old in blocks[at], blocks[at]
        blocks[at] = re.sub(r'crc = ".*"\n', 'crc = "hand"\n', blocks[at].replace(old, new))
        return "".join(blocks).encode()

    return made


EDITS: dict[str, Callable[[], bytes]] = {
    "a seat with a comma": edited("case_bore_1", "34.18 mm", "34,19mm"),
    "a seat that cannot be": edited("case_bore_1", "34.18 mm", "341.8 mm"),
    "a choice that is none": edited("bench", "clean", "spotless"),
    "a key in capitals": edited("bench", 'key = "bench"', 'key = "Bench"'),
    "a key that is none": edited("bench", 'key = "bench"', 'key = "workbench"'),
    "a mark of another name": edited("sitting", 'key = "sitting"', 'key = "seating"'),
    "the key of a mark on an answer": edited("bench", 'key = "bench"', 'key = "attempt"'),
    "a seat that the ring was not sized for": edited("ring", "seat_u 0.04", "seat_u 0.14"),
    "a squeeze that is not so": edited("ring", "squeeze ", "squeeze 1"),
    "a pressure out of reach": edited("cased_result", "pressure 3 bar", "pressure 30 bar"),
    "a result turned round": edited("cased_result", '"pass"', '"fail"'),
    "a moment before its hold": edited("cased_result", "2026-", "2025-"),
    "a renewed seal": edited("renewed", "back_crown", "none"),
    "a seat with a comma, accepted": lambda: confirmed(EDITS["a seat with a comma"]()),
    "a seat that cannot be, accepted": lambda: confirmed(EDITS["a seat that cannot be"]()),
    "a result turned round, accepted": lambda: confirmed(EDITS["a result turned round"]()),
    "a confirm changed": lambda: with_crc_of(EDITS["a renewed seal, accepted"](), 55, "hand"),
    "a renewed seal, accepted": lambda: confirmed(EDITS["a renewed seal"]()),
    "the bore of a ring tried before": edited("ring", "bore 27.37", "bore 27.36", "00214"),
    "what a test was stopped for": edited("empty_result", '"pass"', '"not_judged"', "00226"),
}
"""Answers of a sample job changed in an editor."""


def said_of(loaded: Loaded) -> list[str]:
    """All that a loaded file says, a line each."""
    marked = [one for one in loaded.entries if one.found != "ok" or one.settled]
    return [
        f"{loaded.state}{', gated' * loaded.gated}{', read only' * loaded.read_only}; next {loaded.next_n}; "
        f"{len(loaded.usable)} of {len(loaded.entries)} used; trusted to {loaded.trusted_end}, "
        f"torn {len(loaded.torn)}; head {'no' if loaded.head is None else loaded.head.job}",
        loaded.message,
        *map(finding_said, loaded.findings),
        *(f"read: {one.entry.n} {one.found} line {one.line}{' settled' * one.settled}" for one in marked),
        *(f"used: {one.n} {one.key} {one.value!r} {one.accepted}" for one in loaded.usable if one.accepted),
        *(f"accepted: {words}" for words in loaded.accepted),
    ]


def finding_said(one: Finding) -> str:
    """A finding in a line."""
    counts = (
        f"{one.entry.key} {one.entry.value!r} would count" if one.entry is not None else "none would count"
    )
    return (
        f"finding: of {one.of}, {one.state}, line {one.line}, mark {one.mark}{', refused' * one.refused}: "
        f"{one.words} ({counts})"
    )


def described(name: str) -> list[str]:
    """What is said of a file by its name here."""
    if name in FILES:
        return said_of(load(FILES[name]))
    data = EDITS[name]()
    return said_of(judged(load(data), built_in()))


@cache
def kept() -> dict[str, list[str]]:
    """What was kept, by name."""
    parts = KEPT.read_text(encoding="utf-8").split("\n## ")[1:]
    return {
        name: [line.removeprefix("- ") for line in text.strip("\n").split("\n")]
        for name, _, text in (part.partition("\n\n") for part in parts)
    }


@pytest.mark.parametrize("name", [*FILES, *EDITS])
def test_it_is_said_as_it_was_kept(name: str) -> None:
    assert described(name) == kept()[name]


def test_a_change_is_looked_for_where_it_stands() -> None:
    """The line named is the one of the value, counted by hand in the bytes."""
    for name in ("a value changed", "a value changed, its first line moved", "with a byte order mark"):
        data = FILES[name]
        (found,) = load(data).findings
        assert data.split(b"\n")[found.line - 1] == b'value = "28.49 mm"', name
    (found,) = load(FILES["the head corrected"]).findings
    assert FILES["the head corrected"].split(b"\n")[found.line - 1] == b'job = "A-1043"'


if __name__ == "__main__":
    text = "".join(
        f"\n## {name}\n\n" + "".join(f"- {line}\n" for line in described(name)) for name in (*FILES, *EDITS)
    )
    KEPT.write_text(f"# Said of files\n{text}", encoding="utf-8")

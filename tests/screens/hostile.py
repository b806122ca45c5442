"""Text that would act on a terminal or a toolkit if it were let through, put in every place that shows text.

Invariant: a place that stores text gets it by the way a real one would:
in the session file, in shop.toml, on the desk as an arrival brings it.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from bench.desk.desk import Desk
from bench.desk.effects import JobRow, Listed, Open
from bench.desk.token import Token
from bench.desk.typed import AnswerLine
from bench.desk.update import update
from bench.file.load import Finding
from bench.shop.shop import built_in
from bench.shop.starter import starter_text
from screens.face import raw_letter
from tests.screens.keying import Keying
from tests.whole.scripts import straight

MARKUP = "[red]x[/red] [/] [bold reverse]b[/] [link=file:///tmp/a]y[/link] [@click=app.bell]z[/] :boom: \\[q]"
HOSTILE = {
    "markup": MARKUP,
    "escapes": "a\x1b[2J\x1b]0;title\x07\x1b]52;c;eA==\x1b\\\x1b[31mred\x1bcz",
    "controls": "a\x00\x07\x08\x0b\x0c\r\n\t\x7fz",
    "C1": "a\x84\x85\x9b31m\x9dtitle\x9cz",
    "bidi": "a\u202eb\u2066c\u2069\u200f\u061cz",
    "zero width": "a\u200b\u200c\u200d\u2060\ufeff\u00adz",
    "private": "a\ue000\U000f0000\U000e0001\uffffz",
    "separators": "a\u2028b\u2029c\u00a0\u3000z",
    "long": "length " * 700 + "w" * 5_100,
    "wide": "時計防水" * 40 + " ガラス " * 20 + "\U0001f512" * 30,
    "combining": "e\u0301" * 60 + "z" + "\u0300" * 80 + "\U0001f468\u200d\U0001f527\ufe0f",
}
"""Kinds of hostile text."""
UNSAFE = frozenset(("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"))
"""Unicode categories that must not reach a terminal."""


def unsafe_in(text: str) -> set[str]:
    """The characters of a text that must not reach a terminal."""
    return {letter for letter in text if unicodedata.category(letter) in UNSAFE}


def cells(text: str) -> int:
    """Columns of a text by Unicode's own tables (UAX #11), counted without the library that paints."""
    return sum(
        0
        if unicodedata.category(letter) in ("Mn", "Me")
        else 2
        if unicodedata.east_asian_width(letter) in "WF"
        else 1
        for letter in text
    )


def shop_text(name: str) -> str:
    """A shop.toml with a name in every place that takes a text; only printable ones are taken there."""
    printable = (
        "".join(letter for letter in name if letter.isprintable())[:180].replace("\\", "").replace('"', "")
    )
    text = starter_text(built_in())
    for usual in ("three-jaw chuck", "small bench lathe", "black", "hand press", "air tester", "boring bar"):
        text = text.replace(f'"{usual}"', f'"{printable}"')
    return text.replace('shop_name = ""', f'shop_name = "{printable}"').replace(
        'tester_number = ""', f'tester_number = "{printable}"'
    )


def hostile_job(folder: Path, text: str) -> Keying:
    """A whole job with the text as watch, remark, old ring and note, in a shop that is named so."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "shop.toml").write_text(shop_text(text), encoding="utf-8")
    keying = Keying(folder, step_s=700)
    keying.run("0")
    session = keying.bench.session
    assert session is not None
    for kind, key in (("answer", "watch"), ("answer", "remark"), ("answer", "old_ring"), ("note", "note")):
        session.append(kind=kind, key=key, value=text, at=keying.clock())
    path = session.path
    keying.feed(*keying.bench.carry_out([Open(path.name)]))
    keying.painted()
    keying.answer("1")
    return keying


def desks(folder: Path, text: str) -> Iterator[Desk]:
    """Every page that shows text of a user or a file, with the text in it."""
    keying = hostile_job(folder, text)
    yield keying.desk
    for _, desk in keying.answers(straight()):
        yield desk
    for page in (1, 2, 3):
        yield replace(keying.desk, scroll=12 * page)
    yield from lists(keying)
    yield from arrivals(keying.desk, text)
    keying.bench.close()


def lists(keying: Keying) -> Iterator[Desk]:
    """Lists and reading pages over a job."""
    keying.run("/", "*", "2")
    for _ in range(4):
        yield keying.desk
        keying.answer("+")
    keying.run("/", "*", "3")
    for _ in range(8):
        yield keying.desk
        keying.answer("+")
    for page in ("why", "account", "step", "text"):
        yield replace(keying.desk, page=page, at="remark", trail=())
        yield replace(keying.desk, page=page, at="ring", trail=())


def arrivals(desk: Desk, text: str) -> Iterator[Desk]:
    """Messages, findings, the list of jobs and the answer line, as they come to the desk."""
    for page in ("step", "account", "jobs"):
        yield replace(desk, page=page, message=text, alarm=True)
        yield replace(desk, page=page, message=text, alarm=False)
        yield replace(desk, page=page, message="", jammed=text)
    yield replace(desk, page="account", why_read_only=text, writable=False, file=text)
    finding = Finding(of=1, state="changed", line=1, words=text, mark="m", entry=None)
    yield replace(desk, page="damage", findings=(finding,) * 3, job=None, walk=None)
    yield replace(desk, page="text", at="note", line=AnswerLine(text))
    yield replace(desk, page="jobs", line=AnswerLine(text, void=text))
    for place in ("number", "watch", "stage", "step", "waiting_for", "since"):
        row = JobRow(**{"number": "7", "file": "00007-a.toml", "watch": "w", "stage": "cut", place: text})  # type: ignore[arg-type]
        yield with_rows(row)
    yield with_rows(
        JobRow(number=text, file=text, watch=text, stage=text, step=text, waiting_for=text, since=text)
    )
    if desk.job is not None:
        yield replace(desk, page="account", job=replace(desk.job, head=replace(desk.job.head, job=text)))


def with_rows(row: JobRow) -> Desk:
    """The list of jobs with one row on it."""
    return update(Desk(), Listed((row.file,), (row,)))[0]


def typed(desk: Desk, letters: str) -> Desk:
    """The desk after letters came as keys of a full keyboard, whatever they are."""
    for at, letter in enumerate(letters):
        token = Token("key", f"char:{letter}", at=1e6 + at, wall=desk.wall, raw=raw_letter(letter))
        desk, _ = update(desk, token)
    return desk

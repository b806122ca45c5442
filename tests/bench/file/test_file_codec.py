"""Blocks to bytes and back; what an editor may do without an alarm; what can never be written."""

from __future__ import annotations

import re
import tomllib
import unicodedata
import zlib
from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given, settings, strategies as st

from bench.clean import REPLACEMENT, clean
from bench.file.codec import BadShape, render_entry, render_head, writable_text
from bench.file.entry import LINE_LIMIT, Entry, Head, Scalar, Value
from bench.file.load import load
from bench.file.slug import file_name, number_of

HEAD = Head(format=1, id="2265b1f5", job="A-1042", made_by="ringwright 0.1")
AT = "2026-01-01T10:01:51+01:00"


def _answer(n: int, value: Value, key: str = "case_bore_1") -> Entry:
    return Entry(n=n, at=AT, kind="answer", key=key, value=value)


def _file(*entries: Entry) -> bytes:
    return render_head(HEAD) + b"".join(render_entry(entry, salt=HEAD.id) for entry in entries)


_text = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)
_decimal = st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**20), max_value=10**20, places=6)
_scalar: st.SearchStrategy[Scalar] = st.one_of(_text, st.booleans(), st.integers(-(2**62), 2**62), _decimal)
_value: st.SearchStrategy[Value] = st.one_of(_scalar, st.lists(_scalar, max_size=5).map(tuple))


@given(values=st.lists(_value, min_size=1, max_size=4), job=_text)
@settings(max_examples=150, deadline=None)
def test_what_is_written_is_read_back_the_same_and_safe_to_print(values: list[Value], job: str) -> None:
    entries = [_answer(n, value) for n, value in enumerate(values, start=1)]
    head = Head(format=1, id="2265b1f5", job=job, made_by="x")
    data = render_head(head) + b"".join(render_entry(entry, salt=head.id) for entry in entries)
    loaded = load(data)
    assert loaded.state == "fine", loaded.message
    assert loaded.head == head
    assert [repr(entry.value) for entry in loaded.usable] == [repr(entry.value) for entry in entries]
    unsafe = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
    assert not {c for c in data.decode() if unicodedata.category(c) in unsafe} - {"\n"}
    tomllib.loads(data.decode())


def test_the_checksum_is_the_plain_crc32_of_salt_and_values() -> None:
    block = render_entry(_answer(1, "29.46 mm"), salt="2265b1f5")
    text = f'{{"at":"{AT}","key":"case_bore_1","kind":"answer","n":1,"value":"29.46 mm"}}'
    assert f'crc = "{zlib.crc32(f"2265b1f5{text}".encode()):08x}"'.encode() in block


@pytest.mark.parametrize(
    "value",
    [
        Decimal("NaN"),
        Decimal("Infinity"),
        Decimal("1E+500"),
        2**63,
        1.5,
        None,
        (("nested",),),
        {"a": 1},
        "x" * LINE_LIMIT,
        tuple("x" * 2000),
    ],
    ids=lambda value: str(value)[:20],
)
def test_a_value_that_could_not_be_read_back_is_refused(value: Value) -> None:
    with pytest.raises(BadShape):
        render_entry(_answer(1, value), salt="2265b1f5")


@pytest.mark.parametrize(
    "entry",
    [
        Entry(n=0, at=AT, kind="answer", key="a", value="1"),
        Entry(n=10**9 + 1, at=AT, kind="answer", key="a", value="1"),
        Entry(n=1, at="x" * 65, kind="answer", key="a", value="1"),
        Entry(n=1, at=AT, kind="answer", key="", value="1"),
        Entry(n=1, at=AT, kind="answer", key="k" * 101, value="1"),
        Entry(n=1, at=AT, kind="guess", key="a", value="1"),
        Entry(n=1, at=AT, kind="answer", key="a", value="1", of=1),
        Entry(n=2, at=AT, kind="undo", key="", value=""),
        Entry(n=2, at=AT, kind="undo", key="", value="", of=2),
        Entry(n=2, at=AT, kind="undo", key="", value="", of=0),
    ],
)
def test_an_entry_out_of_shape_is_refused(entry: Entry) -> None:
    with pytest.raises(BadShape):
        render_entry(entry, salt="2265b1f5")


Edit = Callable[[bytes], bytes]
HARMLESS: dict[str, Edit] = {
    "line ends of Windows": lambda data: data.replace(b"\n", b"\r\n"),
    "line ends of Windows in one block": lambda data: data[:300] + data[300:].replace(b"\n", b"\r\n"),
    "byte order mark": lambda data: b"\xef\xbb\xbf" + data,
    "last newline dropped": lambda data: data.rstrip(b"\n"),
    "blanks at line ends": lambda data: data.replace(b"\n", b"  \n"),
    "tabs in front": lambda data: data.replace(b"\nvalue", b"\n\tvalue"),
    "comment line in a block": lambda data: data.replace(b"\nvalue", b"\n# measured twice\nvalue"),
    "comment behind a value": lambda data: data.replace(b' mm"\n', b' mm" # sure\n'),
    "comment between blocks": lambda data: data.replace(b"\n\n[[entry]]", b"\n\n# next \xc2\xb5\n[[entry]]"),
    "comment at the end": lambda data: data + b"# seen by the owner\n",
    "aligned equal signs": lambda data: re.sub(rb"\n(\w+) = ", rb"\n\1    =  ", data),
    "single quotes": lambda data: re.sub(rb'value = "([^"]*)"', rb"value = '\1'", data),
    "single quotes round the checksum": lambda data: re.sub(rb'crc = "(\w*)"', rb"crc = '\1'", data),
    "fields in another order": lambda data: re.sub(rb"(n = \d+\n)(at = .*\n)", rb"\2\1", data),
    "blank lines taken out": lambda data: data.replace(b"\n\n", b"\n"),
    "blank lines put in": lambda data: data.replace(b"\n", b"\n\n"),
    "blanks in the header": lambda data: data.replace(b"[[entry]]", b" [[ entry ]] # one"),
    "letters as escapes": lambda data: data.replace(b" mm", b" \\u006dm"),
    "blocks in another order": lambda data: b"\n[[entry]]".join(
        [(parts := data.split(b"\n[[entry]]"))[0], parts[2], parts[1], parts[3]]
    ),
    "a block twice": lambda data: data + data[data.index(b"\n[[entry]]") :],
}


@pytest.mark.parametrize("edit", HARMLESS.values(), ids=HARMLESS.keys())
def test_harmless_edits_raise_no_alarm(edit: Edit) -> None:
    entries = (_answer(1, "29.46 mm"), _answer(2, Decimal("0.50"), "p"), _answer(3, "29.40 mm"))
    data = _file(*entries)
    edited = edit(data)
    assert edited != data
    loaded = load(edited)
    assert loaded.state == "fine", loaded.message
    assert loaded.usable == entries


def test_clean_takes_out_what_a_terminal_acts_on_and_keeps_the_rest() -> None:
    hostile = "a\x1b[2J\x07\x9b\x00\u202e\u200b\ud800\ue000\u2028\U000e0041z"
    assert clean(hostile) == f"a{REPLACEMENT}[2J" + REPLACEMENT * 9 + "z"
    assert clean("Réf. 29,46 mm ±0.05 µ [red] 表") == "Réf. 29,46 mm ±0.05 µ [red] 表"
    assert writable_text("a\ud800b") == f"a{REPLACEMENT}b"


@given(text=st.text(max_size=80), number=st.integers(1, 10**9 - 1))
@settings(max_examples=200, deadline=None)
def test_a_file_name_never_leaves_its_folder(text: str, number: int) -> None:
    name = file_name(number=number, text=text)
    assert re.fullmatch(r"\d{5,9}(-[a-z0-9-]{1,40})?\.toml", name)
    assert number_of(name) == number


HOSTILE_NAMES = [
    "../../etc/passwd",
    "/etc/passwd",
    "..",
    ".",
    "",
    "~root",
    "a\x00b",
    "C:\\x",
    "con",
    "nul.toml",
    "-rf",
    "a/b",
    "a\\b",
    "x" * 5000,
    "\u202etxt.exe",
    "\ud800",
    "a\nb",
    "$(reboot)",
    "%2e%2e%2f",
    "表",
    ".hidden",
    "a.toml.new",
    "a.toml.torn-1",
]


@pytest.mark.parametrize("text", HOSTILE_NAMES, ids=ascii)
def test_hostile_names_become_plain_ones(text: str) -> None:
    name = file_name(number=42, text=text)
    assert re.fullmatch(r"00042(-[a-z0-9-]{1,40})?\.toml", name)


@pytest.mark.parametrize("number", [0, -1, 10**9])
def test_a_job_number_out_of_range_is_refused(number: int) -> None:
    with pytest.raises(ValueError, match="job number"):
        file_name(number=number)

"""One block of the session file, to bytes and back, with its checksum.

Invariant: what `render_entry` writes, `shape_entry` reads back equal; every line is one field in basic
strings, with nothing in it that a terminal could act on. The checksum is over parsed values, so that spacing,
comments, quotes, order of fields and line ends may change in an editor without an alarm.
"""

from __future__ import annotations

import json
import re
import zlib
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from bench.clean import REPLACEMENT, is_unsafe
from bench.file.entry import BLOCK_LIMIT, FORMAT, KINDS, LINE_LIMIT, N_LIMIT, Entry, Head, Scalar, Value
from bench.file.quick import plain_fields

FIRST_LINE = (
    '# Plain text. To correct an answer by hand, change it and write  crc = "hand"  under it; '
    "the program will ask about it."
)
HAND = "hand"

_INT_LIMIT = 2**63
_DIGITS_LIMIT = 60
_EXPONENT_LIMIT = 400
_LIST_LIMIT = 1000
_AT_LIMIT = 64
_KEY_LIMIT = 100
_ID = re.compile(r"[0-9a-f]{8}")
_TO_ESCAPE = re.compile(r"[^ !#-\[\]-~]")
_SHORT = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
_SURROGATE = re.compile("[\ud800-\udfff]")
_HEAD_FIELDS = frozenset({"format", "id", "job", "made_by", "crc"})
_ENTRY_FIELDS = frozenset({"n", "at", "kind", "key", "value", "of", "crc"})
_in_order = json.JSONEncoder(sort_keys=True, separators=(",", ":")).encode


class BadShape(ValueError):
    """A block whose fields are not those of an entry; the text says which and what is allowed."""


class TooNew(BadShape):
    """A well-made block with a kind or field that this version does not know."""


def crc_of(salt: str, fields: Mapping[str, object]) -> str:
    """Eight hexadecimal digits over the salt and the parsed fields, `crc` itself left out.

    Fields must be flat (str, int, bool, finite Decimal, lists of these); raises BadShape otherwise.
    """
    plain = {name: _plain(value) for name, value in fields.items() if name != "crc"}
    return f"{zlib.crc32((salt + _in_order(plain)).encode('ascii', 'backslashreplace')):08x}"


def _plain(value: object) -> object:
    if isinstance(value, (str, bool)):
        return value
    if isinstance(value, Decimal):
        return {"decimal": str(value)}
    if isinstance(value, int) and abs(value) < _INT_LIMIT:
        return value
    if isinstance(value, (list, tuple)) and not any(isinstance(item, (list, tuple, dict)) for item in value):
        return [_plain(item) for item in value]
    what = {int: "a number beyond all measure", dict: "a table", list: "a list in a list"}.get(
        type(value), "a date"
    )
    raise BadShape(f"{what} does not belong in a session file")


def read_fields(block: bytes) -> dict[str, object]:
    """The fields of one block, header line left out by the caller; raises BadShape in plain words."""
    if len(block) > BLOCK_LIMIT or any(len(line) > LINE_LIMIT for line in _long_lines(block)):
        raise BadShape(
            f"it is longer than a block ({BLOCK_LIMIT} bytes) or a line ({LINE_LIMIT} bytes) may be"
        )
    plain = plain_fields(block)
    if plain is not None:
        return plain
    import tomllib  # a block as it is written here needs none

    try:
        return tomllib.loads(block.decode("utf-8"), parse_float=_finite)
    except UnicodeDecodeError as error:
        raise BadShape("it holds bytes that are not text (UTF-8)") from error
    except RecursionError as error:
        raise BadShape("it is nested too deeply") from error
    except ValueError as error:
        raise BadShape("it cannot be read as written") from error


def _long_lines(block: bytes) -> list[bytes]:
    return block.split(b"\n") if len(block) > LINE_LIMIT else []


def _finite(text: str) -> Decimal:
    try:
        number = Decimal(text)
    except InvalidOperation as error:
        raise ValueError("not a number") from error
    if not number.is_finite() or not _is_moderate(number):
        raise ValueError("not a finite, moderate number")
    return number


def _is_moderate(number: Decimal) -> bool:
    return len(number.as_tuple().digits) <= _DIGITS_LIMIT and abs(number.adjusted()) <= _EXPONENT_LIMIT


def shape_head(fields: Mapping[str, object]) -> Head:
    """The head out of parsed fields; raises BadShape. A format above ours passes, for the caller to judge."""
    number, salt = fields.get("format"), fields.get("id")
    if not isinstance(number, int) or isinstance(number, bool) or not 1 <= number <= N_LIMIT:
        raise BadShape("the format number is missing")
    if not isinstance(salt, str) or not _ID.fullmatch(salt):
        raise BadShape("the id is not eight digits 0-9 a-f")
    job, made_by = fields.get("job"), fields.get("made_by")
    if not isinstance(job, str) or not isinstance(made_by, str):
        raise BadShape("job or made_by is missing")
    if number == FORMAT and not _HEAD_FIELDS.issuperset(fields):
        raise BadShape("it has a line that does not belong there")
    return Head(format=number, id=salt, job=job, made_by=made_by)


def shape_entry(fields: Mapping[str, object]) -> Entry:
    """The entry out of parsed fields; raises BadShape (TooNew for an unknown kind or field)."""
    n, at, kind = fields.get("n"), fields.get("at"), fields.get("kind")
    if not _is_number(n, 1):
        raise BadShape(f"n is not a whole number from 1 to {N_LIMIT}")
    if not isinstance(at, str) or len(at) > _AT_LIMIT:
        raise BadShape(f"at is not a text of at most {_AT_LIMIT} characters")
    if not isinstance(kind, str):
        raise BadShape("kind is missing")
    if kind not in KINDS:
        raise TooNew("it is of a kind that this version does not know")
    if not _ENTRY_FIELDS.issuperset(fields):
        raise TooNew("it has a field that this version does not know")
    key, of = fields.get("key", ""), fields.get("of")
    if not isinstance(key, str) or len(key) > _KEY_LIMIT or (not key and kind in ("answer", "mark")):
        raise BadShape(f"key is not a text of 1 to {_KEY_LIMIT} characters")
    if kind in ("answer", "note") and "value" not in fields:
        raise BadShape("value is missing")
    assert isinstance(n, int)
    return Entry(n=n, at=at, kind=kind, key=key, value=_value(fields.get("value", "")), of=_of(kind, n, of))


def _is_number(value: object, least: int) -> bool:
    return isinstance(value, int) and not isinstance(value, bool) and least <= value <= N_LIMIT


def _of(kind: str, n: int, of: object) -> int | None:
    if kind not in ("undo", "confirm"):
        if of is not None:
            raise BadShape("only an undo or a confirm has of")
        return None
    if not _is_number(of, 1 if kind == "undo" else 0) or not isinstance(of, int) or of >= n:
        raise BadShape("of is not the number of an earlier entry")
    return of


def _value(value: object) -> Value:
    if isinstance(value, (list, tuple)):
        if len(value) > _LIST_LIMIT:
            raise BadShape(f"value has more than {_LIST_LIMIT} items")
        return tuple(_scalar(item) for item in value)
    return _scalar(value)


def _scalar(value: object) -> Scalar:
    if isinstance(value, (str, bool)):
        return value
    if isinstance(value, Decimal) and value.is_finite() and _is_moderate(value):
        return value
    if isinstance(value, int) and abs(value) < _INT_LIMIT:
        return value
    raise BadShape("value is not a text, a number, true, false or a flat list of these")


def writable_text(text: str) -> str:
    """The text with lone surrogates, which no TOML file can hold, replaced by U+FFFD."""
    return _SURROGATE.sub(REPLACEMENT, text)


def _quoted(text: str) -> str:
    return '"' + _TO_ESCAPE.sub(_escape, text) + '"'


def _escape(found: re.Match[str]) -> str:
    character = found[0]
    short = _SHORT.get(character)
    if short is not None:
        return short
    if not is_unsafe(character):
        return character
    return f"\\u{ord(character):04x}" if ord(character) < 0x10000 else f"\\U{ord(character):08x}"


def _written(value: object) -> str:
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Decimal):
        text = str(value)
        return text if "." in text or "E" in text else text + "e0"
    if isinstance(value, tuple):
        return "[" + ", ".join(_written(item) for item in value) + "]"
    return str(value)


def render_head(head: Head) -> bytes:
    """The head block with its comment line; raises BadShape if it could not be read back."""
    fields = {"format": head.format, "id": head.id, "job": head.job, "made_by": head.made_by}
    shape_head(fields)
    return _short_enough(f"{FIRST_LINE}\n{_lines(fields, salt='')}".encode())


def fields_of(entry: Entry) -> dict[str, object]:
    """The fields of an entry in the order in which they are written."""
    fields: dict[str, object] = {"n": entry.n, "at": entry.at, "kind": entry.kind}
    if entry.key:
        fields["key"] = entry.key
    if entry.of is not None:
        fields["of"] = entry.of
    if entry.value != "" or entry.kind in ("answer", "note"):
        fields["value"] = entry.value
    return fields


def render_entry(entry: Entry, *, salt: str) -> bytes:
    """The block of an entry with a leading blank line; raises BadShape if it could not be read back."""
    fields = fields_of(entry)
    shape_entry(fields)
    return _short_enough(f"\n[[entry]]\n{_lines(fields, salt=salt)}".encode())


def _short_enough(block: bytes) -> bytes:
    if len(block) > BLOCK_LIMIT or any(len(line) > LINE_LIMIT for line in _long_lines(block)):
        raise BadShape(f"it is longer than a line of the file may be ({LINE_LIMIT} bytes): shorten it")
    return block


def _lines(fields: Mapping[str, object], *, salt: str) -> str:
    lines = [f"{name} = {_written(value)}\n" for name, value in fields.items()]
    return "".join(lines) + f'crc = "{crc_of(salt, fields)}"\n'

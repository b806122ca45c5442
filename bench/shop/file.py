"""shop.toml read section by section, so that every refusal names the line it is about.

Invariant: nothing in the file is ignored in silence; an unknown word, a value of the wrong kind and a
value out of range each end the reading with the line and the reason.
"""

from __future__ import annotations

import difflib
import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any, TypeVar

from bench.file.ordinary import read_regular
from bench.file.plain import cause
from bench.file.slug import SHOP_LIMIT
from bench.shop.unreadable import reason
from bench.shop.words import EXAMPLES, example, section_of
from rules.checks import OutOfRange
from rules.lengths import INCH, MM, speaking, translated

HEADER = re.compile(r"^\s*(\[\[?)\s*([A-Za-z0-9_.\- ]+?)\s*\]\]?")
KEY = re.compile(r"^\s*([A-Za-z0-9_-]+)\s*=")
ALIKE = 0.8
"""From here on a word is taken for another one, spelt wrong."""
SHOWN = 200
"""So much of a line, or of a reason, is said."""
AT_LINE = re.compile(r"\(at line (\d+), column \d+\)")

Made = TypeVar("Made")


class ShopWrong(OutOfRange):
    """The shop file cannot be used; the message names the file, the line and the reason."""


def line_numbers(text: str) -> dict[str, int]:
    """Line of every header and key, by its path such as `lathe.0.cross.step_mm`."""
    lines: dict[str, int] = {}
    counts: dict[str, int] = {}
    here = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if header := HEADER.match(line):
            here = path_of(header.group(2).replace(" ", ""), header.group(1) == "[[", counts)
            lines.setdefault(here, number)
        elif key := KEY.match(line):
            lines.setdefault(f"{here}.{key.group(1)}".lstrip("."), number)
    return lines


def path_of(dotted: str, is_array: bool, counts: dict[str, int]) -> str:
    """The path of a header, with the number of each of several; `counts` goes on."""
    path = ""
    words = dotted.split(".")
    for position, word in enumerate(words):
        path = f"{path}.{word}".lstrip(".")
        if position == len(words) - 1 and is_array:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = f"{path}.{counts[path]}"
    return path


class ShopTable:
    """One table of the file; `take` a value by name, then `done` refuses what nobody asked for."""

    def __init__(self, table: Mapping[str, Any], path: str, lines: Mapping[str, int], file_name: str) -> None:
        self.table = table
        self.path = path
        self.lines = lines
        self.file_name = file_name
        self.known: list[str] = []

    def wrong(self, reason: str, key: str = "") -> ShopWrong:
        """A refusal that names the line of the key, or of the section when the key has none."""
        wanted = f"{self.path}.{key}".strip(".")
        line = self.lines.get(wanted) or self.lines.get(f"{wanted}.0") or self.lines.get(self.path) or 1
        return ShopWrong(f"{self.file_name} line {line}: {reason}")

    def number(self, key: str, usual: float | None = None) -> float:
        """A number; without a usual value it must be there."""
        value = self._take(key, usual)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            raise self.wrong(f"{key} must be a number without quotation marks; write {example(key)}", key)
        return self._measured(key, value)

    def whole(self, key: str, usual: int | None = None) -> int:
        """A whole number."""
        value = self.number(key, usual)
        if value != value or value in (float("inf"), float("-inf")) or value != int(value):
            raise self.wrong(f"{key} must be a whole number", key)
        return int(value)

    def text(self, key: str, usual: str | None = None) -> str:
        """A text of printable characters."""
        value = self._take(key, usual)
        if not isinstance(value, str) or not value.isprintable() or len(value) > 200:
            raise self.wrong(f"{key} must be a short text in quotation marks", key)
        return value

    def one_of(self, key: str, words: tuple[str, ...]) -> str:
        """One of a few words, the usual first."""
        value = self.text(key, words[0])
        if value not in words:
            raise self.wrong(f"{key}: {value!r} is not known here; known are {', '.join(words)}", key)
        return value

    def yes(self, key: str, usual: bool) -> bool:
        """True or false."""
        value = self._take(key, usual)
        if not isinstance(value, bool):
            raise self.wrong(f"{key} must be true or false; write {key} = {str(bool(value)).lower()}", key)
        return value

    def numbers(self, key: str) -> tuple[float, ...]:
        """A list of numbers."""
        value = self._take(key, None)
        if not isinstance(value, (list, tuple)) or not all(
            isinstance(one, (int, float)) and not isinstance(one, bool) for one in value
        ):
            raise self.wrong(f"{key} must be a list of numbers such as [400, 800]", key)
        return tuple(self._measured(key, one) for one in value)

    def _measured(self, key: str, value: float) -> float:
        """A number that a measurement can be; a whole number may be written longer than any of them."""
        if abs(value) > 1e15:
            raise self.wrong(f"{key} is a number beyond all measure", key)
        return float(value)

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of short texts, empty when it is not there."""
        value = self._take(key, ())
        if not isinstance(value, (list, tuple)) or not all(
            isinstance(one, str) and one.isprintable() and len(one) <= 40 for one in value
        ):
            raise self.wrong(f'{key} must be a list of short texts such as ["slow", "fast"]', key)
        return tuple(value)

    def has(self, key: str) -> bool:
        """Whether the key stands in the file."""
        self.known.append(key)
        return key in self.table

    def section(self, key: str) -> ShopTable | None:
        """The table under this key, None when it is not there."""
        if not self.has(key):
            return None
        value = self.table[key]
        if not isinstance(value, dict):
            raise self.wrong(f"{key} must be a section: [{key}]", key)
        return ShopTable(value, f"{self.path}.{key}".lstrip("."), self.lines, self.file_name)

    def sections(self, key: str) -> list[ShopTable] | None:
        """The list of tables under this key, None when it is not there."""
        if not self.has(key):
            return None
        value = self.table[key]
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            raise self.wrong(f"{key} must be a list of sections, each headed [[{key}]]", key)
        base = f"{self.path}.{key}".lstrip(".")
        return [ShopTable(one, f"{base}.{at}", self.lines, self.file_name) for at, one in enumerate(value)]

    def build(self, make: Callable[[], Made]) -> Made:
        """Make the object of this section; its own refusal gets the line, then unknown words are refused."""
        try:
            made = make()
        except ShopWrong:
            raise
        except ValueError as why:
            self.done()
            key = self._key_in(str(why))
            with speaking(INCH if key.endswith("_in") else MM):
                raise self.wrong(translated(str(why)), key) from why
        self.done()
        return made

    def done(self) -> None:
        """Refuse a word that nothing reads."""
        for key in self.table:
            if key not in self.known:
                raise self.wrong(f"unknown word {key!r}; {self._meant(key)}", key)

    def _meant(self, key: str) -> str:
        """What an unknown word may be meant to be."""
        if where := section_of(key):
            return f"it stands under {where}"
        near = difflib.get_close_matches(key, self.known, n=1)
        return f"did you mean {near[0]}?" if near else f"known here: {', '.join(sorted(set(self.known)))}"

    def _take(self, key: str, usual: Any) -> Any:
        self.known.append(key)
        value = self.table.get(key, usual)
        if value is None:
            for near in difflib.get_close_matches(key, set(self.table) - set(EXAMPLES), n=1, cutoff=ALIKE):
                raise self.wrong(f"unknown word {near!r}; did you mean {key}?", near)
            raise self.wrong(f"{key} is missing; write {example(key)}", "")
        return value

    def _key_in(self, why: str) -> str:
        """The key a refusal speaks of: the one that shares most words with the reason's subject."""
        subject = singular(re.findall(r"[a-z]+", re.split(r":| (?:stands|lacks|needs) ", why)[0].lower()))
        scores = {key: len(subject & singular(key.split("_"))) for key in self.table}
        best = max(scores, key=lambda key: scores[key], default="")
        return best if best and scores[best] else ""


def singular(words: Iterable[str]) -> set[str]:
    """Words without the s of several."""
    return {word.removesuffix("s") for word in words}


def read(path: Path) -> ShopTable:
    """The whole file as a section; raises ShopWrong."""
    try:
        raw = read_regular(path, SHOP_LIMIT)
    except OSError as why:
        raise ShopWrong(f"{path.name} line 1: cannot be read ({cause(why)})") from why
    return parsed(raw, path.name)


def parsed(raw: bytes, name: str) -> ShopTable:
    """The bytes of a file as a section.

    Raises ShopWrong: too large, not UTF-8, not TOML (with the line the TOML reader names).
    """
    if len(raw) > SHOP_LIMIT:
        raise ShopWrong(f"{name} line 1: it is too large; give at most {SHOP_LIMIT} bytes")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as why:
        line = raw[: why.start].count(b"\n") + 1
        raise ShopWrong(f"{name} line {line}: not UTF-8 text; save it as UTF-8") from why
    try:
        table = tomllib.loads(text)
    except (ValueError, RecursionError) as why:
        found = AT_LINE.search(str(why))
        line = int(found.group(1)) if found else len(text.splitlines()) or 1
        said = AT_LINE.sub("", str(why)).strip() or "cannot be read"
        at_line = (text.splitlines() or [""])[line - 1] if text else ""
        raise ShopWrong(f"{name} line {line}: {reason(at_line[:SHOWN], said)[:SHOWN]}") from why
    return ShopTable(table, "", line_numbers(text), name)

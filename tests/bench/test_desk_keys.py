"""The table of keys and what the keys of real terminals mean by it."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events
from textual._xterm_parser import XTermParser

from bench.desk.keys import KEYS, help_table, key_line, meaning, resolve


def arriving(data: str) -> list[str]:
    """The meanings of what a terminal sends, by way of the toolkit's own parser."""
    keys = [event for event in XTermParser().feed(data) if isinstance(event, events.Key)]
    return [meaning(key.key, key.character) for key in keys]


@pytest.mark.parametrize(
    ("data", "means"),
    [
        ("0123456789", list("0123456789")),
        (".", ["."]),
        (",", ["."]),
        ("\r", ["enter"]),
        ("\n", ["enter"]),
        ("\t", ["tab"]),
        ("\x7f", ["back"]),
        ("\x08", ["back"]),
        ("-+*/?", ["back", "next", "list", "previous", "list"]),
        ("\u2212", ["back"]),
        ("\x1bOM", ["enter"]),  # keypad Enter in application mode
        ("\x1b[57414u", ["enter"]),  # keypad Enter, kitty protocol, no text
        ("\x1b[57399;;48u", ["0"]),  # keypad 0 with text
        ("\x1b[57408;;57u", ["9"]),
        ("\x1b[57409;;46u", ["."]),  # keypad decimal with text
        ("\x1b[57409;;44u", ["."]),  # the same on a layout with a comma
        ("\x1b[57409u", ["unknown"]),  # keypad decimal without text: spoils the number
        ("\x1b[57410;;47u", ["previous"]),
        ("\x1b[57411;;42u", ["list"]),
        ("\x1b[57412;;45u", ["back"]),
        ("\x1b[57413;;43u", ["next"]),
        ("\x1b[57410u\x1b[57411u\x1b[57412u\x1b[57413u", ["previous", "list", "back", "next"]),
        ("\x1b[D\x1b[A\x1b[C\x1b[B", ["arrow:previous"] * 2 + ["arrow:next"] * 2),
        ("\x1b[Z", ["arrow:previous"]),
        ("\x1b[H\x1b[F\x1b[5~\x1b[6~\x1b[2~\x1b[3~", ["navigation"] * 6),
        ("\x1b[1~\x1b[4~", ["navigation"] * 2),
        ("\x1b[57441u\x1b[57360u", ["", ""]),  # left Shift and NumLock alone
        ("\x1bOP", ["unknown"]),
        ("\x03\x02", ["", ""]),  # Ctrl-C, and the STX and ETX of a gauge
        ("\x11\x04\x1c", ["unknown"] * 3),
        ("m\u00b5", ["char:m", "char:\u00b5"]),
        ("\ufffd", ["char:\ufffd"]),
    ],
)
def test_keys_of_real_terminals(data: str, means: list[str]) -> None:
    assert arriving(data) == means


def test_escape_goes_back() -> None:
    assert meaning("escape", "\x1b") == "previous"
    assert meaning("escape", None) == "previous"


@pytest.mark.parametrize(
    ("text", "idle", "typing"),
    [
        ("tab", "next", "enter"),
        ("arrow:previous", "previous", "navigation"),
        ("arrow:next", "next", "navigation"),
        ("5", "5", "5"),
        ("back", "back", "back"),
    ],
)
def test_what_depends_on_something_being_typed(text: str, idle: str, typing: str) -> None:
    assert resolve(text, typing=False) == idle
    assert resolve(text, typing=True) == typing


def test_every_meaning_has_one_keypad_key_of_its_own() -> None:
    assert [key.keypad for key in KEYS] == ["0-9 .", "Enter", "-", "/", "+", "*"]
    names = [name for key in KEYS for name in key.names]
    assert len(names) == len(set(names))


@pytest.mark.parametrize(
    ("columns", "line"),
    [
        (80, "0-9 . type   Enter accept   - take back   / back   + forward   * more"),
        (60, "Enter accept   - take back   / back   + forward   * more"),
        (40, "Enter accept   / back   * more"),
        (12, "Enter accept"),
        (5, ""),
    ],
)
def test_the_key_line_drops_whole_items(columns: int, line: str) -> None:
    assert key_line(columns) == line


def test_the_key_line_leaves_out_keys_that_do_nothing() -> None:
    assert key_line(80, dead=frozenset(("enter", "back", "next"))) == "0-9 . type   / back   * more"


def markdown_table() -> str:
    """The table of keys as the manual prints it."""
    head = ("keypad", "what it does", "does nothing when", "on a full keyboard as well")
    rows = (head, ("---",) * 4, *help_table())
    return "\n".join(f"| {' | '.join(cell.replace('*', chr(92) + '*') for cell in row)} |" for row in rows)


def test_help_and_manual_come_from_the_same_table() -> None:
    assert len(help_table()) == len(KEYS)
    rows = markdown_table().splitlines()
    assert len(rows) == len(KEYS) + 2
    assert all(row.count(" | ") == 3 for row in rows)
    assert rows[-1].startswith("| \\* |")
    manual = Path(__file__).resolve().parents[2] / "README.md"
    assert markdown_table() in manual.read_text(encoding="utf-8")

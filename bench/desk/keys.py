"""The keys as data: six meanings, the same on every screen, all on a bare numeric keypad.

Invariant: bindings, key line, help page and the table in the manual are all made from `KEYS`; a key means the
same thing whatever name the terminal gives it, because the character is looked at first and the name after.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Key:
    """One meaning and the keys that carry it."""

    meaning: str
    """Text of the token: enter, back, previous, next, list; digits and the point stand for themselves."""

    keypad: str
    """What is printed on the keypad."""

    names: tuple[str, ...]
    """Names a terminal may give the key or its aliases on a full keyboard."""

    full: str
    """The aliases on a full keyboard, in words."""

    label: str
    """One or two words for the key line."""

    help: str
    """What it does."""

    nothing: str
    """When it does nothing."""


KEYS: tuple[Key, ...] = (
    Key(
        "digit",
        "0-9 .",
        (),
        "the same; comma = point",
        "type",
        "build the answer; never act by themselves",
        "the answer is full (it is then thrown away)",
    ),
    Key(
        "enter",
        "Enter",
        ("enter", "return", "ctrl+m", "ctrl+j", "kp_enter", "keypad_enter", "newline"),
        "Return, a foot switch, the end of a gauge reading",
        "accept",
        "accept the answer; leave a page that is only read",
        "nothing is typed, such a page apart",
    ),
    Key(
        "back",
        "-",
        ("minus", "backspace", "ctrl+h", "subtract", "kp_subtract"),
        "Backspace",
        "take back",
        "take back the last character; clear an answer thrown away",
        "nothing is typed",
    ),
    Key(
        "previous",
        "/",
        ("slash", "divide", "kp_divide", "escape"),
        "Left, Up, Shift+Tab, Escape",
        "back",
        "back one question; answers given stay",
        "this is the first question",
    ),
    Key(
        "next",
        "+",
        ("plus", "add", "kp_add"),
        "Right, Down, Tab",
        "forward",
        "forward one question, through answered ones",
        "this is the first open question",
    ),
    Key(
        "list",
        "*",
        ("asterisk", "multiply", "kp_multiply", "question_mark"),
        "?",
        "more",
        "everything else: why, keys, note, replace, jobs, leave",
        "the list is open",
    ),
)
"""In the order of the help page."""

ARROWS = {
    "left": "previous",
    "up": "previous",
    "shift+tab": "previous",
    "right": "next",
    "down": "next",
}
"""Keys that move between questions while nothing is typed; with something typed they mean NumLock is off."""

NAVIGATION = frozenset(
    ("home", "end", "pageup", "pagedown", "page_up", "page_down", "insert", "delete", "begin", "clear")
    + ("kp_home", "kp_end", "kp_page_up", "kp_page_down", "kp_insert", "kp_delete", "kp_begin", "center")
)
"""Names under which keypad digits arrive when NumLock is off; they never mean anything else here."""

SILENT = frozenset(
    f"{side}{name}"
    for side in ("", "left_", "right_")
    for name in ("shift", "control", "alt", "super", "hyper", "meta")
) | frozenset(("num_lock", "caps_lock", "scroll_lock", "iso_level3_shift", "iso_level5_shift", "ignore"))
"""Keys that are no answer to anything: modifiers and locks on their own."""

_BY_CHARACTER = {
    "\r": "enter",
    "\n": "enter",
    "\t": "tab",
    "\b": "back",
    "\x7f": "back",
    "\x1b": "previous",
    "-": "back",
    "/": "previous",
    "+": "next",
    "*": "list",
    "?": "list",
    ".": ".",
    ",": ".",
    "\u2212": "back",
    "\x02": "",
    "\x03": "",
}
"""STX and ETX, which some gauges send round a reading, are ignored."""
_BY_NAME = {name: key.meaning for key in KEYS for name in key.names}
_DECIMAL = frozenset(("decimal", "kp_decimal", "separator", "kp_separator", "full_stop", "comma"))


def meaning(name: str, character: str | None) -> str:
    """What a key of the terminal means: the text of its token, or "" for a key that is no answer at all.

    The character is looked at first, then the name. Returned are a digit, ".", "enter", "tab", "back",
    "previous", "next", "list", "arrow:previous", "arrow:next", "navigation", "char:x" for any other printable
    character and "unknown" for everything else. `resolve` settles "tab" and the arrows by what is typed.
    """
    lower = name.lower()
    if lower == "shift+tab":
        return "arrow:previous"
    if character and len(character) == 1:
        if character in "0123456789":
            return character
        if character in _BY_CHARACTER:
            return _BY_CHARACTER[character]
        if character.isprintable() and unicodedata.category(character)[0] != "C":
            return f"char:{character}"
        return _BY_NAME.get(lower, "unknown")
    return _by_name(lower)


def _by_name(name: str) -> str:
    """What a key without a character means."""
    if name in SILENT:
        return ""
    if name in ARROWS:
        return f"arrow:{ARROWS[name]}"
    if name == "tab":
        return "tab"
    if name in NAVIGATION or name.rpartition("+")[2] in NAVIGATION:
        return "navigation"
    if name in _DECIMAL:
        return "unknown"
    return _BY_NAME.get(name, "unknown")


def resolve(text: str, *, typing: bool) -> str:
    """Settle the keys whose meaning depends on whether anything is typed.

    Tab ends a gauge reading when something is typed and goes forward otherwise; an arrow moves between
    questions while nothing is typed, and shows that NumLock is off when something is.
    """
    if text == "tab":
        return "enter" if typing else "next"
    if text.startswith("arrow:"):
        return "navigation" if typing else text.removeprefix("arrow:")
    return text


def key_line(columns: int, *, dead: frozenset[str] = frozenset()) -> str:
    """The keys that work now, as one line of at most `columns` cells; whole items are dropped, never halves.

    `dead` holds the meanings that would do nothing at this moment. Items are dropped from the least needed:
    typing first, then forward, take back, back; Enter and the list stay longest.
    """
    items = {key.meaning: f"{key.keypad} {key.label}" for key in KEYS if key.meaning not in dead}
    for meaning_ in ("", "digit", "next", "back", "previous", "list", "enter"):
        items.pop(meaning_, None)
        line = "   ".join(items.values())
        if len(line) <= columns:
            return line
    return ""


def help_table() -> tuple[tuple[str, str, str, str], ...]:
    """Rows of keypad key, what it does, when it does nothing, and the same on a full keyboard."""
    return tuple((key.keypad, key.help, key.nothing, key.full) for key in KEYS)

"""What arrives when a key is pressed: for checking a keypad, a foot switch or a gauge that types.

Invariant: nothing is kept and nothing is accepted here; every key is shown, also those that mean nothing.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from bench.desk.bounce import Bounce, strain
from bench.desk.keys import meaning
from bench.desk.token import Leave, Token
from bench.wire.heard import Heard
from bench.wire.port import Wires, lines_in
from screens import look as looks

MOST_KEYS = 200
BURST_S = 0.08
"""Keys closer than this come from a machine or a worn switch, not from fingers."""

WORDS = {
    "": "nothing (a modifier or lock alone)",
    ".": "point",
    "enter": "accept",
    "tab": "accept when something is typed, else forward",
    "back": "take back",
    "previous": "back one question",
    "next": "forward one question",
    "list": "everything else",
    "arrow:previous": "back one question while nothing is typed",
    "arrow:next": "forward one question while nothing is typed",
    "navigation": "NumLock is off: no digit arrives",
    "unknown": "no key of this program; spoils a number",
}
_ENDS = {"\r": "CR", "\n": "LF", "\t": "TAB"}


@dataclass(frozen=True, slots=True)
class Seen:
    """One key as it arrived."""

    at: float
    name: str
    character: str
    """Empty when the terminal gave none."""
    words: str = ""
    """What came over a line, and what was read in it."""


@dataclass(frozen=True, slots=True)
class KeysSeen:
    """The keys seen so far, newest last."""

    keys: tuple[Seen, ...] = ()
    columns: int = 80
    rows: int = 24


def name_key(name: str, character: str | None) -> str:
    """The text of the token of a key: its name and character, so that nothing is lost."""
    return f"{name}\0{character or ''}"


def update(desk: KeysSeen, token: Token | Heard) -> tuple[KeysSeen, tuple[Leave, ...]]:
    """The desk after one token; three stars in a row leave."""
    if isinstance(token, Heard):
        seen = Seen(token.at, token.name, "", words=words_of(token))
        return replace(desk, keys=(*desk.keys, seen)[-MOST_KEYS:]), ()
    if token.kind == "resized":
        return replace(desk, columns=token.columns, rows=token.rows), ()
    if token.kind != "key":
        return desk, ()
    name, _, character = token.text.partition("\0")
    keys = (*desk.keys, Seen(token.at, name, character))[-MOST_KEYS:]
    leaving = [meaning(key.name, key.character) for key in keys[-3:]] == ["list"] * 3
    return replace(desk, keys=keys), (Leave(0),) if leaving else ()


def words_of(sent: Heard) -> str:
    """What came over a line, as it came, and what a job would read in it."""
    return f"{sent.line}  is read as {sent.reading}" if sent.number else sent.words


def view(desk: KeysSeen) -> list[list[tuple[str, str]]]:
    """The newest keys, what they mean, and what the last burst looks like."""
    top: list[list[tuple[str, str]]] = [
        [("Keys as they arrive: press each key of the keypad, or send a reading.", "strong")],
        [(f"{'ms since':>9}  {'name':<18} {'character':<10} means", "note")],
    ]
    bottom: list[list[tuple[str, str]]] = [
        [(verdict(desk.keys), "ink")],
        [("* three times leaves", "key")],
    ]
    room = max(desk.rows - len(top) - len(bottom), 0)
    shown = desk.keys[-room:] if room else ()
    earlier = desk.keys[-room - 1] if room and len(desk.keys) > room else None
    rows = [[(row, "ink")] for row in _rows(shown, earlier)]
    blank: list[list[tuple[str, str]]] = [[]] * (room - len(rows))
    return [[(text[: desk.columns], role) for text, role in line] for line in (*top, *rows, *blank, *bottom)]


def _rows(keys: Sequence[Seen], earlier: Seen | None) -> list[str]:
    """One line for each key."""
    rows = []
    for key in keys:
        gap = f"{(key.at - earlier.at) * 1000:.0f}" if earlier else "-"
        means = meaning(key.name, key.character or None)
        words = WORDS.get(means) or (means if means.isdecimal() else _other(means))
        shown = repr(key.character)[1:-1] if key.character else "none"
        came = key.words or f"{shown:<10} {words}"
        rows.append(f"{gap:>9}  {key.name[:18]:<18} {came}")
        earlier = key
    return rows


def _other(means: str) -> str:
    """Words for a printable character or a paste."""
    if means.startswith("char:"):
        return f"the character {means.removeprefix('char:')}: in a number only as a unit; free text"
    return means


def verdict(keys: Sequence[Seen]) -> str:
    """What the last run of keys looks like: a gauge, a bouncing key, a keypad without NumLock."""
    if not keys:
        return "nothing yet"
    if keys[-1].words:
        return "a gauge on a line: in a job its reading waits for your Enter"
    burst = last_burst(keys)
    if meaning(keys[-1].name, keys[-1].character) == "navigation":
        return "CHECK: NumLock is off, or this is a navigation key: press NumLock and try again"
    if len(burst) >= 3:
        return _gauge(burst)
    if len(burst) == 2 and burst[0].name == burst[1].name:
        gap_ms = (burst[1].at - burst[0].at) * 1000
        return f"the same key again after {gap_ms:.0f} ms: a bouncing key, the second is held back"
    return "one key by hand"


def last_burst(keys: Sequence[Seen]) -> Sequence[Seen]:
    """The last run of keys that came faster than fingers type."""
    first = len(keys) - 1
    while first > 0 and keys[first].at - keys[first - 1].at < BURST_S:
        first -= 1
    return keys[first:]


def _gauge(burst: Sequence[Seen]) -> str:
    """A burst in words: what was read, how fast, how it ended."""
    text = "".join(key.character for key in burst)
    body = text.rstrip("\r\n\t")
    end = " ".join(_ENDS[letter] for letter in text[len(body) :])
    step_ms = (burst[-1].at - burst[0].at) / (len(burst) - 1) * 1000
    if len({key.name for key in burst}) == 1:
        return f"a key held down: {len(burst)} times, {step_ms:.0f} ms apart; it counts once"
    kept = _through_filter(burst)
    spoiled = "" if kept == body else f"; CHECK: the bounce filter makes {kept} of it"
    ending = f"ended by {end}" if end else "CHECK: no Enter at the end"
    return f"a machine: {body}, {step_ms:.0f} ms a character, {ending}{spoiled}"


def _through_filter(burst: Sequence[Seen]) -> str:
    """The characters of a burst that pass the bounce filter."""
    state, kept = Bounce(), ""
    for key in burst:
        text = meaning(key.name, key.character or None)
        state, out = strain(state, Token("key", text, at=key.at, raw=key.character), typing=bool(kept))
        kept += "".join(
            "-+"[token.text == "char:+"] if token.text in ("char:-", "char:+") else token.raw
            for token in out
            if token.kind == "key"
        )
    return kept.rstrip("\r\n\t")


def keys_seen(folder: Path) -> int:
    """Open the screen that shows keys, and what comes over the lines set up in a folder; the exit status."""
    looks.drop_overrides()
    why = looks.refusal_here()
    if why:
        print(f"ringwright: {why}", file=sys.stderr)
        return 2
    from screens.app import run_face
    from screens.face import Face

    def nothing(_effects: Sequence[Any]) -> Sequence[Any]:
        return ()

    wires, here = Wires(lines_in(folder)), looks.look_here()
    face = Face(
        KeysSeen(),
        update,
        nothing,
        view,
        meaning=name_key,
        listen=wires.listen,
        closing=wires.stop,
        theme=lambda _desk: here.name,
        look=here,
    )
    return run_face(face)

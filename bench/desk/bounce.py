"""The bounce filter: gloves, worn switches and leaning hands on one side, gauges that type fast on the other.

Invariant: pure; it holds back at most one token (and how often it came), never delays a
different key, and what it holds is passed on or dropped at the next key or `settle`. A key
held down makes one character, not many.

The same key within the window is held back. If a different key follows within the window, a machine is
typing and what was held is passed on; if none follows, the contact bounced and it is dropped. A key held down
comes once, again after a pause, then fast: the second coming is then undone. A sign before a digit within
30 ms belongs to a reading.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from bench.desk.token import Token
from bench.keypad import MOST_WINDOW_MS, WINDOW_MS

SIGN_MS = 30
"""A sign that belongs to a reading is followed by a digit this soon."""

REPEAT_PAUSE_S = (0.15, 1.2)
"""Pause after which keyboards begin to repeat a key that is held down."""

FASTER_THAN_HANDS_S = 0.04
"""Two different keys closer than this were not struck by a gloved hand."""

EVEN_STEP_S = 0.015
"""Steps that differ by less than this are even."""

_SIGNS = {"back": "char:-", "next": "char:+"}


@dataclass(frozen=True, slots=True)
class Bounce:
    """What the filter remembers of the keys that came."""

    text: str = ""
    """Text of the last key that came, let through or not."""

    at: float = -math.inf
    """When it came, s."""

    lead_s: float = math.inf
    """Time between the last key let through and whatever key came before it."""

    step_s: float = math.inf
    """Time between the last key let through and the first one held back."""

    pause_s: float = math.inf
    """Time between the last key let through and the same key before it; infinite after a different key."""

    held: Token | None = None
    """The one token held back."""

    count: int = 0
    """How often the held token came."""

    repeating: bool = False
    """The last key is being held down."""


def settle_ms(state: Bounce, *, window_ms: int = WINDOW_MS) -> int:
    """How long after the last key a `settle` is wanted, ms; 0 when nothing is held back."""
    if state.held is None:
        return 0
    return SIGN_MS if _is_sign(state) else window_ms + 20


def strain(
    state: Bounce, token: Token, *, typing: bool, window_ms: int = WINDOW_MS
) -> tuple[Bounce, tuple[Token, ...]]:
    """Let one token through the filter; what comes out may be nothing, the token, or held ones before it.

    `typing` says whether anything stands in the answer line: a sign is waited for only while nothing does.
    A token of kind undo means that the last key let through was the first repeat of a key held down: the
    answer line is to be as it was before it. Raises ValueError when the window is not 0 to 500 ms.
    """
    if not 0 <= window_ms <= MOST_WINDOW_MS:
        raise ValueError(f"bounce window {window_ms} ms: 0 to {MOST_WINDOW_MS} ms are possible")
    if token.kind == "settle":
        return _settle(state, token, window_ms)
    if token.kind != "key":
        return state, (token,)
    if _is_sign(state):
        before, sign = _settle_sign(state, token)
        after, out = _key(before, token, typing=typing or bool(sign), window_ms=window_ms)
        return after, sign + out
    return _key(state, token, typing=typing, window_ms=window_ms)


def _key(state: Bounce, token: Token, *, typing: bool, window_ms: int) -> tuple[Bounce, tuple[Token, ...]]:
    """One key, with no sign waiting."""
    window_s = window_ms / 1000
    gap = token.at - state.at
    if token.text == state.text and gap < window_s:
        return _same(state, token)
    released: tuple[Token, ...] = ()
    if state.held is not None and gap < window_s and _by_machine(state, gap, window_s):
        released = (state.held,) * state.count
    if not typing and token.text in _SIGNS and token.text != state.text:
        return Bounce(token.text, token.at, held=token, lead_s=gap), released
    pause = gap if token.text == state.text else math.inf
    return Bounce(token.text, token.at, lead_s=gap, pause_s=pause), (*released, token)


def _by_machine(state: Bounce, gap_s: float, window_s: float) -> bool:
    """Whether what is held was typed by a machine, now that a different key has followed after `gap_s`.

    A machine was at it before, or is faster than hands, or keeps an even step; a contact does none of these.
    """
    if state.repeating or not _of_reading(state.text):
        return False
    return state.lead_s < window_s or gap_s < FASTER_THAN_HANDS_S or abs(gap_s - state.step_s) < EVEN_STEP_S


def _same(state: Bounce, token: Token) -> tuple[Bounce, tuple[Token, ...]]:
    """The same key again within the window: held back; the second time tells a key held down."""
    count = state.count + 1
    held_down = count >= 2 and REPEAT_PAUSE_S[0] <= state.pause_s <= REPEAT_PAUSE_S[1]
    undo = held_down and not state.repeating and _of_reading(token.text)
    step_s = token.at - state.at if state.count == 0 else state.step_s
    down = state.repeating or held_down
    after = replace(state, at=token.at, held=token, count=count, step_s=step_s, repeating=down)
    return after, (Token("undo", token.text, at=token.at, wall=token.wall),) if undo else ()


def _settle(state: Bounce, token: Token, window_ms: int) -> tuple[Bounce, tuple[Token, ...]]:
    """Nothing has come for a while: a sign was a key of its own, a bounce is dropped."""
    if state.held is None:
        return state, ()
    if _is_sign(state):
        return replace(state, held=None, count=0), (state.held,)
    if token.at - state.at < window_ms / 1000:
        return state, ()
    return replace(state, held=None, count=0), ()


def _settle_sign(state: Bounce, token: Token) -> tuple[Bounce, tuple[Token, ...]]:
    """A sign was waiting: part of a reading when a digit came soon enough, else the key it is."""
    held = state.held
    if held is None:
        return state, ()
    soon = token.at - state.at <= SIGN_MS / 1000
    if soon and (token.text == "." or token.text.isdecimal()):
        return replace(state, held=None, count=0), (replace(held, text=_SIGNS[held.text]),)
    return replace(state, held=None, count=0), (held,)


def _is_sign(state: Bounce) -> bool:
    return state.held is not None and state.count == 0


def _of_reading(text: str) -> bool:
    """Whether a key can be part of a machine's burst, so that its repeat may be meant."""
    return text == "." or text.isdecimal() or text.startswith("char:")

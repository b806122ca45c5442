"""Free text, on a full keyboard.

Invariant: no key of it moves or accepts anything but Enter and Escape; what is left empty writes nothing.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Append
from bench.desk.pages import NOTES, Outcome, arrive
from bench.desk.token import Token
from bench.desk.typed import AnswerLine


def text_key(desk: Desk, token: Token) -> Outcome:
    """Free text, on a full keyboard: only Enter and Escape act."""
    if token.text == "enter" and not token.raw:
        text = " ".join(desk.line.text.split())
        if not text:
            return unwritten(desk)
        if desk.at in NOTES:
            entry = Append(desk.at, text, kind="note")
            return replace(desk, pending=entry, at=""), (entry,)
        entry = Append(desk.at, text)
        return replace(desk, pending=entry), (entry,)
    if token.text == "previous" and not token.raw:
        return unwritten(desk)
    if token.text == "back" and not token.raw:
        return replace(desk, line=AnswerLine(desk.line.text[:-1])), ()
    if token.raw and len(desk.line.text) < 200:
        return replace(desk, line=AnswerLine(desk.line.text + token.raw)), ()
    return desk, ()


def unwritten(desk: Desk) -> Outcome:
    """Free text is left with nothing written, as a keypad can too: Enter while nothing is typed."""
    return arrive(replace(desk, line=AnswerLine(), at=""))

"""The answer line: what a person or a gauge types, key by key, and what is typed read as a number.

Invariant: a key that has no place in an answer voids the whole line and says why; nothing is half taken.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bench.job.mask import Mask
from bench.job.number import INCH_PLACES, PLAIN

LAYOUTS = {"French": "&é\"'(è_çà", "Czech": "ěščřžýáíé"}
"""Characters of the digit row without Shift in layouts whose digits need Shift."""


@dataclass(frozen=True, slots=True)
class AnswerLine:
    """The answer line: what stands in it, or why what stood in it was thrown away."""

    text: str = ""
    void: str = ""
    """The reason in words; while it stands, everything but Enter and take back is ignored."""


def type_key(
    line: AnswerLine, token_text: str, *, mask: Mask | None = None, inch: bool = False, most: int = 1
) -> AnswerLine:
    """The answer line after one key.

    Without a mask a choice is asked: one digit, or at most so many on a long list, nothing else. Enter
    leaves the line alone unless it was thrown away, which Enter and take back clear. Keys that move
    (previous, next, list) do not touch it.
    """
    if line.void:
        return AnswerLine() if token_text in ("enter", "back") else line
    if token_text in ("enter", "previous", "next", "list", "", "tab") or token_text.startswith("arrow:"):
        return line
    if token_text == "back":
        return AnswerLine(line.text[:-1])
    if token_text.startswith("paste:"):
        return _type_paste(line, token_text.removeprefix("paste:"), mask=mask, inch=inch)
    why = _why_foreign(line.text, token_text, mask)
    if why:
        return AnswerLine(void=why)
    text = line.text + token_text.removeprefix("char:")
    why = _why_too_long(text, mask, inch=inch, most=most)
    return AnswerLine(void=why) if why else AnswerLine(text)


def _type_paste(line: AnswerLine, text: str, *, mask: Mask | None, inch: bool) -> AnswerLine:
    """A paste into an empty line, as if it had been typed."""
    if line.text:
        return AnswerLine(void="a paste into an answer begun by hand")
    for letter in text.strip().translate(PLAIN):
        line = type_key(line, letter if letter in "0123456789." else f"char:{letter}", mask=mask, inch=inch)
    return line


def _why_foreign(text: str, token_text: str, mask: Mask | None) -> str:
    """Why this key has no place in this answer, or ""."""
    if token_text == "navigation":
        return "NumLock is off: press NumLock, then key it again"
    if token_text.startswith("refused:"):
        return token_text.removeprefix("refused:")
    if token_text == "unknown":
        return "a key that is not a digit; if it was one, NumLock is off"
    if mask is None:
        if token_text in "0123456789":
            return ""
        return f"key the number of a choice, not {token_text.removeprefix('char:')}"
    if token_text == ".":
        if "." in text:
            return "a second point"
        return "" if mask.decimals else "no point here: whole numbers only"
    if not token_text.startswith("char:"):
        return ""
    character = token_text.removeprefix("char:")
    if _belongs(text, character):
        return ""
    layout = next((name for name, row in LAYOUTS.items() if character in row), "")
    if layout:
        return f"{character} is a digit key of the {layout} keyboard layout: hold Shift or use the keypad"
    return f"{character} does not belong in a number"


def _belongs(text: str, character: str) -> bool:
    """Whether a character that is no digit may follow `text`: a sign first, a unit or blank after."""
    if character in "+-":
        return not text
    if not text.strip("+-"):
        return character == " "
    if character == " ":
        return True
    tail = text.lstrip("+-0123456789. ").lower()
    return bool(re.fullmatch(r"""mm?|i(n(ch?)?)?|"|''?|”|″""", tail + character.lower()))


def _why_too_long(text: str, mask: Mask | None, *, inch: bool, most: int) -> str:
    """Why the text no longer fits its places, or ""."""
    if mask is None and len(text) > most:
        return "two digits where one is asked" if most == 1 else "too long: no entry has such a number"
    if mask is None:
        return ""
    number = text.lstrip("+- ").rstrip("minchMINCH\"'”″ ")
    whole, point, decimals = number.partition(".")
    most_decimals = max(mask.decimals, INCH_PLACES[-1]) if inch else mask.decimals
    if point and len(decimals) > most_decimals:
        return f"too many decimals: {mask.shown} {mask.unit}"
    places = mask.before if point or not mask.decimals else mask.before + mask.decimals
    if len(whole.lstrip("0")) > places or len(whole) > places + 6:
        return f"too long: {mask.shown} {mask.unit}"
    return ""

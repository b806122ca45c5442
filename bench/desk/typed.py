"""The answer line: what a person or a gauge types, key by key, and what is typed read as a number.

Invariant: a key that has no place in an answer voids the whole line and says why; nothing is half taken.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bench.job.mask import LENGTHS, Mask
from bench.job.number import INCH_PLACES, PLAIN

LAYOUTS = {"French": "&é\"'(è_çà", "Czech": "ěščřžýáíé"}
"""Characters of the digit row without Shift in layouts whose digits need Shift."""
MM_BEFORE = 2
"""Digits before the point of a diameter in mm, as a gauge set to mm sends it to a shop in inch."""


@dataclass(frozen=True, slots=True)
class AnswerLine:
    """The answer line: what stands in it, or why what stood in it was thrown away."""

    text: str = ""
    void: str = ""
    """The reason in words; while it stands, everything but Enter and take back is ignored."""


def type_key(
    line: AnswerLine,
    token_text: str,
    *,
    mask: Mask | None = None,
    others: tuple[Mask, ...] = (),
    inch: bool = False,
    most: int = 1,
) -> AnswerLine:
    """The answer line after one key.

    Without a mask a choice is asked: one digit, or at most so many on a long list, nothing else. `others`
    are masks of further instruments that the number may be read with. Enter leaves the line alone unless it
    was thrown away, which Enter and take back clear. Keys that move (previous, next, list) do not touch it.
    """
    if line.void:
        return AnswerLine() if token_text in ("enter", "back") else line
    if token_text in ("enter", "previous", "next", "list", "", "tab") or token_text.startswith("arrow:"):
        return line
    if token_text == "back":
        return AnswerLine(line.text[:-1])
    if token_text.startswith("paste:"):
        return _type_paste(line, token_text.removeprefix("paste:"), mask=mask, others=others, inch=inch)
    why = _why_foreign(line.text, token_text, mask)
    if why:
        return AnswerLine(void=why)
    text = line.text + token_text.removeprefix("char:")
    why = _why_too_long(text, mask, others, inch=inch, most=most)
    return AnswerLine(void=why) if why else AnswerLine(text)


def _type_paste(
    line: AnswerLine, text: str, *, mask: Mask | None, others: tuple[Mask, ...], inch: bool
) -> AnswerLine:
    """A paste into an empty line, as if it had been typed."""
    if line.text:
        return AnswerLine(void="a paste into an answer begun by hand")
    for letter in text.strip().translate(PLAIN):
        sent = letter if letter in "0123456789." else f"char:{letter}"
        line = type_key(line, sent, mask=mask, others=others, inch=inch)
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


def _why_too_long(text: str, mask: Mask | None, others: tuple[Mask, ...], *, inch: bool, most: int) -> str:
    """Why the text no longer fits its places, or "".

    A length may run on as far as one in the other unit would: what it looks like is said at Enter.
    """
    if mask is None and len(text) > most:
        return "two digits where one is asked" if most == 1 else "too long: no entry has such a number"
    if mask is None:
        return ""
    number = text.lstrip("+- ").rstrip("minchMINCH\"'”″ ")
    whole, point, decimals = number.partition(".")
    whole_digits = len(whole.lstrip("0"))
    if point and len(decimals) > _most_decimals(mask, others, inch=inch or whole_digits <= 1):
        return f"too many decimals: {mask.shown} {mask.unit}"
    before = max(one.before for one in (mask, *others))
    if point and mask.unit == "in":
        before = max(before, MM_BEFORE)
    whole_places = max(one.before + one.decimals for one in (mask, *others))
    places = before if point or not mask.decimals else whole_places
    if whole_digits > places or len(whole) > places + 6:
        return f"too long: {mask.shown} {mask.unit}"
    return ""


def _most_decimals(mask: Mask, others: tuple[Mask, ...], *, inch: bool) -> int:
    """Decimals that may be typed: those of the instruments; of a length those of a gauge set to inch."""
    most = max(one.decimals for one in (mask, *others))
    return max(most, INCH_PLACES[-1]) if inch and mask.unit in LENGTHS and mask.decimals else most

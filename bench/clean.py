"""Text made safe to show.

Invariant: no character that a terminal could act on, hide or reorder leaves `clean`; the text keeps its
length.
"""

from __future__ import annotations

import re
import unicodedata

REPLACEMENT = "\ufffd"
UNSAFE_CATEGORIES = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Controls, format and bidi marks, surrogates, private use, unassigned, line and paragraph separators."""

_NOT_PLAIN = re.compile(r"[^ -~]")


def is_unsafe(character: str) -> bool:
    """True for one character that must not reach a terminal as it is."""
    return unicodedata.category(character) in UNSAFE_CATEGORIES


def clean(text: str) -> str:
    """The text with each unsafe character replaced by U+FFFD; for text that comes in and text that is shown.

    >>> clean("29.46 mm")
    '29.46 mm'
    >>> clean("a\\x1b[2Jb") == "a" + REPLACEMENT + "[2Jb"
    True
    """
    return _NOT_PLAIN.sub(lambda found: REPLACEMENT if is_unsafe(found[0]) else found[0], text)

"""What a row of the list is found by, as one text that a word is looked for in, made once.

Invariant: a mark stands before each value that a word has to begin; nothing else in the text holds one.
"""

from __future__ import annotations

import re

NAMED, SIZE, BARE_SIZE, DAY = "\n\t\v\f"
"""The mark before a number, result, stage or plastic; a size; the same without its point; a day as digits."""
SIZE_DIGITS, DATE_DIGITS = 4, 6
"""So many digits without a point may be a size, or a year and a month; fewer are a number of a job alone."""
DIGITS = re.compile(r"[0-9.]+")


def text_of(words: str, named: tuple[str, ...], sizes: str, day: str) -> str:
    """The text of a row: words found anywhere in them, then what has to be begun.

    sizes: with their units, a comma between; day: such as 2026-03-02, empty where there is none.
    """
    told = [size for size in sizes.split(", ") if size]
    marked = (
        *(f"{NAMED}{one}" for one in named if one),
        *(f"{SIZE}{size}{BARE_SIZE}{size.replace('.', '')}" for size in told),
        f"{DAY}{bare(day)}" if day else "",
    )
    return " ".join(words.casefold().split()) + "".join(marked)


def forms(word: str, *, digits_alone: bool = False) -> tuple[str, ...]:
    """What finds a word, any of them; with `digits_alone` as a size or a day only.

    >>> forms("34.1", digits_alone=True), forms("20260", digits_alone=True)
    (('\\t34.1',), ('\\x0b20260',))
    """
    found: tuple[str, ...] = () if digits_alone else (word, NAMED + word)
    if "." in word:
        found += (SIZE + word,)
    elif len(word) >= SIZE_DIGITS:
        found += (BARE_SIZE + word,)
    return found + ((DAY + bare(word),) if is_date(word) else ())


def all_forms(text: str) -> tuple[tuple[str, ...], ...]:
    """Those of every word of a text."""
    if DIGITS.fullmatch(text):
        return (forms(text, digits_alone=True),)
    return tuple(forms(word) for word in text.casefold().split())


def is_date(text: str) -> bool:
    """Whether a text may be the beginning of a day: a year with its point, or six digits at least."""
    return text[4:5] in (".", "-") or (len(bare(text)) >= DATE_DIGITS and bare(text).isdecimal())


def bare(day: str) -> str:
    """A day without what stands between."""
    return day.replace(".", "").replace("-", "")

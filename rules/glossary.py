"""The words of this program and what each means, for the screen and for its documents.

Invariant: a word is explained here once; a word of the bench is one that a person meets on screen or paper.
"""

from __future__ import annotations

from functools import lru_cache

from rules.tables import raw_table


@lru_cache(maxsize=1)
def bench_words() -> dict[str, str]:
    """Words on the screen and on paper, in the order in which they are explained."""
    words: dict[str, str] = raw_table("glossary")["bench"]
    return words

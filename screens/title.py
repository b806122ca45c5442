"""The title of the window: the job in hand; the title that was there is kept, and given back.

Invariant: no letter of it can act on the terminal, and one that may show it as text gets none.
"""

from __future__ import annotations

from bench.clean import clean
from screens.look import Look, plain

KEEP, BACK = "\x1b[22;2t", "\x1b[23;2t"
"""Keep the title of the window, and give it back (xterm, control sequences; others leave both alone)."""


def title_of(words: str, look: Look) -> str:
    """What makes the terminal show a title; empty where it shows none.

    >>> title_of("208  Ferry", Look(titles=True))
    '\\x1b]2;208 Ferry - ringwright\\x07'
    """
    if not look.titles:
        return ""
    safe = " ".join(clean(words).split())
    named = safe if safe == "ringwright" else f"{safe} - ringwright"
    return f"\x1b]2;{plain(named) if look.ascii else named}\x07"

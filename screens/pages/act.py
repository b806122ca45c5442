"""What to do now, set off in a large window: bold, under space, over a rule as long as it is.

Invariant: it is the same sentence in every window; the rule goes before anything that says something.
"""

from __future__ import annotations

from bench.desk.desk import Desk
from screens.layout import Line, line, text_of, wrapped

LARGE = (98, 30)
"""Columns and rows from which on it is set off: 100 x 30, and the page beside the column of a wide window."""
RULE = "━"


def act_lines(title: str, columns: int) -> list[Line]:
    """The sentence."""
    return wrapped(f"  {title}", columns, "strong", hang="  ")


def rule_under(desk: Desk, act: list[Line]) -> list[Line]:
    """The rule under it; nothing in a smaller window."""
    if desk.columns < LARGE[0] or desk.rows < LARGE[1]:
        return []
    longest = max(len(text_of(one).strip()) for one in act)
    return [line(f"  {RULE * longest}", "strong")]

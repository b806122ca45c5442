"""Moving without answering: back and forward one question, through a long list, to everything else.

Invariant: moving writes nothing and never passes the first open question.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bench.desk import entries, shop_asked
from bench.desk.desk import Desk
from bench.desk.manual import CHAPTER, read_on
from bench.desk.pages import PAGEFUL, Outcome, back, forward_question, over, show
from bench.desk.replacing import PAGE

MOST_BELOW = 8
"""Rows that ways on and keys may take under a text that is moved through."""


def previous(desk: Desk) -> Outcome:
    """Back one question; from a page that lies over another, back to that."""
    if desk.trail:
        return back(desk), ()
    if desk.page != "step" or desk.walk is None:
        return replace(desk, scroll=max(0, desk.scroll - 1)), ()
    if shop_asked.first_question(desk):
        return previous_below(desk)
    keys = desk.walk.keys
    shown = desk.step.key if desk.step else ""
    at = keys.index(shown) if shown in keys else len(keys)
    if at == 0:
        return replace(desk, message="this is the first question"), ()
    return show(desk, keys[at - 1])


def previous_below(desk: Desk) -> Outcome:
    """From the first question about the shop back to what lay under it, and on a step there one further."""
    below, effects = shop_asked.left_off(desk)
    return previous(below) if below.page == "step" and not below.at else (below, effects)


def following(desk: Desk) -> Outcome:
    """Forward one question through answered ones, or the next nine entries of a list."""
    if desk.page in ("list", "pick"):
        count = PAGEFUL * len(entries.PAGES) if desk.page == "list" else len(desk.picks)
        beyond = desk.offset + PAGEFUL
        return replace(desk, offset=beyond if beyond < count else 0), ()
    if desk.page == CHAPTER:
        return read_on(desk)
    if desk.page in ("why", "keys", "sheet", "customer", "drawer", "jobs", "account", "damage"):
        return replace(desk, scroll=desk.scroll + max(1, desk.rows // 2)), ()
    if desk.page == PAGE:
        return replace(desk, scroll=desk.scroll + max(1, (desk.rows - MOST_BELOW) // 2)), ()
    step = desk.step
    if step is not None and len(step.choices) > PAGEFUL and step.kind == "choice":
        beyond = desk.offset + PAGEFUL
        return replace(desk, offset=beyond if beyond < len(step.choices) else 0), ()
    return forward_question(desk)


def open_list(desk: Desk) -> Outcome:
    """The numbered list "everything else"."""
    if desk.page in ("list", "pick", "damage"):
        return desk, ()
    first = 0 if desk.job is not None else PAGEFUL * (len(entries.PAGES) - 1)  # what is for the list of jobs
    return replace(over(desk, "list"), offset=first), ()


MOVE: dict[str, Callable[[Desk], Outcome]] = {"previous": previous, "next": following, "list": open_list}

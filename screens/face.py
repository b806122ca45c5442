"""What the shell is given: a desk and the functions that change it, show it and carry out its effects.

Invariant: no toolkit here; a face is tried in a test without a screen.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from bench.clocks import since_boot, wall_now
from bench.desk.keys import meaning
from bench.desk.token import Leave
from screens.look import Look

ShownDesk = TypeVar("ShownDesk")
Lines = Sequence[Sequence[tuple[str, str]]]
"""Lines of (text, role)."""


@dataclass(frozen=True)
class Face(Generic[ShownDesk]):
    """Everything the shell needs to know of what it shows."""

    desk: ShownDesk
    update: Callable[[ShownDesk, Any], tuple[ShownDesk, Sequence[Any]]]
    """The desk after one token; a `painted` token must not change what is seen."""

    carry_out: Callable[[Sequence[Any]], Sequence[Any]]
    """Carries out the effects of one token (but Bell and Leave) and says what happened, as tokens."""

    view: Callable[[ShownDesk], Lines]
    ticking: Callable[[ShownDesk], float] = lambda _desk: 0
    """In how many seconds a tick is wanted, such as for a timer that runs; 0 when none is."""

    settle_ms: Callable[[ShownDesk], float] = lambda _desk: 0.0
    """How long after the last key a `settle` is wanted; 0 when nothing is held back."""

    theme: Callable[[ShownDesk], str] = lambda _desk: "day"
    """day or night."""

    title: Callable[[ShownDesk], str] = lambda _desk: "ringwright"
    """The job in hand, for the window."""

    meaning: Callable[[str, str | None], str] = meaning
    """What a key means, from its name and character: the text of its token, "" for none."""

    farewell: Callable[[Leave], Leave] = lambda leave: leave
    """The last words and the status as they are now, while everything is still open."""

    listen: Callable[[Callable[[Any], Any]], Any] = lambda _post: None
    """Called once the screen stands, with what takes a token from any thread: gauges on lines are heard."""

    closing: Callable[[], None] = lambda: None
    """Closes what is open; called once on every way out, also from a signal handler."""

    look: Look = field(default_factory=Look)
    now: Callable[[], float] = time.monotonic
    wall: Callable[[], str] = wall_now
    boot: Callable[[], float | None] = since_boot


def raw_letter(character: str | None) -> str:
    """The printable character of a key, for free text; "" for a key that prints nothing."""
    return character if character and character.isprintable() else ""


def pasted(text: str) -> str:
    """What a paste means as a key: "paste:" and one short line, or "refused:" and why."""
    lines = text.splitlines()
    if len(lines) > 1:
        return "refused:several lines pasted: paste or key one reading at a time"
    if len(text) > 40:
        return "refused:a long text pasted: key one reading"
    return f"paste:{lines[0]}" if lines and lines[0] else "refused:an empty paste"

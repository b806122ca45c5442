"""How far long work has come, on one line that goes away again.

Invariant: nothing is said but to a person who waits: on a terminal, and only of work that takes its time.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import TextIO

FIRST_S = 0.5
"""Work done sooner is not told of."""
EVERY_S = 0.2


class Progress:
    """One line of progress."""

    def __init__(self, out: TextIO | None, what: str, *, now: Callable[[], float] = time.monotonic) -> None:
        self._out = out if out is not None and out.isatty() else None
        self._what = what
        self._now = now
        self._due = now() + FIRST_S
        self._shown = ""

    def told(self, done: int, of: int) -> None:
        """So many are done."""
        if self._out is None or self._now() < self._due:
            return
        self._due = self._now() + EVERY_S
        self._show(f"{done:,} of {of:,} {self._what}")

    def clear(self) -> None:
        """The work is over."""
        if self._shown:
            self._show("")

    def _show(self, text: str) -> None:
        assert self._out is not None
        try:
            self._out.write(f"\r{text:<{len(self._shown)}}\r{text}")
            self._out.flush()
        except OSError:
            self._out = None  # the work does not depend on who hears of it
        self._shown = text

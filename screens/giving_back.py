"""The terminal given back as it was found, however the program is told to go; nothing of the toolkit here.

Invariant: whatever happens on the way out, files are closed first, and nothing waits for the terminal.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import termios
from collections.abc import Callable
from types import FrameType
from typing import Any

GIVE_BACK = "\x1b[?2004l\x1b[?7h\x1b[<u\x1b[?1049l\x1b[?25h\x1b[?1004l\x1b[0m"
"""Leave bracketed paste, the key protocol, the second screen; wrap lines, show the cursor, plain colours."""

PATIENCE_S = 1.0
"""How long an orderly leave may take after SIGTERM before the program goes at once."""


def leave_at_once(attributes: list[Any] | None, closing: Callable[[], None], status: int = 0) -> None:
    """Close the files, give the terminal back without drawing or waiting, and go."""
    with contextlib.suppress(Exception):
        closing()
    give_back(attributes)
    os._exit(status)


def give_back(attributes: list[Any] | None) -> None:
    """The terminal as it was found, without drawing or waiting."""
    with contextlib.suppress(Exception):
        descriptor = sys.__stderr__.fileno() if sys.__stderr__ else 2
        os.set_blocking(descriptor, False)
        os.write(descriptor, GIVE_BACK.encode())
        os.set_blocking(descriptor, True)
    if attributes is not None:
        with contextlib.suppress(Exception):
            termios.tcsetattr(0, termios.TCSANOW, attributes)


def attributes_now() -> list[Any] | None:
    """The settings of the terminal, to be given back later; None when there is none."""
    try:
        return termios.tcgetattr(0)
    except (termios.error, OSError):
        return None


def watch_signals(*, leave: Callable[[], None], at_once: Callable[[], None]) -> None:
    """SIGTERM leaves in order, and at once when that takes too long; SIGHUP leaves at once.

    An ignored SIGHUP (nohup, some multiplexers) stays ignored; the lost line is then seen by the reading
    thread.
    """

    def on_term(_number: int, _frame: FrameType | None) -> None:
        signal.signal(signal.SIGALRM, lambda *_: at_once())
        signal.setitimer(signal.ITIMER_REAL, PATIENCE_S)
        leave()

    signal.signal(signal.SIGTERM, on_term)
    if signal.getsignal(signal.SIGHUP) is not signal.SIG_IGN:
        signal.signal(signal.SIGHUP, lambda *_: at_once())


def disarm() -> None:
    """Stop the clock that SIGTERM set going."""
    signal.setitimer(signal.ITIMER_REAL, 0)

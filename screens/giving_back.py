"""The terminal given back as it was found, however the program is told to go; nothing of the toolkit here.

Invariant: whatever happens on the way out, files are closed first, and nothing waits for the terminal.
"""

from __future__ import annotations

import contextlib
import os
import signal
from collections.abc import Callable
from types import FrameType
from typing import Any

from screens.system import POSIX_TERMINAL, drawn_on, put_back
from screens.title import BACK

GIVE_BACK = BACK + "\x1b[?2004l\x1b[?7h\x1b[<u\x1b[?1049l\x1b[?25h\x1b[?1004l\x1b[0m"
"""Leave title, bracketed paste, key protocol, second screen; wrap lines, show the cursor, plain colours."""

WINDOW_GOES = ("SIGHUP", "SIGBREAK")
"""Signals that say so, each there on one kind of system."""

PATIENCE_S = 1.0
"""How long an orderly leave may take after SIGTERM before the program goes at once."""


def leave_at_once(attributes: list[Any] | None, closing: Callable[[], None], status: int = 0) -> None:
    """Close the files, give the terminal back without drawing or waiting, and go."""
    with contextlib.suppress(Exception):
        closing()
    give_back(attributes)
    os._exit(status)


def title_back() -> None:
    """The title that the window had before."""
    with contextlib.suppress(OSError, ValueError):
        if (stream := drawn_on()) is not None:
            stream.write(BACK)
            stream.flush()


def give_back(attributes: list[Any] | None) -> None:
    """The terminal as it was found, without drawing or waiting."""
    with contextlib.suppress(Exception):
        stream = drawn_on()
        descriptor = stream.fileno() if stream else 2
        if POSIX_TERMINAL:  # a console cannot be unblocked
            os.set_blocking(descriptor, False)
        os.write(descriptor, GIVE_BACK.encode())
        if POSIX_TERMINAL:
            os.set_blocking(descriptor, True)
    if attributes is not None:
        with contextlib.suppress(Exception):
            put_back(attributes)


def watch_signals(*, leave: Callable[[], None], at_once: Callable[[], None]) -> None:
    """SIGTERM leaves in order, and at once when that takes too long; what says that the window goes, at once.

    An ignored SIGHUP (nohup, some multiplexers) stays ignored; the lost line is then seen by the reading
    thread. Where there is no alarm no SIGTERM comes from outside either.
    """

    def on_term(_number: int, _frame: FrameType | None) -> None:
        if POSIX_TERMINAL:
            signal.signal(signal.SIGALRM, lambda *_: at_once())
            signal.setitimer(signal.ITIMER_REAL, PATIENCE_S)
        leave()

    signal.signal(signal.SIGTERM, on_term)
    for number in (getattr(signal, name) for name in WINDOW_GOES if hasattr(signal, name)):
        if signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, lambda *_: at_once())


def disarm() -> None:
    """Stop the clock that SIGTERM set going."""
    if POSIX_TERMINAL:
        signal.setitimer(signal.ITIMER_REAL, 0)

"""What this system gives the full screen: a POSIX terminal, or a console for the toolkit's own driver.

Invariant: here alone is asked whether there is a POSIX terminal. Where there is, its settings are kept and
given back; elsewhere the toolkit's own driver takes the console and gives it back, the first page waits for
the toolkit, and stop and go on are left out.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from importlib.util import find_spec
from typing import Any, TextIO

POSIX_TERMINAL = find_spec("termios") is not None
CONSOLE = "conhost-256color"
"""A console that says nothing of itself: 256 colours are always there, fine rasters are not."""
MODERN = "xterm-256color"


def settings_now() -> list[Any] | None:
    """The settings of the terminal, to be given back later; None where there are none."""
    if POSIX_TERMINAL:
        import termios

        try:
            return termios.tcgetattr(0)
        except (termios.error, OSError):
            return None
    return None


def put_back(settings: list[Any]) -> None:
    """Give the terminal settings as `settings_now` found them. Raises OSError and what termios raises."""
    if POSIX_TERMINAL:
        import termios

        termios.tcsetattr(0, termios.TCSANOW, settings)


def take_raw() -> None:
    """Have keys wait unread and unechoed, byte for byte. Raises OSError and what termios raises."""
    if POSIX_TERMINAL:
        import termios

        raw = termios.tcgetattr(0)
        raw[0] &= ~(termios.IXON | termios.IXOFF | termios.ICRNL | termios.INLCR | termios.IGNCR)
        raw[3] &= ~(termios.ECHO | termios.ICANON | termios.IEXTEN | termios.ISIG)
        raw[6][termios.VMIN] = 1
        termios.tcsetattr(0, termios.TCSANOW, raw)


def drawn_on() -> TextIO | None:
    """The stream on which the toolkit's driver draws."""
    return sys.__stderr__ if POSIX_TERMINAL else sys.__stdout__


def said_of_itself() -> Mapping[str, str]:
    """The environment, in which a terminal says what it is; a console of Windows says too little.

    What it can do is from memory, not tried.
    """
    if POSIX_TERMINAL or os.environ.get("TERM") in ("dumb", "unknown"):
        return os.environ
    kind = MODERN if "WT_SESSION" in os.environ else CONSOLE
    return {**os.environ, "TERM": kind, "COLORTERM": ""}

"""The shell round the one screen: opened, left on every way out, what is to be said printed after.

Invariant: however it ends, the terminal is given back and what was accepted is saved.
"""

from __future__ import annotations

import gc
import shutil
import sys
import textwrap
import threading
from collections.abc import Callable
from typing import Any, ClassVar

from textual.app import App
from textual.binding import BindingType
from textual.driver import Driver
from textual.screen import Screen

from bench.desk.token import Token
from screens import giving_back
from screens.bench_screen import Bench
from screens.face import Face
from screens.first_page import Taken
from screens.system import POSIX_TERMINAL, settings_now


class Shell(App[None], inherit_bindings=False):
    """The application round the one screen; it quits only when the desk says so or a signal does."""

    BINDINGS: ClassVar[list[BindingType]] = []
    ENABLE_COMMAND_PALETTE = False
    CSS = "Bench { layout: vertical; overflow: hidden; } Page { width: 100%; height: 100%; }"

    def __init__(
        self, face: Face[Any], *, at_once: Callable[[], None] = lambda: None, taken: Taken | None = None
    ) -> None:
        self.taken = taken
        super().__init__(driver_class=driver_of_ours(), ansi_color=True)
        self._face = face
        self.at_once = at_once
        self.bench = Bench(face)
        self.fault: Exception | None = None

    def get_default_screen(self) -> Screen[Any]:
        """The one screen."""
        return self.bench

    def lost_line(self) -> None:
        """Called in the reading thread when the terminal is gone:
        leave between two tokens, or soon in any case.
        """
        loop = self._loop
        if loop is not None:
            loop.call_soon_threadsafe(self.at_once)
        threading.Event().wait(giving_back.PATIENCE_S)
        self.at_once()

    def told_to_go(self) -> None:
        """A signal asks for the end: the desk may say its last words, then out in any case."""
        try:
            self.bench.feed(Token("leave", at=self._face.now(), wall=self._face.wall()))
        finally:
            self.exit()

    def _handle_exception(self, error: Exception) -> None:
        """A fault of ours: remember it, leave the screen, show no traceback."""
        if self.fault is None:
            self.fault = error
        self._return_code = 4
        if self._exception is None:
            self._exception = error
            self._exception_event.set()
        self._close_messages_no_wait()


def driver_of_ours() -> type[Driver] | None:
    """Our own driver on a POSIX terminal; None elsewhere, where the toolkit takes the one it has."""
    if not POSIX_TERMINAL:
        return None
    from screens.terminal import BenchDriver

    return BenchDriver


def run_face(face: Face[Any], taken: Taken | None = None) -> int:
    """Open the screen and stay until the desk leaves; the exit status of the program.

    `taken`: the terminal, where the first page stands on it already.
    0 left in order or by SIGTERM, SIGHUP or a lost line; 2 no terminal; 4 a fault of ours. What is to be
    said is printed when the terminal is plain again.
    """
    attributes = taken.attributes if taken else settings_now()

    def at_once() -> None:
        giving_back.leave_at_once(attributes, face.closing)

    gc.disable()
    shell = Shell(face, at_once=at_once, taken=taken)

    def leave() -> None:
        loop = shell._loop
        if loop is not None:
            loop.call_soon_threadsafe(shell.told_to_go)

    giving_back.watch_signals(leave=leave, at_once=at_once)
    try:
        shell.run(mouse=False)
    finally:
        gc.enable()
        if shell.bench.titled:
            giving_back.title_back()
        giving_back.disarm()
        face.closing()
    return _farewell(shell)


def _farewell(shell: Shell) -> int:
    """Say what is to be said on the plain terminal; the exit status."""
    if shell.fault is not None:
        kind = type(shell.fault).__name__
        words = " ".join(str(shell.fault).split())[:200]
        print(f"ringwright: a fault of ours, what was accepted is saved: {kind}: {words}", file=sys.stderr)
        return 4
    left = shell.bench.left
    if left is None:
        return 0
    if left.words:
        print(in_width(left.words, shutil.get_terminal_size().columns), flush=True)
    return left.status


def in_width(words: str, columns: int) -> str:
    """The last words, broken between words; the first line holds a path, which a break would spoil."""
    where, *rest = words.split("\n")
    folded = (textwrap.fill(text, columns, break_long_words=False, break_on_hyphens=False) for text in rest)
    return "\n".join((where, *folded))

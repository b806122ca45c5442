"""The terminal under the toolkit: a driver that survives unknown bytes and a lost line, and
never leaves the terminal in raw mode.

Invariant: no byte a keyboard, gauge, paste or broken line sends can end the program; the thread that reads
keys sleeps until there is something to read, so an idle screen costs nothing; and however the program is
told to go, the terminal is given back as it was found.
"""

from __future__ import annotations

import codecs
import contextlib
import os
import selectors
import signal
import sys
import termios
import threading
import time
from collections.abc import Callable
from types import FrameType
from typing import Any

from textual import events
from textual._parser import ParseError
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver

GIVE_BACK = "\x1b[?2004l\x1b[?7h\x1b[<u\x1b[?1049l\x1b[?25h\x1b[?1004l\x1b[0m"
"""Leave bracketed paste, the key protocol, the second screen; wrap lines, show the cursor, plain colours."""

PATIENCE_S = 1.0
"""How long an orderly leave may take after SIGTERM before the program goes at once."""


class _Waking(threading.Event):
    """An event that also writes to a pipe, so that a thread asleep in select wakes."""

    def __init__(self) -> None:
        super().__init__()
        self.reader, self._writer = os.pipe()
        os.set_blocking(self.reader, False)
        os.set_blocking(self._writer, False)

    def set(self) -> None:
        super().set()
        with contextlib.suppress(OSError):
            os.write(self._writer, b".")

    def clear(self) -> None:
        super().clear()
        with contextlib.suppress(OSError):
            os.read(self.reader, 64)


class BenchDriver(LinuxDriver):
    """The toolkit's terminal driver with a reading thread of our own."""

    def __init__(self, app: Any, **options: Any) -> None:
        super().__init__(app, **options)
        self._waking = _Waking()
        self.exit_event = self._waking
        self._suspended = False
        self._continued = self._resuming = False
        self._lost_line: Callable[[], None] = app.lost_line

    def _sigtstp_application(self, *_: Any) -> None:
        """Give the terminal back and stop."""
        self._suspended = True
        super()._sigtstp_application()

    def _sigcont_application(self, *_: Any) -> None:
        """Take the terminal again, also when the program was stopped without being asked (SIGSTOP).

        One signal may come while another is still being answered: it is answered after it, never inside it.
        """
        self._continued = True
        if self._resuming:
            return
        self._resuming = True
        try:
            while self._continued:
                self._continued = False
                self._take_again()
        finally:
            self._resuming = False

    def _take_again(self) -> None:
        if not self._suspended:
            self.suspend_application_mode()
            self._must_signal_resume = True
        self._suspended = False
        self.resume_application_mode()

    def _run_input_thread(self) -> None:
        """Read until told to stop or until the line is gone."""
        try:
            self.run_input_thread()
        except Exception as error:
            self._app.call_later(self._app._handle_exception, error)

    def run_input_thread(self) -> None:
        """Turn bytes into events: the toolkit's parser behind a decoder that refuses nothing."""
        parser = XTermParser(self._debug)
        decode = codecs.getincrementaldecoder("utf-8")(errors="replace").decode
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            selector.register(self._waking.reader, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                ready = selector.select(self._patience(parser))
                came = time.monotonic()
                if any(key.fd == self.fileno for key, _ in ready):
                    data = self._read()
                    if not data:
                        self.exit_event.set()
                        self._lost_line()
                        return
                    parser = self._feed(parser, decode(data), came)
                for event in parser.tick():
                    self.process_message(event)
            with contextlib.suppress(EOFError, ParseError):
                list(parser.feed(""))

    def _feed(self, parser: XTermParser, text: str, came: float) -> XTermParser:
        """Parse letter by letter, so that a sequence that cannot be read costs only itself.

        What was read at once `came` at once, however busy the program is meanwhile.
        """
        for letter in text:
            try:
                for event in parser.feed(letter):
                    event.time = came
                    self.process_message(event)
            except Exception:
                parser = XTermParser(self._debug)
                self.process_message(events.Key("unreadable", None))
        return parser

    def _read(self) -> bytes:
        """What is there; empty when the line to the terminal is gone."""
        try:
            return os.read(self.fileno, 4096)
        except OSError:
            return b""

    @staticmethod
    def _patience(parser: XTermParser) -> float | None:
        """How long to sleep: for ever, but for the moment after Escape while more may follow."""
        return 0.05 if parser._timeout_time is not None else None


def leave_at_once(attributes: list[Any] | None, closing: Callable[[], None], status: int = 0) -> None:
    """Close the files, give the terminal back without drawing or waiting, and go."""
    with contextlib.suppress(Exception):
        closing()
    with contextlib.suppress(Exception):
        descriptor = sys.__stderr__.fileno() if sys.__stderr__ else 2
        os.set_blocking(descriptor, False)
        os.write(descriptor, GIVE_BACK.encode())
        os.set_blocking(descriptor, True)
    if attributes is not None:
        with contextlib.suppress(Exception):
            termios.tcsetattr(0, termios.TCSANOW, attributes)
    os._exit(status)


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

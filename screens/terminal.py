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
import threading
import time
from collections.abc import Callable
from typing import Any

from textual import events
from textual._parser import ParseError
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver

from screens.first_page import SECOND_SCREEN, Taken


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
        self._taken: Taken | None = app.taken
        self._stood_at: float | None = self._taken.at if self._taken else None

    def start_application_mode(self) -> None:
        """Take the terminal, or take it over from the first page: as it stands, to be given back as found."""
        super().start_application_mode()  # type: ignore[no-untyped-call]
        if self._taken is not None:
            self.attrs_before = self._taken.attributes
            self._taken = None

    def write(self, data: str) -> None:
        """Write, but no second screen again where the first page stands on it: that would clear it."""
        if self._taken is None or data != SECOND_SCREEN:
            super().write(data)

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
            waited = bool(selector.select(0)) and self._stood_at
            while not self.exit_event.is_set():
                ready = selector.select(self._patience(parser))
                came = time.monotonic()
                if any(key.fd == self.fileno for key, _ in ready):
                    data = self._read()
                    if not data:
                        self.exit_event.set()
                        self._lost_line()
                        return
                    parser = self._feed(parser, decode(data), came, since=waited or came)
                    waited = False
                for event in parser.tick():
                    self.process_message(event)
            with contextlib.suppress(EOFError, ParseError):
                list(parser.feed(""))

    def _feed(self, parser: XTermParser, text: str, came: float, *, since: float) -> XTermParser:
        """Parse letter by letter, so that a sequence that cannot be read costs only itself.

        What was read at once `came` at once, however busy the program is meanwhile; what waited in the line
        since the first page stood came evenly in that time.
        """
        for place, letter in enumerate(text, 1):
            try:
                for event in parser.feed(letter):
                    event.time = since + (came - since) * place / len(text)
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

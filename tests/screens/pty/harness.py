"""A program under a real pseudo-terminal: keys go in at a chosen pace, the screen comes out.

Nothing here sleeps: every wait ends as soon as what is waited for is there, and fails after a generous time.
"""

from __future__ import annotations

import contextlib
import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import pyte

ROOT = Path(__file__).resolve().parents[3]
PATIENCE_S = 20.0
_UNKNOWN = re.compile(rb"\x1b\[[<=>][0-9;:]*[@-~]|\x1b\[\?[0-9;]*\$p|\x1b\]22;[a-z]*\x07")
"""Key protocol, mode queries and the shape of the pointer, which the screen model would misread."""
TAKEN = (signal.SIGHUP, signal.SIGINT, signal.SIGQUIT, signal.SIGTERM, signal.SIGTSTP)
"""Signals that a program is started with as usual, whatever the person who runs the tests ignores (nohup)."""
_TAIL = re.compile(rb"\x1b(?:\[[0-9;:<=>?$]*|\][0-9]*(?:;[^\x07]*)?)?\Z")

if sys.platform == "win32":  # pragma: no cover
    raise RuntimeError("pseudo-terminals need a Unix")


def clean_environment(**more: str) -> dict[str, str]:
    """The environment without anything that changes how a screen looks or how Python runs."""
    dropped = ("NO_COLOR", "COLUMNS", "LINES", "PYTHONDONTWRITEBYTECODE", "PYTHONIOENCODING")
    kept = {
        name: value
        for name, value in os.environ.items()
        if name not in dropped and not name.startswith(("TEXTUAL", "RINGWRIGHT", "LC_", "COV_"))
    }
    kept.update(TERM="xterm-256color", COLORTERM="truecolor", LANG="C.UTF-8", PYTHONPATH=str(ROOT))
    kept.update(more)
    return {name: value for name, value in kept.items() if value != "<unset>"}


def known(data: bytes) -> bytes:
    """What the screen model reads rightly."""
    return _UNKNOWN.sub(b"", data)


class Terminal:
    """One program with a terminal of its own; use as a context manager."""

    def __init__(
        self,
        words: Sequence[str],
        *,
        columns: int = 80,
        rows: int = 24,
        environment: dict[str, str] | None = None,
        stdin: int | None = None,
        stderr: int | None = None,
        ignore_hangup: bool = False,
        model: bool = True,
    ) -> None:
        self.master, self.slave = pty.openpty()
        self.columns, self.rows = columns, rows
        self._set_size(columns, rows)
        self.before = termios.tcgetattr(self.slave)
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        self._model = model
        self._tail = b""
        self.output = bytearray()

        def attach() -> None:
            fcntl.ioctl(self.slave, termios.TIOCSCTTY, 0)
            for number in TAKEN:
                signal.signal(number, signal.SIG_DFL)
            if ignore_hangup:
                signal.signal(signal.SIGHUP, signal.SIG_IGN)

        self.process = subprocess.Popen(
            [sys.executable, *words],
            stdin=self.slave if stdin is None else stdin,
            stdout=self.slave,
            stderr=self.slave if stderr is None else stderr,
            env=clean_environment() if environment is None else environment,
            cwd=ROOT,
            start_new_session=True,
            preexec_fn=attach,
        )

    def __enter__(self) -> Terminal:
        return self

    def __exit__(self, *_: Any) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait(PATIENCE_S)
        self.close_line()
        with contextlib.suppress(OSError):
            os.close(self.slave)

    def close_line(self) -> None:
        """Close the terminal's end, as a closed window or a dropped connection does."""
        if self.master >= 0:
            os.close(self.master)
            self.master = -1

    def _set_size(self, columns: int, rows: int) -> None:
        fcntl.ioctl(self.master, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    def resize(self, columns: int, rows: int) -> None:
        """Give the window another size, as dragging its corner does."""
        self.columns, self.rows = columns, rows
        self.screen.resize(max(rows, 1), max(columns, 1))
        self._set_size(columns, rows)
        with contextlib.suppress(ProcessLookupError):
            os.killpg(self.process.pid, signal.SIGWINCH)

    def send(self, data: bytes) -> None:
        """Write all the bytes at once, reading what comes back meanwhile."""
        while data:
            _, writable, _ = select.select([self.master], [self.master], [], PATIENCE_S)
            if not writable:
                raise AssertionError("the terminal takes no more keys")
            data = data[os.write(self.master, data[:512]) :]
            self.drain(0)

    def pace(self, timed: Iterable[tuple[float, bytes]]) -> None:
        """Write bytes, each a given time in seconds after the one before."""
        due = time.monotonic()
        for wait_s, data in timed:
            due += wait_s
            while (left := due - time.monotonic()) > 0:
                self.drain(left)
            self.send(data)

    def drain(self, timeout_s: float) -> bool:
        """Take what has come back, waiting at most `timeout_s` for the first of it."""
        ready, _, _ = select.select([self.master], [], [], max(timeout_s, 0))
        if not ready:
            return False
        try:
            data = os.read(self.master, 65536)
        except OSError:
            return False
        self.output += data
        if self._model and data:
            data = self._tail + data
            cut = _TAIL.search(data)
            self._tail = cut[0] if cut else b""
            self._stream.feed(known(data[: len(data) - len(self._tail)]))
        return bool(data)

    def text(self) -> str:
        """What stands on the screen."""
        return "\n".join(self.screen.display)

    def wait(self, ready: Callable[[], bool], what: str = "it") -> None:
        """Wait until something is so; fails with the screen when it never is."""
        end = time.monotonic() + PATIENCE_S
        while not ready():
            if time.monotonic() > end:
                raise AssertionError(f"waited in vain for {what}; the screen:\n{self.text()}")
            self.drain(0.02)

    def wait_for(self, words: str) -> None:
        """Wait until the words stand on the screen."""
        self.wait(lambda: words in self.text(), repr(words))

    def wait_exit(self) -> int:
        """Wait for the end of the program; its exit status, negative for a signal."""
        end = time.monotonic() + PATIENCE_S
        while self.process.poll() is None:
            if time.monotonic() > end:
                raise AssertionError(f"the program never ended; the screen:\n{self.text()}")
            if self.master >= 0:
                self.drain(0.02)
            else:
                with contextlib.suppress(subprocess.TimeoutExpired):
                    self.process.wait(0.1)
        while self.master >= 0 and self.drain(0):
            pass
        return int(self.process.returncode)

    def given_back(self) -> bool:
        """Whether the terminal's settings are as they were and the second screen is left."""
        last_alternate = self.output.rfind(b"\x1b[?1049")
        return (
            termios.tcgetattr(self.slave) == self.before
            and self.output[last_alternate : last_alternate + 8] == b"\x1b[?1049l"
            and self.output.rfind(b"\x1b[?25h") > self.output.rfind(b"\x1b[?25l")
        )

"""The program where no POSIX module is: python -m tests.whole.no_posix FOLDER COMMAND ...; FOLDER alone for
a job in plain lines from standard input, on a clock that is moved; FOLDER full JOB for the full screen, on
the toolkit's driver for Windows.

Modules and names of the system that only POSIX has are taken away before anything of the program is loaded.
What the toolkit asks of the console of Windows itself is put in its place: a thread that reads keys.
"""

from __future__ import annotations

import asyncio  # noqa: F401  # what the interpreter has elsewhere is a loop of another kind
import os
import random
import select
import signal
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path
from types import ModuleType
from typing import Any

import platformdirs.unix  # noqa: F401  # nor is this one taken there

from tests.whole.posix_only import posix_only

HIDDEN = (
    *("fcntl", "termios", "pwd", "grp", "tty", "pty", "resource", "syslog", "readline"),
    *("crypt", "nis", "ossaudiodev", "spwd"),
)
SYSTEM = (os, signal, time)


def hide() -> None:
    """Take away what only POSIX has."""
    for name in HIDDEN:
        sys.modules[name] = None  # type: ignore[assignment]
    for module in SYSTEM:
        for name in posix_only(module.__name__) - {"SIGCHLD"}:  # the loop that is here needs it
            if hasattr(module, name):
                delattr(module, name)
    os.supports_follow_symlinks.discard(os.link)


def console() -> ModuleType:
    """What the toolkit's driver for Windows needs of the system: modes to give back, a thread of keys."""
    from textual._xterm_parser import XTermParser

    class Keys(threading.Thread):
        """Keys of standard input to the driver, until it is told to stop."""

        def __init__(
            self, _loop: Any, _app: Any, gone: threading.Event, process: Callable[[Any], None]
        ) -> None:
            super().__init__()
            self.gone, self.process = gone, process

        def run(self) -> None:
            """Read."""
            parser = XTermParser()
            while not self.gone.is_set():
                for event in parser.tick():
                    self.process(event)
                if select.select([0], [], [], 0.02)[0]:
                    for event in parser.feed(os.read(0, 64).decode()):
                        self.process(event)

    stands_in = ModuleType("textual.drivers.win32")
    stands_in.enable_application_mode = lambda: lambda: print("modes given back")  # type: ignore[attr-defined]
    stands_in.EventMonitor = Keys  # type: ignore[attr-defined]
    return stands_in


def in_full(folder: str, *job: str) -> int:
    """The full screen."""
    import textual.app

    textual.app.WINDOWS = True
    sys.modules["textual.drivers.win32"] = console()
    from ringwright import main

    return main(["--folder", folder, *job])


def in_lines(folder: Path) -> None:
    """The job that is typed, in plain lines."""
    from bench.desk.desk import Desk
    from bench.workbench import Workbench
    from screens.lines_in import by_thread
    from screens.plain import Plain
    from tests.whole.clock import Clock

    clock = Clock()
    bench = Workbench(folder, chance=random.Random(1), wall=clock)
    desk = Desk(hasty=True, bounce_ms=0)
    plain = Plain(desk, bench, out=sys.stdout, wall=clock, now=clock.steady, boot=clock.steady)
    plain.start("")
    sys.exit(plain.run(by_thread(sys.stdin, plain.due)))


if __name__ == "__main__":
    hide()
    if len(sys.argv) == 2:
        in_lines(Path(sys.argv[1]))
    if sys.argv[2] == "full":
        sys.exit(in_full(sys.argv[1], *sys.argv[3:]))
    from ringwright import main

    sys.exit(main([*sys.argv[2:], "--folder", sys.argv[1]]))

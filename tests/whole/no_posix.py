"""The program where no POSIX module is: python -m tests.whole.no_posix FOLDER COMMAND ..., or FOLDER alone
for a job in plain lines from standard input, on a clock that is moved.

Modules and names of the system that only POSIX has are taken away before anything of the program is loaded.
"""

from __future__ import annotations

import os
import random
import signal
import sys
from pathlib import Path

HIDDEN = ("fcntl", "termios", "pwd", "grp", "tty", "pty", "resource", "syslog", "readline")
LACKING = (
    *("O_NOFOLLOW", "O_NONBLOCK", "O_CLOEXEC", "O_DIRECTORY", "pread", "pwrite", "fchmod", "ttyname", "fork"),
    *("geteuid", "getuid", "statvfs", "fdatasync", "mkfifo", "killpg", "getpgid", "setsid"),
)


def hide() -> None:
    """Take away what only POSIX has."""
    for name in HIDDEN:
        sys.modules[name] = None  # type: ignore[assignment]
    for name in LACKING:
        delattr(os, name)
    for name in ("SIGHUP", "SIGALRM", "setitimer"):
        delattr(signal, name)


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
    from ringwright import main

    sys.exit(main([*sys.argv[2:], "--folder", sys.argv[1]]))

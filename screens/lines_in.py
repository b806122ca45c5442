"""Lines of standard input one by one, and a word in between where something is due while nobody types.

Invariant: what was read is never held back, and nothing is waited for in vain: without anything due the
program sleeps until a line comes.
"""

from __future__ import annotations

import codecs
import io
import os
import queue
import select
import threading
from collections.abc import Iterator
from typing import Protocol, TextIO

from bench.file.elsewhere import POSIX

AT_ONCE = 8192


class Due(Protocol):
    """Says what is due; `woken` where its own time has come. Gives seconds until then, None for never."""

    def __call__(self, *, woken: bool) -> float | None:
        """Say it."""


def lines_from(source: TextIO, due: Due) -> Iterator[str]:
    """The lines of a source until it ends; what no system can wait for, such as a text, is only read."""
    try:
        fd = source.fileno()
    except (OSError, ValueError, AttributeError):
        yield from iter(source.readline, "")
        return
    if not POSIX:  # there only a socket can be waited for
        yield from by_thread(source, due)
        return
    plain = codecs.getincrementaldecoder(source.encoding or "utf-8")(source.errors or "strict")
    decoder, rest, more = io.IncrementalNewlineDecoder(plain, translate=True), "", True
    while more:
        wait = due(woken=False)
        while not select.select([fd], [], [], wait)[0]:
            wait = due(woken=True)
        data = os.read(fd, AT_ONCE)
        more = bool(data)
        rest += decoder.decode(data, final=not more)
        while "\n" in rest:
            text, _, rest = rest.partition("\n")
            yield text + "\n"
    if rest:
        yield rest


def by_thread(source: TextIO, due: Due) -> Iterator[str]:
    """The same where the system cannot wait for a line and a time at once: a thread reads, this one waits."""
    came: queue.Queue[str] = queue.Queue()

    def read() -> None:
        for line in iter(source.readline, ""):
            came.put(line)
        came.put("")

    threading.Thread(target=read, daemon=True).start()
    while True:
        wait = due(woken=False)
        while True:
            try:
                line = came.get(timeout=wait)
                break
            except queue.Empty:
                wait = due(woken=True)
        if not line:
            return
        yield line

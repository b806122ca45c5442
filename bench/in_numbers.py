"""The same work on very many files: in several processes, and told as it goes on.

Invariant: what comes out is what `map` gives, in the same order, whatever becomes of the processes.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from itertools import islice
from pathlib import Path
from typing import TypeVar

Done = TypeVar("Done")
Told = Callable[[int, int], None]
"""Hears how many are done, of how many."""
MANY = 400
"""From so many files on, other processes are worth their start."""
CHUNK = 40


def unheard(done: int, of: int) -> None:
    """Nobody listens."""


def apply_to_many(
    work: Callable[[Path], Done], paths: Sequence[Path], *, told: Told = unheard
) -> Iterator[Done]:
    """The work on each path, in order."""
    done = 0
    if len(paths) >= MANY and (os.cpu_count() or 1) > 1:
        from concurrent.futures import ProcessPoolExecutor
        from concurrent.futures.process import BrokenProcessPool

        try:
            with ProcessPoolExecutor(min(os.cpu_count() or 1, 8), initializer=deaf) as pool:
                for made in pool.map(work, paths, chunksize=CHUNK):
                    yield made
                    done += 1
                    told(done, len(paths))
        except (OSError, BrokenProcessPool):
            pass  # no more processes are to be had, or one was killed: the rest is done here
    for made in map(work, islice(paths, done, None)):
        yield made
        done += 1
        told(done, len(paths))


def deaf() -> None:
    """A helping process leaves Ctrl-C to the one that began it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)

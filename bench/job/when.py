"""When each entry of a file was made, as far as the clock that wrote it can be believed.

Invariant: the order of the entries is certain, their times are not. A clock that jumped and came back is
outvoted by the entries round it, whichever way it went.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from datetime import datetime

from bench.file.entry import Entry
from bench.moments import moment_of


def believed(entries: Sequence[Entry]) -> dict[int, datetime]:
    """The time of each entry by its number: its own where it lies in the longest run of times that never go
    back, else that of the last before it that does, or the first after. Empty where no time can be read.
    """
    ordered = sorted(entries, key=lambda entry: entry.n)
    timed = [(one.n, moment) for one in ordered if (moment := moment_of(one.at)) is not None]
    if not timed:
        return {}
    kept = dict(timed[at] for at in longest_run([moment.timestamp() for _, moment in timed]))
    now, found = next(iter(kept.values())), {}
    for entry in ordered:
        now = found[entry.n] = kept.get(entry.n, now)
    return found


def longest_run(times: Sequence[float]) -> list[int]:
    """Places of the longest run of figures that never fall.

    >>> longest_run([1.0, 9.0, 2.0, 3.0, 3.0, 0.0, 4.0])
    [0, 2, 3, 4, 6]
    """
    ends: list[float] = []
    last: list[int] = []
    before: list[int] = []
    for at, time in enumerate(times):
        length = bisect_right(ends, time)
        before.append(last[length - 1] if length else -1)
        ends[length : length + 1] = [time]
        last[length : length + 1] = [at]
    run, at = [], last[-1] if last else -1
    while at >= 0:
        run.append(at)
        at = before[at]
    return run[::-1]

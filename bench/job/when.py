"""When each entry of a file was made, as far as the clock that wrote it can be believed.

Invariant: the order of the entries is certain, their times are not. The last is believed, as a clock that
went wrong was put right since; one that jumped and came back is outvoted by the entries round it.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from datetime import datetime

from bench.file.entry import Entry
from bench.moments import moment_of

FIRST_YEAR = 2025
"""No session file is older: a clock that says so was never set."""


def believed(entries: Sequence[Entry]) -> dict[int, datetime]:
    """The time of each entry by its number: its own where it lies in the longest run of times that never go
    back and end in the last, else that of the last before it that does, or the first after. Empty where no
    time can be read.
    """
    ordered = sorted(entries, key=lambda entry: entry.n)
    read = [(one.n, moment) for one in ordered if (moment := moment_of(one.at)) is not None]
    timed = [one for one in read if one[1].year >= FIRST_YEAR] or read
    if not timed:
        return {}
    kept = dict(timed[at] for at in longest_run([moment.timestamp() for _, moment in timed]))
    now, found = next(iter(kept.values())), {}
    for entry in ordered:
        now = found[entry.n] = kept.get(entry.n, now)
    return found


def longest_run(times: Sequence[float]) -> list[int]:
    """Places of the longest run of figures that never fall and end in the last.

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
    run, at = [], len(times) - 1
    while at >= 0:
        run.append(at)
        at = before[at]
    return run[::-1]

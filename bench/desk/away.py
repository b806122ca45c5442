"""How long nobody was at the keys, time in which the computer slept counted.

Invariant: pure; reads no clock. Where the clocks do not say for certain, the person was away.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.desk.token import Token
from bench.moments import seconds_between

AWAY_S = 15 * 60.0
"""After this long without a key, awake or asleep, the lathe and pressure checks are asked again."""
UNCLEAR_S = 5.0
"""A clock that counts sleep and falls behind the one that does not by more than this was set back."""


@dataclass(frozen=True, slots=True)
class Moment:
    """When a key came, by every clock there is."""

    at: float
    """Monotonic time, s; it may stand still while the computer sleeps."""
    wall: str
    """Wall time, ISO 8601 with offset; empty = not known."""
    boot: float | None
    """Time since the computer was started, s, sleep counted; None where the system does not tell."""


def moment_of(token: Token) -> Moment:
    """When a token came."""
    return Moment(token.at, token.wall, token.boot)


def why_anew(last: Moment, now: Moment) -> str:
    """Why checks answered before `last` count no more `now`, in words; empty while they do."""
    idle_s = max(0.0, now.at - last.at)
    passed_s = passed(last, now, idle_s)
    if passed_s is None or passed_s < idle_s - UNCLEAR_S:
        return "The clock does not say how long nobody was here: checks are asked again."
    if max(idle_s, passed_s) > AWAY_S:
        return "A quarter of an hour without a key: checks are asked again."
    return ""


def passed(last: Moment, now: Moment, idle_s: float) -> float | None:
    """Seconds between two moments by the clock that counts sleep; None where it cannot be read."""
    if last.boot is not None and now.boot is not None:
        return now.boot - last.boot
    if not last.wall and not now.wall:
        return idle_s
    return seconds_between(last.wall, now.wall)

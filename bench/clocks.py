"""The clocks of this computer, read nowhere else.

Invariant: a clock that cannot be read gives what is known without it, never an error.
"""

from __future__ import annotations

import time
from datetime import UTC, datetime


def wall_now() -> str:
    """Wall time with offset, to the second; in UTC where the zone of this computer is none."""
    try:
        return datetime.now().astimezone().isoformat(timespec="seconds")
    except (ValueError, OverflowError, OSError):
        return datetime.now(UTC).isoformat(timespec="seconds")


def since_boot() -> float | None:
    """Seconds since the computer was started, those asleep counted; None where the system does not tell."""
    try:
        return time.clock_gettime(time.CLOCK_BOOTTIME)
    except (AttributeError, OSError):
        return None

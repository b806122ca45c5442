"""The straight job as a script: home at the first ring, everything that is not named here as usual.

The scenario is invented: a small workshop on an island ferry landing, its bags numbered by hand.
"""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.whole.hands import lines
from tests.whole.script import Hand, Pair, Recorder

STRAIGHT: tuple[Pair, ...] = (
    ("case_bore_1", "3642"),
    ("case_bore_2", "3644"),
    ("glass_1", "3531"),
    ("glass_2", "3530"),
    ("seat_depth", "1.45"),
    ("outside_reading", "36672"),
    ("wall_reading", "0.723"),
    ("wall_1", "0.602"),
    ("wall_2", "0.605"),
    ("wall_3", "0.607"),
    ("wall_4", "0.604"),
    ("ring_height", "1.21"),
    ("marking", "bar_5"),
)
"""A job from 0 Enter to handing back, on the built-in shop."""


def straight(*, until: str = "") -> Hand:
    """A hand for the straight job."""
    return Hand(STRAIGHT, until=until)


@lru_cache(maxsize=32)
def _typed(script: tuple[Pair, ...], until: str) -> tuple[str, ...]:
    recorder = Recorder(Hand(script, until=until))
    with TemporaryDirectory() as folder:
        lines(Path(folder), [recorder])
    return tuple(recorder.lines)


def answers(script: tuple[Pair, ...], *, until: str = "") -> list[str]:
    """What is typed for a script line by line where numbers are dealt by the seed 1,
    the start of the job included.
    """
    return list(_typed(script, until))

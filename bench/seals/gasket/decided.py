"""The gasket as it was decided upon, written into the answer and read back from it.

Invariant: everything that later stages and the sheet need of the gasket stands in the words of its answer.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job.steps import Words
from bench.job.values import named, named_text
from bench.seals.gasket.measure import RoomMeasured
from bench.version import MADE_BY
from rules.checks import fixed
from rules.gasket.room import GasketQuestion, GasketSizes
from rules.gasket.sizing import GasketSizing

STOP, ALL = "stop", "all"
"""Whether the parts meet, or the gasket takes all."""


@dataclass(frozen=True, slots=True)
class GasketDecided:
    """An accepted gasket, with what was asked for it."""

    sizes: GasketSizes
    question: GasketQuestion
    joint: str
    words: Words
    """As they were written."""


def decided_words(measured: RoomMeasured, sizing: GasketSizing) -> Words:
    """Everything that is decided with a gasket, as it is written."""
    sizes, room, question = sizing.sizes, measured.room, sizing.question
    takes, presses, drive = sizing.forces_n, sizing.pressures_mpa, measured.drive
    return (
        f"outside {fixed(sizes.outside_mm)} mm",
        f"inside {fixed(sizes.inside_mm)} mm",
        f"thickness {fixed(sizes.thick_mm)} mm",
        f"squeeze {100.0 * sizing.state.squeeze:.1f} %",
        f"fill {100.0 * sizing.state.fill:.0f} %",
        f"likely {100.0 * sizing.chance:.0f} %",
        f"material {question.material.key}",
        f"way {question.way}",
        f"joint {measured.joint}",
        f"closes {STOP if room.stopped else ALL}",
        f"room_outside {fixed(room.outside_mm, 3)} mm",
        f"room_inside {fixed(room.inside_mm, 3)} mm",
        f"room_height {fixed(room.height_mm, 3)} mm",
        f"takes_low {takes[0]:.0f} N",
        f"takes_high {takes[1]:.0f} N",
        f"given_low {drive.low_n:.0f} N",
        f"given_high {drive.high_n:.0f} N",
        f"presses_low {presses[0]:.1f} MPa",
        f"presses_high {presses[1]:.1f} MPa",
        f"by {MADE_BY}",
    )


def sizes_from(words: Words) -> GasketSizes:
    """Its sizes from the words of its answer; raises ValueError where one is missing."""
    found = [named(words, name) for name in ("outside", "inside", "thickness")]
    outside, inside, thick = found
    if outside is None or inside is None or thick is None:
        raise ValueError("the accepted gasket lacks one of its sizes")
    return GasketSizes(outside, inside, thick)


def way_of(words: Words) -> str:
    """How it was to be made."""
    return named_text(words, "way")

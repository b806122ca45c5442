"""Where a job stands: its stage and what it waits for, written with the answer that changed it.

Invariant: the newest entry that says where a job stands is right as long as only this program
wrote to the file; a file that says nothing has its route walked. The list of jobs reads it
without the route, without the rules.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.file.entry import STANDS, Entry

if TYPE_CHECKING:
    from bench.job.route import Walk

STAGES = {"measure": "readings", "size": "a {seal} to be chosen", "cut": "turning", "verify": "testing"}
"""The four stages in order, and what a job waits for unless its open step says it; {seal}: its seal."""
BEGINS = STANDS
"""How the word begins that says where a job stands."""
OVER = "over"


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a job stands after an answer."""

    stage: str
    """One of the stages, or `over`."""
    waits_for: str

    @property
    def over(self) -> bool:
        """Whether the job is finished."""
        return self.stage == OVER

    @property
    def word(self) -> str:
        """The word kept with the answer."""
        return f"{BEGINS}{self.stage}" + (f": {self.waits_for}" if self.waits_for else "")


def standing_of(walk: Walk) -> Standing:
    """Where the walk of a job ended."""
    step = walk.open
    if step is None:
        return Standing(OVER, "")
    return Standing(step.stage, step.waits_for or STAGES[step.stage].format(seal=walk.seal))


def said_in(entry: Entry) -> Standing | None:
    """Where an entry says that the job stands; None where it says nothing, or nothing that is known here."""
    words = entry.value if isinstance(entry.value, tuple) else ()
    word = next((item for item in reversed(words) if isinstance(item, str) and item.startswith(BEGINS)), "")
    stage, _, waits_for = word.removeprefix(BEGINS).partition(": ")
    return Standing(stage, waits_for) if stage == OVER or stage in STAGES else None


def last_said(entries: Iterable[Entry]) -> Standing | None:
    """What the newest entry that says it says."""
    return next((said for entry in entries if (said := said_in(entry)) is not None), None)

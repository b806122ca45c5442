"""Beginning again: another seal, or the same place measured again.

Invariant: both rest on what led to them, so that each is asked once for it.
"""

from __future__ import annotations

from dataclasses import dataclass

from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.begun import Beginnings
from bench.job.steps import Choice, Step, Words

SEARCHED = (keys.EMPTY.found, keys.CASED.found)
"""What leads there from the tests."""


@dataclass(frozen=True, slots=True)
class Again:
    """How a kind of seal is begun again."""

    measured: Step
    """What it goes by is measured again."""
    another: Step
    """Another one is begun."""
    places: str
    """What is measured again, in words."""
    begin: Beginnings
    """The keys under which that is written."""


def again(
    *,
    seal: str,
    places: str,
    measured_title: str,
    why: str,
    measured_after: Words,
    another_after: Words,
    begin: Beginnings,
) -> Again:
    """The two steps of a kind of seal, from its short name and the keys of its answers that lead there."""
    return Again(
        measured=Step(
            key=begin.measured,
            stage="verify",
            kind="action",
            title=f"{measured_title}: begin at the first reading",
            choices=(Choice("done", "go to the first reading"),),
            rests_on=(*SEARCHED, *measured_after),
            why=why,
        ),
        another=Step(
            key=begin.attempt,
            stage="verify",
            kind="mark",
            title=f"another {seal}",
            rests_on=(*SEARCHED, begin.measured, begin.spoiled, *another_after),
        ),
        places=places,
        begin=begin,
    )


def begun_again(again: Again, chosen: str) -> Stage[None]:
    """Another one, after its place was measured again where that was chosen."""
    if chosen == "measure":
        yield from word(again.measured)
    if chosen != "hand_back":
        yield from word(again.another)

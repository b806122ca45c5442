"""Which other seals of a watch may be new besides the one that the job is about.

Invariant: the seal of the job is never offered as another one; the commonest come first.
"""

from __future__ import annotations

from collections.abc import Collection

from bench.job.renewed import named, seals_of, word_of
from bench.job.steps import Choice
from rules.testing.hunt import BACK, GLASS, ORING_BACK, ORING_CROWN, ORING_PUSHERS

_BESIDE_BACK = (
    Choice("crown", "crown"),
    Choice("crown_tube", "crown and tube"),
    Choice("crown_tube_pushers", "crown, tube and pushers"),
)
BESIDE = {
    GLASS: (
        Choice("back", "back"),
        Choice("back_crown", "back and crown"),
        Choice("back_crown_tube", "back, crown and tube"),
        Choice("all", "all, pushers too"),
        Choice("crown", "crown only"),
    ),
    BACK: _BESIDE_BACK,
    ORING_BACK: _BESIDE_BACK,
    ORING_CROWN: (
        Choice("back", "back"),
        Choice("back_pushers", "back and pushers"),
        Choice("pushers", "pushers"),
    ),
    ORING_PUSHERS: (
        Choice("back", "back"),
        Choice("back_crown", "back and crown"),
        Choice("back_crown_tube", "back, crown and tube"),
        Choice("crown", "crown only"),
    ),
}
"""By the joint that the seal of the job closes."""


def beside(joint: str, made: Collection[str] = ()) -> tuple[Choice, ...]:
    """What may be said of them; `made`: further seals of the job, which are no other ones."""
    if not made:
        return BESIDE[joint]
    others = ([one for one in seals_of(choice.word) if one not in made] for choice in BESIDE[joint])
    known = dict.fromkeys(tuple(one) for one in others if one)
    return tuple(Choice(word_of(one), named(one)) for one in known)

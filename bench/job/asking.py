"""What a stage is: a generator that yields a step and is sent its answer, in plain Python,
in the repairer's order.

Invariant: nothing here knows a stage.
"""

from __future__ import annotations

from collections.abc import Generator
from typing import TypeVar

from bench.job.job import Answer
from bench.job.steps import Step, Words

T = TypeVar("T")
Stage = Generator[Step, Answer, T]
"""A stage yields steps, is sent their answers, and returns what they add up to."""


def word(step: Step) -> Stage[str]:
    """Ask one step and give the first word of its answer: the smallest stage."""
    return (yield step).word


def words(step: Step) -> Stage[Words]:
    """Ask one step and give all words of its answer."""
    return (yield step).words

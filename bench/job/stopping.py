"""What stops counting when an answer is replaced, and what would do instead.

Invariant: the same keys as the rule of staleness uses say it (`Job.fresh`), so that it is said before what
then happens.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from bench.job.route import Walk
from bench.job.standing import STAGES
from bench.job.steps import Step, Words

KINDS = {
    "number": ("reading", "readings"),
    "choice": ("choice", "choices"),
    "safety": ("check", "checks"),
    "action": ("act", "acts"),
    "timer": ("hold", "holds"),
    "result": ("result", "results"),
}
"""What an answer is called by the kind of its step: one, and several."""


@dataclass(frozen=True, slots=True)
class Instead:
    """Something that would do instead of replacing an answer and doing again what rests on it."""

    text: str
    """What a person reads."""
    answers: tuple[tuple[str, Words], ...]
    """What is written then: keys with their words."""


def stops_counting(walk: Walk, key: str, then: Walk) -> tuple[Step, ...]:
    """The answered steps, in order, that rest on an answer: at first hand, or on one that does.

    `then` is the walk with the new answer: what rests on a key that is new, such as a further reading,
    rests on its fellows, and on what is asked because of it.
    """
    kept = {answer.n for _, answer in then.done}
    fellows = {step.key for step, _ in walk.done if series(step.key) == series(key)} | {key}
    stopped, before = {key}, 0
    if any(answer.n not in kept for step, answer in walk.done if step.key != key):
        new = key not in {step.key for step, _ in walk.done}
        stopped |= (fellows if new else set()) | ({then.open.key} if then.open else set())
    while len(stopped) > before:
        before = len(stopped)
        stopped |= {step.key for step, _ in walk.done if not stopped.isdisjoint(step.rests_on)}
    lost = stopped - {key} - {step.key for step, answer in then.done if step.key in fellows}
    return tuple(step for step, _ in walk.done if step.key in lost and step.kind != "mark")


def series(key: str) -> str:
    """The key of a reading without its number.

    >>> series("wall_5"), series("bench")
    ('wall', 'bench')
    """
    return re.sub(r"_\d+$", "", key)


def counted(steps: Sequence[Step]) -> Words:
    """How many answers of which kind, a line for each stage.

    >>> counted([Step("drill", "cut", "action", "Drill"), Step("part", "cut", "action", "Part off")])
    ('cut: 2 acts',)
    """
    lines = []
    for stage in STAGES:
        kinds = [step.kind for step in steps if step.stage == stage]
        each = (f"{kinds.count(kind)} {names[kinds.count(kind) > 1]}" for kind, names in KINDS.items())
        if kinds:
            lines.append(f"{stage}: " + ", ".join(text for text in each if not text.startswith("0 ")))
    return tuple(lines)

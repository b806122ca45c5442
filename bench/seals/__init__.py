"""The kinds of seal this program knows, by the word the file keeps; the straight ring is the usual one.

Invariant: a kind is registered here and named nowhere else outside its own folder.
"""

from __future__ import annotations

from bench.job import further, keys
from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.seals.foot.seal import FOOT
from bench.seals.gasket.seal import GASKET
from bench.seals.oring.seal import ORING
from bench.seals.ring.seal import RING
from bench.seals.seal import Seal

SEALS: dict[str, Seal] = {one.word: one for one in (RING, GASKET, FOOT, ORING)}
IN_PLACE = tuple(
    further.own(number, seal.fitting.result)
    for number in (further.FIRST, *further.NUMBERS)
    for seal in SEALS.values()
)
OPENED = tuple(
    further.own(number, key)
    for number in further.NUMBERS
    for key in dict.fromkeys((keys.SEAL, *(at for seal in SEALS.values() for at, _ in seal.endings)))
    if further.own(number, key) != key
)


def kind_of() -> Stage[str]:
    """Which kind of seal the job is about: the usual one, unless another was chosen from the list."""
    return (yield from word(kind_step())) if len(SEALS) > 1 else next(iter(SEALS))


def kind_step() -> Step:
    """The same as a step."""
    return Step(
        key=keys.SEAL,
        stage="measure",
        kind="choice",
        title="Which seal is made?",
        choices=tuple(Choice(seal.word, seal.name) for seal in SEALS.values()),
        usual=next(iter(SEALS)),
        optional=True,
        why="Each kind is measured, sized and made in its own way.",
    )


def in_place() -> Words:
    """Keys of the answers that say that a seal is in its place: what was tested rests on all of them, those
    of the further seals of a job as well.
    """
    return IN_PLACE


def opened() -> Words:
    """Keys of the answers by which a further seal is begun, or left without a new one: its joint is not as it
    was tested before.
    """
    return OPENED


def seal_of(job: Job) -> Seal:
    """The kind of seal that a job is about."""
    chosen = job.newest(keys.SEAL)
    return SEALS[chosen.word] if chosen and chosen.word in SEALS else next(iter(SEALS.values()))

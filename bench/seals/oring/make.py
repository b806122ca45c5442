"""Stage three of an O-ring: a new one taken from stock; nothing is made.

Invariant: what is taken follows from the sizes that were accepted; an old ring is never used again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step
from bench.seals.oring import own_keys
from bench.seals.oring.decided import OringDecided
from bench.seals.oring.kind import BASE
from bench.seals.oring.known import sized
from bench.seals.oring.size_words import cord_said, sold_as
from rules.lengths import bare, short

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def made(_job: Job, _shop: Shop, decided: OringDecided) -> Stage[OringDecided | None]:
    """The ring in the hand."""
    yield from word(taken_step(decided))
    return decided


def taken_step(decided: OringDecided) -> Step:
    """A new one from stock: what to look for."""
    ring, name = decided.ring, decided.question.of.name
    order = f", {sold_as(ring)}" if sold_as(ring) else ""
    return Step(
        key=own_keys.TAKEN,
        stage="cut",
        kind="action",
        title=f"Take a new O-ring: {bare(ring.inside.mm)} inside, cord {cord_said(ring)} {short()}",
        say=(
            f"{name[:1].upper()}{name[1:]}, about 70 Shore A; new, from a closed bag{order}.",
            f"Cord decides: {cord_said(ring)} {short()} as nearly as there is; measure several if you can.",
            "Loupe all round, bent outwards: no nick, no crack, no flash that stands up. No old one.",
            "Is there another size: measure it, and key it at the ring that was accepted.",
        ),
        choices=(
            Choice("done", "taken, whole under the loupe"),
            Choice("other", "another size: key it", goto=own_keys.HAND_CORD),
        ),
        consequence=tuple(f"CHECK  {text}" for text in sized(decided.question).warnings),
        rests_on=BASE,
        waits_for="an O-ring from stock",
        why="A ring is judged by what it measures, not by what its bag says.",
    )


def plan_for(_job: Job, _shop: Shop) -> tuple[None, str]:
    """There is none: nothing is turned."""
    return None, "an O-ring is chosen from stock; nothing is turned"

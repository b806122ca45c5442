"""What was looked up in the shop's finished jobs when a ring was sized, as a job keeps it.

Invariant: a job walked again gives the same figures, whatever the shop has learned since: they stand in its
mark, written before the ring was proposed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bench.job import keys
from bench.job.job import Job
from bench.job.steps import Words
from bench.job.values import named
from rules.learning.landing import Lands
from rules.learning.repeating import Repeating
from rules.measuring.instruments import GLASS, SEAT

FIRST = "looked up"
"""First word of the mark."""
FARTHEST_MM = 0.5
"""No wall lands further off, nor spreads more."""
RESTS: Words = (keys.ATTEMPT, keys.PLASTIC, keys.LATHE, keys.TOOL_SET)
"""Where one of these was answered since, it is looked up again."""


@dataclass(frozen=True, slots=True)
class Learned:
    """What was looked up."""

    lands: Lands
    """Where walls land beside what is aimed at."""
    seat: Repeating | None = None
    glass: Repeating | None = None
    """How readings of them repeat; None where too few pairs were read."""


def learned_words(learned: Learned) -> Words:
    """The same as it is kept."""
    lands = learned.lands
    return (
        FIRST,
        f"rings {lands.rings}",
        f"of_line {lands.of_line}",
        f"lands {lands.mean_mm:.4f} mm",
        f"lands_sd {lands.sd_mm:.4f} mm",
        f"lands_u {lands.u_mm:.4f} mm",
        f"dof {lands.dof:.1f}",
        f"good_to {lands.good_to_mm:.4f} mm",
        f"assumed {lands.assumed_mm:.4f} mm",
        *(f"odd_{at} {name}" for at, name in enumerate(lands.odd, 1)),
        *_repeating_words(SEAT, learned.seat),
        *_repeating_words(GLASS, learned.glass),
    )


def _repeating_words(what: str, found: Repeating | None) -> Words:
    """How readings of one thing repeat."""
    if found is None:
        return ()
    return (f"{what}_pairs {found.pairs}", f"{what}_sd {found.sd_mm:.4f} mm", f"{what}_dof {found.dof:.1f}")


def _repeating_from(words: Words, what: str) -> Repeating | None:
    """The same read back; raises ValueError where a figure is none, or none that can be."""
    pairs, sd, dof = (named(words, f"{what}_{name}") for name in ("pairs", "sd", "dof"))
    if pairs is None:
        return None
    if sd is None or dof is None or not 0.0 < sd <= FARTHEST_MM or dof < 1.0:
        raise ValueError(f"{what}: no figures of repeated readings")
    return Repeating(int(pairs), sd, dof)


def learned_from(words: Words) -> Learned | None:
    """What such words keep; None where they are none."""
    names = ("rings", "of_line", "lands", "lands_sd", "lands_u", "dof", "good_to", "assumed")
    try:
        found = {name: named(words, name) for name in names}
        seat, glass = _repeating_from(words, SEAT), _repeating_from(words, GLASS)
    except ValueError:
        return None
    known = {name: value for name, value in found.items() if value is not None}
    if len(known) < len(names) or not _can_be(known):
        return None
    lands = Lands(
        rings=int(known["rings"]),
        of_line=int(known["of_line"]),
        mean_mm=known["lands"],
        sd_mm=known["lands_sd"],
        u_mm=known["lands_u"],
        dof=known["dof"],
        good_to_mm=known["good_to"],
        assumed_mm=known["assumed"],
        odd=tuple(word.partition(" ")[2] for word in words if word.startswith("odd_")),
    )
    return Learned(lands, seat, glass)


def _can_be(known: Mapping[str, float]) -> bool:
    """Whether figures lie where those of a lathe can."""
    spreads = (known[name] for name in ("lands_sd", "lands_u", "good_to"))
    fit = all(0.0 < one <= FARTHEST_MM for one in spreads) and abs(known["lands"]) <= FARTHEST_MM
    return fit and known["dof"] > 2.0 and known["rings"] >= 1.0


def learned_in(job: Job, *, goes_by_it: bool) -> Learned | None:
    """What the ring of this attempt is sized by besides what is assumed; None where nothing was looked up.

    goes_by_it: whether the shop says that rings are sized so; one accepted after the mark keeps it anyway.
    """
    mark = job.fresh(keys.LEARNED, RESTS)
    if mark is None or not (goes_by_it or job.newest_n(keys.RING) > mark.n):
        return None
    return learned_from(mark.words)


def is_to_be_looked_up(job: Job) -> bool:
    """Whether nothing was looked up for the ring of this attempt."""
    return job.fresh(keys.LEARNED, RESTS) is None

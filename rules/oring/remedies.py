"""What would raise the chance of an O-ring, each with what it brings.

Invariant: a remedy is judged as the ring is that it is said for; what adds little is not said.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from rules.checks import to_places
from rules.oring.housing import Length, Oring
from rules.oring.judging import OringQuestion, OringSizing, judged, wanted_inside_mm, window
from rules.oring.stock import in_hand
from rules.tables import rubbers

HELPS = 0.05
"""What adds less to the chance is not said."""
SURE = 0.95
"""Over this nothing more is looked for."""
FINER_MM = 0.005
"""Limit of error of pins and of a micrometer on metal (own judgement)."""
ENOUGH = 512
"""Points for what would help."""
COMMON = ("nbr", "fkm", "epdm", "vmq")
"""Rubbers tried in place of the one named, in this order."""


def helped(found: OringSizing) -> Iterator[str]:
    """What would raise the chance, the most first."""
    if found.chance >= SURE:
        return
    better = []
    for words, question, ring in other_ways(found):
        then = judged(question, ring, ENOUGH).chance
        if then >= found.chance + HELPS:
            better.append((then, words))
    for then, words in sorted(better, reverse=True):
        yield f"{words}: chance {100.0 * then:.0f} %"


def best_of(found: OringSizing) -> Oring | None:
    """The ring to look for among several of this size: in the middle of what works."""
    ring, housing = found.ring, found.question.housing
    inside = nearest(wanted_inside_mm(housing, ring.cord.mm), ring.inside)
    works = window(found.question, replace(ring, inside=Length(mm=inside)))
    if works is None:
        return None
    return in_hand(
        to_places(inside, 2), to_places(nearest((works.low_mm + works.high_mm) / 2.0, ring.cord), 2)
    )


def nearest(wanted_mm: float, within: Length) -> float:
    """What lies nearest to a wish within the limits of a length."""
    return min(max(wanted_mm, within.mm - within.limit_mm), within.mm + within.limit_mm)


def other_ways(found: OringSizing) -> Iterator[tuple[str, OringQuestion, Oring]]:
    """What could be done otherwise, in words, as a question and as a ring."""
    question, ring, housing = found.question, found.ring, found.question.housing
    if question.in_hand is None:
        best = best_of(found)
        if best is not None:
            sizes = f"{best.inside.mm:.2f} mm inside, cord {best.cord.mm:.2f} mm"
            yield f"measure several and take one that reads {sizes}", question, best
    elif found.others:
        yield "a new one from stock, as proposed", replace(question, in_hand=None), found.others[0].ring
    ends = {name: getattr(housing, name) for name in ("inner", "outer", "other")}
    if any(one.limit_mm > FINER_MM for one in ends.values()):
        finer = {name: replace(one, limit_mm=min(one.limit_mm, FINER_MM)) for name, one in ends.items()}
        words = "measure the groove with pins or a micrometer"
        yield words, replace(question, housing=replace(housing, **finer)), ring
    for key in COMMON:
        if key != question.rubber and key in rubbers():
            yield rubbers()[key].name, replace(question, rubber=key), ring

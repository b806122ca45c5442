"""What the finished rings of a folder say: of the ring that is about to be sized, and of the shop as a whole.

Invariant: only estimators of `rules.learning` speak here; without a finished ring nothing is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from bench.folder import shop_in
from bench.job.learned import Learned, learned_words
from bench.job.past import PastRing
from bench.job.steps import Words
from bench.past.shelf import moment, rings_in
from bench.shop.lately import Lately, Repeats, ToolOff
from rules.learning.landing import Lands, RingLanded, lands, weight
from rules.learning.normal import believed_before, robustly
from rules.learning.promised import Promise, by_promise, together
from rules.learning.repeating import repeating
from rules.measuring.instruments import landing_spread_mm, wall_u_mm

if TYPE_CHECKING:
    from bench.shop.shop import Shop

Clock = Callable[[], str]
"""Tells the wall time; asked only where a ring is there whose age counts."""
SECONDS_A_YEAR = 365.25 * 86_400.0
TOOL_SD_MM = 0.03
"""How far a tool touched off again cuts from its figure, on the diameter, before anything is known of it:
standard deviation (own judgement).
"""
TOOL_WORTH, TOOL_DOF = 2.0, 5.0
"""In rings, what that weighs (own judgement)."""
HOME = "home"


def looked_up_in(folder: Path, learns: Words, *, besides: Path | None, now: Clock) -> Words:
    """What the jobs of a folder say of a ring that is about to be sized, as its job keeps it.

    besides: the file of that job, whose own rings say nothing here.
    """
    rings = rings_in(folder, besides=besides)
    return looked_up(rings, shop_in(folder), learns, now()) if rings else ()


def lately_in(folder: Path, shop: Shop, now: Clock) -> Shop:
    """The shop with what its finished jobs say of it."""
    rings = rings_in(folder)
    return replace(shop, lately=lately(rings, shop, now())) if rings else shop


def looked_up(rings: Sequence[PastRing], shop: Shop, learns: Words, now: str) -> Words:
    """What is kept as a mark; nothing where no ring was finished here.

    learns: the line of the ring (lathe, boring bar and plastic in one word), and how seat and glass are read.
    """
    line, seat, glass = learns
    found = landed(rings, shop, line, now)
    if found is None:
        return ()
    read = pairs_of(rings, now)
    return learned_words(Learned(found, *(repeating(*read.get(what, ((), ()))) for what in (seat, glass))))


def landed(rings: Sequence[PastRing], shop: Shop, line: str, now: str) -> Lands | None:
    """Where walls of a line land, from rings with the newest first."""
    seen = [
        RingLanded(one.off_mm, one.turned_by, years_ago(one.at, now), one.name)
        for one in rings
        if one.off_mm is not None
    ]
    assumed = landing_spread_mm(shop.turning_spread_mm, shop.instruments) / 2.0
    return lands(seen, line=line, assumed_sd_mm=assumed, least_sd_mm=wall_u_mm(shop.instruments))


def years_ago(at: str, now: str) -> float:
    """Years from one time to another; 0 where either is none, or the clock ran back."""
    then, later = moment(at), moment(now)
    return max(0.0, later - then) / SECONDS_A_YEAR if then and later else 0.0


def tools_before(rings: Iterable[PastRing], now: str) -> tuple[ToolOff, ...]:
    """What each tool cuts before it is corrected, the newest rings counting most."""
    found: dict[str, list[tuple[float, float]]] = {}
    for ring in rings:
        for tool, off in ring.tools:
            seen = found.setdefault(tool, [])
            seen.append((off, weight(len(seen), years_ago(ring.at, now))))
    before = believed_before(sd_mm=TOOL_SD_MM, worth=TOOL_WORTH, dof=TOOL_DOF)
    told = []
    for tool, seen in sorted(found.items()):
        belief, _ = robustly(before, [off for off, _ in seen], [counts for _, counts in seen])
        told.append(ToolOff(tool, len(seen), belief.mean_mm, belief.good_to_mm))
    return tuple(told)


def lately(rings: Sequence[PastRing], shop: Shop, now: str) -> Lately:
    """What the page of the shop shows."""
    newest = next((one.turned_by for one in rings if one.off_mm is not None), "")
    promises, tools = promises_of(rings), tools_before(rings, now)
    boring = next((one for one in tools if one.tool in newest), None)
    return Lately(
        lands=landed(rings, shop, newest, now),
        tools=tools,
        uncorrected_mm=boring.good_to_mm / 2.0 if boring else None,
        repeats=repeats(rings, now),
        kept=together(promises),
        tenths=by_promise(promises),
    )


def pairs_of(rings: Iterable[PastRing], now: str) -> dict[str, tuple[list[float], list[float]]]:
    """Of each thing that was read, how far pairs of readings lie apart, and what each counts."""
    found: dict[str, tuple[list[float], list[float]]] = {}
    for ring in rings:
        for what, apart in ring.repeats:
            pairs, weights = found.setdefault(what, ([], []))
            weights.append(weight(len(pairs), years_ago(ring.at, now)))
            pairs.append(apart)
    return found


def repeats(rings: Iterable[PastRing], now: str) -> tuple[Repeats, ...]:
    """How readings repeat, of what was read in pairs often enough."""
    told = ((what, repeating(*pairs)) for what, pairs in sorted(pairs_of(rings, now).items()))
    return tuple(Repeats(what, found.pairs, found.sd_mm) for what, found in told if found is not None)


def promises_of(rings: Iterable[PastRing]) -> tuple[Promise, ...]:
    """Rings that were promised something and came to the press, or were given up for their size; one for
    whose outcome another cause was named says nothing of its size.
    """
    return tuple(
        Promise(one.promised, one.outcome == HOME and not one.leaked)
        for one in rings
        if one.promised is not None and one.outcome and not one.other_cause
    )

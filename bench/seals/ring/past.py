"""The rings of a job as they came out, for those that learn from them.

Invariant: read from the answers alone, each ring from its own attempt; what cannot be read is left out.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from bench.job import keys
from bench.job.job import Answer, Job, newest_of
from bench.job.past import PastRing
from bench.job.values import named, named_text, number
from bench.seals.lathe.turning_facts import KEPT_WITH
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.kind import WALL_PLACES
from bench.seals.ring.larger_glass import WORD as LARGER_GLASS
from bench.seals.ring.lessons import tried_in
from bench.seals.ring.measure_steps import ACRYLIC
from rules.checks import fixed
from rules.measuring.instruments import GLASS, SEAT
from rules.measuring.reading import DIAMETERS_AGREE_MM
from rules.turning.readout import BORE, OUTSIDE

GIVEN_UP = ("another", "fresh", LARGER_GLASS)
"""Words by which a ring is given up because of its size."""
TIMED = (keys.RING, keys.nth(keys.WALL, len(WALL_PLACES)), keys.FIT_OUTCOME)
"""The last of these says when a ring was finished."""


def past_rings(job: Job) -> tuple[PastRing, ...]:
    """Every ring that was accepted in a job, the oldest first."""
    found = (past_ring(job, span, n) for n, span in enumerate(job.attempt_spans(), 1))
    return tuple(one for one in found if one is not None)


def past_ring(job: Job, span: Sequence[Answer], n: int) -> PastRing | None:
    """The ring of one attempt; None where none was accepted that can be read."""
    cut = newest_of(span, keys.last(BORE))
    accepted = newest_of([one for one in span if cut is None or one.n < cut.n], keys.RING)
    if accepted is None or named(accepted.words, "seat") is None:
        return None
    decided = decided_from(accepted.words)
    tried = tried_in(span, n)
    walls = walls_read(span, (cut or accepted).n)
    chance = named(accepted.words, "chance")
    order = order_kept(span, accepted.n) if cut is not None else {}
    return PastRing(
        job=job.head.job,
        number=n,
        at=next(one.at for one in reversed(span) if one.key in TIMED),
        plastic=decided.plastic,
        outside_mm=decided.ring.outside_diameter_mm,
        bore_mm=decided.ring.bore_mm,
        height_mm=decided.ring.height_mm,
        aimed_mm=round(decided.ring.wall_mm, 4),
        allowed_mm=decided.lands_mm,
        seat_mm=decided.gap.case_bore_mm,
        glass_mm=decided.gap.glass_mm,
        promised=None if chance is None or decided.at_hand else round(chance / 100.0, 4),
        walls_mm=() if decided.at_hand else walls,
        turned_by=line_of(order, decided) if cut is not None and not decided.at_hand else "",
        tools=tools_off(span, accepted.n, order),
        outcome=tried.outcome if tried else given_up(span, accepted.n),
        other_cause=tried.cause if tried else "",
        leaked=bool(tried and tried.leaked),
        repeats=repeats(job, span),
    )


def walls_read(span: Sequence[Answer], after: int) -> tuple[float, ...]:
    """The walls of a ring off the lathe at its four places, the newest reading of each; none while one is
    missing.
    """
    read = [newest_of(span, keys.nth(keys.WALL, place)) for place in range(1, len(WALL_PLACES) + 1)]
    walls = [number(one.word) for one in read if one is not None and one.n > after]
    return tuple(walls) if len(walls) == len(WALL_PLACES) else ()


def given_up(span: Sequence[Answer], after: int) -> str:
    """Why a ring never came to the press, where its size was the reason: its walls lay off the band, or it
    was past its size at the lathe; empty otherwise.
    """
    found = [newest_of(span, key) for key in (keys.OFF_BAND, keys.PAST_OUTSIDE, keys.PAST_BORE)]
    names = [one.key for one in found if one is not None and one.n > after and one.word in GIVEN_UP]
    return names[-1] if names else ""


def order_kept(span: Sequence[Answer], after: int) -> dict[str, Any]:
    """The order that a ring was turned by; empty where none can be read."""
    kept = [one for one in span if one.key in KEPT_WITH and one.n > after and named_text(one.words, "order")]
    try:
        order = json.loads(named_text(kept[-1].words, "order")) if kept else {}
    except ValueError:
        return {}
    return order if isinstance(order, dict) else {}


def line_of(order: dict[str, Any], decided: Decided) -> str:
    """Lathe, boring bar and plastic of a ring in one line; what is not known is left open."""
    lathe = order.get("lathe")
    name = lathe.get("name") if isinstance(lathe, dict) else None
    return line(str(name or ""), tool_text(order.get("boring")), decided.plastic)


def line(lathe: str, tool: str, plastic: str) -> str:
    """The three by which rings are alike."""
    return f"{lathe} | {tool} | {plastic}"


def tool_text(tool: object) -> str:
    """A tool by its number, its name and its edge: one ground otherwise is another."""
    if not isinstance(tool, dict):
        return ""
    name, nose = tool.get("name") or tool.get("kind") or "", tool.get("nose_radius_mm")
    edge = f", nose {fixed(nose)}" if isinstance(nose, int | float) else ""
    return f"tool {tool.get('number')} {name}".strip() + edge


def tools_off(span: Sequence[Answer], after: int, order: dict[str, Any]) -> tuple[tuple[str, float], ...]:
    """How much larger each tool cut than its figure, found before its last pass."""
    found = []
    for surface, kind in ((OUTSIDE, "turning"), (BORE, "boring")):
        answer = newest_of(span, keys.last(surface))
        offset = named(answer.words, "offset") if answer is not None and answer.n > after else None
        if offset is not None and (tool := tool_text(order.get(kind))):
            found.append((tool, offset))
    return tuple(found)


def repeats(job: Job, span: Sequence[Answer]) -> tuple[tuple[str, float], ...]:
    """Pairs of readings of one size by one instrument: of a ground glass two places, as it is round; of a
    seat the same place read again, as it may be oval. A pair further apart than readings that agree is a slip
    of keying.
    """
    made_of = job.newest(keys.GLASS_MATERIAL)
    ground = made_of is None or made_of.word != ACRYLIC
    glass = [_read(span, keys.nth(keys.GLASS, n))[-1:] for n in (1, 2)] if ground else []
    seat = [_read(span, keys.nth(keys.CASE_BORE, n)) for n in range(1, 5)]
    pairs = [(how_read(job, GLASS), a - b) for (a,), (b,) in pairwise(glass)] if all(glass) else []
    pairs += [(how_read(job, SEAT), a - b) for values in seat for a, b in pairwise(values)]
    return tuple((what, round(apart, 4)) for what, apart in pairs if abs(apart) <= DIAMETERS_AGREE_MM)


def how_read(job: Job, what: str) -> str:
    """Seat or glass, and how it is read where that was named."""
    named_way = job.newest({SEAT: keys.SEAT_WAY, GLASS: keys.GLASS_WAY}[what])
    return what if named_way is None else f"{what} ({named_way.word.replace('_', ' ')})"


def _read(span: Sequence[Answer], key: str) -> list[float]:
    """Every reading under a key by the instrument of all, in the order of the file."""
    found = (one for one in span if one.key == key and one.word[:1].isdigit())
    return [number(one.word) for one in found if not any(word.startswith("by ") for word in one.words[1:])]

"""What is said of a shop, one group at a time, and the shop as it then is.

Invariant: a change names every thing that stood there, in its place, and adds behind them.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from bench.shop.groups import (
    BARS,
    GROUPS,
    INSTRUMENTS,
    LATHE,
    LEARNING,
    PAPERS,
    PRESS,
    TESTER,
    TOOLS,
    UNITS,
)
from bench.shop.shop import Shop, built_in
from bench.shop.tables import things

FIELD = {
    LATHE: "lathes",
    TOOLS: "tools",
    BARS: "bars",
    INSTRUMENTS: "instruments",
    PRESS: "press",
    TESTER: "tester",
}
"""Where a group stands in a shop."""


@dataclass(frozen=True, slots=True)
class Change:
    """What is said of a group."""

    group: str
    things: tuple[Any | None, ...]
    """Those that stood there, changed or not, None where one is taken out; behind them those added."""


def as_they_are(shop: Shop, groups: Iterable[str]) -> tuple[Change, ...]:
    """Groups said to be what is assumed."""
    return tuple(Change(group, things(shop, group)) for group in groups)


def changed(shop: Shop, changes: Iterable[Change]) -> Shop:
    """The shop as it is said to be; raises OutOfRange when it cannot be worked with."""
    for change in changes:
        left = tuple(one for one in change.things if one is not None)
        if change.group == UNITS:
            shop = in_units(shop, left[0])
            continue
        if change.group in (PAPERS, LEARNING):
            told: dict[str, Any] = {change.group: left[0]}
            shop = replace(shop, **told)
            continue
        value: Any = left[0] if change.group in (PRESS, TESTER) else left
        given: dict[str, Any] = {FIELD[change.group]: value}
        shop = replace(shop, said=shop.said | {change.group}, is_built_in=False, **given)
    return shop


def in_units(shop: Shop, works_in: str) -> Shop:
    """The shop working in mm or in inch: what it has said stays, what is assumed is bought in that unit."""
    assumed = built_in(works_in)
    unsaid = {FIELD[group]: getattr(assumed, FIELD[group]) for group in GROUPS if group not in shop.said}
    return replace(shop, works_in=works_in, **unsaid)

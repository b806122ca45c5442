"""The shop as data for a program.

Invariant: lengths are mm whatever the shop works in; what nobody has said is named in `assumed`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from bench.shop.groups import GROUPS

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

    from bench.shop.shop import Shop


def shop_data(shop: Shop) -> dict[str, Any]:
    """Everything that the shop says, every key always there."""
    return {
        "built_in": shop.is_built_in,
        "assumed": [group for group in GROUPS if group not in shop.said],
        "shop_name": shop.shop_name,
        "tester_number": shop.tester_number,
        "works_in": shop.works_in,
        "papers_in": shop.papers_in,
        "lathes": listed(shop.lathes),
        "tools": listed(shop.tools),
        "bars": listed(shop.bars),
        "instruments": listed(shop.instruments),
        "press": asdict(shop.press),
        "tester": asdict(shop.tester),
        "turning_spread_mm": shop.turning_spread_mm,
        "hand_scale_pct": shop.hand_scale_pct,
        "glass_step_mm": shop.glass_step_mm,
        "divers_equipped": shop.divers_equipped,
        "theme": shop.theme,
        "bell": shop.bell,
        "bounce_ms": shop.bounce_ms,
        "lines": listed(shop.lines),
        "materials": {kind: sorted(table) for kind, table in shop.materials.items()},
    }


def listed(things: Iterable[DataclassInstance]) -> list[dict[str, Any]]:
    """Things of one kind, each with all that is known of it."""
    return [asdict(one) for one in things]

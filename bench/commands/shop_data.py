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

    from bench.shop.lately import Lately
    from bench.shop.shop import Shop
    from rules.learning.promised import Kept


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
        "learn_from_jobs": shop.learn_from_jobs,
        "finished_rings": lately_data(shop.lately),
        "divers_equipped": shop.divers_equipped,
        "theme": shop.theme,
        "bell": shop.bell,
        "bounce_ms": shop.bounce_ms,
        "lines": listed(shop.lines),
        "materials": {kind: sorted(table) for kind, table in shop.materials.items()},
    }


def lately_data(lately: Lately) -> dict[str, Any] | None:
    """What the finished rings say of the shop; None while they say nothing."""
    lands = lately.lands
    if lands is None and lately.kept is None:
        return None
    return {
        "lands": None
        if lands is None
        else {
            "rings": lands.rings,
            "mean_mm": round(lands.mean_mm, 4),
            "sd_mm": round(lands.sd_mm, 4),
            "degrees_of_freedom": round(lands.dof, 1),
            "good_to_mm": round(lands.good_to_mm, 4),
            "assumed_good_to_mm": round(lands.assumed_mm, 4),
            "odd": list(lands.odd),
        },
        "tools": [
            {**asdict(one), "mean_mm": round(one.mean_mm, 4), "good_to_mm": round(one.good_to_mm, 4)}
            for one in lately.tools
        ],
        "uncorrected_good_to_mm": None if lately.uncorrected_mm is None else round(lately.uncorrected_mm, 4),
        "repeats": [{**asdict(one), "sd_mm": round(one.sd_mm, 4)} for one in lately.repeats],
        "promised": kept_data(lately.kept),
        "promised_by_tenths": [kept_data(one) for one in lately.tenths],
    }


def kept_data(kept: Kept | None) -> dict[str, Any] | None:
    """Promised against fitted, shares from 0 to 1; no interval from too few rings."""
    if kept is None:
        return None
    low, high = kept.interval or (None, None)
    return {
        "rings": kept.rings,
        "promised": round(kept.promised, 4),
        "fitted": kept.fitted,
        "low": None if low is None else round(low, 4),
        "high": None if high is None else round(high, 4),
    }


def listed(things: Iterable[DataclassInstance]) -> list[dict[str, Any]]:
    """Things of one kind, each with all that is known of it."""
    return [asdict(one) for one in things]

"""A turning order as one short text, so that a job keeps the lathe, tools and bar that it was planned for.

Invariant: `from_text(to_text(order))` is the order itself, whatever the shop file says by then.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import Any

from rules.equipment import Axis, Bar, Grip, Lathe, Tool
from rules.turning.passes import Order, RingSize
from rules.turning.schedule import CuttingData
from rules.turning.stock import StockUse


class FactsWrong(ValueError):
    """The text is no turning order."""


def to_text(order: Order) -> str:
    """The order as one line of JSON, about two kilobytes."""
    return json.dumps(asdict(order), separators=(",", ":"), allow_nan=False)


def from_text(text: str) -> Order:
    """The order that a text keeps; raises FactsWrong when it is none or holds what cannot be."""
    try:
        return _order(json.loads(text))
    except (ValueError, TypeError, KeyError, RecursionError, AttributeError) as why:
        raise FactsWrong(f"the turning order kept in the job cannot be used: {why}") from why


def _order(raw: dict[str, Any]) -> Order:
    stock = raw["stock"]
    return Order(
        **{
            **raw,
            "ring": RingSize(**raw["ring"]),
            "data": CuttingData(**raw["data"]),
            "lathe": _lathe(raw["lathe"]),
            "bar": Bar(**raw["bar"]),
            **{kind: Tool(**raw[kind]) for kind in ("turning", "boring", "chamfer", "parting")},
            "stock": StockUse(**{**stock, "grip": Grip(**stock["grip"])}),
            "offsets_mm": tuple((int(number), float(offset)) for number, offset in raw["offsets_mm"]),
        }
    )


def _lathe(raw: dict[str, Any]) -> Lathe:
    return Lathe(
        **{
            **raw,
            "cross": Axis(**raw["cross"]),
            "long": Axis(**raw["long"]),
            "speeds_rpm": tuple(raw["speeds_rpm"]),
            "grips": tuple(Grip(**grip) for grip in raw["grips"]),
        }
    )

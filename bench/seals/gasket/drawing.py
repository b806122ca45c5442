"""The flat gasket in section, before it is squeezed: inside on the left.

Invariant: every dimension on it stands in the sheet's data.
"""

from __future__ import annotations

from typing import Any

from bench.seals.seal import Drawing, Leader
from rules.lengths import bare, length


def drawing(data: dict[str, Any]) -> Drawing | None:
    """The gasket of the sheet; None while one of its sizes is not known."""
    one, made = data["gasket"], data["made_gasket"]
    outside, inside = one["outside_mm"], one["inside_mm"]
    if None in (outside, inside, one["thickness_mm"]) or not outside > inside:
        return None
    thick, said = (one["thickness_mm"], "") if made["mean_mm"] is None else (made["mean_mm"], " measured")
    planned = (outside - inside) / 2.0
    wide, wide_said = (planned, "") if made["width_mm"] is None else (made["width_mm"], " measured")
    room = data["room"]
    made_for = (
        ()
        if room["outside_mm"] is None
        else (
            f"room {bare(room['outside_mm'])} to {bare(room['inside_mm'])}, {length(room['height_mm'])} high",
        )
    )
    return Drawing(
        of="section of the gasket, planned where not measured",
        outline=((0.0, 0.0), (wide, 0.0), (wide, thick), (0.0, thick)),
        across=f"width {bare(wide)}{wide_said}",
        upright=f"thickness {bare(thick, 3 if said else 2)}{said}",
        leaders=(
            Leader((wide, 0.7 * thick), (3.0, 0.3), f"outside \u2300 {bare(outside)}"),
            Leader((0.0, 0.6 * thick), (-2.0, 0.0), f"inside \u2300 {bare(inside)}"),
        ),
        above="lid",
        made_for=made_for,
    )

"""The flat gasket in section, before it is squeezed: inside on the left.

Invariant: every dimension on it stands in the sheet's data.
"""

from __future__ import annotations

from typing import Any

from bench.job.statement import Long, Statement
from bench.seals.seal import Drawing, Leader
from rules.lengths import bare, length

DRAWN = {
    ("width", True): "width {size} measured",
    ("width", False): "width {size}",
    ("thickness", True): "thickness {size} measured",
    ("thickness", False): "thickness {size}",
}
"""Sizes on the drawing, those that were measured called so."""


def drawing(data: dict[str, Any]) -> Drawing | None:
    """The gasket of the sheet; None while one of its sizes is not known."""
    one, made, room = data["gasket"], data["made_gasket"], data["room"]
    outside, inside = one["outside_mm"], one["inside_mm"]
    if None in (outside, inside, one["thickness_mm"]) or not outside > inside:
        return None
    thick = made["mean_mm"] or one["thickness_mm"]
    wide = made["width_mm"] or (outside - inside) / 2.0
    sized = (
        f"room {bare(room['outside_mm'])} to {bare(room['inside_mm'])}, {length(room['height_mm'])} high"
        if room["outside_mm"] is not None
        else ""
    )
    return Drawing(
        of=Statement("drawn_gasket", "section of the gasket, planned where not measured"),
        outline=((0.0, 0.0), (wide, 0.0), (wide, thick), (0.0, thick)),
        across=drawn_size("width", wide, 2, measured=made["width_mm"] is not None),
        upright=drawn_size("thickness", thick, 3, measured=made["mean_mm"] is not None),
        leaders=(
            Leader((wide, 0.7 * thick), (3.0, 0.3), diameter("outside", outside)),
            Leader((0.0, 0.6 * thick), (-2.0, 0.0), diameter("inside", inside)),
        ),
        above=Statement("drawn_lid", "lid"),
        made_for=(sized,) if sized else (),
    )


def drawn_size(what: str, mm: float, places: int, *, measured: bool) -> Statement:
    """A size of the gasket in the words of the drawing."""
    size = Long(mm, places if measured else 2, with_unit=False)
    return Statement(f"drawn_{what}", DRAWN[what, measured], {"size": size})


def diameter(what: str, mm: float) -> Statement:
    """One of its diameters, which are not measured on it."""
    size = {"size": Long(mm, with_unit=False)}
    if what == "outside":
        return Statement("drawn_outside", "outside \u2300 {size}", dict(size))
    return Statement("drawn_inside", "inside \u2300 {size}", dict(size))

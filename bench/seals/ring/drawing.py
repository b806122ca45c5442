"""The wall of the ring in section: bore on the left, the side that the glass comes from on top.

Invariant: every dimension on it stands in the sheet's data, or in the plan with its limit.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from bench.job.statement import DecidedSize, Long, Said, Statement
from bench.seals.seal import Drawing, Leader
from rules.lengths import bare, good_to, length, short, size
from rules.sizing.squeeze import Gap
from rules.turning.passes import HEIGHT_UNDER_MM, OUTSIDE_LIMIT_MM, WALL_LIMIT_MM, Plan

CHAMFER, GLASS_SIDE = "{} x 45\u00b0", "glass side"


def drawing(data: dict[str, Any]) -> Drawing | None:
    """The ring of the sheet; None while one of its sizes is not known."""
    ring = data["ring"]
    names = ("outside_diameter_mm", "bore_mm", "height_mm", "chamfer_mm", "lower_chamfer_mm", "wall_mm")
    if any(ring[name] is None for name in names) or not ring["wall_mm"] > 0.0 < ring["height_mm"]:
        return None
    entry, lower = ring["chamfer_mm"], ring["lower_chamfer_mm"]
    bar = data["on_the_ring"]
    wall, wall_measured = measured_or(bar["wall_mean_mm"], ring["wall_mm"])
    high, high_measured = measured_or(data["made"]["height_mm"], ring["height_mm"])
    drawn = section(
        (wall, high, entry, lower),
        across=drawn_size("wall", wall, 3, measured=wall_measured),
        upright=drawn_size("height", high, 2, measured=high_measured),
        outside=drawn_size("outside", ring["outside_diameter_mm"], 2, measured=bar["outside_final"]),
        bore=Statement(
            "drawn_bore", "bore \u2300 {size}", {"size": DecidedSize(ring["bore_mm"], with_unit=False)}
        ),
        chamfers=(chamfer(entry), chamfer(lower)),
    )
    return replace(
        drawn,
        of=Statement("drawn", "section of the wall, planned where not measured"),
        above=Statement("drawn_glass_side", GLASS_SIDE),
    )


DRAWN = {
    ("wall", True): "wall {size} measured",
    ("wall", False): "wall {size}",
    ("height", True): "height {size} measured",
    ("height", False): "height {size}",
    ("outside", True): "outside \u2300 {size} measured",
    ("outside", False): "outside \u2300 {size}",
}
"""Sizes on the drawing, those that were measured called so."""


def measured_or(measured: float | None, planned: float) -> tuple[float, bool]:
    """A size of the ring, and whether it was measured."""
    return (planned, False) if measured is None else (measured, True)


def drawn_size(what: str, mm: float, places: int, *, measured: bool) -> Statement:
    """A size of the ring in the words of the drawing."""
    return Statement(f"drawn_{what}", DRAWN[what, measured], {"size": Long(mm, places, with_unit=False)})


def chamfer(mm: float) -> Statement:
    """An edge broken at 45 degrees."""
    return Statement("drawn_chamfer", "{size} x 45\u00b0", {"size": Long(mm, with_unit=False)})


def plan_drawing(plan: Plan, gap: Gap | None = None) -> Drawing:
    """The ring to be turned, with its limits, and the seat and glass that it is for."""
    ring = plan.order.ring
    drawn = section(
        (ring.wall_mm, ring.height_mm, ring.chamfer_mm, ring.lower_chamfer_mm),
        across=f"wall {bare(ring.wall_mm, 3)} \u00b1 {bare(WALL_LIMIT_MM, 3)}",
        upright=f"height {bare(ring.height_mm)} +0/-{bare(HEIGHT_UNDER_MM)}",
        outside=f"\u2300 {bare(ring.outside_diameter_mm)} \u00b1 {bare(OUTSIDE_LIMIT_MM, 3)} outside",
        bore=f"\u2300 {size(ring.bore_mm)} bore (by the wall)",
        chamfers=(
            f"entry chamfer {CHAMFER.format(bare(ring.chamfer_mm))}",
            CHAMFER.format(bare(ring.lower_chamfer_mm)),
        ),
    )
    return replace(drawn, made_for=() if gap is None else (for_words(gap),))


def for_words(gap: Gap) -> str:
    """Seat and glass as they were measured."""
    seat, glass = bare(gap.case_bore_mm), f"{bare(gap.glass_mm)} {short()}"
    good = f"good to {good_to(gap.case_bore_u_mm)} and {good_to(gap.glass_u_mm)}"
    return f"seat {seat}, glass {glass} ({good}), gap {length(gap.mm, 3)}"


def section(
    sizes_mm: tuple[float, float, float, float],
    *,
    across: Said,
    upright: Said,
    outside: Said,
    bore: Said,
    chamfers: tuple[Said, Said],
) -> Drawing:
    """The section from wall, height, entry chamfer and lower chamfer, with the words of its dimensions."""
    wide, high, entry, lower = sizes_mm
    outline = (
        (entry, 0.0),
        (wide, 0.0),
        (wide, high - lower),
        (wide - lower, high),
        (0.0, high),
        (0.0, entry),
    )
    leaders = [Leader((wide, 0.72 * high), (3.4, 0.3), outside), Leader((0.0, 0.6 * high), (-2.0, 0.0), bore)]
    if entry > 0.0:
        leaders.append(Leader((entry / 2.0, entry / 2.0), (-2.6, -1.4), chamfers[0]))
    if lower > 0.0:
        leaders.append(Leader((wide - lower / 2.0, high - lower / 2.0), (2.4, 1.4), chamfers[1]))
    return Drawing("section of the wall", outline, across, upright, tuple(leaders), above=GLASS_SIDE)

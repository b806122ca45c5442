"""The ring with a foot in section: inside on the left, the side that the glass comes from on top.

Invariant: every dimension on it stands in the sheet's data, or in the plan with its limit.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from bench.job.statement import DecidedSize, Long, Said, Statement
from bench.seals.ring.drawing import CHAMFER, GLASS_SIDE, chamfer, drawn_size, for_words, measured_or
from bench.seals.seal import Drawing, Leader
from rules.lengths import bare, size
from rules.sizing.squeeze import Gap
from rules.turning.passes import OUTSIDE_LIMIT_MM, WALL_LIMIT_MM, Plan

FOOT_LIMIT_MM = 0.02
"""The foot may be so much too thick or too thin (own judgement)."""


@dataclass(frozen=True, slots=True)
class FootSection:
    """The sizes of the section, mm."""

    wide_mm: float
    """From the bore of the foot to the outside."""
    wall_mm: float
    high_mm: float
    foot_mm: float
    entry_mm: float
    lower_mm: float

    @property
    def inner_mm(self) -> float:
        """Where the wall begins, from the bore of the foot."""
        return self.wide_mm - self.wall_mm

    @property
    def outline(self) -> tuple[tuple[float, float], ...]:
        """Its corners, from the entry chamfer round by the outside."""
        inner, floor = self.inner_mm, self.high_mm - self.foot_mm
        return (
            (inner + self.entry_mm, 0.0),
            (self.wide_mm, 0.0),
            (self.wide_mm, self.high_mm - self.lower_mm),
            (self.wide_mm - self.lower_mm, self.high_mm),
            (0.0, self.high_mm),
            (0.0, floor),
            (inner, floor),
            (inner, self.entry_mm),
        )


@dataclass(frozen=True, slots=True)
class Named:
    """The words of its dimensions."""

    wide: Said
    high: Said
    outside: Said
    bore: Said
    wall: Said
    foot: Said
    inside: Said
    entry: Said


def drawn(
    of: FootSection, named: Named, *, what: Said, above: Said, made_for: tuple[str, ...] = ()
) -> Drawing:
    """The section with its dimensions."""
    floor = of.high_mm - of.foot_mm
    leaders = [
        Leader((of.wide_mm, 0.85 * of.high_mm), (3.4, 2.0), named.outside),
        Leader((of.wide_mm - 0.3 * of.wall_mm, 0.0), (2.4, -2.0), named.wall),
        Leader((of.inner_mm, 0.4 * floor), (-4.0, 0.0), named.bore),
        Leader((0.0, of.high_mm), (-2.0, 1.3), named.inside),
        Leader((0.0, of.high_mm - 0.6 * of.foot_mm), (-2.0, -0.7), named.foot),
    ]
    if of.entry_mm > 0.0:
        at = (of.inner_mm + of.entry_mm / 2.0, of.entry_mm / 2.0)
        leaders.append(Leader(at, (-4.0, -1.6), named.entry))
    return Drawing(what, of.outline, named.wide, named.high, tuple(leaders), above=above, made_for=made_for)


def drawing(data: dict[str, Any]) -> Drawing | None:
    """The ring of the sheet; None while one of its sizes is not known."""
    ring, foot, bar = data["ring"], data["foot"], data["on_the_ring"]
    names = ("outside_diameter_mm", "bore_mm", "height_mm", "chamfer_mm", "lower_chamfer_mm", "wall_mm")
    if any(ring[name] is None for name in names) or foot["thickness_mm"] is None or not ring["wall_mm"] > 0.0:
        return None
    wall, wall_measured = measured_or(bar["wall_mean_mm"], ring["wall_mm"])
    high, high_measured = measured_or(data["made"]["height_mm"], ring["height_mm"])
    thick, thick_measured = measured_or(foot["mean_mm"], foot["thickness_mm"])
    wide = (ring["outside_diameter_mm"] - foot["inside_mm"]) / 2.0
    of = FootSection(wide, wall, high, thick, ring["chamfer_mm"], ring["lower_chamfer_mm"])
    if not 0.0 < of.wall_mm < of.wide_mm or not 0.0 < of.foot_mm < of.high_mm:
        return None
    bore = {"size": DecidedSize(ring["bore_mm"], with_unit=False)}
    said = Named(
        wide=Statement("drawn_foot_wide", "foot {size} wide", {"size": Long(wide, 2, with_unit=False)}),
        high=drawn_size("height", high, 2, measured=high_measured),
        outside=drawn_size("outside", ring["outside_diameter_mm"], 2, measured=bar["outside_final"]),
        bore=Statement("drawn_bore", "bore \u2300 {size}", bore),
        wall=drawn_size("wall", wall, 3, measured=wall_measured),
        foot=drawn_foot(thick, measured=thick_measured),
        inside=inside(foot["inside_mm"]),
        entry=chamfer(of.entry_mm),
    )
    what = Statement("drawn_foot", "section of wall and foot, planned where not measured")
    return drawn(of, said, what=what, above=Statement("drawn_glass_side", GLASS_SIDE))


DRAWN = {True: "foot {size} measured", False: "foot {size}"}
"""The thickness of the foot on the drawing, called measured where it was."""


def drawn_foot(mm: float, *, measured: bool) -> Statement:
    """The thickness of the foot in the words of the drawing."""
    size = Long(mm, 3 if measured else 2, with_unit=False)
    return Statement("drawn_foot_thick", DRAWN[measured], {"size": size})


def inside(mm: float) -> Statement:
    """The bore of the foot, which is not measured on it."""
    return Statement("drawn_inside", "inside \u2300 {size}", {"size": Long(mm, with_unit=False)})


def plan_drawing(plan: Plan, gap: Gap | None = None) -> Drawing:
    """The ring to be turned, with its limits, and the seat and glass that it is for."""
    ring = plan.order.ring
    wide = (ring.outside_diameter_mm - ring.foot_bore_mm) / 2.0
    of = FootSection(wide, ring.wall_mm, ring.height_mm, ring.foot_mm, ring.chamfer_mm, ring.lower_chamfer_mm)
    said = Named(
        wide=f"foot {bare(wide)} wide",
        high=f"height {bare(ring.height_mm)}",
        outside=f"\u2300 {bare(ring.outside_diameter_mm)} \u00b1 {bare(OUTSIDE_LIMIT_MM, 3)} outside",
        bore=f"\u2300 {size(ring.bore_mm)} bore (by the wall)",
        wall=f"wall {bare(ring.wall_mm, 3)} \u00b1 {bare(WALL_LIMIT_MM, 3)}",
        foot=f"foot {bare(ring.foot_mm)} \u00b1 {bare(FOOT_LIMIT_MM)}",
        inside=f"\u2300 {bare(ring.foot_bore_mm)} inside; corner at most R {bare(ring.corner_mm)}",
        entry=f"entry chamfer {CHAMFER.format(bare(ring.chamfer_mm))}",
    )
    made_for = () if gap is None else (for_words(gap),)
    return drawn(of, said, what="section of wall and foot", above=GLASS_SIDE, made_for=made_for)

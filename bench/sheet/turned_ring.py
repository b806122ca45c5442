"""The ring that is turned, as its plan says it: its sizes for programs, and its foot in words.

Invariant: every figure is one of the ring; of a straight one no foot is said.
"""

from __future__ import annotations

from rules.lengths import bare, short
from rules.ring import Ring

SIZES = ("outside_diameter_mm", "bore_mm", "height_mm")
EDGES = ("chamfer_mm", "lower_chamfer_mm")
OF_FOOT = ("foot_mm", "foot_bore_mm", "corner_mm")


def ring_json(ring: Ring) -> dict[str, float]:
    """The ring for programs."""
    foot = OF_FOOT if ring.foot_mm else ()
    return {
        **{name: getattr(ring, name) for name in SIZES},
        "wall_mm": round(ring.wall_mm, 6),
        **{name: getattr(ring, name) for name in (*EDGES, *foot)},
    }


def foot_lines(ring: Ring) -> list[str]:
    """Its foot in words; nothing of a straight one."""
    if not ring.foot_mm:
        return []
    thick, inside, corner = (bare(getattr(ring, name)) for name in OF_FOOT)
    return [f"foot {thick} thick  inside {inside}  corner R {corner} at most ({short()})"]

"""What a turning plan says of the foot of a ring: nothing of a straight one.

Invariant: every figure is one of the ring that is turned.
"""

from __future__ import annotations

from rules.lengths import bare, short
from rules.ring import Ring

NAMES = ("foot_mm", "foot_bore_mm", "corner_mm")


def foot_json(ring: Ring) -> dict[str, float]:
    """The foot for programs."""
    return {name: getattr(ring, name) for name in NAMES} if ring.foot_mm else {}


def foot_lines(ring: Ring) -> list[str]:
    """The foot in words."""
    if not ring.foot_mm:
        return []
    thick, inside, corner = (bare(getattr(ring, name)) for name in NAMES)
    return [f"foot {thick} thick  inside {inside}  corner R {corner} at most ({short()})"]

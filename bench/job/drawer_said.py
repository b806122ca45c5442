"""What lies in the drawer, in words.

Invariant: a ring that is not offered says why.
"""

from __future__ import annotations

from bench.job.in_drawer import BarLeft, Drawer, Lying
from bench.job.steps import Words
from rules.lengths import bare, length, plainly

EMPTY = "The drawer is empty: no job has left a ring that was not used, or told what is left of a bar."
RINGS, BARS = "Rings that no job has used", "Bars, as the newest job left them"


def drawer_words(drawer: Drawer) -> tuple[tuple[str, Words], ...]:
    """Each heading with its lines."""
    parts = ((RINGS, tuple(map(ring_words, drawer.rings))), (BARS, tuple(map(bar_words, drawer.bars))))
    return tuple((heading, lines) for heading, lines in parts if lines)


def ring_words(ring: Lying) -> str:
    """A ring in one line."""
    wall = f"wall {bare(ring.wall_mm, 3)} {'as measured' if ring.walls_mm else 'as planned'}"
    sizes = f"outside {bare(ring.outside_mm)}, {wall}, height {length(ring.height_mm)}"
    held = f"; {why_not(ring)}" if why_not(ring) else ""
    return f"{ring.name}, {ring.at[:10]}: {ring.plastic or 'plastic not known'}, {sizes}{held}"


def why_not(ring: Lying) -> str:
    """Why a ring is not offered, or what comes first; empty where nothing does."""
    if not ring.free:
        return "kept for its own job until that is finished"
    if not ring.walls_mm:
        return "not offered: its walls were not measured"
    if not ring.plastic:
        return "not offered: its plastic is not known"
    return "its walls are measured again before it is used" if ring.again else ""


def bar_words(bar: BarLeft) -> str:
    """What is left of a bar in one line."""
    left = f"about {length(bar.left_mm, 0)} left"
    return (
        f"{bar.plastic} {bar.colour}, {plainly(bar.diameter_mm)}: {left} after job {bar.job}, {bar.at[:10]}"
    )

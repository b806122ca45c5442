"""The cord of the O-ring in section, before it is squeezed, and the sizes it was chosen for.

Invariant: every dimension on it stands in the sheet's data.
"""

from __future__ import annotations

import math
from typing import Any

from bench.job.statement import Long, Statement
from bench.seals.oring.text import LIES
from bench.seals.seal import Drawing, Leader
from rules.lengths import bare, length

CORNERS = 48
"""Of the outline that stands for a circle."""
DRAWN = {True: "cord {size} measured", False: "cord {size}"}
"""Its cord, called measured where it was."""
DRAWN_INSIDE = {True: "inside \u2300 {size} measured", False: "inside \u2300 {size}"}


def drawing(data: dict[str, Any]) -> Drawing | None:
    """The ring of the sheet; None while one of its sizes is not known."""
    one, made, groove = data["oring"], data["measured_oring"], data["groove"]
    if one["inside_mm"] is None or one["cord_mm"] is None:
        return None
    cord, inside = made["mean_mm"] or one["cord_mm"], made["inside_mm"] or one["inside_mm"]
    sized = (
        LIES[groove["lies"]].format(
            inner=bare(groove["inner_mm"]), outer=bare(groove["outer_mm"]), other=length(groove["other_mm"])
        )
        if groove["inner_mm"] is not None
        else ""
    )
    radius, turn = cord / 2.0, 2.0 * math.pi / CORNERS
    outline = tuple(
        (radius + radius * math.cos(n * turn), radius + radius * math.sin(n * turn)) for n in range(CORNERS)
    )
    return Drawing(
        of=Statement("drawn_oring", "section of the O-ring's cord, planned where not measured"),
        outline=outline,
        across=drawn("drawn_cord", DRAWN, cord, made["mean_mm"] is not None),
        upright=drawn("drawn_cord", DRAWN, cord, made["mean_mm"] is not None),
        leaders=(
            Leader(
                (0.0, radius),
                (-2.0, 0.0),
                drawn("drawn_oring_inside", DRAWN_INSIDE, inside, made["inside_mm"] is not None),
            ),
        ),
        made_for=(f"groove: {sized}",) if sized else (),
    )


def drawn(name: str, words: dict[bool, str], mm: float, measured: bool) -> Statement:
    """A size of the ring in the words of the drawing."""
    return Statement(name, words[measured], {"size": Long(mm, 3 if measured else 2, with_unit=False)})

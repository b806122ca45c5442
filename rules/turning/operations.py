"""The operations at the lathe by name: an act at the lathe has its operation as its key in the file.

Invariant: a name stands here and nowhere else, and is never changed.
"""

from __future__ import annotations

from rules.equipment import TOOL_KINDS

FACE = "face"
ROUGH_OUTSIDE = "rough_outside"
CENTRE = "centre"
DRILL = "drill"
CORE = "core"
SHORTEN_CORE = "shorten_core"
ROUGH_FOOT = "rough_foot"
ROUGH_BORE = "rough_bore"
FLOOR = "floor"
REST = "rest"
FINISH_OUTSIDE = "finish_outside"
FINISH_BORE = "finish_bore"
CHAMFER = "chamfer"
LOWER_CHAMFER = "lower_chamfer"
PART = "part"
DRESS = "dress"

ROUGHING = (ROUGH_OUTSIDE, ROUGH_FOOT, ROUGH_BORE)
"""Many passes of one surface, until it is near its size."""
FINISHING = (FINISH_OUTSIDE, FINISH_BORE)
"""The few passes that bring it to its size."""
TOOLS_DRAWN = ("", *TOOL_KINDS, DRILL)
"""Tools that a picture shows, by their place here; the first is none."""


def going_on(act: str, made: int) -> str:
    """Name of the act that goes on with an act of which so many passes are made; the act itself with none."""
    return f"{act}_from_{made + 1}" if made else act


def look_before(act: str) -> str:
    """Name of the look at the tool in the post before an act of a spare."""
    return f"tool_{act}"


def begun(act: str) -> str:
    """Name of the act that another goes on with."""
    return act.partition("_from_")[0]

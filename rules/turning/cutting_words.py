"""The sentences of the cutting stage that are not targets: setting, changing tools, resting, ways out.

Invariant: plain sentences without a formula; every number in them comes in as an argument.
"""

from __future__ import annotations

from rules.equipment import FACE_GROOVING, Lathe, Tool
from rules.lengths import by_rule, length, microns
from rules.ring import Ring
from rules.turning import operations
from rules.turning.readout import CARRIAGE_ZERO

OPERATION_NAMES = {
    operations.FACE: "face the end",
    operations.ROUGH_OUTSIDE: "rough the outside",
    operations.CENTRE: operations.CENTRE,
    operations.DRILL: operations.DRILL,
    operations.CORE: "cut out the core",
    operations.SHORTEN_CORE: "shorten the core",
    operations.ROUGH_FOOT: "bore through, to the foot's bore",
    operations.ROUGH_BORE: "rough the bore",
    operations.FLOOR: "face the floor of the bore",
    operations.REST: "rest until cool",
    operations.FINISH_OUTSIDE: "finish the outside",
    operations.FINISH_BORE: "finish the bore",
    operations.CHAMFER: "entry chamfer",
    operations.LOWER_CHAMFER: "lower chamfer",
    operations.PART: "part off",
    operations.DRESS: "dress the parted face",
}

FACE_TOUCH = f"touch off on the face: {CARRIAGE_ZERO}"
"""How a tool learns where the face is."""
BELT_OVER = "spindle off at the switch: belt over"
"""What comes before another step of the belt."""
BURRS_OFF = "burrs off both edges of the ring, sealing faces untouched: a burr reads as wall"
"""What comes before a wall is measured."""
SHORT_OF_FLOOR = "it ends on the foot: feed off before the figure, the last of it by hand"
"""What is said where a bore is not right through: a tool that is fed on runs into the floor."""
KIND_NAMES = {
    "turning": "turning tool",
    "boring": "boring bar",
    "chamfer": "chamfer tool",
    "parting": "parting blade",
    FACE_GROOVING: "face-grooving tool",
}
"""The kinds of tool in words."""

WAYS_OUT_OUTSIDE = (
    "make the bore smaller by the same amount: same wall, checked against the seat before it is parted",
    "start a new ring further up the bar",
)
WAYS_OUT_BORE = (
    "the next larger glass: the ring is parted and kept for it",
    "start a new ring further up the bar",
)


def ways_out_of_bore(ring: Ring) -> tuple[str, ...]:
    """What is left where the bore is past its size; a ring with a foot is made for one glass alone."""
    return WAYS_OUT_BORE[1:] if ring.foot_mm else WAYS_OUT_BORE


def speed_words(lathe: Lathe, rpm: float) -> str:
    """A spindle speed, with the step of the belt where the lathe has steps: "420 rpm (inner step)"."""
    names = dict(zip(lathe.speeds_rpm, lathe.speed_names, strict=False))
    return f"{rpm:g} rpm" + (f" ({names[rpm]})" if rpm in names else "")


def tool_short(lathe: Lathe, tool: Tool) -> str:
    """A tool by its number; by its kind where it shows none in the post."""
    return f"tool {tool.number}" if lathe.numbered_tools else f"the {KIND_NAMES[tool.kind]}"


def tool_words(lathe: Lathe, tool: Tool) -> str:
    """The same with its name where it has a number."""
    name = f" ({tool.name or KIND_NAMES[tool.kind]})" if lathe.numbered_tools else ""
    return tool_short(lathe, tool) + name


def tool_in(lathe: Lathe, tool: Tool) -> str:
    """The tool change as a sentence."""
    return f"spindle stopped: fit {tool_words(lathe, tool)}, tight, on centre height"


def speed_set(lathe: Lathe, rpm: float) -> str:
    """Another spindle speed as a sentence."""
    if lathe.speed_names:
        return f"{BELT_OVER}, to {speed_words(lathe, rpm)}"
    return f"spindle stopped: set {speed_words(lathe, rpm)}"


def set_up_guards(*, grip: str, stick_out_mm: float, lathe: Lathe, tool: Tool) -> tuple[str, str]:
    """What stands before anything turns on every plan: how the bar is held, the tool, the chuck key."""
    return (
        f"grip the bar in the {grip}, {by_rule(stick_out_mm)} standing out, "
        "nothing behind the spindle or in a guide",
        f"fit {tool_short(lathe, tool)}, tight, on centre height; chuck key out",
    )


def expansion_words(*, diameter_mm: float, wall_mm: float, expansion_per_k: float | None) -> str:
    """What ten degrees change here; says so when the plastic's expansion is not known."""
    if expansion_per_k is None:
        return "warm work measures too large; how much is not known for this plastic: let it cool"
    outside_um = 1e4 * diameter_mm * expansion_per_k
    wall_um = 1e4 * wall_mm * expansion_per_k
    return f"10 degrees warmer add {microns(outside_um)} to the outside and {microns(wall_um)} to the wall"


def kept_offset(lathe: Lathe, tool: Tool, offset_mm: float, touch: str) -> str:
    """That a tool's offset is known and allowed for, and how it is touched off where its zero is lost."""
    name, said = tool_short(lathe, tool), offset_words(offset_mm)
    return (
        f"{name} cuts {said}{': allowed for;' if said != offset_words(0.0) else ':'} do not set it again, "
        f"unless the read-out was set for another tool since: then {touch}"
    )


def offset_words(offset_mm: float) -> str:
    """How a tool cuts, as a person says it: "0.030 mm larger than it shows"; what no figure shows is none."""
    shown = length(abs(offset_mm), 3)
    if shown == length(0.0, 3):
        return "as it shows"
    return f"{shown} {'smaller' if offset_mm < 0.0 else 'larger'} than it shows"


def smaller_bore(*, wall_mm: float, bore_mm: float) -> str:
    """The bore that keeps the wall after the outside came out small."""
    return f"bore {length(bore_mm)} keeps the wall of {length(wall_mm)}"

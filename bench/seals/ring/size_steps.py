"""The steps of the second stage as data: usual values that can be changed, each with its reason.

Invariant: every step here is optional except wall and height of a metal that was named.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.mask import Mask
from bench.job.steps import Choice, Step
from bench.job.values import mask_for
from bench.seals.ring.materials import NOT_KNOWN
from bench.stages.common import plain_choices
from rules.bars import RAW, Bar
from rules.lengths import length, plainly
from rules.turning.order import TIGHTER_SPARE_MM

if TYPE_CHECKING:
    from bench.shop.shop import Shop


def equipment_steps(shop: Shop) -> tuple[Step, Step, Step]:
    """Which lathe, tool set and bar; the first of each, and the thinnest bar that does,
    unless another is named.
    """
    base = Step(
        key="",
        stage="cut",
        kind="choice",
        title="",
        optional=True,
        why="A job remembers what it was turned with; the shop file says what there is.",
    )
    lathes = tuple(Choice(item.name, item.name) for item in shop.lathes)
    sets = tuple(Choice(name, name or "the tool set") for name in shop.tool_sets)
    bars = tuple(Choice(bar_name(item), bar_said(item)) for item in shop.bars)
    fitting = Choice("as it fits", "the thinnest that does")
    return (
        replace(base, key=keys.LATHE, title="Lathe", choices=lathes, usual=shop.lathes[0].name),
        replace(base, key=keys.TOOL_SET, title="Tool set", choices=sets, usual=shop.tool_sets[0]),
        replace(base, key=keys.BAR, title="Bar", choices=(fitting, *bars), usual="as it fits"),
    )


def bar_name(bar: Bar) -> str:
    """A bar as it is kept."""
    kind = "" if bar.kind == RAW else f" {bar.kind.replace('_', '-')}"
    bored = f", bore {bar.bore_mm:g} mm" if bar.bore_mm else ""
    return f"{bar.plastic} {bar.colour} {bar.diameter_mm:g} mm{kind}{bored}"


def bar_said(bar: Bar) -> str:
    """A bar as a person names it."""
    kind = "" if bar.kind == RAW else f" {bar.kind.replace('_', '-')}"
    bored = f", bore {plainly(bar.bore_mm)}" if bar.bore_mm else ""
    return f"{bar.plastic} {bar.colour} {plainly(bar.diameter_mm)}{kind}{bored}"


CASE_WALL = Step(
    key=keys.CASE_WALL,
    stage="size",
    kind="number",
    title="Metal round the seat: wall, from seat to outside",
    mask=mask_for("case wall", 2, 1),
    rests_on=(keys.CASE_METAL,),
    why="A thin bezel stretches and takes the squeeze away: that can make a factor of two.",
    how=("The thinnest place round the seat.",),
)
CASE_HEIGHT = Step(
    key=keys.CASE_HEIGHT,
    stage="size",
    kind="number",
    title="Metal round the seat: height beside the ring",
    mask=mask_for("case height", 2, 1),
    rests_on=(keys.CASE_METAL,),
    why="How much metal takes the push of the ring.",
)
OFFSET = Step(
    key=keys.RING_OFFSET,
    stage="size",
    kind="number",
    title="Middle of the ring above or below the middle of that metal",
    mask=Mask(1, 1, "mm", 0.0, 5.0),
    usual="0.0 mm",
    optional=True,
    why="A ring near the rim tilts the bezel open: it stretches more than under a centred ring.",
)
FRICTION = Step(
    key=keys.FRICTION,
    stage="size",
    kind="number",
    title="Friction of plastic on metal",
    mask=mask_for("friction", 1, 2),
    usual="0.20",
    optional=True,
    why="Press force follows friction; 0.10 to 0.25 is shown as a range.",
)
GLASS_THICKNESS = Step(
    key=keys.GLASS_THICKNESS,
    stage="size",
    kind="number",
    title="Glass: thickness at the centre",
    mask=mask_for("glass thickness", 1, 2),
    usual="not measured",
    optional=True,
    why="With material and thickness the stress under test can be set against the published design stress.",
)
AGAINST_OLD = Step(
    key=keys.GLASS_AGAINST_OLD,
    stage="size",
    kind="choice",
    title="New glass against the old one",
    choices=plain_choices(
        ("same", "same material and as thick"),
        ("lesser", "thinner, or other material"),
        (NOT_KNOWN, "not known"),
    ),
    usual=NOT_KNOWN,
    optional=True,
    why="A thinner glass or another material may not bear what the marking promised.",
)


def spares_step() -> Step:
    """How many spares are made."""
    by = length(TIGHTER_SPARE_MM)
    tighter = f"one the same, one with a bore {by} smaller, or one step of the lathe"
    return Step(
        key=keys.SPARES,
        stage="size",
        kind="choice",
        title="Spare rings from the same set-up",
        choices=plain_choices(("0", "none"), ("1", "one the same"), ("2", tighter)),
        usual="0",
        optional=True,
        why="A ring once pressed is not used again; a spare from the same set-up saves a second setting.",
    )


BORE = Step(
    key=keys.BORE_WANTED,
    stage="size",
    kind="number",
    title="Another bore for the ring",
    mask=Mask(2, 2, "mm", 3.0, 80.0),
    usual="as proposed",
    optional=True,
    rests_on=(keys.ATTEMPT,),
    why="Key a bore and see what changes before it is accepted.",
)
OUTSIDE = Step(
    key=keys.OUTSIDE_WANTED,
    stage="size",
    kind="number",
    title="Another outside diameter for the ring",
    mask=mask_for("outside", 2, 2),
    usual="as proposed",
    optional=True,
    rests_on=(keys.ATTEMPT,),
    why="Key an outside and see what changes before it is accepted.",
)
HEIGHT = Step(
    key=keys.HEIGHT_WANTED,
    stage="size",
    kind="number",
    title="Another height for the ring",
    mask=mask_for("height", 1, 2),
    usual="as proposed",
    optional=True,
    rests_on=(keys.ATTEMPT,),
    why="As on the old ring, where that is whole.",
)
SPRING_ANYWAY = Step(
    key=keys.ACRYLIC_ANYWAY,
    stage="size",
    kind="choice",
    title="An acrylic glass is normally held by its own spring. Make a plastic ring all the same?",
    choices=plain_choices(("no", "no"), ("anyway", "yes, all the same")),
    rests_on=(keys.GLASS_MATERIAL,),
    why="Acrylic creeps under the ring and cracks with solvents; no stress figure is given for it.",
)

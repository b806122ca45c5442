"""The choices of the sizing of a gasket, each with a usual value.

Invariant: every step here is optional.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.job.mask import Mask
from bench.job.read_by import read_with
from bench.job.steps import Choice, Step, Words
from bench.seals.gasket import own_keys
from bench.seals.gasket.kind import BEGIN
from rules.checks import span
from rules.gasket.materials import CUT, READY, RUBBER_SQUEEZE, TURNED, GasketMaterial, gasket_materials
from rules.measuring.instruments import SHEET, that_measure

if TYPE_CHECKING:
    from bench.shop.shop import Shop

AS_PROPOSED = "as proposed"
AS_SOLD = "as sold"
"""A sheet that was not measured."""
WAYS = {
    TURNED: "turned from bar, parted off and dressed flat",
    CUT: "cut from sheet",
    READY: "a new one taken from stock",
}
SAID = {TURNED: "turned", CUT: "cut from sheet", READY: "new from stock"}
"""The same in few words."""
RUBBER_WORKS = f"{span(*(100 * end for end in RUBBER_SQUEEZE))} %"
"""The squeezes that rubber works at."""
FOR_A_STOP, FOR_ALL = "nbr", "acetal"
"""What is usual where the parts meet, and where the gasket takes all."""


def material_step(shop: Shop, *, stopped: bool) -> Step:
    """What it is made of; rubber where a stop sets the squeeze, hard plastic where nothing does."""
    every = gasket_materials(shop.materials.get("plastics")).values()
    ordered = sorted(every, key=lambda one: one.rubber != stopped)
    return Step(
        key=own_keys.MATERIAL,
        stage="size",
        kind="choice",
        title="Material of the gasket",
        choices=tuple(Choice(one.key, said(one)) for one in ordered),
        usual=FOR_A_STOP if stopped else FOR_ALL,
        optional=True,
        rests_on=(own_keys.MEETS,),
        why=(
            f"Rubber is squeezed by {RUBBER_WORKS} and needs room to flow and a stop. Hard plastic is hardly "
            "squeezed at all: it wants pressure, so it is narrow and takes all the force."
        ),
    )


def said(one: GasketMaterial) -> str:
    """A material as it is offered."""
    if not one.rubber:
        return f"{one.name}, hard plastic"
    warmth = "" if one.warmth_c is None else f" {one.warmth_c[0]:.0f} to {one.warmth_c[1]:.0f} C."
    return f"{one.name}: {one.advice}{warmth}"


def way_step(material: GasketMaterial, ways: Words) -> Step:
    """How it comes about; rubber is cut, not turned."""
    return Step(
        key=own_keys.WAY,
        stage="size",
        kind="choice",
        title="How is the gasket made?",
        choices=tuple(Choice(way, WAYS[way]) for way in ways),
        usual=ways[0],
        optional=True,
        rests_on=(own_keys.MATERIAL,),
        why="What is turned can have any thickness, a sheet has the one it is sold in. Rubber is not turned."
        if not material.rubber
        else "Rubber is cut from sheet, or taken as a ready gasket; it is not turned.",
    )


THICKNESS = Step(
    key=own_keys.THICKNESS_WANTED,
    stage="size",
    kind="number",
    title="Another thickness for the gasket",
    mask=Mask(1, 2, "mm", 0.15, 5.0),
    chosen=True,
    usual=AS_PROPOSED,
    optional=True,
    rests_on=(BEGIN.attempt, own_keys.MATERIAL, own_keys.WAY),
    why="Key a thickness and see what changes before it is accepted.",
)
WIDTH = Step(
    key=own_keys.WIDTH_WANTED,
    stage="size",
    kind="number",
    title="Another width for the gasket, from inside to outside",
    mask=Mask(2, 2, "mm", 0.5, 20.0),
    chosen=True,
    usual=AS_PROPOSED,
    optional=True,
    rests_on=(BEGIN.attempt, own_keys.MATERIAL, own_keys.WAY),
    why="Key a width and see what changes before it is accepted.",
)
OF_SHEET = Step(
    key=own_keys.SHEET,
    stage="size",
    kind="number",
    title="The sheet or gasket that is there: thickness, measured",
    usual=AS_SOLD,
    optional=True,
    rests_on=(BEGIN.attempt, own_keys.MATERIAL, own_keys.WAY),
    why="Sheet differs by several per cent from what it is sold as: measured, the squeeze is known.",
    how=("Touch rubber lightly: the reading where it just begins to drag, at three places.",),
)


def sheet_step(shop: Shop) -> Step:
    """How thick the sheet is, as an instrument reads it."""
    tools = that_measure(SHEET, shop.instruments)
    asked = read_with(OF_SHEET, tools[0], tools, before=1, low_mm=0.15, high_mm=5.0)
    return replace(asked, usual=AS_SOLD)

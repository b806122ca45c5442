"""The choices of an O-ring, each with a usual value.

Invariant: every step here is optional.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from bench.job.mask import Mask
from bench.job.read_by import read_with
from bench.job.steps import Choice, Step
from bench.seals.oring import own_keys
from bench.seals.oring.kind import BEGIN
from bench.stages.common import plain_choices
from rules.instrument import Instrument
from rules.tables import Rubber, rubbers

NONE_THERE = "none there"
"""No ring was measured yet."""


def material_step() -> Step:
    """What it is made of."""
    known = [one for one in rubbers().values() if one.set_part is not None and one.cte_per_k is not None]
    return Step(
        key=own_keys.MATERIAL,
        stage="size",
        kind="choice",
        title="Rubber of the O-ring",
        choices=tuple(Choice(one.key, said(one)) for one in known),
        usual=known[0].key,
        optional=True,
        why="It decides what years and cold leave of the squeeze, and which grease may touch it.",
    )


def said(one: Rubber) -> str:
    """A rubber as it is offered: what it is for, what it bears, how warm and cold."""
    warm = "" if one.coldest_c is None else f" {one.coldest_c:.0f} to {one.warmest_c:.0f} C."
    bears = f" Bears {one.fluids}" if one.fluids else ""
    return f"{one.name}: {one.advice}{bears}{warm}"


def greased_with(one: Rubber | None) -> str:
    """The grease that a rubber takes.

    >>> greased_with(rubbers()["vmq"])
    'grease without silicone'
    """
    if one is None:
        return "a grease that its rubber bears"
    grease = "silicone grease" if one.silicone_grease else "grease without silicone"
    return grease if one.mineral_grease else f"{grease}, nothing mineral"


def grease_rules() -> str:
    """What never touches which rubber, of all in the table."""
    every = rubbers().values()
    silicone = " and ".join(one.name for one in every if not one.silicone_grease)
    mineral = " and ".join(one.name for one in every if not one.mineral_grease)
    return f"No silicone grease on {silicone}; no mineral grease, oil or benzine on {mineral}."


STEP = Step(
    key=own_keys.STEP,
    stage="size",
    kind="choice",
    title="In which steps are cords to be had?",
    choices=plain_choices(("0.05", "0.05 mm"), ("0.10", "0.10 mm")),
    usual="0.05",
    optional=True,
    why="Cords of 0.30 to 1.00 mm come in steps of 0.05 or of 0.10.",
)
_HAND_CORD = Step(
    key=own_keys.HAND_CORD,
    stage="size",
    kind="number",
    title="A new ring that is there: its cord, measured",
    usual=NONE_THERE,
    optional=True,
    rests_on=(BEGIN.attempt,),
    why="Measured, it is known better than by any standard; the chance says so.",
    how=(
        "Rubber gives: the reading where the anvil just begins to drag, at three places.",
        "A new one: an old ring has set and is not used again.",
    ),
)


def hand_cord_step(tools: Sequence[Instrument]) -> Step:
    """The cord of a ring that is there, as an instrument reads it."""
    asked = read_with(_HAND_CORD, tools[0], tools, before=1, low_mm=0.2, high_mm=2.0)
    return replace(asked, usual=NONE_THERE)


HAND_INSIDE = Step(
    key=own_keys.HAND_INSIDE,
    stage="size",
    kind="number",
    title="That ring: inside diameter, lying free",
    mask=Mask(2, 2, "mm", 0.4, 60.0),
    rests_on=(own_keys.HAND_CORD,),
    why="It decides how far it is stretched, and with that how thin its cord gets.",
    how=("On a tapered pin where it just begins to be stretched, or as the calliper shows it lying flat.",),
)

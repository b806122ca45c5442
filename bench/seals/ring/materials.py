"""What ring, metal and glass are made of: asked out of the tables with the shop's own entries.

Invariant: each has a usual value; not known is one of the choices where the sizing can do without.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.steps import Choice, Step
from rules.tables import Glass, Metal, Plastic, glasses, metals, plastics

if TYPE_CHECKING:
    from bench.shop.shop import Shop

NOT_KNOWN = "not_known"
"""The word of what nobody could say."""


def of_table(
    key: str,
    stage: str,
    title: str,
    table: Mapping[str, Plastic | Metal | Glass],
    usual: str,
    *,
    why: str,
    how: tuple[str, ...] = (),
    cautions: tuple[str, ...] = (),
) -> Step:
    """One entry of a table; not known is a choice where it is the usual one."""
    unknown = [Choice(NOT_KNOWN, "not known")] if usual == NOT_KNOWN else []
    return Step(
        key=key,
        stage=stage,
        kind="choice",
        title=title,
        choices=(*unknown, *(Choice(name, f"{item.name}: {item.advice}") for name, item in table.items())),
        usual=usual,
        optional=True,
        cautions=cautions,
        why=why,
        how=how,
    )


def glass_step(shop: Shop) -> Step:
    """What the glass is made of."""
    return of_table(
        keys.GLASS_MATERIAL,
        "measure",
        "Glass is made of",
        glasses(shop.materials.get("glasses")),
        NOT_KNOWN,
        why="A ground glass is round, acrylic gives to the jaws; "
        "stiffness enters the squeeze, strength the advice before a test.",
    )


def plastic_step(shop: Shop) -> Step:
    """Which plastic; the shop's own beside those of the table."""
    return of_table(
        keys.PLASTIC,
        "size",
        "Plastic of the ring",
        plastics(shop.materials.get("plastics")),
        "acetal",
        cautions=("acetal_heat", "ptfe"),
        why="It decides how hard the ring presses, how much of it is left in ten years, and how it turns.",
        how=("The bar's colour shows round the glass.", "Nylon bar is mostly PA 6 or PA 66, and swells."),
    )


def metal_step(shop: Shop) -> Step:
    """Which metal lies round the ring."""
    return of_table(
        keys.CASE_METAL,
        "size",
        "Metal round the ring",
        metals(shop.materials.get("metals")),
        NOT_KNOWN,
        why="Only with metal, wall and height known can force, stress and the years be worked out.",
    )

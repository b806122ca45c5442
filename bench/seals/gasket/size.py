"""Stage two of a flat gasket: proposed from its room, its consequences said, and accepted.

Invariant: what is accepted is written whole, so that nothing later depends on computing it again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.asking import Stage, word, words
from bench.job.job import Job
from bench.job.steps import Choice, Step, Words
from bench.job.values import figure_if
from bench.seals.gasket import own_keys
from bench.seals.gasket.decided import GasketDecided, sizes_from
from bench.seals.gasket.kind import BEGIN
from bench.seals.gasket.known import sized
from bench.seals.gasket.measure import RoomMeasured
from bench.seals.gasket.size_steps import (
    AS_PROPOSED,
    AS_SOLD,
    THICKNESS,
    WIDTH,
    material_step,
    sheet_step,
    way_step,
)
from bench.seals.gasket.size_words import gasket_step
from rules.checks import OutOfRange
from rules.gasket.materials import TURNED, GasketMaterial, gasket_materials
from rules.gasket.room import GasketQuestion
from rules.lengths import translated

if TYPE_CHECKING:
    from bench.shop.shop import Shop

CHOSEN = (
    own_keys.MATERIAL,
    own_keys.WAY,
    own_keys.SHEET,
    own_keys.THICKNESS_WANTED,
    own_keys.WIDTH_WANTED,
)
"""Answers of this stage that an accepted gasket rests on."""


def size(job: Job, shop: Shop, measured: RoomMeasured) -> Stage[GasketDecided | None]:
    """Propose a gasket until one is accepted; None where none fits."""
    key = yield from word(material_step(shop, stopped=measured.room.stopped))
    material = gasket_materials(shop.materials.get("plastics"))[key]
    way = yield from word(way_step(material, material.ways))
    thick = yield from figure_if(THICKNESS, AS_PROPOSED)
    sheet = None if way == TURNED else (yield from figure_if(sheet_step(shop), AS_SOLD))
    question = GasketQuestion(
        room=measured.room,
        drive=measured.drive,
        material=material,
        way=way,
        thick_mm=thick if sheet is None else sheet,
        measured=sheet is not None,
        width_mm=(yield from figure_if(WIDTH, AS_PROPOSED)),
    )
    rests = (*measured.keys, *CHOSEN, BEGIN.attempt, BEGIN.measured)
    try:
        sizing = sized(question)
    except OutOfRange as reason:
        yield from word(none_fits(str(reason), material, rests))
        return None
    kept = yield from words(gasket_step(job, measured, sizing, rests))
    return GasketDecided(sizes_from(kept), question, measured.joint, kept)


def none_fits(reason: str, material: GasketMaterial, rests: Words) -> Step:
    """Why none can be proposed."""
    return Step(
        key=own_keys.NONE_FITS,
        stage="size",
        kind="result",
        title="No gasket can be proposed for this room.",
        say=(
            translated(reason),
            f"It is for {material.name}. Go back with / and measure again, or choose another from the list.",
        ),
        choices=(
            Choice("keep", "keep the job as it is", goto="jobs"),
            Choice("width", "another width", goto=own_keys.WIDTH_WANTED),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=rests,
        waits_for="other measurements",
        why="A gasket that is forced in, or is too narrow to cut, does not seal.",
    )

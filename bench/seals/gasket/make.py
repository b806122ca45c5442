"""Stage three of a flat gasket: turned, cut from sheet, or a new one taken from stock.

Invariant: what is done follows from the sizes that were accepted; an old gasket is never used again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.job.asking import Stage, word
from bench.job.job import Job
from bench.job.steps import Choice, Step
from bench.seals.gasket import own_keys
from bench.seals.gasket.decided import GasketDecided
from bench.seals.gasket.fit_steps import WIDTH_OFF_MM
from bench.seals.gasket.kind import BASE
from bench.seals.gasket.turn import turned
from rules.gasket.materials import CUT, TURNED
from rules.gasket.room import GasketSizes
from rules.lengths import bare, length, short

if TYPE_CHECKING:
    from bench.shop.shop import Shop

HELD_ON_THE_BENCH = "On a hard board or end grain, with a new edge; square to the sheet."


def made(job: Job, shop: Shop, decided: GasketDecided) -> Stage[GasketDecided | None]:
    """The gasket as it comes about; None where another is begun."""
    if decided.question.way == TURNED:
        return (yield from turned(job, shop, decided))
    step = cut_step if decided.question.way == CUT else taken_step
    yield from word(step(decided))
    return decided


def sizes_said(one: GasketSizes) -> str:
    """The sizes as they are gone by."""
    return (
        f"outside {bare(one.outside_mm)}, inside {bare(one.inside_mm)}, thick {bare(one.thick_mm)} {short()}"
    )


def cut_step(decided: GasketDecided) -> Step:
    """Cut with punches, or with a knife in a pair of compasses."""
    one = decided.sizes
    return Step(
        key=own_keys.CUT_OUT,
        stage="cut",
        kind="action",
        title=f"Cut the gasket: {sizes_said(one)}",
        say=(
            "Sheet clean, flat and new: no crease, no printed side.",
            f"Inside first, {length(one.inside_mm)}; round its middle then outside, {bare(one.outside_mm)}.",
            HELD_ON_THE_BENCH,
            "Rubber: press straight down, or it is wider below. Plastic: no burr left, no scraped face.",
            "Grit, hair and talc off; both faces under the loupe.",
        ),
        choices=(Choice("done", "cut, clean, whole under the loupe"),),
        rests_on=BASE,
        cautions=("knife",),
        waits_for="a gasket to be cut",
        why="Cut from the inside out the sheet holds itself; a nick across the face is a way for water.",
    )


def taken_step(decided: GasketDecided) -> Step:
    """A new one from stock: what to look for."""
    one = decided.sizes
    width = f"width {bare(one.width_mm)} within {bare(WIDTH_OFF_MM)}"
    return Step(
        key=own_keys.TAKEN,
        stage="cut",
        kind="action",
        title=f"Take a new gasket: {sizes_said(one)}",
        say=(
            f"Thickness decides: {length(one.thick_mm)} as nearly as there is; {width}.",
            f"Inside no smaller than {length(one.inside_mm)}: rubber is not stretched over its wall.",
            "New and soft: no crease, no print, no crack when bent. An old one has set and is not used.",
            "Is there another thickness: measure it, and key it at the gasket that was accepted.",
        ),
        choices=(
            Choice("done", "taken, whole under the loupe"),
            Choice("other", "another thickness: key it", goto=own_keys.SHEET),
        ),
        rests_on=BASE,
        waits_for="a gasket from stock",
        why="A gasket from stock is judged by what it measures, not by what its bag says.",
    )

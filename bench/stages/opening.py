"""Before anything is measured: what the bag says, and old luminous paint.

Invariant: the same for every kind of seal; a watch with old paint goes on only when the person says so.
"""

from __future__ import annotations

from bench.file.slug import NUMBER_LIMIT
from bench.job import keys
from bench.job.asking import Stage, word
from bench.job.mask import Mask
from bench.job.other_jobs import LINKED, NO_LINK
from bench.job.steps import Step
from bench.languages import LANGUAGES
from bench.stages.common import plain_choices

WATCH = Step(
    key=keys.WATCH,
    stage="measure",
    kind="text",
    title="Watch: what the bag says",
    optional=True,
    why="So that one job is not taken for another, in the list and on the sheet.",
)
REMARK = Step(
    key=keys.REMARK,
    stage="measure",
    kind="text",
    title="Remark for the sheet",
    optional=True,
    why="Anything the next person should know.",
)
AS_THE_SHOP = "as_the_shop"
PAPERS_IN = Step(
    key=keys.PAPERS_IN,
    stage="measure",
    kind="choice",
    title="Language of the customer's papers",
    choices=plain_choices(
        (AS_THE_SHOP, "that of the workshop"),
        *((one.word, one.known_as) for one in LANGUAGES.values()),
    ),
    optional=True,
    usual=AS_THE_SHOP,
    why="For a customer who reads another language. The workshop's sheet stays in English.",
)
LINK = Step(
    key=LINKED,
    stage="measure",
    kind="number",
    title="Another job of the same owner: its number",
    mask=Mask(9, 0, "", 1, NUMBER_LIMIT - 1),
    usual=NO_LINK,
    optional=True,
    why="Another watch, so that both are handed back together, or another seal of this one, which is then "
    "offered at casing. It stands on the page of the job, in the list and on the workshop's sheet; nobody's "
    "name is asked for.",
    how=("Job 1 is keyed as 01.",),
)
PAINT = Step(
    key=keys.PAINT,
    stage="measure",
    kind="choice",
    title="Through the glass, case still shut: old luminous paint on dial or hands?",
    choices=plain_choices(
        ("none", "none, or made after about 1980"),
        ("old", "old luminous paint"),
        ("unknown", "not known, or in doubt"),
    ),
    why="Old luminous paint may hold radium. Its dust must not be breathed, swallowed or carried home.",
)
PAINT_GO = Step(
    key=keys.PAINT_GO,
    stage="measure",
    kind="choice",
    title="Stop here, or go on with care?",
    choices=plain_choices(
        ("stop", "stop: pass it to someone equipped for it"), ("go", "go on, with these cautions")
    ),
    rests_on=(keys.PAINT,),
    cautions=("luminous_paint",),
    why="Local rules decide who may work on it and how. This program only reminds.",
)


def opened() -> Stage[str]:
    """What stands on the papers, then the paint: none, old or unknown; `stopped` when the repairer does not
    go on.
    """
    for step in (WATCH, REMARK, PAPERS_IN, LINK):
        yield from word(step)
    paint = yield from word(PAINT)
    if paint == "none":
        return paint
    go = yield from word(PAINT_GO)
    return paint if go == "go" else "stopped"

"""The gasket measured, sized, cut and laid in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.corrections import HOME, KEYED_WRONG, to_ask
from bench.job.job import Answer, Job
from bench.job.mask import Mask
from bench.job.steps import Choice, Gauge, Step, Words
from bench.job.values import figure, named, number
from bench.seals.seal import Fitted
from bench.stages.common import plain_choices
from bench.stages.correcting import correction_step
from bench.version import MADE_BY
from rules.sizing.squeeze import USUAL_BAND
from tests.seals.flat_gasket import kind

if TYPE_CHECKING:
    from bench.shop.shop import Shop

AFRESH = (keys.MEASURE_AGAIN,)
LEAST_WIDTH_MM = 0.5
"""A narrower gasket tears while it is cut (own judgement)."""
AIM_PCT = (USUAL_BAND.low_pct + USUAL_BAND.high_pct) / 2


@dataclass(frozen=True, slots=True)
class Groove:
    """The place in which the gasket lies, mm."""

    outside_mm: float
    inside_mm: float
    depth_mm: float

    def thickness_mm(self, squeeze_pct: float) -> float:
        """The thickness that is squeezed so far down to the depth of the groove."""
        return self.depth_mm / (1 - squeeze_pct / 100)


def asked(key: str, title: str, low: float, high: float) -> Step:
    """One figure of the groove."""
    mask = Mask(2, 2, "mm", low, high)
    why = "The gasket fills the groove across and is squeezed by its depth."
    return Step(key=key, stage="measure", kind="number", title=title, mask=mask, rests_on=AFRESH, why=why)


def measured(job: Job, shop: Shop) -> Stage[Groove | None]:
    """Outside, inside and depth of the groove."""
    outside = yield from figure(asked(kind.OUTSIDE, "Outside of the groove", 5.0, 80.0))
    inside = yield from figure(asked(kind.INSIDE, "Inside of the groove", 4.0, outside))
    depth = yield from figure(asked(kind.DEPTH, "Depth of the groove", 0.2, 3.0))
    return Groove(outside, inside, depth)


def sized(job: Job, shop: Shop, groove: Groove) -> Stage[Answer | None]:
    """A thickness, proposed and accepted."""
    width = (groove.outside_mm - groove.inside_mm) / 2
    if width < LEAST_WIDTH_MM:
        yield from word(none_fits(width))
        return None
    wanted = yield from word(
        Step(
            key=kind.WANTED,
            stage="size",
            kind="number",
            title="Thickness of the gasket, as wanted",
            mask=Mask(1, 2, "mm", 0.2, 3.5),
            usual="as proposed",
            optional=True,
            rests_on=kind.MEASURED,
            why="For a sheet of another thickness.",
        )
    )
    proposed = groove.thickness_mm(AIM_PCT)
    thick = round(proposed if wanted == "as proposed" else number(wanted), 2)
    accepted = yield accept_step(groove, thick)
    return accepted


def none_fits(width_mm: float) -> Step:
    """The groove is too narrow."""
    return Step(
        key=kind.NONE,
        stage="size",
        kind="result",
        title="No gasket fits this groove.",
        say=(f"It would be {width_mm:.2f} mm wide and tear: {LEAST_WIDTH_MM:g} mm is the least.",),
        choices=(
            Choice("keep", "leave it for now", goto="jobs"),
            Choice("closed", "close the job, with this reason"),
        ),
        rests_on=kind.MEASURED,
    )


def accept_step(groove: Groove, thick_mm: float) -> Step:
    """The gasket as proposed, with what is decided with it."""
    squeeze = 100 * (1 - groove.depth_mm / thick_mm)
    decided = (
        f"outside {groove.outside_mm:.2f} mm",
        f"inside {groove.inside_mm:.2f} mm",
        f"depth {groove.depth_mm:.2f} mm",
        f"thickness {thick_mm:.2f} mm",
        f"squeeze {squeeze:.1f} %",
        f"by {MADE_BY}",
    )
    works = "works" if USUAL_BAND.low_pct <= squeeze <= USUAL_BAND.high_pct else "outside what works"
    return Step(
        key=kind.ACCEPTED,
        stage="size",
        kind="result",
        title=f"Gasket {thick_mm:.2f} mm thick: squeeze {squeeze:.1f} %, {works}",
        choices=(Choice("accept", "make it", with_it=decided), Choice("other", "another", goto=kind.WANTED)),
        rests_on=(*kind.MEASURED, kind.WANTED, keys.ATTEMPT, keys.MEASURE_AGAIN),
        why=f"Hard plastic wants {USUAL_BAND.low_pct:g} to {USUAL_BAND.high_pct:g} % (own judgement).",
    )


def made(job: Job, shop: Shop, accepted: Answer) -> Stage[Answer | None]:
    """Cut from sheet: nothing turns."""
    yield from word(
        Step(
            key=kind.CUT,
            stage="cut",
            kind="action",
            title="Cut the gasket from sheet",
            say=("Inside first, then outside. Cut away from the hand.",),
            choices=(Choice("done", "cut"),),
            rests_on=kind.BASE,
            waits_for="a gasket to be cut",
        )
    )
    return accepted


def fitted(job: Job, shop: Shop, accepted: Answer) -> Stage[Fitted | None]:
    """Measured as cut, and laid in; None when another is begun or the job ends."""
    thick = yield from figure(made_step(accepted.words))
    said = job.newest(kind.CORRECTED)
    again = (kind.CORRECTED,) if said and said.word == KEYED_WRONG else ()
    laid = yield from words(laid_step(accepted.words, thick, again))
    if course := to_ask(job, kind.FITTING):
        yield from word(correction_step(kind.FITTING, course, "another gasket was laid in"))
        yield from word(kind.AGAIN.another)
        return None
    if laid[0] == HOME:
        return Fitted(since=laid[1])
    after = yield from word(
        Step(
            key=kind.AFTER,
            stage="verify",
            kind="result",
            title="Not accepted: what next?",
            choices=plain_choices(
                ("gasket", "another gasket"), ("measure", "measure again"), ("hand_back", "hand back")
            ),
            rests_on=(kind.LAID,),
            waits_for="another gasket",
        )
    )
    if after == "measure":
        yield from word(kind.AGAIN.measured)
    if after != "hand_back":
        yield from word(kind.AGAIN.another)
    return None


def made_step(decided: Words) -> Step:
    """The thickness as cut."""
    depth, thick = named(decided, "depth") or 0.0, named(decided, "thickness") or 0.0
    low, high = (depth / (1 - pct / 100) for pct in (USUAL_BAND.low_pct, USUAL_BAND.high_pct))
    return Step(
        key=kind.MADE,
        stage="verify",
        kind="number",
        title="Thickness of the gasket as cut",
        mask=Mask(1, 2, "mm", 0.1, 4.0),
        gauge=Gauge(low, high, thick, ("loose", "works", "tight")),
        rests_on=(*kind.BASE, kind.CUT),
    )


def laid_step(decided: Words, thick_mm: float, again: Words) -> Step:
    """What came of laying it in."""
    squeeze = 100 * (1 - (named(decided, "depth") or 0.0) / thick_mm)
    kept = (f"made {thick_mm:.2f} mm", f"squeeze {squeeze:.1f} %")
    return Step(
        key=kind.LAID,
        stage="verify",
        kind="choice",
        title="The gasket is laid in and the glass is closed: what happened?",
        choices=(
            Choice(HOME, "level all round", with_it=kept, stamp=True),
            Choice("proud", "the glass stands proud", with_it=kept),
            Choice("torn", "the gasket tore", with_it=kept),
        ),
        rests_on=(*kind.BASE, kind.MADE, *again),
    )

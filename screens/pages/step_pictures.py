"""The drawn parts of the page of one step: the scale under the answer, the picture beside the words.

Invariant: what a picture shows comes from the step and the typed text alone.
"""

from __future__ import annotations

from bench.desk.answering import mask_of
from bench.desk.desk import Desk
from bench.job.mask import Mask
from bench.job.steps import Step
from rules.lengths import INCH, INCH_PLACES, MM, short, spoken
from screens import pictures
from screens.layout import Line, clipped, line
from screens.look import Look

WIDE = 76
"""From this width on the picture stands beside the words."""
PLACES = {MM: 2, INCH: INCH_PLACES[2]}
"""Decimals of a size where no instrument says them."""
PICTURES = (((100, 30), (48, 16)), ((0, 0), (32, 9)))
"""From which window on a picture beside the words has how many columns and rows."""


def gauge(desk: Desk, step: Step, look: Look) -> list[Line]:
    """The limits, the target and the typed number, each as a line as long as it is."""
    given = step.gauge
    if given is None or not given.drawn or given.low == given.high:
        return []
    mask = mask_of(step)
    drawn = pictures.limit_lines(
        low=given.low,
        high=given.high,
        target=given.target,
        half_width=given.half_width,
        value=typed_value(desk, mask) if mask else None,
        unit=mask.unit if mask else short(),
        decimals=mask.decimals if mask else PLACES[spoken()],
        words=given.words,
        columns=min(desk.columns - 4, 70),
        style=look.figures,
    )
    return [line(""), *(line(f"  {row}".rstrip(), "picture") for row in drawn)]


def short_gauge(step: Step, columns: int) -> list[Line]:
    """The band and the target in words, where there is no room for the scale."""
    given, mask = step.gauge, step.mask
    if given is None or not given.drawn or given.low == given.high or mask is None:
        return []
    low, high = (f"{end:.{mask.decimals}f}" for end in (given.low, given.high))
    aim = f", target {given.target:.{mask.decimals}f}" if given.target is not None else ""
    return [line(clipped(f"  {given.words[1]}: {low} to {high}{aim}", columns))]


def typed_value(desk: Desk, mask: Mask) -> float | None:
    """The number typed so far if it is complete, else None."""
    text = mask.pointed(desk.line.text)
    if mask.decimals and len(text.partition(".")[2]) != mask.decimals:
        return None
    try:
        return float(text)
    except ValueError:
        return None


def picture_lines(step: Step, desk: Desk, look: Look) -> list[str]:
    """The picture that belongs to the step, drawn for the room at the right."""
    if step.picture is None or desk.columns < WIDE or desk.rows < 18:
        return []
    fitting = (size for (wide, high), size in PICTURES if desk.columns >= wide and desk.rows >= high)
    columns, rows = next(fitting)
    return pictures.drawn(step.picture, columns=columns, rows=rows, style=look.style)

"""Values read back from the words of an answer, and asked for as what they are.

Invariant: words in a file are read here and nowhere else;
a length comes back in mm, whatever it was keyed in.
"""

from __future__ import annotations

from bench.job.asking import Stage
from bench.job.kept import UNKNOWN
from bench.job.mask import Mask
from bench.job.steps import Step, Words
from rules.limits import MM_PER_INCH, RANGES

AS_BEFORE = "as before"
"""What a late correction is until the person gives one."""


def number(text: str) -> float:
    """The number in a value kept with its unit, lengths in mm; raises ValueError where there is none."""
    figure, _, unit = text.partition(" ")
    return float(figure) * (MM_PER_INCH if unit == "in" else 1.0)


def mask_for(quantity: str, before: int, decimals: int) -> Mask:
    """How a quantity with a range in `rules.limits` is keyed."""
    low, high, unit = RANGES[quantity]
    return Mask(before, decimals, unit, low, high)


def named_text(words: Words, name: str) -> str:
    """The text kept under a name in decided words; empty where it is not there."""
    return next((item.partition(" ")[2] for item in words if item.partition(" ")[0] == name), "")


def named(words: Words, name: str) -> float | None:
    """The number kept under a name in decided words such as `bore 32.04 mm`; None where it is not known."""
    text = named_text(words, name)
    return None if text in ("", UNKNOWN) else number(text)


def several(words: Words, name: str) -> tuple[float, ...]:
    """The numbers kept under a name, such as `walls 0.612 0.615 mm`; none where it is not there."""
    return tuple(float(figure) for figure in named_text(words, name).removesuffix(" mm").split())


def figure(step: Step) -> Stage[float]:
    """Ask one step and give the number of its answer, lengths in mm."""
    return number((yield step).word)


def figure_if(step: Step, without: str) -> Stage[float | None]:
    """The same for a step that may be answered by a word that says it is not known; None then."""
    answer = yield step
    return None if answer.word == without else number(answer.word)

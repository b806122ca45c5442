"""What a number that does not fit may be: read with another instrument, or large for a watch. It is asked.

Invariant: nothing is taken by being keyed once; 1 Enter takes an offer, anything else withdraws it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bench.desk.desk import Desk

if TYPE_CHECKING:
    from bench.desk.pages import Outcome
    from bench.job.mask import Mask
    from bench.job.number import TypedNumber
    from bench.job.steps import ReadBy, Step, Words

TAKES = "1"
"""What is keyed, with Enter, to take an offer."""
UNUSUAL_MM = 60.0
"""A diameter in inch over this, keyed without its point, is asked about: in mm it would be an ordinary one
(own judgement).
"""


@dataclass(frozen=True, slots=True)
class ReadingOffer:
    """What may have been meant."""

    asked: tuple[object, ...]
    """What was asked then: for anything else it does not stand."""
    words: Words
    """What is kept where it is taken."""
    said: str
    """How it is asked, such as "read by micrometer?"."""

    @property
    def takes(self) -> str:
        """How it is taken."""
        return f"{TAKES} Enter takes {', '.join(self.words)}"

    @property
    def line(self) -> str:
        """What is asked, and how it is taken."""
        return f"{self.said} {TAKES} Enter takes {self.words[0]}"


def still_offered(desk: Desk) -> Desk:
    """The desk with its offer, while nothing else is keyed than what takes it."""
    return desk if desk.offer is None or desk.line.text in ("", TAKES) else replace(desk, offer=None)


def is_taken(desk: Desk) -> bool:
    """Whether Enter now takes the offer: no gauge sends a lone 1."""
    return desk.offered is not None and desk.line.text == TAKES


def by_another(text: str, step: Step, *, inch: bool) -> tuple[ReadBy, TypedNumber] | None:
    """The further instrument of which a text is a reading, to the digit; None where it is of none."""
    from bench.job.number import TypedNumber, read_number

    for one in step.by[1:]:
        read = read_number(text, one.mask, inch=inch)
        if isinstance(read, TypedNumber) and not read.converted:
            return one, read
    return None


def looks_like_mm(text: str, mask: Mask, value: float) -> str:
    """The mm that the digits of a large diameter in inch would be, had they come without their point; empty
    where nothing speaks for that.
    """
    if mask.unit != "in" or "." in text:
        return ""
    from rules.lengths import in_unit

    if value <= in_unit(UNUSUAL_MM, mask.unit):
        return ""
    digits = text.strip()
    return f"{digits[:2]}.{digits[2:]}"


def offered(desk: Desk, words: Words, said: str, *, first: str = "") -> Outcome:
    """The desk with an offer; `first` is said before it."""
    from bench.desk.pages import say

    offer = ReadingOffer(desk.asked, words, said)
    shown, effects = say(desk, f"{first}{offer.line}")
    return replace(shown, offer=offer), effects

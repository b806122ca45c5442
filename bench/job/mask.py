"""How a number is keyed: its fixed digits, its unit, and the range that is physically possible.

Invariant: a text over a mask says digit by digit what is still to be keyed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

LENGTHS = ("mm", "in")
"""Units of a mask that asks for a length."""


@dataclass(frozen=True, slots=True)
class Mask:
    """The digits that an instrument shows."""

    before: int
    """Digits before the point."""
    decimals: int
    """Digits after the point; 0 for a whole number, which may then be shorter than `before`."""
    unit: str = "mm"
    """Unit shown beside the value and kept in the file."""
    low: float = 0.0
    """Smallest possible value, in `unit`."""
    high: float = float("inf")
    """Largest possible value, in `unit`."""
    nought: bool = False
    """Whether a bare 0 says that there is none of it."""
    fewer: bool = False
    """Whether fewer decimals are enough, with their point: for what is no reading of an instrument."""

    @property
    def shown(self) -> str:
        """The empty digits, such as "__.__"."""
        return "_" * self.before + ("." + "_" * self.decimals if self.decimals else "")

    def over(self, text: str) -> str:
        """The typed text laid over the mask: "36" is "36.__", "7.5" is "7.5_", "364" is "36.4_"."""
        if not text or not self.decimals or not re.fullmatch(r"[0-9]*\.?[0-9]*", text):
            return text or self.shown
        if "." in text:
            return text + "_" * (self.decimals - len(text.partition(".")[2]))
        if len(text) > self.before + self.decimals:
            return text
        return self.pointed(text + "_" * (self.before + self.decimals - len(text)))

    def pointed(self, digits: str) -> str:
        """The point set into all the digits keyed without it; other text as it is."""
        if not self.decimals or "." in digits or len(digits) != self.before + self.decimals:
            return digits
        return f"{digits[: self.before]}.{digits[self.before :]}"

    def in_inch(self, decimals: int | None = None) -> Mask:
        """The same length keyed in inch: one digit before the point, as none here is ten inches long."""
        from rules.lengths import INCH, INCH_PLACES, SHORT, in_unit

        places = INCH_PLACES[self.decimals] if decimals is None else decimals
        low, high = (in_unit(end, INCH) for end in (self.low, self.high))
        return replace(self, before=1, decimals=places, unit=SHORT[INCH], low=low, high=high)

"""What cross slide and carriage show when the work has a given size: read-out or dial, as a sentence.

Invariant: one grid for each tool and surface, fixed when the tool is touched off, so that a target is always
a whole number of the slide's own steps. Diameters and lengths in mm.

A read-out that grows outward is set to the diameter itself. Every other slide is set to zero
where the tool touches off, and a target is the travel from there in the cutting direction:
inward outside, outward in a bore. A dial is read in turns and divisions of that travel, always in both;
where it is turned against its figures, in those turns and what then stands at its mark.

Every target is one sentence, "WHAT: go to FIGURE, WHICH".
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from rules.equipment import Axis
from rules.lengths import INCH, MM, length, spoken
from rules.limits import MM_PER_INCH

CARRIAGE_ZERO = "carriage to zero"
"""Where the carriage counts from."""
OUTSIDE = "outside"
BORE = "bore"
AS_COUNTED = re.compile(r"[\d.]+ div")


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossFrame:
    """How the cross slide's figures go together with the diameter of one surface, for one tool."""

    axis: Axis
    surface: str
    """Either "outside" or "bore"."""
    zero_diameter_mm: float
    """Diameter of the surface on which the tool was touched off."""
    offset_mm: float = 0.0
    """The tool's own offset: how much larger it cuts than the figure shown, on the diameter;
    from a reading on the work.
    """

    @property
    def is_absolute(self) -> bool:
        """True when the figure shown is the diameter (or radius) itself."""
        return not self.axis.is_dial and self.axis.direction == "outward"

    @property
    def shows(self) -> str:
        """The word of the plan: diameter, radius or dial."""
        return "dial" if self.axis.is_dial else self.axis.shows

    @property
    def step_on_diameter_mm(self) -> float:
        """One settable step, on the diameter."""
        return self.axis.step_on_diameter_mm

    def steps_at(self, diameter_mm: float) -> int:
        """The whole number of steps whose work diameter lies nearest to this one."""
        origin, sense = self._origin_and_sense()
        return round((diameter_mm - origin) / (sense * self.step_on_diameter_mm))

    @property
    def cut_sense(self) -> int:
        """+1 when the count of steps grows as the tool cuts deeper, else -1."""
        if not self.is_absolute:
            return 1
        return -1 if self.surface == OUTSIDE else 1

    def diameter_at(self, steps: int) -> float:
        """Work diameter that a number of steps leaves, with the tool's offset."""
        origin, sense = self._origin_and_sense()
        return round(origin + sense * steps * self.step_on_diameter_mm, 6)

    def shown_at(self, steps: int) -> float:
        """The figure in the display's own millimetres."""
        return round(steps * self.axis.step_mm, 6)

    def sentence(self, steps: int, name: str) -> str:
        """The target as a sentence such as "outside: go to 33.00, diameter".

        Beside a figure that is not the size itself stands the diameter that it makes.
        """
        said, makes = (
            f"{name}: go to {self.figure_at(steps)}",
            f"makes {size(self.axis, self.diameter_at(steps))}",
        )
        if self.axis.is_dial:
            return f"{said}, {makes}"
        return (
            f"{said}, {self.axis.shows}"
            if self.is_absolute
            else f"{said} from zero, {self.axis.shows}, {makes}"
        )

    def figure_at(self, steps: int) -> str:
        """The bare figure as it is read: "33.00", "3 turns 12 div"; against a dial "3 turns 28 dial"."""
        shown = self.shown_at(steps)
        if self.axis.is_dial:
            counted = divisions_words(self.axis, shown)
            against = self._counts_down and self.axis.divisions_per_turn
            return AS_COUNTED.sub(f"{self._stands_at(steps)} dial", counted) if against else counted
        signed = shown if self.is_absolute or self.surface == OUTSIDE else -shown
        return figure(self.axis, signed)

    def touch_words(
        self, diameter_mm: float, again: bool, where: str = "", touched_mm: float | None = None
    ) -> str:
        """How the tool is set on a surface of this diameter; `where` on it, if that matters, and what it
        measures there, where the edge that counts stands elsewhere.
        """
        at_zero = not self.is_absolute and abs(diameter_mm - self.zero_diameter_mm) < 1e-9
        steps = 0 if at_zero else self.steps_at(diameter_mm)
        there = size(self.axis, diameter_mm if touched_mm is None else touched_mm)
        touch = f"touch off on the {self.surface}{where} ({there})"
        if self.axis.is_dial:
            turn = self.axis.divisions_per_turn
            counts = self._counts + (f" from {turn}" if turn and self._counts_down else "")
            counted = "" if steps == 0 else f", counted as {self.figure_at(steps)}"
            set_to = f"dial to {self._stands_at(steps)}{counted}"
            return f"{touch}, moving {self._way}: {set_to}; turned {self._way} it counts {counts}"
        to = f"{self.figure_at(steps)}, {self.axis.shows}"
        if not self.is_absolute and steps == 0:
            to = "0"
        verb = "the read-out must show" if again else "set the read-out to"
        more = "; if not, set it" if again else ""
        return f"{touch}: {verb} {to}{more}"

    def backlash_words(self) -> str:
        """How backlash is taken up; empty when there is none to speak of."""
        if self.axis.backlash_mm <= 0.0 and not self.axis.is_dial:
            return ""
        away = "out" if self._way == "in" else "in"
        over = "by more than the backlash"
        if self.axis.backlash_mm > 0.0:
            over = f"by over {length(self.axis.backlash_mm, 2, self.axis.unit)}"
        counting = f", the dial counting {self._counts}" if self.axis.is_dial else ""
        return (
            f"come to every figure moving {self._way}{counting}; past it, back {away} {over} and come again"
        )

    @property
    def _way(self) -> str:
        return "in" if self.surface == OUTSIDE else "out"

    @property
    def _counts_down(self) -> bool:
        """Whether the dial is turned against its figures, which grow as its slide moves in unless said."""
        grows = "out" if self.axis.direction == "outward" else "in"
        return self.axis.is_dial and self._way != grows

    @property
    def _counts(self) -> str:
        return "down" if self._counts_down else "up"

    def _stands_at(self, steps: int) -> str:
        """What stands at the mark of the dial; 0 where nobody said where its figures begin again."""
        count = divisions(self.axis, self.shown_at(steps))
        per_turn = self.axis.divisions_per_turn
        way = -count if self._counts_down and count else count
        return f"{round(way % per_turn, 4):g}" if per_turn else "0"

    def _origin_and_sense(self) -> tuple[float, float]:
        if self.is_absolute:
            return self.offset_mm, 1.0
        return self.zero_diameter_mm + self.offset_mm, -1.0 if self.surface == OUTSIDE else 1.0


def figure(axis: Axis, value_mm: float) -> str:
    """A figure as the slide shows it, with as many decimals as its step needs, in its own unit; in mm
    without one, unless the shop speaks of inch.

    >>> figure(Axis(step_mm=0.01), 33.0), figure(Axis(step_mm=0.005), -1.5)
    ('33.00', '-1.500')
    >>> figure(Axis(step_mm=0.0127, unit="inch"), 33.02)
    '1.3000 in'
    """
    if axis.unit == INCH:
        return f"{value_mm / MM_PER_INCH:.{decimals(axis.step_mm / MM_PER_INCH)}f} in"
    return f"{value_mm:.{decimals(axis.step_mm)}f}" + ("" if spoken() == MM else " mm")


def beside(axis: Axis, value_mm: float, places: int = 2) -> str:
    """A length of the work beside a figure of the slide: with its unit, where not all is mm."""
    return f"{value_mm:.{places}f}" if axis.unit == spoken() == MM else length(value_mm, places)


def size(axis: Axis, value_mm: float) -> str:
    """The same in hundredths of a millimetre, in thousandths where it has them."""
    thousandths = abs(value_mm * 100.0 - round(value_mm * 100.0)) > 0.04
    return beside(axis, value_mm, 3 if thousandths else 2)


def decimals(step: float) -> int:
    """Decimals needed to write every multiple of a step; at least two, at most five."""
    for places in (2, 3, 4):
        if abs(step * 10**places - round(step * 10**places)) < 1e-9:
            return places
    return 5


def divisions(axis: Axis, shown_mm: float) -> float:
    """A travel in dial divisions."""
    return round(shown_mm / axis.division_mm, 4)


def divisions_words(axis: Axis, shown_mm: float) -> str:
    """A travel in turns and divisions, both always said: "3 turns 12 div", "0 turns 39 div".

    A dial of which nobody said how many divisions are one turn is counted in divisions alone. What lies
    before the zero is counted back from it.

    >>> divisions_words(Axis(step_mm=0.01, division_mm=0.02, divisions_per_turn=100), 2.5)
    '1 turn 25 div'
    >>> divisions_words(Axis(step_mm=0.01, division_mm=0.02, divisions_per_turn=100), -0.01)
    '0 turns 0.5 div before 0'
    """
    count, per_turn = divisions(axis, shown_mm), axis.divisions_per_turn
    if count < 0:
        return f"{divisions_words(axis, -shown_mm)} before 0"
    if not per_turn:
        return f"{count:g} div"
    turns = int(count // per_turn)
    return f"{turns} turn{'' if turns == 1 else 's'} {round(count - turns * per_turn, 4):g} div"


def carriage_shows(axis: Axis) -> str:
    """The word of the plan for the carriage: length or dial."""
    return "dial" if axis.is_dial else "length"


def carriage_target(axis: Axis, distance_mm: float, *, up: bool) -> float:
    """A distance from the face on the slide's grid; `up` rounds away from the face, else to the nearest."""
    steps = distance_mm / axis.step_mm
    return round((math.ceil(steps - 1e-9) if up else round(steps)) * axis.step_mm, 6)


def carriage_figure(axis: Axis, target_mm: float) -> str:
    """A distance from the zeroed face as this carriage shows it."""
    if axis.is_dial:
        return divisions_words(axis, target_mm)
    return figure(axis, target_mm if axis.direction == "to_chuck" else -target_mm)


def carriage_words(axis: Axis, target_mm: float) -> str:
    """The same with the word for which figure it is, and beside a dial figure the length that it makes."""
    which = f"makes {size(axis, target_mm)}" if axis.is_dial else "length"
    return f"go to {carriage_figure(axis, target_mm)}, {which}"

"""What stands in the workshop to turn and to measure with: lathe, tools, bars, instruments as plain data.

Invariant: every object that exists is usable; a wrong value is refused with OutOfRange when the object is
made. Lengths in mm, speeds in rpm.
"""

from __future__ import annotations

from dataclasses import dataclass

from rules.bars import ADVICE, Grip
from rules.checks import Limited, OutOfRange, named_each, numbers, one_of
from rules.lengths import LENGTH_UNITS

CROSS_SHOWS = ("diameter", "radius")
CARRIAGE_SHOWS = ("length", "radius")
"""Both mean the same on the carriage: one millimetre moved is one millimetre shown."""
CROSS_DIRECTIONS = ("outward", "inward")
DIAL_DIRECTIONS = CROSS_DIRECTIONS[::-1]
"""The same of a cross slide with a dial, the usual first: its figures grow as the slide moves in."""
CARRIAGE_DIRECTIONS = ("to_chuck", "from_chuck")
NEEDED_KINDS = ("turning", "boring", "chamfer", "parting")
"""The kinds of tool that every ring needs."""
FACE_GROOVING = "face_grooving"
TOOL_KINDS = (*NEEDED_KINDS, FACE_GROOVING)
STEEL_BAR_SPRINGS_FROM = 4.0
"""A steel boring bar longer than this many times its own shank springs. Common practice, no source."""
USUAL_NOSE_MM, USUAL_DRILL_MM = 0.1, 13.0
"""Where a shop does not say it: nose of a tool, largest drill."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """The cross slide or the carriage of a lathe, and how it shows where it stands.

    The cross slide shows diameter or radius; the carriage shows its own travel.
    """

    shows: str = "diameter"
    """Either "diameter" or "radius": what one millimetre on the display means on the work."""
    step_mm: float = 0.01
    """Smallest step that can be set, in the display's own millimetres."""
    division_mm: float = 0.0
    """One division of the dial, in the display's own millimetres; 0 with a digital read-out."""
    divisions_per_turn: int = 0
    """Divisions in one turn of the handwheel; 0 = count divisions only."""
    backlash_mm: float = 0.0
    """Backlash: travel of the slide that is lost when the screw is reversed."""
    unit: str = "mm"
    """Either "mm" or "inch": what the display or dial is marked in; the figures here stay mm."""
    direction: str = "outward"
    """Which way the figures grow: cross "outward" or "inward", carriage "to_chuck" or "from_chuck"."""

    def __post_init__(self) -> None:
        one_of("shows", self.shows, CROSS_SHOWS + CARRIAGE_SHOWS)
        one_of("direction", self.direction, CROSS_DIRECTIONS + CARRIAGE_DIRECTIONS)
        one_of("unit of the slide", self.unit, LENGTH_UNITS)
        numbers(
            ("division", self.division_mm, 0.0, 0.5, "mm"),
            ("step", self.step_mm, 0.0005, 0.05, "mm"),
            ("divisions per turn", self.divisions_per_turn, 0, 1000, ""),
            ("backlash", self.backlash_mm, 0.0, 2.0, "mm"),
            advice=ADVICE,
        )

    @property
    def is_dial(self) -> bool:
        """True when the slide is set by a dial, false with a digital read-out."""
        return self.division_mm > 0.0

    @property
    def step_on_diameter_mm(self) -> float:
        """What one settable step of a cross slide changes on the diameter."""
        return self.step_mm if self.shows == "diameter" else 2.0 * self.step_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Lathe:
    """A lathe: cross slide and carriage, spindle speeds and grips."""

    name: str
    cross: Axis
    carriage: Axis
    speeds_rpm: tuple[float, ...]
    """The speeds it has; with `stepless` exactly two: slowest and fastest."""
    largest_rpm: float
    """No speed above this is ever proposed, whatever the list says."""
    grips: tuple[Grip, ...]
    stepless: bool = False
    """True when any speed between the two can be set."""
    largest_drill_mm: float = USUAL_DRILL_MM
    """Largest drill that the tailstock takes."""
    drills_mm: tuple[float, ...] = ()
    """The drills there are; none said = every half millimetre to the largest, or every sixteenth."""
    spindle_hole_mm: float = 0.0
    """Hole through the spindle; 0 = not said."""
    drill_unit: str = "mm"
    """Either "mm" or "inch": in what its drills come."""
    speed_names: tuple[str, ...] = ()
    """Names of the belt steps, one for each speed; none where lever or scale shows the speed."""
    shows_speed: bool = True
    """False where nothing on it says which speed is set."""
    numbered_tools: bool = True
    """False where a tool in the post shows no number."""

    def __post_init__(self) -> None:
        one_of("what the cross slide shows", self.cross.shows, CROSS_SHOWS)
        one_of("what the carriage shows", self.carriage.shows, CARRIAGE_SHOWS)
        one_of("direction of the cross slide", self.cross.direction, CROSS_DIRECTIONS)
        one_of("direction of the carriage", self.carriage.direction, CARRIAGE_DIRECTIONS)
        one_of("unit of the drills", self.drill_unit, LENGTH_UNITS)
        numbers(
            ("largest drill", self.largest_drill_mm, 1.0, 60.0, "mm"),
            ("hole through the spindle", self.spindle_hole_mm, 0.0, 200.0, "mm"),
            *(("one of the drills", drill, 0.5, 60.0, "mm") for drill in self.drills_mm),
            ("largest speed", self.largest_rpm, 10.0, 20000.0, "rpm"),
            *(("spindle speed", speed, 10.0, 20000.0, "rpm") for speed in self.speeds_rpm),
            advice=ADVICE,
        )
        named_each("names of the speeds", self.speed_names, 0 if self.stepless else len(self.speeds_rpm))
        if not self.speeds_rpm or not self.grips:
            raise OutOfRange(f"lathe {self.name!r}: no spindle speed or no grip; give at least one of each")
        if self.stepless and (len(self.speeds_rpm) != 2 or self.speeds_rpm[0] > self.speeds_rpm[1]):
            raise OutOfRange(f"lathe {self.name!r}: a stepless range is two speeds; give the slowest first")
        if min(self.speeds_rpm) > self.largest_rpm:
            raise OutOfRange(
                f"lathe {self.name!r}: every speed lies above the largest, "
                f"{self.largest_rpm:g} rpm; correct one"
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A tool by its number in the shop's own list."""

    number: int
    kind: str
    name: str = ""
    tool_set: str = "bench"
    """Name of the set it belongs to; numbers are unique within a set."""
    blade_mm: float = 0.0
    """Width of the blade that parts off or grooves the face."""
    smallest_bore_mm: float = 0.0
    """Smallest hole a boring bar goes into."""
    longest_reach_mm: float = 0.0
    """How far a boring bar stands out of its holder."""
    shank_mm: float = 0.0
    """Shank diameter of a boring bar; 0 = 0.7 of its smallest bore (common practice, no source)."""
    nose_radius_mm: float = USUAL_NOSE_MM
    smallest_groove_mm: float = 0.0
    """Smallest outer diameter of a first groove that a face-grooving tool is relieved for."""
    largest_groove_mm: float = 0.0
    depth_mm: float = 0.0
    """How deep it grooves the face."""

    def __post_init__(self) -> None:
        one_of("kind of tool", self.kind, TOOL_KINDS)
        rows: list[Limited] = [
            ("tool number", self.number, 1, 9999, ""),
            ("nose radius", self.nose_radius_mm, 0.0, 2.0, "mm"),
        ]
        if self.kind in ("parting", FACE_GROOVING):
            rows.append((f"blade of tool {self.number}", self.blade_mm, 0.2, 6.0, "mm"))
        if self.kind == "boring":
            rows += [
                (f"smallest bore of tool {self.number}", self.smallest_bore_mm, 1.0, 80.0, "mm"),
                (f"reach of tool {self.number}", self.longest_reach_mm, 1.0, 200.0, "mm"),
                (f"shank of tool {self.number}", self.shank_mm, 0.0, self.smallest_bore_mm, "mm"),
            ]
        if self.kind == FACE_GROOVING:
            smallest, largest = self.smallest_groove_mm, self.largest_groove_mm
            rows += [
                (f"smallest groove of tool {self.number}", smallest, 3.0, 200.0, "mm"),
                (f"largest groove of tool {self.number}", largest, smallest, 300.0, "mm"),
                (f"depth of tool {self.number}", self.depth_mm, 0.5, 100.0, "mm"),
            ]
        numbers(*rows, advice=ADVICE)

    @property
    def reach_over_shank(self) -> float:
        """Reach of a boring bar in shanks; 0 for other tools."""
        if self.kind != "boring":
            return 0.0
        return self.longest_reach_mm / (self.shank_mm or 0.7 * self.smallest_bore_mm)

"""The keys of the session file: what each answer is an answer to, every one written here and nowhere else.

Invariant: a key is a word of the trade, carries no number of an attempt or of a test, and is never renamed.
Acts at the lathe take the name of their operation (`rules.turning.operations`), or a name made from it here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

# marks
SITTING = "sitting"  # work begins: what has to be checked again rests on this mark
ATTEMPT = "attempt"  # another ring is begun
LEARNED = "learned"  # what the rings finished in this shop said when this one was sized
JOINED = "joined"  # from which copies of the job, each with its digest, this one was put together
LOOKED_IN = "looked_in"  # what lay in the drawer of the shop then
NOTE = "note"  # beside the route: the sheet prints it
SHOP_NOTE = "shop_note"  # the same for the workshop alone
# measure
WATCH = "watch"
REMARK = "remark"
PAPERS_IN = "papers_in"
PAINT = "paint"
PAINT_GO = "paint_go"
SEAL = "seal"  # which kind of seal the job is about, where it is not the usual one
BENCH = "bench"
HOLD = "hold"
NOT_THIS_RING = "not_this_ring"
SEAT_WAY = "seat_way"
CASE_BORE = "case_bore"
PLUG_ENTERS = "plug_enters"
PLUG_STAYS_OUT = "plug_stays_out"
PLUG_STAYS_OUT_AGAIN = "plug_stays_out_again"
GLASS_WAY = "glass_way"
GLASS = "glass"
SEAT_DEPTH = "seat_depth"
SEAT_DEPTH_AGAIN = "seat_depth_again"
GLASS_EDGE = "glass_edge"
TEMPERATURE = "temperature"
OLD_RING = "old_ring"
DIAL_RING = "dial_ring"
MEASURE_AGAIN = "measure_again"
OLD_WALL = "old_wall"
OLD_HEIGHT = "old_height"
GLASS_ORDER = "glass_order"
GLASS_WANTED = "glass_wanted"
GLASS_COMES = "glass_comes"
GLASS_DIFFERS = "glass_differs"
# size
PLASTIC = "plastic"
CASE_METAL = "case_metal"
CASE_WALL = "case_wall"
CASE_HEIGHT = "case_height"
RING_OFFSET = "ring_offset"
FRICTION = "friction"
GLASS_MATERIAL = "glass_material"
GLASS_THICKNESS = "glass_thickness"
GLASS_AGAINST_OLD = "glass_against_old"
ACRYLIC_ANYWAY = "acrylic_anyway"
LATHE = "lathe"
TOOL_SET = "tool_set"
BAR = "bar"
BAR_MEASURED = "bar_measured"
BAR_BORE = "bar_bore"
SPARES = "spares"
SPARE_WALL = "spare_wall"
BORE_WANTED = "bore_wanted"
OUTSIDE_WANTED = "outside_wanted"
HEIGHT_WANTED = "height_wanted"
AT_HAND = "at_hand"
HAND_WALL = "hand_wall"
HAND_HEIGHT = "hand_height"
HAND_SEAT = "hand_seat"
NO_RING = "no_ring"
RING = "ring"
# cut
CANNOT_TURN = "cannot_turn"
LATHE_HANDS = "lathe_hands"
LATHE_EYES = "lathe_eyes"
LATHE_KEY = "lathe_key"
LATHE_BAR = "lathe_bar"
LATHE_SPEED = "lathe_speed"
LATHE_SLIP = "lathe_slip"
TOUCH_OFF = "touch_off"
TOOL_AGAIN = "tool_again"  # after a break
TOOL_BORING = "tool_boring"
TOOL_BORING_AGAIN = "tool_boring_again"
TOOL_CORE = "tool_core"
TOOL_TURNING = "tool_turning"
TOOL_CHAMFER = "tool_chamfer"
TOOL_PARTING = "tool_parting"
OUTSIDE_READING = "outside_reading"
WALL_READING = "wall_reading"
PAST_OUTSIDE = "past_outside"
PAST_BORE = "past_bore"
FRESH_RING = "fresh_ring"
SPOILED = "spoiled"
CHECK_SLIP = "check_slip"  # a check answered wrong that rests on no slip of its own
# verify
WALL = "wall"
RING_HEIGHT = "ring_height"
DRESS_LOWER = "dress_lower"
OFF_BAND = "off_band"
TOO_HIGH = "too_high"
FIT_READY = "fit_ready"
FIT_SLIP = "fit_slip"
FIT_OUTCOME = "fit_outcome"
FIT_CAUSE = "fit_cause"  # what else may have shaved the ring or chipped the glass, before it is too tight
LEAK_CAUSE = "leak_cause"  # what else may have let the glass joint leak, before the seal is too loose
REMAKE = "remake"
MARKING = "marking"
MARKING_KEYED = "marking_keyed"
RENEWED = "renewed"
FIT_CORRECTION = "fit_correction"
HAND_BACK = "hand_back"


class OfSitting:
    """Key of a step that each sitting has: the name of the sitting, then the name it is given here."""

    def __set_name__(self, _owner: type, name: str) -> None:
        self._name = name

    def __get__(self, sitting: Sitting, _owner: type) -> str:
        return f"{sitting.name}_{self._name}"


@dataclass(frozen=True, slots=True)
class Sitting:
    """One of the two sittings in which a watch is tested; its name begins its keys."""

    name: str
    title: str
    method = OfSitting()  # which test
    pressure = OfSitting()  # that is raised
    check = OfSitting()
    """How it stands before the pressure is raised."""
    slip = OfSitting()  # a check answered wrong
    minutes = OfSitting()  # length of the hold
    temperature = OfSitting()
    """Temperature at the test."""
    hold = OfSitting()
    """The hold is started."""
    throughout = OfSitting()
    """Whether all stayed as it was while the bench was left during the hold."""
    volume = OfSitting()  # free volume, by size
    volume_exact = OfSitting()
    """Free volume, measured."""
    gauge_step = OfSitting()  # smallest step of the deflection gauge
    signal = OfSitting()
    """A reading of the gauge; numbered."""
    vented = OfSitting()
    """Where the gauge stands once the pressure is off."""
    vented_by = OfSitting()
    """How far from zero it stands then."""
    result = OfSitting()
    """What the test gave."""
    unclear = OfSitting()
    """What next after neither pass nor fail."""
    found = OfSitting()
    """Where the search for a leak ended."""
    correction = OfSitting()
    """Which it is, of a better result keyed over a bad one."""

    def what(self, key: str) -> str:
        """What one of its keys is the key of."""
        return key.removeprefix(f"{self.name}_")

    @property
    def heading(self) -> str:
        """Its title at the head of a sentence."""
        return self.title.capitalize()


EMPTY = Sitting("empty", "empty case")
CASED = Sitting("cased", "cased watch")
SITTINGS = (EMPTY, CASED)
BY_NAME = {one.name: one for one in SITTINGS}  # the sittings by their names, as a sheet keeps them


def nth(key: str, n: int) -> str:
    """Key of the nth reading of a dimension."""
    return f"{key}_{n}"


def readings_of(*keys: str) -> re.Pattern[str]:
    """A pattern that fits the keys of the readings of these dimensions, whole."""
    return re.compile(rf"(?:{'|'.join(keys)})(?:_\d+)?")


def slip_of(key: str) -> str:
    """Key of a wrong answer to a check."""
    return f"{key}_slip"


def is_slip(key: str) -> bool:
    """Whether a key is that of a check answered wrong."""
    return key.endswith("_slip")


def asked_in_search(question: str) -> str:
    """Key of a question of the search for a leak."""
    return f"hunt_{question}"


def each(reading: str) -> str:
    """Key of a reading at one of its places, where they are keyed one by one; numbered."""
    return f"{reading}_each"


def taken_again(reading: str, nth_time: int) -> str:
    """Key of a reading on the work: taken for the first time, and again after another pass."""
    return ("", "second_", "third_")[nth_time - 1] + reading


def last(surface: str) -> str:
    """Key of the last pass of a surface."""
    return f"last_{surface}"


def more(surface: str, nth_time: int) -> str:
    """Key of another pass of a surface before its last."""
    return f"more_{surface}_{nth_time}"


def odd(operation: str) -> str:
    """Key of what next, after readings that cannot come from an operation."""
    return f"odd_{operation}"


def late(key: str) -> str:
    """Key of an answer corrected after the ring was begun, which does not make that ring another one."""
    return f"{key}_late"


def afresh(operation: str) -> str:
    """Key of measuring the same place again."""
    return f"{operation}_afresh"


def spare(piece: int) -> str:
    """Key of a spare of the same set-up, the first of which is piece 2."""
    return f"spare_{piece}"


def spare_number(key: str) -> int | None:
    """Which piece of a set-up an act makes; None where it is none of the spares."""
    found = re.fullmatch(r"spare_(\d+)(_from_\d+)?", key)
    return int(found[1]) if found else None

"""The words kept with an answer besides its first: their names, and what each may say.

Invariant: a name that is read anywhere stands here, so that a word changed in an editor is held against it.
"""

from __future__ import annotations

import re
from collections.abc import Collection

from bench.job.number import PLAIN

UNKNOWN = "unknown"
"""What is kept instead of a number that is not known."""
PROGRAM, ASKED, KEYED, TESTER, HURRIED = "program", "asked", "keyed", "tester", "hurried"
"""By whom a hold was timed: the clock; the clock, and asked about since the bench was left; the person;
the tester alone; nobody, since it was over at once in a demo.
"""
SEEN_TO, UNCHANGED = "seen_to", "unchanged"
"""How it is tested again where the joint of the seal leaked and no other part is in."""
HOME = "home"
"""A seal is in its place."""
TEXT = "some words"
COUNT = "a whole number"
SEVERAL = "numbers in mm"
OTHER_NAMES = {"°c": "C", "µg/min": "ug/min", "μg/min": "ug/min", "µm": "um", "μm": "um", "cm³": "cm3"}
"""Other ways to write a unit, by which none else can be meant."""

KEPT: dict[str, str | tuple[str, ...]] = {
    # the ring as it was accepted, and as it was remade
    **dict.fromkeys(("outside", "bore", "height", "chamfer", "lower_chamfer", "wall"), "mm"),
    **dict.fromkeys(("seat", "seat_u", "seat_oval", "glass", "glass_u", "glass_oval"), "mm"),
    **dict.fromkeys(("gap", "gap_u", "highest", "used_wall", "used_height", "lands", "lands_sd"), "mm"),
    **dict.fromkeys(("seat_n", "glass_n", "spares"), COUNT),
    **dict.fromkeys(("squeeze", "squeeze_u", "squeeze_low", "squeeze_high", "chance"), "%"),
    **dict.fromkeys(("plastic", "press", "by", "at_hand", "from", "bezel", "shut"), TEXT),
    **dict.fromkeys(("ten_years_low", "ten_years_high"), "MPa"),
    **dict.fromkeys(("stays_wider", "to_20"), "mm"),
    "walls": SEVERAL,
    "decision": ("fits", "does_not", "undecided"),
    # the flat gasket as it was accepted
    **dict.fromkeys(("thickness", "inside", "room_outside", "room_inside", "room_height"), "mm"),
    **dict.fromkeys(("takes_low", "takes_high", "given_low", "given_high"), "N"),
    **dict.fromkeys(("presses_low", "presses_high"), "MPa"),
    **dict.fromkeys(("fill", "likely"), "%"),
    **dict.fromkeys(("material", "way", "joint"), TEXT),
    "thicknesses": SEVERAL,
    "closes": ("stop", "all"),
    # the O-ring as it was accepted, and as it was measured
    **dict.fromkeys(("cord", "inside_limit", "cord_limit", "wear"), "mm"),
    **dict.fromkeys(("groove_inner", "groove_outer", "groove_other"), "mm"),
    **dict.fromkeys(("stretch", "most_fill", "later"), "%"),
    **dict.fromkeys(("place", "inside_by", "cord_by"), TEXT),
    "lies": ("flat", "male", "female"),
    "moves": ("still", "moves"),
    # the foot of a ring as it was accepted
    **dict.fromkeys(("foot", "foot_bore", "corner", "ledge", "stands_over", "sinks", "sinks_years"), "mm"),
    **dict.fromkeys(("bears", "clamp_presses"), "MPa"),
    "load": "N",
    "carries": ("foot", "wall"),
    # at the lathe
    **dict.fromkeys(("bar", "offset", "left", "tighter"), "mm"),
    **dict.fromkeys(("tool", "rpm", "passes"), COUNT),
    **dict.fromkeys(("lathe", "colour", "order", "read"), TEXT),
    # of a test
    "pressure": "bar",
    "temperature": "C",
    **dict.fromkeys(("held", "ran", "planned", "needed"), "min"),
    **dict.fromkeys(("leak", "leak_low", "leak_high"), "ug/min"),
    **dict.fromkeys(("method", "leak_reason", "leak_law"), TEXT),
    "timed": (PROGRAM, KEYED, ASKED, TESTER, HURRIED),
    "leak_decision": ("PASS", "FAIL", "UNDECIDED", "NOT_JUDGED"),
    # of the seals of the watch
    "said": ("each",),
    "job": TEXT,
}
"""Unit, kind, or the words there are, by name."""
MAY_BE_UNKNOWN = frozenset({"height", "pressure", "temperature", "held", "rpm", "leak_high"})
TOGETHER = {
    "seat": (
        *("outside", "bore", "height", "chamfer", "lower_chamfer"),
        *("seat", "seat_u", "seat_n", "glass", "glass_u", "glass_n"),
    ),
    "walls": ("walls", "squeeze", "squeeze_u", "decision"),
    "method": ("method", "pressure", "temperature", "held", "timed"),
    "leak": ("leak", "leak_low", "leak_high", "leak_decision"),
}
"""Names that are read together: where the first is kept, all of them have to be there."""

_FIGURE = re.compile(r"([+-]?(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+))\s*(.*)")
_LIST = re.compile(r"((?:[0-9]+\.[0-9]+\s+)*[0-9]+\.[0-9]+)\s*(mm)?", re.IGNORECASE)


class Misfit(ValueError):
    """A word that is not what is asked there; the text says what is expected."""


def folded(text: str) -> str:
    """A word without what a person may write otherwise: capitals, blanks for underlines, blanks around."""
    return re.sub(r"[\s_-]+", "_", text.strip().casefold())


def squashed(text: str) -> str:
    """A text without anything that a person may write otherwise, commas in numbers and blanks included."""
    return re.sub(r"[\s_]+", "", text.translate(PLAIN).casefold())


def one_of(text: str, words: Collection[str]) -> str:
    """The one word of several that is meant; raises Misfit."""
    known = dict.fromkeys(words)
    found = [word for word in known if folded(word) == folded(text)]
    if len(found) != 1:
        raise Misfit("one of these words: " + ", ".join(known) if known else "nothing by hand")
    return found[0]


def parted(text: str) -> tuple[str, str] | None:
    """Figure and unit of a text, comma and hard blank made plain; None where it begins with no figure."""
    found = _FIGURE.fullmatch(text.translate(PLAIN).strip())
    if found is None:
        return None
    unit = found[2].strip()
    return found[1], OTHER_NAMES.get(unit.casefold(), unit)


def with_unit(text: str, unit: str) -> str:
    """A figure with its unit, the unit added where it was left out; raises Misfit."""
    found = parted(text)
    if found is None or (found[1] and found[1].casefold() != unit.casefold()):
        raise Misfit(f"a number in {unit}" if unit else "a number")
    return f"{found[0]} {unit}".rstrip()


def named_word(text: str) -> str | None:
    """A word with a name as it is meant; None where it has no name that is known; raises Misfit."""
    name, _, said = text.strip().partition(" ")
    name = name.casefold()
    shape = KEPT.get(name)
    if shape is None:
        return None
    try:
        return f"{name} {_said(name, said.strip(), shape)}"
    except Misfit as why:
        raise Misfit(f"{name} with {why}") from why


def _said(name: str, said: str, shape: str | tuple[str, ...]) -> str:
    if name in MAY_BE_UNKNOWN and folded(said) == UNKNOWN:
        return UNKNOWN
    if isinstance(shape, tuple):
        return one_of(said, shape)
    if shape == TEXT:
        if not said:
            raise Misfit(TEXT)
        return said
    if shape == SEVERAL:
        found = _LIST.fullmatch(said.translate(PLAIN))
        if found is None:
            raise Misfit(SEVERAL)
        return f"{' '.join(found[1].split())} mm"
    if shape == COUNT:
        if not re.fullmatch("[0-9]{1,6}", said):
            raise Misfit(COUNT)
        return said
    return with_unit(said, shape)

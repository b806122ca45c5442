"""Roles and the colours they are painted in: grey when normal, colour only for what is not.

Invariant: every pair of colours here has a contrast of at least 7:1, in full colour, rounded to 256 colours,
in the 16 of a usual terminal, and as the colour-blind see it; a state is never told by colour alone, so the
caution and alarm roles are also bold or reversed and pages write the word.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from rich.color import Color
from rich.style import Style

Depth = Literal["full", "256", "16", "none"]
Name = Literal["day", "night"]

ROLES = (
    "ink",  # what is to be read
    "strong",  # the one thing to do now
    "note",  # the rest: units, earlier answers, hints
    "entry",  # the typed value, large or small
    "key",  # the key line
    "title",  # job and stage
    "picture",  # drawings
    "rule",  # lines between parts
    "chosen",  # the entry of a list that Enter would take
    "good",  # PASS and the like: told by the word
    "caution",  # CHECK, cautions
    "alarm",  # STOP, refused
)


@dataclass(frozen=True, slots=True)
class Paint:
    """Ink, paper and weight of one role."""

    ink: str
    paper: str
    bold: bool = False
    reverse: bool = False
    underline: bool = False


DAY_PAPER, NIGHT_PAPER = "#eeeeee", "#121212"

_DAY = {
    "ink": Paint("#121212", DAY_PAPER),
    "strong": Paint("#121212", DAY_PAPER, bold=True),
    "note": Paint("#444444", DAY_PAPER),
    "entry": Paint("#00005f", DAY_PAPER, bold=True),
    "key": Paint("#121212", "#d0d0d0"),
    "title": Paint("#121212", "#d0d0d0", bold=True),
    "picture": Paint("#303030", DAY_PAPER),
    "rule": Paint("#444444", DAY_PAPER),
    "chosen": Paint("#eeeeee", "#303030", bold=True),
    "good": Paint("#121212", DAY_PAPER, bold=True),
    "caution": Paint("#121212", "#ffaf00", bold=True),
    "alarm": Paint("#ffffff", "#870000", bold=True),
}
_NIGHT = {
    "ink": Paint("#e4e4e4", NIGHT_PAPER),
    "strong": Paint("#ffffff", NIGHT_PAPER, bold=True),
    "note": Paint("#b2b2b2", NIGHT_PAPER),
    "entry": Paint("#ffffff", NIGHT_PAPER, bold=True),
    "key": Paint("#e4e4e4", "#303030"),
    "title": Paint("#e4e4e4", "#303030", bold=True),
    "picture": Paint("#c6c6c6", NIGHT_PAPER),
    "rule": Paint("#b2b2b2", NIGHT_PAPER),
    "chosen": Paint("#121212", "#d0d0d0", bold=True),
    "good": Paint("#ffffff", NIGHT_PAPER, bold=True),
    "caution": Paint("#121212", "#ffaf00", bold=True),
    "alarm": Paint("#ffffff", "#870000", bold=True),
}
PALETTES: dict[Name, dict[str, Paint]] = {"day": _DAY, "night": _NIGHT}

_SIXTEEN_DAY = {
    **dict.fromkeys(ROLES, Paint("black", "white")),
    "chosen": Paint("bright_white", "black", bold=True),
    "caution": Paint("black", "bright_yellow"),
    "alarm": Paint("bright_yellow", "black", bold=True, underline=True),
}
"""Black is never bold here: many terminals paint bold black as grey. No ink reaches 7:1 on the usual red."""

_SIXTEEN_NIGHT = {
    **dict.fromkeys(ROLES, Paint("white", "black")),
    **dict.fromkeys(("strong", "entry", "title", "good"), Paint("bright_white", "black", bold=True)),
    "chosen": Paint("black", "white"),
    "caution": Paint("bright_yellow", "black", bold=True),
    "alarm": Paint("black", "bright_yellow", underline=True),
}
SIXTEEN: dict[Name, dict[str, Paint]] = {"day": _SIXTEEN_DAY, "night": _SIXTEEN_NIGHT}

_COLOURLESS = {
    **dict.fromkeys(ROLES, Paint("", "")),
    "strong": Paint("", "", bold=True),
    "entry": Paint("", "", bold=True),
    "title": Paint("", "", bold=True),
    "good": Paint("", "", bold=True),
    "chosen": Paint("", "", reverse=True),
    "caution": Paint("", "", bold=True, underline=True),
    "alarm": Paint("", "", bold=True, reverse=True),
}


def paint(role: str, *, name: Name, depth: Depth) -> Paint:
    """The paint of a role; raises KeyError for a role that does not exist."""
    if depth == "none":
        return _COLOURLESS[role]
    if depth == "16":
        return SIXTEEN[name][role]
    return PALETTES[name][role]


def styles(*, name: Name = "day", depth: Depth = "full") -> dict[str, Style]:
    """A Rich style for every role."""
    return {role: _style(paint(role, name=name, depth=depth), depth) for role in ROLES}


def _style(look: Paint, depth: Depth) -> Style:
    """One paint as a Rich style, its colours already rounded to what the terminal has."""
    colours = [_colour(look.ink, depth), _colour(look.paper, depth)]
    return Style(
        color=colours[0],
        bgcolor=colours[1],
        bold=look.bold or None,
        reverse=look.reverse or None,
        underline=look.underline or None,
    )


def _colour(text: str, depth: Depth) -> Color | None:
    if not text:
        return None
    colour = Color.parse(text)
    if depth == "256":
        from rich.color import ColorSystem

        return colour.downgrade(ColorSystem.EIGHT_BIT)
    return colour

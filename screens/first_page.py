"""The first page, on the terminal before the toolkit is loaded: the lines of the same view, straight.

Invariant: the toolkit's first frame shows the same cells and clears nothing, so nothing flickers; keys typed
meanwhile wait in the line, byte for byte, and the terminal is given back whatever happens.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from rich.color import ColorSystem
from rich.segment import Segment

from screens.cells import cells
from screens.look import Look
from screens.system import drawn_on, take_raw
from screens.theme import Name, styles

if TYPE_CHECKING:
    from screens.face import Lines

SECOND_SCREEN, NO_CURSOR = "\x1b[?1049h", "\x1b[?25l"
"""As the toolkit takes them."""
SYSTEMS = {"full": ColorSystem.TRUECOLOR, "256": ColorSystem.EIGHT_BIT}


@dataclass(frozen=True, slots=True)
class Taken:
    """A terminal on which the first page stands."""

    attributes: list[Any]
    """Its settings as they were found."""
    at: float
    """Since when, monotonic."""


def size_here() -> tuple[int, int]:
    """Columns and rows of the terminal; 0 where it does not say."""
    try:
        columns, rows = os.get_terminal_size(sys.__stdin__.fileno() if sys.__stdin__ else 0)
    except OSError:
        return 0, 0
    return columns, rows


def stand(lines: Lines, look: Look, theme: Name, columns: int, rows: int) -> None:
    """Take the terminal, keys unread and unechoed, and paint the lines on it. Raises OSError."""
    take_raw()
    screen = drawn_on()
    assert screen is not None
    screen.write(SECOND_SCREEN + NO_CURSOR + "".join(frame(lines, look, theme, columns, rows)))
    screen.flush()


def frame(lines: Lines, look: Look, theme: Name, columns: int, rows: int) -> Sequence[str]:
    """The bytes of each row, from its beginning."""
    roles = styles(name=theme, depth=look.depth)
    system = SYSTEMS.get(look.depth, ColorSystem.STANDARD)
    shown = [*lines[:rows], *[()] * (rows - len(lines))]
    painted = (cells(one, roles, columns, ascii_only=look.ascii) for one in shown)
    return [
        f"\x1b[{row}H" + "".join(letters(part, system) for part in one) for row, one in enumerate(painted, 1)
    ]


def letters(part: Segment, system: ColorSystem) -> str:
    """Some cells of one style as bytes."""
    return part.style.render(part.text, color_system=system) if part.style else part.text

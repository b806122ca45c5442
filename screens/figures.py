"""Large figures: 5 x 7 dots drawn with half blocks, larger when there is room, letters where there is none.

Invariant: any two figures differ in at least four dots,
so that they can be distinguished at one metre and by eyes that are not on them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from screens.raster import FigureStyle

HEIGHT = 7
"""Rows of dots of every figure."""

_BLOCKS = {"  ": " ", "# ": "▀", " #": "▄", "##": "█"}
_MARKS = {"  ": " ", "# ": '"', " #": "_", "##": "#"}
"""A cell for an upper and a lower dot, in half blocks and in plain characters."""

GLYPHS: dict[str, tuple[str, ...]] = {
    "0": (" ### ", "#   #", "#   #", "#   #", "#   #", "#   #", " ### "),
    "1": ("  #  ", " ##  ", "# #  ", "  #  ", "  #  ", "  #  ", "#####"),
    "2": (" ### ", "#   #", "    #", "   # ", "  #  ", " #   ", "#####"),
    "3": ("#####", "   # ", "  #  ", "   # ", "    #", "#   #", " ### "),
    "4": ("   # ", "  ## ", " # # ", "#  # ", "#####", "   # ", "   # "),
    "5": ("#####", "#    ", "#    ", "#### ", "    #", "    #", "#### "),
    "6": ("  ## ", " #   ", "#    ", "#### ", "#   #", "#   #", " ### "),
    "7": ("#####", "    #", "   # ", "   # ", "  #  ", "  #  ", "  #  "),
    "8": (" ### ", "#   #", " # # ", "  #  ", " # # ", "#   #", " ### "),
    "9": (" ### ", "#   #", "#   #", " ####", "    #", "   # ", " ##  "),
    "-": ("     ", "     ", "     ", "#####", "     ", "     ", "     "),
    "+": ("     ", "  #  ", "  #  ", "#####", "  #  ", "  #  ", "     "),
    "_": ("     ", "     ", "     ", "     ", "     ", "     ", "#####"),
    " ": ("     ",) * HEIGHT,
    ".": ("  ", "  ", "  ", "  ", "  ", "##", "##"),
    ":": ("  ", "##", "##", "  ", "##", "##", "  "),
}
"""Dots of every figure; point and colon are narrower."""


def width(text: str, *, scale: int = 1) -> int:
    """Columns that `text` takes, with one blank dot between figures."""
    return sum(len(_glyph(character)[0]) + 1 for character in text) * scale - scale if text else 0


def height(*, scale: int = 1) -> int:
    """Rows that figures take, two dots to a row."""
    return (HEIGHT * scale + 1) // 2


def scale_for(text: str, columns: int, rows: int) -> int:
    """The largest scale at which `text` fits `columns` by `rows`; 0 when not even the smallest does."""
    scale = 0
    while width(text, scale=scale + 1) <= columns and height(scale=scale + 1) <= rows:
        scale += 1
        if scale == 12:
            break
    return scale


def figures(text: str, columns: int, rows: int, style: FigureStyle = "half") -> list[str]:
    """`text` in figures as large as fit, one string a row, all of the same width.

    When not even the smallest figures fit, or a character has no figure, one line with the
    letters themselves is returned, cut to `columns`. In plain ASCII a dot is two characters
    wide as soon as there is room for it.
    """
    if columns < 1 or rows < 1 or not text:
        return []
    scale = scale_for(text, columns, rows) if all(character in GLYPHS for character in text) else 0
    if scale == 0:
        return [text[:columns]]
    if style == "half":
        return _paired(_dots(text, scale), _BLOCKS)
    scale = min(columns // (2 * width(text)), rows // HEIGHT)
    if scale:
        return ["".join(dot * 2 for dot in row) for row in _dots(text, scale)]
    return _paired(_dots(text, 1), _MARKS)


def _glyph(character: str) -> tuple[str, ...]:
    return GLYPHS.get(character, GLYPHS[" "])


def _dots(text: str, scale: int) -> list[str]:
    """All dots of the text, one string a dot row."""
    rows = [" ".join(_glyph(character)[row] for character in text) for row in range(HEIGHT)]
    return ["".join(dot * scale for dot in row) for row in rows for _ in range(scale)]


def _paired(dots: list[str], blocks: dict[str, str]) -> list[str]:
    """Two dot rows to a line."""
    if len(dots) % 2:
        dots = [*dots, " " * len(dots[0])]
    return [
        "".join(blocks[upper + lower] for upper, lower in zip(dots[row], dots[row + 1], strict=True))
        for row in range(0, len(dots), 2)
    ]

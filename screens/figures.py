"""Large figures: 5 x 7 dots drawn with half blocks, larger when there is room, letters where there is none.

Invariant: any two figures differ in at least four dots, so that they are told apart at one metre and by eyes
that are not on them.
"""

from __future__ import annotations

from typing import Literal

Style = Literal["half", "ascii"]

WIDTH, HEIGHT = 5, 7

GLYPHS: dict[str, tuple[str, ...]] = {
    "0": (" ### ", "#   #", "#   #", "#   #", "#   #", "#   #", " ### "),
    "1": ("  #  ", " ##  ", "# #  ", "  #  ", "  #  ", "  #  ", "#####"),
    "2": (" ### ", "#   #", "    #", "   # ", "  #  ", " #   ", "#####"),
    "3": ("#####", "   # ", "  #  ", "   # ", "    #", "#   #", " ### "),
    "4": ("   # ", "  ## ", " # # ", "#  # ", "#####", "   # ", "   # "),
    "5": ("#####", "#    ", "#    ", "#### ", "    #", "    #", "#### "),
    "6": ("  ## ", " #   ", "#    ", "#### ", "#   #", "#   #", " ### "),
    "7": ("#####", "    #", "   # ", "   # ", "  #  ", "  #  ", "  #  "),
    "8": (" ### ", "#   #", "#   #", " ### ", "#   #", "#   #", " ### "),
    "9": (" ### ", "#   #", "#   #", " ####", "    #", "   # ", " ##  "),
    "-": ("     ", "     ", "     ", "#####", "     ", "     ", "     "),
    "+": ("     ", "  #  ", "  #  ", "#####", "  #  ", "  #  ", "     "),
    "_": ("     ", "     ", "     ", "     ", "     ", "     ", "#####"),
    " ": ("     ",) * 7,
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


def figures(text: str, columns: int, rows: int, style: Style = "half") -> list[str]:
    """`text` in figures as large as fit, one string a row, all of the same width.

    When not even the smallest figures fit, or a character has no figure, one line with the letters themselves
    is returned, cut to `columns`.
    """
    if columns < 1 or rows < 1 or not text:
        return []
    scale = scale_for(text, columns, rows) if all(character in GLYPHS for character in text) else 0
    if scale == 0:
        return [text[:columns]]
    if style == "ascii" and height(scale=1) * scale * 2 > rows and scale > 1:
        scale = max(1, scale - 1)
    dots = _dots(text, scale)
    return _ascii(dots) if style == "ascii" else _half(dots)


def _glyph(character: str) -> tuple[str, ...]:
    return GLYPHS.get(character, GLYPHS[" "])


def _dots(text: str, scale: int) -> list[str]:
    """All dots of the text, one string a dot row."""
    rows = [" ".join(_glyph(character)[row] for character in text) for row in range(HEIGHT)]
    return ["".join(dot * scale for dot in row) for row in rows for _ in range(scale)]


def _half(dots: list[str]) -> list[str]:
    """Two dot rows to a line of half blocks."""
    if len(dots) % 2:
        dots = [*dots, " " * len(dots[0])]
    blocks = {"  ": " ", "# ": "▀", " #": "▄", "##": "█"}
    return [
        "".join(blocks[upper + lower] for upper, lower in zip(dots[row], dots[row + 1], strict=True))
        for row in range(0, len(dots), 2)
    ]


def _ascii(dots: list[str]) -> list[str]:
    """Two dot rows to a line of plain characters: quote above, comma below, hash for both."""
    if len(dots) % 2:
        dots = [*dots, " " * len(dots[0])]
    marks = {"  ": " ", "# ": '"', " #": "_", "##": "#"}
    return [
        "".join(marks[upper + lower] for upper, lower in zip(dots[row], dots[row + 1], strict=True))
        for row in range(0, len(dots), 2)
    ]

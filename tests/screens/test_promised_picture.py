"""Promised beside fitted, as it is drawn."""

from __future__ import annotations

from screens.pictures import promised_picture
from screens.raster import Style


def test_promises_are_drawn_beside_the_line_on_which_they_come_true() -> None:
    """What fitted more often than promised stands above the dashed line, with its interval."""
    marks = [(0.5, 1.0, 0.7, 1.0), (0.9, 0.2, -1.0, -1.0)]
    styles: tuple[Style, ...] = ("braille", "half", "ascii")
    for style in styles:
        drawn = promised_picture(marks, columns=40, rows=14, style=style)
        bare = promised_picture([], columns=40, rows=14, style=style)
        assert len(drawn) == 14 and all(len(row) == 40 for row in drawn)
        changed = [
            (row, column)
            for row, (now, before) in enumerate(zip(drawn, bare, strict=True))
            for column, (one, other) in enumerate(zip(now, before, strict=True))
            if one != other
        ]
        above = [row for row, column in changed if 18 <= column <= 24]
        below = [row for row, column in changed if column >= 33]
        assert min(above) <= 2 and max(above) - min(above) >= 2, "a mark near the top, and its interval"
        assert below and min(below) >= 8 and len(set(below)) == 1, "a mark near the foot, without one"

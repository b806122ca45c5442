"""The one widget: it paints the lines it is given and knows nothing else.

Invariant: it cannot take focus, holds no state but what is painted, and lets no character through that a
terminal could act on.
"""

from __future__ import annotations

from collections.abc import Sequence

from rich.style import Style
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget

from screens.cells import cells
from screens.face import Lines

MOST_SEEN = 500
"""Painted lines that are remembered."""


class Page(Widget, can_focus=False, inherit_bindings=False):
    """Paints the lines it is given."""

    def __init__(self, *, ascii_only: bool) -> None:
        super().__init__()
        self._ascii_only = ascii_only
        self._lines: Lines = ()
        self._strips: list[Strip] = []
        self._styles: dict[str, Style] = {}
        self._painted_width = 0
        self._seen: dict[tuple[tuple[str, str], ...], Strip] = {}

    def show(self, lines: Lines, role_styles: dict[str, Style], columns: int, rows: int) -> bool:
        """Take new lines and ask for the rows that differ to be painted; says whether there were any."""
        whole = role_styles is not self._styles or columns != self._painted_width
        if whole or len(self._seen) > MOST_SEEN:
            self._seen = {}
        old, self._lines = self._lines, [list(line) for line in lines[:rows]]
        self._styles, self._painted_width = role_styles, columns
        changed = [
            row
            for row in range(rows)
            if whole or row >= len(self._strips) or _at(old, row) != _at(self._lines, row)
        ]
        if not changed:
            return False
        strips = self._strips[:rows]
        strips += [Strip.blank(columns)] * (rows - len(strips))
        for row in changed:
            strips[row] = self._strip(_at(self._lines, row), columns)
        self._strips = strips
        if len(changed) == rows:
            self.refresh()
        else:
            self.refresh(*(Region(0, row, columns, 1) for row in changed))
        return True

    def _strip(self, line: Sequence[tuple[str, str]], columns: int) -> Strip:
        """One line as painted cells; a line that comes again, on whatever row, is the same ones."""
        known = tuple(line)
        if known not in self._seen:
            painted = cells(line, self._styles, columns, ascii_only=self._ascii_only)
            self._seen[known] = Strip(painted, columns)
        return self._seen[known]

    def render_lines(self, crop: Region) -> list[Strip]:
        """Painted rows: each is as wide as the page and brings its colours, so nothing is laid over them."""
        rows = self._strips[crop.y : crop.bottom]
        rows += [Strip.blank(self.size.width)] * (crop.height - len(rows))
        if crop.x or crop.width != self._painted_width:
            return [row.crop(crop.x, crop.right) for row in rows]
        return rows


def _at(lines: Lines, row: int) -> Sequence[tuple[str, str]]:
    return lines[row] if row < len(lines) else ()

"""Line drawings in a grid of character cells: one description, three rasters (braille, half block, ASCII).

Invariant: a canvas is described in its own units, x to the right and y downwards, and is drawn to scale in
all three rasters: a cell counts as twice as high as wide. Letters are never distorted and lie on top.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

Style = Literal["braille", "half", "ascii"]
FigureStyle = Literal["half", "ascii"]
Fill = Literal["", "solid", "diagonal", "back", "cross", "dots"]
Align = Literal["left", "centre", "right"]

DOTS: dict[Style, tuple[int, int]] = {"braille": (2, 4), "half": (1, 2), "ascii": (1, 1)}
"""Dots in one cell, across and down."""

_BRAILLE = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
_HALVES = (" ", "▀", "▄", "█")
_FILL_MARK = {"solid": "#", "diagonal": "/", "back": "\\", "cross": "x", "dots": "."}


@dataclass(frozen=True, slots=True)
class Outline:
    """A run of straight lines, in canvas units."""

    points: tuple[tuple[float, float], ...]
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Area:
    """A filled polygon, in canvas units."""

    points: tuple[tuple[float, float], ...]
    fill: Fill


@dataclass(frozen=True, slots=True)
class Label:
    """Letters with their anchor at a point, in canvas units; moved by whole cells with `right` and `down`."""

    x: float
    y: float
    text: str
    align: Align
    right: int = 0
    down: int = 0


@dataclass(slots=True)
class Canvas:
    """A drawing `width` by `height` units large; shapes are drawn in the order in which they were added."""

    width: float
    height: float
    stretch: bool = False
    """Let x and y have scales of their own, for curves; drawings of parts are never stretched."""
    shapes: list[Outline | Area | Label] = field(default_factory=list)

    def line(self, *points: tuple[float, float], dashed: bool = False) -> None:
        """Straight lines from point to point."""
        self.shapes.append(Outline(points, dashed))

    def rect(self, x: float, y: float, width: float, height: float, fill: Fill = "") -> None:
        """A rectangle, outlined and filled."""
        self.polygon(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), fill)

    def polygon(self, points: Sequence[tuple[float, float]], fill: Fill = "") -> None:
        """A closed outline, filled."""
        corners = tuple(points)
        if fill:
            self.shapes.append(Area(corners, fill))
        self.shapes.append(Outline((*corners, corners[0])))

    def label(
        self, x: float, y: float, text: str, align: Align = "left", *, right: int = 0, down: int = 0
    ) -> None:
        """Letters; the last added lie on top."""
        self.shapes.append(Label(x, y, text, align, right, down))

    def column_of(self, x: float, columns: int, rows: int, style: Style = "braille") -> int:
        """The cell from the left in which a drawing of that size has a place."""
        return round(_Grid.fitted(self, columns, rows, style).place(x, 0.0)[0] / DOTS[style][0])

    def render(self, columns: int, rows: int, style: Style = "braille") -> list[str]:
        """The drawing as `rows` strings of `columns` cells, as large as fits, set in the middle."""
        if columns < 1 or rows < 1:
            return []
        grid = _Grid.fitted(self, columns, rows, style)
        for shape in self.shapes:
            if isinstance(shape, Area):
                grid.fill(shape)
            elif isinstance(shape, Outline):
                grid.outline(shape)
        for shape in self.shapes:
            if isinstance(shape, Label):
                grid.write(shape)
        return grid.lines()


@dataclass(slots=True)
class _Grid:
    """Dots and letters of one rendering."""

    columns: int
    rows: int
    style: Style
    x_scale: float
    """Dots across for one unit."""
    y_scale: float
    x_offset: float
    """Dots from the left edge to the canvas."""
    y_offset: float
    dots: dict[tuple[int, int], str] = field(default_factory=dict)
    letters: dict[tuple[int, int], str] = field(default_factory=dict)

    @classmethod
    def fitted(cls, canvas: Canvas, columns: int, rows: int, style: Style) -> _Grid:
        """A grid into which the canvas fits."""
        across, down = DOTS[style]
        x_scale = max(columns * across - 1, 1) / canvas.width
        y_scale = max(rows * down - 1, 1) / canvas.height
        if not canvas.stretch:
            square = across / (down / 2)  # dots across per dot down for equal lengths
            y_scale = min(y_scale, x_scale / square)
            x_scale = y_scale * square
        return cls(
            columns,
            rows,
            style,
            x_scale,
            y_scale,
            (columns * across - 1 - canvas.width * x_scale) / 2,
            (rows * down - 1 - canvas.height * y_scale) / 2,
        )

    def place(self, x: float, y: float) -> tuple[float, float]:
        """Dots of a point in canvas units, not yet rounded."""
        return x * self.x_scale + self.x_offset, y * self.y_scale + self.y_offset

    def fill(self, area: Area) -> None:
        """Fill a polygon by scan lines, even-odd."""
        corners = [self.place(x, y) for x, y in area.points]
        top = round(min(y for _, y in corners))
        bottom = round(max(y for _, y in corners))
        mark = _FILL_MARK[area.fill]
        for dot_y in range(max(top, 0), min(bottom, self.rows * DOTS[self.style][1] - 1) + 1):
            crossings = sorted(_crossings(corners, dot_y))
            for left, right in zip(crossings[::2], crossings[1::2], strict=False):
                for dot_x in range(max(round(left), 0), min(round(right), self._most_x()) + 1):
                    self._erase(dot_x, dot_y)
                    if self._hatched(dot_x, dot_y, area.fill):
                        self.dots[dot_x, dot_y] = mark

    def _most_x(self) -> int:
        return self.columns * DOTS[self.style][0] - 1

    def _erase(self, dot_x: int, dot_y: int) -> None:
        self.dots.pop((dot_x, dot_y), None)

    def _hatched(self, x: int, y: int, fill: Fill) -> bool:
        """Whether a dot of a pattern is set."""
        step = 2 if self.style == "ascii" else 4
        if fill == "solid":
            return True
        if fill == "diagonal":
            return (x + y) % step == 0
        if fill == "back":
            return (x - y) % step == 0
        if fill == "cross":
            return (x + y) % step == 0 or (x - y) % step == 0
        return fill == "dots" and x % step == 0 and y % 2 == 0 and (x // step + y // 2) % 2 == 0

    def outline(self, outline: Outline) -> None:
        """Straight lines, dot by dot; dashes run on round the corners."""
        corners = [self.place(x, y) for x, y in outline.points]
        count, last = -1, None
        for (x1, y1), (x2, y2) in pairwise(corners):
            mark = _line_mark(x2 - x1, y2 - y1)
            for x, y in _steps(x1, y1, x2, y2):
                count += (x, y) != last
                last = x, y
                inside = 0 <= x <= self._most_x() and 0 <= y < self.rows * DOTS[self.style][1]
                if inside and not (outline.dashed and count % 4 > 1):
                    crossed = self.dots.get((x, y), mark) not in (mark, *_FILL_MARK.values())
                    self.dots[x, y] = "+" if crossed else mark

    def write(self, label: Label) -> None:
        """Letters over the drawing, kept inside the grid."""
        x, y = self.place(label.x, label.y)
        across, down = DOTS[self.style]
        column = round(x / across) + label.right
        column -= {"left": 0, "centre": len(label.text) // 2, "right": len(label.text) - 1}[label.align]
        row = min(max(int(round(y) // down) + label.down, 0), self.rows - 1)
        column = min(max(column, 0), max(self.columns - len(label.text), 0))
        for offset, letter in enumerate(label.text[: self.columns]):
            self.letters[column + offset, row] = letter

    def lines(self) -> list[str]:
        """The cells as strings."""
        return [
            "".join(
                self.letters.get((column, row)) or self._cell(column, row) for column in range(self.columns)
            )
            for row in range(self.rows)
        ]

    def _cell(self, column: int, row: int) -> str:
        if self.style == "ascii":
            return self.dots.get((column, row), " ")
        if self.style == "half":
            return _HALVES[((column, 2 * row) in self.dots) + 2 * ((column, 2 * row + 1) in self.dots)]
        bits = sum(
            _BRAILLE[down][across]
            for down in range(4)
            for across in range(2)
            if (2 * column + across, 4 * row + down) in self.dots
        )
        return chr(0x2800 + bits) if bits else " "


def _crossings(corners: Sequence[tuple[float, float]], y: float) -> Iterator[float]:
    """Where the edges of a polygon cross the height y."""
    for (x1, y1), (x2, y2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if (y1 <= y < y2) or (y2 <= y < y1):
            yield x1 + (y - y1) * (x2 - x1) / (y2 - y1)


def _steps(x1: float, y1: float, x2: float, y2: float) -> Iterator[tuple[int, int]]:
    """The dots on a straight line, ends included."""
    count = max(round(max(abs(x2 - x1), abs(y2 - y1))), 1)
    for step in range(count + 1):
        part = step / count
        yield round(x1 + (x2 - x1) * part), round(y1 + (y2 - y1) * part)


def _line_mark(x: float, y: float) -> str:
    """The character that stands for a piece of a line in plain ASCII."""
    if abs(x) > 2.5 * abs(y):
        return "-"
    if abs(y) > 2.5 * abs(x):
        return "|"
    if x == y == 0:
        return "o"
    return "\\" if (x > 0) == (y > 0) else "/"

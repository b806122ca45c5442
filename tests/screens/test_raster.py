"""The drawing module: to scale in three rasters, nothing outside the grid, letters on top."""

from __future__ import annotations

from itertools import pairwise

import pytest

from screens.raster import DOTS, Canvas, Fill, Style

STYLES = list(DOTS)


def dots(lines: list[str], style: Style) -> set[tuple[int, int]]:
    """The dots that are set, read back from the characters."""
    found = set()
    for row, line in enumerate(lines):
        for column, letter in enumerate(line):
            if style == "ascii" and letter != " ":
                found.add((column, row))
            elif style == "half":
                upper, lower = letter in "▀█", letter in "▄█"
                found |= {(column, 2 * row)} if upper else set()
                found |= {(column, 2 * row + 1)} if lower else set()
            elif style == "braille" and letter != " ":
                found |= set(braille(column, row, ord(letter) - 0x2800))
    return found


def braille(column: int, row: int, bits: int) -> list[tuple[int, int]]:
    """Dots of one braille character: 1 2 3 7 down the left,
    4 5 6 8 down the right (Unicode, U+2800 block).
    """
    places = ((0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (0, 3), (1, 3))
    return [(2 * column + x, 4 * row + y) for bit, (x, y) in enumerate(places) if bits >> bit & 1]


def extent(found: set[tuple[int, int]]) -> tuple[int, int]:
    """Dots across and down."""
    xs, ys = [x for x, _ in found], [y for _, y in found]
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize("style", STYLES)
def test_a_square_is_square(style: Style) -> None:
    canvas = Canvas(10, 10)
    canvas.rect(0, 0, 10, 10)
    wide, high = extent(dots(canvas.render(60, 20, style), style))
    assert high == 20 * DOTS[style][1] - 1
    assert wide == pytest.approx(high * (2 if style == "ascii" else 1), abs=1.5)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("size", [(1, 1), (3, 2), (20, 5), (100, 40)])
def test_the_size_asked_for_is_kept(style: Style, size: tuple[int, int]) -> None:
    columns, rows = size
    canvas = Canvas(3, 7)
    canvas.line((-5, -5), (20, 20))
    canvas.polygon(((0, 0), (3, 0), (1, 9)), "cross")
    canvas.label(2, 2, "a long label that does not fit", "right", right=50, down=50)
    lines = canvas.render(columns, rows, style)
    assert len(lines) == rows and all(len(line) == columns for line in lines)


@pytest.mark.parametrize("style", STYLES)
def test_a_diagonal_goes_from_corner_to_corner(style: Style) -> None:
    canvas = Canvas(1, 1, stretch=True)
    canvas.line((0, 0), (1, 1))
    across, down = DOTS[style]
    found = dots(canvas.render(30, 10, style), style)
    assert {(0, 0), (30 * across - 1, 10 * down - 1)} <= found
    assert len(found) == max(30 * across, 10 * down)


@pytest.mark.parametrize(
    ("fill", "share"),
    [("solid", 1.0), ("diagonal", 0.25), ("back", 0.25), ("cross", 0.375), ("dots", 0.0625)],
)
def test_fills_are_told_apart_by_how_dense_they_are(fill: Fill, share: float) -> None:
    canvas = Canvas(10, 10)
    canvas.rect(0, 0, 10, 10, fill)
    found = dots(canvas.render(80, 40, "braille"), "braille")
    inner = [(x, y) for x, y in found if 4 < x < 156 and 4 < y < 156]
    assert len(inner) / 151**2 == pytest.approx(share, abs=0.02)


def test_a_hole_in_a_polygon_is_left_open() -> None:
    """A shape like a C: even-odd filling leaves its inside empty."""
    canvas = Canvas(10, 10)
    canvas.polygon(((0, 0), (10, 0), (10, 3), (3, 3), (3, 7), (10, 7), (10, 10), (0, 10)), "solid")
    found = dots(canvas.render(20, 10, "half"), "half")
    middle = {(x, y) for x, y in found if 9 <= x <= 17 and 8 <= y <= 11}
    assert not middle


def test_letters_lie_on_top_and_stay_inside() -> None:
    canvas = Canvas(10, 10)
    canvas.rect(0, 0, 10, 10, "solid")
    canvas.label(5, 5, "ring", "centre")
    canvas.label(10, 0, "edge", "left")
    text = canvas.render(20, 10, "ascii")
    assert "ring" in text[5] or "ring" in text[4]
    assert text[0].endswith("edge")


def test_plain_lines_take_the_character_of_their_slope() -> None:
    def drawn(*points: tuple[float, float]) -> set[str]:
        canvas = Canvas(10, 5, stretch=True)
        canvas.line(*points)
        return set("".join(canvas.render(11, 11, "ascii"))) - {" "}

    assert drawn((0, 2), (10, 2)) == {"-"}
    assert drawn((5, 0), (5, 5)) == {"|"}
    assert drawn((0, 0), (10, 5)) == {"\\"}
    assert drawn((0, 5), (10, 0)) == {"/"}
    assert drawn((5, 2), (5, 2)) == {"o"}


@pytest.mark.parametrize("style", STYLES)
def test_dashes_run_on_over_the_corners_of_a_curve(style: Style) -> None:
    """A straight dashed line in sixty parts is as broken as one in a single part: two dots, two left out."""
    canvas = Canvas(60.0, 1.0, stretch=True)
    canvas.line(*((float(x), 0.5) for x in range(61)), dashed=True)
    across = sorted(x for x, _ in dots(canvas.render(61, 1, style), style))
    gaps = [after - before for before, after in pairwise(across)]
    assert set(gaps) <= {1, 2, 3, 4} and gaps.count(1) == pytest.approx(len(gaps) / 2, abs=4)
    assert len(across) == pytest.approx(DOTS[style][0] * 61 / 2, abs=3)

"""Large figures: told apart at a glance, as large as fit, nothing but letters where nothing else fits."""

from __future__ import annotations

import itertools

import pytest

from screens.figures import GLYPHS, HEIGHT, figures, height, scale_for, width

LEAST_DIFFERENCE = 4

GOLDEN = """\
▀▀▀█▀  ▄▀▀       ▄█  ▄▀▀▀▄
  ▀▄  █▄▄▄     ▄▀ █     ▄▀
▄   █ █   █ ▄▄ ▀▀▀█▀  ▄▀
 ▀▀▀   ▀▀▀  ▀▀    ▀  ▀▀▀▀▀"""


def difference(one: str, other: str) -> int:
    """In how many dots two figures differ, the narrower filled up with blanks."""
    rows = zip(GLYPHS[one], GLYPHS[other], strict=True)
    return sum(a != b for x, y in rows for a, b in zip(x.ljust(5), y.ljust(5), strict=True))


def test_any_two_figures_differ_in_four_dots() -> None:
    closest = min(itertools.combinations(GLYPHS, 2), key=lambda pair: difference(*pair))
    assert difference(*closest) >= LEAST_DIFFERENCE, closest


def test_digits_stay_apart_when_one_dot_is_lost_or_hidden_by_a_row() -> None:
    """The lower row of half blocks may be hidden by glare: digits still differ in the other rows."""
    for one, other in itertools.combinations("0123456789", 2):
        for row in range(HEIGHT):
            a = [line for number, line in enumerate(GLYPHS[one]) if number != row]
            b = [line for number, line in enumerate(GLYPHS[other]) if number != row]
            assert a != b, (one, other, row)


def test_every_figure_is_seven_dots_high_and_of_even_width() -> None:
    for figure, rows in GLYPHS.items():
        assert len(rows) == HEIGHT
        assert len({len(row) for row in rows}) == 1, figure
        assert set("".join(rows)) <= {"#", " "}


def test_golden() -> None:
    assert [line.rstrip() for line in figures("36.42", 80, 4)] == GOLDEN.splitlines()


@pytest.mark.parametrize(
    ("columns", "rows", "scale"),
    [(200, 60, 7), (80, 24, 3), (80, 8, 2), (80, 4, 1), (40, 12, 1), (26, 4, 1), (25, 4, 0), (80, 3, 0)],
)
def test_figures_grow_with_the_room(columns: int, rows: int, scale: int) -> None:
    assert scale_for("36.42", columns, rows) == scale
    lines = figures("36.42", columns, rows)
    assert len(lines) <= rows and all(len(line) <= columns for line in lines)
    if scale:
        assert len(lines) == height(scale=scale) and len(lines[0]) == width("36.42", scale=scale)
    else:
        assert lines == ["36.42"]


def test_what_has_no_figure_is_shown_in_letters() -> None:
    assert figures("1.161in", 80, 8) == ["1.161in"]
    assert figures("1.161in", 3, 8) == ["1.1"]
    assert figures("", 80, 8) == [] and figures("1", 0, 8) == []


@pytest.mark.parametrize("rows", [4, 7, 14])
def test_ascii_figures_hold_ascii_only_and_are_seven_rows_when_there_is_room(rows: int) -> None:
    lines = figures("36.42", 80, rows, "ascii")
    assert "".join(lines).isascii()
    assert len(lines) <= rows
    if rows >= HEIGHT:
        assert lines[0].replace(" ", "") and set("".join(lines)) <= {"#", " "}


def test_half_blocks_are_in_code_page_437() -> None:
    "".join(figures("0123456789.-+:_", 200, 8)).encode("cp437")

"""Contrast of every letter and digit of every golden page, computed from the cells that are painted."""

from __future__ import annotations

import itertools
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from rich.color import Color
from rich.style import Style

from screens import theme
from screens.theme import Depth, Name, styles
from tests.screens.album import SIZES, album
from tests.screens.painting import cells_of, rows_of
from tests.screens.test_theme import BLINDNESS, LEAST_CONTRAST, SIXTEEN, contrast, cube

Triple = tuple[int, int, int]

VGA: tuple[Triple, ...] = (
    (0, 0, 0),
    (170, 0, 0),
    (0, 170, 0),
    (170, 85, 0),
    (0, 0, 170),
    (170, 0, 170),
    (0, 170, 170),
    (170, 170, 170),
    (85, 85, 85),
    (255, 85, 85),
    (85, 255, 85),
    (255, 255, 85),
    (85, 85, 255),
    (255, 85, 255),
    (85, 255, 255),
    (255, 255, 255),
)
"""Colours 0 to 15 of the VGA text screen, in the order of terminals, as on a Linux console; from memory."""
TABLES = {"xterm": SIXTEEN, "VGA": VGA}


def page_styles(name: Name, depth: Depth) -> Iterator[Counter[Style]]:
    """How many letters and digits of each golden page are painted in each style."""
    table = styles(name=name, depth=depth)
    for desk, size in itertools.product(album().values(), SIZES):
        cells = cells_of(rows_of(desk, size, table))
        yield Counter(cell.style for cell in cells if cell.letter.isalnum())


def shown(style: Style, table: tuple[Triple, ...]) -> tuple[Triple, Triple]:
    """Ink and paper as the eye gets them: reversed where reversed, half way to the paper where dim."""
    ink, paper = colour(style.color, table), colour(style.bgcolor, table)
    if style.reverse:
        ink, paper = paper, ink
    if style.dim:
        ink = tuple((one + other) // 2 for one, other in zip(ink, paper, strict=True))  # type: ignore[assignment]
    return ink, paper


def colour(painted: Color | None, table: tuple[Triple, ...]) -> Triple:
    """The colour that a terminal with this table of 16 shows."""
    assert painted is not None, "a letter without a colour of its own"
    if painted.triplet is not None:
        return painted.triplet.red, painted.triplet.green, painted.triplet.blue
    assert painted.number is not None
    return table[painted.number] if painted.number < 16 else cube(painted.number)


def faint(tally: Counter[Style], blindness: str, table: tuple[Triple, ...]) -> dict[str, tuple[float, int]]:
    """Styles that are not legible enough, their contrast and the number of letters painted so."""
    found = {}
    for style, letters in tally.items():
        ratio = contrast(*shown(style, table), blindness)
        if ratio < LEAST_CONTRAST:
            found[str(style)] = (round(ratio, 2), letters)
    return found


@pytest.mark.parametrize("depth", ["full", "256", "16"])
@pytest.mark.parametrize("name", ["day", "night"])
def test_every_letter_painted_is_legible(name: Name, depth: Depth) -> None:
    tally = sum(page_styles(name, depth), Counter[Style]())
    assert tally.total() > 100_000
    lowest = 21.0
    for blindness, (whose, table) in itertools.product(BLINDNESS, TABLES.items()):
        assert not faint(tally, blindness, table), (blindness, whose)
        lowest = min(lowest, *(contrast(*shown(style, table), blindness) for style in tally))
    print(f"{name}, {depth}: {tally.total()} letters in {len(tally)} styles, least contrast {lowest:.1f}")


@pytest.mark.parametrize(
    "role", ["ink", "strong", "note", "entry", "key", "title", "chosen", "caution", "alarm"]
)
def test_one_role_dimmed_is_found(role: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A planted fault, on one page at least: the ink of one role half way to its paper."""
    old = theme.PALETTES["day"][role]
    inks = zip(Color.parse(old.ink).get_truecolor(), Color.parse(old.paper).get_truecolor(), strict=True)
    half = "#" + "".join(f"{(one + other) // 2:02x}" for one, other in inks)
    monkeypatch.setitem(theme.PALETTES["day"], role, replace(old, ink=half))
    assert any(faint(page, "none", SIXTEEN) for page in page_styles("day", "full")), role


def test_the_dim_attribute_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same with the terminal's own dim."""
    usual: Any = theme._style
    monkeypatch.setattr(theme, "_style", lambda look, depth: usual(look, depth) + Style(dim=True))
    assert any(faint(page, "none", SIXTEEN) for page in page_styles("day", "256"))

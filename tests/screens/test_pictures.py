"""The five pictures: golden text, sizes kept, the essential said in words, and drawn to scale."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st

from screens import pictures
from screens.raster import DOTS, Style
from tests.screens import golden

STYLES = list(DOTS)
ESSENTIAL = {
    "section before": ("glass", "case", "ring", "press", "wall 0.580, gap 0.530"),
    "section pressed": ("glass", "case", "ring", "pressed"),
    "window": ("too loose", "works", "too tight", "32.10", "31.95", "32.04", "32.06 mm: works"),
    "window narrow": ("too loose", "works", "too tight", "31.90 mm: too tight"),
    "clock": ("12h 33.20", "3h 33.24", "5h 33.22", "0.04 mm"),
    "bar": ("turned 2.60 bored 2.20 ring 1.20", "33.20 outside", "32.04 bore", "31.84 < now", "chuck"),
    "leak": ("limit", "10 min", "um"),
}


def test_golden() -> None:
    assert golden.all_text() == golden.FILE.read_text(encoding="utf-8")


@pytest.mark.parametrize("style", STYLES)
def test_the_essential_is_said_in_words(style: Style) -> None:
    for name, lines in golden.drawn(style):
        for words in ESSENTIAL[name]:
            assert words in "\n".join(lines), name


@pytest.mark.parametrize("style", STYLES)
def test_every_picture_fits_a_window_of_80_by_24(style: Style) -> None:
    for name, lines in golden.drawn(style):
        assert len({len(line) for line in lines}) == 1, name
        assert len(lines) <= 13 and len(lines[0]) <= 60, name


def test_rasters_keep_to_their_characters() -> None:
    for name, lines in golden.drawn("ascii"):
        assert "".join(lines).isascii(), name
    for name, lines in golden.drawn("half"):
        if name not in ("window", "window narrow"):
            assert set("".join(lines)) - set("▀▄█") <= set(map(chr, range(32, 127))), name
        "".join(lines).replace("▲", "").encode("cp437")  # ▲ is glyph 0x1E there


def span(lines: list[str], mark: str) -> tuple[int, int]:
    """First and last column at which a mark stands in any line."""
    places = [column for line in lines for column, letter in enumerate(line) if letter == mark]
    return min(places), max(places)


def test_the_section_is_to_scale() -> None:
    """A wall of 0.6 on a height of 1.2 mm is drawn half as wide as high, one of 1.2 as wide as high."""
    widths = []
    for wall in (0.6, 1.2):
        lines = pictures.section(
            case_bore_mm=33.0,
            glass_mm=33.0 - 2 * wall,
            outside_mm=33.0,
            bore_mm=33.0 - 2 * wall,
            height_mm=1.2,
            chamfer_mm=0,
            lower_chamfer_mm=0,
            pressed=True,
            columns=200,
            rows=60,
            style="ascii",
        )
        ring = [line for line in lines if "x" in line]
        left, right = span(ring, "x")
        widths.append((right - left + 2) / (2 * (len(ring) + 1)))
    assert widths == pytest.approx([0.5, 1.0], rel=0.06)


@pytest.mark.parametrize(
    ("value", "words", "column"),
    [
        (32.10, "works", 15),
        (32.101, "too loose", 15),
        (31.95, "works", 44),
        (31.94, "too tight", 46),
        (99.0, "too loose", 0),
        (0.0, "too tight", 59),
    ],
)
def test_the_pointer_stands_where_the_number_lands(value: float, words: str, column: int) -> None:
    lines = pictures.window_bar(loose=32.10, tight=31.95, target=32.04, value=value)
    assert lines[3].index("▲") == column
    assert words in lines[3]


def test_the_window_runs_from_loose_to_tight_whichever_is_larger() -> None:
    up = pictures.window_bar(loose=5.0, tight=13.0, target=9.0, unit="%", value=4.0)
    assert "too loose" in up[3] and up[2].index("5.00") < up[2].index("9.00") < up[2].index("13.00")
    with pytest.raises(ValueError, match="empty"):
        pictures.window_bar(loose=5.0, tight=5.0, target=5.0)


def test_nothing_measured_means_nothing_claimed() -> None:
    assert "mm" not in "".join(pictures.clock([]))
    assert len(pictures.window_bar(loose=1, tight=2, target=1.5)) == 4


@pytest.mark.parametrize("style", STYLES)
@settings(max_examples=25, deadline=None)
@given(
    glass=st.floats(4, 79),
    gap=st.floats(0.05, 1.5),
    squeeze=st.floats(-0.1, 0.3),
    height=st.floats(0.3, 6),
    size=st.tuples(st.integers(1, 120), st.integers(1, 40)),
    pressed=st.booleans(),
)
def test_any_ring_can_be_drawn_at_any_size(
    style: Style,
    glass: float,
    gap: float,
    squeeze: float,
    height: float,
    size: tuple[int, int],
    pressed: bool,
) -> None:
    case = glass + 2 * gap
    bore = case - 2 * gap / (1 - squeeze)
    columns, rows = size
    lines = pictures.section(
        case_bore_mm=case,
        glass_mm=glass,
        outside_mm=case,
        bore_mm=bore,
        height_mm=height,
        pressed=pressed,
        columns=columns,
        rows=rows,
        style=style,
    )
    assert len(lines) == rows and all(len(line) == columns for line in lines)
    lines = pictures.bar_passes(
        bar_mm=case + 3,
        outside_mm=case,
        bore_mm=bore,
        height_mm=height,
        bored_mm=height + 1,
        stick_out_mm=3 * height,
        columns=columns,
        rows=rows,
        style=style,
    )
    assert len(lines) == rows and all(len(line) == columns for line in lines)
    lines = pictures.clock([(12, case), (3, case + gap / 50)], columns=columns, rows=rows, style=style)
    assert len(lines) == rows and all(len(line) == columns for line in lines)

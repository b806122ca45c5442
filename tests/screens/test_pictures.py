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
    "limits": ("too tight under", "31.95", "too loose over", "32.10", "aim", "32.04", "32.06 mm: works"),
    "limits narrow": ("too tight under", "31.95", "too loose over", "32.10", "aim", "32.04", "31.90"),
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
        if not name.startswith("limits"):
            assert set("".join(lines)) - set("▀▄█") <= set(map(chr, range(32, 127))), name
        "".join(lines).encode("cp437")


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
        ring = [line for line in lines if "#" in line]
        left, right = span(ring, "#")
        widths.append((right - left + 2) / (2 * (len(ring) + 1)))
    assert widths == pytest.approx([0.5, 1.0], rel=0.06)


def ends(lines: list[str]) -> dict[str, int]:
    """Where the line of each name ends."""
    return {line.split()[0]: line.index("┤") for line in lines}


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (32.10, "works"),
        (32.101, "loose"),
        (31.95, "works"),
        (31.94, "tight"),
        (99.0, "loose"),
        (0.0, "tight"),
    ],
)
def test_what_is_keyed_is_as_long_as_it_is(value: float, words: str) -> None:
    """Smaller is shorter, whichever of the two is wrong, and all lines start at one edge."""
    lines = pictures.limit_lines(
        low=31.95, high=32.10, target=32.04, value=value, words=("tight", "works", "loose")
    )
    assert lines[-1].rstrip().endswith(f": {words}") and len({line.index("├") for line in lines}) == 1
    found = ends(lines)
    assert found["tight"] < found["aim"] < found["loose"]
    assert (found["keyed"] < found["tight"], found["keyed"] > found["loose"]) == (
        value < 31.945,
        value > 32.105,
    )


def test_limits_keep_their_side_in_whatever_order_they_are_given() -> None:
    up, down = (
        pictures.limit_lines(low=a, high=b, target=9.0, unit="%") for a, b in ((5.0, 13.0), (13.0, 5.0))
    )
    assert up == down and up[0].index("┤") < up[2].index("┤")
    with pytest.raises(ValueError, match="are one"):
        pictures.limit_lines(low=5.0, high=5.0)


def test_nothing_measured_means_nothing_claimed() -> None:
    assert "mm" not in "".join(pictures.clock([]))
    assert len(pictures.limit_lines(low=1, high=2)) == 2


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

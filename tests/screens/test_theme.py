"""Contrast of every role, computed: in full colour, 256 and 16 colours, and as the colour-blind see it."""

from __future__ import annotations

import itertools
from typing import get_args

import pytest
from rich.color import Color
from rich.style import Style

from screens.theme import ROLES, Depth, Name, styles

Triple = tuple[float, float, float]

DEPTHS: tuple[Depth, ...] = get_args(Depth)

LEAST_CONTRAST = 7.0
"""WCAG 2.1, success criterion 1.4.6 (enhanced)."""

SIXTEEN: tuple[tuple[int, int, int], ...] = (
    (0, 0, 0),
    (205, 0, 0),
    (0, 205, 0),
    (205, 205, 0),
    (0, 0, 238),
    (205, 0, 205),
    (0, 205, 205),
    (229, 229, 229),
    (127, 127, 127),
    (255, 0, 0),
    (0, 255, 0),
    (255, 255, 0),
    (92, 92, 255),
    (255, 0, 255),
    (0, 255, 255),
    (255, 255, 255),
)
"""xterm's built-in colours 0 to 15 (XTerm-col.ad)."""

BLINDNESS: dict[str, tuple[Triple, Triple, Triple]] = {
    "none": ((1, 0, 0), (0, 1, 0), (0, 0, 1)),
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
"""Machado, Oliveira and Fernandes, IEEE Transactions on Visualization and Computer Graphics 15
(2009) 1291, table for severity 1.0, applied to linear light; compared with published copies of
the table, the paper itself not opened."""


def linear(part: float) -> float:
    """One part of an sRGB colour, 0 to 255, as light (WCAG 2.1, relative luminance)."""
    share = part / 255
    return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)


def luminance(colour: tuple[int, int, int], blindness: str) -> float:
    """Relative luminance, after what a kind of colour blindness makes of the colour."""
    light = [linear(part) for part in colour]
    red, green, blue = (
        min(max(sum(weight * part for weight, part in zip(row, light, strict=True)), 0), 1)
        for row in BLINDNESS[blindness]
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(ink: tuple[int, int, int], paper: tuple[int, int, int], blindness: str = "none") -> float:
    """Contrast ratio of two colours."""
    dark, light = sorted((luminance(ink, blindness), luminance(paper, blindness)))
    return (light + 0.05) / (dark + 0.05)


def cube(number: int) -> tuple[int, int, int]:
    """A colour of the 256: the 16, the 6 x 6 x 6 cube, the greys (xterm, 256colres.pl)."""
    if number < 16:
        return SIXTEEN[number]
    if number >= 232:
        return (8 + 10 * (number - 232),) * 3
    steps = (0, 95, 135, 175, 215, 255)
    red, green, blue = (number - 16) // 36, (number - 16) // 6 % 6, (number - 16) % 6
    return steps[red], steps[green], steps[blue]


def seen(colour: Color | None) -> tuple[int, int, int]:
    """The colour a usual terminal shows."""
    assert colour is not None
    if colour.triplet is not None:
        return colour.triplet.red, colour.triplet.green, colour.triplet.blue
    assert colour.number is not None
    return cube(colour.number)


def shown(style: Style) -> tuple[tuple[int, int, int], tuple[int, int, int]]:
    """Ink and paper of a style."""
    return seen(style.color), seen(style.bgcolor)


def test_the_measure_itself() -> None:
    """Black on white is 21:1 and equal colours 1:1 (WCAG 2.1, definition of contrast ratio)."""
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((9, 9, 9), (9, 9, 9)) == 1
    assert contrast((119, 119, 119), (255, 255, 255)) == pytest.approx(
        4.48, abs=0.005
    )  # WebAIM, #777 on white


@pytest.mark.parametrize("blindness", BLINDNESS)
@pytest.mark.parametrize("depth", ["full", "256", "16"])
@pytest.mark.parametrize("name", ["day", "night"])
def test_contrast(name: Name, depth: Depth, blindness: str) -> None:
    for role, style in styles(name=name, depth=depth).items():
        ratio = contrast(*shown(style), blindness)
        assert ratio >= LEAST_CONTRAST, f"{role}: {ratio:.1f}"


@pytest.mark.parametrize("name", ["day", "night"])
def test_bold_inks_of_the_16_stay_readable_where_bold_means_bright(name: Name) -> None:
    """Many terminals paint bold 0 to 7 as 8 to 15; black would turn grey on white."""
    for role, style in styles(name=name, depth="16").items():
        assert style.color is not None and style.color.number is not None
        if style.bold and style.color.number < 8:
            ratio = contrast(SIXTEEN[style.color.number + 8], shown(style)[1])
            assert ratio >= 4.5, f"{role}: {ratio:.1f}"


@pytest.mark.parametrize("name", ["day", "night"])
@pytest.mark.parametrize("depth", DEPTHS)
def test_caution_alarm_and_the_chosen_are_told_apart_without_colour(name: Name, depth: Depth) -> None:
    table = styles(name=name, depth=depth)
    marked = [table[role] for role in ("ink", "caution", "alarm", "chosen")]
    looks = {(bool(style.bold), bool(style.reverse), bool(style.underline)) for style in marked}
    if depth == "none":
        assert len(looks) == 4
        assert all(style.color is None and style.bgcolor is None for style in table.values())
    else:
        greys = [luminance(shown(style)[1], "none") for style in marked]
        assert len({*map(str, greys)}) >= 3


def test_a_normal_screen_is_grey() -> None:
    for name, role in itertools.product(("day", "night"), ROLES):
        if role in ("entry", "caution", "alarm"):
            continue
        ink, paper = shown(styles(name=name, depth="full")[role])  # type: ignore[arg-type]
        assert len(set(ink)) == len(set(paper)) == 1, role


def test_nothing_blinks_and_nothing_is_dim() -> None:
    for name, depth in itertools.product(("day", "night"), DEPTHS):
        for style in styles(name=name, depth=depth).values():  # type: ignore[arg-type]
            assert not style.blink and not style.dim and not style.italic

"""Lengths and numbers as they are said, to the letter, in mm and in inch; and the one gate for numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from rules.checks import (
    OutOfRange,
    fixed,
    hundredth,
    known,
    named_each,
    number,
    numbers,
    one_of,
    plain,
    size_text,
    sizes_near,
    span,
    to_places,
)
from rules.lengths import (
    INCH,
    MM,
    bare,
    by_rule,
    good_to,
    in_unit,
    length,
    microns,
    plainly,
    short,
    sixteenths,
    size,
    speaking,
    spoken,
    translated,
)


def both(say: Any, *what: Any) -> tuple[str, str]:
    """The same in mm and in inch."""
    with speaking(INCH):
        inch = say(*what)
    return say(*what), inch


@pytest.mark.parametrize(
    ("say", "what", "mm", "inch"),
    [
        (bare, (28.4,), "28.40", "1.1181"),
        (bare, (28.4, 0), "28", "1.12"),
        (bare, (28.4, 1), "28.4", "1.118"),
        (bare, (0.5455, 3), "0.546", "0.0215"),
        (bare, (0.5455, 4), "0.5455", "0.02148"),
        (length, (28.4,), "28.40 mm", "1.1181 in"),
        (length, (0.545, 3), "0.545 mm", "0.0215 in"),
        (size, (32.036,), "32.036", "1.2613"),
        (size, (32.0,), "32.00", "1.2598"),
        (plainly, (0.1,), "0.1 mm", "0.0039 in"),
        (plainly, (25.4,), "25.4 mm", "1 in"),
        (plainly, (2.54,), "2.54 mm", "0.1 in"),
        (plainly, (2.5,), "2.5 mm", "0.0984 in"),
        (plainly, (0.0254,), "0.0254 mm", "0.001 in"),
        (plainly, (0.025,), "0.025 mm", "0.00098 in"),
        (good_to, (0.0027,), "0.003", "0.0001"),
        (good_to, (0.013,), "0.01", "0.0005"),
        (good_to, (0.00004,), "0.00004", "0.000002"),
        (good_to, (0.0,), "0.00", "0.0000"),
        (good_to, (0.001,), "0.001", "0.00004"),
        (by_rule, (12.4,), "12.4 mm", "8/16 in"),
        (microns, (40.2,), "0.04 mm", "0.0016 in"),
        (microns, (0.63,), "under 0.001 mm", "0.00003 in"),
        (short, (), "mm", "in"),
    ],
)
def test_a_length_is_said(say: Any, what: tuple[Any, ...], mm: str, inch: str) -> None:
    assert both(say, *what) == (mm, inch)


def test_a_unit_that_is_named_counts() -> None:
    assert length(28.4, unit=INCH) == "1.1181 in" and both(length, 28.4, 2, MM) == ("28.40 mm", "28.40 mm")
    assert (short(INCH), short(MM), good_to(0.0027, unit=INCH)) == ("in", "mm", "0.0001")
    assert [in_unit(50.8, unit) for unit in ("inch", "in", "mm")] == [2.0, 2.0, 50.8]
    assert [sixteenths(mm) for mm in (25.4, 1.5875, 0.7, 0.8)] == [16, 1, 0, 1]


def test_what_is_spoken_ends_with_the_asking() -> None:
    with pytest.raises(ValueError), speaking(INCH):
        assert spoken() == INCH
        raise ValueError
    assert spoken() == MM


@pytest.mark.parametrize(
    ("said", "inch"),
    [
        (
            "wall: 0.11 mm is outside 0.2 to 5 mm; measure again",
            "wall: 0.0043 in is outside 0.0079 to 0.1969 in; measure again",
        ),
        ("25.4 mm2 of 3 N", "25.4 mm2 of 3 N"),
        ("ring 2, 25.4 mm long", "ring 2, 1.0000 in long"),
    ],
)
def test_a_refusal_in_inch(said: str, inch: str) -> None:
    assert both(translated, said) == (said, inch)


def test_numbers_as_they_are_written() -> None:
    assert [plain(value) for value in (33.2, 0.00004, -0.00001, 100.0, 0.12345, -2.5)] == [
        "33.2",
        "0",
        "0",
        "100",
        "0.1235",
        "-2.5",
    ]
    assert plain(0.25, 1) == "0.2" and plain(1234.0, 0) == "1234"
    halves = {26.875: 26.88, 26.8749999999: 26.88, 26.874: 26.87, -0.125: -0.13}
    assert {value: to_places(value, 2) for value in halves} == halves and to_places(2.5, 0) == 3.0
    assert (fixed(33.205), fixed(0.4875, 3), fixed(3.0), fixed(2.5, 0)) == ("33.21", "0.488", "3.00", "3")
    assert (span(18.2, 33.4), span(18.2, 18.4), span(17.6, 18.4)) == ("18 to 33", "18", "18")
    assert (hundredth(33.205), size_text(32.04), size_text(32.036), size_text(32.05481)) == (
        33.21,
        "32.04",
        "32.036",
        "32.0548",
    )


@pytest.mark.parametrize(
    ("wanted", "low", "high", "steps", "found"),
    [
        (26.61, 26.6135, 26.656, (0.05, 0.01), [26.65]),
        (26.61, 26.6135, 26.64, (0.05, 0.01), [26.62]),
        (26.63, 26.60, 26.66, (0.01,), [26.63, 26.62, 26.64]),
        (26.70, 26.60, 26.66, (0.01,), [26.66, 26.65]),
        (26.60, 26.601, 26.609, (0.01,), []),
        (26.60, 26.60, 26.60, (0.05,), [26.6]),
    ],
)
def test_sizes_near_a_wanted_one(
    wanted: float, low: float, high: float, steps: tuple[float, ...], found: list[float]
) -> None:
    assert sizes_near(wanted, low_mm=low, high_mm=high, steps_mm=steps) == found


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (4.999, "case bore: 4.999 mm is outside 5 to 80 mm; measure it again"),
        (80.01, "case bore: 80.01 mm is outside 5 to 80 mm; measure it again"),
        (math.nan, "case bore: nan is not a finite number; key a number in mm"),
        (math.inf, "case bore: inf is not a finite number; key a number in mm"),
        ("7", "case bore: '7' is not a number; key a number in mm"),
        (True, "case bore: True is not a number; key a number in mm"),
        (None, "case bore: None is not a number; key a number in mm"),
    ],
)
def test_the_gate_for_numbers(value: Any, said: str) -> None:
    with pytest.raises(OutOfRange) as why:
        number("case bore", value, low=5, high=80, unit="mm")
    assert str(why.value) == said
    with pytest.raises(OutOfRange) as why:
        numbers(("spares", 1, 0, 4, ""), ("rings", 9, 0, 4, ""), advice="")
    assert str(why.value) == "rings: 9 is outside 0 to 4;"
    with pytest.raises(OutOfRange, match=r"^spares: nan is not a finite number; key a number$"):
        number("spares", math.nan, low=0, high=4, unit="")


def test_words_and_names() -> None:
    assert one_of("theme", "day", ("day", "night")) == "day" and known("thing", "a", {"a": 3}) == 3
    with pytest.raises(OutOfRange, match=r"^theme: 'noon' is not known; known are day, night$"):
        one_of("theme", "noon", ("day", "night"))
    with pytest.raises(OutOfRange, match=r"^thing: 'b' is not known; known are a$"):
        known("thing", "b", {"a": 3})
    named_each("speeds", (), 3)
    named_each("speeds", ("a", "b"), 2)
    for names in (("a",), ("a", "a"), ("a", " "), ("a", "b", "c")):
        with pytest.raises(
            OutOfRange, match=rf"^speeds: {len(names)} names for 2; give each its own, or leave them"
        ):
            named_each("speeds", names, 2)

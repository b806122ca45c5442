"""What slides and dials show, each figure worked out by hand on both surfaces and both ways of counting."""

from __future__ import annotations

from typing import Any

import pytest

from rules.equipment import Axis
from rules.lengths import speaking
from rules.turning.readout import (
    CrossFrame,
    beside,
    carriage_figure,
    carriage_shows,
    carriage_target,
    carriage_words,
    decimals,
    divisions_words,
    figure,
    size,
)
from rules.turning.short_words import shortened

DIAL: dict[str, Any] = {"shows": "radius", "step_mm": 0.01, "division_mm": 0.02, "divisions_per_turn": 100}


def frame(surface: str = "outside", zero: float = 36.0, offset: float = 0.0, **axis: Any) -> CrossFrame:
    return CrossFrame(axis=Axis(**axis), surface=surface, zero_diameter_mm=zero, offset_mm=offset)


@pytest.mark.parametrize(
    ("made", "diameter", "steps", "after", "shown", "sense"),
    [
        (frame(), 33.204, 3320, 33.20, 33.2, -1),
        (frame(surface="bore", zero=13.0), 32.04, 3204, 32.04, 32.04, 1),
        (frame(offset=0.03), 33.20, 3317, 33.20, 33.17, -1),
        (frame(shows="radius", step_mm=0.01), 33.21, 1660, 33.2, 16.6, -1),
        # Counted from the touch: 36.00 to 33.20 is 1.40 of travel, with 0.03 more on the tool 1.415.
        (frame(direction="inward", shows="radius"), 33.2, 140, 33.2, 1.4, 1),
        (frame(direction="inward", offset=0.04), 33.2, 284, 33.2, 2.84, 1),
        (frame(surface="bore", zero=13.0, direction="inward"), 32.04, 1904, 32.04, 19.04, 1),
        (frame(surface="bore", zero=13.0, offset=-0.02, direction="inward"), 32.04, 1906, 32.04, 19.06, 1),
        (frame(**DIAL), 33.2, 140, 33.2, 1.4, 1),
        (frame(surface="bore", zero=13.0, **DIAL), 32.04, 952, 32.04, 9.52, 1),
    ],
)
def test_steps_and_sizes(
    made: CrossFrame, diameter: float, steps: int, after: float, shown: float, sense: int
) -> None:
    assert (made.steps_at(diameter), made.diameter_at(steps), made.shown_at(steps)) == (steps, after, shown)
    assert made.cut_sense == sense


@pytest.mark.parametrize(
    ("made", "steps", "said"),
    [
        (frame(), 3300, "it: go to 33.00, diameter"),
        (frame(shows="radius"), 1650, "it: go to 16.50, radius"),
        (frame(direction="inward"), 280, "it: go to 2.80 from zero, diameter, makes 33.20"),
        (
            frame(surface="bore", zero=13.0, direction="inward"),
            904,
            "it: go to -9.04 from zero, diameter, makes 22.04",
        ),
        (frame(**DIAL), 141, "it: go to 0 turns 29.5 dial, makes 33.18"),
        (frame(**DIAL, direction="inward"), 200, "it: go to 1 turn 0 div, makes 32.00"),
        (
            frame(**DIAL, direction="inward", surface="bore", zero=13.0),
            230,
            "it: go to 1 turn 85 dial, makes 17.60",
        ),
        (frame(**DIAL, direction="outward"), 230, "it: go to 1 turn 85 dial, makes 31.40"),
        (frame(**DIAL, direction="outward"), 200, "it: go to 1 turn 0 dial, makes 32.00"),
        (
            frame(**(DIAL | {"divisions_per_turn": 0}), direction="outward"),
            230,
            "it: go to 115 div, makes 31.40",
        ),
        (
            frame(step_mm=0.005, shows="radius", direction="inward", zero=36.01),
            100,
            "it: go to 0.500 from zero, radius, makes 35.01",
        ),
        (frame(step_mm=0.005, direction="inward"), 1, "it: go to 0.005 from zero, diameter, makes 35.995"),
    ],
)
def test_a_target_as_a_sentence(made: CrossFrame, steps: int, said: str) -> None:
    assert made.sentence(steps, "it") == said


def test_what_is_shown_has_its_word() -> None:
    assert [frame().shows, frame(shows="radius").shows, frame(**DIAL).shows] == ["diameter", "radius", "dial"]
    assert [frame().is_absolute, frame(direction="inward").is_absolute, frame(**DIAL).is_absolute] == [
        True,
        False,
        False,
    ]
    assert (carriage_shows(Axis()), carriage_shows(Axis(**DIAL))) == ("length", "dial")


@pytest.mark.parametrize(
    ("made", "diameter", "again", "said"),
    [
        (frame(), 36.0, False, "touch off on the outside (36.00): set the read-out to 36.00, diameter"),
        (
            frame(),
            33.6,
            True,
            "touch off on the outside (33.60): the read-out must show 33.60, diameter; if not, set it",
        ),
        (
            frame(offset=0.04),
            36.0,
            False,
            "touch off on the outside (36.00): set the read-out to 35.96, diameter",
        ),
        (frame(direction="inward"), 36.0, False, "touch off on the outside (36.00): set the read-out to 0"),
        (
            frame(direction="inward", offset=0.1),
            36.0,
            False,
            "touch off on the outside (36.00): set the read-out to 0",
        ),
        (
            frame(direction="inward"),
            33.0,
            True,
            "touch off on the outside (33.00): the read-out must show 3.00, diameter; if not, set it",
        ),
        (
            frame(**DIAL),
            36.0,
            False,
            "touch off on the outside (36.00), moving in: dial to 0; turned in it counts down from 100",
        ),
        (
            frame(**DIAL, direction="inward"),
            33.0,
            False,
            "touch off on the outside (33.00), moving in: dial to 75, counted as 0 turns 75 div; "
            "turned in it counts up",
        ),
        (
            frame(**(DIAL | {"divisions_per_turn": 0}), surface="bore", zero=13.0, direction="inward"),
            13.4,
            False,
            "touch off on the bore (13.40), moving out: dial to 0, counted as 10 div; "
            "turned out it counts down",
        ),
        (
            frame(**DIAL, direction="outward", surface="bore", zero=13.0),
            13.0,
            False,
            "touch off on the bore (13.00), moving out: dial to 0; turned out it counts up",
        ),
    ],
)
def test_how_a_tool_is_touched_off(made: CrossFrame, diameter: float, again: bool, said: str) -> None:
    assert made.touch_words(diameter, again) == said


def test_where_the_edge_that_counts_stands_elsewhere() -> None:
    said = frame(zero=39.6, direction="inward").touch_words(39.6, False, " at the end", touched_mm=33.6)
    assert said == "touch off on the outside at the end (33.60): set the read-out to 0"


def test_backlash_is_taken_up() -> None:
    assert frame().backlash_words() == ""
    said = "come to every figure moving {0}; past it, back {1} {2} and come again"
    down, bored = (
        "{0}, the dial counting down",
        {"surface": "bore", "direction": "inward", "backlash_mm": 0.08},
    )
    dial = frame(**DIAL | bored)
    assert frame(**DIAL).backlash_words() == said.format(
        down.format("in"), "out", "by more than the backlash"
    )
    assert dial.backlash_words() == said.format(down.format("out"), "in", "by over 0.08 mm")
    assert shortened(dial.backlash_words()) == "out, dial down; past it 0.08 mm back"
    bore = frame(surface="bore", backlash_mm=0.08)
    assert bore.backlash_words() == said.format("out", "in", "by over 0.08 mm")
    assert frame(backlash_mm=0.0508, unit="inch").backlash_words() == said.format(
        "in", "out", "by over 0.0020 in"
    )


def test_figures_have_the_decimals_of_their_step() -> None:
    steps = {0.01: 2, 0.05: 2, 0.5: 2, 0.005: 3, 0.0127: 4, 0.0254: 4, 0.0005: 4, 0.00025: 5, 0.000127: 5}
    assert {step: decimals(step) for step in steps} == steps
    assert figure(Axis(step_mm=0.0254, unit="inch"), 25.4) == "1.000 in"
    assert [figure(Axis(step_mm=step), 2.5) for step in (0.02, 0.0125)] == ["2.50", "2.5000"]
    with speaking("inch"):
        assert figure(Axis(), 25.4) == "25.40 mm" and beside(Axis(), 25.4) == "1.0000 in"
        assert beside(Axis(unit="inch"), 25.4) == "1.0000 in"
    assert beside(Axis(unit="inch"), 25.4) == "25.40 mm" and beside(Axis(), 25.44, 1) == "25.4"
    sizes = {33.2: "33.20", 33.205: "33.205", 33.2003: "33.20", 33.2006: "33.201"}
    assert {value: size(Axis(), value) for value in sizes} == sizes


def test_turns_and_divisions() -> None:
    plain = Axis(**DIAL)
    said = {0.0: "0 turns 0 div", 1.99: "0 turns 99.5 div", 2.0: "1 turn 0 div", 4.01: "2 turns 0.5 div"}
    said[-2.02] = "1 turn 1 div before 0"
    assert {shown: divisions_words(plain, shown) for shown in said} == said
    assert divisions_words(Axis(division_mm=0.05), 2.525) == "50.5 div"


@pytest.mark.parametrize(
    ("step", "distance", "up", "target"),
    [
        (0.05, 2.51, True, 2.55),
        (0.05, 2.51, False, 2.5),
        (0.05, 2.53, False, 2.55),
        (0.05, 2.5, True, 2.5),
        (0.02, 1.1, True, 1.1),
        (0.0254, 2.2, True, 2.2098),
    ],
)
def test_where_the_carriage_can_be_set(step: float, distance: float, up: bool, target: float) -> None:
    assert carriage_target(Axis(step_mm=step), distance, up=up) == target


def test_figures_of_the_carriage() -> None:
    to, away = (Axis(shows="length", direction=way) for way in ("to_chuck", "from_chuck"))
    assert (carriage_figure(to, 2.2), carriage_figure(away, 2.2)) == ("2.20", "-2.20")
    dial = Axis(
        shows="length", step_mm=0.01, division_mm=0.02, divisions_per_turn=100, direction="from_chuck"
    )
    assert carriage_figure(dial, 2.2) == "1 turn 10 div"
    assert carriage_words(to, 2.2) == "go to 2.20, length"
    assert carriage_words(dial, 2.205) == "go to 1 turn 10.25 div, makes 2.205"

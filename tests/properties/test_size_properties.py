"""What has to hold for every job in the allowed ranges."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from hypothesis import assume, event, given, settings, strategies as st

from bench.units import length_mm
from rules import limits, tables
from rules.checks import OutOfRange
from rules.sizing import figures
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from rules.sizing.thumb import usual_interference_mm
from tests.assessing import assess, fit_of

MORE = settings(max_examples=40, deadline=None)


def _between(name: str) -> st.SearchStrategy[float]:
    low, high, _ = limits.RANGES[name]
    return st.floats(low, high, allow_nan=False)


@st.composite
def sections(draw: st.DrawFn) -> dict[str, Any]:
    """A case with its metal, wall and height, and a glass."""
    return {
        "case_metal": draw(st.sampled_from([k for k in tables.metals() if k != "plastic"])),
        "case_wall_mm": draw(_between("case wall")),
        "case_height_mm": draw(_between("case height")),
        "ring_offset_mm": draw(st.floats(0.0, 1.0)),
        "glass_material": draw(st.sampled_from(list(tables.glasses()))),
        "glass_thickness_mm": draw(_between("glass thickness")),
    }


@st.composite
def questions(draw: st.DrawFn) -> SizingQuestion:
    """Any question inside the ranges whose wall can be turned."""
    bore = draw(_between("case bore"))
    glass = draw(st.floats(4.0, 80.0))
    assume(glass < bore)
    gap = (bore - glass) / 2
    assume(gap + usual_interference_mm(gap) > limits.LEAST_WALL_MM + 0.01)
    maybe: dict[str, Any] = {
        "height_mm": "height",
        "seat_depth_mm": "seat depth",
        "glass_edge_mm": "glass edge",
        "friction": "friction",
        "case_bore_u_mm": "case bore uncertainty",
        "glass_u_mm": "glass uncertainty",
        "ovality_mm": "ovality",
        "overpressure_bar": "overpressure",
        "press_force_n": "press force",
        "turning_spread_mm": "turning spread",
        "case_yield_mpa": "case yield",
    }
    known: dict[str, Any] = {field: draw(st.none() | _between(name)) for field, name in maybe.items()}
    if draw(st.booleans()):
        known |= draw(sections())
    material = draw(st.sampled_from(list(tables.plastics())))
    return SizingQuestion(
        case_bore_mm=bore, glass_mm=glass, material=material, rigid=draw(st.booleans()), **known
    )


def _finite(node: Any) -> bool:
    if isinstance(node, dict):
        return all(_finite(below) for below in node.values())
    if isinstance(node, list):
        return all(_finite(below) for below in node)
    return not isinstance(node, float) or math.isfinite(node)


@given(questions())
@settings(max_examples=200, deadline=None)
def test_no_input_in_range_raises_or_gives_nan(asked: SizingQuestion) -> None:
    answer = size(asked)
    event("window open" if answer.window.feasible else "window shut")
    event("model known" if answer.fit.contact_pressure_mpa is not None else "model unknown")
    tree = figures.tree(answer)
    assert _finite(tree)
    assert 0.0 <= answer.window.chance <= 1.0
    if answer.window.feasible:
        assert answer.window.chance <= answer.window.best_chance + 1e-4
        assert tree["window"]["bore_low_mm"] <= tree["window"]["bore_high_mm"] + 1e-9
    assert sum(line.share for line in answer.resolved.budget.components) < 1.0 + 1e-9


RINGS = st.tuples(st.floats(18.0, 42.0), st.floats(0.3, 1.2), st.floats(0.3, 3.0), st.floats(0.02, 0.6))


@given(RINGS, sections(), st.floats(0.02, 0.3), st.floats(0.0, 0.2))
@MORE
def test_tighter_bore_never_lowers_contact_pressure(
    ring: tuple[float, float, float, float], section: dict[str, Any], bite: float, tighter: float
) -> None:
    glass, gap, height, friction = ring
    given_sizes: dict[str, Any] = {
        "case_bore_mm": glass + 2 * gap,
        "glass_mm": glass,
        "outside_diameter_mm": glass + 2 * gap,
        "height_mm": height,
        "friction": friction,
    }
    wide = assess(bore_mm=glass - bite, **given_sizes, **section)
    tight = assess(bore_mm=glass - bite - tighter, **given_sizes, **section)
    assert wide.contact_pressure_mpa is not None and tight.contact_pressure_mpa is not None
    assert tight.contact_pressure_mpa >= wide.contact_pressure_mpa - 1e-9
    assert (tight.contact_pressure_10y_mpa or 0) >= (wide.contact_pressure_10y_mpa or 0) - 1e-9


@given(RINGS, sections(), st.floats(0.02, 0.3), st.floats(1.0, 10.0), st.floats(0.0, 10.0))
@MORE
def test_stiffer_case_never_lowers_contact_pressure(
    ring: tuple[float, float, float, float],
    section: dict[str, Any],
    bite: float,
    stiffer: float,
    thicker: float,
) -> None:
    glass, gap, height, friction = ring
    metal = tables.metals()[section["case_metal"]]
    assert metal.youngs_modulus_mpa is not None
    stiff = replace(metal, youngs_modulus_mpa=metal.youngs_modulus_mpa * stiffer)
    given_sizes: dict[str, Any] = {
        "case_bore_mm": glass + 2 * gap,
        "glass_mm": glass,
        "outside_diameter_mm": glass + 2 * gap,
        "bore_mm": glass - bite,
        "height_mm": height,
        "friction": friction,
    }
    soft = assess(**given_sizes, **section).contact_pressure_mpa
    wall = min(20.0, section["case_wall_mm"] + thicker)
    harder = assess(**given_sizes, **(section | {"case_metal": stiff})).contact_pressure_mpa
    heavier = assess(**given_sizes, **(section | {"case_wall_mm": wall})).contact_pressure_mpa
    assert soft is not None and harder is not None and heavier is not None
    assert harder >= soft - 1e-9
    assert heavier >= soft - 1e-9


@st.composite
def ordinary(draw: st.DrawFn) -> SizingQuestion:
    """A job of a usual watch, with as much known as chance has it."""
    glass = draw(st.floats(18.0, 42.0))
    asked = SizingQuestion(
        case_bore_mm=glass + 2 * draw(st.floats(0.3, 1.2)),
        glass_mm=glass,
        height_mm=draw(st.floats(0.8, 2.4)),
        material=draw(st.sampled_from(["acetal", "pa66", "pa12", "peek", "uhmwpe"])),
        case_bore_u_mm=draw(st.floats(0.002, 0.08)),
        glass_u_mm=draw(st.floats(0.002, 0.04)),
        turning_spread_mm=draw(st.floats(0.001, 0.03)),
        ovality_mm=draw(st.sampled_from([0.0, 0.02, 0.06])),
        overpressure_bar=draw(st.none() | st.floats(1.0, 5.0)),
        press_force_n=draw(st.none() | st.floats(500.0, 4000.0)),
    )
    if draw(st.booleans()):
        asked = replace(
            asked,
            case_metal=draw(st.sampled_from(["316L", "brass", "titanium2"])),
            case_wall_mm=draw(st.floats(0.8, 4.0)),
            case_height_mm=draw(st.floats(1.5, 5.0)),
            glass_material=draw(st.sampled_from(["sapphire", "mineral"])),
            glass_thickness_mm=draw(st.floats(1.0, 3.0)),
        )
    return asked


@given(
    ordinary(),
    st.sampled_from(["case_bore_u_mm", "glass_u_mm", "turning_spread_mm"]),
    st.floats(1.0, 4.0),
)
@MORE
def test_more_uncertainty_never_raises_the_chance(asked: SizingQuestion, which: str, times: float) -> None:
    """Of the best bore, before it is rounded to a step of the lathe."""
    worse = replace(asked, **{which: getattr(asked, which) * times})
    before, after = size(asked).window, size(worse).window
    event("window open" if before.feasible else "window shut")
    assert after.best_chance <= before.best_chance + 2e-4


@given(st.floats(18.0, 42.0), st.floats(0.3, 1.2), st.floats(0.8, 2.4))
@MORE
def test_the_same_in_inches(glass: float, gap: float, height: float) -> None:
    """Keyed in inches with all decimals, every figure is the same to 1e-6."""
    lengths = {"case_bore_mm": glass + 2 * gap, "glass_mm": glass, "height_mm": height}
    known: dict[str, Any] = {
        "case_metal": "316L",
        "case_wall_mm": 2.0,
        "case_height_mm": 3.0,
        "overpressure_bar": 3.0,
        "glass_material": "sapphire",
        "glass_thickness_mm": 1.5,
    }
    in_mm: dict[str, Any] = {name: length_mm(f"{value:.9f}") for name, value in lengths.items()}
    in_inches: dict[str, Any] = {name: length_mm(f"{value / 25.4:.14f}in") for name, value in in_mm.items()}
    ours, theirs = (figures.flat(size(SizingQuestion(**one, **known))) for one in (in_mm, in_inches))
    assert ours.keys() == theirs.keys()
    for name, value in ours.items():
        if isinstance(value, float):
            assert abs(theirs[name] - value) <= 1e-6 * max(1.0, abs(value)), name
        elif name != "budget":
            assert theirs[name] == value, name


@given(st.sampled_from(list(limits.RANGES)), st.floats(allow_nan=True, allow_infinity=True))
@MORE
def test_outside_a_range_is_refused_in_one_line(name: str, value: float) -> None:
    low, high, _ = limits.RANGES[name]
    assume(not low <= value <= high)
    try:
        limits.within(name, value)
    except OutOfRange as refused:
        assert name in str(refused)
        assert "\n" not in str(refused)
    else:
        raise AssertionError(f"{name} took {value}")


@given(ordinary(), st.floats(0.9, 1.3))
@settings(max_examples=10, deadline=None)
def test_what_a_ring_does_is_the_same_with_its_window_and_without(
    asked: SizingQuestion, share: float
) -> None:
    """What these properties are drawn on is what the sizing gives."""
    outside = asked.case_bore_mm
    bore = outside - 2 * max(limits.LEAST_WALL_MM, share * (outside - asked.glass_mm) / 2)
    asked = replace(asked, outside_mm=outside, bore_mm=bore)
    assert fit_of(asked) == size(asked).fit

"""The foot of a ring beside finite elements, and its load beside published figures and itself."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.checks import OutOfRange
from rules.foot.bearing import Bearing, FootLaw, load_n
from rules.foot.sizing import FootQuestion, foot_sizing
from rules.tables import plastics
from tests.independent.foot_section import PART, Foot, pressure

SOFT = FootLaw(1.0, 1000.0, 0.363)
"""A modulus of 1, and so strong that nothing of it bends off."""
ASKED = FootQuestion(
    seat_depth_mm=1.6,
    ledge_mm=28.4,
    glass_mm=29.5,
    edge_mm=1.28,
    bevel_mm=0.2,
    over_mm=0.0,
    plastic=plastics()["acetal"],
)


def off_pct(foot: Foot, law: FootLaw = SOFT) -> float:
    """How far the rules let it sink beyond the finite elements under the same pressure, %."""
    inside = 2.0 * foot.inside_radius
    bearing = Bearing(inside + 2.0 * foot.bearing, inside, foot.thick)
    sinks = law.sinks_mm(bearing, pressure(foot) * PART)
    assert sinks is not None
    return 100.0 * (sinks / (PART * foot.thick) - 1.0)


@pytest.mark.parametrize(
    "foot",
    [
        *(Foot(bearing, thick) for thick, bearing in ((0.25, 0.35), (0.25, 1.2), (0.4, 0.5), (0.6, 0.3))),
        Foot(0.5, 0.4, bevel=0.3, wall=0.35, nu=0.40),
    ],
)
def test_it_sinks_as_finite_elements_say_within_five_per_cent(foot: Foot) -> None:
    assert abs(off_pct(foot)) <= 5.0


def test_a_foot_that_is_held_sinks_less_and_a_wrong_law_is_noticed() -> None:
    foot = Foot(0.5, 0.4)
    assert pressure(foot, held=True) > 1.1 * pressure(foot)
    assert abs(off_pct(foot, FootLaw(1.0, 1000.0, 0.0))) > 10.0, "without plane strain"
    bare = pressure(foot) * (1.0 - foot.nu**2)
    assert bare > 1.1, "without what spreads under the edge of the glass"


def test_the_load_of_ten_bar_on_thirty_two_millimetres() -> None:
    """800 N, and about 16 MPa on a foot half a millimetre wide (pressure times area, force over area)."""
    load = load_n(pressure_bar=10.0, glass_mm=32.0)
    assert load == pytest.approx(1.0 * math.pi * 16.0**2)
    assert Bearing(32.0, 31.0, 0.4).stress_mpa(load) == pytest.approx(16.25, abs=0.01)


def test_creep_counts_by_what_is_left_and_a_foot_too_narrow_gives_way() -> None:
    one = foot_sizing(ASKED)
    assert one.sinks_mm is not None and one.years_mm is not None
    assert one.years_mm / one.sinks_mm == pytest.approx(1.0 / 0.30, rel=0.35)
    deep = foot_sizing(replace(ASKED, pressure_bar=30.0))
    assert deep.gives_way == "in years of 30 bar" and "gives way" in " ".join(deep.warnings)
    assert foot_sizing(replace(ASKED, pressure_bar=90.0)).gives_way == "at 90 bar"
    assert foot_sizing(replace(ASKED, plastic=None)).sinks_mm is None


def test_thickness_follows_the_height_and_the_bore_ledge_and_dial() -> None:
    one = foot_sizing(ASKED)
    assert (one.thick_mm, one.inside_mm, one.stands_over_mm) == (0.32, 28.4, 0.0)
    assert foot_sizing(replace(ASKED, over_mm=0.15)).thick_mm == 0.47
    assert foot_sizing(replace(ASKED, through_mm=28.15)).inside_mm == 28.55
    near = foot_sizing(replace(ASKED, through_mm=28.15, inside_mm=28.4))
    assert any("clear of what stands" in text for text in near.warnings)
    wrong = (
        replace(ASKED, edge_mm=1.45),
        replace(ASKED, through_mm=28.9),
        replace(ASKED, ledge_mm=28.8),
        replace(ASKED, thick_mm=0.1),
    )
    for question in wrong:
        with pytest.raises(OutOfRange, match="foot: "):
            foot_sizing(question)


def test_hanging_in_the_wall_the_glass_stays_off_the_foot() -> None:
    hangs = foot_sizing(replace(ASKED, home=False))
    assert hangs.thick_mm + ASKED.edge_mm <= ASKED.seat_depth_mm - 0.05 + 1e-9
    assert any("hangs" in text for text in hangs.warnings)

"""What is accepted of a number that is keyed: both ends of every range, and nothing beyond."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from rules.checks import OutOfRange
from rules.instrument import Instrument
from rules.measuring.reading import judge, summarise
from rules.measuring.seat_by_plug import seat_from_plug
from rules.measuring.student import coverage_factor
from rules.press_and_tester import Press
from rules.sizing.decision import ring_decision
from rules.sizing.learned import RingTried
from rules.sizing.question import SizingQuestion
from rules.sizing.squeeze import Band
from rules.testing.leak_fit import fit_leak
from rules.testing.methods import offered_pressure, rising_pressures
from rules.testing.rig import Rig

PLAIN = SizingQuestion(case_bore_mm=33.2, glass_mm=32.0)
QUESTION = {
    "case_bore_mm": (5.0, 80.0),
    "seat_depth_mm": (0.3, 6.0),
    "glass_edge_mm": (0.3, 6.0),
    "glass_thickness_mm": (0.3, 6.0),
    "height_mm": (0.3, 6.0),
    "case_wall_mm": (0.2, 20.0),
    "case_height_mm": (0.2, 20.0),
    "friction": (0.02, 0.6),
    "case_bore_u_mm": (0.0, 0.5),
    "glass_u_mm": (0.0, 0.5),
    "ovality_mm": (0.0, 0.5),
    "overpressure_bar": (0.0, 100.0),
    "press_force_n": (10.0, 50000.0),
    "turning_spread_mm": (0.0, 0.2),
    "ring_offset_mm": (0.0, 10.0),
    "temperature_c": (-20.0, 60.0),
    "support_mm": (3.0, 32.0),
    "case_yield_mpa": (20.0, 2000.0),
    "lathe_step_mm": (0.0005, 0.5),
    "height_spread_mm": (0.0, 0.2),
    "hand_scale_pct": (0.2, 3.0),
    "outside_mm": (4.0, 81.0),
}
"""Field of a question to the sizing: lowest and highest."""
RIG = {
    "volume_cm3": (0.05, 100.0),
    "volume_u_cm3": (0.0, 0.05),
    "overpressure_bar": (0.1, 200.0),
    "step": (1e-9, 1e9),
    "temperature_c": (0.0, 50.0),
}
"""The same of a test with readings; the volume is 0.05 cm3, so its doubt is that at most."""
BAND = Band(5.0, 13.0)


def question(field: str) -> Callable[[float], object]:
    """A question with one figure changed."""
    small = {"case_bore_mm": {"glass_mm": 4.0}, "outside_mm": {"case_bore_mm": 80.0}}.get(field, {})
    return lambda value: replace(PLAIN, **(small | {field: value}))  # type: ignore[arg-type]


def rig(field: str) -> Callable[[float], object]:
    """A rig with one figure changed."""
    plain = {"volume_cm3": 0.05, "volume_u_cm3": 0.0, "overpressure_bar": 2.0, "step": 0.1}
    return lambda value: Rig(**(plain | {field: value}))


def decided(**changed: Any) -> object:
    """A decision on a ring as made, with one figure changed."""
    plain: dict[str, Any] = {"walls_mm": [0.6] * 4, "wall_u_mm": 0.01, "gap_mm": 0.55, "gap_u_mm": 0.01}
    return ring_decision(**(plain | changed))


def tried(**changed: Any) -> object:
    """A ring that was tried, with one figure changed."""
    plain: dict[str, Any] = {"number": 1, "outcome": "home", "wall_mm": 0.6, "band": BAND}
    return RingTried(**(plain | changed))


OTHERS: dict[str, tuple[Callable[[float], object], float, float]] = {
    "glass": (lambda v: SizingQuestion(case_bore_mm=80.0, glass_mm=v), 4.0, 79.999),
    "bore": (lambda v: replace(PLAIN, outside_mm=33.2, bore_mm=v), 0.1, 32.8),
    "wall of a ring made": (lambda v: decided(walls_mm=[v]), 0.05, 10.0),
    "gap of a ring made": (lambda v: decided(gap_mm=v), 0.02, 10.0),
    "doubt of a wall": (lambda v: decided(wall_u_mm=v), 0.0, 1.0),
    "doubt of a gap": (lambda v: decided(gap_u_mm=v), 0.0, 1.0),
    "wall of a ring tried": (lambda v: tried(wall_mm=v), 0.02, 10.0),
    "doubt of a ring tried": (lambda v: tried(wall_u_mm=v), 0.0, 1.0),
    "most of a band": (lambda v: Band(0.0, v), 0.0, 50.0),
    "least of a band": (lambda v: Band(v, 13.0), 0.0, 13.0),
    "plug that enters": (lambda v: seat_from_plug(enters_mm=v, stays_out_mm=v + 0.02), 3.0, 89.98),
    "plug that does not": (lambda v: seat_from_plug(enters_mm=v - 0.02, stays_out_mm=v), 3.02, 90.0),
    "limit of a plug": (
        lambda v: seat_from_plug(enters_mm=33.0, stays_out_mm=33.1, plug_limit_mm=v),
        0.0,
        0.05,
    ),
    "reading": (lambda v: summarise([v], limit_of_error_mm=0.02, resolution_mm=0.01), 0.01, 1000.0),
    "limit of error": (lambda v: summarise([9.0], limit_of_error_mm=v, resolution_mm=0.01), 0.0, 1.0),
    "resolution": (lambda v: summarise([9.0], limit_of_error_mm=0.02, resolution_mm=v), 0.0, 1.0),
    "reading to be judged": (lambda v: judge([v], within_mm=0.2), 0.0, 1000.0),
    "readings agree within": (lambda v: judge([9.0], within_mm=v), 0.0, 5.0),
    "press": (lambda v: Press(largest_force_n=v), 10.0, 50000.0),
    "step of an instrument": (lambda v: instrument(resolution_mm=v), 0.0001, 0.1),
    "error of an instrument": (lambda v: instrument(limit_of_error_mm=v), 0.0001, 0.5),
    "tester": (lambda v: offered_pressure(marking_bar=3.0, tester_bar=v), 0.01, 200.0),
    "marking": (lambda v: offered_pressure(marking_bar=v, tester_bar=3.0), 0.01, 200.0),
    "test pressure": (rising_pressures, 0.01, 200.0),
    "hold": (lambda v: fitted(fixed_hold_s=v), 600.0, 864_000.0),
    "after venting": (lambda v: fitted(after_venting_reading=v), -1e9, 1e9),
    "planned with a reading": (lambda v: Rig(2.0, 0.1, 2.0, 0.1).planned_hold_s(v), 1e-9, 1e9),
    "planned with a scatter": (lambda v: Rig(2.0, 0.1, 2.0, 0.1).planned_hold_s(10.0, scatter=v), 0.0, 10.0),
    "degrees of freedom": (coverage_factor, 1.0, 1e12),
    "level": (lambda v: coverage_factor(9.0, v), 0.5, 0.9999),
    "planned readings": (lambda v: Rig(2.0, 0.1, 2.0, 0.1).planned_hold_s(10.0, readings=int(v)), 5, 100_000),
}


def instrument(**changed: Any) -> object:
    """A calliper with one figure changed."""
    plain: dict[str, Any] = {
        "name": "mine",
        "kind": "calliper",
        "resolution_mm": 0.01,
        "limit_of_error_mm": 0.02,
    }
    return Instrument(**(plain | changed))


def fitted(**changed: Any) -> object:
    """A record of eleven minutes."""
    times = [60.0 * minute for minute in range(12)]
    return fit_leak(times, [10.0] * 12, Rig(2.0, 0.1, 2.0, 0.1), **changed)


UNITS = r"mm|bar|N|MPa|C|%|s|cm3|\(gauge\)|points of squeeze"
SAID = re.compile(rf"^[\w' ]+: \S+ ?({UNITS})? (is outside \S+ to \S+( ({UNITS}))?;|must be under|is under)")
"""How a refusal reads: name, value, unit, range."""
ALL = (
    OTHERS
    | {f"question: {name}": (question(name), *ends) for name, ends in QUESTION.items()}
    | {f"rig: {name}": (rig(name), *ends) for name, ends in RIG.items()}
)


@pytest.mark.parametrize("name", ALL)
def test_both_ends_are_accepted_and_nothing_beyond(name: str) -> None:
    make, low, high = ALL[name]
    beyond = 1 if name == "planned readings" else 1e-4 * max(abs(low), abs(high))
    below = low - 1 if name == "planned readings" else low - max(1e-4 * abs(low), 1e-10)
    make(low)
    make(high)
    for value in (below, high + beyond):
        with pytest.raises(OutOfRange) as refused:
            make(value)
        assert SAID.search(str(refused.value)), str(refused.value)


def test_the_steps_of_a_plug_lie_in_order_and_near() -> None:
    assert seat_from_plug(enters_mm=33.0, stays_out_mm=33.5).diameter_mm == 33.25
    for apart in (-0.02, 0.0, 0.501):
        with pytest.raises(OutOfRange, match="give the larger one second"):
            seat_from_plug(enters_mm=33.0, stays_out_mm=33.0 + apart)


@pytest.mark.parametrize(
    "name", [one for one in ALL if one not in ("planned readings", "degrees of freedom")]
)
@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, "7", True])
def test_what_is_no_number_is_refused_as_such(name: str, value: float) -> None:
    with pytest.raises((OutOfRange, TypeError)):
        ALL[name][0](value)


def test_a_refusal_says_name_value_range_and_unit() -> None:
    refused_ones: tuple[tuple[Callable[[], object], str], ...] = (
        (lambda: replace(PLAIN, friction=0.7), "friction: 0.7 is outside 0.02 to 0.6"),
        (lambda: replace(PLAIN, temperature_c=61.0), "temperature: 61 C is outside -20 to 60 C"),
        (lambda: tried(wall_mm=11.0), "wall: 11 mm is outside 0.02 to 10 mm"),
        (lambda: decided(gap_u_mm=2.0), "uncertainty of the gap: 2 mm is outside 0 to 1 mm"),
        (lambda: rig("overpressure_bar")(0.05), "overpressure: 0.05 bar is outside 0.1 to 200 bar"),
        (lambda: replace(PLAIN, support_mm=32.5), "support diameter: 32.5 mm must be under the glass, 32 mm"),
        (lambda: replace(PLAIN, glass_mm=33.2), "glass: 33.2 mm must be under the case bore, 33.2 mm"),
        (
            lambda: replace(PLAIN, outside_mm=33.2, bore_mm=33.2),
            "bore: 33.2 mm must be under the ring's outside",
        ),
        (lambda: replace(PLAIN, outside_mm=33.2, bore_mm=32.82), "wall: 0.190 mm is under 0.20 mm, too thin"),
    )
    for make, words in refused_ones:
        with pytest.raises(OutOfRange) as refused:
            make()
        assert words in str(refused.value)

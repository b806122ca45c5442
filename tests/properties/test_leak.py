"""The leak's result for any readings at all: no crash, and no pass that is not earned."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from hypothesis import given, settings, strategies as st

from rules.testing.air import worse_law
from rules.testing.leak_fit import fit_leak
from rules.testing.leak_result import Leak
from rules.testing.rig import Rig

pytestmark = pytest.mark.xdist_group("leak properties")

REACHED: Counter[str] = Counter()


@st.composite
def readings(draw: st.DrawFn) -> tuple[list[float], list[float], float]:
    """Decays, rises, steps, silence and nonsense, with a gauge step."""
    n = draw(st.integers(5, 40))
    gaps = draw(st.lists(st.floats(1.0, 120.0), min_size=n - 1, max_size=n - 1))
    times = [0.0]
    for gap in gaps:
        times.append(times[-1] + gap)
    step = draw(st.sampled_from([0.001, 0.1, 1.0]))
    size = draw(st.sampled_from([0.0, 0.3, 2.0, 10.0, 200.0, -10.0]))
    per_s = draw(st.sampled_from([-5e-4, 0.0, 1e-5, 2e-4, 5e-4, 2e-3, 0.05]))
    noise = draw(st.lists(st.floats(-1.0, 1.0), min_size=n, max_size=n))
    loud = draw(st.sampled_from([0.0, 0.02, 5.0]))
    raw = [
        size * math.exp(-min(per_s * time, 60.0)) + loud * one for time, one in zip(times, noise, strict=True)
    ]
    return times, [round(one / step) * step for one in raw], step


@settings(max_examples=400, deadline=None, derandomize=True)
@given(
    data=readings(),
    volume=st.floats(0.1, 20.0),
    share=st.floats(0.0, 0.6),
    overpressure=st.floats(0.2, 15.0),
    vented=st.none() | st.floats(-20.0, 20.0),
)
def test_any_readings_give_a_result_that_is_earned(
    data: tuple[list[float], list[float], float],
    volume: float,
    share: float,
    overpressure: float,
    vented: float | None,
) -> None:
    times, signal, step = data
    leak = fit_leak(
        times,
        signal,
        Rig(volume, share * volume, overpressure, step),
        after_venting_reading=vented,
    )
    REACHED[f"{leak.decision} {leak.kind}"] += 1
    assert leak.hold_needed_s >= 600.0 and leak.hold_needed_s % 60.0 == 0.0
    assert leak.law == worse_law(overpressure)[0]
    assert leak.reason
    if leak.decision == "PASS":
        assert leak.high_ug_min is not None and leak.high_ug_min <= 50.0
        assert leak.settled and leak.duration_s >= leak.hold_needed_s - 1e-6
        assert max(abs(one) for one in signal[:3]) >= 3 * step
    if leak.decision == "FAIL" and leak.kind == "measured":
        assert leak.low_ug_min is not None and leak.low_ug_min > 50.0
        assert leak.duration_s >= leak.hold_needed_s - 1e-6
    if leak.decision == "NOT_JUDGED":
        assert leak.rate_ug_min is None and leak.settled is None
    check_figures(leak)


def check_figures(leak: Leak) -> None:
    figures = (leak.rate_ug_min, leak.low_ug_min, leak.high_ug_min, leak.signal_at_start, leak.decay_per_s)
    assert all(math.isfinite(one) for one in figures if one is not None)
    if leak.low_ug_min is not None and leak.rate_ug_min is not None:
        assert leak.low_ug_min <= leak.rate_ug_min
    for time_s in (0.0, leak.duration_s):
        fitted, limit = leak.fitted(time_s), leak.at_limit(time_s)
        assert (fitted is None or fitted >= 0.0) and (limit is None or limit >= 0.0)


def test_every_kind_of_result_was_reached() -> None:
    """Runs after the one above, in the order of this file."""
    assert {
        "PASS measured", "FAIL measured", "UNDECIDED measured", "FAIL gross", "NOT_JUDGED no_deflection",
        "NOT_JUDGED too_stiff", "NOT_JUDGED dropped_out",
    } <= set(REACHED), REACHED  # fmt: skip

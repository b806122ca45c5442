"""Edges of the rules, each with its figure worked out here: what a small slip would move unseen."""

from __future__ import annotations

import math
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from rules.checks import OutOfRange
from rules.sizing import chance, remedies
from rules.sizing.decision import ring_decision
from rules.sizing.demands import Limit
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from rules.sizing.squeeze import Band
from rules.sizing.why import IF_ELASTIC, opened, reason
from rules.sizing.why_words import digits, said, sentences
from rules.testing import leak_fit
from rules.turning import correction, savings
from rules.turning.schedule import rough_steps
from tests.rules.test_turning import planned

PLAIN = SizingQuestion(case_bore_mm=33.20, glass_mm=32.14)
CASED = replace(
    PLAIN, height_mm=1.1, case_metal="316L", case_wall_mm=3.5, case_height_mm=4.0, glass_material="sapphire"
)


def test_a_refused_figure_is_called_by_its_name() -> None:
    rest: dict[str, Any] = {"band": Band(5.8, 12.2), "shut": ""}
    named: tuple[tuple[str, dict[str, Any]], ...] = (
        ("wall", {"walls_mm": (0.01,), "wall_u_mm": 0.01, "gap_mm": 0.5, "gap_u_mm": 0.01}),
        ("gap", {"walls_mm": (0.6,), "wall_u_mm": 0.01, "gap_mm": 0.01, "gap_u_mm": 0.01}),
        ("uncertainty of the wall", {"walls_mm": (0.6,), "wall_u_mm": 1.1, "gap_mm": 0.5, "gap_u_mm": 0.01}),
        ("uncertainty of the gap", {"walls_mm": (0.6,), "wall_u_mm": 0.01, "gap_mm": 0.5, "gap_u_mm": 1.1}),
    )
    for name, given in named:
        with pytest.raises(OutOfRange, match=f"^{name}: "):
            ring_decision(**given, **rest)


def test_what_is_not_said_of_a_ring_is_taken_as_nothing_out_of_the_ordinary() -> None:
    """Flat glass, elastic parts, no rings tried: the glass's stress is worked out unless it is domed."""
    assert (PLAIN.glass_domed, PLAIN.rigid, PLAIN.tried) == (False, False, ())
    pressed = replace(PLAIN, glass_material="sapphire", glass_thickness_mm=1.5, overpressure_bar=5.0)
    assert size(pressed).glass.stress_supported_mpa is not None
    assert size(replace(pressed, glass_domed=True)).glass.stress_supported_mpa is None


def test_other_heights_go_as_far_up_as_down() -> None:
    lower, higher = remedies.HEIGHTS[::2], remedies.HEIGHTS[1::2]
    assert all(down < 1.0 < up for down, up in zip(lower, higher, strict=True))
    assert [down * up for down, up in zip(lower, higher, strict=True)] == pytest.approx([1.0] * 3, abs=0.05)
    assert list(lower) == sorted(lower, reverse=True), "the least change first"


def test_two_remedies_together_are_of_two_kinds(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    monkeypatch.setattr(remedies, "_tried", lambda question, words, changes: asked.append(words))
    tries: list[remedies.Try] = [("plastic", "a", {}), ("plastic", "b", {}), ("height", "c", {})]
    monkeypatch.setattr(remedies, "_closer", lambda _: iter(tries))
    monkeypatch.setattr(remedies, "_other", lambda *_: iter(()))
    poor = size(PLAIN)
    window = replace(poor.window, feasible=False)
    first = SimpleNamespace(chance=0.0, ring=poor.ring, window=window)
    monkeypatch.setattr(remedies, "_tried", lambda _, words, __: asked.append(words) if words else first)
    assert remedies.remedies(poor.resolved, replace(window, chance=0.0, ring_chance=0.0)) == ()
    assert [words for words in asked if ", with " in words] == ["a, with c", "b, with c"]


@pytest.mark.parametrize(("warmth", "due"), [(20.0, False), (20.5, False), (20.55, True), (19.4, True)])
def test_half_a_degree_off_is_not_said(warmth: float, due: bool) -> None:
    found = size(replace(PLAIN, temperature_c=warmth)).resolved.assumed
    assert ("sizes not corrected to 20 C where the material is not known" in found) is due


def test_a_tabled_figure_has_four_digits_and_an_estimate_two() -> None:
    assert (said(2823.44, "MPa", tabled=True), said(2823.44, "MPa")) == ("2823 MPa", "2800 MPa")
    assert (digits(2.82344, 4), digits(282.344, 4)) == ("2.823", "282.3")
    assert [said(one, "mm") for one in (2.1234, 1.9876, 0.6204, 0.0123, 0.00456)] == [
        "2.12 mm", "1.988 mm", "0.62 mm", "0.012 mm", "0.0046 mm",
    ]  # fmt: skip


def test_a_ring_no_thicker_than_its_gap_is_said_to_press_nothing() -> None:
    """Gap 0.53; a bore of 32.20 leaves a wall of 0.50."""
    loose = size(replace(PLAIN, outside_mm=33.20, bore_mm=32.20))
    assert "no thicker: nothing is pressed together, and nothing seals." in sentences(loose)[1]
    assert "0.530 mm" in sentences(loose)[1] and "0.500 mm" in sentences(loose)[1]
    tight = sentences(size(replace(PLAIN, outside_mm=33.20, bore_mm=32.04)))[1]
    assert "thicker by 0.050 mm or 8.6 % of it" in tight


def test_a_window_without_a_hundredth_is_keyed_in_thousandths() -> None:
    window = size(PLAIN).window
    narrow = replace(window, bore_low_mm=32.0412, bore_high_mm=32.0488)
    assert narrow.works_mm == (32.042, 32.048)
    assert replace(narrow, bore_high_mm=32.0419).works_mm == (32.0412, 32.0419)
    assert replace(window, bore_low_mm=32.0312, bore_high_mm=32.0688).works_mm == (32.04, 32.06)


def test_a_limit_without_an_end_moves_with_the_gap() -> None:
    """Where a wall has no end the difference says nothing: it is taken to grow as the gap does."""
    endless = Limit("no end", True, lambda gap, height: math.inf, True)
    line = Limit("a line", True, lambda gap, height: 0.3 * gap + 0.1, True)
    assert chance._slope(endless, 0.5, 1.0, 0.01) == 1.0
    assert chance._slope(line, 0.5, 1.0, 0.01) == pytest.approx(0.3)
    straight = chance._Straight.of(line, 0.5, 1.0, chance.Spread(0.01, 0.01, 0.05))
    assert straight.at(0.5, 1.0) == pytest.approx((0.25, 0.3))
    steep = replace(straight, limit=endless, steep=True)
    assert steep.at(0.5, 1.0) == (math.inf, 1.0)


def test_a_hold_long_enough_within_the_scatter_counts_in_whole_minutes() -> None:
    """590 s are needed of a signal at the end of its scatter, 700 s of the one fitted."""
    rig: Any = SimpleNamespace(least_hold_s=lambda signal: 700.0 if signal <= 20.0 else 590.0)
    line: Any = SimpleNamespace(residual_sd=0.01, autocorrelation=0.0, n=13, middle=300.0, root_sxx=600.0)
    held = [leak_fit._hold_from(rig, line, 20.0, duration) for duration in (589.0, 590.0, 659.0, 700.0)]
    assert held == [700.0, 540.0, 600.0, 700.0]


def test_the_later_readings_last_as_long_as_their_times_say() -> None:
    """Even steps: the root of the sum of squares about their middle is step sqrt(n (n^2 - 1) / 12)."""
    step, n, seen = 50.0, 7, list[float]()

    def half_width(_line: object, *, signal: float, duration_s: float) -> float:
        seen.append(duration_s)
        return signal

    rig: Any = SimpleNamespace(
        half_width=half_width,
        decision=lambda rate, half: "PASS",
        scale=1.0,
    )
    later: Any = SimpleNamespace(n=n, level=3.0, slope=0.0, root_sxx=step * math.sqrt(n * (n * n - 1) / 12.0))
    assert not leak_fit._later_fails(rig, later)
    assert seen == pytest.approx([(n - 1) * step])


def test_what_is_left_is_held_against_the_cut_before_it() -> None:
    """0.16 is left after a cut of 0.18: one more alike; after none that is known, by the usual 0.10, two."""
    data = SimpleNamespace(least_depth=0.05, finish_depth=0.10)
    run: Any = SimpleNamespace(
        order=SimpleNamespace(data=data),
        frame=SimpleNamespace(steps_at=lambda _: 32, cut_sense=1, step_on_diameter_mm=0.01),
        wanted_mm=30.0,
        limit_mm=0.01,
    )
    known: Any = SimpleNamespace(steps=0, cut_depth_mm=0.18)
    assert correction._what_is_left(run, known, 0.16) == (correction.GO_ON, (32,))
    unknown: Any = SimpleNamespace(steps=0, cut_depth_mm=None)
    assert correction._what_is_left(run, unknown, 0.16) == (correction.MEASURED_AGAIN, (16, 16))


def test_each_cut_of_a_chamfer_takes_the_time_of_its_own_length() -> None:
    """Wall 1.40, chamfer 1.10: two cuts, each from where the one before it ended."""
    made = planned(bore_mm=30.40, chamfer_mm=1.10)
    cuts = made.of("chamfer")
    assert len(cuts) > 1
    assert sum(one.cut_depth_mm or 0.0 for one in cuts) == pytest.approx(1.10, abs=0.011)
    for one in cuts:
        assert one.rpm and one.feed_mm and one.cut_depth_mm
        assert one.minutes == pytest.approx(one.cut_depth_mm / (one.feed_mm * one.rpm), abs=6e-4)


@pytest.mark.parametrize(
    ("then", "said_of_it"),
    [((12, 9.0), ""), ((9, 19.5), ""), ((9, 9.0), "6 of 15 passes, about 11 min"), ((12, 19.0), "")],
)
def test_neither_few_passes_nor_little_time_is_worth_a_word(
    monkeypatch: pytest.MonkeyPatch, then: tuple[int, float], said_of_it: str
) -> None:
    order = planned().order
    wider = replace(order.opening, hole_mm=order.opening.hole_mm + 5.0)
    costs = iter(((15, 20.0), (then[0] + (then[0] == 12), then[1])))
    monkeypatch.setattr(savings, "_cost", lambda _: next(costs))
    assert savings._saved(order, wider) == said_of_it
    assert savings._saved(order, order.opening) == ""


def test_no_sequence_of_cuts_is_refused_with_both_ends() -> None:
    with pytest.raises(
        OutOfRange, match=r"0\.150 mm on the diameter cannot be taken in cuts of 0\.2 to 1 mm"
    ):
        rough_steps(to_take_mm=0.15, step_mm=0.01, limit_mm=0.5, finish_step=20)


def test_half_the_pressure_is_said_to_a_hundredth() -> None:
    asked = size(replace(PLAIN, overpressure_bar=2.25))
    words = [words for kind, words, _ in remedies._other(asked.resolved, None) if kind == "pressure"]
    assert words == ["a test at 1.12 bar"]


def test_a_bezel_that_stretches_has_its_elastic_figures_called_so() -> None:
    """0.8 of half-hard brass round a squeeze of 17 %: past 124 MPa it yields; 316L, 3.5 thick, does not."""
    asked = replace(PLAIN, outside_mm=33.20, bore_mm=31.90, height_mm=1.2, case_height_mm=3.0)
    soft = size(replace(asked, case_metal="brass", case_wall_mm=0.8, case_yield_mpa=124.0))
    stiff = size(replace(asked, case_metal="316L", case_wall_mm=3.5))
    assert soft.fit.stretched is not None and stiff.fit.stretched is None
    name = "fit.contact_pressure_mpa"
    assert opened(soft, name).reason.name == opened(stiff, name).reason.name + IF_ELASTIC
    assert opened(soft, "fit.nominal_squeeze_pct").reason.name == reason("fit.nominal_squeeze_pct").name

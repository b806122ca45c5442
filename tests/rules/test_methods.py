"""Methods, cautions and offers: the rules that keep a test from doing harm or claiming too much."""

from __future__ import annotations

import itertools

import pytest

from rules.cautions import caution, for_place, places
from rules.checks import OutOfRange
from rules.testing.methods import (
    SITTINGS,
    allowed,
    methods,
    offered_pressure,
    rising_pressures,
)

WET = {"water_overpressure", "shallow_immersion", "crown_force", "condensation", "bubble"}
NEEDED_PLACES = {
    "luminous_paint", "bench_glass", "lathe", "parting", "swarf", "ptfe", "acetal_heat", "press",
    "pressure_air", "pressure_water", "vent", "warm_plate", "solvents", "battery",
}  # fmt: skip


def test_the_eight_methods() -> None:
    assert set(methods()) == WET | {"dry_deflection", "dry_pass_fail", "underpressure"}
    for one in methods().values():
        assert one.can_prove and one.cannot_prove and one.steps and one.source
        assert one.cautions(), one.key
        assert set(one.sittings) <= set(SITTINGS)
        assert all(seconds > 0 for seconds in one.timers_s.values())


def test_permission_over_all_combinations() -> None:
    """Water never with old paint, and before a passed dry test only the bubbles; 2^4 x 8 x 2 cases."""
    granted = 0
    flags = itertools.product(*[(False, True)] * 4)
    for (old_paint, dry_passed, divers, equipped), key, sitting in itertools.product(
        flags, methods(), SITTINGS
    ):
        reason = allowed(
            key,
            sitting=sitting,
            old_paint=old_paint,
            dry_passed=dry_passed,
            divers=divers,
            divers_equipped=equipped,
        )
        forbidden = (
            (key in WET and old_paint)
            or (key in WET - {"bubble"} and not dry_passed)
            or (key == "bubble" and sitting == "cased")
            or (divers and not equipped and key.endswith(("deflection", "fail", "overpressure", "bubble")))
        )
        assert (reason is not None) == forbidden, (
            key,
            sitting,
            old_paint,
            dry_passed,
            divers,
            equipped,
            reason,
        )
        granted += reason is None
    assert granted > 100


def test_divers_watches_are_refused_politely() -> None:
    reason = allowed("dry_deflection", sitting="cased", old_paint=False, dry_passed=False, divers=True)
    assert reason is not None and "please" in reason and "125 %" in reason


def test_unknown_names_are_refused() -> None:
    with pytest.raises(OutOfRange, match="dry_deflection"):
        allowed("steam", sitting="cased", old_paint=False, dry_passed=True)
    with pytest.raises(OutOfRange, match="empty or cased"):
        allowed("bubble", sitting="worn", old_paint=False, dry_passed=True)


@pytest.mark.parametrize(
    ("marking_bar", "tester_bar", "divers", "offered", "covers"),
    [
        (5.0, 2.5, False, 2.5, False),
        (3.0, 10.0, False, 3.0, True),
        (20.0, 30.0, True, 25.0, True),
        (20.0, 20.0, True, 20.0, False),
        (None, 6.0, False, 2.0, False),
        (None, 1.0, False, 1.0, False),
    ],
)
def test_the_smaller_is_offered(
    marking_bar: float | None, tester_bar: float, divers: bool, offered: float, covers: bool
) -> None:
    offer = offered_pressure(marking_bar=marking_bar, tester_bar=tester_bar, divers=divers)
    assert offer.overpressure_bar == offered
    assert ("will not be tested" in offer.words) == (marking_bar is not None and not covers)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf"), 201.0])
def test_absurd_pressures_are_refused(bad: float) -> None:
    with pytest.raises(OutOfRange):
        offered_pressure(marking_bar=3.0, tester_bar=bad)


def test_pressure_starts_low_and_rises() -> None:
    for bar in (0.3, 0.5, 1.0, 2.5, 10.0, 25.0):
        steps = rising_pressures(bar)
        assert list(steps) == sorted(set(steps))
        assert 0 < steps[0] <= 0.5 and steps[-1] == bar


def test_cautions_stand_at_every_place_of_danger() -> None:
    assert set(places()) >= NEEDED_PLACES
    for place in places():
        for one in for_place(place):
            assert one.title and one.source and one.lines
            assert len(one.title) <= 58 and all(len(line) <= 58 for line in one.lines), one.key
            assert one == caution(one.key)


def test_every_caution_says_where_it_is_from() -> None:
    ways = ("opened", "memory", "no source", "computed", "our judgement")
    for place in places():
        for one in for_place(place):
            assert any(way in one.source for way in ways), one.key


def test_radium_and_lathe_defer_to_local_rules() -> None:
    assert "Local rules" in " ".join(caution("radium").lines)
    assert any("licensed practice" in " ".join(one.lines) for one in for_place("lathe"))


def test_an_unknown_place_is_refused_with_the_list() -> None:
    with pytest.raises(OutOfRange, match="lathe"):
        for_place("cellar")
    with pytest.raises(OutOfRange, match="radium"):
        caution("ghosts")

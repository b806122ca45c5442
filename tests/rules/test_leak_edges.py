"""Where a word of the leak tests begins and ends, figures by hand."""

from __future__ import annotations

import math

import pytest

from rules.checks import OutOfRange
from rules.testing.air import air_ug_cm3_bar, share_by_lesser_law, worse_law
from rules.testing.creep import after_venting, silent_words, unreadable
from rules.testing.gauge import inward, sign, usable
from rules.testing.leak_curve import leak_curve
from rules.testing.leak_fit import fit_leak
from rules.testing.leak_result import Leak
from rules.testing.method_table import duration
from rules.testing.methods import offered_pressure, rising_pressures
from rules.testing.pressure import marking, to_bar
from rules.testing.rig import Rig
from rules.testing.volume import by_size, measured

AIR = 1188.4


def gone(
    rate: float, *, volume: float = 2.0, doubt: float = 0.3, every: float = 30.0
) -> tuple[Leak, list[float]]:
    """A leak at 2 bar so large that the deflection is gone within the hold; and the times."""
    per_s = rate / (volume * AIR * 2.0) / 60.0
    times = [every * i for i in range(round(660 / every))]
    signal = [10.0 * math.exp(-per_s * time) for time in times]
    return fit_leak(times, signal, Rig(volume, doubt, 2.0, 0.001)), times


@pytest.mark.parametrize("doubt", [0.0, 0.3, 1.0])
def test_a_gross_leak_is_at_least_what_empties_the_case_by_then(doubt: float) -> None:
    """To a tenth by the first reading under it: ln 10 over that time; less the doubt about the volume."""
    leak, times = gone(2000.0, doubt=doubt)
    per_s = 2000.0 / (2.0 * AIR * 2.0) / 60.0
    at = next(time for time in times if math.exp(-per_s * time) < 0.1)
    least = math.log(10.0) / at * 60.0 * 2.0 * AIR * 2.0
    assert leak.kind == "gross" and leak.rate_ug_min == pytest.approx(least)
    assert leak.low_ug_min == pytest.approx(least * (1.0 - doubt / 2.0))
    assert leak.decay_per_s == pytest.approx(math.log(10.0) / at)
    assert (leak.high_ug_min, leak.settled, leak.signal_at_start) == (None, None, 10.0)
    assert leak.duration_s == times[-1] and leak.limit_decay_per_s == pytest.approx(50 / (120 * AIR * 2))
    assert f"gone after {at:.0f} s, at least {least:.0f} ug/min" in leak.reason


def test_a_gross_leak_of_a_volume_hardly_known_is_undecided() -> None:
    """Ten minutes to a tenth in 0.2 cm3 is over the limit, but not less nine tenths of it."""
    sure, _ = gone(400.0, volume=0.2, doubt=0.01)
    unsure, _ = gone(400.0, volume=0.2, doubt=0.19)
    assert (sure.decision, unsure.decision) == ("FAIL", "UNDECIDED")
    assert unsure.kind == "gross" and (unsure.low_ug_min or 0.0) < 50.0


def test_a_gross_leak_over_the_limit_by_one_law_only_says_what_decides() -> None:
    """Gone after nine minutes at 10 bar from 0.15 cm3: over the limit as an opening, under it if laminar."""
    times = [60.0 * i for i in range(16)]
    signal = [10.0 * math.exp(-0.0045 * time) for time in times]
    leak = fit_leak(times, signal, Rig(0.15, 0.003, 10.0, 0.001), fixed_hold_s=900.0)
    assert leak.kind == "gross" and 50.0 < (leak.low_ug_min or 0.0) < 50.0 / share_by_lesser_law(10.0)
    assert leak.decision == "UNDECIDED" and "the same test at 2 bar over decides" in leak.reason
    sure = [10.0 * math.exp(-0.02 * time) for time in times]
    found = fit_leak(times, sure, Rig(0.15, 0.003, 10.0, 0.001), fixed_hold_s=900.0)
    assert found.decision == "FAIL" and "law" not in found.reason


def test_a_coarse_step_bounds_what_has_gone() -> None:
    """Of 5 steps a fifth is the last that can be seen: ln 5, not ln 10."""
    times = [30.0 * i for i in range(21)]
    signal = [5.0, 4.0, 3.0, 2.0, *[0.0] * 17]
    leak = fit_leak(times, signal, Rig(2.0, 0.3, 2.0, 1.0))
    assert leak.kind == "gross"
    assert leak.rate_ug_min == pytest.approx(math.log(5.0) / 120.0 * 60.0 * 2.0 * AIR * 2.0)


def test_a_record_gone_before_five_readings_is_gross_and_after_a_full_hold_is_fitted() -> None:
    quick, _ = gone(9000.0)
    assert quick.kind == "gross"
    times = [60.0 * i for i in range(30)]
    per_s = math.log(11.0) / 900.0
    late = fit_leak(times, [10.0 * math.exp(-per_s * time) for time in times], Rig(0.4, 0.02, 2.0, 0.001))
    assert late.kind == "measured" and late.duration_s == 840.0
    assert late.rate_ug_min == pytest.approx(per_s * 60.0 * 0.4 * AIR * 2.0)


def test_a_reading_that_comes_back_has_dropped_out() -> None:
    """Back over twice a tenth of the start."""
    times = [30.0 * i for i in range(25)]

    def kind(back: float) -> str:
        signal = [10.0] * 12 + [0.5] * 4 + [back] * 9
        return fit_leak(times, signal, Rig(2.0, 0.3, 2.0, 0.001)).kind

    assert (kind(1.9), kind(2.1)) == ("gross", "dropped_out")


@pytest.mark.parametrize(
    ("reading", "kind"),
    [(-0.101, "leak"), (-0.1, "neither"), (0.0, "neither"), (0.1, "neither"), (0.101, "creep")],
)
def test_after_venting_begins_past_a_step_or_a_hundredth(reading: float, kind: str) -> None:
    assert after_venting(reading=reading, step=0.1, overpressure_signal=3.0).kind == kind
    assert after_venting(reading=reading, step=0.001, overpressure_signal=-10.0).kind == kind


def test_how_little_can_be_read() -> None:
    """Under a step nothing, under three steps too stiff; what fell to less than half has filled."""
    for top, end, kind in (
        (0.099, 0.099, "no_deflection"),
        (0.1, 0.1, "too_stiff"),
        (0.299, 0.15, "too_stiff"),
        (0.299, 0.149, "no_deflection"),
    ):
        found = unreadable([top, top, end], start=top, step=0.1)
        assert found is not None and found[0] == kind, (top, end)
    assert unreadable([0.3, 0.3, 0.3], start=0.3, step=0.1) is None


@pytest.mark.parametrize(
    ("moves", "vented", "words"),
    [
        (None, -0.11, "Gross leak: the inside filled"),
        (None, -0.1, "Gross leak or no contact"),
        (False, 0.2, "No contact"),
        (True, None, "Gross leak, or a case too stiff"),
        (None, None, "Gross leak or no contact"),
    ],
)
def test_what_a_silent_gauge_may_mean(moves: bool | None, vented: float | None, words: str) -> None:
    assert silent_words(moves_when_touched=moves, after_venting_reading=vented, step=0.1).startswith(words)


@pytest.mark.parametrize(
    ("vented", "decision"), [(None, "NOT_JUDGED"), (-0.29, "NOT_JUDGED"), (-0.3, "FAIL")]
)
def test_a_silent_gauge_that_bulges_three_steps_has_leaked(vented: float | None, decision: str) -> None:
    times = [60.0 * i for i in range(11)]
    leak = fit_leak(times, [0.05] * 11, Rig(2.0, 0.3, 2.0, 0.1), after_venting_reading=vented)
    assert leak.decision == decision and leak.rate_ug_min is leak.signal_at_start is leak.decay_per_s is None
    assert leak.kind == ("gross" if decision == "FAIL" else "no_deflection")
    assert (leak.hold_needed_s, leak.duration_s, leak.settled) == (8580.0, 600.0, None)


def test_a_pass_with_creep_left_is_no_pass_and_no_other_verdict_changes() -> None:
    times = [60.0 * i for i in range(16)]

    def judged(fall: float, vented: float | None) -> Leak:
        signal = [10.0 * math.exp(-fall * time) for time in times]
        return fit_leak(times, signal, Rig(2.0, 0.1, 2.0, 0.01), after_venting_reading=vented)

    assert judged(1e-6, 0.1).decision == "PASS" and judged(1e-6, None).settled
    crept = judged(1e-6, 0.11)
    assert (crept.decision, crept.settled) == ("UNDECIDED", False)
    assert "limit. Pressed inward after venting" in crept.reason and not crept.reason.endswith(".")
    assert judged(1e-3, 0.5).decision == judged(1e-3, None).decision == "FAIL"


def test_readings_are_turned_and_kept_to_the_hold() -> None:
    assert sign([-1.0, -1.0, 3.0]) == 1.0 and sign([-1.0, -1.0, 1.9]) == -1.0
    assert sign([0.0, 0.0, 0.0, -9.0]) == 1.0
    times = [float(30 + 60 * i) for i in range(12)]
    kept, turned = usable(times, [-2.0] * 12, 600.0)
    assert kept == times[:11] and turned == [2.0] * 11
    assert len(usable(times, [2.0] * 12, None)[0]) == 12
    assert inward(-3.0, [-1.0] * 5) == 3.0 and inward(-3.0, [1.0] * 5) == -3.0
    assert inward(None, [1.0] * 5) is None
    with pytest.raises(OutOfRange, match="4 given, at least 5"):
        usable(times[:5], [1.0] * 5, 180.0)


def test_the_curve_of_a_test_is_the_readings_and_two_lines() -> None:
    times = [60.0 * i for i in range(12)]
    signal = [-10.0 * math.exp(-1e-4 * time) for time in times]
    leak = fit_leak(times, signal, Rig(2.0, 0.1, 2.0, 0.01))
    curve = leak_curve(times, signal, leak, unit="um")
    assert curve.unit == "um" and curve.minutes == (0.0, 11.0)
    assert list(curve.readings[3]) == pytest.approx([3.0, 10.0 * math.exp(-1e-4 * 180)])
    assert len(curve.fitted) == len(curve.limit) == 60 and curve.fitted[-1][0] == pytest.approx(11.0)
    assert curve.fitted[-1][1] == pytest.approx(10.0 * math.exp(-1e-4 * 660))
    at_limit = 50.0 / (60 * 2.0 * AIR * 2.0)
    assert curve.limit[-1][1] == pytest.approx(10.0 * math.exp(-at_limit * 660))
    assert list(curve.signals) == pytest.approx([10.0 * math.exp(-at_limit * 660), 10.0])
    alone = leak_curve(times, signal, None)
    assert (alone.fitted, alone.limit, alone.unit) == ((), (), "")
    assert list(alone.signals) == pytest.approx([10.0 * math.exp(-1e-4 * 660), 10.0])


def test_the_two_laws_of_flow() -> None:
    """As the difference, or as the difference of squares of the absolute pressures."""
    for bar in (0.5, 2.0, 5.0):
        laminar = (3.01325**2 - 1.01325**2) / ((1.01325 + bar) ** 2 - 1.01325**2)
        law, factor = worse_law(bar)
        assert factor == pytest.approx(max(2 / bar, laminar)) and law == ("laminar" if bar < 2 else "fixed")
        assert share_by_lesser_law(bar) == pytest.approx(min(2 / bar, laminar) / max(2 / bar, laminar))
    assert air_ug_cm3_bar(temperature_c=20.0) == AIR
    assert air_ug_cm3_bar(temperature_c=-23.15) == pytest.approx(AIR * 293.15 / 250.0)


def test_what_a_marking_means() -> None:
    assert [to_bar(*one) for one in ((5.0, "bar"), (50.0, "m"))] == [5.0, pytest.approx(5.0)]
    assert to_bar(5.0, "atm") == pytest.approx(5.06625) and to_bar(100.0, "ft") == pytest.approx(3.048)
    for unit, factor in (("bar", 1.0), ("atm", 1.01325), ("m", 0.1), ("ft", 0.03048)):
        assert to_bar(0.1 / factor + 1e-9, unit) == pytest.approx(0.1)
        assert to_bar(200.0 / factor - 1e-6, unit) == pytest.approx(200.0)
        for wrong in (0.099 / factor, 200.1 / factor):
            with pytest.raises(OutOfRange, match="look at the case again"):
                to_bar(wrong, unit)
    assert marking().overpressure_bar is None and marking(worded=True).overpressure_bar == 2.0
    assert marking(figure=30.0, unit="m").words == "30 m"
    hows = [marking(figure=30.0, unit=unit).how for unit in ("bar", "atm", "m", "ft")]
    assert hows[0] == "as marked" and "1.01325" in hows[1] and "10 m" in hows[2] and "feet" in hows[3]


def test_pressures_that_are_offered() -> None:
    assert rising_pressures(10.0) == (0.5, 5.0, 10.0) and rising_pressures(1.0) == (0.25, 0.5, 1.0)
    assert offered_pressure(marking_bar=None, tester_bar=6.0).overpressure_bar == 2.0
    assert offered_pressure(marking_bar=None, tester_bar=1.5).overpressure_bar == 1.5
    assert offered_pressure(marking_bar=4.0, tester_bar=5.0, divers=True).overpressure_bar == 5.0
    short = offered_pressure(marking_bar=4.4, tester_bar=5.0, divers=True)
    assert short.overpressure_bar == 5.0 and "125 % of the marking, 5.5 bar" in short.words
    assert "will not be tested" in short.words


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (1, "1 second"),
        (59, "59 seconds"),
        (60, "1 minute"),
        (90, "1.5 minutes"),
        (3599, "59.9833 minutes"),
        (3600, "1 hour"),
        (7200, "2 hours"),
    ],
)
def test_a_time_as_a_person_says_it(seconds: float, words: str) -> None:
    assert duration(seconds) == words


def test_volumes_by_size_and_measured() -> None:
    """A size is good to a half of it, a measured volume to a tenth (own judgement)."""
    sizes = {
        ("empty", "small"): 1.5,
        ("empty", "middle"): 3.0,
        ("empty", "large"): 6.0,
        ("empty", "chronograph"): 4.0,
        ("cased", "small"): 0.5,
        ("cased", "middle"): 1.0,
        ("cased", "large"): 2.0,
        ("cased", "chronograph"): 1.2,
    }
    for (sitting, size), cm3 in sizes.items():
        found = by_size(sitting, size)
        assert (found.cm3, found.u_cm3) == (cm3, cm3 / 2)
    assert measured(2.0).cm3 == 2.0 and measured(2.0).u_cm3 == pytest.approx(0.2)


def test_a_hold_that_cannot_be_says_what_to_do() -> None:
    times = [60.0 * minute for minute in range(12)]
    rig = Rig(2.0, 0.1, 2.0, 0.1)
    for hold in (599.0, 864_001.0):
        with pytest.raises(OutOfRange) as why:
            fit_leak(times, [10.0] * 12, rig, fixed_hold_s=hold)
        assert str(why.value) == f"hold: {hold:g} s is outside 600 to 864000 s; hold at least 10 minutes"
    said = "is outside 5 to 100000; read more often"
    with pytest.raises(OutOfRange, match=said):
        rig.planned_hold_s(10.0, readings=4)
    with pytest.raises(
        OutOfRange, match=r"signal: 0 \(gauge\) is outside .* \(gauge\); read the gauge under pressure"
    ):
        rig.planned_hold_s(0.0)
    with pytest.raises(
        OutOfRange, match=r"scatter: 11 \(gauge\) is outside 0 to 10 \(gauge\); less than the signal"
    ):
        rig.planned_hold_s(10.0, scatter=11.0)


def test_a_curve_by_its_points() -> None:
    """60 points over the whole time, the sign turned where the gauge counts down."""
    times = [60.0 * minute for minute in range(12)]
    leak = fit_leak(times, [10.0] * 12, Rig(2.0, 0.1, 2.0, 0.1))
    curve = leak_curve(times, [-10.0 - at / 100.0 for at in range(12)], leak, unit="um")
    assert (
        curve.readings[0] == (0.0, 10.0)
        and curve.readings[-1] == (11.0, 10.11)
        and curve.minutes == (0.0, 11.0)
    )
    assert len(curve.fitted) == len(curve.limit) == 60 and curve.unit == "um"
    assert curve.fitted[-1][0] == pytest.approx(11.0) and curve.limit[30][0] == pytest.approx(11.0 * 30 / 59)
    bare = leak_curve(times, [10.0] * 12, None)
    assert (bare.fitted, bare.limit, bare.unit, bare.signals) == ((), (), "", (10.0, 10.0))

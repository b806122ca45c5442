"""What the sizing says in the cases a repairer meets."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rules import limits
from rules.checks import OutOfRange
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from rules.sizing.thumb import propose, rules_of_thumb

PLAIN = SizingQuestion(case_bore_mm=33.20, glass_mm=32.14)
CASED = replace(
    PLAIN,
    height_mm=1.1,
    case_metal="316L",
    case_wall_mm=3.5,
    case_height_mm=4.0,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
)


def test_rule_of_thumb() -> None:
    """A seat of 31.00 and a glass of 30.00 want a ring 31.00 outside and 29.90 inside (common practice, no
    source).
    """
    answer = size(SizingQuestion(case_bore_mm=31.00, glass_mm=30.00))
    assert answer.ring.outside_diameter_mm == 31.00
    assert answer.ring.bore_mm == pytest.approx(29.90, abs=0.005)
    assert answer.window.target_bore_mm == pytest.approx(29.90, abs=0.005)
    assert answer.fit.contact_pressure_mpa is None
    assert answer.consequences.force_words == "not known"


@pytest.mark.parametrize(
    ("gap", "tenth_is_pct", "nine_is_mm"), [(0.3, 14, 0.06), (0.5, 9, 0.10), (1.2, 4, 0.24)]
)
def test_the_two_rules_side_by_side(gap: float, tenth_is_pct: float, nine_is_mm: float) -> None:
    """They agree near a gap of 0.5 (common practice, no source)."""
    thumb = rules_of_thumb(gap, outside_mm=30 + 2 * gap)
    assert thumb.tenth_squeeze_pct == pytest.approx(tenth_is_pct, abs=0.5)
    assert thumb.nine_interference_mm == pytest.approx(nine_is_mm, abs=0.005)


@pytest.mark.parametrize(
    ("bore", "glass", "interference"),
    [
        pytest.param(33.20, 32.14, 0.09 * 0.53 / 0.91, id="0.53: nine per cent"),
        pytest.param(30.80, 30.00, 0.09 * 0.40 / 0.91, id="0.40, the edge"),
        pytest.param(31.40, 30.00, 0.09 * 0.70 / 0.91, id="0.70, the edge"),
        pytest.param(30.60, 30.00, (0.09 * 0.30 / 0.91 + 0.05) / 2, id="0.30: between the two"),
        pytest.param(32.40, 30.00, (0.09 * 1.20 / 0.91 + 0.05) / 2, id="1.20: between the two"),
    ],
)
def test_proposed_bore(bore: float, glass: float, interference: float) -> None:
    ring = propose(case_bore_mm=bore, glass_mm=glass)
    assert ring.outside_diameter_mm == bore
    assert ring.bore_mm == pytest.approx(glass - 2 * interference, abs=0.005001)
    assert ring.bore_mm == round(ring.bore_mm, 2)
    assert ring.height_mm is None
    assert ring.lower_chamfer_mm == 0.10


def test_height_and_chamfer() -> None:
    """(1.50 - 0.10)(1 - 0.0862) = 1.279, down to 1.25;
    the chamfer is twice 0.05 at least 0.10, up to 0.05.
    """
    ring = propose(case_bore_mm=33.20, glass_mm=32.14, room_mm=1.50)
    assert ring.height_mm == 1.25
    assert size(replace(PLAIN, glass_edge_mm=1.50)).ring.height_mm == 1.25
    assert propose(case_bore_mm=33.20, glass_mm=32.14, height_mm=1.17, room_mm=1.5).height_mm == 1.17
    assert ring.chamfer_mm == 0.10
    assert propose(case_bore_mm=31.40, glass_mm=30.00).chamfer_mm == 0.15


def test_oval_seat_keeps_five_per_cent_on_its_long_axis() -> None:
    ring = propose(case_bore_mm=30.80, glass_mm=30.00, ovality_mm=0.08)
    long_axis = (ring.wall_mm - 0.40 - 0.02) / ring.wall_mm
    assert long_axis >= 0.05
    assert ring.wall_mm > propose(case_bore_mm=30.80, glass_mm=30.00).wall_mm
    answer = size(replace(PLAIN, ovality_mm=0.10))
    assert any("true the bezel first" in words for words in answer.warnings)
    assert answer.window.binds_high == "5 % on the long axis"


def test_window_without_metal_is_the_band() -> None:
    window = size(PLAIN).window
    assert window.feasible
    assert window.bore_high_mm == pytest.approx(33.20 - 2 * 0.53 / 0.95)
    assert window.bore_low_mm == pytest.approx(33.20 - 2 * 0.53 / 0.87)
    assert window.outside_high_mm is not None and window.target_bore_mm is not None
    assert window.outside_high_mm - window.target_bore_mm == pytest.approx(2 * 0.53 / 0.87)
    assert (window.squeeze_low_pct, window.squeeze_high_pct) == pytest.approx((5.0, 13.0))


def test_unknown_does_not_limit() -> None:
    assert size(replace(CASED, case_metal=None)).window.bore_low_mm == size(PLAIN).window.bore_low_mm
    pressed = size(replace(CASED, press_force_n=1500))
    assert pressed.window.binds_low == "the press, 1500 N"
    assert size(CASED).window.binds_low == "13 % of the wall"
    assert size(replace(CASED, rigid=True, press_force_n=1500)).window.binds_low == "13 % of the wall"


def test_the_bezel_limits_by_its_own_temper_or_by_the_hardest() -> None:
    """Of an unknown temper only what stretches the hardest is too tight."""
    bezel = replace(CASED, case_wall_mm=1.0, case_height_mm=2.5)
    open_temper = size(bezel)
    assert open_temper.fit.case_yields is None
    assert open_temper.consequences.stretch_words == "may stay stretched"
    assert open_temper.window.feasible
    assert open_temper.window.binds_low == "the bezel's yield, even if it is hard"
    over = size(replace(bezel, outside_mm=33.2, bore_mm=(open_temper.window.bore_low_mm or 0.0) - 0.005))
    assert over.fit.case_yields is True and over.window.off_words(over.ring.bore_mm)
    under = size(replace(bezel, outside_mm=33.2, bore_mm=(open_temper.window.bore_low_mm or 0.0) + 0.005))
    assert under.fit.case_yields is None
    thick = size(replace(bezel, case_wall_mm=3.5, case_height_mm=4.0))
    assert thick.window.binds_low == "13 % of the wall"
    soft = size(replace(bezel, case_yield_mpa=205))
    assert soft.fit.case_yields is True
    assert soft.consequences.stretch_words == "will stay stretched"
    assert not soft.window.feasible
    assert soft.window.chance == 0.0
    assert soft.window.target_bore_mm is None
    assert soft.window.help
    ceramic = size(replace(bezel, case_metal="ceramic"))
    assert ceramic.consequences.stretch_words == "does not stretch: it may crack"
    assert ceramic.fit.case_yields is None
    keyed = size(replace(bezel, case_metal="ceramic", case_yield_mpa=180.0))
    assert keyed.fit.case_yields is None and keyed.fit.yielded is None
    assert not any("will stay stretched" in words for words in keyed.warnings)


def test_help_names_what_opens_the_window() -> None:
    tight = size(replace(CASED, press_force_n=900))
    assert not tight.window.feasible
    stronger = next(one for one in tight.remedies if "a press of 3600 N" in one.words)
    assert stronger.said in tight.window.help and stronger.question.press_force_n == 3600
    assert stronger.chance == size(stronger.question).window.chance > 0.5
    assert tight.window.binds_low == "the press, 900 N"
    opened = size(replace(CASED, press_force_n=None))
    assert opened.window.feasible


def test_gentle_metals_get_the_lower_half() -> None:
    plated = size(replace(CASED, case_metal="brass_plated")).window
    thin_gold = size(replace(CASED, case_metal="gold18", case_wall_mm=1.0)).window
    stout_gold = size(replace(CASED, case_metal="gold18", case_wall_mm=3.0)).window
    assert plated.binds_low == thin_gold.binds_low == "9 % of the wall"
    assert stout_gold.binds_low == "13 % of the wall"
    assert plated.band == thin_gold.band and plated.band.high_pct == pytest.approx(9.0)


def test_loose_ring_bears_nothing() -> None:
    fit = size(replace(CASED, outside_mm=33.20, bore_mm=32.20)).fit
    assert fit.nominal_squeeze_pct < 0
    assert fit.real_squeeze_pct == fit.contact_pressure_mpa == fit.line_load_n_per_mm == 0.0
    assert (fit.seating_force_n.low, fit.seating_force_n.mid, fit.seating_force_n.high) == (0.0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (replace(PLAIN, material="ptfe"), "not advised"),
        (replace(PLAIN, material="pa66"), "swells"),
        (replace(CASED, glass_material="acrylic"), "its own spring"),
        (replace(CASED, case_metal="plastic"), "fit by thumb"),
        (replace(PLAIN, glass_mm=30.7), "is this the right glass"),
        (replace(PLAIN, glass_mm=32.76), "wall under 0.30"),
        (replace(CASED, glass_edge_mm=0.5), "straight edge"),
        (replace(CASED, old_glass="other"), "thinner"),
        (replace(CASED, height_mm=1.4, seat_depth_mm=1.4), "higher than its room"),
    ],
)
def test_warnings(asked: SizingQuestion, words: str) -> None:
    assert any(words in warning for warning in size(asked).warnings)


def test_few_warnings_on_a_good_job() -> None:
    assert size(replace(CASED, seat_depth_mm=1.4, glass_edge_mm=1.5)).warnings == ()


@pytest.mark.parametrize(
    "bad",
    [
        {"case_bore_mm": 4.9},
        {"case_bore_mm": float("nan")},
        {"glass_mm": 33.20},
        {"glass_mm": 33.00},
        {"friction": 0.7},
        {"case_wall_mm": 0.1},
        {"material": "wood"},
        {"case_metal": "tin"},
        {"glass_material": "quartz"},
        {"temperature_c": 70.0},
        {"outside_mm": 33.2, "bore_mm": 32.9},
        {"turning_spread_mm": float("inf")},
    ],
)
def test_refused(bad: dict[str, float]) -> None:
    with pytest.raises(OutOfRange):
        size(replace(CASED, **bad))  # type: ignore[arg-type]


def test_temperature_brings_sizes_to_20() -> None:
    """33.20 of 316L at 30 C is 5.3 um smaller at 20 C."""
    warm = size(replace(CASED, temperature_c=30.0))
    assert 1000 * (33.20 - warm.resolved.joint.case_bore_mm) == pytest.approx(5.3, abs=0.05)
    unknown = size(replace(PLAIN, temperature_c=30.0))
    assert unknown.resolved.joint.case_bore_mm == 33.20
    assert any("not corrected to 20 C" in words for words in unknown.resolved.assumed)


def test_budget_adds_up() -> None:
    budget = size(CASED).resolved.budget
    assert sum(one.share for one in budget.components) == pytest.approx(1.0)
    assert budget.u_mm**2 == pytest.approx(sum(one.u_mm**2 for one in budget.components))


def test_hold_against_underpressure() -> None:
    """0.7 bar on a glass of 32 mm pushes 56 N, 3 bar 241 N (force is pressure times area)."""
    from rules.sizing.demands import push_line_load

    for bar, newtons in ((0.7, 56), (3.0, 241)):
        load = push_line_load(pressure_bar=bar, glass_mm=32.0, friction=0.2)
        assert 0.2 * load * 3.14159 * 32.0 == pytest.approx(limits.HOLD_TIMES * newtons, rel=0.006)


def test_a_question_is_checked_when_it_is_made_and_not_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """A value out of range never becomes a question, nor a remedy: four times this press is no press."""
    with pytest.raises(OutOfRange, match="friction"):
        replace(CASED, friction=0.7)
    shut = replace(CASED, press_force_n=13000, case_yield_mpa=20)
    assert size(shut).window.help and not any("a press of" in words for words in size(shut).window.help)
    known = CASED

    def again(name: str, value: float | None) -> float:
        raise AssertionError(f"{name} is checked again: {value}")

    monkeypatch.setattr(limits, "within", again)
    monkeypatch.setattr(limits, "within_or_none", again)
    assert size(known).window.feasible


@pytest.mark.parametrize(
    ("low", "high", "works"),
    [
        (31.991, 32.019, (32.0, 32.01)),
        (32.0, 32.0, (32.0, 32.0)),
        (31.9981, 31.9999, (31.999, 31.999)),
        (31.9991, 31.9999, (31.9991, 31.9999)),
    ],
)
def test_bores_that_work_as_they_are_keyed(low: float, high: float, works: tuple[float, float]) -> None:
    """Hundredths inside the window, else thousandths, else its ends."""
    window = replace(size(CASED).window, bore_low_mm=low, bore_high_mm=high)
    assert window.works_mm == works
    assert replace(window, bore_low_mm=None).works_mm is None is replace(window, bore_high_mm=None).works_mm


@pytest.mark.parametrize(("warm", "said"), [(20.0, False), (20.5, False), (19.4, True), (20.6, True)])
def test_a_warm_bench_is_said_where_a_material_is_not_known(warm: float, said: bool) -> None:
    told = size(replace(PLAIN, temperature_c=warm)).resolved
    words = "sizes not corrected to 20 C where the material is not known"
    assert (words in " ".join(map(str, told.assumed))) == said

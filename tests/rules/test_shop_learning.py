"""What a shop's own rings teach: the estimators beside plain sums, and simulated shops that nobody knows.

Long form with 3,000 shops: python -m tests.campaigns.shops --long
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.learning.landing import ASSUMED_DOF, ASSUMED_WORTH, RingLanded, lands
from rules.learning.normal import NormalBelief, believed_before, robustly
from rules.learning.promised import Kept, Promise, by_promise, together, wilson
from rules.learning.repeating import ASSUMED_SD_MM, repeating
from rules.measuring.reading import REPEATS, as_they_repeat, summarise
from rules.measuring.seat_by_plug import seat_from_plug
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from rules.sizing.sizing import size
from tests.campaigns.shops import FAULTS, run, said, wrong

ASSUMED = 0.005
OFF = (0.006, 0.001, 0.009, 0.004, -0.002, 0.007)


def ring(off: float, line: str = "one", years: float = 0.0, name: str = "") -> RingLanded:
    return RingLanded(off, line, years, name)


def by_sum(before: NormalBelief, values: tuple[float, ...]) -> tuple[float, float]:
    """Mean and variance of the next value, from the distributions as written down, summed over a grid of mean
    and variance.
    """
    whole = mean = square = 0.0
    for i in range(1, 240):
        variance = before.spread_mm**2 * math.exp((i - 100) / 20.0)
        sd = math.sqrt(variance)
        inverse = variance ** (-before.dof / 2.0) * math.exp(
            -before.dof * before.spread_mm**2 / 2.0 / variance
        )
        for j in range(-60, 61):
            m = before.mean_mm + 0.004 + j * 0.0004
            weight = inverse / sd * math.exp(-before.worth * (m - before.mean_mm) ** 2 / 2.0 / variance)
            for value in values:
                weight *= math.exp(-((value - m) ** 2) / 2.0 / variance) / sd
            whole += weight
            mean += weight * m
            square += weight * (variance + m * m)
    mean /= whole
    return mean, square / whole - mean * mean


def test_the_conjugate_formulas_are_those_of_the_distributions_summed() -> None:
    before = believed_before(sd_mm=ASSUMED, worth=2.0, dof=5.0)
    after = before.after(OFF, [1.0] * len(OFF))
    mean, variance = by_sum(before, OFF)
    assert after.mean_mm == pytest.approx(mean, abs=2e-6)
    assert after.sd_mm == pytest.approx(math.sqrt(variance), rel=0.01)
    assert after.mean_mm == pytest.approx(sum(OFF) / (len(OFF) + 2.0), abs=1e-12)


def test_few_rings_move_it_little_and_many_all_the_way() -> None:
    """It starts at what is assumed, and a weight of a half counts as half a value."""
    means = []
    for count in (1, 5, 60):
        found = lands([ring(0.006)] * count, line="one", assumed_sd_mm=ASSUMED)
        assert found is not None and found.rings == found.of_line == count
        means.append(found.mean_mm)
    assert means[0] == pytest.approx(0.006 / (1.0 + ASSUMED_WORTH))
    assert means == sorted(means) and 0.0053 < means[-1] < 0.006
    assert lands([], line="one", assumed_sd_mm=ASSUMED) is None
    before = believed_before(sd_mm=ASSUMED, worth=ASSUMED_WORTH, dof=ASSUMED_DOF)
    twice = before.after([0.004, 0.004], [0.5, 0.5])
    assert twice == before.after([0.004], [1.0])
    assert before.after([0.004], [0.0]) is before


def test_old_rings_count_less_than_new_ones() -> None:
    new, old = [ring(0.004)] * 5, [ring(-0.008, years=6.0)] * 5
    found, without = (lands(one, line="one", assumed_sd_mm=ASSUMED) for one in ([*new, *old], new))
    assert found is not None and without is not None
    assert 0.5 * without.mean_mm < found.mean_mm < without.mean_mm


def test_a_new_tool_borrows_and_soon_goes_by_its_own_rings() -> None:
    old = [ring(0.008)] * 30
    fresh = lands(old, line="other", assumed_sd_mm=ASSUMED)
    assert fresh is not None and (fresh.rings, fresh.of_line) == (30, 0)
    assert 0.006 < fresh.mean_mm <= 0.008, "nothing else is known: the shop's"
    six = lands([ring(-0.004, "other")] * 6 + old, line="other", assumed_sd_mm=ASSUMED)
    assert six is not None and six.of_line == 6 and six.mean_mm < -0.0015


def test_a_wild_ring_is_named_and_ruins_nothing() -> None:
    """Two of twenty do not hide each other either."""
    usual = [ring(off, name=str(at)) for at, off in enumerate((*OFF, *OFF, *OFF))]
    clean = lands(usual, line="one", assumed_sd_mm=ASSUMED)
    wild = [ring(0.09, name="3 of job 12"), *usual, ring(0.08, name="1 of job 9")]
    found = lands(wild, line="one", assumed_sd_mm=ASSUMED)
    assert clean is not None and found is not None
    assert found.odd == ("3 of job 12", "1 of job 9") and clean.odd == ()
    assert abs(found.mean_mm - clean.mean_mm) < 0.002 and found.sd_mm < 1.8 * clean.sd_mm
    before = believed_before(sd_mm=ASSUMED, worth=2.0, dof=5.0)
    plain, _ = robustly(before, OFF, [1.0] * len(OFF))
    assert plain == before.after(OFF, [1.0] * len(OFF)), "where nothing is wild nothing is drawn in"


def test_a_spread_is_never_believed_finer_than_the_gauge_can_tell() -> None:
    alike = [ring(0.0001)] * 40
    free, held = (
        lands(alike, line="one", assumed_sd_mm=ASSUMED, least_sd_mm=least) for least in (0.0, 0.0023)
    )
    assert free is not None and held is not None
    assert free.sd_mm < 0.0023 and held.sd_mm == pytest.approx(0.0023)
    assert held.good_to_mm > free.good_to_mm


def test_what_is_learned_enters_chance_and_budget() -> None:
    """A finer spread raises the chance, and the budget says from how much that is known."""
    asked = SizingQuestion(case_bore_mm=31.28, glass_mm=30.22, case_bore_u_mm=0.02, glass_u_mm=0.02)
    learned = replace(asked, turning_spread_mm=0.005, turning_dof=9.0)
    assert size(learned).window.ring_chance > size(asked).window.ring_chance
    found = resolve(learned)
    part = next(one for one in found.budget.components if one.name == "turning")
    assert found.spread.wall_mm == 0.0025 and part.dof == 9.0
    assert part.u_mm == pytest.approx(0.0025 * math.sqrt(7.0 / 9.0))
    assert math.isfinite(found.budget.dof) and math.isinf(resolve(asked).budget.dof)


@pytest.mark.parametrize(
    ("count", "of", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_the_interval_of_a_share_is_as_published(count: int, of: int, low: float, high: float) -> None:
    """Newcombe, Statistics in Medicine 17, 1998, 857, table I, score method (from memory)."""
    assert wilson(count, of) == pytest.approx((low, high), abs=6e-5)


def test_promises_are_counted_by_tenths_and_an_interval_needs_ten() -> None:
    rings = [Promise(0.82, True)] * 9 + [Promise(0.97, False), Promise(1.0, True)]
    assert [(kept.rings, kept.fitted) for kept in by_promise(rings)] == [(9, 9), (2, 1)]
    whole = together(rings)
    assert whole is not None and (whole.rings, whole.fitted) == (11, 10) and whole.interval is not None
    assert by_promise(rings)[0].interval is None and together([]) is None
    assert Kept(10, 0.8, 8).interval == wilson(8, 10)


def test_simulated_shops_land_more_rings_and_chances_come_true() -> None:
    tally = run(shops=60, seed=17)
    assert wrong(tally) == [], said(tally)
    assert tally.seen["wild rings named"] > 20 and tally.seen["bias over 0.004"] > 10


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_planted_in_what_is_learned_is_seen(fault: str) -> None:
    assert wrong(run(shops=36, seed=17, told=FAULTS[fault]))


def test_readings_repeat_as_their_pairs_say_drawn_to_what_is_assumed() -> None:
    """Two readings differ by twice the variance of one; a slip is drawn in; four pairs say nothing."""
    found = repeating([0.01, -0.01] * 10, [1.0] * 20)
    assert found is not None and (found.pairs, found.dof) == (20, 25.0)
    assert found.sd_mm == pytest.approx(math.sqrt((5 * ASSUMED_SD_MM**2 + 20 * 0.01**2 / 2) / 25))
    slipped = repeating([0.01, -0.01] * 10 + [0.19], [1.0] * 21)
    assert slipped is not None and slipped.sd_mm < 1.3 * found.sd_mm
    assert repeating([0.01] * 4, [1.0] * 4) is None


def test_a_size_is_as_good_as_readings_repeat_where_its_own_are_alike_by_luck() -> None:
    """More than its own readings show counts, less does not; a size by plug has no readings."""
    alike = summarise([33.04, 33.04], limit_of_error_mm=0.005, resolution_mm=0.01, ground=True)
    apart = summarise([33.00, 33.04], limit_of_error_mm=0.005, resolution_mm=0.01, ground=True)
    wider = as_they_repeat(alike, sd_mm=0.012, dof=25.0)
    assert wider.u_mm == pytest.approx(math.sqrt(alike.u_mm**2 + 0.012**2 / 2))
    assert wider.expanded_mm > alike.expanded_mm and math.isfinite(wider.dof)
    assert [one.name for one in wider.components].count(REPEATS) == 1
    assert as_they_repeat(apart, sd_mm=0.012, dof=25.0) == apart, "its own readings say more"
    plug = seat_from_plug(enters_mm=33.18, stays_out_mm=33.20).size()
    assert as_they_repeat(plug, sd_mm=0.012, dof=25.0) == plug

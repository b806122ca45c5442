"""What the rings tried teach of the gap: beside a plain sum over every gap, and what must always hold."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings, strategies as st

from rules.checks import OutOfRange
from rules.sizing.learned import TELLS, Belief, RingTried, bounds, learned
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from rules.sizing.squeeze import Band

ASKED = SizingQuestion(
    case_bore_mm=31.28, glass_mm=30.22, case_bore_u_mm=0.06, glass_u_mm=0.04, turning_spread_mm=0.012
)
GAP = Belief(0.53, math.hypot(0.06, 0.04) / 4)


def ring(outcome: str, wall: float, number: int = 1, high: float = 13.0, u: float = 0.0) -> RingTried:
    return RingTried(number=number, outcome=outcome, wall_mm=wall, wall_u_mm=u, band=Band(5.0, high))


def by_sum(prior: Belief, rings: list[RingTried], scale: float) -> list[tuple[float, float]]:
    """Gap and weight, from the formulas as written down, without a logarithm."""
    found = []
    for k in range(-3000, 3001):
        gap = prior.mean_mm + prior.sd_mm * k / 500
        weight = math.exp(-((k / 500) ** 2) / 2)
        for one in rings:
            s = 100 * (1 - gap / one.wall_mm)
            easy = 1 / (1 + math.exp((s - one.band.low_pct) / scale))
            tight = 1 / (1 + math.exp((one.band.high_pct - s) / scale))
            weight *= {"too_easy": easy, "would_not_start": tight, "home": 1 - easy - tight}[one.outcome]
        found.append((gap, weight))
    whole = sum(weight for _, weight in found)
    return [(gap, weight / whole) for gap, weight in found]


ROWS = [
    [ring("too_easy", 0.585)],
    [ring("would_not_start", 0.585)],
    [ring("home", 0.57)],
    [ring("too_easy", 0.585), ring("too_easy", 0.60, 2)],
    [ring("too_easy", 0.585), ring("would_not_start", 0.615, 2), ring("home", 0.60, 3)],
    [ring("would_not_start", 0.57, 1, 9.0)],
]


@pytest.mark.parametrize("rings", ROWS, ids=lambda rings: " ".join(one.outcome for one in rings))
def test_mean_and_spread_beside_a_plain_sum(rings: list[RingTried]) -> None:
    weights = by_sum(GAP, rings, 0.8)
    mean = sum(gap * weight for gap, weight in weights)
    spread = math.sqrt(sum(weight * (gap - mean) ** 2 for gap, weight in weights))
    found = learned(GAP, tuple(rings), 0.8)
    assert (found.mean_mm, found.sd_mm) == pytest.approx((mean, spread), abs=2e-5)


@pytest.mark.parametrize("rings", ROWS, ids=lambda rings: " ".join(one.outcome for one in rings))
def test_the_chance_beside_the_whole_distribution(rings: list[RingTried]) -> None:
    """Mean and spread stand for it: the chance of the ring proposed is that of the whole grid."""
    answer = size(replace(ASKED, tried=tuple(rings)))
    low, high = (end / 100 for end in (5.0, 13.0))
    sigma = 0.012 / 2

    def below(z: float) -> float:
        return 0.5 * math.erfc(-z / math.sqrt(2))

    def chance(wall: float) -> float:
        return sum(
            weight * (below((gap / (1 - high) - wall) / sigma) - below((gap / (1 - low) - wall) / sigma))
            for gap, weight in by_sum(GAP, rings, 0.8)
        )

    assert answer.window.ring_chance == pytest.approx(chance(answer.ring.wall_mm), abs=0.02)
    walls = [(answer.ring.outside_diameter_mm - bore / 100) / 2 for bore in range(2990, 3040)]
    known = bounds(tuple(rings))
    best = max(chance(wall) for wall in walls if known.least_mm <= wall <= known.most_mm)
    assert chance(answer.ring.wall_mm) >= best - 0.005


def test_a_ring_that_was_not_tried_changes_nothing() -> None:
    assert learned(GAP, (), 0.8) is GAP
    assert size(ASKED).window.chance_before is None


def test_a_gap_known_exactly_cannot_be_taught() -> None:
    assert learned(Belief(0.5, 0.0), (ring("too_easy", 0.55),), 0.8) == Belief(0.5, 0.0)


@pytest.mark.parametrize(
    ("strong", "weak"),
    [
        ("too_easy", "leaked"),
        ("would_not_start", "bezel_moved"),
        ("would_not_start", "shaved"),
        ("shaved", "chipped"),
    ],
)
def test_a_weak_outcome_says_the_same_less_loudly(strong: str, weak: str) -> None:
    loud, quiet = (learned(GAP, (ring(one, 0.58),), 0.8).mean_mm - GAP.mean_mm for one in (strong, weak))
    assert 0.0 < quiet / loud < 0.8
    assert bounds((ring(weak, 0.58),)).least_mm == 0.0 and bounds((ring(weak, 0.58),)).most_mm == math.inf


def test_only_too_easy_would_not_start_and_home_are_strong() -> None:
    assert {word for word, (_, share) in TELLS.items() if share == 1.0} == {
        "too_easy",
        "would_not_start",
        "home",
    }


def test_a_wall_read_badly_says_less() -> None:
    fine, coarse = (learned(GAP, (ring("too_easy", 0.585, u=u),), 0.8).mean_mm for u in (0.002, 0.012))
    assert GAP.mean_mm < coarse < fine


def test_a_softer_hand_is_believed_less() -> None:
    means = [learned(GAP, (ring("too_easy", 0.60),), scale).mean_mm for scale in (0.4, 0.8, 2.0)]
    assert means[0] != means[1] != means[2]
    spreads = [learned(GAP, (ring("too_easy", 0.60),), scale).sd_mm for scale in (0.4, 0.8, 2.0)]
    assert spreads == sorted(spreads)


def test_two_rings_that_contradict_each_other_leave_the_later_one() -> None:
    both = bounds((ring("too_easy", 0.56), ring("would_not_start", 0.60, 2)))
    assert (both.least_mm, both.most_mm) == (0.56, 0.60)
    later = bounds((ring("too_easy", 0.60), ring("would_not_start", 0.58, 2)))
    assert (later.least_mm, later.most_mm) == (0.0, 0.58)
    assert "ring 2" in later.most_words and not later.least_words


def test_rings_that_leave_no_bore_shut_the_window_and_say_so() -> None:
    window = size(replace(ASKED, tried=(ring("too_easy", 0.75),))).window
    assert not window.feasible and window.target_bore_mm is None
    assert (
        "no bore is left between the wall as thick as ring 1, which went in too easily"
        in window.shut_by_rings
    )
    assert window.band.words == "5 to 13"


@pytest.mark.parametrize("bad", [("so_so", 0.55), ("home", float("nan")), ("home", 0.0)])
def test_what_cannot_be_is_refused(bad: tuple[str, float]) -> None:
    with pytest.raises(OutOfRange):
        ring(*bad)


outcomes = st.sampled_from(sorted(TELLS))
trials = st.lists(st.tuples(outcomes, st.floats(0.50, 0.66)), min_size=1, max_size=4)


@settings(max_examples=150, deadline=None)
@given(said=trials, metal=st.sampled_from([None, "brass_plated"]), step=st.sampled_from([0.01, 0.02, 0.0254]))
def test_the_next_ring_keeps_to_what_the_hand_said(
    said: list[tuple[str, float]], metal: str | None, step: float
) -> None:
    """Inside its window, never looser than the last too easy, never tighter than the last that would
    not start, never over the upper end at the gap believed; or none is proposed and the words say why.
    """
    high = 9.0 if metal else 13.0
    tried = tuple(ring(outcome, wall, n, high) for n, (outcome, wall) in enumerate(said, 1))
    answer = size(replace(ASKED, tried=tried, case_metal=metal, lathe_step_mm=step))
    window, wall = answer.window, answer.ring.wall_mm
    assume(not window.shut_by_rings)
    assert window.bore_low_mm is not None and window.bore_high_mm is not None
    assert window.bore_low_mm - 1e-9 <= answer.ring.bore_mm <= window.bore_high_mm + 1e-9
    gap = answer.resolved.believed.mean_mm
    assert 100 * (1 - gap / wall) <= high + 1e-6
    if said[-1][0] == "too_easy":
        assert wall >= said[-1][1] - 1e-9
    if said[-1][0] == "would_not_start":
        assert wall <= said[-1][1] + 1e-9


@settings(max_examples=100, deadline=None)
@given(outcome=outcomes, walls=st.tuples(st.floats(0.5, 0.66), st.floats(0.5, 0.66)))
def test_evidence_has_its_sign(outcome: str, walls: tuple[float, float]) -> None:
    """A loose ring widens the gap that is believed and a tight one narrows it, however thick the ring was;
    the thicker the ring, the wider.
    """
    thin, thick = sorted(walls)
    first, second = (learned(GAP, (ring(outcome, wall),), 0.8).mean_mm for wall in (thin, thick))
    if TELLS[outcome][0] == "loose":
        assert first >= GAP.mean_mm - 1e-9
    if TELLS[outcome][0] == "tight":
        assert first <= GAP.mean_mm + 1e-9
    if TELLS[outcome][1] == 1.0:
        assert second >= first - 1e-9


@pytest.mark.parametrize(
    ("outcome", "walls"), [("would_not_start", (0.195, 0.199, 0.203)), ("too_easy", (0.24,))]
)
def test_where_no_bore_works_the_rings_tried_still_hold(outcome: str, walls: tuple[float, ...]) -> None:
    """A thin gap under nine carat gold: the rule of thumb is tighter than the band, and was so before."""
    asked = SizingQuestion(
        case_bore_mm=20.88,
        glass_mm=20.53,
        case_metal="gold9",
        case_wall_mm=0.9,
        case_height_mm=1.9,
    )
    first = size(asked)
    assert not first.window.feasible and not first.window.shut_by_rings
    for wall in walls:
        ring = RingTried(number=1, outcome=outcome, wall_mm=wall, wall_u_mm=0.002, band=first.window.band)
        after = size(replace(asked, tried=(ring,), outside_mm=first.ring.outside_diameter_mm))
        held = after.window.shut_by_rings
        assert held or after.fit.nominal_squeeze_pct <= after.window.band.high_pct, wall
        tighter = after.ring.wall_mm > wall
        assert held or tighter is (outcome == "too_easy"), wall

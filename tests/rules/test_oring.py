"""An O-ring chosen: its needs one by one, what binds, what helps, what else would do, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.checks import OutOfRange
from rules.oring.fitted import Ageing, as_expected, at_worst, free_cord_mm, narrowed_mm
from rules.oring.housing import FACE, FEMALE, MALE, Housing, Length, Oring
from rules.oring.judging import OringQuestion, judged
from rules.oring.needs import (
    BUCKLED,
    CRUSHED,
    FILLED,
    GRIPPED,
    MOST_FILL,
    SHORT,
    SLACK,
    SPENT,
    STRAINED,
    ageing_of,
    broken,
    squeeze_ends,
)
from rules.oring.sizing import oring_sizing
from rules.oring.stock import BY_JUDGEMENT, BY_READING, BY_STANDARD, CORDS_MM, as_sold, in_hand
from rules.tables import rubbers


def known(mm: float, limit_mm: float = 0.02) -> Length:
    """A length as it was measured."""
    return Length(mm=mm, limit_mm=limit_mm)


IN_A_FACE = Housing(lies=FACE, inner=known(26.5), outer=known(28.6), other=known(0.6))
ON_A_TUBE = Housing(lies=MALE, inner=known(2.1), outer=known(3.0), other=known(0.75))
IN_A_CROWN = Housing(lies=FEMALE, inner=known(2.0), outer=known(3.0), other=known(0.9), moving=True)
AGEING = ageing_of(rubbers()["nbr"])


def missed(housing: Housing, inside: float, cord: float) -> tuple[str, ...]:
    """What a ring breaks there as it is expected."""
    ring = Oring(inside=Length(mm=inside), cord=Length(mm=cord))
    return broken(housing, as_expected(ring, housing, AGEING))


@pytest.mark.parametrize(
    ("housing", "inside", "cord", "what"),
    [
        (IN_A_FACE, 26.0, 0.76, ()),
        (IN_A_FACE, 26.0, 0.69, (GRIPPED,)),
        (IN_A_FACE, 26.8, 0.76, (SLACK,)),
        (IN_A_FACE, 25.0, 0.78, (STRAINED,)),
        (replace(IN_A_FACE, outer=known(28.1)), 26.0, 0.80, (FILLED,)),
        (replace(IN_A_FACE, outer=known(29.6)), 26.0, 0.92, (CRUSHED,)),
        (ON_A_TUBE, 2.0, 0.55, ()),
        (ON_A_TUBE, 1.9, 0.57, (STRAINED,)),
        (IN_A_CROWN, 1.85, 0.60, ()),
        (IN_A_CROWN, 1.95, 0.60, (BUCKLED,)),
        (IN_A_CROWN, 1.75, 0.60, (SHORT,)),
        (replace(IN_A_CROWN, moving=False), 1.88, 0.565, (GRIPPED,)),
    ],
)
def test_each_need(housing: Housing, inside: float, cord: float, what: tuple[str, ...]) -> None:
    assert missed(housing, inside, cord) == what


def test_years_and_cold_take_what_a_thin_squeeze_leaves() -> None:
    slack = replace(IN_A_CROWN, inner=known(1.96))
    ring = Oring(inside=Length(mm=1.88), cord=Length(mm=0.566))
    assert broken(slack, as_expected(ring, slack, AGEING)) == ()
    assert broken(slack, as_expected(ring, slack, Ageing(0.4, 2.5e-4))) == (SPENT,)


def test_rubber_keeps_its_volume() -> None:
    """Length of the cord's middle times its section, free and in its place."""
    cord = narrowed_mm(lies=MALE, rests_on_mm=2.1, inside_mm=2.0, cord_mm=0.5)
    assert pytest.approx((2.1 + 0.5) * cord**2) == (2.0 + 0.5) * 0.5**2
    thick = narrowed_mm(lies=FEMALE, rests_on_mm=3.0, inside_mm=1.9, cord_mm=0.6)
    assert thick > 0.6 and pytest.approx((3.0 - 0.6) * thick**2) == (1.9 + 0.6) * 0.6**2


@pytest.mark.parametrize(("lies", "rests"), [(MALE, 2.1), (FACE, 26.5), (FEMALE, 3.0)])
def test_the_free_cord_is_found_again(lies: str, rests: float) -> None:
    inside = rests / 1.03 if lies != FEMALE else rests - 1.2
    cord = narrowed_mm(lies=lies, rests_on_mm=rests, inside_mm=inside, cord_mm=0.6)
    back = free_cord_mm(cord, lies=lies, rests_on_mm=rests, inside_mm=inside)
    assert back == pytest.approx(0.6, abs=2e-4)


def test_worst_tolerances_lie_outside_what_is_expected() -> None:
    ring = as_sold(26.0, 0.8)
    state, worst = as_expected(ring, IN_A_FACE, AGEING), at_worst(ring, IN_A_FACE, AGEING)
    assert worst.least_squeeze < state.squeeze < worst.most_squeeze
    assert worst.most_fill > state.fill and worst.least_later_cold < state.later_cold < state.later


def test_corners_take_room() -> None:
    round_ = replace(IN_A_FACE, corner_mm=0.2)
    ring = as_sold(26.0, 0.75)
    lost = 2.0 * (1.0 - math.pi / 4.0) * (0.2**2 - IN_A_FACE.corner_mm**2)
    sharp, blunt = (as_expected(ring, one, AGEING).fill for one in (IN_A_FACE, round_))
    area = math.pi / 4.0 * as_expected(ring, IN_A_FACE, AGEING).cord_mm ** 2
    assert area / blunt == pytest.approx(area / sharp - lost)


@pytest.mark.parametrize("housing", [IN_A_FACE, ON_A_TUBE, IN_A_CROWN])
def test_a_stock_size_is_proposed_and_others_beside_it(housing: Housing) -> None:
    found = oring_sizing(OringQuestion(housing=housing, rubber="nbr"))
    assert found.ring.cord.mm in CORDS_MM
    assert not set(found.broken) - {FILLED}, (
        "as expected it meets its needs; worst tolerances are another matter"
    )
    assert found.window is not None and found.window.low_mm <= found.ring.cord.mm <= found.window.high_mm
    sizes = [(one.ring.inside.mm, one.ring.cord.mm) for one in (found, *found.others)]  # type: ignore[attr-defined]
    assert len(set(sizes)) == 4 and all(0.0 < one.chance <= found.chance + 0.02 for one in found.others)
    least, most = squeeze_ends(housing)
    assert least < found.state.squeeze < most
    if housing.lies == FACE:
        assert found.ring.inside.mm <= housing.inner.mm, "it rests on the inner wall"


def test_where_the_standard_ends_the_limits_say_so() -> None:
    assert [as_sold(26.0, cord).cord_by for cord in (0.75, 0.80)] == [BY_JUDGEMENT, BY_STANDARD]
    assert in_hand(26.0, 0.752).cord_by == BY_READING
    limits = [in_hand(26.0, 0.75, tool_limit_mm=one).cord.limit_mm for one in (0.004, 0.03)]
    assert limits == [0.01, 0.03], "rubber gives under a micrometer; a calliper is what it is"
    assert as_sold(26.0, 0.80).cord.limit_mm == 0.08


def test_cords_in_tenths() -> None:
    housing = replace(IN_A_FACE, other=known(0.57))
    for step in (0.05, 0.10):
        found = oring_sizing(OringQuestion(housing=housing, rubber="nbr", cord_step_mm=step))
        cords = {one.ring.cord.mm for one in found.others} | {found.ring.cord.mm}
        assert (0.75 in cords) is (step == 0.05)


def test_a_ring_that_was_measured_is_surer() -> None:
    sold = OringQuestion(housing=IN_A_CROWN, rubber="nbr")
    first = oring_sizing(sold)
    read = oring_sizing(replace(sold, in_hand=in_hand(1.85, 0.60)))
    assert read.chance > 0.8 > 0.5 > first.chance
    (words,) = first.help
    assert words.startswith("measure several and take one that reads 1.85 mm inside, cord 0.60 mm: chance ")
    assert float(words.rpartition("chance ")[2].rstrip(" %")) == pytest.approx(100 * read.chance, abs=1.5)


def test_silicone_keeps_more_in_the_cold_only_by_its_set() -> None:
    found = {
        key: judged(OringQuestion(housing=IN_A_FACE, rubber=key), as_sold(26.0, 0.75)) for key in rubbers()
    }
    assert found["fkm"].state.later_cold > found["nbr"].state.later_cold
    assert all(one.state.later_cold < one.state.later < one.state.squeeze for one in found.values())


def test_what_is_far_stretched_is_said() -> None:
    (aged,) = judged(OringQuestion(housing=ON_A_TUBE, rubber="nbr"), in_hand(1.96, 0.56)).warnings
    assert aged == "stretched by 7 %: such a ring ages sooner"


def test_filled_at_worst_alone_is_said_so() -> None:
    found = judged(OringQuestion(housing=ON_A_TUBE, rubber="nbr"), as_sold(2.0, 0.55))
    assert found.state.fill < MOST_FILL < found.worst.most_fill
    assert "the groove is too full at worst tolerances" in found.warnings


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="wants a cord of"):
        oring_sizing(OringQuestion(housing=replace(IN_A_FACE, other=known(2.0)), rubber="nbr"))
    with pytest.raises(OutOfRange, match="choose another"):
        oring_sizing(OringQuestion(housing=IN_A_FACE, rubber="cork"))
    with pytest.raises(OutOfRange, match="larger diameter"):
        replace(IN_A_FACE, outer=known(26.55))
    with pytest.raises(OutOfRange, match="corner"):
        replace(IN_A_FACE, corner_mm=0.7)

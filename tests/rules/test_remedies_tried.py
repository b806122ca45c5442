"""The remedies that are named beside the same list tried here one by one; heights and stock glasses."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest

from rules import limits
from rules.checks import OutOfRange
from rules.measuring.instruments import GLASS_BY_MICROMETER_U_MM, SEAT_COMPARED_U_MM
from rules.sizing import chance, remedies
from rules.sizing.glass_order import glasses_to_order
from rules.sizing.proposal import proposed
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import USUAL_TURNING_SPREAD_MM, resolve
from rules.sizing.sizing import Sizing, size
from rules.sizing.window import window_of
from rules.tables import plastics

OVAL = SizingQuestion(case_bore_mm=34.12, glass_mm=33.32, ovality_mm=0.07)
CASED = SizingQuestion(
    case_bore_mm=31.46,
    glass_mm=30.44,
    height_mm=1.2,
    case_metal="316L",
    case_wall_mm=1.2,
    case_height_mm=2.5,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
)
POOR = {
    "an oval seat": OVAL,
    "an oval seat, read closely": replace(OVAL, case_bore_u_mm=0.015, glass_u_mm=0.005),
    "turned roughly": replace(OVAL, ovality_mm=0.02, turning_spread_mm=0.06),
    "low in its seat": replace(CASED, height_mm=0.5, overpressure_bar=8.0),
}
"""Questions whose window is closed or whose chance is poor."""


def tries(asked: SizingQuestion, height: float | None) -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Kind, words and change of everything there is to try."""
    if (asked.ovality_mm or 0.0) > 0.03:
        yield "truing", "truing the seat to 0.03 mm out of round", {"ovality_mm": 0.03}
    if (0.04 if asked.case_bore_u_mm is None else asked.case_bore_u_mm) > 0.015:
        yield "seat", "measuring the seat to 0.015 mm", {"case_bore_u_mm": 0.015}
    if (0.02 if asked.glass_u_mm is None else asked.glass_u_mm) > 0.005:
        yield "glass", "measuring the glass to 0.005 mm", {"glass_u_mm": 0.005}
    if (asked.turning_spread_mm or 0.0) > 0.01:
        words = "measuring the wall before the last pass, so that it is cut to 0.01 mm"
        yield "turning", words, {"turning_spread_mm": 0.01}
    for tenths in (-1, 1, -2, 2, -3, 3):
        other = round(round(asked.glass_mm, 1) + tenths / 10, 1)
        yield "another", f"a glass of {other:.1f} mm", {"glass_mm": other}
    for part in (0.9, 1.1, 0.75, 1.33, 0.6, 1.6) if height is not None else ():
        other = round(round(part * (height or 0.0) / 0.05) * 0.05, 2)
        side = "lower" if other < (height or 0.0) else "higher"
        yield "height", f"a {side} ring, {other:.2f} mm", {"height_mm": other}
    for one in plastics().values():
        if one.advised and one.key != (asked.material or "acetal"):
            yield "plastic", f"a ring of {one.name}", {"material": one.key}
    if asked.press_force_n is not None:
        for times in (2, 4):
            force = times * asked.press_force_n
            yield "press", f"a press of {force:.0f} N", {"press_force_n": force}
    if asked.overpressure_bar:
        bar = round(asked.overpressure_bar / 2, 2)
        yield "pressure", f"a test at {bar:g} bar", {"overpressure_bar": bar}


def answered(asked: SizingQuestion, change: dict[str, Any]) -> Sizing | None:
    """The sizing with a change; None where it is refused."""
    try:
        return size(replace(asked, **change))
    except OutOfRange:
        return None


@pytest.mark.parametrize("name", POOR)
def test_of_each_kind_the_least_change_near_its_best_is_named(name: str) -> None:
    """Named from 5 points on, by the same limits; the three that bring most, most first."""
    asked = POOR[name]
    answer = size(asked)
    before, judged = answer.window.ring_chance, answer.window.not_judged
    kinds: dict[str, list[tuple[float, str]]] = {}
    for kind, words, change in tries(asked, answer.ring.height_mm):
        after = answered(asked, change)
        if after and after.window.not_judged == judged and after.window.chance >= before + 0.05:
            kinds.setdefault(kind, []).append((after.window.chance, words))
    expected = [next(one for one in found if one[0] >= max(found)[0] - 0.05) for found in kinds.values()]
    assert before < 0.5 and expected, "an interesting question"
    found = [(one.chance, one.words) for one in answer.remedies]
    assert found == sorted(expected, key=lambda one: -one[0])[:3]
    without = f" ({', '.join(judged)} not judged)" if judged and "pressure" not in judged else ""
    alone = " by the squeeze alone" if "pressure" in judged else without
    assert list(answer.window.help) == [f"{words}: {100 * chance:.0f} %{alone}" for chance, words in found]


def test_of_a_given_ring_the_best_bore_comes_first() -> None:
    good = SizingQuestion(case_bore_mm=31.46, glass_mm=30.44)
    best = size(good)
    given = size(replace(good, outside_mm=31.46, bore_mm=30.28))
    assert given.window.feasible and given.window.ring_chance < 0.5 < best.window.chance
    assert [one.words for one in given.remedies] == [f"a bore of {best.ring.bore_mm:.2f} mm"]
    assert best.remedies == () and best.window.help == ()


def test_what_nothing_helps_says_what_clashes() -> None:
    shut = size(replace(CASED, case_yield_mpa=205.0))
    clash = "5 % of the wall and the bezel's yield at -10 C cannot both be met; check the sizes"
    assert (shut.remedies, shut.window.help) == ((), (f"nothing tried helps: {clash}",))


@pytest.mark.parametrize("depth", [0.9, 1.45, 1.6, 2.35])
@pytest.mark.parametrize("gap", [0.31, 0.44, 0.62, 0.9])
def test_a_ring_is_as_high_as_its_own_squeeze_allows(depth: float, gap: float) -> None:
    """The depth less 0.10, less what its squeeze makes it grow, down to 0.05; unless no such ring works."""
    known = {"case_metal": "316L", "case_wall_mm": 2.0, "case_height_mm": 3.0, "overpressure_bar": 3.0}
    asked = SizingQuestion(
        case_bore_mm=round(30 + 2 * gap, 2),
        glass_mm=30.0,
        seat_depth_mm=depth,
        **known,  # type: ignore[arg-type]
    )
    resolved = resolve(asked)
    made, window = proposed(resolved)
    allowed = math.floor((depth - 0.10) * gap / made.wall_mm / 0.05 + 1e-6) * 0.05
    lower = replace(made, height_mm=round(allowed, 2))
    if window.feasible and window_of(resolved, lower).feasible:
        assert (made.height_mm or 0.0) <= allowed + 1e-9
    assert (made.height_mm or 0.0) >= allowed - 0.15 - 1e-9


def test_nineteen_sizes_of_glass_are_looked_at() -> None:
    """Each has to be sized, so no more: nine steps to either side of the one that suits."""
    seen: list[float] = []

    def asked(glass: float) -> float | None:
        seen.append(glass)
        return None

    glasses_to_order(asked, case_bore_mm=30.0)
    suits = 30.0 - 2 * 0.525 * 0.91
    assert seen == [round(round(suits, 1) + step / 10, 1) for step in range(-9, 10)]


def test_what_is_done_already_is_not_tried_again() -> None:
    """A seat that is true, and readings and turning as close as they would be made."""
    done = replace(
        OVAL,
        ovality_mm=limits.TRUED_MM,
        case_bore_u_mm=SEAT_COMPARED_U_MM,
        glass_u_mm=GLASS_BY_MICROMETER_U_MM,
        turning_spread_mm=USUAL_TURNING_SPREAD_MM,
    )
    assert not list(remedies._closer(done))
    assert [kind for kind, *_ in remedies._closer(replace(done, ovality_mm=0.04))] == ["truing"]
    assert [kind for kind, *_ in remedies._closer(replace(done, glass_u_mm=0.03))] == ["glass"]


@pytest.mark.parametrize("steps", [chance._STEPS, chance._SOME_STEPS, chance._FEW_STEPS])
def test_the_steps_over_a_spread_lie_about_it_evenly(steps: chance.Steps) -> None:
    """Weights adding to one, mean nothing, variance one: a standard normal variable."""
    moments = [math.fsum(weight * z**power for z, weight in steps) for power in range(4)]
    assert moments == pytest.approx([1.0, 0.0, 1.0, 0.0], abs=3e-3)
    assert abs(moments[1]) < 1e-12 and abs(moments[3]) < 1e-12

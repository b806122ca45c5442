"""Every verdict goes one way along bore, gap and height, and without a jump.

Exceptions, each with its reason:
- The chance of a given bore rises to one peak and falls again: too tight on one side, too loose on the other.
- Contact pressure along the height goes either way: friction raises it, the surround gives more.
- So do what is left of it after ten years, and the growth in height: a higher ring is squeezed less.
- The proposed ring moves by steps of the lathe, its height by 0.05 mm, and goes over to the rules of thumb
  where no bore works; there the chance of the aim ends, because there is no aim. That of a given ring goes
  on.
- Words (by thumb, light press ...) change at a threshold; they never go back.
- A ring that is not squeezed presses with nothing, also where nothing is known of the metal round it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from typing import Any

from hypothesis import event, given, settings, strategies as st

from rules import limits
from rules.sizing.decision import ring_decision
from rules.sizing.fit import Fit
from rules.sizing.pressing import WORDS, force_words
from rules.sizing.proposal import asked_about, proposed
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from rules.sizing.squeeze import USUAL_BAND
from tests.assessing import fit_of

MORE = settings(max_examples=30, deadline=None)
POINTS = 60
NOISE = 1e-7
CHANCE_NOISE = 0.005
"""The chance is stated to a percentage point of drawing: where a limit comes near enough to be summed over
heights it may move by half of that.
"""

Line = tuple[str, Callable[[Fit], float | None]]
FIGURES: tuple[Line, ...] = (
    ("squeeze", lambda fit: fit.nominal_squeeze_pct),
    ("real squeeze", lambda fit: fit.real_squeeze_pct),
    ("press force", lambda fit: fit.seating_force_n.mid),
    ("line load", lambda fit: fit.line_load_n_per_mm),
    ("stress of the case", lambda fit: fit.case_hoop_stress_mpa),
    ("growth of the case", lambda fit: fit.case_growth_um),
    ("contact pressure", lambda fit: fit.contact_pressure_mpa),
    ("after ten years", lambda fit: fit.contact_pressure_10y_mpa),
    ("growth in height", lambda fit: fit.axial_growth_mm),
)


EITHER_WAY = ("real squeeze", "contact pressure", "after ten years", "growth in height")
"""Along the height."""


@st.composite
def places(draw: st.DrawFn) -> dict[str, Any]:
    """A place with everything known, its gap near a threshold as often as not."""
    gap = draw(
        st.one_of(st.sampled_from([0.20, *limits.USUAL_GAP_MM, limits.LARGE_GAP_MM]), st.floats(0.2, 1.3))
    )
    return {
        "case_bore_mm": round(draw(st.floats(20.0, 40.0)), 2),
        "gap_mm": gap,
        "height_mm": draw(st.floats(0.7, 2.4)),
        "friction": draw(st.floats(0.08, 0.35)),
        "material": draw(st.sampled_from(["acetal", "pa12", "peek"])),
        "case_metal": draw(st.sampled_from(["316L", "brass", "gold18", "titanium2"])),
        "case_wall_mm": draw(st.floats(0.8, 4.0)),
        "case_height_mm": draw(st.floats(1.5, 5.0)),
        "glass_material": draw(st.sampled_from(["sapphire", "mineral"])),
        "glass_thickness_mm": draw(st.floats(1.0, 3.0)),
        "press_force_n": draw(st.none() | st.floats(500.0, 4000.0)),
        "overpressure_bar": draw(st.none() | st.floats(1.0, 5.0)),
        "ovality_mm": draw(st.sampled_from([0.0, 0.03, 0.08])),
    }


def asked(place: dict[str, Any], *, gap_mm: float, wall_mm: float, height_mm: float) -> SizingQuestion:
    """A ring of this wall and height in a gap."""
    rest = {name: value for name, value in place.items() if name not in ("gap_mm", "height_mm")}
    outside = rest["case_bore_mm"]
    return SizingQuestion(
        **rest,
        glass_mm=outside - 2 * gap_mm,
        outside_mm=outside,
        bore_mm=outside - 2 * wall_mm,
        height_mm=height_mm,
        case_bore_u_mm=0.03,
        glass_u_mm=0.02,
        turning_spread_mm=0.01,
    )


def chance_of(question: SizingQuestion) -> float:
    """That its cut lands in the band."""
    return asked_about(resolve(question))[1].ring_chance


def even(low: float, high: float) -> list[float]:
    """Points from low to high."""
    return [low + (high - low) * k / (POINTS - 1) for k in range(POINTS)]


def goes(values: list[float], way: int, name: str) -> None:
    """Values go one way, and no step of them stands out as a jump would."""
    scale = max(map(abs, values)) or 1.0
    steps = [way * (after - before) for before, after in pairwise(values)]
    assert min(steps) >= -NOISE * scale, (name, values)
    span = max(values) - min(values)
    for before, here, after in zip(steps, steps[1:], steps[2:], strict=False):
        assert here <= 3.0 * max(before, after) + 0.05 * span + NOISE * scale, (name, "jumps", values)


def along(questions: list[SizingQuestion], way: int, but: tuple[str, ...] = ()) -> list[Fit]:
    """Every figure of the fit goes one way along these questions."""
    fits = [fit_of(one) for one in questions]
    for name, figure in FIGURES:
        values = [figure(fit) for fit in fits]
        known = [value for value in values if value is not None]
        if name not in but and len(known) == len(values):
            goes(known, way, name)
    assert any(figure(fits[0]) is not None for _, figure in FIGURES)
    return fits


@given(places())
@MORE
def test_a_larger_bore_never_raises_a_figure(place: dict[str, Any]) -> None:
    gap = place["gap_mm"]
    walls = even(max(limits.LEAST_WALL_MM, 1.001 * gap), 1.2 * gap)[::-1]
    along([asked(place, gap_mm=gap, wall_mm=wall, height_mm=place["height_mm"]) for wall in walls], -1)


@given(places())
@MORE
def test_a_wider_gap_never_raises_a_figure(place: dict[str, Any]) -> None:
    """Along the glass, at one wall; a smaller glass is a little stiffer, but lies further away."""
    wall = max(1.1 * place["gap_mm"], limits.LEAST_WALL_MM)
    gaps = even(0.85 * wall, 0.999 * wall)
    along([asked(place, gap_mm=gap, wall_mm=wall, height_mm=place["height_mm"]) for gap in gaps], -1)


@given(places())
@MORE
def test_a_higher_ring_never_presses_with_less(place: dict[str, Any]) -> None:
    """The real squeeze falls with the height as the surround gives, the load rises."""
    wall = max(1.08 * place["gap_mm"], limits.LEAST_WALL_MM)
    questions = [asked(place, gap_mm=place["gap_mm"], wall_mm=wall, height_mm=h) for h in even(0.5, 3.0)]
    fits = along(questions, 1, but=EITHER_WAY)
    goes([fit.real_squeeze_pct or 0.0 for fit in fits], -1, "real squeeze")


def peak(values: list[float]) -> None:
    """Values rise to one peak and fall, but for the noise of the stated chance."""
    top = values.index(max(values))
    assert all(after >= before - CHANCE_NOISE for before, after in pairwise(values[: top + 1])), values
    assert all(after <= before + CHANCE_NOISE for before, after in pairwise(values[top:])), values


def smooth(values: list[float], step_mm: float, sigma_mm: float) -> None:
    """No change is larger than a normal distribution of this spread allows over so small a step."""
    most = 2.0 * 0.4 * step_mm / sigma_mm + 2.0 * CHANCE_NOISE
    assert all(abs(after - before) <= most for before, after in pairwise(values)), values


SIGMA_MM = ((0.015 / 2) ** 2 + (0.01 / 2) ** 2 + 0.005**2) ** 0.5
"""Of wall less gap, from the uncertainties of `asked`."""


@given(places())
@MORE
def test_the_chance_has_one_peak_along_the_bore_and_no_jump(place: dict[str, Any]) -> None:
    gap = place["gap_mm"]
    walls = even(max(limits.LEAST_WALL_MM, gap), 1.25 * gap)
    chances = [chance_of(asked(place, gap_mm=gap, wall_mm=w, height_mm=place["height_mm"])) for w in walls]
    event("reached" if max(chances) > 0.2 else "nowhere good")
    peak(chances)
    smooth(chances, walls[1] - walls[0], SIGMA_MM)


@given(places())
@MORE
def test_the_chance_has_one_peak_along_the_gap_and_no_jump(place: dict[str, Any]) -> None:
    """Also where the window closes on the way, and at the gaps from which other rules of thumb hold."""
    wall = max(1.1 * place["gap_mm"], limits.LEAST_WALL_MM + 0.005)
    gaps = even(0.8 * wall, 1.02 * wall)
    chances = [chance_of(asked(place, gap_mm=g, wall_mm=wall, height_mm=place["height_mm"])) for g in gaps]
    peak(chances)
    smooth(chances, gaps[1] - gaps[0], SIGMA_MM)


@given(places())
@MORE
def test_the_chance_does_not_jump_along_the_height(place: dict[str, Any]) -> None:
    """Each limit moves with the height by less than half a gap for each mm."""
    wall = max(1.09 * place["gap_mm"], limits.LEAST_WALL_MM + 0.005)
    heights = even(place["height_mm"], place["height_mm"] + 0.3)
    chances = [chance_of(asked(place, gap_mm=place["gap_mm"], wall_mm=wall, height_mm=h)) for h in heights]
    smooth(chances, (heights[1] - heights[0]) * max(0.5, place["gap_mm"]), SIGMA_MM)


@given(st.floats(20.0, 40.0), st.sampled_from([0.0, 0.05, 0.1]), st.floats(0.005, 0.05))
@MORE
def test_a_wider_gap_never_lowers_the_best_chance_of_the_squeeze(bore: float, oval: float, u: float) -> None:
    """Of squeeze alone, between the steps of the lathe: the band is a part of the gap."""
    plain = SizingQuestion(
        case_bore_mm=bore, glass_mm=bore - 1.0, ovality_mm=oval, case_bore_u_mm=u, glass_u_mm=0.01
    )
    best = []
    for gap in even(0.25, 1.3):
        best.append(proposed(resolve(replace(plain, glass_mm=bore - 2 * gap)))[1].best_chance)
    assert all(after >= before - 1e-4 for before, after in pairwise(best)), best


@given(st.lists(st.floats(0.0, 6000.0), min_size=2, max_size=30))
@MORE
def test_the_words_of_a_force_never_go_back(forces: list[float]) -> None:
    ranks = [WORDS.index(force_words(force)) for force in sorted(forces)]
    assert ranks == sorted(ranks)


@given(places())
@MORE
def test_what_the_bezel_does_never_goes_back(place: dict[str, Any]) -> None:
    """Springs back, may stay stretched, will stay stretched: along a smaller bore only onwards."""
    gap = place["gap_mm"]
    walls = even(max(limits.LEAST_WALL_MM, 1.001 * gap), 1.25 * gap)
    fits = [fit_of(asked(place, gap_mm=gap, wall_mm=w, height_mm=place["height_mm"])) for w in walls]
    ranks = [(False, None, True).index(fit.case_yields) for fit in fits]
    assert ranks == sorted(ranks)


@given(st.floats(0.2, 1.2), st.floats(0.001, 0.03), st.floats(0.001, 0.03))
@MORE
def test_a_made_ring_is_loose_then_fits_then_is_tight(gap: float, wall_u: float, gap_u: float) -> None:
    """Along the wall: too loose, undecided, fits, undecided, too tight, never back."""
    ranks: list[int] = []
    offs: list[int] = []
    for wall in even(0.8 * gap, 1.5 * gap):
        found = ring_decision(walls_mm=[wall], wall_u_mm=wall_u, gap_mm=gap, gap_u_mm=gap_u)
        under = found.squeeze_pct < USUAL_BAND.low_pct + USUAL_BAND.high_pct - found.squeeze_pct
        word = (
            found.decision
            if found.decision == "fits"
            else f"{found.decision}, {'under' if under else 'over'}"
        )
        ranks.append(ORDER.index(word))
        offs.append(("loose", "", "tight").index(found.off))
    assert ranks == sorted(ranks) and offs == sorted(offs)
    assert ORDER[ranks[0]].endswith("under") and ORDER[ranks[-1]].endswith("over")


ORDER = ("does_not, under", "undecided, under", "fits", "undecided, over", "does_not, over")

"""The chance of an O-ring beside drawing rings and grooves, its law written out once more for arrays."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from rules.oring.housing import FACE, FEMALE, MALE, Housing, Length, Oring
from rules.oring.needs import chance
from rules.oring.stock import as_sold, in_hand
from rules.tables import rubbers

DRAWN = 200_000
WORKS = {FACE: (0.15, 0.32), MALE: (0.12, 0.30), FEMALE: (0.12, 0.30)}
STRETCHED = {FACE: (0.0, 0.05), MALE: (0.0, 0.08), FEMALE: (-0.03, 0.0)}
COLDER, METAL = -30.0, 16e-6


def by_drawing(housing: Housing, ring: Oring, rubber: str) -> float:
    """The part of so many rings and grooves that meets every need."""
    chances = np.random.default_rng(11)

    def draw(one: Length) -> Any:
        return chances.normal(one.mm, one.limit_mm / 3.0**0.5, DRAWN)

    d1, d2, inner, outer, other = map(
        draw, (ring.inside, ring.cord, housing.inner, housing.outer, housing.other)
    )
    gap = (outer - inner) / 2.0
    depth, width = (other, gap) if housing.lies == FACE else (gap, other)
    if housing.lies == FEMALE:
        stretch, middle = outer / (d1 + 2.0 * d2) - 1.0, outer - d2
    else:
        stretch, middle = inner / d1 - 1.0, inner + d2
    volume = np.pi / 4.0 * d2**2 * (d1 + d2)
    cord = np.sqrt(volume / middle * 4.0 / np.pi)
    squeeze = (cord - depth) / cord
    room = depth * width - (2.0 - np.pi / 2.0) * housing.corner_mm**2
    cited = rubbers()[rubber].cited
    gone = chances.uniform(cited["set_part"].low or 0.0, cited["set_part"].high or 0.0, DRAWN)
    left = cord - gone * np.maximum(cord - depth, 0.0)
    cold_cord = left * (1.0 + (1.5 * cited["cte_per_k"].value - 0.5 * METAL) * COLDER)
    cold_depth = depth * (1.0 + METAL * COLDER)
    low, high = (0.08, 0.25) if housing.moving else WORKS[housing.lies]
    short, long = STRETCHED[housing.lies]
    good = (squeeze >= low) & (squeeze <= high) & (stretch >= short) & (stretch <= long)
    good &= np.pi / 4.0 * cord**2 <= 0.85 * room
    return float(np.mean(good & (1.0 - cold_depth / cold_cord >= 0.05)))


def known(mm: float, limit_mm: float = 0.03) -> Length:
    """A length as it was measured."""
    return Length(mm=mm, limit_mm=limit_mm)


IN_A_FACE = Housing(lies=FACE, inner=known(26.5), outer=known(28.6), other=known(0.6, 0.02))
ON_A_TUBE = Housing(lies=MALE, inner=known(2.1, 0.02), outer=known(3.0), other=known(0.75))
IN_A_CROWN = Housing(lies=FEMALE, inner=known(2.0, 0.01), outer=known(3.0), other=known(0.9), moving=True)
WIDE = Housing(lies=FEMALE, inner=known(28.2), outer=known(29.7), other=known(1.2), corner_mm=0.2)


@pytest.mark.parametrize(
    ("housing", "ring", "rubber"),
    [
        pytest.param(IN_A_FACE, as_sold(26.0, 0.75), "nbr", id="face as sold"),
        pytest.param(IN_A_FACE, as_sold(26.0, 0.80), "vmq", id="face, filled"),
        pytest.param(IN_A_FACE, in_hand(26.4, 0.72), "nbr", id="face, read, near slack"),
        pytest.param(replace(IN_A_FACE, moving=True), as_sold(25.5, 0.70), "fkm", id="face, rubbed"),
        pytest.param(ON_A_TUBE, as_sold(2.0, 0.55), "nbr", id="tube as sold"),
        pytest.param(ON_A_TUBE, in_hand(1.97, 0.53), "epdm", id="tube, read, near strained"),
        pytest.param(IN_A_CROWN, as_sold(1.8, 0.60), "nbr", id="crown as sold"),
        pytest.param(IN_A_CROWN, in_hand(1.85, 0.56), "vmq", id="crown, read, near spent"),
        pytest.param(WIDE, as_sold(28.0, 0.90), "nbr", id="wide"),
    ],
)
def test_the_chance_is_that_of_drawing(housing: Housing, ring: Oring, rubber: str) -> None:
    assert chance(housing, ring, rubbers()[rubber]) == pytest.approx(
        by_drawing(housing, ring, rubber), abs=0.01
    )


def test_drawing_tells_a_wrong_chance() -> None:
    """A depth that is known twice as well is another chance."""
    ring = in_hand(26.0, 0.72)
    better = replace(IN_A_FACE, other=known(0.6, 0.01))
    drawn = by_drawing(IN_A_FACE, ring, "nbr")
    assert abs(chance(better, ring, rubbers()["nbr"]) - drawn) > 0.03

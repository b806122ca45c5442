"""A seated ring: forces in their order, when a bezel stays stretched, thick bezels, the slab's friction."""

from __future__ import annotations

import itertools
import math
from typing import Any

import pytest

from rules.measuring.budget import COVERAGE, rectangular
from rules.measuring.seat_by_plug import seat_from_plug
from rules.sizing import pressing, thumb
from rules.sizing.casing import THIN_BAND, yielding_line_load
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import resolve
from rules.sizing.sizing import size
from rules.strip import PLANE_STRAIN, Strip

KNOWN: dict[str, Any] = {
    "case_bore_mm": 33.2,
    "glass_mm": 32.14,
    "height_mm": 1.1,
    "case_metal": "316L",
    "case_wall_mm": 3.5,
    "case_height_mm": 4.0,
}


@pytest.mark.parametrize("friction", [0.02, 0.05, 0.10, 0.20, 0.25, 0.40, 0.60])
def test_forces_stand_in_their_order(friction: float) -> None:
    force = size(SizingQuestion(**KNOWN, friction=friction)).fit.seating_force_n
    assert force.low is not None and force.mid is not None and force.high is not None
    assert force.low <= force.mid <= force.high
    assert (force.low == force.mid) == (friction <= 0.10)
    assert (force.high == force.mid) == (friction >= 0.25)


def test_no_bezel_will_stay_stretched_by_nothing() -> None:
    """Over bezels whose bore passes the keyed yield: stretched is said only where something stays."""
    said = {True: 0, None: 0}
    ring = {"outside_mm": 33.2, "bore_mm": 32.04}
    for wall in (1.0, 1.5, 2.0, 3.0, 4.0, 6.0):
        hoop = size(SizingQuestion(**KNOWN | ring | {"case_wall_mm": wall})).fit.case_hoop_stress_mpa or 0.0
        for part in (0.60, 0.80, 0.90, 0.93, 0.95, 0.97, 0.98, 0.99):
            known = KNOWN | ring | {"case_wall_mm": wall, "case_yield_mpa": part * hoop}
            fit = size(SizingQuestion(**known)).fit
            assert fit.yielded is not None
            stays = fit.yielded.set_um > 1e-6
            assert fit.case_yields is (True if stays else None), (wall, part)
            assert (pressing.stretch_words(fit.case_yields) == "will stay stretched") == stays
            said[True if stays else None] += 1
    assert min(said.values()) >= 10


def test_a_thick_bezel_yields_as_a_thick_ring() -> None:
    """Tresca's thick ring: yield ln(ro/ri) on the height; a thin band would bear 17 % more at 6 mm."""

    def load(wall: float) -> float:
        return yielding_line_load(yield_mpa=205.0, bore_mm=33.0, wall_mm=wall, height_mm=2.5)

    assert load(1.0) == pytest.approx(205.0 * 2.5 / 16.5)
    assert load(6.0) == pytest.approx(205.0 * 2.5 * math.log(22.5 / 16.5))
    assert 205.0 * 2.5 * 6.0 / 16.5 / load(6.0) == pytest.approx(1.17, abs=0.005)
    walls = [0.2 + 0.05 * step for step in range(200)]
    loads = [load(wall) for wall in walls]
    assert all(before <= after for before, after in itertools.pairwise(loads))
    assert max(after - before for before, after in itertools.pairwise(loads)) < 2.0
    assert load(16.5 * THIN_BAND) == pytest.approx(205.0 * 2.5 * THIN_BAND)


@pytest.mark.parametrize(("ratio", "more"), [(2.2, 0.04), (5.5, 0.27)])
def test_the_whole_slab_bears_more(ratio: float, more: float) -> None:
    """(exp(x) - 1)/x with x = friction times height over squeezed wall, beside its first term used here."""
    ours = Strip(2800.0, 115.0, ratio, 0.25, 0.0)
    x = 0.25 * ratio
    slab = PLANE_STRAIN * math.expm1(x) / x * ours.stress_mpa(0.05)
    assert slab / ours.pressure_mpa(1.0 / 0.95, 0.05) - 1.0 == pytest.approx(more, abs=0.01)


def test_the_plug_hands_on_its_standard_uncertainty() -> None:
    """Half width a: a/root 3 reaches the sizing's budget, halved for the radius."""
    seat = seat_from_plug(enters_mm=33.18, stays_out_mm=33.20)
    standard = rectangular(seat.half_width_mm)
    assert seat.size().u_mm == pytest.approx(standard)
    assert seat.size().expanded_mm / COVERAGE == pytest.approx(standard)
    known = resolve(
        SizingQuestion(case_bore_mm=33.19, glass_mm=32.14, case_bore_u_mm=seat.size().expanded_mm)
    )
    bore = next(one for one in known.budget.components if one.name == "case bore")
    assert bore.u_mm == pytest.approx(standard / 2.0)


def test_the_chamfer_that_is_cut_takes_every_glass_edge() -> None:
    """So there is nothing to warn of: over interferences, edges and glasses of the whole range."""
    for interference, edge, glass in itertools.product(
        [0.005 * step for step in range(80)], [None, 0.3, 1.0, 3.0, 6.0], [4.0, 20.0, 32.0, 80.0]
    ):
        needed = pressing.entry_chamfer_mm(interference_mm=interference, glass_mm=glass, edge_mm=edge)
        assert thumb.entry_chamfer_mm(interference) >= needed - 1e-9

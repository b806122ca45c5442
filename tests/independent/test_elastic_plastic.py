"""The solver of the squeezed strip beside closed solutions: elastic, flowing round a bore, flowing between
rough plates.

The cylinder's solution was read in the Hill benchmark of github.com/albansouche/Open-GeoNabla; the slab is
Hooke's law, the plates are Prandtl's and Hill's and the free block is the curve itself (all three from memory
or by definition: they count as checks of the solver, not as outside figures).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from tests.independent.flow import Array, Yields, capped, perfect, stressed, untouched
from tests.independent.pressed_section import STUCK, DidNotSettle, Press, Section, strip

ROOT3 = math.sqrt(3.0)


@pytest.mark.parametrize("squeeze", [0.01, 0.05, 0.10, 0.12])
def test_a_free_block_follows_its_curve(squeeze: float) -> None:
    """Squeezed with its sides free, on the first area, MPa."""
    of, was = capped(2800.0, 0.363, 115.0), untouched(())

    def stress(swell: float) -> Array:
        f = np.array([1.0 - squeeze, 0.0, 0.0, 1.0 + swell, 1.0 + swell])
        return stressed(of, f, was)[0]

    swell = brentq(lambda one: stress(one)[4], 0.0, squeeze, xtol=1e-14)
    assert -stress(swell)[0] == pytest.approx(115.0 * -math.expm1(-2800.0 * squeeze / 115.0), rel=2e-4)


def test_an_elastic_slab_that_cannot_move_sideways() -> None:
    """Squeezed by a tenth: the modulus of a held slab times the logarithm of what is left."""
    press = Press(Section(0.5, 2.0, (2, 4), 0.0, mirrored=True, held=True), perfect(1000.0, 0.3, 1e9))
    rest = press.to(press.rest(), (0.0, 0.5), (0.0, 0.45), 2)
    modulus = 1000.0 * (1 - 0.3) / ((1 + 0.3) * (1 - 2 * 0.3))
    assert rest.pressure[1] == pytest.approx(-modulus * math.log(0.9) / 0.9, rel=3e-4)


def test_a_cylinder_that_flows_from_its_bore() -> None:
    """Pressure at the bore for every reach c of the flow, and when all of it flows: within 0.1 %."""
    bore, outside, modulus, nu, limit = 10.0, 20.0, 1000.0, 0.4999, 1.0
    section = Section(outside - bore, 1.0, (20, 1), 0.0, inner=bore, held=True)
    press = Press(section, perfect(modulus, nu, limit))
    rest, at = press.rest(), 0.0
    for reach in (10.0, 12.0, 15.0, 18.0, 20.0):
        moved = 2.0 / ROOT3 * limit * reach**2 * (1 - nu**2) / (modulus * bore)
        rest, at = press.to(rest, (at, 99.0), (moved, 99.0), 3), moved
        flows = math.log(reach / bore) + (1 - (reach / outside) ** 2) / 2
        assert rest.pressure[0] == pytest.approx(2.0 / ROOT3 * limit * flows, rel=1e-3)
    assert press.to(rest, (at, 99.0), (3 * at, 99.0), 3).pressure[0] == pytest.approx(
        2.0 / ROOT3 * limit * math.log(outside / bore), rel=2e-3
    )


@pytest.mark.parametrize(("height", "plates"), [(1.0, 1.0), (2.0, 1.25)])
def test_between_plates_on_which_nothing_slips(height: float, plates: float) -> None:
    """Flowing, over 2 k: Hill's 1 where as high as thick, his 3/4 + h/4g beyond; a mesh reads 1 to 4 %
    high.
    """
    press = Press(strip(height, STUCK, 4), Yields(500.0, 0.3, np.array([0.0, 10.0]), np.array([1.0, 1.02])))
    rest = press.to(press.rest(), (0.0, 0.5), (0.0, 0.495), 6)
    assert 1.0 <= rest.pressure[1] * ROOT3 / 2.0 / plates <= 1.04


def test_a_ring_presses_as_a_strip_does() -> None:
    """A ring of a wall of 0.5 round a glass of 32 mm, two walls high: within 1 % of the endless strip."""
    of, start, end = capped(25.0, 0.36, 1.0), 5e-4, 0.03
    ring = Press(Section(1.0, 2.0, (4, 6), 0.2, inner=32.0), of)
    held = ring.to(ring.rest(), (0.0, 1.0), (start, 1.0 - start), 1)
    around = ring.to(held, (start, 1.0 - start), (end - start, 1.0 - start), 6).pressure
    endless = Press(strip(2.0, 0.2, 6), of)
    straight = endless.to(endless.rest(), (0.0, 0.5), (0.0, 0.5 - end / 2), 6).pressure[1]
    assert sum(around) / 2.0 == pytest.approx(straight, rel=0.01)


def test_what_cannot_be_is_refused() -> None:
    """Walls that pass each other have no balance between them."""
    press = Press(strip(1.0, 0.2, 4), perfect(25.0, 0.3, 1.0))
    with pytest.raises((DidNotSettle, RuntimeError, FloatingPointError)), np.errstate(all="raise"):
        press.step(press.rest(), (0.0, -0.5))

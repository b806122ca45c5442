"""Compliance of case and glass beside an axisymmetric finite-element
solution worked out here (scikit-fem).
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from skfem import (
    Basis,
    ElementQuad2,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshQuad,
    condense,
    solve,
)

from rules import tables
from rules.sizing.casing import (
    case_compliance_mm2_per_n,
    glass_compliance_mm2_per_n,
    radial_movement_mm,
)
from tests.independent.revolved import stiffness

CASE_CLOSE, GLASS_CLOSE, CYLINDER_CLOSE = 0.015, 0.015, 0.0001


def _moved(
    radii: tuple[float, float],
    heights: tuple[float, float],
    modulus: float,
    nu: float,
    *,
    at_radius: float,
    band: tuple[float, float],
    cells: tuple[int, int],
) -> float:
    """Mean outward movement of a band under one N/mm spread over it;
    a half model, held in height at z = 0.
    """
    mesh = MeshQuad.init_tensor(
        np.linspace(*radii, cells[0] + 1), np.unique(np.append(np.linspace(*heights, cells[1] + 1), band))
    )
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=4)

    inside = mesh.facets_satisfying(
        lambda x: (np.abs(x[0] - at_radius) < 1e-9) & (x[1] > band[0] - 1e-9) & (x[1] < band[1] + 1e-9),
        boundaries_only=True,
    )
    sealed = FacetBasis(mesh, ElementVector(ElementQuad2()), facets=inside, intorder=4)
    push = 1.0 / (band[1] - band[0])
    outward = 1.0 if at_radius == radii[0] else -1.0

    def load(v: Any, w: Any) -> Any:
        return outward * push * v[0] * w.x[0]

    def mean(v: Any, w: Any) -> Any:
        return v[0] * w.x[0]

    middle = basis.get_dofs(lambda x: np.abs(x[1]) < 1e-9).all("u^2")
    axis = basis.get_dofs(lambda x: np.abs(x[0]) < 1e-9).all("u^1") if radii[0] == 0.0 else np.array([], int)
    held = np.union1d(middle, axis)
    answer = solve(
        *condense(stiffness(modulus, nu).assemble(basis), LinearForm(load).assemble(sealed), D=held)
    )
    area = at_radius * (band[1] - band[0])
    return outward * float(LinearForm(mean).assemble(sealed) @ answer) / area


@pytest.mark.parametrize(
    ("bore", "wall", "height", "ring"),
    [
        pytest.param(33.0, 1.0, 2.5, 1.1, id="bezel 1.0 x 2.5"),
        pytest.param(33.0, 1.5, 2.0, 1.2, id="bezel 1.5 x 2.0"),
        pytest.param(28.0, 2.0, 2.5, 1.6, id="case 2.0 x 2.5"),
    ],
)
def test_case(bore: float, wall: float, height: float, ring: float) -> None:
    """The whole line load on the height of the ring at mid-height of the metal; half of it modelled."""
    steel = tables.metals()["316L"]
    assert steel.youngs_modulus_mpa is not None and steel.poisson_ratio is not None
    half = _moved(
        (bore / 2, bore / 2 + wall),
        (0.0, height / 2),
        steel.youngs_modulus_mpa,
        steel.poisson_ratio,
        at_radius=bore / 2,
        band=(0.0, ring / 2),
        cells=(8, 12),
    )
    ours = case_compliance_mm2_per_n(bore_mm=bore, wall_mm=wall, height_mm=height, offset_mm=0.0, metal=steel)
    assert ours == pytest.approx(half / 2, rel=CASE_CLOSE)


@pytest.mark.parametrize(("wall", "height"), [(3.5, 4.0), (2.0, 4.0), (1.0, 4.0)])
def test_case_much_higher_than_the_ring(wall: float, height: float) -> None:
    """A ring of 1.1 mm in metal of 4: the closed form spreads the load over the height and reads up to 3.2
    % low.
    """
    steel = tables.metals()["316L"]
    assert steel.youngs_modulus_mpa is not None and steel.poisson_ratio is not None
    half = _moved(
        (16.5, 16.5 + wall),
        (0.0, height / 2),
        steel.youngs_modulus_mpa,
        steel.poisson_ratio,
        at_radius=16.5,
        band=(0.0, 0.55),
        cells=(12, 16),
    )
    ours = case_compliance_mm2_per_n(bore_mm=33.0, wall_mm=wall, height_mm=height, offset_mm=0.0, metal=steel)
    assert ours is not None
    assert 0.968 <= ours / (half / 2) <= 1.0


@pytest.mark.parametrize("name", ["sapphire", "mineral"])
def test_glass(name: str) -> None:
    """A disc 31.96 x 1.5 pressed over 1.1 mm of its edge."""
    glass = tables.glasses()[name]
    assert glass.youngs_modulus_mpa is not None and glass.poisson_ratio is not None
    half = _moved(
        (0.0, 15.98),
        (0.0, 0.75),
        glass.youngs_modulus_mpa,
        glass.poisson_ratio,
        at_radius=15.98,
        band=(0.0, 0.55),
        cells=(60, 8),
    )
    ours = glass_compliance_mm2_per_n(glass_mm=31.96, thickness_mm=1.5, glass=glass)
    assert ours == pytest.approx(half / 2, rel=GLASS_CLOSE)


def test_plain_cylinder() -> None:
    """Pressed over its whole height, hub and shaft are Lame's: within 0.01 %, the compound of both too."""
    modulus, nu, high = 207000.0, 0.29, 10.0
    hub = _moved((20, 40), (0, high), modulus, nu, at_radius=20, band=(0, high), cells=(16, 4))
    shaft = _moved((0, 20), (0, high), modulus, nu, at_radius=20, band=(0, high), cells=(16, 4))

    def lame(inner: float, outer: float, inside: float, outside: float) -> float:
        return radial_movement_mm(
            radius_mm=20,
            inner_mm=inner,
            outer_mm=outer,
            inside_mpa=inside,
            outside_mpa=outside,
            youngs_modulus_mpa=modulus,
            poisson_ratio=nu,
        )

    assert lame(20, 40, 1 / high, 0) == pytest.approx(hub, rel=CYLINDER_CLOSE)
    assert -lame(0, 20, 0, 1 / high) == pytest.approx(shaft, rel=CYLINDER_CLOSE)
    together = lame(20, 40, 1 / high, 0) - lame(0, 20, 0, 1 / high)
    assert 0.0295 / together == pytest.approx(0.0295 / (hub + shaft), rel=CYLINDER_CLOSE)

"""A glass under pressure beside a solid, axisymmetric finite-element plate worked out here (scikit-fem)."""

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

from rules.sizing import glass
from rules.tables import Glass, glasses
from tests.independent.revolved import stiffness

THICK_MM, PUSH_MPA = 1.5, 0.1


def _plate(radius: float, of: Glass, *, clamped: bool) -> tuple[float, float]:
    """Centre stress on the face away from the pressure, MPa, and centre deflection, um."""
    modulus, nu = of.youngs_modulus_mpa, of.poisson_ratio
    assert modulus is not None and nu is not None
    mesh = MeshQuad.init_tensor(np.linspace(0.0, radius, 61), np.linspace(0.0, THICK_MM, 7))
    element = ElementVector(ElementQuad2())
    basis = Basis(mesh, element, intorder=4)

    def load(v: Any, w: Any) -> Any:
        return -PUSH_MPA * v[1] * w.x[0]

    pushed = mesh.facets_satisfying(lambda x: np.abs(x[1] - THICK_MM) < 1e-9, boundaries_only=True)
    top = FacetBasis(mesh, element, facets=pushed, intorder=4)
    axis = basis.get_dofs(lambda x: np.abs(x[0]) < 1e-9).all("u^1")
    edge = basis.get_dofs(lambda x: np.abs(x[0] - radius) < 1e-9)
    held = np.concatenate([edge.all("u^1"), edge.all("u^2")])
    if not clamped:
        foot_of_edge = np.argmin(np.hypot(mesh.p[0] - radius, mesh.p[1]))
        held = basis.nodal_dofs[1, [foot_of_edge]]
    moved = solve(
        *condense(
            stiffness(modulus, nu).assemble(basis),
            LinearForm(load).assemble(top),
            D=np.concatenate([axis, held]),
        )
    )
    foot = basis.get_dofs(lambda x: x[1] < 1e-9)
    outward, down = moved[foot.all("u^1")], moved[foot.all("u^2")]
    places = basis.doflocs[0, foot.all("u^1")]
    near = int(np.argsort(places)[1])
    stress = modulus / (1 - nu) * float(outward[near]) / float(places[near])
    return stress, -1000.0 * float(down[np.argmin(basis.doflocs[0, foot.all("u^2")])])


@pytest.mark.parametrize("name", ["sapphire", "mineral"])
def test_centre_stress_of_a_free_plate(name: str) -> None:
    """Radius 10.65 times the thickness: within 1 %."""
    of = glasses()[name]
    assert of.poisson_ratio is not None
    stress, _ = _plate(15.98, of, clamped=False)
    ours = glass.supported_stress_mpa(
        pressure_mpa=PUSH_MPA, radius_mm=15.98, thickness_mm=THICK_MM, nu=of.poisson_ratio
    )
    assert ours == pytest.approx(stress, rel=0.01)


@pytest.mark.parametrize(("ratio", "more"), [(7.25, 0.07), (4.8, 0.17)])
def test_deflection_of_a_held_plate_reads_low(ratio: float, more: float) -> None:
    """By what is shown: a thin plate leaves shear out."""
    of = glasses()["sapphire"]
    assert of.youngs_modulus_mpa is not None and of.poisson_ratio is not None
    _, down = _plate(ratio * THICK_MM, of, clamped=True)
    stiff = of.youngs_modulus_mpa * THICK_MM**3 / (12 * (1 - of.poisson_ratio**2))
    thin = 1000.0 * PUSH_MPA * (ratio * THICK_MM) ** 4 / (64 * stiff)
    assert down / thin - 1.0 == pytest.approx(more, abs=0.005)

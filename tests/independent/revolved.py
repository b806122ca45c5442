"""Elastic stiffness of a solid of revolution for finite elements (scikit-fem), linear and isotropic."""

from __future__ import annotations

from typing import Any

from skfem import BilinearForm


def _strains(u: Any, r: Any) -> tuple[Any, ...]:
    return u.grad[0, 0], u.grad[1, 1], u[0] / r, u.grad[0, 1] + u.grad[1, 0]


def stiffness(modulus_mpa: float, nu: float) -> BilinearForm:
    """The form over a section with x the radius and y along the axis, for one radian round it."""
    lame, shear = modulus_mpa * nu / ((1 + nu) * (1 - 2 * nu)), modulus_mpa / (2 * (1 + nu))

    def energy(u: Any, v: Any, w: Any) -> Any:
        strain, test = _strains(u, w.x[0]), _strains(v, w.x[0])
        volume = lame * sum(strain[:3]) * sum(test[:3])
        shape = 2 * shear * sum(a * b for a, b in zip(strain[:3], test[:3], strict=True))
        return (volume + shape + shear * strain[3] * test[3]) * w.x[0]

    return BilinearForm(energy)

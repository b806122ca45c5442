"""The foot of a ring under a rigid glass by finite elements (scikit-fem): the whole section, linear.

Invariant: nothing of the product is used here. A solid of revolution: a foot from its bore to the seat, the
wall on it, and between the two the bevel of the glass, under which the foot is free. Ledge and seat are rigid
and let it slide; the glass moves down by a thousandth of the foot's thickness and lets it slide, or holds it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from skfem import Basis, ElementQuad2, ElementVector, MeshQuad, asm, condense, solve

from tests.independent.revolved import stiffness

PART = 0.001
"""By so much of its thickness the foot is squeezed."""
NEAR = 1e-9


@dataclass(frozen=True)
class Foot:
    """The section, mm, and Poisson's ratio; the modulus is 1."""

    bearing: float
    """Width under the glass."""
    thick: float
    bevel: float = 0.15
    wall: float = 0.57
    wall_high: float = 1.2
    inside_radius: float = 14.0
    nu: float = 0.363


def lines(*ends: float, cell: float) -> np.ndarray:
    """Places from end to end, at most a cell apart."""
    pieces = [np.linspace(a, b, max(2, round((b - a) / cell)) + 1) for a, b in pairwise(ends)]
    return np.unique(np.round(np.concatenate(pieces), 9))


def pressure(foot: Foot, *, held: bool = False, cells: int = 8) -> float:
    """Mean pressure under the glass over modulus and squeeze."""
    edge = foot.inside_radius + foot.bearing
    inner = edge + foot.bevel
    seat = inner + foot.wall
    cell = foot.thick / cells
    across = lines(foot.inside_radius, edge, inner, seat, cell=cell)
    up = lines(0.0, foot.thick, foot.thick + foot.wall_high, cell=cell)
    mesh = MeshQuad.init_tensor(across, up)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    mesh = mesh.restrict(np.nonzero((middle[1] < foot.thick) | (middle[0] > inner))[0])
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=4)
    top = basis.get_dofs(lambda x: (np.abs(x[1] - foot.thick) < NEAR) & (x[0] < edge + NEAR))
    ledge = basis.get_dofs(lambda x: np.abs(x[1]) < NEAR)
    outside = basis.get_dofs(lambda x: np.abs(x[0] - seat) < NEAR)
    fixed = [top.all(["u^2"]), ledge.all(["u^2"]), outside.all(["u^1"])]
    fixed += [top.all(["u^1"]), ledge.all(["u^1"])] if held else []
    moved = basis.zeros()
    moved[top.all(["u^2"])] = -PART * foot.thick
    stiff = asm(stiffness(1.0, foot.nu), basis)
    found = solve(*condense(stiff, x=moved, D=np.unique(np.concatenate(fixed))))
    force = -2.0 * np.pi * float((stiff @ found)[top.all(["u^2"])].sum())
    return force / (np.pi * (edge**2 - foot.inside_radius**2)) / PART

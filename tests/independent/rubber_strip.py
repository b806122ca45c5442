"""Squeezed strips of rubber by finite elements: what a flat gasket is, seen along its circumference.

`python -m tests.independent.rubber_strip --write` solves them all, two minutes, and keeps them in
`data/squeezed_rubber.toml`.

Invariant: nothing of the product is used here. A strip is squeezed between two rigid, flat faces, its sides
free until they roll onto the faces; plane strain, large strains, incompressible neo-Hookean rubber of modulus
1, displacements and pressure as unknowns of their own (Taylor and Hood). A quarter is solved. Lengths are in
thicknesses before the squeeze, pressures in moduli and on the first width.
"""

from __future__ import annotations

import sys
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import spsolve
from skfem import Basis, BilinearForm, ElementQuad1, ElementQuad2, ElementVector, LinearForm, MeshQuad
from skfem.helpers import ddot, grad

KEPT = Path(__file__).parent / "data" / "squeezed_rubber.toml"
SQUEEZES = (0.05, 0.10, 0.15, 0.20, 0.25, 0.30)
WIDTHS = (1.0, 1.5, 2.0, 3.0, 4.0)
CELLS = 6
"""Over half the thickness."""
STEP = 0.01
SHEAR = 1.0 / 3.0
STIFF = 200.0
"""Of a face against what rolls onto it, a length."""
HEAD = """# Squeezed strips of rubber, written by `python -m tests.independent.rubber_strip --write`.
# Each row: width over thickness, held by the faces (1) or sliding (0), squeeze, mean pressure over modulus.
"""


def cofactor(of: Any) -> Any:
    """Of a matrix of two rows."""
    return np.array([[of[1, 1], -of[1, 0]], [-of[0, 1], of[0, 0]]])


def stretched(moved: Any) -> Any:
    """The gradient of deformation."""
    found = np.array(moved.grad)
    found[0, 0] += 1.0
    found[1, 1] += 1.0
    return found


def _grown(v: Any, w: Any) -> Any:
    of = stretched(w["u"])
    return -(of[0, 0] * of[1, 1] - of[0, 1] * of[1, 0] - 1.0) * v


STIFFNESS = BilinearForm(
    lambda u, v, w: SHEAR * ddot(grad(u), grad(v)) - w["p"] * ddot(cofactor(grad(u)), grad(v))
)
COUPLING = BilinearForm(lambda p, v, w: -p * ddot(cofactor(stretched(w["u"])), grad(v)))
FORCES = LinearForm(
    lambda v, w: ddot(SHEAR * stretched(w["u"]) - w["p"] * cofactor(stretched(w["u"])), grad(v))
)
GROWTH = LinearForm(_grown)


class Quarter:
    """A quarter of a strip, so many thicknesses wide."""

    def __init__(self, width: float, *, held: bool, cells: int) -> None:
        across = np.linspace(0.0, width / 2.0, max(2, round(cells * width)) + 1)
        mesh = MeshQuad.init_tensor(across, np.linspace(0.0, 0.5, cells + 1))
        self.width, self.cell = width, 0.5 / cells
        self.moves = Basis(mesh, ElementVector(ElementQuad2()), intorder=4)
        self.presses = self.moves.with_element(ElementQuad1())
        at = self._edges(mesh)
        self.face = at["face"].all(["u^2"])
        fixed = [at["middle"].all(["u^1"]), at["half"].all(["u^2"]), self.face]
        fixed += [at["face"].all(["u^1"])] if held else []
        known = np.unique(np.concatenate(fixed))
        self.free = np.setdiff1d(np.arange(self.moves.N + self.presses.N), known)
        self.side = np.setdiff1d(at["side"].all(["u^2"]), known)
        self.u, self.p = self.moves.zeros(), self.presses.zeros() + SHEAR

    def _edges(self, mesh: Any) -> dict[str, Any]:
        where = {"middle": (0, 0.0), "half": (1, 0.0), "face": (1, 0.5), "side": (0, self.width / 2.0)}
        return {
            name: self.moves.get_dofs(mesh.facets_satisfying(lambda x, c=c, at=at: np.abs(x[c] - at) < 1e-9))
            for name, (c, at) in where.items()
        }

    def state(self) -> dict[str, Any]:
        """Displacements and pressure where they are integrated."""
        return {"u": self.moves.interpolate(self.u), "p": self.presses.interpolate(self.p)}

    def beyond(self, squeeze: float) -> tuple[Any, Any]:
        """What of the side has rolled onto the face, and its force there."""
        over = self.moves.doflocs[1, self.side] + self.u[self.side] - 0.5 * (1.0 - squeeze)
        return self.side[over > 0.0], STIFF * self.cell * over[over > 0.0]

    def to(self, squeeze: float) -> float:
        """Squeeze it so far, by Newton's method; gives the mean pressure on its first width."""
        self.u[self.face] = -squeeze / 2.0
        for _ in range(40):
            state, (hit, push) = self.state(), self.beyond(squeeze)
            stiff = STIFFNESS.assemble(self.moves, **state)
            stiff += sparse.coo_matrix((np.full(len(hit), STIFF * self.cell), (hit, hit)), stiff.shape)
            couple = COUPLING.assemble(self.presses, self.moves, **state)
            force = FORCES.assemble(self.moves, **state)
            force[hit] += push
            rest = np.concatenate([force, GROWTH.assemble(self.presses, **state)])
            whole = sparse.bmat([[stiff, couple], [couple.T, None]]).tocsc()
            step = np.zeros_like(rest)
            step[self.free] = spsolve(whole[self.free][:, self.free], -rest[self.free])
            self.u += step[: self.moves.N]
            self.p += step[self.moves.N :]
            if np.abs(step).max() < 1e-8:
                break
        else:
            raise ArithmeticError(f"no balance at {squeeze}")
        force = FORCES.assemble(self.moves, **self.state())
        return float(-force[self.face].sum() + self.beyond(squeeze)[1].sum()) / (self.width / 2.0)


def squeezed(
    width: float, squeezes: Sequence[float], *, held: bool = True, cells: int = CELLS
) -> Iterator[tuple[float, float]]:
    """Squeeze and mean pressure of a strip, one after the other."""
    quarter = Quarter(width, held=held, cells=cells)
    wanted = {round(squeeze / STEP) for squeeze in squeezes}
    for n in range(1, max(wanted) + 1):
        pressure = quarter.to(n * STEP)
        if n in wanted:
            yield round(n * STEP, 4), pressure


def kept() -> list[tuple[float, bool, float, float]]:
    """Width, held or not, squeeze and pressure of every strip that is kept."""
    rows = tomllib.loads(KEPT.read_text("utf-8"))["rows"]
    return [(width, bool(held), squeeze, pressure) for width, held, squeeze, pressure in rows]


def main() -> None:
    """Solve them all and keep them, or one and print it."""
    if "--write" not in sys.argv:
        print(list(squeezed(2.0, SQUEEZES[:2])))
        return
    lines = [
        f"    [{width}, {int(held)}, {squeeze}, {pressure:.5f}],"
        for width, held in (*((width, True) for width in WIDTHS), (2.0, False))
        for squeeze, pressure in squeezed(width, SQUEEZES, held=held)
    ]
    KEPT.write_text("\n".join([HEAD + "rows = [", *lines, "]\n"]), "utf-8")


if __name__ == "__main__":
    main()

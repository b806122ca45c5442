"""A section of a plastic ring, or of an endless strip, squeezed between rigid walls with Coulomb friction.

Invariant: forces balance on the deformed section at every step; a wall only pushes, and drags no more than
friction times what it pushes.

Eight-node elements with four points each (no locking while the volume stays). x runs through the wall, z
along the height; the lower half of the height mirrors the upper. Walls are a stiff penalty.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu
from skfem import Basis, ElementQuadS2, ElementVector, FacetBasis, MeshQuad

from tests.independent.flow import Array, Flowed, Yields, stressed, tangent, untouched

STIFF = 1e4
"""Of a wall against a push, in moduli over the width of the section."""
STICKY = 20.0
"""Of a wall against slipping before friction is used up, in the same."""
STUCK = 0.6
"""Friction at which what flows shears in itself before it slips on a wall."""


class DidNotSettle(Exception):
    """Newton's method found no balance in a step."""


@dataclass(frozen=True, slots=True)
class Section:
    """What is squeezed, mm. `inner` is the radius of its inner face, None for an endless strip."""

    width: float
    height: float
    cells: tuple[int, int]
    friction: float
    inner: float | None = None
    mirrored: bool = False
    """True where x = 0 is the middle of the wall and no wall stands there."""
    held: bool = False
    """True where nothing moves along z."""
    grading: float = 1.0
    """Over 1 the cells get shorter to the free end."""


@dataclass(frozen=True, slots=True)
class State:
    """A section at rest."""

    moved: Array
    flowed: Flowed
    stuck_at: Array
    """Where along z each point of the walls sticks."""
    pressure: tuple[float, float]
    """Mean pressure of the walls at x = 0 and at the other side on the first height, MPa."""


class Press:
    """Squeezes one section step by step."""

    def __init__(self, section: Section, of: Yields) -> None:
        self.section, self.of = section, of
        high = section.height / 2.0
        ends = 1.0 - (1.0 - np.linspace(0.0, 1.0, section.cells[1] + 1)) ** section.grading
        mesh = MeshQuad.init_tensor(np.linspace(0.0, section.width, section.cells[0] + 1), high * ends)
        element = ElementVector(ElementQuadS2())
        basis = Basis(mesh, element, intorder=3)
        self.count, self.dofs = basis.N, basis.element_dofs.T
        self.high = high
        self._volume(basis)
        self._walls(mesh, element)
        end = basis.get_dofs(lambda x: np.abs(x[1] - high) < 1e-9).all("u^2")
        self.end_dofs = end[np.argsort(basis.doflocs[0, end])]
        fixed = [basis.get_dofs(lambda x: np.abs(x[1]) < 1e-9).all("u^2")]
        if section.mirrored:
            fixed.append(basis.get_dofs(lambda x: np.abs(x[0]) < 1e-9).all("u^1"))
        if section.held:
            fixed.append(basis.get_dofs(lambda x: x[1] > -1.0).all("u^2"))
        self.free = np.setdiff1d(np.arange(self.count), np.concatenate(fixed))

    def _round(self, x: Array) -> tuple[Array, Array]:
        """One over the radius, and the part of the circumference at the inner face."""
        if self.section.inner is None:
            return np.zeros_like(x), np.ones_like(x)
        return 1.0 / (self.section.inner + x), 1.0 + x / self.section.inner

    def _volume(self, basis: Any) -> None:
        """Deformation by movement, (cell, point, 5, dof), and what each point weighs."""
        curl, weight = self._round(np.asarray(basis.global_coordinates())[0])
        parts = []
        for shape in basis.basis:
            grad, value = shape[0].grad, np.asarray(shape[0])
            parts.append(np.stack([grad[0, 0], grad[0, 1], grad[1, 0], grad[1, 1], value[0] * curl]))
        self.strain = np.moveaxis(np.array(parts), (0, 1), (3, 2))
        self.weight = basis.dx * weight

    def _walls(self, mesh: Any, element: Any) -> None:
        """Points that may touch a wall: on its face, and on the free end that may fold on to it."""
        width, high = self.section.width, self.high
        tests = [lambda x: np.abs(x[0] - width) < 1e-9, lambda x: np.abs(x[1] - high) < 1e-9]
        sides = [1.0, 1.0]
        if not self.section.mirrored:
            tests += [lambda x: np.abs(x[0]) < 1e-9, lambda x: np.abs(x[1] - high) < 1e-9]
            sides += [-1.0, -1.0]
        found = [
            FacetBasis(mesh, element, facets=mesh.facets_satisfying(test, boundaries_only=True), intorder=3)
            for test in tests
        ]
        self.move = np.concatenate(
            [np.moveaxis(np.array([np.asarray(s[0]) for s in one.basis]), (0, 1), (3, 2)) for one in found]
        )
        places = [np.asarray(one.global_coordinates()) for one in found]
        self.place = np.concatenate([np.moveaxis(one, 0, 2) for one in places])
        self.side = np.concatenate([np.full(p.shape[1:], s) for p, s in zip(places, sides, strict=True)])
        self.length = np.concatenate([one.dx for one in found]) * self._round(self.place[..., 0])[1]
        self.wall_dofs = np.concatenate([one.element_dofs.T for one in found])

    def rest(self) -> State:
        """The section before anything touches it."""
        shape = self.weight.shape
        return State(np.zeros(self.count), untouched(shape), self.place[..., 1].copy(), (0.0, 0.0))

    def _deformed(self, moved: Array) -> Array:
        f: Array = np.moveaxis(np.einsum("cqai,ci->cqa", self.strain, moved[self.dofs]), 2, 0)
        f[[0, 3, 4]] += 1.0
        return f

    def _touch(self, moved: Array, stuck: Array, walls: Array) -> tuple[Array, Array, Array]:
        """Force on each wall point (..., 2), its derivative (..., 2, 2) and where it sticks then."""
        at = self.place + np.einsum("cqai,ci->cqa", self.move, moved[self.wall_dofs])
        stiff = STIFF * self.of.modulus / self.section.width
        deep = self.side * (at[..., 0] - walls)
        push = stiff * np.maximum(deep, 0.0)
        touching = deep > 0.0
        sticky = STICKY * self.of.modulus / self.section.width
        drag = sticky * (stuck - at[..., 1])
        most = self.section.friction * push
        slips = np.abs(drag) > most
        held = np.where(slips, np.sign(drag) * most, drag)
        force = np.stack([-self.side * push, np.where(touching, held, 0.0)], axis=-1)
        slope = np.zeros((*push.shape, 2, 2))
        slope[..., 0, 0] = np.where(touching, -stiff, 0.0)
        along = np.sign(drag) * self.section.friction * stiff * self.side
        slope[..., 1, 0] = np.where(touching & slips, along, 0.0)
        slope[..., 1, 1] = np.where(touching & ~slips, -sticky, 0.0)
        return force, slope, np.where(touching, at[..., 1] + held / sticky, at[..., 1])

    def _system(self, was: State, moved: Array, walls: Array, *, slopes: bool) -> tuple[Array, Any]:
        """Forces out of balance and their derivative."""
        f = self._deformed(moved)
        piola, _ = stressed(self.of, f, was.flowed)
        inner = np.einsum("acq,cqai,cq->ci", piola, self.strain, self.weight)
        force, slope, _ = self._touch(moved, was.stuck_at, walls)
        outer = np.einsum("cqa,cqai,cq->ci", force, self.move, self.length)
        out = self._summed(self.dofs, inner) - self._summed(self.wall_dofs, outer)
        if not slopes:
            return out, None
        stiff = np.einsum("abcq,cq->cqab", tangent(self.of, f, was.flowed, piola), self.weight)
        cells = np.matmul(np.swapaxes(self.strain, 2, 3), np.matmul(stiff, self.strain)).sum(axis=1)
        give = slope * self.length[..., None, None]
        edges = -np.matmul(np.swapaxes(self.move, 2, 3), np.matmul(give, self.move)).sum(axis=1)
        return out, self._matrix((cells, self.dofs), (edges, self.wall_dofs))

    def _summed(self, dofs: Any, parts: Array) -> Array:
        """What each cell or edge adds, summed on the whole section."""
        return np.bincount(dofs.ravel(), parts.ravel(), self.count).astype(np.float64)

    def _matrix(self, *parts: tuple[Array, Any]) -> Any:
        values = np.concatenate([part.ravel() for part, _ in parts])
        n = self.dofs.shape[1]
        rows = np.concatenate([np.repeat(dofs, n, axis=1).ravel() for _, dofs in parts])
        columns = np.concatenate([np.tile(dofs, (1, n)).ravel() for _, dofs in parts])
        whole = coo_matrix((values, (rows, columns)), shape=(self.count, self.count)).tocsc()
        return whole[self.free][:, self.free]

    def step(self, was: State, walls: tuple[float, float]) -> State:
        """The section with the walls at these x; raises DidNotSettle."""
        at = np.where(self.side > 0.0, walls[1], walls[0])
        moved, free = was.moved.copy(), self.free
        small = 1e-7 * self.of.modulus * self.section.height * 1e-2
        for _ in range(25):
            out, matrix = self._system(was, moved, at, slopes=True)
            if np.max(np.abs(out[free])) < small:
                return self._settled(was, moved, at)
            change = -splu(matrix, permc_spec="MMD_AT_PLUS_A").solve(out[free])
            if not np.all(np.isfinite(change)) or np.max(np.abs(change)) > self.section.width:
                break
            moved[free] += change
        raise DidNotSettle

    def _settled(self, was: State, moved: Array, at: Array) -> State:
        _, flowed = stressed(self.of, self._deformed(moved), was.flowed)
        force, _, stuck = self._touch(moved, was.stuck_at, at)
        push = np.abs(force[..., 0]) * self.length
        first = self.high * self._round(np.array([0.0, self.section.width]))[1]
        pressure = tuple(push[self.side == s].sum() / first[n] for n, s in enumerate((-1.0, 1.0)))
        return State(moved, flowed, stuck, (float(pressure[0]), float(pressure[1])))

    def to(self, was: State, start: tuple[float, float], end: tuple[float, float], steps: int) -> State:
        """The walls brought from start to end, in smaller steps where one does not settle."""
        done, usual = 0.0, 1.0 / steps
        part = usual
        while done < 1.0 - 1e-12:
            part = min(2.0 * part, usual, 1.0 - done)
            reach = done + part
            walls = (start[0] + reach * (end[0] - start[0]), start[1] + reach * (end[1] - start[1]))
            try:
                was, done = self.step(was, walls), reach
            except (DidNotSettle, RuntimeError, FloatingPointError):
                part /= 4.0
                if part < 1e-5:
                    raise
        return was


def strip(height: float, friction: float, cells: int = 8) -> Section:
    """An endless strip, its wall the unit of length, half of it meshed."""
    along = max(6, round(cells * height))
    return replace(Section(0.5, height, (cells, along), friction), mirrored=True)

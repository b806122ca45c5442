"""A plastic that yields after Mises at any strain, at every point of a mesh at once.

Invariant: the elastic strain is logarithmic and the stress Kirchhoff's, so that the return to the yield
surface is that of small strains (J2, isotropic hardening); the volume changes elastically alone.

A deformation is an array (5, ...): F11, F12, F21, F22 in the section and F33 around it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

Array = np.ndarray[Any, np.dtype[np.float64]]
STEP = 1e-7
"""Of the differences that make the tangent."""
LEAST_SLOPE = 0.1
"""Of the true stress over the strain, in caps: a hundredth of the cap over a further squeeze of 10 %."""


@dataclass(frozen=True, slots=True)
class Yields:
    """Elastic constants, MPa, and the yield stress, Kirchhoff, MPa, over the plastic strain."""

    modulus: float
    nu: float
    strains: Array
    stresses: Array

    @property
    def shear(self) -> float:
        return self.modulus / (2.0 * (1.0 + self.nu))

    @property
    def bulk(self) -> float:
        return self.modulus / (3.0 * (1.0 - 2.0 * self.nu))

    def at(self, plastic: Array) -> tuple[Array, Array]:
        """Yield stress and its slope."""
        part = np.clip(np.searchsorted(self.strains, plastic, side="right") - 1, 0, len(self.strains) - 2)
        rise = self.stresses[part + 1] - self.stresses[part]
        slope = rise / (self.strains[part + 1] - self.strains[part])
        return self.stresses[part] + slope * (plastic - self.strains[part]), slope


def perfect(modulus: float, nu: float, stress: float) -> Yields:
    """A material that yields at one stress."""
    return Yields(modulus, nu, np.array([0.0, 10.0]), np.array([stress, stress]))


def capped(modulus: float, nu: float, cap: float) -> Yields:
    """A plastic whose stress on the first area is cap (1 - exp(-E e / cap)) at a squeeze e of a free block.

    Where that would let the true stress fall, beyond about 13 %, it goes on to rise by `LEAST_SLOPE`, so that
    the flow does not gather in one band.
    """
    squeeze = 0.6 * np.linspace(0.0, 1.0, 3001) ** 2
    strain = -np.log1p(-squeeze)
    stress = -cap * np.expm1(-modulus * squeeze / cap) * (1.0 - squeeze)
    least = LEAST_SLOPE * cap * strain
    stress = np.maximum.accumulate(stress - least) + least
    return Yields(modulus, nu, strain - stress / modulus, stress)


@dataclass(frozen=True, slots=True)
class Flowed:
    """What each point has been through: the inverse of the plastic right Cauchy-Green tensor (11, 12, 22, 33)
    and the plastic strain added up.
    """

    back: Array
    plastic: Array


def untouched(shape: tuple[int, ...]) -> Flowed:
    """Points that have not flowed."""
    back = np.zeros((4, *shape))
    back[[0, 2, 3]] = 1.0
    return Flowed(back, np.zeros(shape))


def _pushed(f: Array, c: Array) -> Array:
    """F c F^T of symmetric c (11, 12, 22, 33)."""
    left = (f[0] * c[0] + f[1] * c[1], f[0] * c[1] + f[1] * c[2])
    right = (f[2] * c[0] + f[3] * c[1], f[2] * c[1] + f[3] * c[2])
    return np.array(
        [
            left[0] * f[0] + left[1] * f[1],
            left[0] * f[2] + left[1] * f[3],
            right[0] * f[2] + right[1] * f[3],
            f[4] ** 2 * c[3],
        ]
    )


def _halves(b: Array) -> tuple[Array, Array]:
    """Mean of 11 and 22, and how far the principal values lie from it."""
    return (b[0] + b[2]) / 2.0, np.hypot((b[0] - b[2]) / 2.0, b[1])


def _log(b: Array) -> Array:
    """Half the logarithm of a symmetric tensor."""
    mean, half = _halves(b)
    ratio = half / mean
    steep = np.where(ratio < 1e-9, 1.0, np.arctanh(ratio) / np.maximum(ratio, 1e-300)) / mean
    level = 0.25 * np.log((mean - half) * (mean + half))
    off = 0.5 * steep
    return np.array(
        [level + off * (b[0] - mean), off * b[1], level + off * (b[2] - mean), 0.5 * np.log(b[3])]
    )


def _exp(e: Array) -> Array:
    """Exponential of twice a symmetric tensor."""
    mean, half = _halves(2.0 * e)
    steep = np.where(half < 1e-9, 1.0, np.sinh(half) / np.maximum(half, 1e-300))
    grow, level = np.exp(mean), np.cosh(half)
    return np.array(
        [
            grow * (level + steep * (2.0 * e[0] - mean)),
            grow * steep * 2.0 * e[1],
            grow * (level + steep * (2.0 * e[2] - mean)),
            np.exp(2.0 * e[3]),
        ]
    )


def _returned(of: Yields, strain: Array, plastic: Array) -> tuple[Array, Array, Array]:
    """Stress, elastic strain and plastic strain after the return from a trial strain."""
    volume = strain[0] + strain[2] + strain[3]
    shape = strain - np.array([1.0, 0.0, 1.0, 1.0]).reshape(4, *[1] * plastic.ndim) * volume / 3.0
    size = np.sqrt(shape[0] ** 2 + 2.0 * shape[1] ** 2 + shape[2] ** 2 + shape[3] ** 2)
    trial = np.sqrt(6.0) * of.shear * size
    more = np.zeros_like(plastic)
    flows = trial > of.at(plastic)[0]
    for _ in range(60):
        limit, slope = of.at(plastic + more)
        over = np.where(flows, trial - 3.0 * of.shear * more - limit, 0.0)
        if np.max(np.abs(over)) <= 1e-10 * of.modulus * 1e-2:
            break
        more = more + over / (3.0 * of.shear + slope)
    left = np.where(flows, 1.0 - 3.0 * of.shear * more / np.maximum(trial, 1e-300), 1.0)
    elastic = shape * left
    level = of.bulk * volume
    stress = 2.0 * of.shear * elastic
    stress[[0, 2, 3]] += level
    elastic[[0, 2, 3]] += volume / 3.0
    return stress, elastic, plastic + more


def stressed(of: Yields, f: Array, was: Flowed) -> tuple[Array, Flowed]:
    """First Piola-Kirchhoff stress (5, ...) and what the points have then been through."""
    stress, elastic, plastic = _returned(of, _log(_pushed(f, was.back)), was.plastic)
    det = f[0] * f[3] - f[1] * f[2]
    undo = np.array([f[3] / det, -f[1] / det, -f[2] / det, f[0] / det, 1.0 / f[4]])
    piola = np.array(
        [
            stress[0] * undo[0] + stress[1] * undo[1],
            stress[0] * undo[2] + stress[1] * undo[3],
            stress[1] * undo[0] + stress[2] * undo[1],
            stress[1] * undo[2] + stress[2] * undo[3],
            stress[3] * undo[4],
        ]
    )
    return piola, Flowed(_pushed(undo, _exp(elastic)), plastic)


def tangent(of: Yields, f: Array, was: Flowed, piola: Array) -> Array:
    """Derivative of the stress by the deformation (5, 5, ...), the return included, by differences."""
    rows = []
    for one in range(5):
        moved = f.copy()
        moved[one] += STEP
        rows.append((stressed(of, moved, was)[0] - piola) / STEP)
    return np.stack(rows, axis=1)

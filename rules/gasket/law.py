"""How hard a flat gasket presses when it is squeezed between two faces: rubber, and hard plastic.

Invariant: more squeeze never lowers the pressure, a wider gasket of the same thickness never presses less.

The gasket is a strip, as its width is small beside its diameter; stress on the width as cut, MPa.
Rubber keeps its volume. Between faces that slide it is squeezed evenly: s = E (l^-3 - l) / 3, with l the part
of the thickness left (plane strain, neo-Hookean). Between faces that hold it (dry) it must flow sideways as
well, and its sides roll onto the faces: s = E (4/3 e/l + k S^2 (l^-3 - l) / (3 l)), with e = 1 - l the
squeeze, S = width / (2 thickness) and k = 1, or about half where it is filled with carbon black. For a small
squeeze that is (4/3) E (1 + k S^2) e, as published for rubber rings; how its two parts grow with the squeeze
was fitted to finite elements (within 5 % for a width of 1 to 4 thicknesses and 5 to 30 % squeeze).
Hard plastic is the strip of `rules.strip`, whose modulus counts by Poisson's ratio: a small squeeze in plane
strain is elastic, s = E e / (1 - nu^2) (within 5 % of finite elements up to 4 % squeeze).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

from rules.strip import PLANE_STRAIN, Strip

MOST = 0.9
"""No gasket is squeezed so far; hard plastic under a pressure at which it flows counts as if it were."""
STEPS, NEAR = 40, 1e-9
"""So often, or until so near."""


class Law(Protocol):
    """What a material answers to a squeeze."""

    def held_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between faces that hold it, at a squeeze (fraction), MPa."""

    def free_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """The same between greased faces."""

    def squeeze_at(self, pressure_mpa: float, *, width_mm: float, thick_mm: float) -> float:
        """The squeeze at which faces that hold it press so, at most `MOST`."""


@dataclass(frozen=True, slots=True)
class RubberLaw:
    """Rubber of one modulus, and of one part of what its shape would resist."""

    youngs_modulus_mpa: float
    flow_part: float = 1.0

    def held_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between dry faces, MPa."""
        flow = self._shape(width_mm, thick_mm) * self._evenly(squeeze)
        return self.youngs_modulus_mpa * (4.0 / 3.0 * squeeze + flow) / (1.0 - squeeze)

    def free_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between greased faces, MPa."""
        return self.youngs_modulus_mpa * self._evenly(squeeze)

    def squeeze_at(self, pressure_mpa: float, *, width_mm: float, thick_mm: float) -> float:
        """By Newton's method: the pressure grows ever faster, so it closes in from above."""
        shape = self._shape(width_mm, thick_mm)
        wanted = pressure_mpa / self.youngs_modulus_mpa
        squeeze = wanted / (wanted + 4.0 / 3.0 * (1.0 + shape))
        for _ in range(STEPS):
            left = 1.0 - squeeze
            now = (4.0 / 3.0 * squeeze + shape * self._evenly(squeeze)) / left - wanted
            slope = (4.0 / 3.0 + shape * (left**-4 + 1.0 / 3.0)) / left + (now + wanted) / left
            squeeze = min(MOST, squeeze - now / slope)
            if abs(now) <= NEAR * wanted:
                break
        return squeeze

    def _shape(self, width_mm: float, thick_mm: float) -> float:
        return float(self.flow_part * (width_mm / (2.0 * thick_mm)) ** 2)

    @staticmethod
    def _evenly(squeeze: float) -> float:
        left = 1.0 - squeeze
        return (left**-3 - left) / 3.0


@dataclass(frozen=True, slots=True)
class PlasticLaw:
    """Hard plastic of one modulus, stress cap, Poisson's ratio and friction on dry metal."""

    youngs_modulus_mpa: float
    stress_cap_mpa: float
    friction: float
    poisson_ratio: float = 0.37
    """Of acetal, where it is not known."""

    @property
    def stiff_mpa(self) -> float:
        """The modulus with which the strip begins as it does in plane strain."""
        return self.youngs_modulus_mpa / ((1.0 - self.poisson_ratio**2) * PLANE_STRAIN)

    def held_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between dry faces, MPa."""
        return self._strip(width_mm, self.friction).pressure_mpa(thick_mm, squeeze)

    def free_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between greased faces, MPa."""
        return self._strip(width_mm, 0.0).pressure_mpa(thick_mm, squeeze)

    def squeeze_at(self, pressure_mpa: float, *, width_mm: float, thick_mm: float) -> float:
        """The stress by the hill of friction as it stands, the squeeze by that stress, and over again."""
        squeeze = 0.0
        for _ in range(STEPS):
            hill = 1.0 + self.friction * width_mm / (2.0 * thick_mm * (1.0 - squeeze))
            filled = pressure_mpa / (PLANE_STRAIN * hill * self.stress_cap_mpa)
            if filled >= 1.0:
                return MOST
            before = squeeze
            squeeze = min(MOST, -math.log1p(-filled) * self.stress_cap_mpa / self.stiff_mpa)
            if abs(squeeze - before) <= NEAR:
                break
        return squeeze

    def _strip(self, width_mm: float, friction: float) -> Strip:
        return Strip(self.stiff_mpa, self.stress_cap_mpa, width_mm, friction, 0.0)

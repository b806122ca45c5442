"""How hard a flat gasket presses when it is squeezed between two faces: rubber, and hard plastic.

Invariant: more squeeze never lowers the pressure, a wider gasket of the same thickness never presses less.

The gasket is a strip, as its width is small beside its diameter; stress on the width as cut, MPa.
Rubber keeps its volume. Between faces that slide it is squeezed evenly: s = E (l^-3 - l) / 3, with l the part
of the thickness left (plane strain, neo-Hookean). Between faces that hold it (dry) it must flow sideways as
well: s = E (4/3 e/(1 - e) + S^2 (l^-3 - l) / 3), with e the squeeze and S = width / (2 thickness). For a
small squeeze that is Gent and Lindley's (4/3) E (1 + S^2) e; how its two parts grow with the squeeze was
fitted to finite elements (within 5 % for a width of 1.5 to 4 thicknesses and 5 to 25 % squeeze).
Hard plastic is the strip of `rules.strip`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from rules.strip import Strip

MOST = 0.95
"""No gasket is squeezed so far."""


class Law(Protocol):
    """What a material answers to a squeeze."""

    def held_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between faces that hold it, at a squeeze (fraction), MPa."""

    def free_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """The same between greased faces."""


@dataclass(frozen=True, slots=True)
class RubberLaw:
    """Rubber of one modulus."""

    youngs_modulus_mpa: float

    def held_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between dry faces, MPa."""
        shape = width_mm / (2.0 * thick_mm)
        flow = shape**2 * self._evenly(squeeze)
        return self.youngs_modulus_mpa * (4.0 / 3.0 * squeeze / (1.0 - squeeze) + flow)

    def free_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between greased faces, MPa."""
        return self.youngs_modulus_mpa * self._evenly(squeeze)

    @staticmethod
    def _evenly(squeeze: float) -> float:
        left = 1.0 - squeeze
        return (left**-3 - left) / 3.0


@dataclass(frozen=True, slots=True)
class PlasticLaw:
    """Hard plastic of one modulus, stress cap and friction on dry metal."""

    youngs_modulus_mpa: float
    stress_cap_mpa: float
    friction: float

    def held_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between dry faces, MPa."""
        return self._strip(width_mm, self.friction).pressure_mpa(thick_mm, squeeze)

    def free_mpa(self, squeeze: float, *, width_mm: float, thick_mm: float) -> float:
        """Mean pressure between greased faces, MPa."""
        return self._strip(width_mm, 0.0).pressure_mpa(thick_mm, squeeze)

    def _strip(self, width_mm: float, friction: float) -> Strip:
        return Strip(self.youngs_modulus_mpa, self.stress_cap_mpa, width_mm, friction, 0.0)


def squeeze_under(law: Law, *, load_n_per_mm: float, width_mm: float, thick_mm: float) -> float:
    """The squeeze (fraction) to which a load per mm of circumference brings a gasket held by dry faces.

    The one root inside a bracket, by false position with the end that stays halved.
    """

    def over(squeeze: float) -> float:
        return law.held_mpa(squeeze, width_mm=width_mm, thick_mm=thick_mm) * width_mm - load_n_per_mm

    low, high = 0.0, MOST
    below, above = over(low), over(high)
    if below >= 0.0 or above <= 0.0:
        return low if below >= 0.0 else high
    at = low
    for _ in range(100):
        at = high - above * (high - low) / (above - below)
        found = over(at)
        if abs(found) <= 1e-7 * load_n_per_mm:
            break
        if found < 0.0:
            low, below, above = at, found, above / 2.0
        else:
            high, above, below = at, found, below / 2.0
    return at

"""How a foot carries: the water's load on the glass, borne by a flat ring of plastic between glass and ledge.

Invariant: more load, or a narrower foot, never sinks it less; more years neither. Stresses MPa, lengths mm.

Load: the overpressure on the glass out to its edge. Stress: bearing pressure, force over the area that
touches (mechanics of materials; femds.com/FEM_Guidelines/Bearing_Allowables, read). Sinking: the foot is a
strip, as its width is small beside its diameter, so a small squeeze e answers with E e / (1 - nu^2) (plane
strain). Where the glass ends on it, it presses back as if it were wider by a part of its thickness
(`SPREADS`, fitted to finite elements of the whole section with faces that slide: within 5 % for a bearing of
half to five thicknesses). Between faces that hold it, it sinks less, so this is the most. A large squeeze
follows the law of the plastic in compression (`rules.strip`), and after years of the same load only that part
of its stress is left that its creep leaves.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rules.strip import PLANE_STRAIN

MPA_PER_BAR = 0.1
SPREADS = 0.22
"""By so much of its thickness a foot bears beyond the edge of the glass."""
USUAL_POISSON = 0.37
"""Where it is not known (of acetal)."""


def load_n(*, pressure_bar: float, glass_mm: float) -> float:
    """Push of the water on a glass, N.

    >>> round(load_n(pressure_bar=10.0, glass_mm=32.0))
    804
    """
    return MPA_PER_BAR * pressure_bar * math.pi / 4.0 * glass_mm**2


def area_mm2(*, outside_mm: float, inside_mm: float) -> float:
    """Area of a flat ring, mm2.

    >>> round(area_mm2(outside_mm=32.0, inside_mm=31.0), 1)
    49.5
    """
    return math.pi / 4.0 * (outside_mm**2 - inside_mm**2)


@dataclass(frozen=True, slots=True)
class Bearing:
    """Where the glass stands on its foot and the foot on the ledge."""

    outside_mm: float
    """Of the flat underside of the glass."""
    inside_mm: float
    """Of the foot, or of the ledge under it, whichever is wider."""
    thick_mm: float

    @property
    def width_mm(self) -> float:
        """Of the bearing, on the radius."""
        return (self.outside_mm - self.inside_mm) / 2.0

    @property
    def area_mm2(self) -> float:
        """That touches."""
        return area_mm2(outside_mm=self.outside_mm, inside_mm=self.inside_mm)

    def stress_mpa(self, force_n: float) -> float:
        """Bearing pressure under a force.

        >>> round(Bearing(32.0, 31.0, 0.4).stress_mpa(804.0), 1)
        16.2
        """
        return force_n / self.area_mm2


@dataclass(frozen=True, slots=True)
class FootLaw:
    """What a plastic answers to a squeeze of a foot, and how much of that is left after years."""

    youngs_modulus_mpa: float
    stress_cap_mpa: float
    poisson_ratio: float = USUAL_POISSON

    def sinks_mm(self, bearing: Bearing, stress_mpa: float, *, left: float = 1.0) -> float | None:
        """How far the glass goes down under a bearing pressure, of whose stress only `left` is answered
        (creep); None where the plastic gives way.

        >>> round(FootLaw(2800.0, 115.0).sinks_mm(Bearing(32.0, 31.0, 0.4), 16.3), 4)
        0.0018
        """
        spread = 1.0 + SPREADS * bearing.thick_mm / bearing.width_mm
        cap = PLANE_STRAIN * self.stress_cap_mpa
        filled = stress_mpa / (spread * left * cap)
        if filled >= 1.0:
            return None
        stiff = self.youngs_modulus_mpa / (1.0 - self.poisson_ratio**2)
        return -math.log1p(-filled) * cap / stiff * bearing.thick_mm

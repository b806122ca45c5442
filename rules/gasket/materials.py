"""What a flat gasket can be made of, and what squeeze and pressure each needs.

Invariant: hard plastic is asked for pressure and rubber for squeeze, as neither is squeezed like the other.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from rules.checks import OutOfRange, known
from rules.gasket.law import Law, PlasticLaw, RubberLaw
from rules.limits import MOST_SQUEEZE
from rules.tables import Plastic, Rubber, plastics, rubbers

TURNED, CUT, READY = "turned", "cut", "ready"
"""Turned from bar; cut from sheet; taken ready from stock."""
RUBBER_SQUEEZE = (0.15, 0.30)
"""Under this too little is left once rubber has set, over it it creases at its edges (own judgement;
of housings 10 to 15 % at least and 50 at most are published, elastoproxy.com/enclosure-gasket-compression).
"""
SEATING_MPA = 10.0
"""What closes turning marks under hard plastic (own judgement; sheet gaskets of other kinds are seated with
1.4 MPa, hard rubber, to 20 MPa and more, ASME VIII-1 table 2-5.1).
"""
USUAL_FRICTION = 0.2
"""Of plastic on dry metal where the table has none (own judgement)."""
RUBBER_SHEETS_MM = (0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.5)
PLASTIC_SHEETS_MM = (0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1.0)
"""Thicknesses of sheet as it is sold (common practice, no source)."""
RUBBER_SPREAD, PLASTIC_SPREAD = 0.05, 0.03
"""Standard deviation of the thickness of a sheet that was not measured, part of it (own judgement)."""


@dataclass(frozen=True, slots=True)
class GasketMaterial:
    """One material, with what it needs."""

    key: str
    name: str
    advice: str
    rubber: bool
    law: Law
    silicone_grease: bool = True
    """False where it swells in silicone grease."""
    warmth_c: tuple[float, float] | None = None
    """From the coldest to the warmest that it takes; None: not known."""
    set_part: float | None = None
    """Part of its squeeze, or of its pressure for a plastic, that is gone after years; None: not known."""

    @property
    def least_squeeze(self) -> float:
        """Squeeze under which rubber does not seal for years; 0 for plastic, which needs pressure instead."""
        return RUBBER_SQUEEZE[0] if self.rubber else 0.0

    @property
    def most_squeeze(self) -> float:
        """Squeeze over which it is spoiled."""
        return RUBBER_SQUEEZE[1] if self.rubber else MOST_SQUEEZE

    @property
    def seating_mpa(self) -> float:
        """Pressure under which it does not seal; 0 for rubber, which needs squeeze instead."""
        return 0.0 if self.rubber else SEATING_MPA

    @property
    def sheets_mm(self) -> tuple[float, ...]:
        """Thicknesses of its sheet."""
        return RUBBER_SHEETS_MM if self.rubber else PLASTIC_SHEETS_MM

    @property
    def sheet_spread(self) -> float:
        """Standard deviation of the thickness of its sheet, part of it."""
        return RUBBER_SPREAD if self.rubber else PLASTIC_SPREAD

    @property
    def ways(self) -> tuple[str, ...]:
        """How a gasket of it comes about: rubber is cut, not turned."""
        return (CUT, READY) if self.rubber else (TURNED, CUT)


def _of_rubber(one: Rubber) -> GasketMaterial | None:
    modulus, part = one.youngs_modulus_mpa, one.flow_part
    if modulus is None or part is None:
        return None
    known = one.coldest_c is not None and one.warmest_c is not None
    warmth = (one.coldest_c or 0.0, one.warmest_c or 0.0) if known else None
    law, grease = RubberLaw(modulus, part), one.silicone_grease
    return GasketMaterial(one.key, one.name, one.advice, True, law, grease, warmth, one.set_part)


def _of_plastic(one: Plastic) -> GasketMaterial | None:
    if one.youngs_modulus_mpa is None or one.stress_cap_mpa is None:
        return None
    friction = USUAL_FRICTION if one.friction is None else one.friction
    ratio = {} if one.poisson_ratio is None else {"poisson_ratio": one.poisson_ratio}
    law = PlasticLaw(one.youngs_modulus_mpa, one.stress_cap_mpa, friction, **ratio)
    left = one.relaxation_10y if one.relaxation_10y is not None else one.relaxation_1000h
    gone = None if left is None else 1.0 - left
    return GasketMaterial(one.key, one.name, "", False, law, set_part=gone)


def gasket_materials(own: Mapping[str, Any] | None = None) -> dict[str, GasketMaterial]:
    """Rubbers first, then the plastics of which modulus and strength are known; `own` as for plastics."""
    made = (*map(_of_rubber, rubbers().values()), *map(_of_plastic, plastics(own).values()))
    return {one.key: one for one in made if one is not None}


def gasket_material(key: str, own: Mapping[str, Any] | None = None) -> GasketMaterial:
    """One of them; raises OutOfRange where it is not there any more."""
    try:
        return known("material", key, gasket_materials(own))
    except OutOfRange as reason:
        raise OutOfRange(f"{reason}; choose another from the list") from reason

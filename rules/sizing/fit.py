"""What a ring does between this case and this glass, as a record.

Invariant: None means not known, never zero.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Force:
    """Seating force, dry, full engagement, N: at low friction, at the one given, at high friction."""

    low: float | None = None
    mid: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True)
class Yielded:
    """The same figures when the case has stayed stretched at `yield_mpa`."""

    yield_mpa: float
    real_squeeze_pct: float
    contact_pressure_mpa: float
    line_load_n_per_mm: float
    case_growth_um: float
    case_hoop_stress_mpa: float
    seating_force_n: Force
    set_um: float
    """How far the seat stays wider on the radius, micrometres."""
    contact_pressure_1h_mpa: float | None
    contact_pressure_1000h_mpa: float | None
    contact_pressure_10y_mpa: float | None


@dataclass(frozen=True, slots=True)
class Fit:
    """What a ring does here. None means not known. All model values are estimates (+-25 %, own judgement)."""

    gap_mm: float
    wall_mm: float
    interference_mm: float
    """Radial: wall less gap."""
    nominal_squeeze_pct: float
    real_squeeze_pct: float | None = None
    contact_pressure_mpa: float | None = None
    line_load_n_per_mm: float | None = None
    case_growth_um: float | None = None
    """On the radius."""
    squeezed_wall_mm: float | None = None
    """The wall once pressed: the gap plus what case and glass give."""
    case_hoop_stress_mpa: float | None = None
    case_yields: bool | None = None
    """True once the whole section of the hard temper yields, False while the bore of the soft one does not,
    None between or unknown.
    """
    seating_force_n: Force = Force()
    axial_growth_mm: float | None = None
    contact_pressure_1h_mpa: float | None = None
    contact_pressure_1000h_mpa: float | None = None
    contact_pressure_10y_mpa: float | None = None
    contact_pressure_cold_mpa: float | None = None
    contact_pressure_warm_mpa: float | None = None
    yielded: Yielded | None = None
    upper_bound: bool = False
    """True when walls and glass were taken as rigid."""
    height_over_wall: float | None = None
    """Height over squeezed wall: how far the model can be trusted."""

"""What a ring does between this case and this glass, as a record.

Invariant: None means not known, never zero. Which figures are the answer is said in `Fit.answer` alone.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Force:
    """Seating force, dry, full engagement, N: at low friction, at the one given, at high friction."""

    low: float | None = None
    mid: float | None = None
    high: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """What a ring does once it is pressed home. All model values are estimates (+-25 %, own judgement)."""

    real_squeeze_pct: float | None = None
    contact_pressure_mpa: float | None = None
    line_load_n_per_mm: float | None = None
    case_growth_um: float | None = None
    """On the radius."""
    case_hoop_stress_mpa: float | None = None
    seating_force_n: Force = Force()
    axial_growth_mm: float | None = None
    contact_pressure_1h_mpa: float | None = None
    contact_pressure_1000h_mpa: float | None = None
    contact_pressure_10y_mpa: float | None = None
    contact_pressure_cold_mpa: float | None = None
    contact_pressure_warm_mpa: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Yielded(Pressed):
    """The same figures when the case has stayed stretched at `yield_mpa`."""

    yield_mpa: float
    set_um: float
    """How far the seat stays wider on the radius, micrometres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit(Pressed):
    """What a ring does here; its own figures are those of a case that does not yield."""

    gap_mm: float
    wall_mm: float
    interference_mm: float
    """Radial: wall less gap."""
    nominal_squeeze_pct: float
    squeezed_wall_mm: float | None = None
    """The wall once pressed: the gap plus what case and glass give."""
    case_yields: bool | None = None
    """True once the whole section of the hard temper yields, False while the bore of the soft one does not,
    None between or unknown.
    """
    yielded: Yielded | None = None
    upper_bound: bool = False
    """True when walls and glass were taken as rigid."""
    height_over_wall: float | None = None
    """Height over squeezed wall: how far the model can be trusted."""

    @property
    def stretched(self) -> Yielded | None:
        """The figures of the stretched case, where it will stay stretched; None elsewhere."""
        return self.yielded if self.case_yields else None

    @property
    def answer(self) -> Pressed:
        """The figures that count: those of the stretched case where it will stay stretched."""
        return self.stretched or self

    @property
    def perhaps(self) -> Yielded | None:
        """The figures of the stretched case, where it is open whether it stays stretched; None elsewhere."""
        stays = self.yielded is not None and self.yielded.set_um > 0.0
        return self.yielded if stays and self.case_yields is None else None

    @property
    def ten_years_mpa(self) -> tuple[float, float] | None:
        """Least and most contact pressure after ten years, alike where nothing is open; None if unknown."""
        found = [one.contact_pressure_10y_mpa for one in (self.perhaps, self.answer) if one is not None]
        known = [one for one in found if one is not None]
        return (min(known), max(known)) if known else None

"""Air, and its flow through a leak.

Invariant: every rate is micrograms of air a minute at a stated overpressure; without one it is 2 bar.
Sources: the gas constant and the composition of dry air (CODATA, CIPM-2007, from memory) give the density;
the limit is ISO 2281 clause 4.1 by a typed copy, carried into ISO 22810 from memory.
"""

from __future__ import annotations

from rules.testing.pressure import STANDARD_ATMOSPHERE_BAR

REFERENCE_OVERPRESSURE_BAR = 2.0
"""Leaks are compared at this overpressure (bar)."""
LIMIT_UG_MIN = 50.0
"""Limit of the air test at 2 bar overpressure (ug/min)."""
AIR_UG_CM3_BAR = 1188.4
"""Mass of dry air, ug per cm3 and bar, at 20 C (computed: 0.0289647 kg/mol over R T)."""

ROOM_C = 20.0
"""Temperature of the room where it was not measured (our judgement)."""
ZERO_C_K = 273.15
"""0 degrees C in kelvin, exact by definition."""


def air_ug_cm3_bar(*, temperature_c: float) -> float:
    """Mass of dry air per volume and absolute pressure, ug/(cm3 bar); ideal gas, 0 to 50 C."""
    return AIR_UG_CM3_BAR * (ZERO_C_K + 20.0) / (ZERO_C_K + temperature_c)


def fixed_to_reference(overpressure_bar: float) -> float:
    """Leak at 2 bar over the leak at this overpressure, for a fixed conductance (flow as the difference)."""
    return REFERENCE_OVERPRESSURE_BAR / overpressure_bar


def laminar_to_reference(overpressure_bar: float) -> float:
    """Leak at 2 bar over the leak at this overpressure, for laminar flow (difference of squares)."""
    outside = 2.0 * STANDARD_ATMOSPHERE_BAR
    return (REFERENCE_OVERPRESSURE_BAR * (REFERENCE_OVERPRESSURE_BAR + outside)) / (
        overpressure_bar * (overpressure_bar + outside)
    )


def worse_law(overpressure_bar: float) -> tuple[str, float]:
    """The law that quotes the larger leak at 2 bar, and its factor: laminar below 2 bar, else fixed."""
    fixed, laminar = fixed_to_reference(overpressure_bar), laminar_to_reference(overpressure_bar)
    return ("laminar", laminar) if laminar > fixed else ("fixed", fixed)


def share_by_lesser_law(overpressure_bar: float) -> float:
    """Leak at 2 bar by the law that quotes the smaller, over that by the larger: 1 at 2 bar, else less."""
    fixed, laminar = fixed_to_reference(overpressure_bar), laminar_to_reference(overpressure_bar)
    return min(fixed, laminar) / max(fixed, laminar)

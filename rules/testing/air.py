"""Air, its flow through a leak, and the units a leak is quoted in.

Invariant: every rate is micrograms of air a minute at a stated overpressure; without one it is 2 bar.
Sources: the gas constant and the composition of dry air (CODATA, CIPM-2007, from memory) give the density;
the limit is ISO 2281 clause 4.1 by a typed copy, carried into ISO 22810 from memory.
"""

from __future__ import annotations

import math

ATMOSPHERE_BAR = 1.01325
"""Pressure of the room, taken as one standard atmosphere (bar)."""
REFERENCE_OVERPRESSURE_BAR = 2.0
"""Leaks are compared at this overpressure (bar)."""
LIMIT_UG_MIN = 50.0
"""Limit of the air test at 2 bar overpressure (ug/min)."""
AIR_UG_CM3_BAR = 1188.4
"""Mass of dry air, ug per cm3 and bar, at 20 C (computed: 0.0289647 kg/mol over R T)."""

_ZERO_C_K = 273.15
_SECONDS_A_MINUTE = 60.0


def air_ug_cm3_bar(*, temperature_c: float) -> float:
    """Mass of dry air per volume and absolute pressure, ug/(cm3 bar); ideal gas, 0 to 50 C."""
    return AIR_UG_CM3_BAR * (_ZERO_C_K + 20.0) / (_ZERO_C_K + temperature_c)


def to_kg_s(rate_ug_min: float) -> float:
    """A leak in kg/s. 50 ug/min is 8.33333e-10 kg/s."""
    return rate_ug_min * 1e-9 / _SECONDS_A_MINUTE


def to_mbar_l_s(rate_ug_min: float, *, temperature_c: float = 20.0) -> float:
    """A leak in mbar l/s (pV flow at that temperature). 50 ug/min is 7.01227e-4 at 20 C."""
    return rate_ug_min / air_ug_cm3_bar(temperature_c=temperature_c) / _SECONDS_A_MINUTE


def to_ml_min(rate_ug_min: float, *, temperature_c: float = 20.0) -> float:
    """A leak in mL/min of air at one atmosphere. 50 ug/min is 0.0415233 at 20 C."""
    return rate_ug_min / (air_ug_cm3_bar(temperature_c=temperature_c) * ATMOSPHERE_BAR)


def to_mbar_min(rate_ug_min: float, *, volume_cm3: float, temperature_c: float = 20.0) -> float:
    """Rise of the inner pressure, mbar/min, in a free volume in cm3. 50 ug/min: 42.0734/V at 20 C."""
    return 1000.0 * rate_ug_min / (air_ug_cm3_bar(temperature_c=temperature_c) * volume_cm3)


def time_constant_min(
    rate_ug_min: float, *, volume_cm3: float, overpressure_bar: float, temperature_c: float = 20.0
) -> float:
    """Time constant in minutes of the decay a leak (at that overpressure) causes; fixed conductance."""
    return air_ug_cm3_bar(temperature_c=temperature_c) * volume_cm3 * overpressure_bar / rate_ug_min


def fixed_to_reference(overpressure_bar: float) -> float:
    """Leak at 2 bar over the leak at this overpressure, for a fixed conductance (flow as the difference)."""
    return REFERENCE_OVERPRESSURE_BAR / overpressure_bar


def laminar_to_reference(overpressure_bar: float) -> float:
    """Leak at 2 bar over the leak at this overpressure, for laminar flow (difference of squares)."""
    outside = 2.0 * ATMOSPHERE_BAR
    return (REFERENCE_OVERPRESSURE_BAR * (REFERENCE_OVERPRESSURE_BAR + outside)) / (
        overpressure_bar * (overpressure_bar + outside)
    )


def worse_law(overpressure_bar: float) -> tuple[str, float]:
    """The law that quotes the larger leak at 2 bar, and its factor: laminar below 2 bar, else fixed."""
    fixed, laminar = fixed_to_reference(overpressure_bar), laminar_to_reference(overpressure_bar)
    return ("laminar", laminar) if laminar > fixed else ("fixed", fixed)


def difference_fixed(
    time_min: float, *, rate_ug_min: float, volume_cm3: float, overpressure_bar: float
) -> float:
    """Pressure difference in bar after a time, fixed conductance; rate at the start, at 20 C."""
    tau = time_constant_min(rate_ug_min, volume_cm3=volume_cm3, overpressure_bar=overpressure_bar)
    return overpressure_bar * math.exp(-time_min / tau)


def difference_laminar(
    time_min: float, *, rate_ug_min: float, volume_cm3: float, overpressure_bar: float
) -> float:
    """Pressure difference in bar after a time, laminar flow; rate at the start, at 20 C."""
    outer = ATMOSPHERE_BAR + overpressure_bar
    tau = time_constant_min(rate_ug_min, volume_cm3=volume_cm3, overpressure_bar=overpressure_bar)
    k = 1.0 / (tau * (outer + ATMOSPHERE_BAR))
    return outer - outer * math.tanh(math.atanh(ATMOSPHERE_BAR / outer) + outer * k * time_min)

"""What a seated ring does: pressure, force, case, years and temperatures.

Invariant: what is not known is None; a loose ring presses with nothing.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from rules import limits
from rules.sizing import climate
from rules.sizing.casing import RIGID
from rules.sizing.fit import Fit, Force, Yielded
from rules.sizing.joint import Joint
from rules.sizing.squeeze import squeeze_pct
from rules.sizing.strip import Balance, Strip
from rules.tables import Metal, Plastic


def seating_force(solve: Callable[[float], Balance], *, friction: float, glass_mm: float) -> Force:
    """F = mu q pi G at low, given and high friction, the equilibrium solved again for each, N.

    A friction beyond the usual range is itself the low or the high one.
    """
    low, mid, high = (
        mu * solve(mu).line_load_n_per_mm * math.pi * glass_mm
        for mu in (min(limits.LOW_FRICTION, friction), friction, max(limits.HIGH_FRICTION, friction))
    )
    return Force(low=low, mid=mid, high=high)


def after(
    model: Strip, plastic: Plastic, *, wall_mm: float, interference_mm: float
) -> tuple[float | None, float | None, float | None]:
    """Contact pressure after 1 h, 1000 h and ten years; None where the plastic's relaxation is unknown."""

    def left(stress_left: float | None) -> float | None:
        if stress_left is None:
            return 0.0 if interference_mm <= 0.0 else None
        relaxed = model.relaxed(stress_left)
        return relaxed.balance(wall_mm=wall_mm, interference_mm=interference_mm).pressure_mpa

    return left(plastic.relaxation_1h), left(plastic.relaxation_1000h), left(plastic.relaxation_10y)


def yielded(model: Strip, joint: Joint, *, wall_mm: float, yield_mpa: float) -> Yielded:
    """The figures with the line load capped at the case's yield; what stays stretched is lost squeeze."""
    around = joint.around or RIGID
    interference_mm = wall_mm - joint.gap_mm
    cap = yield_mpa * around.load_per_yield

    def solve(friction: float) -> Balance:
        free = model.with_friction(friction)
        elastic = free.balance(wall_mm=wall_mm, interference_mm=interference_mm)
        if elastic.line_load_n_per_mm <= cap:
            return elastic
        return free.capped(wall_mm=wall_mm, line_load_n_per_mm=cap)

    rest = solve(model.friction)
    growth = interference_mm - rest.strain * wall_mm - rest.line_load_n_per_mm * around.glass_mm2_per_n
    stays = max(0.0, growth - rest.line_load_n_per_mm * around.case_mm2_per_n)
    hour, thousand, ten = after(
        model, joint.plastic, wall_mm=wall_mm, interference_mm=interference_mm - stays
    )
    return Yielded(
        yield_mpa=yield_mpa,
        real_squeeze_pct=100.0 * rest.strain,
        contact_pressure_mpa=rest.pressure_mpa,
        line_load_n_per_mm=rest.line_load_n_per_mm,
        case_growth_um=1000.0 * growth,
        case_hoop_stress_mpa=min(yield_mpa, rest.line_load_n_per_mm * (around.hoop_per_load or 0.0)),
        seating_force_n=seating_force(solve, friction=model.friction, glass_mm=joint.glass_mm),
        set_um=1000.0 * stays,
        contact_pressure_1h_mpa=hour,
        contact_pressure_1000h_mpa=thousand,
        contact_pressure_10y_mpa=ten,
    )


def does_it_yield(
    hoop_mpa: float, metal: Metal, case_yield_mpa: float | None, *, band_mpa: float
) -> bool | None:
    """Whether the case stays stretched: True once the whole section of the hard temper yields, False
    while the bore of the soft one does not, None between or when unknown.

    hoop_mpa: stress at the bore; band_mpa: yield stress at which the whole section would flow under it.
    """
    soft = case_yield_mpa if case_yield_mpa is not None else metal.yield_soft_mpa
    hard = case_yield_mpa if case_yield_mpa is not None else metal.yield_hard_mpa
    if hard is not None and band_mpa > hard:
        return True
    return False if soft is not None and hoop_mpa < soft else None


def passed_yield_mpa(hoop_mpa: float, metal: Metal, case_yield_mpa: float | None) -> float | None:
    """The yield stress (given, of usual bar, or soft) once the elastic answer passes it, MPa; else None."""
    choices = (
        (case_yield_mpa,) if case_yield_mpa is not None else (metal.yield_usual_mpa, metal.yield_soft_mpa)
    )
    return next((value for value in choices if value is not None and hoop_mpa > value), None)


def _warped(model: Strip, joint: Joint, fit: Fit, temperature_c: float) -> float | None:
    """Contact pressure of the fresh ring at a temperature, MPa; None when an expansion is unknown."""
    moved = joint.shift(temperature_c)
    if moved is None:
        return None
    wall = fit.wall_mm * moved.wall_factor
    rest = model.balance(wall_mm=wall, interference_mm=wall - fit.gap_mm - moved.gap_mm)
    return rest.pressure_mpa


def _loose(fit: Fit, model: Strip | None) -> Fit:
    """A ring that is not squeezed presses with nothing, whatever metal is round it."""
    zero = None if model is None else 0.0
    return replace(
        fit,
        real_squeeze_pct=0.0,
        contact_pressure_mpa=0.0,
        line_load_n_per_mm=0.0,
        seating_force_n=Force(0.0, 0.0, 0.0),
        axial_growth_mm=0.0,
        contact_pressure_1h_mpa=zero,
        contact_pressure_1000h_mpa=zero,
        contact_pressure_10y_mpa=zero,
    )


def _with_case(fit: Fit, joint: Joint, model: Strip, rest: Balance) -> Fit:
    """Adds what the case does, where it is known."""
    around, metal = joint.around, joint.metal
    if around is None or metal is None or around.hoop_per_load is None:
        return fit
    hoop = rest.line_load_n_per_mm * around.hoop_per_load
    passed = passed_yield_mpa(hoop, metal, joint.case_yield_mpa)
    stretched = None
    if passed is not None:
        stretched = yielded(model, joint, wall_mm=fit.wall_mm, yield_mpa=passed)
    return replace(
        fit,
        case_growth_um=1000.0 * rest.line_load_n_per_mm * around.case_mm2_per_n,
        case_hoop_stress_mpa=hoop,
        case_yields=does_it_yield(
            hoop,
            metal,
            joint.case_yield_mpa,
            band_mpa=rest.line_load_n_per_mm / around.load_per_yield,
        ),
        yielded=stretched,
    )


def seat(joint: Joint, *, wall_mm: float, height_mm: float | None) -> Fit:
    """What a ring of this wall and height does in this joint."""
    gap = joint.gap_mm
    interference = wall_mm - gap
    fit = Fit(
        gap_mm=gap,
        wall_mm=wall_mm,
        interference_mm=interference,
        nominal_squeeze_pct=squeeze_pct(wall_mm=wall_mm, gap_mm=gap),
        upper_bound=joint.rigid,
    )
    model = joint.strip(height_mm)
    if model is None:
        return fit if interference > 0.0 else _loose(fit, None)
    rest = model.balance(wall_mm=wall_mm, interference_mm=interference)
    hour, thousand, ten = after(model, joint.plastic, wall_mm=wall_mm, interference_mm=interference)
    fit = replace(
        fit,
        real_squeeze_pct=100.0 * rest.strain,
        contact_pressure_mpa=rest.pressure_mpa,
        line_load_n_per_mm=rest.line_load_n_per_mm,
        squeezed_wall_mm=wall_mm * (1.0 - rest.strain),
        seating_force_n=seating_force(
            lambda mu: model.with_friction(mu).balance(wall_mm=wall_mm, interference_mm=interference),
            friction=joint.friction,
            glass_mm=joint.glass_mm,
        ),
        axial_growth_mm=model.height_mm * rest.strain / (1.0 - rest.strain),
        contact_pressure_1h_mpa=hour,
        contact_pressure_1000h_mpa=thousand,
        contact_pressure_10y_mpa=ten,
        contact_pressure_cold_mpa=_warped(model, joint, fit, climate.COLDEST_C),
        contact_pressure_warm_mpa=_warped(model, joint, fit, climate.WARMEST_C),
        height_over_wall=model.height_mm / (wall_mm * (1.0 - rest.strain)),
    )
    fit = _with_case(fit, joint, model, rest)
    return fit if interference > 0.0 else _loose(fit, model)

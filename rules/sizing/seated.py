"""What a seated ring does: pressure, force, case, years and temperatures.

Invariant: what is not known is None; a loose ring presses with nothing.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from typing import Any

from rules import limits
from rules.sizing import climate
from rules.sizing.casing import RIGID
from rules.sizing.fit import Fit, Force, Pressed, Yielded
from rules.sizing.joint import Joint
from rules.sizing.squeeze import squeeze_pct
from rules.strip import Balance, Strip
from rules.tables import Metal


def seating_force(solve: Callable[[float], Balance], *, friction: float, glass_mm: float) -> Force:
    """F = mu q pi G at low, given and high friction, the equilibrium solved again for each, N.

    A friction beyond the usual range is itself the low or the high one.
    """
    low, mid, high = (
        mu * solve(mu).line_load_n_per_mm * math.pi * glass_mm
        for mu in (min(limits.LOW_FRICTION, friction), friction, max(limits.HIGH_FRICTION, friction))
    )
    return Force(low=low, mid=mid, high=high)


@dataclass(frozen=True, slots=True)
class _Place:
    """A ring between its walls, elastic or with the case at its yield."""

    joint: Joint
    model: Strip
    wall_mm: float
    cap_n_per_mm: float = math.inf
    """The most line load that the case bears."""
    set_mm: float = 0.0
    """How far the seat stays wider on the radius."""

    @property
    def interference_mm(self) -> float:
        """Of the fresh ring with the seat as it was measured."""
        return self.wall_mm - self.joint.gap_mm

    def at_rest(self, model: Strip, *, wall_mm: float, interference_mm: float) -> Balance:
        """Where a ring comes to rest; a case that yields bears no more than its cap."""
        free = model.balance(wall_mm=wall_mm, interference_mm=interference_mm)
        if free.line_load_n_per_mm <= self.cap_n_per_mm:
            return free
        return model.capped(wall_mm=wall_mm, line_load_n_per_mm=self.cap_n_per_mm)

    def fresh(self, friction: float) -> Balance:
        """Just pressed, at a friction."""
        model = self.model.with_friction(friction)
        return self.at_rest(model, wall_mm=self.wall_mm, interference_mm=self.interference_mm)

    def left(self, stress_left: float | None) -> float | None:
        """Contact pressure with part of the plastic's stress gone, MPa; None where that is unknown."""
        if stress_left is None:
            return 0.0 if self.interference_mm <= 0.0 else None
        interference = self.interference_mm - self.set_mm
        relaxed = self.model.relaxed(stress_left)
        return self.at_rest(relaxed, wall_mm=self.wall_mm, interference_mm=interference).pressure_mpa

    def warped(self, temperature_c: float) -> float | None:
        """Contact pressure of the fresh ring at a temperature, MPa, the plastic as stiff as it is there; None
        where that, or an expansion, is not known.
        """
        here = self.joint.climate(temperature_c)
        if here is None:
            return None
        model = self.model.stiff(here.modulus_part, here.cap_part)
        wall = self.wall_mm * here.shift.wall_factor
        interference = wall - self.joint.gap_mm - here.shift.gap_mm - self.set_mm
        return self.at_rest(model, wall_mm=wall, interference_mm=interference).pressure_mpa

    def pressed(self) -> Pressed:
        """Everything that follows; the case's share stays open."""
        rest, plastic = self.fresh(self.model.friction), self.joint.plastic
        return Pressed(
            real_squeeze_pct=100.0 * rest.strain,
            contact_pressure_mpa=rest.pressure_mpa,
            line_load_n_per_mm=rest.line_load_n_per_mm,
            seating_force_n=seating_force(
                self.fresh, friction=self.model.friction, glass_mm=self.joint.glass_mm
            ),
            axial_growth_mm=self.model.height_mm * rest.strain / (1.0 - rest.strain),
            contact_pressure_1h_mpa=self.left(plastic.relaxation_1h),
            contact_pressure_1000h_mpa=self.left(plastic.relaxation_1000h),
            contact_pressure_10y_mpa=self.left(plastic.relaxation_10y),
            contact_pressure_cold_mpa=self.warped(climate.COLDEST_C),
            contact_pressure_warm_mpa=self.warped(climate.WARMEST_C),
        )


def _figures(of: Pressed) -> dict[str, Any]:
    """The figures by name."""
    return {one.name: getattr(of, one.name) for one in fields(Pressed)}


def yielded(model: Strip, joint: Joint, *, wall_mm: float, yield_mpa: float) -> Yielded:
    """The figures with the line load capped at the case's yield; what stays stretched is lost squeeze."""
    around = joint.around or RIGID
    place = _Place(joint, model, wall_mm, cap_n_per_mm=yield_mpa * around.load_per_yield)
    rest = place.fresh(model.friction)
    load = rest.line_load_n_per_mm
    growth = place.interference_mm - rest.strain * wall_mm - load * around.glass_mm2_per_n
    stays = max(0.0, growth - load * around.case_mm2_per_n)
    if load < place.cap_n_per_mm * (1.0 - 1e-9):
        stays = 0.0  # a rest of rounding
    known = _figures(replace(place, set_mm=stays).pressed()) | {
        "case_growth_um": 1000.0 * growth,
        "case_hoop_stress_mpa": min(yield_mpa, load * (around.hoop_per_load or 0.0)),
    }
    return Yielded(**known, yield_mpa=yield_mpa, set_um=1000.0 * stays)


def does_it_yield(
    hoop_mpa: float, metal: Metal, case_yield_mpa: float | None, *, band_mpa: float
) -> bool | None:
    """Whether the case stays stretched: True once the whole section of the hard temper yields, False
    while the bore of the soft one does not, None between or when unknown.

    hoop_mpa: stress at the bore; band_mpa: yield stress at which the whole section would flow under it.
    """
    if metal.brittle:
        return None
    soft = case_yield_mpa if case_yield_mpa is not None else metal.yield_soft_mpa
    hard = case_yield_mpa if case_yield_mpa is not None else metal.yield_hard_mpa
    if hard is not None and band_mpa > hard:
        return True
    return False if soft is not None and hoop_mpa < soft else None


def passed_yield_mpa(hoop_mpa: float, metal: Metal, case_yield_mpa: float | None) -> float | None:
    """The yield stress (given, else of usual, soft or hard bar) that the elastic answer passes, MPa; else
    None.
    """
    if metal.brittle:
        return None
    tempers = metal.yield_usual_mpa, metal.yield_soft_mpa, metal.yield_hard_mpa
    choices = (case_yield_mpa,) if case_yield_mpa is not None else tempers
    return next((value for value in choices if value is not None and hoop_mpa > value), None)


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
    place = _Place(joint, model, wall_mm)
    rest = place.fresh(model.friction)
    squeezed = wall_mm * (1.0 - rest.strain)
    fit = replace(
        fit,
        **_figures(place.pressed()),
        squeezed_wall_mm=squeezed,
        height_over_wall=model.height_mm / squeezed,
    )
    fit = _with_case(fit, joint, model, rest)
    return fit if interference > 0.0 else _loose(fit, model)

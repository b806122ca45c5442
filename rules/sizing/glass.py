"""A flat glass under test pressure: stress and deflection beside the published design stress. Advice only.

Invariant: nothing here lowers a test pressure; where the formula does not hold, the figures are None and it
is said.

Thin circular plate, a = support radius, D = E t3/(12(1-nu2)) (Timoshenko, from memory; Hearn, Mechanics of
Materials, 7.6, and Chen, Civil Engineering Handbook, eqs 47.72-47.76, opened). Supported: w0 =
(5+nu)/(64(1+nu)) p a4/D, stress 3(3+nu)/8 p (a/t)2. Clamped: stress 0.75 p (a/t)2. Beside a solid
finite-element plate the centre stress lies within 1 %; a thick plate bends more than is shown, clamped 7 %
more at a/t 7.25 and 17 % more at 4.8.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules.tables import Glass

MPA_PER_BAR = 0.1
SUPPORT_LESS_MM = 1.0
"""The support diameter is taken as the glass less this, when not given (common practice)."""
LARGEST_BEND = 0.5
"""Deflection over thickness beyond which the thin-plate formula is not used."""
THICK_PLATE = 5.0
"""Support radius over thickness under which the plate is thick and deflection reads low."""


@dataclass(frozen=True, slots=True)
class Pane:
    """What a test pressure does to a glass; None means not known, or that the formula does not hold."""

    stress_supported_mpa: float | None = None
    """Largest stress when the edge is free to turn."""
    stress_clamped_mpa: float | None = None
    """Largest stress, at the edge, when the edge is held."""
    deflection_supported_um: float | None = None
    design_stress_mpa: float | None = None
    """Published design stress of this glass."""
    pressure_at_design_bar: float | None = None
    """Overpressure at which the supported stress reaches the design stress."""
    words: str = "glass thickness or material not known: stress not computed"


def supported_stress_mpa(*, pressure_mpa: float, radius_mm: float, thickness_mm: float, nu: float) -> float:
    """Stress at the centre of a simply supported plate, MPa."""
    return 3.0 * (3.0 + nu) / 8.0 * pressure_mpa * (radius_mm / thickness_mm) ** 2


def clamped_stress_mpa(*, pressure_mpa: float, radius_mm: float, thickness_mm: float) -> float:
    """Stress at the edge of a clamped plate, MPa.

    >>> round(clamped_stress_mpa(pressure_mpa=1.0, radius_mm=15.98, thickness_mm=1.5), 1)
    85.1
    """
    return 0.75 * pressure_mpa * (radius_mm / thickness_mm) ** 2


def stiffness_n_mm(*, youngs_modulus_mpa: float, thickness_mm: float, nu: float) -> float:
    """Bending stiffness D of a plate, N mm."""
    return youngs_modulus_mpa * thickness_mm**3 / (12.0 * (1.0 - nu**2))


def supported_deflection_mm(*, pressure_mpa: float, radius_mm: float, stiffness: float, nu: float) -> float:
    """Deflection at the centre of a simply supported plate, mm."""
    return (5.0 + nu) / (64.0 * (1.0 + nu)) * pressure_mpa * radius_mm**4 / stiffness


def _why_not(glass: Glass, domed: bool) -> str:
    """Why the formula does not hold for this glass; empty where it does."""
    if not glass.plate_formula:
        return f"{glass.name}: the formula of a flat brittle plate does not hold, stress not computed"
    if domed:
        return "domed glass: stress not computed"
    if glass.youngs_modulus_mpa is None or glass.poisson_ratio is None:
        return f"{glass.name}: stiffness not known, stress not computed"
    return ""


def pane(
    *,
    glass: Glass | None,
    glass_mm: float,
    thickness_mm: float | None,
    overpressure_bar: float | None,
    support_mm: float | None = None,
    domed: bool = False,
) -> Pane:
    """Stress and deflection at an overpressure; refused in words for acrylic, domes and large deflections."""
    if glass is None or thickness_mm is None:
        return Pane(design_stress_mpa=glass.design_stress_mpa if glass else None)
    design, modulus, nu = glass.design_stress_mpa, glass.youngs_modulus_mpa, glass.poisson_ratio
    why_not = _why_not(glass, domed)
    if why_not or modulus is None or nu is None:
        return Pane(design_stress_mpa=design, words=why_not)
    radius = (support_mm if support_mm is not None else glass_mm - SUPPORT_LESS_MM) / 2.0
    stiffness = stiffness_n_mm(youngs_modulus_mpa=modulus, thickness_mm=thickness_mm, nu=nu)
    stress = supported_stress_mpa(pressure_mpa=1.0, radius_mm=radius, thickness_mm=thickness_mm, nu=nu)
    bend = supported_deflection_mm(pressure_mpa=1.0, radius_mm=radius, stiffness=stiffness, nu=nu)
    stiffest_mpa = LARGEST_BEND * thickness_mm / bend
    at_design = None
    if design is not None and design / stress <= stiffest_mpa:
        at_design = design / stress / MPA_PER_BAR
    known = Pane(design_stress_mpa=design, pressure_at_design_bar=at_design)
    if overpressure_bar is None:
        words = _reach_words(design, at_design) or "test pressure not known: stress not computed"
        return replace(known, words=words)
    pressure = overpressure_bar * MPA_PER_BAR
    if pressure > stiffest_mpa:
        words = f"at {overpressure_bar:g} bar it bends more than half its thickness: beyond the formula"
        return replace(known, words=words)
    clamped = clamped_stress_mpa(pressure_mpa=pressure, radius_mm=radius, thickness_mm=thickness_mm)
    return replace(
        known,
        stress_supported_mpa=stress * pressure,
        stress_clamped_mpa=clamped,
        deflection_supported_um=1000.0 * bend * pressure,
        words=_words(stress * pressure, design, at_design, radius / thickness_mm),
    )


def _reach_words(design: float | None, at_design: float | None) -> str:
    if design is None or at_design is None:
        return ""
    return f"the published design stress of {design:g} MPa is reached at {at_design:.1f} bar"


def _words(stress: float, design: float | None, at_design: float | None, slenderness: float) -> str:
    if design is None:
        text = f"about {stress:.0f} MPa; no published design stress"
    else:
        side = "above" if stress > design else "below"
        text = f"about {stress:.0f} MPa, {side} the published design stress of {design:g} MPa"
        if at_design is not None:
            text += f", reached at {at_design:.1f} bar"
    return text + ("; thick plate, deflection reads low" if slenderness < THICK_PLATE else "")

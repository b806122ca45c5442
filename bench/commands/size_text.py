"""The answer of the sizing as lines for a person, in the words of the trade.

Invariant: newtons, and figures for rigid walls, stand only where a figure is opened; an unknown is called
not known.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from rules.checks import OutOfRange, fixed, size_text
from rules.measuring.student import coverage_factor
from rules.sizing import climate, figures, why
from rules.sizing.advice import what_is_missing
from rules.sizing.fit import Fit, Pressed, Yielded
from rules.sizing.sizing import Sizing

YIELDED_ALONE = {
    f"{why.STRETCHED}.yield_mpa": ("yield taken", "MPa"),
    f"{why.STRETCHED}.set_um": ("stays wider for good, on the radius", "um"),
}
"""Figures of the stretched bezel that the elastic one has not: what each is called, and its unit."""


def _mm(value: float | None, places: int = 2) -> str:
    return "not known" if value is None else fixed(value, places)


def _ring(sizing: Sizing) -> list[str]:
    ring, thumb, fit, window = sizing.ring, sizing.thumb, sizing.fit, sizing.window
    plastic = sizing.resolved.joint.plastic
    given = sizing.resolved.question.bore_mm is not None
    return [
        f"{'Given' if given else 'Proposed'} ring, {plastic.name}: outside {_mm(ring.outside_diameter_mm)}, "
        f"bore {size_text(ring.bore_mm)}, wall {_mm(ring.wall_mm, 3)}, height {_mm(ring.height_mm)} (mm)",
        f"Chamfers: {_mm(ring.chamfer_mm)} on the side the glass comes from, "
        f"{_mm(ring.lower_chamfer_mm)} on the lower outside edge",
        f"Plastic: {plastic.advice}",
        f"Squeeze: {fit.nominal_squeeze_pct:.1f} % of the wall, "
        f"{_mm(2 * fit.interference_mm, 3)} mm on the diameter; "
        f"band {window.band.words} %",
        f"Rules of thumb: a tenth on the diameter, bore {_mm(thumb.tenth_bore_mm)} "
        f"({thumb.tenth_squeeze_pct:.1f} %), chance {100 * window.tenth_chance:.0f} %; "
        f"nine per cent of the wall, bore {_mm(thumb.nine_bore_mm)} "
        f"({_mm(thumb.nine_interference_mm, 3)} mm), chance {100 * window.nine_chance:.0f} %",
    ]


def _window(sizing: Sizing) -> list[str]:
    window = sizing.window
    if window.bore_low_mm is None or window.bore_high_mm is None or window.target_bore_mm is None:
        said = [f"Window: no bore works: {window.clash} cannot both be met"]
    else:
        said = [
            f"Window: too tight below {_mm(window.bore_low_mm, 3)} ({window.binds_low}), "
            f"too loose above {_mm(window.bore_high_mm, 3)} ({window.binds_high})",
            f"Best aim: bore {size_text(window.target_bore_mm)}. "
            f"Chance that your cut lands in the band: {100 * window.chance:.0f} %{window.chance_words}"
            f" (with bore {size_text(sizing.ring.bore_mm)}: {100 * window.ring_chance:.0f} %)",
        ]
    good_to = 2.0 * coverage_factor(math.inf) * sizing.resolved.budget.u_mm
    said.append(f"Interference good to {good_to:.3f} mm on the diameter, measuring and turning combined")
    return said + [f"Would help: {words}" for words in window.help]


def _opens(figures: Pressed) -> str:
    """How far the bezel opens on the diameter."""
    return f"{2 * (figures.case_growth_um or 0.0) / 1000:.3f} mm"


def _for_good(stretched: Yielded | None) -> str:
    """How much of it stays; empty where nothing does."""
    return "" if stretched is None else f", {2 * stretched.set_um / 1000:.3f} mm of it for good"


def _presses(fit: Fit) -> list[str]:
    """Contact pressure fresh and in years; both figures where the bezel may stay stretched."""
    both = [one for one in (fit.answer, fit.perhaps) if one is not None]
    fresh = _either([one.contact_pressure_mpa for one in both])
    if fit.answer.contact_pressure_10y_mpa is None:
        said = [f"Contact pressure: {fresh} fresh, ten years not known for this plastic"]
    else:
        ten = _either([one.contact_pressure_10y_mpa for one in both])
        said = [f"Contact pressure after ten years: about {ten} left of {fresh}; 10 MPa close turning marks"]
    if fit.perhaps is not None:
        said[0] += " (the second where the bezel stays stretched)"
    return said


def _cold_and_warm(sizing: Sizing) -> list[str]:
    """Contact pressure in the cold and the warmth, with the stiffness that the plastic has there."""
    fit, plastic = sizing.fit, sizing.resolved.joint.plastic
    both = [one for one in (fit.answer, fit.perhaps) if one is not None]
    rows = (
        (climate.COLDEST_C, [one.contact_pressure_cold_mpa for one in both]),
        (climate.WARMEST_C, [one.contact_pressure_warm_mpa for one in both]),
    )
    said = ", ".join(
        f"{climate.at_words(degrees)} {'not known' if values[0] is None else _either(values)}"
        for degrees, values in rows
    )
    why_not = all(values[0] is None for _, values in rows) and plastic.parts_at(climate.WARMEST_C) is not None
    grounds = "an expansion is not known" if why_not else climate.stiffness_words(plastic)
    return [f"{said[0].upper()}{said[1:]} ({grounds})"]


def _either(values: Sequence[float | None]) -> str:
    """One pressure, or two joined by "or"."""
    return " or ".join(f"{value:.0f}" for value in values if value is not None) + " MPa"


def _follows(sizing: Sizing) -> list[str]:
    """What follows for press, bezel, years and room."""
    fit, answer, then = sizing.fit, sizing.fit.answer, sizing.consequences
    if fit.interference_mm <= 0.0:
        return ["Loose: it presses with nothing and holds nothing"]
    if fit.upper_bound:
        return ["Force, bezel, ten years: not known; figures for rigid walls under --why, an upper bound"]
    if fit.contact_pressure_mpa is None:
        missing, known = what_is_missing(sizing.resolved, sizing.ring), then.stretch_words != "not known"
        said = [f"Force, {'' if known else 'bezel, '}ten years: not known ({missing})"]
        return said + ([f"Bezel: {then.stretch_words}"] if known else [])
    said = [f"To press it home: {then.force_words}", f"Bezel: {then.stretch_words}"]
    if answer.case_growth_um is not None:
        said[-1] += f"; opens about {_opens(answer)} on the diameter while pressed{_for_good(fit.stretched)}"
    if fit.perhaps is not None:
        said[-1] += f"; if it stays stretched (yield {fit.perhaps.yield_mpa:g} MPa) {_opens(fit.perhaps)}"
        said[-1] += _for_good(fit.perhaps)
    said += _presses(fit) + _cold_and_warm(sizing)
    if answer.axial_growth_mm is not None:
        left = "" if then.room_left_mm is None else f", {_mm(then.room_left_mm)} mm left above"
        said.append(f"Grows {_mm(answer.axial_growth_mm)} mm in height{left}")
    said.append(f"How sure: {then.model_words}")
    return said


def lines(sizing: Sizing) -> list[str]:
    """The answer, a line for each thing worth saying."""
    then = sizing.consequences
    said = _ring(sizing) + _window(sizing) + _follows(sizing)
    if then.swelling_um is not None and then.swelling_um >= 1.0:
        said.append(f"Soaked with water the wall grows about {then.swelling_um:.0f} um")
    said.append(f"Glass under test: {sizing.glass.words}")
    said.extend(f"Look again: {words}" for words in sizing.warnings)
    if sizing.resolved.assumed:
        said.append("Assumed: " + "; ".join(sizing.resolved.assumed))
    return said


def _value(value: Any, unit: str) -> str:
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        text = f"{value:.6g}"
        return text if unit == "1" else f"{text} {unit}"
    return "; ".join(value) if isinstance(value, list) else str(value)


def _opened(sizing: Sizing, name: str) -> list[str]:
    """One figure opened; budget and yielding figures line by line."""
    opened = why.opened(sizing, name)
    many = name in ("budget", "fit.yielded")
    value = "" if many else f" = {_value(opened.value, opened.reason.unit)}"
    said = [f"{opened.reason.name}{value}", f"  how: {opened.reason.formula}"]
    for words, taken, unit, source in opened.inputs:
        said.append(f"  from: {words} {_value(taken, unit)}" + (f" ({source})" if source else ""))
    if name == "budget":
        said.extend(
            f"  component: {one.name} {1000 * one.u_mm:.2f} um, {100 * one.share:.0f} % ({one.basis})"
            for one in sizing.resolved.budget.components
        )
    if name == "fit.yielded":
        said.extend(
            f"  value: {_of_yielded(one, value)}"
            for one, value in figures.flat(sizing).items()
            if one.startswith("fit.yielded")
        )
    said.append(f"  source: {opened.grounds}")
    return said + ([f"  holds: {opened.reason.holds}"] if opened.reason.holds else [])


def _of_yielded(name: str, value: Any) -> str:
    """A figure of the stretched bezel in words, with its value."""
    reason = why.reason(name)
    words, unit = YIELDED_ALONE.get(name, (reason.name.removesuffix(", bezel stretched"), reason.unit))
    return f"{words} {_value(value, unit)}"


def _key_of(figure: str) -> str:
    """The key of a figure given by its name in words, or by the key itself; raises OutOfRange for neither."""
    known = why.reasons()
    keys = {one.name: key for key, one in known.items()}
    if figure in known or figure.startswith(f"{why.STRETCHED}."):
        return figure
    if figure.lower() in keys:
        return keys[figure.lower()]
    raise OutOfRange(f"figure: {figure!r} is not known; known are {'; '.join(keys)}")


def why_lines(sizing: Sizing, figure: str) -> list[str]:
    """Every figure opened, or one by its name in words or its key; raises OutOfRange for an unknown one."""
    every = dict.fromkeys(
        "fit.yielded" if name.startswith("fit.yielded") else name for name in figures.flat(sizing)
    )
    said = ["", "Upper bound: walls and glass taken as rigid."] if sizing.fit.upper_bound else [""]
    for name in [_key_of(figure)] if figure else every:
        said += _opened(sizing, name)
    return said

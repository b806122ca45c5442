"""The answer of the sizing as lines for a person, in the words of the trade.

Invariant: newtons, and figures for rigid walls, stand only where a figure is opened; an unknown is called
not known.
"""

from __future__ import annotations

from typing import Any

from rules.checks import size_text
from rules.measuring.student import coverage_factor
from rules.sizing import figures, why
from rules.sizing.advice import what_is_missing
from rules.sizing.window import Answer


def _mm(value: float | None, places: int = 2) -> str:
    return "not known" if value is None else f"{value:.{places}f}"


def _ring(answer: Answer) -> list[str]:
    ring, thumb, fit, window = answer.ring, answer.thumb, answer.fit, answer.window
    plastic = answer.case.joint.plastic
    given = answer.question.bore_mm is not None
    return [
        f"{'Given' if given else 'Proposed'} ring, {plastic.name}: outside {_mm(ring.outside_diameter_mm)}, "
        f"bore {size_text(ring.bore_mm)}, wall {_mm(ring.wall_mm, 3)}, height {_mm(ring.height_mm)} mm",
        f"Chamfers: {_mm(ring.chamfer_mm)} on the side the glass comes from, "
        f"{_mm(ring.lower_chamfer_mm)} on the lower outside edge",
        f"Plastic: {plastic.advice}",
        f"Squeeze: {fit.nominal_squeeze_pct:.1f} % of the wall, {2 * fit.interference_mm:.3f} mm on the diameter",
        f"Rules of thumb: a tenth on the diameter, bore {_mm(thumb.tenth_bore_mm)} "
        f"({thumb.tenth_squeeze_pct:.1f} %), chance {100 * window.tenth_chance:.0f} %; "
        f"nine per cent of the wall, bore {_mm(thumb.nine_bore_mm)} "
        f"({thumb.nine_interference_mm:.3f} mm), chance {100 * window.nine_chance:.0f} %",
    ]


def _window(answer: Answer) -> list[str]:
    window = answer.window
    if window.bore_low_mm is None or window.bore_high_mm is None or window.target_bore_mm is None:
        said = [f"Window: no bore works: {window.binds_high} and {window.binds_low} cannot both be met"]
    else:
        said = [
            f"Window: too tight below {window.bore_low_mm:.3f} ({window.binds_low}), "
            f"too loose above {window.bore_high_mm:.3f} ({window.binds_high})",
            f"Best aim: bore {size_text(window.target_bore_mm)}. "
            f"Chance that your cut lands in the band: {100 * window.chance:.0f} %"
            f" (with bore {size_text(answer.ring.bore_mm)}: {100 * window.ring_chance:.0f} %)",
        ]
    good_to = 2.0 * coverage_factor(1e9) * answer.interference_u_mm
    said.append(f"Interference good to {good_to:.3f} mm on the diameter, measuring and turning together")
    return said + [f"Would help: {words}" for words in window.help]


def _follows(answer: Answer) -> list[str]:
    """What follows for press, bezel, years and room."""
    fit, then = answer.fit, answer.consequences
    if fit.interference_mm <= 0.0:
        return ["Loose: it bears nothing and holds nothing"]
    if fit.upper_bound:
        return ["Force, bezel, ten years: not known; figures for rigid walls under --why, an upper bound"]
    if fit.contact_pressure_mpa is None:
        return [f"Force, bezel, ten years: not known ({what_is_missing(answer.case, answer.ring)})"]
    said = [f"To press it home: {then.force_words}", f"Bezel: {then.stretch_words}"]
    if fit.case_growth_um is not None:
        said[-1] += f"; opens about {2 * fit.case_growth_um / 1000:.3f} mm on the diameter while pressed"
    ten = fit.contact_pressure_10y_mpa
    ten_words = "not known for this plastic" if ten is None else f"about {ten:.0f} MPa left of"
    fresh = f"{fit.contact_pressure_mpa:.0f} MPa"
    said.append(
        f"Contact pressure: {fresh} fresh, ten years {ten_words}"
        if ten is None
        else f"Contact pressure after ten years: {ten_words} {fresh}; 10 MPa close turning marks"
    )
    if fit.contact_pressure_cold_mpa is not None and fit.contact_pressure_warm_mpa is not None:
        said.append(
            f"At -10 C {fit.contact_pressure_cold_mpa:.0f} MPa, at +60 C {fit.contact_pressure_warm_mpa:.0f} MPa"
        )
    if fit.axial_growth_mm is not None:
        left = "" if then.room_left_mm is None else f", {then.room_left_mm:.2f} mm left above"
        said.append(f"Grows {fit.axial_growth_mm:.2f} mm in height{left}")
    said.append(f"How sure: {then.model_words}")
    return said


def lines(answer: Answer) -> list[str]:
    """The answer, a line for each thing worth saying."""
    then = answer.consequences
    said = _ring(answer) + _window(answer) + _follows(answer)
    if then.swelling_um is not None and then.swelling_um >= 1.0:
        said.append(f"Soaked with water the wall grows about {then.swelling_um:.0f} um")
    if not then.entry.takes_edge:
        said.append(f"Chamfer too small: the glass edge needs {then.entry.needed_mm:.2f} mm")
    said.append(f"Glass under test: {answer.glass.words}")
    said.extend(f"Look again: {words}" for words in answer.warnings)
    if answer.assumed:
        said.append("Assumed: " + "; ".join(answer.assumed))
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


def _opened(answer: Answer, name: str) -> list[str]:
    """One figure opened; budget and yielding figures line by line."""
    opened = why.opened(answer, name)
    many = name in ("budget", "fit.yielded")
    value = "" if many else f" = {_value(opened.value, opened.reason.unit)}"
    said = [f"{name} ({opened.reason.name}){value}", f"  how: {opened.reason.formula}"]
    for words, taken, unit, source in opened.inputs:
        said.append(f"  from: {words} {_value(taken, unit)}" + (f" ({source})" if source else ""))
    if name == "budget":
        said.extend(
            f"  line: {line.name} {1000 * line.u_mm:.2f} um, {100 * line.share:.0f} % ({line.basis})"
            for line in answer.budget
        )
    if name == "fit.yielded":
        said.extend(
            f"  value: {one.removeprefix('fit.yielded.')} {_value(value, '1')}"
            for one, value in figures.flat(answer).items()
            if one.startswith("fit.yielded")
        )
    said.append(f"  source: {opened.source}; {opened.reason.basis}")
    return said + ([f"  holds: {opened.reason.holds}"] if opened.reason.holds else [])


def why_lines(answer: Answer, figure: str) -> list[str]:
    """Every figure opened, or one; raises OutOfRange for an unknown name."""
    every = dict.fromkeys(
        "fit.yielded" if name.startswith("fit.yielded") else name for name in figures.flat(answer)
    )
    said = ["", "Upper bound: walls and glass taken as rigid."] if answer.fit.upper_bound else [""]
    for name in [figure] if figure else every:
        said += _opened(answer, name)
    return said

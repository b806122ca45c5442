"""The sheet as text, for the screen, for paper and for the command line.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

import textwrap
from typing import Any

from bench.clean import clean
from rules.methods import method

SITTINGS = {"empty": "Empty case", "cased": "Cased watch"}
RESULTS = {"pass": "PASS", "fail": "FAIL", "not_judged": "NOT JUDGED"}
OUTCOMES = {
    "home": "home and level",
    "too_easy": "went in too easily",
    "would_not_start": "would not start",
    "shaved": "ring shaved",
    "chipped": "glass chipped",
    "bezel_moved": "bezel moved",
    "spoiled": "spoiled at the lathe",
}
DECISIONS = {"fits": "fits", "does_not": "does not fit", "undecided": "undecided (measure better to decide)"}


def sheet_lines(data: dict[str, Any], *, columns: int = 76) -> tuple[str, ...]:
    """The sheet in lines of at most `columns` characters."""
    lines = [f"Job {data['job']}" + (f"   {data['watch']}" if data["watch"] else "")]
    if not data["finished"]:
        lines.insert(0, "NOT FINISHED")
    parts = (measured_text(data), ring_text(data), made_text(data), tests_text(data), notes_text(data))
    for heading, sentences in parts:
        if sentences:
            lines += ["", heading, *(f"  {sentence}" for sentence in sentences)]
    folded: list[str] = []
    for text in lines:
        indent = " " * (len(text) - len(text.lstrip()))
        folded += textwrap.wrap(clean(text), max(columns, 20), subsequent_indent=indent + "  ") or [""]
    return tuple(folded)


def measured_text(data: dict[str, Any]) -> tuple[str, list[str]]:
    """Seat and glass."""
    out = []
    for key, name in (("case_bore", "Glass seat"), ("glass", "Glass")):
        taken = data["measured"][key]
        if taken["mean_mm"] is not None:
            good = f"good to {taken['u_mm']:.2f} mm, {taken['n']} readings"
            oval = f", {taken['ovality_mm']:.2f} mm out of round" if taken["ovality_mm"] else ""
            out.append(f"{name}: {taken['mean_mm']:.2f} mm, {good}{oval}.")
    return "Measured", out


def ring_text(data: dict[str, Any]) -> tuple[str, list[str]]:
    """The ring that was accepted, and the rings before it."""
    ring = data["ring"]
    if ring["outside_diameter_mm"] is None:
        return "Ring", []
    out = [
        f"Outside {ring['outside_diameter_mm']:.2f}, bore {ring['bore_mm']:.2f}, height {ring['height_mm']:.2f} mm, "
        f"{ring['plastic']}.",
        f"Wall {ring['wall_mm']:.3f}, entry chamfer {ring['chamfer_mm']:.2f}, "
        f"lower outside edge {ring['lower_chamfer_mm']:.2f} mm.",
    ]
    for attempt in data["attempts"][:-1]:
        bore = f"bore {attempt['bore_mm']:.2f} mm, " if attempt["bore_mm"] is not None else ""
        out.append(
            f"Ring {attempt['attempt']} before it: {bore}{OUTCOMES.get(attempt['outcome'], 'not fitted')}."
        )
    return f"Ring {data['attempt']}" if data["attempt"] > 1 else "Ring", out


def made_text(data: dict[str, Any]) -> tuple[str, list[str]]:
    """The ring as made, and how it went in."""
    made, out = data["made"], []
    if made["wall_mm"]:
        walls = ", ".join(f"{wall:.3f}" for wall in made["wall_mm"])
        height = f"; height {made['height_mm']:.2f}" if made["height_mm"] is not None else ""
        out.append(f"Wall measured at {len(made['wall_mm'])} places: {walls}{height} mm.")
    if made["squeeze_pct"] is not None:
        verdict = DECISIONS.get(made["decision"], made["decision"])
        out.append(
            f"Squeeze {made['squeeze_pct']:.1f} +- {made['squeeze_u_pct']:.1f} % of the wall (95 %): {verdict}."
        )
    fitting = data["fitting"]
    if fitting["outcome"]:
        at = f", {moment(fitting['at'])}" if fitting["at"] else ""
        out.append(f"Fitting: {OUTCOMES.get(fitting['outcome'], fitting['outcome'])}{at}.")
    if data["renewed"]:
        out.append(f"Seals renewed besides the ring: {data['renewed'].replace('_', ', ')}.")
    return "Made and fitted", out


def tests_text(data: dict[str, Any]) -> tuple[str, list[str]]:
    """The tests, and what they do not prove."""
    out = [test_text(test) for test in data["tests"]]
    if data["marking_bar"] is not None:
        out.append(f"Marking: {data['marking_bar']:g} bar.")
    out += data["not_tested"]
    return "Tested", out


def test_text(test: dict[str, Any]) -> str:
    """One test as a sentence."""
    name = method(test["method"]).name if test["method"] else "Test"
    parts = [f"{SITTINGS[test['sitting']]}, tested by: {name.lower()}"]
    if test["overpressure_bar"] is not None:
        parts.append(f"{test['overpressure_bar']:g} bar over")
    if test["minutes"] is not None:
        timed = "timed by the program" if test["timed"] == "program" else "time as keyed"
        parts.append(f"{test['minutes']:g} min ({timed})")
    if test["temperature_c"] is not None:
        parts.append(f"{test['temperature_c']:g} C")
    if test["at"]:
        parts.append(moment(test["at"]))
    result = RESULTS.get(test["result"], test["result"])
    text = ", ".join(parts) + f": {result}."
    if test["leak"]:
        leak = test["leak"]
        high = "no upper limit" if leak["high_ug_min"] is None else f"{leak['high_ug_min']:.0f}"
        text += (
            f" Leak {leak['rate_ug_min']:.0f} ug/min (95 %: {leak['low_ug_min']:.0f} to {high}, "
            f"referred to 2 bar overpressure; limit 50): {leak['decision']}."
        )
    if test["early"]:
        text += " Early: within 12 hours of fitting; to be repeated."
    return text


def notes_text(data: dict[str, Any]) -> tuple[str, list[str]]:
    """Remark, notes, how it ended and what the customer has to know."""
    out = [data["remark"]] if data["remark"] else []
    out += data["notes"]
    if data["ended"]:
        out.append(f"Ended without a finished ring ({data['ended'].replace('_', ' ')}).")
    out += data["cautions"]
    return "To know", out


def moment(utc: str) -> str:
    """A UTC text as a date and time for people."""
    return utc[:16].replace("T", " ") + " UTC"

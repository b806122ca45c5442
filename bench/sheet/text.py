"""The sheet as text, for the screen, for paper and for the command line.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

import textwrap
from typing import Any

from bench.clean import clean
from bench.job import keys
from rules.testing.air import LIMIT_UG_MIN
from rules.testing.methods import EARLY_HOURS, methods

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
ENDED = {
    "paint_go: stop": "Stopped because of the luminous paint: no ring was made.",
    "not_this_ring: closed": "Closed: a plastic ring is not the answer here.",
    "acrylic_anyway: no": "Closed: no plastic ring was made for an acrylic glass.",
    "no_ring: closed": "Closed: no ring can be proposed from these figures.",
    "cannot_turn: closed": "Closed: the ring cannot be turned in this shop.",
    "remake: hand_back": "Handed back without a new ring.",
    "empty_found: hand_back": "Handed back as not water-resistant.",
    "cased_found: hand_back": "Handed back as not water-resistant.",
}
Section = tuple[str, list[str]]


def sheet_lines(data: dict[str, Any], *, columns: int = 76) -> tuple[str, ...]:
    """The sheet in lines of at most `columns` characters."""
    lines = [f"Job {data['job']}" + (f"   {data['watch']}" if data["watch"] else "")]
    if data["shop_name"]:
        lines.insert(0, data["shop_name"])
    if not data["finished"]:
        lines.insert(0, "NOT FINISHED")
    for heading, sentences in sections(data):
        lines += ["", heading, *(f"  {sentence}" for sentence in sentences)]
    folded: list[str] = []
    for text in lines:
        indent = " " * (len(text) - len(text.lstrip()))
        folded += textwrap.wrap(clean(text), max(columns, 20), subsequent_indent=indent + "  ") or [""]
    return tuple(folded)


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """The headings with their sentences; an empty one is left out."""
    parts = (measured_text(data), ring_text(data), made_text(data), tests_text(data), notes_text(data))
    return tuple((heading, sentences) for heading, sentences in parts if sentences)


def measured_text(data: dict[str, Any]) -> Section:
    """Seat and glass."""
    out = []
    for key, name in (("case_bore", "Glass seat"), ("glass", "Glass")):
        taken = data["measured"][key]
        if taken["mean_mm"] is not None:
            good = f"good to {taken['u_mm']:.2f} mm, {taken['n']} readings"
            oval = f", {taken['ovality_mm']:.2f} mm out of round" if taken["ovality_mm"] else ""
            out.append(f"{name}: {taken['mean_mm']:.2f} mm, {good}{oval}.")
    if not out and data["made_by"]:
        out.append("Readings were changed after the ring was decided: no figure stands.")
    return "Measured", out


def ring_text(data: dict[str, Any]) -> Section:
    """The ring of this attempt, and the rings before it."""
    ring, out = data["ring"], []
    if ring["outside_diameter_mm"] is not None and ring["bore_mm"] is not None:
        out = [
            f"Outside {ring['outside_diameter_mm']:.2f}, bore {ring['bore_mm']:.2f}, "
            f"height {ring['height_mm']:.2f} mm, {bar_words(data)}.",
            f"Wall {ring['wall_mm']:.3f}, entry chamfer {ring['chamfer_mm']:.2f}, "
            f"lower outside edge {ring['lower_chamfer_mm']:.2f} mm.",
        ]
    for attempt in data["attempts"][:-1]:
        out.append(attempt_text(attempt))
    return f"Ring {data['attempt']}" if data["attempt"] > 1 else "Ring", out


def bar_words(data: dict[str, Any]) -> str:
    """The plastic, with the colour of the bar where it is known."""
    plastic, colour = data["ring"]["plastic"] or "plastic not named", data["turned"]["colour"]
    return f"{plastic}, {colour}" if colour and colour != "not said" else plastic


def attempt_text(attempt: dict[str, Any]) -> str:
    """A ring before the present one: its bore, the press, the last test."""
    bore = f"bore {attempt['bore_mm']:.2f} mm, " if attempt["bore_mm"] is not None else ""
    outcome = OUTCOMES.get(attempt["outcome"], "not fitted")
    tested = ""
    if attempt["tests"]:
        test = attempt["tests"][-1]
        tested = f"; last test, {keys.BY_NAME[test['sitting']].title}: {RESULTS.get(test['result'], test['result'])}"
    return f"Ring {attempt['attempt']} before it: {bore}{outcome}{tested}."


def made_text(data: dict[str, Any]) -> Section:
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


def tests_text(data: dict[str, Any]) -> Section:
    """The tests, and what they do not prove."""
    out = [test_text(test) for test in data["tests"]]
    if out and data["tester_number"]:
        out.append(f"Tester: {data['tester_number']}.")
    if data["marking_bar"] is not None:
        out.append(f"Marking: {data['marking_bar']:g} bar.")
    return "Tested", [*out, *data["not_tested"]]


def test_text(test: dict[str, Any]) -> str:
    """One test as a sentence: by which method, how, and what came of it."""
    parts = [f"{keys.BY_NAME[test['sitting']].heading}, tested by method: {method_words(test)}"]
    if test["overpressure_bar"] is not None:
        parts.append(f"{test['overpressure_bar']:g} bar over")
    if test["minutes"] is not None:
        timed = "timed by the program" if test["timed"] == "program" else "time as keyed"
        short = test["stopped_after_min"]
        held = (
            f"{test['minutes']:g} min"
            if short is None
            else f"stopped after {short:g} of {test['minutes']:g} min"
        )
        parts.append(f"{held} ({timed})")
    if test["temperature_c"] is not None:
        parts.append(f"{test['temperature_c']:g} C")
    if test["at"]:
        parts.append(moment(test["at"]))
    text = ", ".join(parts) + f": {RESULTS.get(test['result'], test['result'])}."
    if test["leak"]:
        text += f" {leak_text(test['leak'])}"
    elif test["reason"]:
        text += f" {test['reason'][0].upper()}{test['reason'][1:].removesuffix('.')}."
    if test["early"]:
        text += f" Early: within {EARLY_HOURS:g} hours of fitting; to be repeated."
    if not test["counts"]:
        text += " Its answers were changed afterwards: it does not count."
    return text


def leak_text(leak: dict[str, Any]) -> str:
    """The leak rate with its interval, overpressure and limit."""
    high = "no upper limit" if leak["high_ug_min"] is None else f"{leak['high_ug_min']:.0f}"
    return (
        f"Leak {leak['rate_ug_min']:.0f} ug/min (95 %: {leak['low_ug_min']:.0f} to {high}, "
        f"referred to 2 bar overpressure; limit {LIMIT_UG_MIN:g}): {leak['decision'].replace('_', ' ')}."
    )


def notes_text(data: dict[str, Any]) -> Section:
    """Remark, notes, how it ended and what the customer has to know."""
    out = [data["remark"]] if data["remark"] else []
    out += data["notes"]
    if data["ended"]:
        out.append(ENDED[data["ended"]])
    return "To know", [*out, *data["cautions"]]


def result_text(data: dict[str, Any]) -> str:
    """The state of the proof in one worded line, for the bag slip: never more than a standing pass."""
    standing = [test for test in data["tests"] if test["stands"]]
    judged = [test for test in data["tests"] if test["counts"] and test["result"] in ("pass", "fail")]
    if judged and judged[-1]["result"] == "fail":
        return "Last test: fail. Not water-resistant as it stands."
    if not standing:
        return "No test passed."
    test = next((one for one in reversed(standing) if one["sitting"] == keys.CASED.name), standing[-1])
    bar = f", {test['overpressure_bar']:g} bar over" if test["overpressure_bar"] is not None else ""
    early = ", early: to be repeated" if test["early"] else ""
    return f"{keys.BY_NAME[test['sitting']].heading}: pass by method {method_words(test)}{bar}{early}."


def method_words(test: dict[str, Any]) -> str:
    """A method as the sheet names it."""
    method = methods().get(test["method"] or "")
    return method.claim.words if method else (test["method"] or "not named").replace("_", " ")


def moment(utc: str) -> str:
    """A UTC text as a date and time for people."""
    return utc[:16].replace("T", " ") + " UTC"

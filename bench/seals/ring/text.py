"""What the sheet and the slip say of the straight ring, in sentences.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

from typing import Any

from bench.job.in_drawer import name_of
from bench.job.in_words import moment
from bench.seals.seal import Section, last_test
from rules.checks import fixed, span
from rules.lengths import bare, good_to, length, short, size

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

AT_HAND = {
    "new": "This ring was there already, never pressed before; it was measured and judged, not turned here.",
    "made": "This ring was turned before readings were corrected; it was measured and judged again.",
    "drawer": "This ring was made in this workshop for another job; it was measured and judged for this one.",
    "pressed": (
        "This ring was turned before readings were corrected and was in its place already; "
        "it was judged again by what it measured before."
    ),
}
"""What the sheet says of a ring that was there."""
A_SPARE = "A spare of the set-up before: its sizes are expected from how the first ring came out."


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """Measured, the ring, made and fitted."""
    return measured_text(data), ring_text(data), made_text(data)


def measured_text(data: dict[str, Any]) -> Section:
    """Seat and glass."""
    out = []
    for key, name in (("case_bore", "Glass seat"), ("glass", "Glass")):
        taken = data["measured"][key]
        if taken["mean_mm"] is not None:
            good = f"good to {good_to(taken['u_mm'])} {short()}, {taken['n']} readings"
            oval = f", {length(taken['ovality_mm'])} out of round" if taken["ovality_mm"] else ""
            out.append(f"{name}: {length(taken['mean_mm'])}, {good}{oval}.")
    if data["gap_believed_mm"] is not None:
        out.append(f"Gap taken as {length(data['gap_believed_mm'], 3)} after the rings tried before.")
    if not out and data["made_by"]:
        out.append("Readings were changed after the ring was decided: no figure stands.")
    return Section("Measured", tuple(out))


def ring_text(data: dict[str, Any]) -> Section:
    """The ring of this attempt as planned, or a bought one as measured; what was measured on its bar, and
    the rings before it.
    """
    ring, out = data["ring"], []
    if ring["outside_diameter_mm"] is not None and ring["bore_mm"] is not None:
        final = data["on_the_ring"]["outside_final"]
        outside = "" if final else f"outside {bare(ring['outside_diameter_mm'])}, "
        sized = "Expected of the spare" if data["turned"]["spare"] else "Planned"
        out = [
            *((A_SPARE,) if data["turned"]["spare"] else ()),
            f"{sized}: {outside}bore {size(ring['bore_mm'])}, "
            f"height {length(ring['height_mm'])}, {bar_words(data)}.",
            f"{sized}: wall {bare(ring['wall_mm'], 3)}, entry chamfer {bare(ring['chamfer_mm'])}, "
            f"lower outside edge {length(ring['lower_chamfer_mm'])}.",
        ]
    elif ring["wall_mm"] is not None:
        high = data["made"]["height_mm"]
        height = f", height {bare(high)}" if high is not None else ""
        out = [f"Measured: mean wall {bare(ring['wall_mm'], 3)}{height} {short()}, {bar_words(data)}."]
    if data["turned"]["left_mm"] is not None:
        out.append(f"What is left of the bar: about {length(data['turned']['left_mm'], 0)}.")
    out += spares_text(data["turned"]["spares_left"])
    out += expected_text(data["expected"])
    out += at_hand_text(data["at_hand"])
    on_bar = data["on_the_ring"]["outside_on_bar_mm"]
    if on_bar is not None:
        when = "as it stayed" if data["on_the_ring"]["outside_final"] else "before its last pass"
        out.append(f"Outside measured on the bar, {when}: {length(on_bar, 3)}.")
    for attempt in data["attempts"][:-1]:
        out.append(attempt_text(attempt))
    return Section(f"Ring {data['attempt']}" if data["attempt"] > 1 else "Ring", tuple(out), drawn=True)


def spares_text(left: int) -> list[str]:
    """The spare rings that lie there; nothing where none does."""
    if not left:
        return []
    rings = "1 spare ring, its wall" if left == 1 else f"{left} spare rings, their walls"
    return [f"Of the same set-up: {rings} not measured on the bar."]


def expected_text(expected: dict[str, Any]) -> list[str]:
    """What it does to the bezel and presses with after ten years; nothing where neither is known."""
    low, high, wider = (
        expected[key] for key in ("ten_years_low_mpa", "ten_years_high_mpa", "stays_wider_mm")
    )
    said = [] if low is None else [f"presses with about {span(low, high)} MPa after ten years"]
    if expected["bezel"]:
        by = f" by {length(wider, 3)} on the diameter" if wider is not None else ""
        said.append(f"the bezel {expected['bezel']}{by}")
    return [f"Expected (estimate): {'; '.join(said)}."] if said else []


def at_hand_text(there: dict[str, Any]) -> list[str]:
    """A ring that was there, and what was made of it."""
    out = [AT_HAND[there["what"]]] if there["what"] in AT_HAND else []
    out += [f"It is the {name_of(there['from'])}."] if there.get("from") else []
    if there["used_wall_mm"] is not None:
        after = "made after it" if there["made_after_it"] else "made as proposed"
        out.append(
            f"A used ring was measured: wall {bare(there['used_wall_mm'], 3)}, "
            f"height {length(there['used_height_mm'])}. It was a pattern and was not fitted again; "
            f"this ring is new, {after}."
        )
    return out


def bar_words(data: dict[str, Any]) -> str:
    """The plastic, with the colour of the bar where it is known."""
    plastic, colour = data["ring"]["plastic"] or "plastic not named", data["turned"]["colour"]
    return f"{plastic}, {colour}" if colour and colour != "not said" else plastic


def attempt_text(attempt: dict[str, Any]) -> str:
    """A ring before the present one: its planned bore or the wall of a bought one, press, last test."""
    sized = ""
    if attempt["bore_mm"] is not None:
        sized = f"planned bore {size(attempt['bore_mm'])} {short()}, "
    elif attempt["wall_mm"] is not None:
        sized = f"wall {length(attempt['wall_mm'], 3)}, "
    outcome = OUTCOMES.get(attempt["outcome"], "not fitted")
    return f"Ring {attempt['attempt']} before it: {sized}{outcome}{last_test(attempt)}."


def made_text(data: dict[str, Any]) -> Section:
    """The ring as made, and how it went in."""
    made, out = data["made"], []
    if made["wall_mm"]:
        walls = ", ".join(bare(wall, 3) for wall in made["wall_mm"])
        height = f"; height {bare(made['height_mm'])}" if made["height_mm"] is not None else ""
        at = f" at {len(made['wall_mm'])} places" if len(made["wall_mm"]) > 1 else ""
        out.append(f"Wall measured{at}: {walls}{height} {short()}.")
    if made["squeeze_pct"] is not None:
        verdict = DECISIONS.get(made["decision"], made["decision"])
        if made["shut"] and made["decision"] == "undecided":
            verdict = f"undecided (no bore met every requirement: {made['shut']})"
        out.append(
            f"Squeeze {fixed(made['squeeze_pct'], 1)} +- {fixed(made['squeeze_u_pct'], 1)} "
            f"% of the wall (95 %): {verdict}."
        )
    fitting = data["fitting"]
    if fitting["outcome"]:
        at = f", {moment(fitting['at'])}" if fitting["at"] else ""
        out.append(f"Fitting: {OUTCOMES.get(fitting['outcome'], fitting['outcome'])}{at}.")
    if data["renewed"]:
        out.append(f"Seals renewed besides the ring: {data['renewed'].replace('_', ', ')}.")
    return Section("Made and fitted", tuple(out))

"""What the workshop's sheet says of the O-ring, in sentences.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

from typing import Any

from bench.job.in_words import moment
from bench.seals.oring.kind import PLACES
from bench.seals.oring.sheet import READ
from bench.seals.oring.size_steps import greased_with
from bench.seals.seal import REFUSED, Section, last_test, readings_section
from rules.checks import span
from rules.lengths import bare, length, short
from rules.oring.housing import FACE, FEMALE, MALE
from rules.oring.stock import BY_WORDS
from rules.tables import rubbers

OUTCOMES = {
    "home": "in its place",
    "proud": "the parts did not close",
    "slack": "it lay slack",
    "rolled": "twisted or rolled out",
    "cut": "nicked or cut",
    "spoiled": "given up before it was put in",
    REFUSED: "not put in, as measured it did not meet its needs",
}
LIES = {
    FACE: "inner wall {inner}, outer {outer}, {other} deep",
    MALE: "floor {inner}, bore {outer}, {other} wide",
    FEMALE: "tube or stem {inner}, floor {outer}, {other} wide",
}


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """The groove, the ring, and how it was measured and put in."""
    if data["oring"]["cord_mm"] is None:
        return ()
    name = f"O-ring {data['attempt']}" if data["attempt"] > 1 else "O-ring"
    return (
        Section("Measured", groove_text(data["groove"])),
        Section(name, (*oring_text(data["oring"]), *map(attempt_text, data["attempts"][:-1])), drawn=True),
        Section("Taken and put in", put_in_text(data)),
    )


def groove_text(groove: dict[str, Any]) -> tuple[str, ...]:
    """Where the ring lies, and in what."""
    if groove["inner_mm"] is None:
        return ("Readings were changed after the O-ring was decided: no figure stands.",)
    sizes = {name: bare(groove[f"{name}_mm"]) for name in ("inner", "outer")}
    lies = LIES[groove["lies"]].format(**sizes, other=length(groove["other_mm"]))
    moves = "it is rubbed" if groove["moves"] == "moves" else "it lies still"
    wear = groove["wear_mm"]
    worn = () if wear is None else (f"Worn by {length(wear, 3)} where the ring runs, on the diameter.",)
    return (f"O-ring {PLACES[groove['place']]}; {moves}.", f"Groove ({short()}): {lies}.", *worn)


def material_name(key: str | None) -> str:
    """What a rubber is called; its key where it is in no table any more."""
    found = rubbers().get(key or "")
    return found.name if found else str(key)


def oring_text(one: dict[str, Any]) -> tuple[str, ...]:
    """The ring as it was chosen."""
    by = BY_WORDS.get(one["cord_by"], one["cord_by"])
    over = span(one["squeeze_low_pct"], one["squeeze_high_pct"])
    return (
        f"Chosen: {bare(one['inside_mm'])} inside, cord {length(one['cord_mm'])} "
        f"(to {bare(one['cord_limit_mm'])} by {by}), {material_name(one['material'])}.",
        f"Planned squeeze {one['squeeze_pct']:.1f} %, over all tolerances {over} %; "
        f"{one['most_fill_pct']:.0f} % of its groove filled at worst.",
        f"Squeeze left after years, in the cold: {one['later_pct']:.1f} % (estimate).",
    )


def attempt_text(past: dict[str, Any]) -> str:
    """A ring before the one that is shown."""
    cord = past["oring_cord_mm"]
    of = "" if cord is None else f", planned cord {length(cord)}"
    how = OUTCOMES.get(past["outcome"], "not put in")
    return f"O-ring {past['attempt']} before it{of}: {how}{last_test(past)}."


def put_in_text(data: dict[str, Any]) -> tuple[str, ...]:
    """The ring as measured, and how it went in."""
    made, went, said = data["measured_oring"], data["put_in"], []
    if made["cord_mm"]:
        places = ", ".join(bare(value, 3) for value in made["cord_mm"])
        said.append(f"Measured: cord {places} {short()}.")
    if made["inside_mm"] is not None:
        said.append(f"Measured: inside {length(made['inside_mm'])}.")
    if made["mean_mm"] is not None:
        off = " It does not meet its needs as measured." if made["off_its_band"] else ""
        said.append(
            f"Squeeze {made['squeeze_pct']:.1f} %, {made['fill_pct']:.0f} % of its groove filled.{off}"
        )
    if went["with"]:
        grease = greased_with(rubbers().get(data["oring"]["material"] or ""))
        said.append(f"Put in with a film of {grease}." if went["with"] == "greased" else "Put in dry.")
    if went["outcome"]:
        at = f", {moment(went['at'])}" if went["at"] else ""
        said.append(f"O-ring: {OUTCOMES[went['outcome']]}{at}.")
    if data["renewed"]:
        said.append(f"Seals renewed besides it: {data['renewed'].replace('_', ', ')}.")
    return tuple(said)


def recorded(data: dict[str, Any]) -> tuple[Section, ...]:
    """Every reading as it was keyed."""
    return (readings_section(data["oring_readings"], READ, name="O-ring", several=data["attempt"] > 1),)

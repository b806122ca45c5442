"""What the workshop's sheet says of the flat gasket, in sentences.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

from typing import Any

from bench.job.in_words import moment
from bench.seals.gasket.decided import STOP
from bench.seals.gasket.kind import PLACES
from bench.seals.gasket.sheet import READ
from bench.seals.gasket.size_steps import SAID
from bench.seals.seal import REFUSED, Section, last_test, readings_section
from rules.checks import span
from rules.gasket.materials import gasket_materials
from rules.lengths import bare, length, short

OUTCOMES = {
    "home": "closed, level all round",
    "proud": "lid stood proud",
    "loose": "closed without resistance",
    "dragged": "gasket dragged or squeezed out",
    "torn": "gasket tore",
    "spoiled": "spoiled while it was made",
    REFUSED: "not laid in, as measured it did not meet its needs",
}
LIDS = {
    "greased": "Both faces greased, as the lid turns on it.",
    "held": "Held on one side, as the lid turns on it.",
    "washer": "A loose washer turns between lid and gasket.",
}


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """The room, the gasket, and how it was made and closed."""
    if data["gasket"]["thickness_mm"] is None:
        return ()
    name = f"Gasket {data['attempt']}" if data["attempt"] > 1 else "Gasket"
    return (
        Section("Measured", room_text(data["room"])),
        Section(name, (*gasket_text(data), *map(attempt_text, data["attempts"][:-1])), drawn=True),
        Section("Made and fitted", made_text(data)),
    )


def room_text(room: dict[str, Any]) -> tuple[str, ...]:
    """Where the gasket lies, and in what."""
    if room["outside_mm"] is None:
        return ("Readings were changed after the gasket was decided: no figure stands.",)
    walls = f"outer wall {bare(room['outside_mm'])}, inner {bare(room['inside_mm'])}"
    meets = (
        f"the parts meet and leave {length(room['height_mm'])}"
        if room["closes"] == STOP
        else f"the gasket takes all the force, and is to stand {length(room['height_mm'])} high"
    )
    return (f"Flat gasket {PLACES[room['joint']]}.", f"Room: {walls} {short()}; {meets}.")


def material_name(key: str) -> str:
    """What a material is called; its key where it is in no table any more."""
    found = gasket_materials().get(key)
    return found.name if found else key


def gasket_text(data: dict[str, Any]) -> tuple[str, ...]:
    """The gasket as planned."""
    one = data["gasket"]
    sizes = f"outside {bare(one['outside_mm'])}, inside {bare(one['inside_mm'])}"
    takes, gives = (
        span(one["takes_low_n"], one["takes_high_n"]),
        span(one["given_low_n"], one["given_high_n"]),
    )
    force = (
        f"It takes {takes} N of the {gives} N"
        if data["room"]["closes"] == STOP
        else f"It takes all of {gives} N"
    )
    return (
        f"Planned: {sizes}, thickness {length(one['thickness_mm'])}, {material_name(one['material'])}, "
        f"{SAID[one['way']]}.",
        f"Planned squeeze {one['squeeze_pct']:.1f} %, {one['fill_pct']:.0f} % of its room filled.",
        f"{force} that the lid is closed with (estimate).",
    )


def attempt_text(past: dict[str, Any]) -> str:
    """A gasket before the one that is shown."""
    thick = past["gasket_thickness_mm"]
    of = "" if thick is None else f", planned {length(thick)} thick"
    how = OUTCOMES.get(past["outcome"], "not laid in")
    return f"Gasket {past['attempt']} before it{of}: {how}{last_test(past)}."


def made_text(data: dict[str, Any]) -> tuple[str, ...]:
    """The gasket as measured, and how the lid closed on it."""
    made, laid, said = data["made_gasket"], data["laid"], []
    if made["thickness_mm"]:
        places = ", ".join(bare(value, 3) for value in made["thickness_mm"])
        said.append(f"Measured: thickness {places} {short()}.")
    if made["width_mm"] is not None:
        said.append(f"Measured: width {length(made['width_mm'])}.")
    if made["mean_mm"] is not None:
        off = " It does not meet its needs as measured." if made["off_its_band"] else ""
        said.append(f"Squeeze {made['squeeze_pct']:.1f} %, {made['fill_pct']:.0f} % of its room filled.{off}")
    if laid["lid"]:
        said.append(LIDS[laid["lid"]])
    if laid["outcome"]:
        at = f", {moment(laid['at'])}" if laid["at"] else ""
        said.append(f"Lid: {OUTCOMES[laid['outcome']]}{at}.")
    if data["renewed"]:
        said.append(f"Seals renewed besides the gasket: {data['renewed'].replace('_', ', ')}.")
    return tuple(said)


def recorded(data: dict[str, Any]) -> tuple[Section, ...]:
    """Every reading as it was keyed."""
    return (readings_section(data["gasket_readings"], READ, name="Gasket", several=data["attempt"] > 1),)

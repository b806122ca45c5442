"""What the workshop's sheet says of the ring with a foot, in sentences.

Invariant: every sentence repeats what the sheet's data hold; nothing is added.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from bench.job.as_keyed import in_a_line
from bench.seals.foot.measure_steps import HANGS
from bench.seals.foot.sheet import READ
from bench.seals.foot.size_words import NOT_COUNTED_ON
from bench.seals.ring.record import recorded as ring_recorded
from bench.seals.ring.text import sections as ring_sections
from bench.seals.seal import Section
from rules.lengths import bare, length, short


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """Those of the straight ring, each with what is to be said of the foot."""
    measured, ring, made = ring_sections(data)
    foot = data["foot"]
    if foot["thickness_mm"] is None:
        return measured, ring, made
    ledge = () if foot["ledge_mm"] is None else (f"Ledge: inside {length(foot['ledge_mm'])}.",)
    return (
        replace(measured, sentences=(*measured.sentences, *ledge)),
        replace(ring, sentences=(*foot_text(foot), *ring.sentences)),
        replace(made, sentences=(*made_text(foot), *made.sentences)),
    )


def foot_text(foot: dict[str, Any]) -> tuple[str, ...]:
    """The foot as planned, where the glass stands on it, and what it bears."""
    said = [f"Foot planned: {bare(foot['thickness_mm'])} thick, inside {length(foot['inside_mm'])}."]
    if foot["carries"] == HANGS:
        said.append("The wall alone holds the glass; the foot carries nothing until it goes down on it.")
    elif foot["stands_over_mm"] is not None:
        said.append(f"Home on it the edge of the glass stands {beside(foot['stands_over_mm'])}.")
    if foot["load_n"] is not None and foot["bears_mpa"] is not None:
        sinks, years = foot["sinks_mm"], foot["sinks_years_mm"]
        down = "" if sinks is None else f", goes down {length(sinks, 3)}"
        later = "" if years is None else f", {length(years, 3)} in ten years of it"
        said.append(
            f"It bears {foot['bears_mpa']:.1f} MPa where the water pushes with {foot['load_n']:.0f} N{down}"
            f"{later} (estimate)."
        )
    if foot["clamp_presses_mpa"] is not None:
        presses = f"{foot['clamp_presses_mpa']:.1f} MPa (estimate)"
        said.append(f"Clamped by the bezel it presses with {presses}; {NOT_COUNTED_ON}.")
    return tuple(said)


def beside(over_mm: float) -> str:
    """Where an edge stands beside the rim."""
    if abs(over_mm) < 0.005:
        return "level with the rim"
    return f"{length(abs(over_mm))} {'over' if over_mm > 0.0 else 'under'} the rim"


def made_text(foot: dict[str, Any]) -> tuple[str, ...]:
    """The foot as measured."""
    if not foot["measured_mm"]:
        return ()
    places = ", ".join(bare(value, 3) for value in foot["measured_mm"])
    return (f"Foot measured at {len(foot['measured_mm'])} places: {places} {short()}.",)


def recorded(data: dict[str, Any]) -> tuple[Section, ...]:
    """Every reading as it was keyed: those of a straight ring, then those of the foot."""
    several = data["attempt"] > 1
    lines = []
    for one in data["foot_readings"]:
        text = f"{READ[one['what']]}: {in_a_line(one)}."
        of = f"Ring {one['attempt']}, {text}" if several else f"{text[:1].upper()}{text[1:]}"
        lines.append(of)
    return (
        *ring_recorded(data),
        Section("Readings of ledge, glass and foot as they were keyed", tuple(lines)),
    )

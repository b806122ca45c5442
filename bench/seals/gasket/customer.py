"""What the customer is told of the flat gasket: where it lies, what was measured of it, when it was closed.

Invariant: every statement repeats what the sheet's data hold; a size that was not measured is called planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.corrections import HOME
from bench.job.statement import AtTime, Blank, Long, Ours, Statement
from bench.seals.gasket.kind import PLACES
from bench.seals.gasket.text import material_name
from rules.gasket.materials import READY


def for_customer(data: dict[str, Any]) -> tuple[Statement, ...]:
    """The gasket, its sizes, and how the lid closed on it."""
    return () if data["gasket"]["thickness_mm"] is None else tuple(said(data))


def said(data: dict[str, Any]) -> Iterator[Statement]:
    """The same one by one."""
    one, made, laid = data["gasket"], data["made_gasket"], data["laid"]
    yield origin(data)
    if made["mean_mm"] is not None and made["width_mm"] is not None:
        yield Statement(
            "gasket_measured",
            "Measured on the gasket: thickness {thick} (mean of {n} places), width {width}.",
            {
                "thick": Long(made["mean_mm"], 3),
                "n": len(made["thickness_mm"]),
                "width": Long(made["width_mm"]),
            },
        )
        sizes = {"outside": Long(one["outside_mm"]), "inside": Long(one["inside_mm"])}
        planned = "Planned, not measured on the gasket: outside {outside}, inside {inside}."
        yield Statement("gasket_planned", planned, dict(sizes))
    if made["off_its_band"]:
        yield Statement(
            "gasket_off",
            "As measured it does not meet what was aimed for; only a test can show whether it seals.",
        )
    if laid["outcome"] == HOME and data["fitted_at"]:
        yield Statement(
            "gasket_lid_closed", "It was closed, level all round: {at}.", {"at": AtTime(data["fitted_at"])}
        )
    elif laid["outcome"]:
        yield Statement("gasket_not_in_place", "No new gasket is in its place.")


def origin(data: dict[str, Any]) -> Statement:
    """Where the gasket comes from, what it is made of and where it lies."""
    of = of_material(data)
    if data["laid"]["outcome"] is None:
        return Statement("gasket_not_fitted", "A flat gasket is chosen, not fitted yet: {of}, {where}.", of)
    if data["gasket"]["way"] == READY:
        return Statement("gasket_from_stock", "A new flat gasket from stock was fitted: {of}, {where}.", of)
    return Statement("gasket_made", "A flat gasket was made for this watch: {of}, {where}.", of)


def of_material(data: dict[str, Any]) -> dict[str, Blank]:
    """What it is made of, and where it lies."""
    joint = data["room"]["joint"]
    where = PLACES[joint] if joint else "in its place"
    return {"of": Ours(material_name(data["gasket"]["material"])), "where": Ours(where)}


def in_one_line(data: dict[str, Any]) -> Statement | None:
    """What it is made of; None while none is accepted."""
    if data["gasket"]["thickness_mm"] is None:
        return None
    return Statement("slip_gasket", "Flat gasket: {of}, {where}.", of_material(data))

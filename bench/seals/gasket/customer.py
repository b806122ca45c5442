"""What the customer is told of the flat gasket: where it lies, what was measured of it, when it was closed.

Invariant: every statement repeats what the sheet's data hold; a size that was not measured is called planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.kept import HOME
from bench.job.statement import AtTime, Blank, Long, Ours, Statement
from bench.seals.gasket.kind import PLACES, on_the_glass
from bench.seals.seal import NOT_PROVED, glass_gasket
from rules.gasket.materials import READY
from rules.tables import rubbers


def titled(data: dict[str, Any]) -> Statement:
    """What the paper is about: a joint of the glass, or that of the back."""
    if on_the_glass(data["room"]["joint"]):
        return glass_gasket(data)
    return Statement("job_back", "Gasket of the back, job {job}", {"job": data["job"]})


def for_customer(data: dict[str, Any]) -> tuple[Statement, ...]:
    """The gasket, its sizes, and how the lid closed on it."""
    return () if data["gasket"]["thickness_mm"] is None else tuple(said(data))


def said(data: dict[str, Any]) -> Iterator[Statement]:
    """The same one by one."""
    laid = data["laid"]
    yield origin(data)
    yield from measured(data)
    if data["made_gasket"]["off_its_band"]:
        yield Statement(
            "gasket_off",
            "As measured it does not meet what was aimed for; only a test can show whether it seals.",
        )
    elif laid["outcome"] == HOME:
        yield Statement("gasket_not_proved", NOT_PROVED)
    if laid["outcome"] == HOME and data["fitted_at"]:
        at = {"at": AtTime(data["fitted_at"])}
        yield Statement("gasket_lid_closed", "The joint was closed, level all round: {at}.", at)
    elif laid["outcome"]:
        yield Statement("gasket_not_in_place", "No new gasket is in its place.")


def measured(data: dict[str, Any]) -> Iterator[Statement]:
    """What was measured on the gasket itself, and the sizes that were not."""
    one, made = data["gasket"], data["made_gasket"]
    if made["mean_mm"] is not None and made["width_mm"] is not None:
        yield Statement(
            "gasket_measured",
            "Measured on the gasket: thickness {thick} (mean of {n} places), width {width}.",
            {
                "thick": Long(made["mean_mm"], 3),
                "n": len(made["thickness_mm"]),
                "width": Long(made["width_mm"]),
            },
            one="Measured on the gasket: thickness {thick} (at one place), width {width}.",
        )
    yield Statement(
        "gasket_planned",
        "Planned, not measured on the gasket: outside {outside}, inside {inside}.",
        {"outside": Long(one["outside_mm"]), "inside": Long(one["inside_mm"])},
    )


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
    key, joint = data["gasket"]["material"], data["room"]["joint"]
    rubber = rubbers().get(key)
    where = Ours(PLACES[joint]) if joint else Ours("in its place")
    return {"of": Ours(rubber.name if rubber else key), "where": where}


def in_one_line(data: dict[str, Any]) -> Statement | None:
    """What it is made of; None while none is accepted."""
    if data["gasket"]["thickness_mm"] is None:
        return None
    return Statement("slip_gasket", "Flat gasket: {of}, {where}.", of_material(data))

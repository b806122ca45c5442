"""What the customer is told of the O-ring: where it lies, what was measured of it, when it was put in.

Invariant: every statement repeats what the sheet's data hold; a size that was not measured is called planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.kept import HOME
from bench.job.statement import AtTime, Blank, Long, Ours, Statement
from bench.seals.oring.kind import PLACES
from bench.seals.seal import NOT_PROVED
from rules.tables import rubbers


def titled(data: dict[str, Any]) -> Statement:
    """What the paper is about."""
    return Statement("job_oring", "O-ring, job {job}", {"job": data["job"]})


def for_customer(data: dict[str, Any]) -> tuple[Statement, ...]:
    """The ring, its sizes, and how it was put in."""
    return () if data["oring"]["cord_mm"] is None else tuple(said(data))


def said(data: dict[str, Any]) -> Iterator[Statement]:
    """The same one by one."""
    went = data["put_in"]
    yield origin(data)
    yield sizes(data)
    if data["measured_oring"]["off_its_band"]:
        yield Statement(
            "oring_off",
            "As measured it does not meet what was aimed for; only a test can show whether it seals.",
        )
    elif went["outcome"] == HOME:
        yield Statement("oring_not_proved", NOT_PROVED)
    if went["outcome"] == HOME and data["fitted_at"]:
        yield Statement("oring_put_in", "The O-ring was put in: {at}.", {"at": AtTime(data["fitted_at"])})
    elif went["outcome"]:
        yield Statement("oring_not_in_place", "No new O-ring is in its place.")


def sizes(data: dict[str, Any]) -> Statement:
    """What was measured on the ring itself, or what was planned."""
    one, made = data["oring"], data["measured_oring"]
    if made["mean_mm"] is not None and made["inside_mm"] is not None:
        return Statement(
            "oring_measured",
            "Measured on the O-ring: inside {inside}, cord {cord}.",
            {"inside": Long(made["inside_mm"]), "cord": Long(made["mean_mm"], 3)},
        )
    return Statement(
        "oring_planned",
        "Planned, not measured on the O-ring: inside {inside}, cord {cord}.",
        {"inside": Long(one["inside_mm"]), "cord": Long(one["cord_mm"])},
    )


def origin(data: dict[str, Any]) -> Statement:
    """What the ring is made of and where it lies."""
    of = of_material(data)
    if data["put_in"]["outcome"] is None:
        return Statement("oring_not_fitted", "An O-ring is chosen, not fitted yet: {of}, {where}.", of)
    return Statement("oring_from_stock", "A new O-ring from stock was fitted: {of}, {where}.", of)


def of_material(data: dict[str, Any]) -> dict[str, Blank]:
    """What it is made of, and where it lies."""
    key, place = data["oring"]["material"], data["groove"]["place"]
    rubber = rubbers().get(key)
    where = Ours(PLACES[place]) if place else Ours("in its place")
    return {"of": Ours(rubber.name if rubber else key), "where": where}


def in_one_line(data: dict[str, Any]) -> Statement | None:
    """What it is made of; None while none is accepted."""
    if data["oring"]["cord_mm"] is None:
        return None
    return Statement("slip_oring", "O-ring: {of}, {where}.", of_material(data))

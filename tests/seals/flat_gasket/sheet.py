"""What the sheet, the slip and the drawing say of the gasket."""

from __future__ import annotations

from typing import Any

from bench.job.corrections import outcome
from bench.job.in_words import moment
from bench.job.job import Job, newest_of
from bench.job.statement import AtTime, Long, Statement
from bench.job.values import named, named_text
from bench.seals.seal import Drawing, Leader, Section
from tests.seals.flat_gasket import kind

OUTCOMES = {"home": "level all round", "proud": "glass stood proud", "torn": "gasket tore"}


def data(job: Job) -> dict[str, Any]:
    """Its own keys."""
    spans = job.attempt_spans()
    accepted, laid = newest_of(spans[-1], kind.ACCEPTED), outcome(spans[-1], kind.FITTING)
    words, put = accepted.words if accepted else (), laid.words if laid else ()
    names = ("outside", "inside", "depth", "thickness")
    return {
        "gasket": {f"{name}_mm": named(words, name) for name in names} | {"made_mm": named(put, "made")},
        "laid": {
            "outcome": laid.word if laid else None,
            "at": put[1] if laid and laid.word == "home" else None,
            "squeeze_pct": named(put, "squeeze"),
        },
        "attempts": [
            {"attempt": n, "outcome": one.word if (one := outcome(span, kind.FITTING)) else None}
            for n, span in enumerate(spans, 1)
        ],
        "made_by": named_text(words, "by") or None,
    }


def sections(data: dict[str, Any]) -> tuple[Section, ...]:
    """The groove, the gasket, and how it was laid in."""
    one, laid, made = data["gasket"], data["laid"], []
    if one["thickness_mm"] is None:
        return ()
    if laid["outcome"]:
        at = f", {moment(laid['at'])}" if laid["at"] else ""
        made = [f"{one['made_mm']:.2f} mm thick as cut, squeeze {laid['squeeze_pct']:.1f} %."]
        made.append(f"Laid in: {OUTCOMES[laid['outcome']]}{at}.")
    if data["renewed"]:
        made.append(f"Seals renewed besides the gasket: {data['renewed'].replace('_', ', ')}.")
    across = f"outside {one['outside_mm']:.2f}, inside {one['inside_mm']:.2f}"
    groove = f"Groove {across}, depth {one['depth_mm']:.2f} mm."
    before = [
        f"Gasket {past['attempt']} before it: {OUTCOMES.get(past['outcome'], 'not laid in')}."
        for past in data["attempts"][:-1]
    ]
    return (
        Section("Measured", (groove,)),
        Section("Gasket", (f"Flat gasket, {one['thickness_mm']:.2f} mm thick.", *before), drawn=True),
        Section("Made and fitted", tuple(made)),
    )


def for_customer(data: dict[str, Any]) -> tuple[Statement, ...]:
    """How thick it is, and when it was laid in."""
    one = data["gasket"]
    if one["thickness_mm"] is None:
        return ()
    thick = Statement("gasket", "Flat gasket, {thick} thick.", {"thick": Long(one["thickness_mm"])})
    if data["fitted_at"] is None:
        return (thick,)
    return thick, Statement("laid_in", "Laid in: {at}.", {"at": AtTime(data["fitted_at"])})


def in_one_line(data: dict[str, Any]) -> Statement | None:
    """Which gasket of the job it is."""
    if not data["gasket"]["thickness_mm"]:
        return None
    return Statement("slip_gasket", "Flat gasket {n} of this job", {"n": data["attempt"]})


def drawing(data: dict[str, Any]) -> Drawing | None:
    """A section of it lying flat."""
    one = data["gasket"]
    if one["thickness_mm"] is None:
        return None
    wide, high = (one["outside_mm"] - one["inside_mm"]) / 2, one["thickness_mm"]
    outline = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    leader = Leader((wide, 0.7 * high), (3.0, 0.3), f"outside \u2300 {one['outside_mm']:.2f}")
    return Drawing("section of the gasket", outline, f"width {wide:.2f}", f"thickness {high:.2f}", (leader,))

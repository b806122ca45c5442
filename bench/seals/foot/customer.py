"""What the customer is told of the ring with a foot: what is said of a straight ring, and of its foot.

Invariant: every statement repeats what the sheet's data hold; a size that was not measured is called planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.statement import Long, Statement
from bench.seals.ring.customer import for_customer as ring_for_customer, of_plastic


def for_customer(data: dict[str, Any]) -> tuple[Statement, ...]:
    """The ring, then its foot."""
    of_ring = ring_for_customer(data)
    return (of_ring[0], *said(data["foot"]), *of_ring[1:]) if of_ring else ()


def said(foot: dict[str, Any]) -> Iterator[Statement]:
    """The foot, as measured or as planned."""
    if foot["mean_mm"] is not None:
        yield Statement(
            "foot_measured",
            "It has a foot under the glass, measured on the ring: thickness {thick} (mean of {n} places).",
            {"thick": Long(foot["mean_mm"], 3), "n": len(foot["measured_mm"])},
            one="It has a foot under the glass, measured on the ring: thickness {thick} (at one place).",
        )
    elif foot["thickness_mm"] is not None:
        yield Statement(
            "foot_planned",
            "It has a foot under the glass, planned, not measured on the ring: thickness {thick}.",
            {"thick": Long(foot["thickness_mm"])},
        )


def in_one_line(data: dict[str, Any]) -> Statement | None:
    """Plastic and colour; None while none is accepted."""
    if data["ring"]["plastic"] is None:
        return None
    return Statement("slip_foot", "Plastic ring with a foot: {of}.", of_plastic(data))

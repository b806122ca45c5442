"""What the customer is told of the straight ring: what was made and fitted, and what was measured of it.

Invariant: every statement repeats what the sheet's data hold; a size that was not measured is called planned.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from bench.job.kept import HOME
from bench.job.statement import AtTime, Blank, DecidedSize, Long, Ours, Statement, WordList
from bench.seals.ring.hand_steps import DRAWER, NEW
from bench.seals.seal import NOT_PROVED

UNNAMED = "plastic that is not named"
SPARE_SIZES = (
    "It is a spare ring, turned in one set-up with another ring for this watch. "
    "Expected from how that one came out, not measured on this one: outside {outside}, bore {bore}."
)


def for_customer(data: dict[str, Any]) -> tuple[Statement, ...]:
    """The ring, its sizes, what its measured wall does not prove, and when it was fitted."""
    if data["ring"]["plastic"] is None and data["at_hand"]["what"] is None:
        return ()
    return tuple(said(data))


def said(data: dict[str, Any]) -> Iterator[Statement]:
    """The same one by one."""
    yield origin(data)
    yield from measured(data)
    yield from planned(data)
    fitting = data["fitting"]
    if fitting["outcome"] == HOME:
        yield from judged(data["made"])
        if data["fitted_at"]:
            yield Statement(
                "pressed_in",
                "The glass was pressed in, home and level all round: {at}.",
                {"at": AtTime(data["fitted_at"])},
            )
    elif fitting["outcome"]:
        yield Statement("not_in_place", "No new ring is in its place.")


def origin(data: dict[str, Any]) -> Statement:
    """Where the ring comes from and what it is made of."""
    of = of_plastic(data)
    if data["fitting"]["outcome"] is None:
        return Statement("not_fitted", "A plastic ring is chosen, not fitted yet: {of}.", of)
    if data["at_hand"]["what"] in (NEW, DRAWER):
        return Statement(
            "ring_there", "The plastic ring between case and glass was bought or left over, new: {of}.", of
        )
    return Statement("ring_made", "A plastic ring between case and glass was made for this watch: {of}.", of)


def of_plastic(data: dict[str, Any]) -> dict[str, Blank]:
    """The plastic, with the colour of the bar as the shop says it."""
    colour = data["turned"]["colour"]
    plastic = data["ring"]["plastic"] or UNNAMED
    if not colour or colour == "not said":
        return {"of": Ours(plastic)}
    return {"of": WordList(f"{plastic}, {colour}", (plastic, colour), joined_by_and=False)}


def measured(data: dict[str, Any]) -> Iterator[Statement]:
    """What was measured on the ring itself, and the outside that stayed as it was measured."""
    wall, high, n = data["on_the_ring"]["wall_mean_mm"], data["made"]["height_mm"], data["made"]["wall_mm"]
    if wall is not None and high is not None:
        yield Statement(
            "measured_wall_and_height",
            "Measured on the ring: wall {wall} (mean of {n} places), height {height}.",
            {"wall": Long(wall, 3), "n": len(n), "height": Long(high)},
            one="Measured on the ring: wall {wall} (at one place), height {height}.",
        )
    elif wall is not None:
        yield Statement(
            "measured_wall",
            "Measured on the ring: wall {wall} (mean of {n} places).",
            {"wall": Long(wall, 3), "n": len(n)},
            one="Measured on the ring: wall {wall} (at one place).",
        )
    if data["on_the_ring"]["outside_final"] and data["on_the_ring"]["outside_on_bar_mm"] is not None:
        yield Statement(
            "measured_outside",
            "Measured before the ring was parted off: outside {outside}.",
            {"outside": Long(data["on_the_ring"]["outside_on_bar_mm"], 3)},
        )


def planned(data: dict[str, Any]) -> Iterator[Statement]:
    """The sizes that it was made to and that were not measured on it afterwards."""
    ring = data["ring"]
    if ring["outside_diameter_mm"] is None or ring["bore_mm"] is None:
        return
    bore = DecidedSize(ring["bore_mm"])
    if data["turned"]["spare"]:
        sizes: dict[str, Blank] = {"outside": Long(ring["outside_diameter_mm"]), "bore": bore}
        yield Statement("spare_sizes", SPARE_SIZES, sizes)
        return
    if data["on_the_ring"]["outside_final"]:
        yield Statement("planned_bore", "Planned, not measured on the ring: bore {bore}.", {"bore": bore})
    else:
        yield Statement(
            "planned_sizes",
            "Planned, not measured on the ring: outside {outside}, bore {bore}.",
            {"outside": Long(ring["outside_diameter_mm"]), "bore": bore},
        )


def judged(made: dict[str, Any]) -> Iterator[Statement]:
    """What the measured wall does not prove; nothing where it does."""
    if made["decision"] == "does_not":
        yield Statement(
            "wall_out_of_range",
            "Its measured wall lies outside the range aimed for; only a test can show whether it seals.",
        )
    elif made["shut"] and made["decision"] == "undecided":
        yield Statement(
            "wall_not_proved_shut",
            "That it seals by its size alone is not proved, "
            "because no size meets every requirement of this case and glass: only a test can show it.",
        )
    elif made["decision"] == "undecided":
        yield Statement("wall_not_proved", NOT_PROVED)


def in_one_line(data: dict[str, Any]) -> Statement | None:
    """Plastic and colour; None while none is accepted."""
    if data["ring"]["plastic"] is None and data["at_hand"]["what"] is None:
        return None
    return Statement("slip_ring", "Plastic ring: {of}.", of_plastic(data))

"""The judge of what a person who reads only the page has turned. Imports nothing of the program."""

from __future__ import annotations

from tests.independent.page_person import Person


def faults(person: Person) -> list[str]:
    """What must never happen, in words; empty when all is well. A wall off the band is counted apart."""
    found = [*person.hands.lathe.work.faults, *person.hands.lacks]
    for n, ring in enumerate(person.hands.rings, 1):
        if ring.bore_too_shallow:
            found.append(f"ring {n} does not part free: its bore is too shallow")
        if ring.outside_too_short:
            found.append(f"ring {n}: the outside is turned too short")
        if ring.height_mm < person.hands.dressed_to:
            found.append(
                f"ring {n} is parted {ring.height_mm:.2f} high, {person.hands.dressed_to:.2f} is wanted"
            )
    if person.ended != "measured":
        found.append(person.ended)
    return found


def in_band(person: Person) -> bool:
    """Whether the wall as it really is lies in the band that the page named."""
    if person.band is None or not person.hands.rings:
        return False
    low, _, high = person.band
    return low <= person.hands.rings[0].wall_mm <= high


def spares_off(person: Person) -> list[float]:
    """How far the walls of spare rings are from the ring's own wall as planned, mm."""
    if person.band is None:
        return []
    return [abs(ring.wall_mm - person.band[1]) for ring in person.hands.rings[1:]]

"""Test methods: which there are, when one is allowed, and what pressure is offered.

Invariant: no cased watch meets water unless a dry test has passed, and nothing ever does with old or unknown
luminous paint; no offer exceeds the tester.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import MappingProxyType

from rules.checks import OutOfRange, known, number
from rules.tables import raw_table
from rules.testing.method_table import DIVERS_EQUIPMENT, DRY_PASS, SITTINGS, Method, read
from rules.testing.pressure import DIVERS_FACTOR, LARGEST_BAR, UNFIGURED_MARKING_BAR

DIVERS_PCT = f"{100 * DIVERS_FACTOR:g} %"


@dataclass(frozen=True, slots=True)
class Offer:
    """The pressure to offer, and how to word it."""

    overpressure_bar: float
    words: str


@lru_cache(maxsize=1)
def methods() -> Mapping[str, Method]:
    """All methods by key, in the order in which they are offered."""
    found = {key: read(key, entry) for key, entry in raw_table("methods").items()}
    if sum(one.usual for one in found.values()) != 1:
        raise OutOfRange("methods.toml: one method, and no more, is the usual one; give it usual = true")
    return MappingProxyType(found)


def usual() -> Method:
    """The method that is offered first where it is allowed."""
    return next(one for one in methods().values() if one.usual)


def first_for(method: Method, gives: str) -> tuple[bool, bool]:
    """How methods are ordered for a tester that gives a verdict, a deflection, or bubbles in water alone."""
    suits = {"deflection": method.reads_deflection, "water": method.wet and method.raises}
    return not suits.get(gives, method.usual), not method.usual


def method(key: str) -> Method:
    """The method of that name; raises OutOfRange with the list."""
    return known("test method", key, methods())


def allowed(
    key: str,
    *,
    sitting: str,
    old_paint: bool,
    dry_passed: bool,
    divers: bool = False,
    divers_equipped: bool = False,
) -> str | None:
    """None when the method may be done now, else the reason why not, in one line.

    old_paint is True for old and for unknown luminous paint. dry_passed means a dry test passed in the
    same sitting. Raises OutOfRange for an unknown method or sitting.
    """
    chosen = method(key)
    if sitting not in SITTINGS:
        raise OutOfRange(f"sitting {sitting!r} is not known; use {' or '.join(SITTINGS)}")
    if sitting not in chosen.sittings:
        return f"{chosen.name}: only with the movement out."
    if chosen.wet and old_paint:
        return "No water with old or unknown luminous paint: this watch is tested dry only."
    if DRY_PASS in chosen.needs and not dry_passed:
        return "Water only after a passed dry test."
    if divers and DIVERS_EQUIPMENT in chosen.needs and not divers_equipped:
        return (
            f"A divers' watch is tested at {DIVERS_PCT} of its rating, with equipment made for it: "
            "please pass it to a shop that has it, or enter that this shop is equipped."
        )
    return None


def offered_pressure(*, marking_bar: float | None, tester_bar: float, divers: bool = False) -> Offer:
    """The smaller of what the marking asks for and what the tester reaches, bar over the atmosphere.

    marking_bar None means that nothing is marked: 2 bar for comparison. Divers' watches ask for more than
    the marking. Raises OutOfRange unless both pressures are above 0 and finite.
    """
    _pressure("tester", tester_bar)
    if marking_bar is None:
        bar = min(UNFIGURED_MARKING_BAR, tester_bar)
        return Offer(bar, f"Nothing is marked: {bar:g} bar is offered to compare; less may be keyed.")
    _pressure("marking", marking_bar)
    asked = marking_bar * (DIVERS_FACTOR if divers else 1.0)
    asked_words = f"{DIVERS_PCT} of the marking, {asked:g} bar" if divers else f"the marking, {asked:g} bar"
    if asked <= tester_bar:
        return Offer(asked, f"{asked_words[0].upper()}{asked_words[1:]}, is offered; less may be keyed.")
    short = f"The tester reaches {tester_bar:g} bar, less than {asked_words}: {tester_bar:g} bar is offered."
    return Offer(tester_bar, f"{short} The marking will not be tested.")


def rising_pressures(overpressure_bar: float) -> tuple[float, ...]:
    """The pressures to stop at: low first, then half, then the test pressure, in bar."""
    _pressure("test pressure", overpressure_bar)
    low = min(0.5, overpressure_bar / 4)
    return (round(low, 2), round(overpressure_bar / 2, 2), overpressure_bar)


def _pressure(name: str, bar: float) -> None:
    number(name, bar, low=0.01, high=LARGEST_BAR, unit="bar", advice="give the pressure over the room")

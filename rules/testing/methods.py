"""Test methods: what each can prove, when it is allowed, and what pressure is offered.

Invariant: no method meets water unless a dry test has passed (the bubble test, done without movement,
excepted) and none ever does with old or unknown luminous paint; no offer exceeds the tester.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from types import MappingProxyType

from rules.cautions import Caution, for_place
from rules.checks import OutOfRange, known, number
from rules.testing.pressure import DIVERS_FACTOR, UNFIGURED_MARKING_BAR

EARLY_HOURS = 12.0
"""A test sooner after fitting counts as early (our judgement, no source)."""
SITTINGS = ("empty", "cased")


@dataclass(frozen=True, slots=True)
class Method:
    """One way of testing, in the order in which it is done."""

    key: str
    name: str
    can_prove: str
    """What a good result means, and no more."""
    cannot_prove: str
    """What it leaves open."""
    steps: tuple[str, ...]
    places: tuple[str, ...]
    """Places whose cautions belong to it."""
    timers_s: Mapping[str, int]
    """Times in seconds by name (rise, hold, release, warm, drop, fill)."""
    sittings: tuple[str, ...]
    """Where it is allowed: empty case, cased watch."""
    wet: bool
    pressure: bool
    after_dry_pass: bool
    source: str

    def cautions(self) -> tuple[Caution, ...]:
        """Its cautions, each once, in order."""
        return tuple(dict.fromkeys(one for place in self.places for one in for_place(place)))


@dataclass(frozen=True, slots=True)
class Offer:
    """The pressure to offer, and how to word it."""

    overpressure_bar: float
    words: str


@lru_cache(maxsize=1)
def methods() -> Mapping[str, Method]:
    """All methods by key, in the order in which they are offered."""
    raw = tomllib.loads(files("rules").joinpath("data/methods.toml").read_text("utf-8"))
    return MappingProxyType({key: _read(key, entry) for key, entry in raw.items()})


def _read(key: str, entry: Mapping[str, object]) -> Method:
    def words(name: str) -> tuple[str, ...]:
        value = entry[name]
        assert isinstance(value, list)
        return tuple(str(one) for one in value)

    timers = entry["timers"]
    assert isinstance(timers, dict)
    return Method(
        key=key,
        name=str(entry["name"]),
        can_prove=str(entry["can"]),
        cannot_prove=str(entry["cannot"]),
        steps=words("steps"),
        places=words("places"),
        timers_s=MappingProxyType({name: int(seconds) for name, seconds in timers.items()}),
        sittings=words("sittings"),
        wet=bool(entry["wet"]),
        pressure=bool(entry["pressure"]),
        after_dry_pass=bool(entry["after_dry_pass"]),
        source=str(entry["source"]),
    )


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
    if chosen.after_dry_pass and not dry_passed:
        return "Water only after a passed dry test."
    if divers and chosen.pressure and not divers_equipped:
        return (
            "A divers' watch is tested at 125 % of its rating, with equipment made for it: "
            "please pass it to a shop that has it, or enter that this shop is equipped."
        )
    return None


def offered_pressure(*, marking_bar: float | None, tester_bar: float, divers: bool = False) -> Offer:
    """The smaller of what the marking asks for and what the tester reaches, bar over the atmosphere.

    marking_bar None means that nothing is marked: 2 bar for comparison. Divers' watches ask for 125 % of
    the marking. Raises OutOfRange unless both pressures are above 0 and finite.
    """
    _pressure("tester", tester_bar)
    if marking_bar is None:
        bar = min(UNFIGURED_MARKING_BAR, tester_bar)
        return Offer(bar, f"Nothing is marked: {bar:g} bar is offered to compare; less may be keyed.")
    _pressure("marking", marking_bar)
    asked = marking_bar * (DIVERS_FACTOR if divers else 1.0)
    asked_words = f"125 % of the marking, {asked:g} bar" if divers else f"the marking, {asked:g} bar"
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
    number(name, bar, low=0.01, high=200.0, unit="bar", advice="give the pressure over the room")

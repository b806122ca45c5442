"""A test method as its own table says it, and the reading of that table.

Invariant: a method that can be read lacks nothing: it can be checked, done, timed, warned of and claimed from
its table alone. What cannot be read is refused in one line that names the method and the entry.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import MISSING, dataclass, fields, is_dataclass
from types import MappingProxyType
from typing import Any, TypeVar, get_args, get_origin, get_type_hints

from rules.cautions import places
from rules.checks import OutOfRange, one_of
from rules.limits import UNDERPRESSURE_BAR

SITTINGS = ("empty", "cased")
"""Empty case and cased watch."""
RAISED, LOWERED = "raised", "lowered"
PRESSURES = (RAISED, LOWERED, "none")
"""What is done with the pressure outside the watch."""
DRY_PASS, DIVERS_EQUIPMENT = "dry_pass", "divers_equipment"
NEEDS = (DRY_PASS, DIVERS_EQUIPMENT)
DEEPEST = "deepest"
"""Stands in a step for the deepest underpressure, bar below the room."""
RISING = "rising"
"""Stands in a step for the pressures on the way up, with their unit."""
ON_THE_WAY = "the first low pressure, half the test pressure, the test pressure"
"""What is said of them where the test pressure is not known."""
_NAMED = re.compile(r"\{(\w*)\}")
_KEY = re.compile(r"[a-z][a-z0-9_]*")
_STATES = "check: give three states, and which of them is right"
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Check:
    """How it may stand before a test begins."""

    right: str
    """Word of the state in which it may begin."""
    states: Mapping[str, str]
    """Texts of three found states by their words."""
    why: str


@dataclass(frozen=True, slots=True)
class Ending:
    """What is done once the hold is over."""

    steps: tuple[str, ...]
    cautions: tuple[str, ...]
    """Places whose cautions belong to it."""
    passed: str
    """What a pass is called where it is chosen."""
    why: str
    """By what it is judged."""


@dataclass(frozen=True, slots=True)
class Claim:
    """What a result means, and no more."""

    can: str
    cannot: str
    words: str
    """How the sheet names the test within a sentence."""
    in_water: bool
    """Whether the watch was tested in water by it."""
    of_marking: bool
    """Whether it tests the marking, once the marked pressure was raised."""
    shorter: str = ""
    """What less than the usual hold shows; empty where there is none."""

    @property
    def sentence(self) -> str:
        """What can be proved and what not."""
        return f"It can prove {self.can}; it cannot prove {self.cannot}."


@dataclass(frozen=True, slots=True)
class Method:
    """One way of testing, in the order in which it is done."""

    key: str
    name: str
    source: str
    sittings: tuple[str, ...]
    """Where it is allowed, of SITTINGS."""
    wet: bool
    """Whether the watch meets water."""
    pressure: str
    """One of PRESSURES."""
    needs: tuple[str, ...]
    """What must be there before, of NEEDS."""
    cautions: tuple[str, ...]
    """Places whose cautions are shown until the hold is over."""
    timers_s: Mapping[str, int]
    """Seconds by the name that stands in a step."""
    check: Check
    begin: str
    """Said when the hold is started."""
    raising: tuple[str, ...]
    holding: tuple[str, ...]
    ending: Ending
    claim: Claim
    hold: str = ""
    """Name of the timer that is the usual length of the hold;
    empty where readings give the length, or the tester ends it.
    """
    usual: bool = False
    """Offered first."""
    reads_deflection: bool = False
    """A gauge is read over the hold: its length and the verdict follow from the readings."""
    own_verdict: bool = False
    """The tester times and judges itself."""

    @property
    def hold_s(self) -> float:
        """Usual length of the hold, less than which is no pass; 0 where nothing is timed beforehand."""
        return float(self.timers_s[self.hold]) if self.hold else 0.0

    @property
    def raises(self) -> bool:
        """Whether pressure is raised over the room."""
        return self.pressure == RAISED

    def worded(
        self, lines: Iterable[str], *, hold_s: float | None = None, rising: str = ON_THE_WAY
    ) -> tuple[str, ...]:
        """Lines of this method with its times and limits put in;
        hold_s: the hold where it is not the usual one; rising: the pressures on the way up.
        """
        times = {name: duration(seconds) for name, seconds in self.timers_s.items()}
        if hold_s is not None and self.hold:
            times[self.hold] = duration(hold_s)
        limits = {DEEPEST: f"{UNDERPRESSURE_BAR:g}", RISING: rising}
        return tuple(line.format(**times, **limits) for line in lines)


def duration(seconds: float) -> str:
    """A time as a person says it: 45 seconds, 1 minute, 1.5 minutes, 1 hour."""
    size, unit = next((one for one in ((3600, "hour"), (60, "minute")) if seconds >= one[0]), (1, "second"))
    count = f"{seconds / size:g}"
    return f"{count} {unit}" if count == "1" else f"{count} {unit}s"


def read(key: str, raw: object) -> Method:
    """The method of one table; raises OutOfRange for a table that lacks something."""
    where = f"test method {key}"
    found = _read(Method, where, raw, key=key)
    for is_wrong, why in _faults(found):
        if is_wrong:
            raise _refused(where, why)
    for place in (*found.cautions, *found.ending.cautions):
        one_of(f"{where}, cautions", place, places())
    return found


def _refused(where: str, why: str) -> OutOfRange:
    return OutOfRange(f"{where}: {why}; see the head of methods.toml")


def _read(kind: type[T], where: str, raw: object, **given: Any) -> T:
    """A table as a class whose fields are its entries;
    an entry may be left out where the class gives it a value.
    """
    if not isinstance(raw, Mapping):
        raise _refused(where, "missing, or no table")
    kinds = get_type_hints(kind)
    if unknown := set(raw) - set(kinds) | (set(raw) & set(given)):
        raise _refused(where, f"{', '.join(sorted(unknown))} is not known")
    for field in fields(kind):  # type: ignore[arg-type]
        if field.name not in given and (field.name in raw or field.default is MISSING):
            given[field.name] = _entry(kinds[field.name], f"{where}, {field.name}", raw.get(field.name))
    return kind(**given)


def _entry(kind: Any, where: str, value: Any) -> Any:
    """One entry, of the kind of its field and not empty; an empty list may stand."""
    if is_dataclass(kind):
        return _read(kind, where, value)  # type: ignore[arg-type]
    if get_origin(kind) is tuple:
        fits = isinstance(value, list) and all(isinstance(one, str) and one for one in value)
        value = tuple(value) if fits else value
    elif get_origin(kind) is Mapping:
        inner = get_args(kind)[1]
        fits = isinstance(value, dict) and all(type(one) is inner and one != "" for one in value.values())
        value = MappingProxyType(value) if fits else value
    else:
        fits = type(value) is kind and value != ""
    if not fits:
        raise _refused(where, "missing, empty or of another kind")
    return value


def _faults(one: Method) -> Iterable[tuple[bool, str]]:
    """(whether it is so, what is wrong) of a method whose entries are all there."""
    steps = (*one.raising, *one.holding, *one.ending.steps)
    named = {name for line in steps for name in _NAMED.findall(line)}
    deepest = {DEEPEST} if one.pressure == LOWERED else set()
    on_the_way = {RISING} if one.raises else set()
    states = {name for text in one.check.states.values() for name in _NAMED.findall(text)}
    return (
        (one.pressure not in PRESSURES, f"pressure: known are {', '.join(PRESSURES)}"),
        (not _KEY.fullmatch(one.key), "its key is not one word of small letters, figures and _"),
        (
            not set(one.sittings) <= set(SITTINGS) or not one.sittings,
            f"sittings: known are {', '.join(SITTINGS)}",
        ),
        (not set(one.needs) <= set(NEEDS), f"needs: known are {', '.join(NEEDS)}"),
        (
            not (one.raising and one.holding and one.ending.steps),
            "raising, holding and ending each need a step",
        ),
        (not (one.cautions and one.ending.cautions), "cautions: name a place, before and after"),
        (len(one.check.states) != 3 or one.check.right not in one.check.states, _STATES),
        (not all(time > 0 for time in one.timers_s.values()), "timers_s: give whole seconds over 0"),
        (
            named - deepest - {RISING} != set(one.timers_s),
            "timers_s: each must stand as {name} in a step, and no other may",
        ),
        (not states <= deepest, "check: no timer stands in a state"),
        *_timing_faults(one),
        (one.reads_deflection and not one.raises, "reads_deflection: needs a pressure that is raised"),
        (one.claim.of_marking and not one.raises, "claim: no marking is tested without raising pressure"),
        (one.claim.in_water and not one.wet, "claim: it is not wet"),
        (
            one.wet and DRY_PASS not in one.needs and "cased" in one.sittings,
            "needs: no cased watch meets water without dry_pass",
        ),
        (named & {RISING} != on_the_way, "raising: {rising} stands where pressure is raised, only there"),
    )


def _timing_faults(one: Method) -> Iterable[tuple[bool, str]]:
    """The same of how long it is held, and by whom that is said."""
    return (
        (
            (bool(one.hold), one.reads_deflection, one.own_verdict).count(True) != 1,
            "hold: name a timer, or let it be read (reads_deflection) or judged by the tester (own_verdict)",
        ),
        (
            bool(one.hold) != bool(one.claim.shorter),
            "claim: say what a shorter hold shows, where it is timed",
        ),
        (bool(one.hold) and one.hold not in one.timers_s, "hold: it is the name of no timer"),
    )

"""A test method as its own table says it, and the reading of that table.

Invariant: a method that can be read lacks nothing: it can be checked, done, timed, warned of and claimed from its
table alone. What cannot be read is refused in one line that names the method and the entry.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, TypeVar

from rules.cautions import for_place
from rules.checks import OutOfRange
from rules.limits import UNDERPRESSURE_BAR

SITTINGS = ("empty", "cased")
"""Empty case and cased watch."""
RAISED, LOWERED = "raised", "lowered"
PRESSURES = (RAISED, LOWERED, "none")
"""What becomes of the pressure outside the watch."""
DRY_PASS, DIVERS_EQUIPMENT = "dry_pass", "divers_equipment"
NEEDS = (DRY_PASS, DIVERS_EQUIPMENT)
DEEPEST = "deepest"
"""Stands in a step for the lowest pressure that is drawn."""
_NAMED = re.compile(r"\{(\w*)\}")
_KEY = re.compile(r"[a-z][a-z0-9_]*")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Check:
    """How it may stand before a test begins."""

    states: tuple[tuple[str, str], ...]
    """(word, text) of three found states, the right one first."""
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
    usual: bool
    reads_deflection: bool
    """A gauge is read over the hold: its length and the verdict follow from the readings."""
    cautions: tuple[str, ...]
    """Places whose cautions are shown until the hold is over."""
    timers_s: Mapping[str, int]
    """Seconds by the name that stands in a step."""
    check: Check
    begin: str
    """Said when the hold is started."""
    hold: str
    """Name of the timer that is the usual length of the hold; empty where readings give the length."""
    raising: tuple[str, ...]
    holding: tuple[str, ...]
    ending: Ending
    claim: Claim

    @property
    def raises(self) -> bool:
        """Whether pressure is raised over the room."""
        return self.pressure == RAISED

    def worded(self, lines: Iterable[str], *, hold_s: float | None = None) -> tuple[str, ...]:
        """Lines of this method with its times and limits put in; hold_s: the hold where it is not the usual one."""
        times = {name: duration(seconds) for name, seconds in self.timers_s.items()}
        if hold_s is not None and self.hold:
            times[self.hold] = duration(hold_s)
        return tuple(line.format(**times, **{DEEPEST: f"{UNDERPRESSURE_BAR:g}"}) for line in lines)


def duration(seconds: float) -> str:
    """A time as a person says it: 45 seconds, 1 minute, 1.5 minutes, 1 hour."""
    size, unit = next((one for one in ((3600, "hour"), (60, "minute")) if seconds >= one[0]), (1, "second"))
    count = f"{seconds / size:g}"
    return f"{count} {unit}" if count == "1" else f"{count} {unit}s"


class _Table:
    """One table, of which every entry is taken once; raises OutOfRange for what is missing, odd or left over."""

    def __init__(self, where: str, raw: object) -> None:
        if not isinstance(raw, Mapping):
            raise OutOfRange(f"{where}: it is not a table; see the head of methods.toml")
        self.where, self.left = where, dict(raw)

    def refuse(self, why: str) -> OutOfRange:
        """The refusal of this table."""
        return OutOfRange(f"{self.where}: {why}; see the head of methods.toml")

    def take(self, name: str, kind: type[T], default: T | None = None) -> T:
        """An entry of a kind that is not empty."""
        value = self.left.pop(name, default)
        if not isinstance(value, kind) or value in ("", {}):
            raise self.refuse(f"{name} is missing, or is no {kind.__name__}")
        return value

    def lines(self, name: str, *, least: int = 1, known: tuple[str, ...] = ()) -> tuple[str, ...]:
        """A list of texts, each of `known` where words are given there."""
        found: list[Any] = self.take(name, list)
        if len(found) < least or not all(isinstance(one, str) and one for one in found):
            raise self.refuse(f"{name}: give a list of texts")
        if known and not set(found) <= set(known):
            raise self.refuse(f"{name}: known are {', '.join(known)}")
        return tuple(found)

    def places(self) -> tuple[str, ...]:
        """Places with cautions; raises OutOfRange for one that is not known."""
        found = self.lines("cautions")
        for place in found:
            for_place(place)
        return found

    def table(self, name: str) -> _Table:
        """A table within it."""
        return _Table(f"{self.where}, {name}", self.take(name, dict))

    def done(self) -> None:
        """Refuse what was not taken."""
        if self.left:
            raise self.refuse(f"{', '.join(self.left)} is not known")


def read(key: str, raw: object) -> Method:
    """The method of one table; raises OutOfRange for a table that lacks something."""
    table = _Table(f"test method {key}", raw)
    if not _KEY.fullmatch(key):
        raise table.refuse("its key is not one word of small letters, figures and _")
    timers: dict[str, Any] = table.take("timers", dict)
    found = Method(
        key=key,
        name=table.take("name", str),
        source=table.take("source", str),
        sittings=table.lines("sittings", known=SITTINGS),
        wet=table.take("wet", bool),
        pressure=table.take("pressure", str),
        needs=table.lines("needs", least=0, known=NEEDS),
        usual=table.take("usual", bool, default=False),
        reads_deflection=table.take("reads_deflection", bool, default=False),
        cautions=table.places(),
        timers_s=MappingProxyType(timers),
        check=_check(table.table("check")),
        begin=table.take("begin", str),
        hold=table.left.pop("hold", ""),
        raising=table.lines("raising"),
        holding=table.lines("holding"),
        ending=_ending(table.table("ending")),
        claim=_claim(table.table("claim")),
    )
    table.done()
    for is_wrong, why in _faults(found):
        if is_wrong:
            raise table.refuse(why)
    return found


def _check(table: _Table) -> Check:
    right, why = table.take("right", str), table.take("why", str)
    words = sorted(table.left, key=lambda word: word != right)
    if len(words) != 3 or words[0] != right:
        raise table.refuse("give three states, and which of them is right")
    return Check(tuple((word, table.take(word, str)) for word in words), why)


def _ending(table: _Table) -> Ending:
    found = Ending(table.lines("steps"), table.places(), table.take("passed", str), table.take("why", str))
    table.done()
    return found


def _claim(table: _Table) -> Claim:
    can, cannot, words = (table.take(name, str) for name in ("can", "cannot", "words"))
    found = Claim(can, cannot, words, table.take("in_water", bool), table.take("of_marking", bool))
    table.done()
    return found


def _faults(one: Method) -> Iterable[tuple[bool, str]]:
    """(whether it is so, what is wrong) of a method whose entries are all there."""
    steps = (*one.raising, *one.holding, *one.ending.steps)
    named = {name for line in steps for name in _NAMED.findall(line)}
    deepest = {DEEPEST} if one.pressure == LOWERED else set()
    states = {name for _, text in one.check.states for name in _NAMED.findall(text)}
    seconds = one.timers_s.values()
    return (
        (one.pressure not in PRESSURES, f"pressure: known are {', '.join(PRESSURES)}"),
        (not all(type(time) is int and time > 0 for time in seconds), "timers: give whole seconds over 0"),
        (
            named - deepest != set(one.timers_s),
            "timers: each must stand as {name} in a step, and no other may",
        ),
        (not states <= deepest, "check: no timer stands in a state"),
        (bool(one.hold) == one.reads_deflection, "hold: name a timer, or let it be read (reads_deflection)"),
        (bool(one.hold) and one.hold not in one.timers_s, "hold: it is the name of no timer"),
        (one.reads_deflection and not one.raises, "reads_deflection: needs a pressure that is raised"),
        (one.claim.of_marking and not one.raises, "claim: no marking is tested without raising pressure"),
        (one.claim.in_water and not one.wet, "claim: it is not wet"),
        (
            one.wet and DRY_PASS not in one.needs and "cased" in one.sittings,
            "needs: no cased watch meets water without dry_pass",
        ),
    )

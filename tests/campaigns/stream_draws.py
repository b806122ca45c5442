"""Streams of keys as one, two or three gauges and a pair of hands make them, drawn by chance.

Nothing of the product is imported here. A stream is keys with their times, who struck each, and the readings
that were meant: sent whole or cut, once or twice, one after another or through each other.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from itertools import pairwise

HAND = -1
PACES_S = (0.0, 0.001, 0.004, 0.008, 0.012, 0.020, 0.027, 0.045, 0.075)
JITTER_S = 0.002
ENDS = ("\r", "\r", "\r", "\n", "\r\n", "\t", "")
ACTS = ("single", "doubled", "two", "three", "delayed", "cut", "hand among", "behind a choice")


@dataclass(frozen=True, slots=True)
class Struck:
    """One key: when in s, which, by whom, as part of which reading (-1: of none)."""

    at: float
    key: str
    who: int
    reading: int = -1


@dataclass(frozen=True, slots=True)
class Meant:
    """One reading as it was meant."""

    who: int
    value: Decimal
    begins: float
    ends: float
    """When its last character came, the end key included where there is one."""
    pointless: bool
    """No point came, so that its digits stand in fixed places."""
    whole: bool
    """A number came: of a cut reading that of the characters that came."""
    ended: bool
    burst: bool
    """Every step under 30 ms."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked where a stream begins: decimals, and a plausible value."""

    decimals: int
    around: Decimal
    number: bool = True
    length: bool = False
    """A length, behind which a gauge may send its unit."""
    unit: str = "mm"
    """That unit."""


@dataclass(frozen=True, slots=True)
class GaugeThatTypes:
    """How one gauge sends."""

    prefix: str
    comma: bool
    unit: str
    end: str
    pace_s: float
    short: bool
    """Its readings have one digit before the point."""


@dataclass
class Drawing:
    """A stream while it is drawn."""

    chance: random.Random
    asked: Asked
    gauges: tuple[GaugeThatTypes, ...] = ()
    struck: list[Struck] = field(default_factory=list)
    meant: list[Meant] = field(default_factory=list)
    acts: list[str] = field(default_factory=list)

    def value(self, *, short: bool = False) -> Decimal:
        """A reading near what is asked, or a wall's."""
        step = Decimal(1).scaleb(-self.asked.decimals)
        if short:
            return (Decimal(self.chance.randint(60, 980)) / 100).quantize(step)
        return self.asked.around + step * self.chance.randint(-9, 9)

    def send(
        self, who: int, at: float, value: Decimal | None = None, *, lose: int = 0, keep_end: bool = True
    ) -> float:
        """A gauge sends one reading, its last `lose` characters lost; when it is over."""
        gauge = self.gauges[who]
        value = self.value(short=gauge.short) if value is None else value
        body = f"{gauge.prefix}{value:f}{gauge.unit}"
        body = body.replace(".", ",") if gauge.comma else body
        end = gauge.end if keep_end else ""
        stay = (3 if gauge.pace_s < 0.03 else 4) + body.count("\x02")
        kept = body[: max(stay, len(body) - lose)]
        found = re.fullmatch(r"[+ \x02]*([0-9]*[.,]?[0-9]+)( ?[min]*)", kept)
        came = Decimal(found[1].replace(",", ".")) if found else value
        return self.strike(who, at, came, kept + end, lambda: self.step(gauge), whole=found is not None)

    def step(self, gauge: GaugeThatTypes) -> float:
        """Time to the next character."""
        return gauge.pace_s + self.chance.uniform(0, JITTER_S)

    def key(self, at: float, value: Decimal | None = None) -> float:
        """Hands key one number, 110 to 350 ms a key; when it is over."""
        value = self.value() if value is None else value
        return self.strike(
            HAND, at, value, f"{value:f}\r", lambda: self.chance.uniform(0.11, 0.35), whole=True
        )

    def strike(
        self, who: int, at: float, value: Decimal, keys: str, step: Callable[[], float], *, whole: bool
    ) -> float:
        """Keys one after another; when the last of them came."""
        times = []
        for place in range(len(keys)):
            at += step() if place else 0.0
            times.append(at)
        begins = times[keys[0] == "\x02"]
        number = len(self.meant)
        self.struck += [Struck(when, key, who, number) for when, key in zip(times, keys, strict=True)]
        steps = [b - a for a, b in pairwise(times)]
        ended = keys[-1:] in ("\r", "\n", "\t")
        burst = who != HAND and all(step < 0.03 for step in steps)
        pointless = "." not in keys and "," not in keys
        self.meant.append(Meant(who, value, begins, at, pointless, whole, ended, burst))
        return at

    def lone_key(self, at: float, key: str) -> None:
        """The person strikes one key."""
        self.struck.append(Struck(at, key, HAND))


def gauge(chance: random.Random, unit: str) -> GaugeThatTypes:
    """A gauge that shows this unit."""
    return GaugeThatTypes(
        prefix=chance.choice(("", "", "", "+", "0", "+0", " ", "\x02")),
        comma=chance.random() < 0.25,
        unit=chance.choice(("", "", "", unit, f" {unit}")),
        end=chance.choice(ENDS),
        pace_s=chance.choice(PACES_S),
        short=chance.random() < 0.2,
    )


def draw(chance: random.Random, asked: Asked) -> Drawing:
    """One stream: two to four acts, and now and then a key of the person after one."""
    drawing = Drawing(chance, asked, tuple(gauge(chance, asked.unit) for _ in range(3)))
    at = 1.0
    for _ in range(chance.randint(2, 4)):
        act = chance.choice(ACTS)
        over = ONE_ACT[act](drawing, at)
        drawing.acts.append(act)
        if chance.random() < 0.4:
            over += chance.uniform(0.12, 1.2)
            drawing.lone_key(over, "\r" if chance.random() < 0.8 else "-")
        at = over + chance.choice((0.2, 0.7, 1.5)) * chance.uniform(0.5, 1.5)
    drawing.struck.sort(key=lambda one: one.at)
    return drawing


def single(drawing: Drawing, at: float) -> float:
    """One reading."""
    return drawing.send(0, at)


def doubled(drawing: Drawing, at: float) -> float:
    """The same reading again within 0.1 to 0.6 s, at times a third time, or at once."""
    value = drawing.value(short=drawing.gauges[0].short)
    for _ in range(drawing.chance.choice((2, 2, 2, 3))):
        over = drawing.send(0, at, value)
        at = over + drawing.chance.choice((0.003, drawing.chance.uniform(0.1, 0.6)))
    return over


def at_once(drawing: Drawing, at: float, count: int) -> float:
    """Gauges that send at the same time, by one foot switch or by chance."""
    spread = drawing.chance.choice((0.0, 0.01, 0.1, 0.4))
    whos = drawing.chance.sample(range(3), count)
    return max(drawing.send(who, at + drawing.chance.uniform(0, spread)) for who in whos)


def delayed(drawing: Drawing, at: float) -> float:
    """The person keys the number, and the reading comes late."""
    value = drawing.value()
    over = drawing.key(at, value)
    return drawing.send(0, over + drawing.chance.uniform(0.005, 0.9), value)


def cut(drawing: Drawing, at: float) -> float:
    """The last characters are lost; another gauge or the person goes on.

    Three characters stay, of a slow gauge four: fewer look to anybody like keys of a hand, or like the first
    digits of a shorter reading that comes in their rhythm.
    """
    chance = drawing.chance
    over = drawing.send(0, at, lose=chance.randint(1, 3), keep_end=chance.random() < 0.5)
    if chance.random() < 0.6:
        at = over + chance.choice((chance.uniform(0.002, 0.1), chance.uniform(0.1, 1.0)))
        over = drawing.send(1, at) if chance.random() < 0.7 else drawing.key(at)
    return over


def hand_among(drawing: Drawing, at: float) -> float:
    """A gauge sends while the person keys."""
    over = drawing.key(at)
    return max(over, drawing.send(0, drawing.chance.uniform(at, over)))


def behind_a_choice(drawing: Drawing, at: float) -> float:
    """The person answers a choice, or presses Enter; a reading comes before anybody can have looked."""
    drawing.lone_key(at, "1")
    drawing.lone_key(at + 0.15, "\r")
    return drawing.send(0, at + 0.15 + drawing.chance.uniform(0.0, 0.2))


ONE_ACT: dict[str, Callable[[Drawing, float], float]] = {
    "single": single,
    "doubled": doubled,
    "two": lambda drawing, at: at_once(drawing, at, 2),
    "three": lambda drawing, at: at_once(drawing, at, 3),
    "delayed": delayed,
    "cut": cut,
    "hand among": hand_among,
    "behind a choice": behind_a_choice,
}

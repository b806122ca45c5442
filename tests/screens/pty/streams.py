"""Fifty streams of keys as keyboards, gauges and accidents make them, each with the readings to be kept.

A stream is a list of (pause in seconds, bytes) and the exact texts expected in the file: nothing merged,
lost or invented. Chance is seeded, so that every run sends the same bytes.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

Timed = list[tuple[float, bytes]]


@dataclass(frozen=True, slots=True)
class Stream:
    """One stream of keys."""

    name: str
    timed: Timed
    kept: list[str]
    """Readings that must be kept, in this order."""

    refused: int = 0
    """How many refusals of a whole line are expected."""

    plain: bool = False
    """A stream that the toolkit's own input should manage too: digits, point and carriage return only."""


def readings(chance: random.Random, count: int) -> list[str]:
    """Readings that agree within a tenth."""
    return [f"{chance.randint(3630, 3650) / 100:.2f}" for _ in range(count)]


def gauge(texts: list[str], end: bytes, step_s: float, *, form: str = "{}") -> Timed:
    """Readings sent by a gauge, one character every `step_s`; all in one write when that is 0."""
    if step_s == 0:
        return [(0, b"".join(form.format(text).encode() + end for text in texts))]
    return [(step_s, bytes([byte])) for text in texts for byte in form.format(text).encode() + end]


def by_hand(text: str, chance: random.Random, *, bounce: float = 0.0) -> Timed:
    """A reading keyed with gloves: 100 to 180 ms a key, some keys bouncing after 4 to 40 ms."""
    timed: Timed = []
    owed = 0.0
    for letter in (*text, "\r"):
        timed.append((chance.uniform(0.11, 0.18) - owed, letter.encode()))
        owed = 0.0
        if chance.random() < bounce:
            owed = chance.uniform(0.004, 0.025)
            timed.append((owed, letter.encode()))
    return timed


def held(letter: bytes, *, pause_s: float = 0.3, step_s: float = 0.033, times: int = 8) -> Timed:
    """A key held down: once, again after a pause, then fast."""
    return [(0.12, letter), (pause_s, letter), *[(step_s, letter)] * times]


def all_streams(seed: int = 7) -> Iterator[Stream]:
    """The fifty streams."""
    chance = random.Random(seed)
    yield from _gauges(chance)
    yield from _forms(chance)
    yield from _hands(chance)
    yield from _accidents(chance)


def _gauges(chance: random.Random) -> Iterator[Stream]:
    """24: six speeds, four terminators."""
    for step_ms in (0, 0.5, 1, 2, 5, 12):
        for end, name in ((b"\r", "CR"), (b"\n", "LF"), (b"\r\n", "CRLF"), (b"\t", "TAB")):
            texts = readings(chance, 3 if step_ms > 4 else 6)
            yield Stream(
                f"gauge {step_ms} ms {name}",
                gauge(texts, end, step_ms / 1000),
                texts,
                plain=name == "CR",
            )


def _forms(chance: random.Random) -> Iterator[Stream]:
    """10: signs, zeros, units, commas, other wrapping, and digits without a point."""
    forms = ("+{}", "+00{}", "{}mm", "{} mm", "\x02{}\x03", " {}", "+{} mm", "00{}")
    for form in forms:
        texts = readings(chance, 3)
        yield Stream(
            f"form {form!r}",
            gauge(texts, b"\r\n", 0.001, form=form),
            texts,
        )
    texts = readings(chance, 3)
    yield Stream("decimal comma", gauge([text.replace(".", ",") for text in texts], b"\r", 0.002), texts)
    texts = readings(chance, 3)
    yield Stream("digits only", gauge([text.replace(".", "") for text in texts], b"\r", 0.002), texts)


def _hands(chance: random.Random) -> Iterator[Stream]:
    """6: gloved hands, bouncing keys, keys held down."""
    for bounce in (0.0, 0.3, 0.9):
        text = readings(chance, 1)
        yield Stream(f"by hand, bounce {bounce}", by_hand(text[0], chance, bounce=bounce), text)
    digit = [(0.12, b"3"), (0.12, b"6"), (0.12, b"."), (0.12, b"4"), *held(b"2"), (0.15, b"\r")]
    yield Stream("last digit held down", digit, ["36.42"])
    enter = [(0.12, letter.encode()) for letter in "36.42"] + held(b"\r", times=20)
    yield Stream("Enter held down", enter, ["36.42"])
    minus = [(0.12, letter.encode()) for letter in "36.47"] + [(0.15, b"-"), (0.15, b"2"), (0.15, b"\r")]
    yield Stream("one taken back", minus, ["36.42"])


def _accidents(chance: random.Random) -> Iterator[Stream]:
    """10: pastes, bytes that are no UTF-8, unknown keys, NumLock off, half sequences."""
    good = readings(chance, 1)

    def then(name: str, odd: Timed, kept: list[str], refused: int = 0) -> Stream:
        """Something odd, then a good reading."""
        return Stream(name, [*odd, (0.15, good[0].encode() + b"\r")], [*kept, *good], refused)

    yield then(
        "one line pasted, not accepted by itself", [(0, b"\x1b[200~36.44\x1b[201~"), (0.15, b"\r")], ["36.44"]
    )
    yield then("several lines pasted", [(0, b"\x1b[200~36.44\n36.45\n\x1b[201~"), (0.15, b"\r")], [])
    yield then("a byte that is no UTF-8", [(0, b"36\xb5.42\r")], [])
    yield then("two bytes that are no UTF-8", [(0, b"36.\xff\xfe42\r")], [])
    yield then("a C1 byte", [(0, b"36\x9b.42\r")], [])
    yield then("NumLock off in the middle", [(0, b"36\x1b[H42\r")], [])
    yield then("an odd sequence of the key protocol", [(0, b"36\x1b[13;1:2u42\r")], [])
    yield then("control keys that quit elsewhere", [(0, b"\x03\x11\x04\x1c"), (0.15, b"\r")], [])
    yield then("too few decimals", [(0, b"36.4\r")], [], 1)
    yield then("two readings in one", [(0, b"36.4236.44\r")], [])

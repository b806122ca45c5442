"""Streams of gauges and hands on the pure desk and in a real terminal: what nobody sent is never stored.

Run in full with `python -m tests.campaigns.streams --long`: 20,000 streams on the pure desk and 200 under a
pseudo-terminal; the short form runs with the tests. Time is pretended on the desk: keys come when they were
drawn, saving and painting take what was drawn, and what is queued meanwhile is handled after. Each plant is a
guard taken away; the campaign must see it.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import lru_cache
from typing import Any
from unittest.mock import patch

from bench.desk import gauges
from bench.desk.bounce import settle_ms
from bench.desk.effects import Append, Effect
from bench.desk.keys import meaning
from bench.desk.token import Token
from bench.desk.update import update
from bench.job.steps import Step
from bench.shop.shop import Shop, built_in
from tests.campaigns.common import Counts, main
from tests.campaigns.stream_draws import Asked, Drawing, draw
from tests.independent.stream_check import Kept, faults, first_taken, met
from tests.whole.repairer import Pretended, Repairer

SHORT, LONG, UNDER_A_PTY = 400, 20_000, 200
CHOICES = 0.15
"""Share of the streams that begin at a choice."""


@dataclass
class Played:
    """A stream played into a desk."""

    hand: Repairer
    save_s: float
    paint_s: float
    kept: list[Kept] = field(default_factory=list)
    seen_at: dict[str, float] = field(default_factory=dict)
    at_a_number: bool = False
    """A second stream or reading came while a number was asked."""
    taken_back: list[Kept] = field(default_factory=list)
    """Stored, and taken back at once by the program: another stream ran through it."""
    shown: int = 0
    """How often a reading was shown and not taken."""
    void: int = 0
    busy_until: float = 0.0
    paint_due: float = float("inf")
    settle_due: float = float("inf")

    def play(self, drawing: Drawing) -> None:
        """All its keys, and what is due in between."""
        begun = self.hand.seconds
        self.seen_at[self.hand.asked] = 0.0
        for place, one in enumerate(drawing.struck):
            self.pass_to(begun + one.at, begun)
            step = self.hand.desk.step
            self.at_a_number |= bool(place) and step is not None and step.kind == "number"
            name = {"\r": "enter", "\n": "ctrl+j", "\t": "tab"}.get(one.key, one.key)
            if text := meaning(name, one.key):
                at, boot = begun + one.at, (self.hand.boot or 0.0) + one.at
                self.feed(Token("key", text, at=at, wall=self.hand.wall(), boot=boot), place, at)
        self.pass_to(begun + drawing.struck[-1].at + 2.0, begun)

    def pass_to(self, until: float, begun: float) -> None:
        """What is painted and settled before a moment; the program may still be busy then."""
        while (due := max(min(self.paint_due, self.settle_due), self.busy_until)) < until:
            if self.paint_due <= self.settle_due:
                self.paint_due = float("inf")
                self.seen_at.setdefault(self.hand.asked, due - begun)
                self.feed(Token("painted", at=due), -1, due)
            else:
                self.settle_due = float("inf")
                self.feed(Token("settle", at=due), -1, due)

    def feed(self, token: Token, place: int, at: float) -> None:
        """One token and what comes of it; saving keeps the program busy."""
        held, jammed = self.hand.desk.pace.held, self.hand.desk.pace.jammed
        waiting: list[Any] = [token]
        at = max(at, self.busy_until)
        while waiting:
            step, asked = self.hand.desk.step, self.hand.asked
            self.hand.desk, effects = update(self.hand.desk, waiting.pop(0))
            if step is not None and step.kind == "number":
                self.note(effects, place, asked, step.usual)
            if any(isinstance(effect, Append) for effect in effects):
                self.busy_until = at + self.save_s
            waiting += self.hand.bench.carry_out(effects)
        desk = self.hand.desk
        self.shown += desk.pace.held and not held
        self.void += desk.pace.jammed and not jammed
        if token.kind == "painted":
            return
        if self.paint_due == float("inf"):
            self.paint_due = at + self.paint_s
        ms = settle_ms(desk.bounce, window_ms=desk.bounce_ms)
        self.settle_due = at + ms / 1000 if ms else float("inf")

    def note(self, effects: tuple[Effect, ...], place: int, asked: str, usual: str) -> None:
        """A number that was stored, or taken back."""
        for effect in effects:
            if isinstance(effect, Append) and effect.kind == "undo":
                self.taken_back += [self.kept.pop()]
            if isinstance(effect, Append) and effect.kind == "answer" and place >= 0:
                word = str(effect.value[0] if isinstance(effect.value, tuple) else effect.value)
                self.kept += [Kept(place, asked, word, usual)] if word[:1].isdigit() else []


def thousandths() -> Shop:
    """A shop where seat and glass are measured with micrometers, a calliper beside them."""
    shop = built_in()
    inside = replace(shop.instruments[1], name="inside micrometer", kind="inside_micrometer")
    return replace(shop, instruments=(inside, *shop.instruments[1:], shop.instruments[0]))


SHOPS = {"mm": built_in, "inch": lambda: built_in("inch"), "thousandths": thousandths}
"""What the streams are drawn at."""


@lru_cache(maxsize=len(SHOPS))
def places(shop: str) -> tuple[tuple[Repairer, ...], tuple[Repairer, ...]]:
    """A repairer before every number of a straight job in a shop, and before every choice."""
    repairer = Repairer(Pretended(shop=SHOPS[shop]())).open()
    numbers, choices = list[Repairer](), list[Repairer]()
    while repairer.asked:
        kind = repairer.step.kind
        if kind in ("number", "choice"):
            (numbers if kind == "number" else choices).append(repairer.copy())
        repairer.answer()
    return tuple(numbers), tuple(choices)


def asked_at(repairer: Repairer) -> Asked:
    """What is asked there."""
    step: Step = repairer.step
    if step.mask is None:
        return Asked(2, Decimal("31.40"), number=False)
    usual = repairer.usual()
    more = 0.04 if step.mask.unit == "in" else 1.0
    around = usual if usual.replace(".", "").isdigit() and usual != "1" else f"{step.mask.low + more:.2f}"
    around_it = Decimal(around).quantize(Decimal(1).scaleb(-step.mask.decimals))
    unit = step.mask.unit
    return Asked(step.mask.decimals, around_it, length=unit in ("mm", "in"), unit=unit)


def one(chance: random.Random, counts: Counts, number: int, shops: Sequence[str]) -> None:
    """One stream at one of the shops, judged."""
    shop = chance.choice(shops)
    stands = places(shop)[chance.random() < CHOICES]
    counts.seen[f"at {shop}"] += 1
    hand = chance.choice(stands).copy()
    hand.desk = replace(hand.desk, bounce_ms=80)
    hand.look()
    asked = asked_at(hand)
    drawing = draw(chance, asked)
    played = Played(hand, chance.choice((0.0, 0.001, 0.01, 0.1)), chance.choice((0.004, 0.02, 0.06, 0.2)))
    played.play(drawing)
    counts.tried += 1
    tell(counts, drawing, played.kept, played.seen_at, f"stream {number}")
    gauge = drawing.gauges[0]
    fits = asked.number and not gauge.short and (asked.length or not gauge.unit)
    alone = drawing.acts[0] == "single" and fits
    if alone and (taken := first_taken(drawing.struck, drawing.meant, played.kept)) is not None:
        counts.seen["one alone, a number asked"] += 1
        if not taken:
            counts.fail("one alone not taken", f"stream {number}")
    again, crossed = met(drawing.struck, drawing.meant)
    counts.seen["doubled, a number asked"] += again and played.at_a_number
    counts.seen["mixed, a number asked"] += crossed and played.at_a_number
    counts.seen["shown, not taken"] += played.shown
    counts.seen["void until quiet"] += played.void
    counts.seen["taken back at once"] += len(played.taken_back)


def tell(
    counts: Counts,
    drawing: Drawing,
    kept: list[Kept],
    seen_at: Mapping[str, float],
    where: str,
    **slack: float,
) -> None:
    """Count what was stored, and what should not have been."""
    counts.seen["numbers stored"] += len(kept)
    for kind, words in faults(drawing.struck, drawing.meant, kept, seen_at, **slack):
        counts.fail(kind, f"{where} ({', '.join(drawing.acts)}): {words}")


@contextmanager
def planted(guard: str) -> Iterator[None]:
    """A guard taken away: "pause" (what comes too soon, or unseen, is taken), "void" (no quiet is asked)."""
    if guard == "pause":
        with patch.object(gauges, "why_held", lambda *_: ""):
            yield
        return

    def only_void(desk: Any, at: float, why: str = "") -> Any:
        line = replace(desk.line, text="", void=why) if why else desk.line
        return replace(desk, line=line, pace=replace(desk.pace, last_at=at)), ()

    with patch.object(gauges, "jam", only_void), patch.object(gauges, "mixed", lambda _: False):
        yield


def run(
    *, long: bool = False, streams: int = 0, seed: int = 12, shops: Sequence[str] = tuple(SHOPS)
) -> Counts:
    """Draw streams and play them."""
    chance, counts = random.Random(seed), Counts()
    for number in range(streams or (LONG if long else SHORT)):
        one(chance, counts, number, shops)
    if long:
        from tests.campaigns.streams_pty import under_a_pty

        under_a_pty(counts, UNDER_A_PTY)
    return counts


if __name__ == "__main__":
    main(run)

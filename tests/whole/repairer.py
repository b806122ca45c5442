"""A repairer at the desk: answers by word what is asked, against effects that are only pretended.

Nothing here touches a file: entries live in a list, numbers are dealt by a seeded chance, the clock is moved
by hand. The same repairer also works on a real workbench where a test hands one in.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from bench.desk.desk import Desk
from bench.desk.effects import (
    Append,
    Arrival,
    Close,
    Deal,
    Effect,
    Listed,
    Open,
    Reload,
    SessionOpened,
    Start,
)
from bench.desk.entries import NUMBERS
from bench.desk.replacing import Sure
from bench.desk.token import Token
from bench.desk.update import update
from bench.file.entry import Entry, Head
from bench.job import keys
from bench.job.steps import Step
from bench.shop.shop import Shop, built_in
from tests.whole.script import numbered, ordinary, picked, typed

START = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
LOOK_S = 2.0
"""So long a question is looked at before a key comes."""
HEAD = Head(format=1, id="00000000", job="1", made_by="test")


class Pretended:
    """A workbench in memory: one job, no file."""

    def __init__(self, *, seed: int = 1, shop: Shop | None = None, head: Head = HEAD) -> None:
        self.entries: list[Entry] = []
        self.opened_at = 0
        self.chance = random.Random(seed)
        self.shop = shop or built_in()
        self.head = head
        self.wall: Callable[[], str] = lambda: ""

    def again(self) -> Pretended:
        """Another workbench with the same job on it."""
        other = Pretended(shop=self.shop, head=self.head)
        other.entries, other.opened_at = list(self.entries), self.opened_at
        return other

    def opened(self) -> SessionOpened:
        """The job as it is opened."""
        self.opened_at = len(self.entries)
        return SessionOpened(
            head=self.head,
            entries=tuple(self.entries),
            file="pretended.toml",
            shop=self.shop,
            wall=self.wall(),
        )

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """What comes of effects, without a file."""
        arrivals: list[Arrival] = []
        for effect in effects:
            match effect:
                case Append():
                    n = self.entries[-1].n + 1 if self.entries else 1
                    self.entries.append(
                        Entry(
                            n=n,
                            at=self.wall(),
                            kind=effect.kind,
                            key=effect.key,
                            value=effect.value,
                            of=effect.of,
                        )
                    )
                    arrivals.append(Token("saved", numbers=(n,), wall=self.wall()))
                case Deal():
                    order = list(range(effect.count))
                    self.chance.shuffle(order)
                    arrivals.append(Token("deal", numbers=tuple(order)))
                case Close():
                    arrivals.append(Listed(names=("00001.toml",)))
                case Open() | Start() | Reload():
                    arrivals.append(self.opened())
        return arrivals


class Repairer:
    """Keys go in, steps come out; time passes only when it is let pass."""

    def __init__(self, bench: Pretended | None = None, *, desk: Desk | None = None) -> None:
        self.bench = bench or Pretended()
        self.now = START
        self.seconds = 0.0
        self.asleep = 0.0
        """Seconds in which the computer slept so far."""
        self.tells_boot = True
        """Whether the system has a clock that counts sleep."""
        self.bench.wall = self.wall
        self.desk = desk or Desk(bounce_ms=0)
        self.effects: list[Effect] = []

    def wall(self) -> str:
        """The wall time at this moment."""
        return self.now.isoformat(timespec="seconds")

    def wait(self, seconds: float) -> None:
        """Let time pass."""
        self.now += timedelta(seconds=seconds)
        self.seconds += seconds

    def sleep(self, seconds: float) -> None:
        """The computer sleeps: the wall clock goes on, the monotonic one stands."""
        self.now += timedelta(seconds=seconds)
        self.asleep += seconds

    @property
    def boot(self) -> float | None:
        """Time since the start of the computer, sleep counted."""
        return 50.0 + self.seconds + self.asleep if self.tells_boot else None

    def feed(self, arrival: Arrival) -> None:
        """One thing that happens, with everything that comes of it."""
        waiting = [arrival]
        while waiting:
            self.desk, effects = update(self.desk, waiting.pop(0))
            self.effects += effects
            waiting += self.bench.carry_out(effects)

    def copy(self) -> Repairer:
        """Another repairer who stands exactly here."""
        bench = self.bench.again()
        other = Repairer(bench, desk=self.desk)
        other.now, other.seconds, other.asleep = self.now, self.seconds, self.asleep
        other.tells_boot = self.tells_boot
        return other

    def open(self) -> Repairer:
        """Open the job for work: a new sitting begins."""
        self.feed(self.bench.opened())
        if self.desk.page == "account":
            self.type("1")
        self.look()
        return self

    def look(self) -> None:
        """What is asked stands on the screen, and is looked at."""
        self.feed(Token("painted", at=self.seconds, wall=self.wall()))
        self.wait(LOOK_S)

    def key(self, text: str) -> None:
        """One key."""
        self.feed(Token("key", text, at=self.seconds, wall=self.wall(), boot=self.boot))
        if text in ("next", "back"):
            self.feed(Token("settle", at=self.seconds, wall=self.wall(), boot=self.boot))

    def letter(self, letter: str) -> None:
        """One letter of free text."""
        token = Token("key", "char", at=self.seconds, wall=self.wall(), boot=self.boot, raw=letter)
        self.feed(token)

    def type(self, text: str) -> None:
        """An answer, character by character, and Enter."""
        for character in text:
            self.key(character)
        self.key("enter")
        self.look()

    @property
    def step(self) -> Step:
        """The step on the screen."""
        assert self.desk.step is not None, f"no step on page {self.desk.page}: {self.desk.message}"
        return self.desk.step

    @property
    def asked(self) -> str:
        """Key of the open step, empty when nothing is left to do."""
        walk = self.desk.walk
        return walk.open.key if walk is not None and walk.open is not None else ""

    @property
    def keyed(self) -> list[str]:
        """Keys of all answers in the file, oldest first."""
        return [entry.key for entry in self.bench.entries if entry.kind == "answer"]

    def right(self) -> str:
        """What has to be typed to answer the check on the screen rightly."""
        return typed(self.desk, "right")

    def give(self, answer: str) -> None:
        """Answer the step on the screen: a number, or the word of a choice."""
        step, before = self.step, len(self.bench.entries)
        while (text := typed(self.desk, answer)) == "+":
            self.key("next")
        self.type(text)
        self.go_on_replacing()
        gone_on = len(self.bench.entries) > before or any(one.goto for one in step.choices)
        assert gone_on, f"{step.key}: {answer} was not taken: {self.desk.message}"

    def go_on_replacing(self, way: str = "replace") -> None:
        """On the page before an answer is replaced choose a way; elsewhere nothing."""
        about = self.desk.replacing
        if self.desk.page == "replacing" and about is not None:
            self.type(numbered([one.word for one in about.ways], way))

    def usual(self) -> str:
        """What is usually answered on the step on the screen, as typed."""
        return ordinary(self.desk)

    def answer(self, given: Mapping[str, str] | None = None) -> None:
        """Answer the step on the screen as given, else as usual; a running hold is waited for."""
        step, given = self.step, given or {}
        if step.opens_after is not None:
            self.wait(step.opens_after[1])
        if step.key in given:
            self.give(given[step.key])
        else:
            before = len(self.bench.entries)
            typed = self.usual()
            self.type(typed)
            assert len(self.bench.entries) > before, f"{step.key}: {typed} refused: {self.desk.message}"

    def on_to(self, key: str | None, given: Mapping[str, str] | None = None, *, most: int = 160) -> Repairer:
        """Answer everything until a step is asked; each given answer once.

        "" = until nothing is left to do, None = until everything given was asked.
        """
        left = dict(given or {})
        for _ in range(most):
            if not left and key in (self.asked, None):
                return self
            if not self.asked:
                break
            asked = self.asked
            self.answer(left)
            left.pop(asked, None)
        if not left and key == self.asked:
            return self
        raise AssertionError(
            f"{key or 'the end'} not reached; asked {self.asked or 'nothing'}; never {list(left)}"
        )

    def pick(self, item: str) -> None:
        """Choose an entry of the list "everything else", and do it where that is asked;
        a note is for the sheet.
        """
        self.key("list")
        assert self.desk.page == "list", f"no list is open: {self.desk.message}"
        self.type(str(NUMBERS[item]))
        if item == "note":
            self.pick_key(keys.NOTE)
        if isinstance(self.desk.replacing, Sure) and self.desk.page == "replacing":
            self.type(numbered([way.word for way in self.desk.replacing.ways], item))

    def pick_key(self, key: str) -> None:
        """Choose a key on a list to pick from."""
        assert self.desk.page == "pick", f"no list is open: {self.desk.message}"
        self.type(picked(self.desk, key))


def fresh(*, seed: int = 1, shop: Shop | None = None) -> Repairer:
    """A repairer at the first question of a new job."""
    return Repairer(Pretended(seed=seed, shop=shop)).open()


def hasty(repairer: Repairer) -> Repairer:
    """The same with input that is no terminal."""
    repairer.desk = replace(repairer.desk, hasty=True)
    return repairer

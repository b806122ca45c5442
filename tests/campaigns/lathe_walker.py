"""A hand at the desk that mostly does right and sometimes anything, on every page and in every window.

Every page it brings up is read whole and judged; keys, sleep, windows and clocks are all pretended.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from bench.desk.desk import Desk
from bench.desk.token import Token
from bench.file.entry import Entry
from bench.job.job import replay, words_of
from tests.whole.lathe_judge import RAISING, Recorded, fault, seen_whole, turns
from tests.whole.repairer import LOOK_S, Repairer
from tests.whole.seen import read

RIGHTLY = 0.9
LONGEST_AWAY_S = 15 * 60
"""After this long without a key, awake or asleep, checks are to be given again."""
SIZES = ((80, 24), (60, 20), (40, 12), (110, 45), (39, 24), (80, 11), (20, 6))
"""Windows, the last three too small to show a question."""
LEAST = {
    "reached": 300,
    "through_checks": 60,
    "resumed": 60,
    "taken_back": 60,
    "raised": 30,
    "away": 45,
    "unseen": 75,
    "second": 30,
}
"""How often each must have happened with the tests; a planted fault shows within a third of these walks."""


@dataclass
class Tally:
    """What walks have come to."""

    walks: int = 0
    reached: int = 0
    """Times turning came on the screen after something else stood there."""
    through_checks: int = 0
    """Times it did so right after the last of the checks was answered."""
    raised: int = 0
    """Times a step that says how pressure is raised came on the screen."""
    steps: set[str] = field(default_factory=set)
    """The turning steps that were reached."""
    pages: set[str] = field(default_factory=set)
    """The pages that were read."""
    read: int = 0
    """How many times a page was read."""
    resumed: int = 0
    taken_back: int = 0
    away: int = 0
    """Times a key came after a quarter of an hour, awake or asleep."""
    unseen: int = 0
    """Keys in a window too small to show anything."""
    second: int = 0
    """Times the job was opened in a second window, to read only."""
    faults: list[str] = field(default_factory=list)

    def enough(self) -> bool:
        """Whether everything has happened as often as it has to with the tests."""
        return all(getattr(self, name) >= least for name, least in LEAST.items())

    def __str__(self) -> str:
        return (
            f"{self.walks} walks, turning reached {self.reached} times "
            f"({self.through_checks} right after the checks), "
            f"raising {self.raised} times; {self.read} pages read ({', '.join(sorted(self.pages))}); "
            f"{self.resumed} resumed, {self.taken_back} taken back, {self.away} times away, "
            f"{self.unseen} keys in a window too small, "
            f"{self.second} second windows; steps {', '.join(sorted(self.steps))}"
        )


def recorded(entries: Sequence[Entry]) -> list[Recorded]:
    """Entries as the judge takes them."""
    return [recorded_entry(one) for one in entries]


@lru_cache(maxsize=10_000)
def recorded_entry(one: Entry) -> Recorded:
    """An entry as the judge takes it."""
    return Recorded(one.n, one.kind, one.key, words_of(one), one.of)


class Walker:
    """One walk of a repairer, from where he stands."""

    def __init__(self, hand: Repairer, dice: random.Random, tally: Tally) -> None:
        self.hand, self.bench = hand, hand.bench
        self.bench.chance = random.Random(dice.randrange(10**6))
        self.dice = dice
        self.tally = tally
        self.shown = ""
        self.since = self.bench.opened_at
        """Number of the last entry before the job was opened, or before the person came back to the keys."""
        self.last_key_s = hand.seconds + hand.asleep - LOOK_S

    def come_back(self) -> None:
        """The program was ended and started again."""
        self.since = len(self.bench.entries)
        self.hand.feed(self.bench.opened())
        self.look()
        if self.dice.random() < 0.6:
            self.type("1")

    def look(self) -> None:
        """Judge what stands on the screen now."""
        desk = self.hand.desk
        key = desk.step.key if desk.page == "step" and desk.step is not None else ""
        if turns(key) and not turns(self.shown):
            self.tally.reached += 1
            self.tally.through_checks += self.shown.startswith("lathe_")
            self.tally.steps.add(key)
        self.tally.raised += key in RAISING and self.shown not in RAISING
        self.tally.pages.add(desk.page)
        self.shown = key
        self.judge(desk, key, self.since)

    def judge(self, desk: Desk, key: str, since: int) -> None:
        """Read the page, and keep what is wrong with it."""
        self.tally.read += 1
        if wrong := fault(recorded(self.bench.entries), key, opened_at=since, text=read(desk)):
            self.tally.faults.append(f"{desk.page}: {wrong}")

    def press(self, *keys: str) -> None:
        """Keys, one after another, each result looked at."""
        for key in keys:
            before, kept = self.hand.desk, len(self.bench.entries)
            seen = seen_whole(before.columns, before.rows)
            if seen:
                self.counted()
            self.hand.key(key)
            after = self.hand.desk
            if not seen:
                self.tally.unseen += 1
                if len(self.bench.entries) > kept or after.line != before.line or after.page != before.page:
                    self.tally.faults.append(f"{key} counted in a window of {before.columns} x {before.rows}")
            self.look()
        self.hand.look()

    def counted(self) -> None:
        """A key that counts comes: was the person away before it?"""
        now = self.hand.seconds + self.hand.asleep
        if now - self.last_key_s > LONGEST_AWAY_S:
            self.since = len(self.bench.entries)
            self.tally.away += 1
        self.last_key_s = now

    def type(self, text: str) -> None:
        """An answer and Enter."""
        self.press(*text, "enter")

    def act(self) -> None:
        """One thing a hand does, or one thing that happens."""
        roll = self.dice.random()
        if roll < 0.05:
            self.press(*["previous"] * self.dice.randint(1, 4))
        elif roll < 0.08:
            self.press("next")
        elif roll < 0.15:
            self.press("list", *["next"] * self.dice.randint(0, 1))
            self.type(str(self.dice.randint(1, 9)))
        elif roll < 0.19:
            self.tally.resumed += 1
            self.come_back()
        elif roll < 0.21:
            self.leave_alone()
        elif roll < 0.24:
            self.type(str(self.dice.randint(0, 9)))
        elif roll < 0.27:
            self.tally.taken_back += 1
            self.take_back()
        elif roll < 0.29:
            self.other_window()
        elif roll < 0.30:
            self.second_window()
        else:
            self.go_on()

    def leave_alone(self) -> None:
        """Nobody is there, on whatever page, and the computer may sleep; then a key."""
        if self.dice.random() < 0.5:
            self.press("list")
            if self.dice.random() < 0.7:
                self.type(str(self.dice.randint(1, 5)))
        self.dice.choice((self.hand.wait, self.hand.sleep))(self.dice.choice((300, 1000, 40000)))
        self.press(self.dice.choice(("1", "2", "3", "previous", "list", "next")))

    def other_window(self) -> None:
        """The window gets another size; in one that shows nothing some keys are pressed,
        and it grows again.
        """
        for columns, rows in (self.dice.choice(SIZES), SIZES[0]):
            token = Token("resized", at=self.hand.seconds, wall=self.hand.wall(), columns=columns, rows=rows)
            self.hand.feed(token)
            self.look()
            if not seen_whole(columns, rows):
                self.press(*self.hand.usual_keys(), "enter", self.dice.choice(("list", "previous", "1")))
            elif self.dice.random() < 0.5:
                return

    def second_window(self) -> None:
        """The job is opened a second time, to read only, and looked through;
        it is opened again from its entries.
        """
        self.tally.second += 1
        other = self.hand.copy()
        since = len(self.bench.entries)
        other.feed(replace(other.bench.opened(), writable=False, why_read_only="open in another window"))
        keys = ("1", "2", "3", "4", "5", "6", "enter", "enter", "list", "list", "previous", "next")
        for _ in range(8):
            other.key(self.dice.choice(keys))
            desk = other.desk
            self.judge(desk, desk.step.key if desk.page == "step" and desk.step is not None else "", since)
        if len(other.bench.entries) > since:
            self.tally.faults.append("a window that only reads has written")
        job = self.hand.desk.job
        if job is not None and job != replay(job.head, self.bench.entries):
            self.tally.faults.append("the job is not what its entries replayed give")

    def take_back(self) -> None:
        """Undo, from wherever the list is."""
        self.press(*["back"] * len(self.hand.desk.line.text))
        if self.hand.desk.page in ("step", "account", "sheet"):
            self.counted()
            self.hand.pick("undo")
            self.look()

    def go_on(self) -> None:
        """What is asked is answered; a check rightly with the given probability."""
        desk = self.hand.desk
        if not seen_whole(desk.columns, desk.rows):
            self.other_window()
        elif desk.page in ("list", "pick"):
            self.type(str(self.dice.randint(1, 9)))
        elif desk.page == "account":
            self.type("1")
        elif desk.page == "jobs":
            self.type(self.dice.choice("01"))
        elif desk.page == "left":
            self.come_back()
        elif desk.page == "step" and desk.step is not None:
            self.press(*["back"] * len(desk.line.text))
            self.answer()
        else:
            self.press("previous")
            if self.hand.desk.page == "text":
                self.press("previous")

    def answer(self) -> None:
        """Answer the step on the screen; a hold is sometimes waited for."""
        step, kept = self.hand.step, len(self.bench.entries)
        if step.opens_after is not None and self.dice.random() < 0.7:
            self.hand.wait(min(step.opens_after[1], 880))
        if step.kind == "safety" and self.dice.random() > RIGHTLY:
            self.type(str(self.dice.randint(0, 3)))
        elif step.kind != "safety" or step.readback is not None or self.hand.desk.dealt:
            self.type(self.hand.usual())
        given = [one.key for one in self.bench.entries[kept:] if words_of(one)[0] == "right"]
        if given and self.hand.asked == given[-1]:
            self.tally.faults.append(f"{given[-1]} was answered rightly and is asked again at once")

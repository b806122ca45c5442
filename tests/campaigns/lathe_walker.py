"""A hand at the desk that mostly does right and sometimes anything, on every page and in every window.

Every page it brings up is read whole and judged by its text; keys, sleep and clocks are all pretended.
"""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from functools import lru_cache

from bench.desk.desk import Desk
from bench.desk.token import Token
from bench.file.entry import Entry
from bench.job.job import words_of
from tests.campaigns.lathe_bench import Filed
from tests.campaigns.lathe_tally import Tally
from tests.whole.lathe_judge import RAISING, Recorded, fault, says, seen_whole, turns
from tests.whole.ordinary import ORDINARY
from tests.whole.repairer import LOOK_S, Repairer
from tests.whole.script import ordinary
from tests.whole.seen import read

RIGHTLY = 0.9
SEEN_S = 1.0
"""A check answered sooner than this after it came on the screen was not read."""
LONGEST_AWAY_S = 15 * 60
"""After this long without a key, awake or asleep, checks are to be given again."""


@lru_cache(maxsize=10_000)
def recorded_entry(one: Entry) -> Recorded:
    """An entry as the judge takes it."""
    return Recorded(one.n, one.kind, one.key, words_of(one), one.of)


def recorded(entries: Sequence[Entry]) -> list[Recorded]:
    """Entries as the judge takes them."""
    return [recorded_entry(one) for one in entries]


def usual(desk: Desk) -> str:
    """What is usually typed on the page that is open, seen or not; where nothing is usual, the least."""
    step = desk.step if desk.page == "step" else None
    if step is None or (step.kind == "safety" and step.choices and not desk.dealt):
        return "1"
    aimed = step.usual or step.key in ORDINARY or (step.gauge is not None and step.gauge.target is not None)
    if step.kind == "number" and not aimed and step.mask is not None:
        return f"{step.mask.low:.{step.mask.decimals}f}"
    return ordinary(desk)


class Walker:
    """One walk of a repairer, from where he stands; `right` says how each check is rightly answered here."""

    def __init__(self, hand: Repairer, dice: random.Random, tally: Tally, right: Mapping[str, str]) -> None:
        self.bench = Filed.of(hand.bench)
        self.hand = hand
        hand.bench, self.bench.wall = self.bench, hand.wall
        self.bench.chance = random.Random(dice.randrange(10**6))
        self.dice, self.tally, self.right = dice, tally, right
        self.turning = self.raising = False
        """Whether the last page said how to turn, or how to raise pressure."""
        self.shown = ""
        self.since = self.bench.opened_at
        """Number of the last entry before the job was opened, or before the person came back to the keys."""
        self.last_key_s = hand.seconds + hand.asleep - LOOK_S
        self.clock_set = False
        """The wall clock was set since the last key, and the system has no other that counts sleep."""
        self.appeared = (self.check, hand.seconds - LOOK_S)
        """The check on the screen with the entries before it, and since when it stands there."""

    def come_back(self) -> None:
        """The program was ended and started again; at the gate the file is mostly taken as it is."""
        self.since, self.clock_set = self.bench.last_n, False
        self.hand.feed(self.bench.opened())
        self.look()
        if self.hand.desk.page == "damage":
            self.tally.met["gates"] += 1
            self.press(self.dice.choice(("list", "next", "previous")))
            self.type("1" if self.dice.random() < 0.9 else "2")
        if self.dice.random() < 0.6:
            self.type("1")

    @property
    def key(self) -> str:
        """Key of the step on the screen, empty on other pages."""
        desk = self.hand.desk
        return desk.step.key if desk.page == "step" and desk.step is not None else ""

    @property
    def check(self) -> tuple[str, int]:
        """Key of the check on the screen, empty where none is, and how many entries there are."""
        step = self.hand.desk.step
        return (self.key if step is not None and step.kind == "safety" else "", len(self.bench.entries))

    def look(self) -> None:
        """Read and judge what stands on the screen now."""
        desk, key, met = self.hand.desk, self.key, self.tally.met
        turning, raising = self.judge(desk, self.since)
        if turning and not self.turning:
            met["reached"] += 1
            met["right after the checks"] += self.shown.startswith("lathe_")
        met["raising"] += raising and not self.raising
        if turns(key) and seen_whole(desk.columns, desk.rows):
            self.tally.steps.add(key)
            if not turning:
                self.tally.faults.append(f"{key}: its page does not say how to turn, or not in known words")
        if key in RAISING and seen_whole(desk.columns, desk.rows) and not raising:
            self.tally.faults.append(f"{key}: its page does not say how to raise, or not in known words")
        met["forms"] += key != self.shown and desk.step is not None and desk.step.optional and bool(key)
        self.turning, self.raising, self.shown = turning, raising, key
        if self.check != self.appeared[0]:
            self.appeared = (self.check, self.hand.seconds)

    def judge(self, desk: Desk, since: int) -> tuple[bool, bool]:
        """Read a page and keep what is wrong with it; whether it says how to turn, how to raise."""
        self.tally.pages[desk.page] += 1
        self.tally.sizes[f"{desk.columns} x {desk.rows}"] += 1
        return self.judge_text(desk.page, read(desk), since)

    def judge_text(self, page: str, text: str, since: int) -> tuple[bool, bool]:
        """Keep what is wrong with a text; whether it says how to turn, how to raise."""
        self.tally.read += 1
        said = says(text)
        if any(said):
            entries = recorded(self.bench.entries)
            if wrong := fault(entries, "", opened_at=since, text=text, right=self.right):
                self.tally.faults.append(f"{page}: {wrong}")
        return said

    def press(self, *keys: str, slowly: bool = True) -> None:
        """Keys, one after another, each result looked at."""
        for key in keys:
            before, kept, check = self.hand.desk, len(self.bench.entries), self.appeared
            seen = seen_whole(before.columns, before.rows)
            if seen:
                self.counted()
            self.hand.key(key)
            after = self.hand.desk
            if not seen:
                self.tally.met["keys unseen"] += 1
                if len(self.bench.entries) > kept or after.line != before.line or after.page != before.page:
                    self.tally.faults.append(f"{key} counted in a window of {before.columns} x {before.rows}")
            taken = [one for one in self.bench.entries[kept:] if one.key == check[0][0] and check[0][0]]
            if taken and self.hand.seconds - check[1] < SEEN_S:
                self.tally.faults.append(f"{taken[0].key} was taken before it can have been read")
            self.look()
        if slowly:
            self.hand.look()

    def counted(self) -> None:
        """A key that counts comes: was the person away before it?"""
        now = self.hand.seconds + self.hand.asleep
        if now - self.last_key_s > LONGEST_AWAY_S or self.clock_set:
            self.since = self.bench.last_n
            self.tally.met["away"] += 1
        self.last_key_s, self.clock_set = now, False

    def type(self, text: str) -> None:
        """An answer and Enter."""
        self.press(*text, "enter")

    def resize(self, columns: int, rows: int) -> None:
        """The window gets another size."""
        token = Token("resized", at=self.hand.seconds, wall=self.hand.wall(), columns=columns, rows=rows)
        self.hand.feed(token)
        self.look()

    def clear(self) -> None:
        """What stands in the answer line is taken back."""
        self.press(*["back"] * len(self.hand.desk.line.text))

    def answer(self) -> None:
        """Answer the step on the screen; a hold is sometimes waited for."""
        step, kept = self.hand.step, len(self.bench.entries)
        if step.opens_after is not None and self.dice.random() < 0.7:
            self.hand.wait(min(step.opens_after[1], 880))
        if step.kind == "safety" and self.dice.random() > RIGHTLY:
            self.type(str(self.dice.randint(0, 3)))
        elif step.kind != "safety" or step.readback is not None or self.hand.desk.dealt:
            self.type(usual(self.hand.desk))
        given = [one.key for one in self.bench.entries[kept:] if words_of(one)[0] == "right"]
        if given and self.hand.asked == given[-1]:
            self.tally.faults.append(f"{given[-1]} was answered rightly and is asked again at once")

    def go_on(self) -> None:
        """What is asked is answered; a check rightly with the given probability."""
        desk, dice = self.hand.desk, self.dice
        if not seen_whole(desk.columns, desk.rows):
            self.resize(80, 24)
        elif desk.page in ("list", "pick"):
            self.type(str(dice.randint(1, 9)))
        elif desk.page in ("account", "damage"):
            self.type("1")
        elif desk.page == "jobs":
            self.type(dice.choice("01"))
        elif desk.page == "left":
            self.come_back()
        elif desk.page == "step" and desk.step is not None:
            self.clear()
            self.answer()
        else:
            self.press("previous")
            if self.hand.desk.page == "text":
                self.press("previous")

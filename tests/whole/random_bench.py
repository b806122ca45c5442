"""A repairer who drives whole jobs by plain lines with random outcomes; every number comes from one seed.

What happens: readings that slip, walls cut too thin, rings that will not go in, tests of every method that
pass, leak or cannot be judged, searches, replaced answers, undone ones, work left in the middle.
"""

from __future__ import annotations

import io
import math
import random
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from itertools import combinations
from pathlib import Path

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS, items
from bench.desk.hold import seconds_left
from bench.job.corrections import bad_result
from bench.job.steps import Step
from bench.seals.ring.kind import FITTING
from screens.plain import Plain
from tests.whole.hands import Clock, bench_in
from tests.whole.script import picked
from tests.whole.stated import stated

MOST_LINES = 400
SECOND_THOUGHTS = 0.5
"""Share of bad results that something else is keyed over."""
READ_AGAIN = 0.2
"""Share of results after which a reading before it is keyed over."""
SHORTER = 0.3
"""Share of tests before which a hold shorter than the method needs is fixed."""
CLOCK_SET = 0.1
"""Share of waits in which somebody sets the wall clock."""
LEFT, AWAY_S = 0.25, 1000.0
"""Share of waits for a hold in which the bench is left, and for how long beyond its end, s."""
ANOTHER_SEAL = "seal"
"""Not chosen: these jobs are about the ring, and so is who checks what they claim."""
ASIDE = 0.05
"""Share of steps before which something is done from the list."""
BESIDE = ("back", "crown", "tube", "pushers")
"""The seals of a watch besides the ring."""
WEIGHTS: dict[str, dict[str, float]] = {
    "paint": {"none": 12, "old": 1, "unknown": 1},
    "paint_go": {"go": 6, "stop": 1},
    "bench": {"clean": 30},
    "hold": {"front": 12, "behind": 6, "clamped": 0.3},
    "ring": {"accept": 1},
    "fit_outcome": {"home": 10, "too_easy": 1, "would_not_start": 1, "chipped": 0.5, "bezel_moved": 0.5},
    "empty_result": {"pass": 8, "fail": 1.5, "not_judged": 1},
    "cased_result": {"pass": 7, "fail": 2, "not_judged": 1.5},
    "hand_back": {"done": 5, "again": 3, "later": 0.3},
    "renewed": {
        **{"_".join(some): 2 for n in (1, 2, 3) for some in combinations(BESIDE, n)},
        "none": 3,
        "all": 2,
        "parked": 0.2,
        "each": 2,
    },
    "empty_correction": {"again": 1, "keyed_wrong": 2},
    "cased_correction": {"again": 1, "keyed_wrong": 2},
    "fit_correction": {"again": 1, "keyed_wrong": 2},
    "empty_throughout": {"yes": 5, "no": 1},
    "cased_throughout": {"yes": 5, "no": 1},
    "past_outside": {"smaller_bore": 2, "fresh": 1},
    "marking": {
        "nothing": 2,
        "words_only": 2,
        "bar_3": 5,
        "bar_5": 4,
        "bar_10": 1,
        "divers_20": 0.5,
        "other": 1,
    },
}
REPLACING = {"instead": 2.0, "replace": 4.0, "spoiled": 8.0, "undo": 8.0, "leave": 1.0}
"""Ways on from the page before an answer is replaced."""
METHODS = {"dry_deflection": 6.0, "underpressure": 3.0, "dry_pass_fail": 3.0}
SELDOM = {
    "keep": 0.05,
    "closed": 0.5,
    "hand_back": 0.15,
    "jobs": 0.1,
    "later": 0.2,
    "this_job": 0.05,
    "here": 0.05,
}


class Bench:
    """One job from the first question to its end, or until it is left."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.seed, self.met, self.done = seed, Counter[str](), Counter[str]()
        self.chance = random.Random(seed)
        self.clock = Clock(step_s=self.chance.uniform(3.0, 40.0))
        self.out = io.StringIO()
        bench = bench_in(stated(folder), seed=seed, clock=self.clock)
        self.plain = Plain(
            Desk(hasty=True, bounce_ms=0),
            bench,
            out=self.out,
            wall=self.clock,
            now=self.clock.steady,
            boot=self.clock.steady,
        )
        self.workbench = bench
        self.seat = self.chance.uniform(26.0, 38.0)
        self.glass = self.seat - self.chance.uniform(0.7, 1.6)
        self.leak = self.new_leak()
        self.gauge = self.chance.uniform(8.0, 40.0)
        self.patience = self.chance.randrange(5, 70) if self.chance.random() < 0.15 else MOST_LINES

    @property
    def desk(self) -> Desk:
        """The desk as it stands."""
        return self.plain.desk

    def new_leak(self) -> float:
        """Relative fall of the signal over the hold: tight, at the limit, leaking or gross."""
        return self.chance.choice([0.0005, 0.0005, 0.001, 0.05, 0.15, 0.4, 4.0])

    def run(self) -> str:
        """Work until nothing is left to do; how it ended: finished, left, or tired of it."""
        self.plain.start()
        self.line("0")
        for done in range(MOST_LINES):
            walk = self.desk.walk
            if self.desk.job is None or (walk is not None and walk.open is None):
                break
            if done >= self.patience:
                break
            self.act()
        ended = "left" if self.desk.job is None or self.desk.walk is None else "finished"
        if self.desk.job is not None and self.desk.walk is not None and self.desk.walk.open is not None:
            ended = "left" if self.patience < MOST_LINES else "tired"
        self.workbench.close()
        return ended

    def pass_s(self, seconds: float) -> None:
        """Let time pass; whoever was long away looks at the screen before keying on."""
        self.clock.wait(max(0.0, seconds))
        self.plain.key("")

    def line(self, text: str) -> None:
        """One line in, as input that is no terminal gives it."""
        self.plain.answer(text)
        if self.desk.page in ("why", "keys", "sheet") and self.desk.walk and self.desk.walk.open:
            self.plain.key("previous")

    def act(self) -> None:
        """One step, or something from the list before it.

        Each time that a step is met has its own chance, so that a new step changes nothing at the others.
        """
        step = self.desk.step
        place = step.key if self.desk.page == "step" and step is not None else self.desk.page
        self.met[place] += 1
        self.chance = random.Random(f"{self.seed} {place} {self.met[place]}")
        if self.desk.page in ("list", "pick", "damage"):
            self.line("/")
        elif self.desk.page == "replacing" and self.desk.replacing is not None:
            words = [way.word for way in self.desk.replacing.ways]
            self.numbered(words, self.weighted({word: REPLACING[word] for word in words}))
        elif self.desk.page == "text":
            self.line(self.chance.choice(["spring bar bent", "crown stiff \u4e00", "ask about strap"]))
        elif step is None:
            self.line("/")
        elif self.just_failed() and self.chance.random() < SECOND_THOUGHTS:
            self.think_again()
        elif (last := self.last_key()).endswith("_result") and self.chance.random() < READ_AGAIN:
            self.read_again(last.partition("_")[0])
        elif self.chance.random() < ASIDE and len(self.desk.entries) > 3:
            self.aside()
        elif step.key in ("empty_pressure", "empty_check", "cased_pressure", "cased_check"):
            self.before_a_test(step)
        elif step.key.endswith("_hold") and self.chance.random() < SHORTER:
            self.hold_shorter(step.key.partition("_")[0])
        else:
            self.answer(step)

    def aside(self) -> None:
        """Something from the list: replace an answer, note, undo, another ring, a usual value."""
        item = self.weighted({"replace": 5, "usual": 4, "note": 1, "undo": 2, "spoiled": 0.6})
        if item not in {one.word for one in items(self.desk) if one.now}:
            return
        self.line("*")
        self.line(str(NUMBERS[item]))
        if self.desk.page == "pick":
            keys = [key for key, _ in self.desk.picks]
            first = [key for key in keys[:30] if key != ANOTHER_SEAL and not key.startswith("seal_")]
            self.line(picked(self.desk, self.chance.choice(first)))
            if self.desk.page == "step" and self.desk.step is not None:
                self.answer(self.desk.step)

    def just_failed(self) -> bool:
        """Whether the last answer is a result that is bad."""
        answers = self.desk.job.answers if self.desk.job is not None else ()
        return bool(answers) and bad_result(answers[-1], FITTING)

    def think_again(self) -> None:
        """Key something else over a bad result, after a reading before it perhaps."""
        answers = self.desk.job.answers if self.desk.job is not None else ()
        if self.chance.random() < 0.5:
            self.read_again(answers[-1].key.partition("_")[0])
        self.by_list("replace", answers[-1].key)
        step = self.desk.step
        if step is not None and step.key == answers[-1].key:
            self.numbered([choice.word for choice in step.choices], step.choices[0].word)

    def last_key(self) -> str:
        """Of the last answer; empty before the first."""
        return self.desk.job.answers[-1].key if self.desk.job is not None and self.desk.job.answers else ""

    def read_again(self, name: str) -> None:
        """Key a reading of a test over, if it has any; the gauge has crept meanwhile."""
        key = f"{name}_signal_5"
        if self.desk.job is not None and any(one.key == key for one in self.desk.job.answers):
            self.by_list("replace", key)
            if self.desk.step is not None and self.desk.step.key == key:
                self.gauge += 0.3
                self.answer(self.desk.step)

    def hold_shorter(self, name: str) -> None:
        """Fix a hold shorter than the method needs, where its length is asked; else go on."""
        self.by_list("usual", f"{name}_minutes")
        if self.desk.step is not None and self.desk.step.key == f"{name}_minutes":
            self.line("002")
            self.line("")
        elif self.desk.step is not None:
            self.answer(self.desk.step)

    def before_a_test(self, step: Step) -> None:
        """Sometimes another method is taken; a watch is sometimes left to settle first."""
        name = step.key.partition("_")[0]
        walk = self.desk.walk
        method = walk.step(f"{name}_method") if walk else None
        plain = not any(
            answer.key == f"{name}_method" for answer in (self.desk.job.answers if self.desk.job else ())
        )
        if method is not None and (plain or self.chance.random() < 0.1) and self.chance.random() < 0.6:
            words = [choice.word for choice in method.choices]
            wanted = self.weighted({word: METHODS.get(word, 1.0) for word in words})
            self.by_list("usual", f"{name}_method")
            if self.desk.step is not None and self.desk.step.key == f"{name}_method":
                self.numbered(words, wanted)
            return
        if self.chance.random() < 0.3:
            self.pass_s(3600 * self.chance.uniform(1, 40))
        self.answer(step)

    def by_list(self, item: str, key: str) -> None:
        """Open a step by the list."""
        self.line("*")
        self.line(str(NUMBERS[item]))
        if key in {one for one, _ in self.desk.picks}:
            self.line(picked(self.desk, key))
        else:
            self.line("/")

    def numbered(self, words: list[str], wanted: str) -> None:
        """Give the number of an entry, turning pages."""
        place = words.index(wanted)
        while not self.desk.offset <= place < self.desk.offset + 9:
            before = self.desk.offset
            self.line("+")
            if self.desk.offset == before:
                return
        self.line(str(place - self.desk.offset + 1))

    def weighted(self, weights: dict[str, float]) -> str:
        """One of several words by weight."""
        return self.chance.choices(list(weights), list(weights.values()))[0]

    def answer(self, step: Step) -> None:
        """Answer the step at hand."""
        if step.opens_after is not None and self.chance.random() < (
            0.5 if step.key.endswith("_result") else 0.97
        ):
            if self.chance.random() < CLOCK_SET:
                self.clock.now += timedelta(hours=self.chance.choice([-30, -1, 1, 30]))
            longer = AWAY_S if self.chance.random() < LEFT else 0.0
            self.pass_s(seconds_left(self.desk, step) + longer)
            if self.desk.step is None or self.desk.step.key != step.key:
                return  # whoever was away finds another question
        if step.kind == "safety":
            self.check(step)
        elif step.kind == "number":
            self.line(self.number(step))
            if self.desk.conversion:
                self.line(self.chance.choice(["", "", "-"]))
        elif step.kind == "text":
            self.line("a word")
        elif step.kind == "timer":
            self.line("1" if self.chance.random() < 0.7 else str(self.chance.choice([2, 5, 10, 30])))
        else:
            known = WEIGHTS.get(step.key, {})
            words = [choice.word for choice in step.choices]
            first = {words[0]: 2.0} if step.kind in ("result", "action") else {}
            weights = {
                word: known.get(word, 0.0) if known else {**SELDOM, **first}.get(word, 1.0) for word in words
            }
            self.numbered(
                words, self.weighted(weights if any(weights.values()) else dict.fromkeys(words, 1.0))
            )

    def check(self, step: Step) -> None:
        """A check, seldom answered wrongly."""
        wrong = self.chance.random() < 0.01
        if step.readback is not None:
            self.line(str(step.readback + (7 if wrong else 0)))
        elif self.desk.dealt:
            self.line(str(self.desk.dealt.index(1 if wrong else 0) + 1))
        else:
            self.line("1")

    def number(self, step: Step) -> str:
        """A number for a step, as it is typed."""
        mask = step.mask
        assert mask is not None
        value = self.value_of(step)
        if value is None:
            return "1"
        value = min(max(value, mask.low), mask.high)
        return f"{value:0{mask.before + (mask.decimals + 1 if mask.decimals else 0)}.{mask.decimals}f}"

    def value_of(self, step: Step) -> float | None:
        """The value measured; None takes the usual one."""
        assert step.mask is not None
        draw = self.chance
        for key, measure in self.measures().items():
            if step.key.startswith(key):
                return measure(step)
        if step.key.endswith("_reading") and step.gauge and step.gauge.target is not None:
            slip = -0.35 if "outside" in step.key and draw.random() < 0.12 else draw.gauss(0, 0.004)
            return step.gauge.target + slip
        if step.key.endswith("_pressure"):
            return None if draw.random() < 0.6 else draw.choice([0.5, 1.0, 2.0, step.mask.high])
        if "_signal_" in step.key:
            count = int(step.key.rpartition("_")[2])
            if count == 0:
                self.leak = self.new_leak()
                self.gauge = draw.choice([0.1, 12.0, 25.0, 40.0])
            return self.gauge * math.exp(-self.leak * count / 12) + draw.gauss(0, 0.02)
        if step.usual and draw.random() < 0.5:
            return None
        low, high = step.mask.low, step.mask.high
        if step.gauge is not None and step.gauge.target is not None:
            return step.gauge.target + draw.choice([0.0, 0.0, 0.02, -0.02])
        return draw.uniform(low, min(high, low + 10))

    def measures(self) -> dict[str, Callable[[Step], float]]:
        """How the things measured are read, by the beginning of the key."""
        draw = self.chance

        def slips(size: float, share: float) -> float:
            return size * draw.choice([-1, 1]) if draw.random() < share else 0.0

        def wall(step: Step) -> float:
            target = step.gauge.target if step.gauge and step.gauge.target else 0.6
            return target + draw.gauss(0, 0.004) + slips(0.09, 0.08)

        return {
            "case_bore": lambda _: self.seat + draw.gauss(0, 0.015) + slips(0.6, 0.1),
            "plug_enters": lambda _: self.seat - 0.01,
            "plug_stays_out": lambda _: self.seat + draw.choice([0.01, 0.01, -0.05]),
            "glass_1": lambda _: self.glass + draw.gauss(0, 0.01) + slips(0.6, 0.1),
            "glass_2": lambda _: self.glass + draw.gauss(0, 0.01) + slips(0.6, 0.1),
            **{f"glass_{n}": lambda _: self.glass + draw.gauss(0, 0.01) for n in range(3, 10)},
            "hand_wall": lambda _: (self.seat - self.glass) / 1.82 + draw.gauss(0, 0.01) + slips(0.09, 0.05),
            "hand_height": lambda _: draw.choice([1.2, 1.2, 1.6]),
            "seat_depth": lambda _: draw.choice([1.45, 1.6, 1.8, 0.55]),
            "wall_1": wall,
            "wall_2": wall,
            "wall_3": wall,
            "wall_4": wall,
            "wall_5": wall,
            "ring_height": lambda step: (
                (step.gauge.target if step.gauge and step.gauge.target else 1.2) + slips(0.2, 0.1) - 0.02
            ),
        }

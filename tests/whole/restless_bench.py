"""A repairer at the same bench who changes his mind, at a computer whose clock jumps and that is often off.

Results and readings are keyed over, answers taken back, questions gone back to; the wall clock is set at any
moment; the program is ended and the job opened again. All of it from a chance of its own beside the bench's.
"""

from __future__ import annotations

import random
from datetime import timedelta
from pathlib import Path

from bench.desk.desk import Desk
from screens.plain import Plain
from tests.whole.hands import bench_in
from tests.whole.random_bench import Bench

AGAIN = (
    "_result",
    "_signal_1",
    "_vented",
    "_hold",
    "fit_outcome",
    "wall_1",
    "glass_1",
    "case_bore_1",
    "ring_height",
)
"""What is keyed over, by the endings of its keys."""
JUMPS_H = (-200.0, -30.0, -1.0, -0.02, 0.02, 1.0, 30.0, 200.0)
"""By how many hours the wall clock is set."""


class Restless(Bench):
    """One job as in `Bench`, with second thoughts, jumps of the clock and the program started again."""

    def __init__(self, folder: Path, seed: int) -> None:
        super().__init__(folder, seed)
        self.folder, self.moods = folder, random.Random(f"restless {seed}")
        self.unquiet = self.moods.choice((0.02, 0.05, 0.09))

    def act(self) -> None:
        """One step, and sometimes something before it that nobody planned."""
        if self.desk.page == "step" and self.moods.random() < self.unquiet:
            self.moods.choice(
                (self.clock_jumps, self.end_and_open, self.key_over, self.key_over, self.go_back)
            )()
        super().act()

    def clock_jumps(self) -> None:
        """The wall clock is set; the clock that nobody sets goes on."""
        self.done["clock jumped"] += 1
        self.clock.now += timedelta(hours=self.moods.choice(JUMPS_H))

    def end_and_open(self) -> None:
        """The program is ended, perhaps the computer too, and the job is opened again."""
        file = Path(self.desk.file).name
        self.workbench.close()
        self.done["resumed"] += 1
        if self.moods.random() < 0.5:
            self.clock.now += timedelta(hours=self.moods.uniform(-2, 60))
            self.clock.steady_s = self.moods.uniform(1, 500)
        self.workbench = bench_in(self.folder, seed=self.moods.randrange(10**6), clock=self.clock)
        self.plain = Plain(
            Desk(hasty=True, bounce_ms=0),
            self.workbench,
            out=self.out,
            wall=self.clock,
            now=self.clock.steady,
            boot=self.clock.steady,
        )
        self.plain.start(file)
        self.plain.go_on()

    def key_over(self) -> None:
        """An answer that is there already is keyed again: a result, a reading, the beginning of a hold."""
        walk = self.desk.walk
        there = [step.key for step, _ in walk.shown if step.key.endswith(AGAIN)] if walk is not None else []
        if not there:
            return
        self.done["keyed over"] += 1
        key = self.moods.choice(there[-6:])
        self.by_list("replace", key)
        if self.desk.page == "step" and self.desk.step is not None and self.desk.step.key == key:
            self.answer(self.desk.step)

    def go_back(self) -> None:
        """A few questions back, and the one that stands there is answered anew; or the last is taken back."""
        self.done["gone back"] += 1
        if self.moods.random() < 0.3:
            self.by_list("undo", "")
            return
        for _ in range(self.moods.randint(1, 4)):
            self.line("/")
        if self.desk.page == "step" and self.desk.step is not None and self.desk.step.kind != "safety":
            self.answer(self.desk.step)

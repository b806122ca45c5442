"""kill -9 on every page of the desk while a repairer works on a real file.

A child process works at the desk with a real workbench: it goes to a page, writes notes, answers, begins a
second ring, corrects a result, holds a test. Before each entry it tells what it is about to write, after it
that it is shown as saved, and it tells every page. It is killed on the page that was wished for. Long form:
`python -m tests.campaigns.page_kills --long`.
"""

from __future__ import annotations

import json
import os
import random
import select
import signal
import tempfile
import time
from collections.abc import Callable, Sequence
from datetime import timedelta
from functools import lru_cache
from pathlib import Path
from typing import Any

from bench.desk.desk import Desk
from bench.desk.effects import Append, Arrival, Effect, Open, SessionOpened
from bench.desk.token import Token
from bench.file.codec import render_entry, render_head
from bench.file.disk import REAL, Disk
from bench.file.entry import Entry
from bench.job.corrections import AGAIN, KEYED_WRONG
from bench.shop.shop import built_in
from bench.workbench import Workbench
from tests.campaigns.common import Counts, main
from tests.campaigns.kills import InPieces, spin
from tests.campaigns.kills_judge import judge
from tests.whole.places import at
from tests.whole.repairer import HEAD, Pretended, Repairer

LATER_H = 5
"""So long after the job was written it is opened again: a hold that ran then is over."""
LONGEST_S = 20.0
"""A child that never reached its page by then is killed all the same."""


class Forgetful(Disk):
    """The fault that the campaign has to catch: a disk that drops a write and says it was done."""

    def write(self, fd: int, data: bytes) -> int:
        return len(data) if b"note" in data else super().write(fd, data)


class Filed(Pretended):
    """A workbench on a real file, which tells what it is about to write and what it has saved."""

    def __init__(self, path: Path, tell: Callable[[Any], None], disk: Disk) -> None:
        super().__init__()
        self.path, self.tell = path, tell
        self.workbench = Workbench(path.parent.parent, disk=disk, wall=lambda: self.wall())

    def opened(self) -> SessionOpened:
        """The file, opened for work."""
        arrival = self.workbench.carry_out([Open(str(self.path))])[0]
        assert isinstance(arrival, SessionOpened)
        self.entries = list(arrival.entries)
        return arrival

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """Each effect in turn, every entry told before and after."""
        arrivals: list[Arrival] = []
        for effect in effects:
            if isinstance(effect, Append):
                self.tell({"will": [effect.kind, effect.key, effect.value, effect.of]})
            come = self.workbench.carry_out([effect])
            saved = [one for one in come if isinstance(one, Token) and one.kind == "saved"]
            if saved and self.workbench.session is not None:
                self.entries = list(self.workbench.session.entries)
                self.tell({"saved": saved[0].numbers[0]})
            arrivals += come
        return arrivals


class Worker(Repairer):
    """A repairer who tells every page that comes on the screen."""

    def feed(self, arrival: Arrival) -> None:
        """One thing that happens, and what then stands on the screen."""
        super().feed(arrival)
        assert isinstance(self.bench, Filed)
        self.bench.tell({"pages": pages(self.desk)})


def pages(desk: Desk) -> list[str]:
    """By what names the page on the screen is counted."""
    step, job = (desk.step if desk.page == "step" else None), desk.job
    found = [desk.page if desk.page != "text" else "note"]
    if job is not None and desk.page == "step":
        found += ["second ring"] if job.attempt > 1 else []
        corrected = any(answer.word in (AGAIN, KEYED_WRONG) for answer in job.answers)
        found += ["corrected result"] if corrected else []
    return found + (["hold"] if step is not None and step.opens_after is not None else [])


def note(hand: Repairer) -> None:
    """A note, letter by letter."""
    hand.pick("note")
    for letter in f"note {len(hand.bench.entries)}":
        hand.letter(letter)
    hand.key("enter")


def correct(hand: Repairer) -> None:
    """Back to the failed result, a pass keyed over it, and said which it was."""
    hand.pick("replace")
    hand.pick_key("cased_result")
    hand.look()
    hand.give("pass")
    hand.look()
    hand.give(AGAIN if hand.bench.chance.random() < 0.5 else KEYED_WRONG)


def begin_second(hand: Repairer) -> None:
    """The piece is spoiled; another ring."""
    hand.pick("spoiled")
    hand.answer()


def hold(hand: Repairer) -> None:
    """On to the next hold, and its result."""
    while not hand.asked.endswith("_hold"):
        hand.look()
        hand.answer()
    hand.look()
    hand.answer()
    hand.answer()


def the_list(hand: Repairer) -> None:
    """The list, and back."""
    hand.key("list")
    hand.key("previous")


def opening(item: str) -> Callable[[Repairer], None]:
    """A page opened from the list, and left."""

    def visit(hand: Repairer) -> None:
        hand.pick(item)
        hand.key("previous")

    return visit


TARGETS: dict[str, tuple[str, Callable[[Repairer], None]]] = {
    "list": ("wall_2", the_list),
    "why": ("wall_2", opening("why")),
    "keys": ("case_bore_2", opening("keys")),
    "sheet": ("wall_3", opening("sheet")),
    "pick": ("wall_3", opening("replace")),
    "note": ("glass_2", note),
    "step": ("case_bore_1", Repairer.answer),
    "second ring": ("wall_2", begin_second),
    "corrected result": ("failed", correct),
    "hold": ("timed", hold),
}
"""Each page to be killed on: before which step the job stands, and how the page is come to."""
BEFORE = {"failed": "cased_hold", "timed": "cased_pressure"}
"""Steps at which a place is begun that is no step itself."""


@lru_cache(maxsize=1)
def places() -> dict[str, bytes]:
    """The session file of a job that stands before each step wanted."""
    found = {}
    for place, _ in TARGETS.values():
        hand = at(BEFORE.get(place, place))
        if place == "timed":  # a method that needs the clock: the usual tester gives its own verdict
            hand.pick("usual")
            hand.pick_key("cased_method")
            hand.give("underpressure")
        if place == "failed":
            hand.answer()
            hand.wait(601)
            hand.give("fail")
        found[place] = written(hand.bench.entries)
    return found


def written(entries: Sequence[Entry]) -> bytes:
    """Entries as a session file."""
    return render_head(HEAD) + b"".join(render_entry(entry, salt=HEAD.id) for entry in entries)


def run(*, long: bool = False, most: int = 20, planted: bool = False) -> Counts:
    """2,700 kills, as many on each page; short: 20, and more until one came while an entry was written."""
    counts = Counts()
    with tempfile.TemporaryDirectory() as folder:
        places()
        for number in range(2700 if long else 8 * most):
            if not long and number >= most and (planted or counts.seen["in flight turned up whole"]):
                break
            one(counts, Path(folder) / str(number), number, Forgetful() if planted else None)
    return counts


def one(counts: Counts, folder: Path, number: int, disk: Disk | None = None) -> None:
    """One child, one kill on its page, one look at what is left."""
    counts.tried += 1
    chance = random.Random(number)
    target = list(TARGETS)[number % len(TARGETS)]
    path = folder / "jobs" / "00001.toml"
    path.parent.mkdir(parents=True)
    path.write_bytes(places()[TARGETS[target][0]])
    listen, speak = os.pipe()
    child = os.fork()
    if child == 0:
        work(path, speak, target, number, disk or (InPieces(number) if number % 2 else REAL))
    os.close(speak)
    told = hear(listen, target, wanted=chance.randint(1, 4))
    spin(chance.randint(0, 4_000_000))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while piece := os.read(listen, 65536):
        told += piece
    os.close(listen)
    said = [json.loads(line) for line in told.split(b"\n")[:-1]]
    on = next((one["pages"] for one in reversed(said) if "pages" in one), ["nothing"])
    for page in {page for one in said for page in one.get("pages", ())}:
        counts.seen[f"reached {page}"] += 1
    for page in on:
        counts.seen[f"killed on {page}"] += 1
    judge(counts, path, said, places()[TARGETS[target][0]], f"kill {number} on {target}")


def hear(listen: int, target: str, *, wanted: int) -> bytes:
    """What the child tells until its page has come so many times."""
    told, end, mark = b"", time.monotonic() + LONGEST_S, f'"{target}"'.encode()
    while told.count(mark) < wanted and (left := end - time.monotonic()) > 0:
        if select.select([listen], [], [], left)[0]:
            piece = os.read(listen, 65536)
            if not piece:
                break
            told += piece
    return told


def work(path: Path, speak: int, target: str, seed: int, disk: Disk) -> None:
    """The child: to its page, a note, an answer, and again."""
    try:
        os.setpgrp()
        bench = Filed(path, lambda what: _tell(speak, what), disk)
        bench.shop, bench.chance = built_in(), random.Random(seed)
        hand = Worker(bench)
        hand.now += timedelta(hours=LATER_H)
        hand.feed(bench.opened())
        hand.type("1")
        while True:
            for act in (TARGETS[target][1], note, Repairer.answer):
                try:
                    act(hand)
                except AssertionError:  # not to be done at this place: from where it stands, on
                    come_back(hand)
    finally:
        os._exit(1)


def come_back(hand: Repairer) -> None:
    """The job opened anew, whatever page stood there."""
    hand.feed(hand.bench.opened())
    hand.type("1")


def _tell(speak: int, what: Any) -> None:
    os.write(speak, json.dumps(what).encode() + b"\n")


if __name__ == "__main__":
    main(run)

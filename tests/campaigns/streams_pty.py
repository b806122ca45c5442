"""The streams in a real terminal: the program itself, its file read from outside, its screen as painted.

Called by `tests.campaigns.streams`. Each stream has a job of its own that stands before its first reading.
What was stored is told from the file, when it was asked from the picture of the terminal.
"""

from __future__ import annotations

import random
import re
import shutil
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from decimal import Decimal
from itertools import pairwise
from pathlib import Path

from tests.campaigns.common import Counts
from tests.campaigns.stream_draws import HAND, Asked, Drawing, Meant, Struck, draw
from tests.independent.stream_check import Kept, faults, first_taken, is_it, met
from tests.screens.pty.harness import Terminal
from tests.whole.hands import lines
from tests.whole.script import Hand

TERMINALS = 4
SLACK_S = 0.08
"""The terminal's picture is drawn so much later than the program wrote it."""
FILE_CLOCK_S = 0.01
"""The step in which a file tells when it was written."""
LATEST_S = 0.7
"""A busy program stores so much later at most."""
AT = Asked(2, Decimal("31.40"), length=True)
MEASURED = ("case_bore", "glass", "seat_depth")
ANSWERED = re.compile(r"(\d+) answered")


@dataclass
class Watched:
    """A stream sent into a terminal, with what was seen and stored meanwhile."""

    terminal: Terminal
    file: Path
    drawing: Drawing
    begun: float = 0.0
    struck: list[Struck] = field(default_factory=list)
    """The keys with the times at which they were sent."""
    kept: list[Kept] = field(default_factory=list)
    taken_back: int = 0
    answered: int = 0
    """Answers of the stage, as the screen counts them."""
    seen_at: dict[str, float] = field(default_factory=dict)
    """When the screen first counted so many: each is another question."""
    entries: int = 0
    read_to: int = 0

    def send(self) -> None:
        """All keys at their times; between them the screen and the file are looked at."""
        self.look()
        self.seen_at = dict.fromkeys(self.seen_at, 0.0)
        self.answered = int(next(iter(self.seen_at)))
        self.begun = time.monotonic()
        for one in self.drawing.struck:
            self.watch(self.begun + one.at)
            self.struck.append(replace(one, at=time.monotonic() - self.begun))
            self.terminal.send(one.key.encode())
        self.watch(time.monotonic() + 0.8)

    def watch(self, until: float) -> None:
        """Look at screen and file up to a moment."""
        while (left := until - time.monotonic()) > 0:
            self.terminal.drain(min(left, 0.005))
            self.look()

    def look(self) -> None:
        """What the screen counts, and what is new in the file."""
        if found := ANSWERED.search(self.terminal.screen.display[0]):
            self.seen_at.setdefault(found[1], time.monotonic() - self.begun)
        there = self.file.stat()
        if there.st_size == self.read_to:
            return
        self.read_to = there.st_size
        stored_at = time.monotonic() - self.begun - (time.time() - there.st_mtime)
        blocks = self.file.read_text(encoding="utf-8").split("[[entry]]")[1:]
        for block in blocks[self.entries :] if self.struck else ():
            self.note(dict(re.findall(r'(\w+) = \[?"([^"]*)"', block)), stored_at)
        self.entries = len(blocks)

    def note(self, entry: dict[str, str], stored_at: float) -> None:
        """One new entry: an answer, or one taken back."""
        if entry["kind"] == "undo" and self.kept:
            self.kept.pop()
            self.taken_back += 1
            self.answered -= 1
        elif entry["kind"] == "answer":
            value = entry.get("value", "")
            if value[:1].isdigit() and entry["key"].startswith(MEASURED):
                self.kept.append(Kept(self.ended_by(value, stored_at), str(self.answered), value))
            self.answered += 1

    def ended_by(self, value: str, stored_at: float) -> int:
        """The key that brought it about, as far as can be told from outside: an Enter of the person that came
        last before it was stored, else the first end of a reading of this value, else the last end.
        """
        ends = [place for place, one in enumerate(self.struck) if one.key in "\r\n\t"]
        before = [place for place in ends if self.struck[place].at <= stored_at + FILE_CLOCK_S] or ends
        last, number = before[-1], Decimal(value.split()[0])
        used = {one.by for one in self.kept}
        if self.struck[last].who == HAND and last not in used:
            return last
        fits = [
            place
            for place in before
            if place not in used
            and stored_at - self.struck[place].at < LATEST_S
            and self.struck[place].reading >= 0
            and is_it(self.drawing.meant[self.struck[place].reading], number)
        ]
        return min(fits) if fits else last


def before_the_first_reading(folder: Path) -> None:
    """A folder with one job, whose readings come next."""
    lines(folder, [Hand(until="case_bore_1")])


def asks(terminal: Terminal) -> bool:
    """Whether a question stands on the screen, and no account of where the job stood."""
    return bool(ANSWERED.search(terminal.screen.display[0])) and "where it stood" not in terminal.text()


def watched(model: Path, drawing: Drawing) -> Watched:
    """One stream in a terminal of its own."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "shop"
        shutil.copytree(model, folder)
        file = next((folder / "jobs").glob("*.toml"))
        with Terminal(["-m", "ringwright", "--folder", str(folder), "1"]) as terminal:
            terminal.wait_for("where it stood")
            terminal.pace([(0.15, b"1"), (0.2, b"\r")])
            terminal.wait(lambda: asks(terminal), "the first reading to be asked")
            terminal.wait(lambda: not terminal.drain(0.1), "the paint to end")
            watched = Watched(terminal, file, drawing)
            watched.send()
            return watched


def under_a_pty(counts: Counts, streams: int, seed: int = 21) -> None:
    """So many streams, judged by the same checker."""
    chance = random.Random(seed)
    drawings = [draw(chance, AT) for _ in range(streams)]
    with tempfile.TemporaryDirectory() as name, ThreadPoolExecutor(TERMINALS) as hands:
        model = Path(name)
        before_the_first_reading(model)
        for number, one in enumerate(hands.map(lambda drawing: watched(model, drawing), drawings)):
            judge(counts, one, f"pty {number}")


def judge(counts: Counts, one: Watched, where: str) -> None:
    """Count what was stored, and what should not have been."""
    drawing = one.drawing
    counts.seen["under a pty"] += 1
    counts.seen["pty: numbers stored"] += len(one.kept)
    counts.seen["pty: taken back at once"] += one.taken_back
    meant = [sent(one.struck, place, each) for place, each in enumerate(drawing.meant)]
    for kind, words in faults(one.struck, meant, one.kept, one.seen_at, slack_s=SLACK_S):
        counts.fail(f"pty: {kind}", f"{where} ({', '.join(drawing.acts)}): {words}")
    again, crossed = met(one.struck, meant)
    counts.seen["pty: doubled"] += again
    counts.seen["pty: mixed"] += crossed
    if drawing.acts[0] == "single" and not drawing.gauges[0].short:
        taken = first_taken(one.struck, meant, one.kept)
        counts.seen["pty: one alone"] += taken is not None
        counts.seen["pty: one alone, not taken"] += taken is False


def sent(struck: list[Struck], place: int, meant: Meant) -> Meant:
    """A reading with the times at which it was sent."""
    times = [one.at for one in struck if one.reading == place and one.key != "\x02"]
    burst = meant.burst and all(b - a < 0.03 for a, b in pairwise(times))
    return replace(meant, begins=times[0], ends=times[-1], burst=burst)

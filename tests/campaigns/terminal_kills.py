"""kill -9 of the program in a real terminal, on every page, against what stood on the screen.

A hand types into the program and into a desk of its own beside it; whatever came on the screen after an
answer has to be in the file, and nothing that was not typed. Long form, 300 kills:
`python -m tests.campaigns.terminal_kills --long`.
"""

from __future__ import annotations

import random
import signal
import tempfile
import time
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from bench.desk.effects import Append, Arrival, Effect
from bench.desk.token import Token
from bench.file.entry import Entry
from bench.file.load import load
from screens.look import Look
from screens.view import view
from tests.campaigns.common import Counts, main
from tests.campaigns.kills_judge import judge
from tests.campaigns.page_kills import TARGETS, note, pages as pages_of, places
from tests.screens.pty.harness import Terminal
from tests.whole.repairer import Pretended, Repairer
from tests.whole.stated import stated

BYTES = {"enter": b"\r", "list": b"*", "previous": b"/", "next": b"+", "back": b"-"}
PACE_S, LETTER_S = 0.13, 0.01
"""From key to key as by hand; the letters of a note come faster."""
READ_S = 1.6
"""So long a check is looked at before it is answered: sooner is not taken."""


class Beside(Pretended):
    """The workbench of the desk beside the program: what it is asked to write is what the program has to."""

    def __init__(self) -> None:
        super().__init__()
        self.told: list[dict[str, Any]] = []

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """Note what is about to be written."""
        for effect in effects:
            if isinstance(effect, Append):
                entry = Entry(n=1, at="", kind=effect.kind, key=effect.key, value=effect.value, of=effect.of)
                self.told.append({"will": first_word(entry)})
        return super().carry_out(effects)


class Typist(Repairer):
    """A repairer whose keys go into a terminal as well."""

    def __init__(self, terminal: Terminal, data: bytes) -> None:
        self.beside = Beside()
        super().__init__(self.beside)
        self.terminal = terminal
        self.now = datetime.now(UTC)
        self.beside.entries = list(load(data).usable)
        self.shown = 0
        """How much of what was written had come on the screen."""

    def key(self, text: str) -> None:
        """One key, here and there."""
        self.terminal.pace([(PACE_S, BYTES.get(text, text.encode()))])
        self.wait(PACE_S)
        super().key(text)

    def letter(self, letter: str) -> None:
        """One letter of a note."""
        self.terminal.pace([(LETTER_S, letter.encode())])
        self.wait(LETTER_S)
        super().feed(Token("key", "char", at=self.seconds, wall=self.wall(), boot=self.boot, raw=letter))

    def type(self, text: str) -> None:
        """An answer; the numbers of a check are dealt otherwise there, so it is found by its words."""
        step = self.desk.step if self.desk.page == "step" else None
        if step is None or step.kind != "safety" or not self.desk.dealt:
            super().type(text)
        else:
            self.look()
            self.terminal.pace([(READ_S, b"")])
            words = step.choices[self.desk.dealt[int(text) - 1]].text
            self.terminal.pace([(PACE_S, number_before(self.terminal, words)), (PACE_S, b"\r")])
            for one in (*text, "enter"):
                self.wait(PACE_S)
                super().key(one)
            self.look()
        self.seen()

    def on_screen(self) -> str:
        """Words of the page that stands here."""
        step = self.desk.step if self.desk.page == "step" else None
        if step is not None:
            return step.title[:30]
        return "".join(text for text, _ in view(self.desk, Look())[0]).strip()[:24]

    def seen(self) -> None:
        """Wait until the same page stands there; all that was written before it is then told as saved."""
        self.terminal.wait_for(self.on_screen())
        self.shown = len(self.beside.told)


def first_word(entry: Entry) -> list[Any]:
    """What is typed of an entry; beside it stand times, which are others there."""
    value = entry.value[0] if isinstance(entry.value, tuple) else entry.value
    return [entry.kind, entry.key, value, entry.of]


def number_before(terminal: Terminal, words: str) -> bytes:
    """The number of a choice on the screen."""
    (line,) = (line for line in terminal.text().splitlines() if words[:40] in line)
    return line.split()[0].encode()


SHORT = ("note", "second ring", "hold")
"""Pages of the short form."""


def run(*, long: bool = False, pages: Sequence[str] = SHORT, planted: bool = False) -> Counts:
    """300 kills, as many on each page; short: one on each of a few pages."""
    counts = Counts()
    for number in range(300) if long else map(list(TARGETS).index, pages):
        with tempfile.TemporaryDirectory() as folder:
            one(counts, Path(folder), number, planted=planted)
    return counts


def one(counts: Counts, folder: Path, number: int, *, planted: bool = False) -> None:
    """One program, one kill on its page, one look; `planted`: the last two entries are taken away."""
    counts.tried += 1
    chance = random.Random(number)
    target = list(TARGETS)[number % len(TARGETS)]
    place, _ = TARGETS[target]
    path = stated(folder) / "jobs" / "00001.toml"
    path.parent.mkdir(parents=True)
    path.write_bytes(places()[place])
    with Terminal(["-m", "ringwright", "--folder", str(folder), "1"]) as terminal:
        hand = Typist(terminal, places()[place])
        hand.feed(hand.beside.opened())
        hand.seen()
        hand.type("1")
        try:
            for _ in range(chance.randint(0, 1)):
                note(hand)
                hand.seen()
            to(hand, target, half=chance.random() < 0.5)
        except AssertionError as why:
            counts.fail("screen", f"kill {number} on {target}: {str(why)[:1500]}")
        spin_s(chance.uniform(0.0, 0.08))
        terminal.process.send_signal(signal.SIGKILL)
        terminal.wait_exit()
        for page in pages_of(hand.desk):
            counts.seen[f"killed on {page}"] += 1
    if planted:
        path.write_bytes(b"\n[[entry]]\n".join(path.read_bytes().split(b"\n[[entry]]\n")[:-2]) + b"\n")
    told = [
        *hand.beside.told[: hand.shown],
        *({"saved": 1} for _ in range(hand.shown)),
        *hand.beside.told[hand.shown :],
    ]
    judge(counts, path, told, places()[place], f"kill {number} on {target}", said=first_word)


def to(hand: Typist, target: str, *, half: bool) -> None:
    """To a page, what is written on the way not waited for at the last; `half`: a note is left unfinished."""
    if target in ("why", "keys", "sheet"):
        hand.pick(target)
    elif target == "pick":
        hand.pick("replace")
    elif target == "list":
        hand.key("list")
    elif target == "note" and half:
        hand.pick("note")
        hand.letter("x")
    elif target == "hold":
        while not hand.asked.endswith("_result"):
            hand.answer()
    else:
        TARGETS[target][1](hand)
    if hand.beside.told[hand.shown :] == []:
        hand.seen()


def spin_s(seconds: float) -> None:
    """Let the program go on for a moment."""
    end = time.perf_counter() + seconds
    while time.perf_counter() < end:
        pass


if __name__ == "__main__":
    main(run)

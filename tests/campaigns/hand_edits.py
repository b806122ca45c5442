"""Session files edited by hand, then opened in every way: `python -m tests.campaigns.hand_edits [--long]`.

None ends in a fault of ours; each is understood, refused with line and reason, or accepted and marked on the
workshop's sheet; and the list always lists the other jobs.
"""

from __future__ import annotations

import contextlib
import io
import json
import random
import re
import tempfile
import tomllib
import zipfile
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

from bench.desk.effects import Open
from screens.dispatch import main as ringwright
from screens.look import Look
from screens.view import view
from tests.campaigns.common import Counts, main
from tests.campaigns.edit_draws import Edit, blocks_of, draw
from tests.whole.hands import bench_in
from tests.whole.on_file import OnFile
from tests.whole.repairer import Repairer

SHORT, LONG = 20, 5000
HERE = Path(__file__).resolve().parents[2]
OTHERS = ("00901-other.toml", "00902-other.toml")
EDITED = "00500-edited.toml"
STATES = {
    "measure": r'key = "(case_bore|glass)_\d"',
    "lathe": r'key = "(lathe_speed|rough_outside|last_outside|finish_bore)"',
    "tester": r'key = "(empty|cased)_hold"',
    "finished": r'key = "hand_back"',
    "second ring": r'key = "attempt"',
}
"""Where a file is cut, after the block that holds this; the last of them."""


@lru_cache(maxsize=1)
def wholes() -> tuple[str, ...]:
    """Whole session files: the samples of the straight ring, and jobs kept from a version before."""
    kept = zipfile.ZipFile(HERE / "tests" / "whole" / "before.zip")
    old = [kept.read(name).decode() for name in sorted(kept.namelist()) if re.match(r"70\d\d-", name)]
    samples = [path.read_text("utf-8") for path in sorted((HERE / "sample_sessions").glob("*.toml"))]
    samples = [text for text in samples if 'key = "seal"' not in text]
    return (*samples, *(text for text in old if len(text) < 60_000))


@lru_cache(maxsize=8)
def fitting(state: str) -> tuple[str, ...]:
    """The files that come to a state."""
    return tuple(text for text in wholes() if re.search(STATES[state], text))


def session(state: str, dice: random.Random) -> str:
    """A session file that stands in a state."""
    text = dice.choice(fitting(state))
    blocks = blocks_of(text)
    places = [at for at, block in enumerate(blocks) if re.search(STATES[state], block)]
    last = places[-1] if state == "finished" else dice.choice(places)
    if state == "second ring":
        last = dice.randrange(last, len(blocks))
    return "".join(blocks[: last + 1])


def run_command(*words: str) -> tuple[int, str, str]:
    """Status, output and errors of a command."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        status = ringwright(list(words))
    return status, out.getvalue(), err.getvalue()


class Case:
    """One edited file among two others, opened in every way."""

    def __init__(self, folder: Path, edit: Edit, state: str, counts: Counts) -> None:
        self.folder, self.edit, self.state, self.counts = folder, edit, state, counts
        self.path = folder / "jobs" / EDITED
        self.said = f"{state}, {edit.what}"

    def wrong(self, what: str, detail: str) -> None:
        """Keep what went wrong, with the edit."""
        self.counts.fail(what, f"{self.said}: {detail}")

    def commands(self, when: str) -> None:
        """Every command over the file and its folder: none fails, and the list lists."""
        place = ("--folder", str(self.folder))
        first = (
            (("check", str(self.path)), (0, 1)),
            (("jobs", "--json"), (0,)),
            (("sheet", "500", "--json"), (0, 2)),
        )
        more = ((("plan", "500"), (0, 2)), (("export", str(self.folder)), (0,)))
        for words, allowed in (*first, *(more if when == "after" else ())):
            status, out, err = run_command(*words, *place)
            if status not in allowed:
                self.wrong(f"status {status} of {words[0]} {when}", err.strip()[:200])
            elif words[0] == "jobs":
                self.lists(json.loads(out), when)
        listed = bench_in(self.folder).listed()
        self.lists([{"file": row.file, "stage": row.stage} for row in listed.rows], when)

    def lists(self, rows: list[dict[str, Any]], when: str) -> None:
        """The edited file and the others are listed, the others with where they stand."""
        stages = {Path(row["file"]).name: row["stage"] for row in rows}
        if set(stages) != {EDITED, *OTHERS} or not all(stages[name] for name in OTHERS):
            self.wrong(f"the list {when}", str(stages))

    def desk(self) -> None:
        """The file opened at the desk, looked at, and accepted where that is offered."""
        bench = bench_in(self.folder)
        hand = Repairer(OnFile(bench))
        hand.bench.wall = hand.wall
        try:
            for arrival in bench.carry_out([Open(str(self.path))]):
                hand.feed(arrival)
            self.at_the_gate(hand)
        except Exception as fault:
            self.wrong("fault", f"{type(fault).__name__}: {fault}")
        finally:
            bench.close()

    def at_the_gate(self, hand: Repairer) -> None:
        """What the gate says, and what comes of accepting it."""
        desk = hand.desk
        if desk.page == "jobs":
            return self.outcome("not opened", named=bool(desk.message))
        page = seen(hand)
        if desk.page != "damage":
            self.outcome("set aside" if desk.set_aside else "as it was", named=True)
            return self.go_on(hand)
        refused = [one for one in desk.findings if one.refused]
        before = self.path.read_bytes()
        hand.type("1")
        if refused or not desk.writable:
            named = all(re.search(r"line \d+: .*expected ", one.words) for one in refused)
            kept = self.path.read_bytes() == before and hand.desk.page == "damage"
            return self.outcome(
                "refused" if refused else "read only", named=named and kept and "line" in page
            )
        if hand.desk.page == "damage":
            return self.wrong("not accepted and not refused", hand.desk.message)
        changes = list(hand.desk.job.changes) if hand.desk.job else []
        self.outcome(self.how_read(hand), named=bool(changes))
        self.marked()
        self.rests(hand)
        return self.go_on(hand)

    def outcome(self, name: str, *, named: bool) -> None:
        """Count what became of the edit; it has to be said."""
        self.counts.seen[name] += 1
        if not named:
            self.wrong(f"{name} and not said", "")

    def how_read(self, hand: Repairer) -> str:
        """Whether an edit that only writes a value otherwise is read as that value."""
        if not self.edit.same_meaning or hand.desk.job is None:
            return "marked"
        block = blocks_of(self.original)[self.edit.blocks[0]]
        (was,) = tomllib.loads(block)["entry"]
        now = next((one for one in hand.desk.entries if one.n == was["n"]), None)
        words = was.get("value", "")
        meant = tuple(words) if isinstance(words, list) else words
        if now is not None and now.kind == "answer" and now.value != meant and not is_free(now.key):
            self.wrong("read otherwise than meant", f"{meant!r} as {now.value!r}")
        return "understood"

    def marked(self) -> None:
        """The workshop's sheet says it, the customer's does not."""
        place = ("--folder", str(self.folder))
        status, shop, err = run_command("sheet", "500", "--shop", *place)
        _, customer, _ = run_command("sheet", "500", *place)
        sign = re.compile(
            r"Changed by hand|Missing in the file|left out: entry|Something was written into the file"
        )
        if status != 0:
            return self.wrong("no sheet of an accepted edit", err.strip()[:200])
        if not sign.search(shop):
            self.wrong("accepted and not marked", "")
        if sign.search(customer):
            self.wrong("marked on the customer's sheet", "")
        if self.state == "finished" and self.edit.blocks and "Changed by hand: entry" in shop:
            self.wrong("after the end, not said", "")
        return None

    def rests(self, hand: Repairer) -> None:
        """Nothing that rested on an answer changed by hand is taken as answered after it."""
        desk = hand.desk
        if desk.job is None or desk.walk is None or desk.job.closed:
            return
        counting = {step.key for step, _ in desk.walk.done}
        for one in desk.job.answers:
            if (
                not one.by_hand
                or one.key not in counting
                or any(mark.n > one.number for mark in desk.job.marks if mark.key == "attempt")
            ):
                continue
            if any(other.key == one.key and other.number > one.number for other in desk.job.answers):
                continue
            by = max(entry.n for entry in desk.entries if entry.kind == "confirm" and entry.of == one.number)
            for step, answer in desk.walk.done:
                if one.key in step.rests_on and answer.number < by and not answer.by_hand:
                    self.wrong("what rested on it still counts", f"{step.key} on {one.key}")
            self.counts.seen["looked at what rests on it"] += 1

    def go_on(self, hand: Repairer) -> None:
        """The pages behind the gate, and the next question."""
        if hand.desk.job is None:
            return
        hand.type("1")
        for keys in (("*", "1"), ("*", "4"), ("*", "2")):
            for key in keys:
                hand.type(key)
                seen(hand)

    def all(self, original: str) -> None:
        """Every way to open it, before and after the gate, and once more."""
        self.original = original
        self.path.write_text(self.edit.text, encoding="utf-8")
        self.commands("before")
        self.desk()
        self.commands("after")


def is_free(key: str) -> bool:
    """Whether an answer is free text, in which capitals mean something."""
    return key in ("watch", "remark", "old_ring", "spoiled")


def seen(hand: Repairer) -> str:
    """What stands on the screen."""
    return "\n".join("".join(text for text, _ in spans) for spans in view(hand.desk, Look("ascii")))


@contextlib.contextmanager
def bench_folder() -> Iterator[Path]:
    """A folder with two jobs that nobody edits."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "jobs").mkdir()
        for other, text in zip(OTHERS, wholes(), strict=False):
            (folder / "jobs" / other).write_text(text, encoding="utf-8")
        yield folder


def run(*, long: bool = False, first: int = 0, most: int | None = None) -> Counts:
    """Draw edits on every kind of session file and open each."""
    counts = Counts()
    names = list(STATES)
    with bench_folder() as folder:
        for seed in range(first, first + (most or (LONG if long else SHORT))):
            dice = random.Random(seed)
            state = names[seed % len(names)]
            original = session(state, dice)
            edit = draw(original, dice)
            counts.tried += 1
            counts.seen[f"state {state}"] += 1
            Case(folder, edit, f"seed {seed}, {state}", counts).all(original)
            for left in (*folder.glob("*.zip"), *(folder / "jobs").glob(f"{EDITED}*")):
                left.unlink()
            if long and counts.tried % 100 == 0:
                print(counts, flush=True)
    return counts


if __name__ == "__main__":
    main(run)

"""What becomes of mutants: each in a private copy, before the tests that reach it, several copies at a time.

Killed: a test that reaches it fails, or its file of tests can no longer be read, or the process ends without
a word (`died`). Hung counts as killed only where a test that takes less than 10 s as things are has used 40 s
of processor time or has waited 90 s, twice over. Survived: every test that reaches it passed, or as many as
10 s of processor time allow; what no test reaches has survived too. At the end every test that has killed
runs once more on the tree as it is; if it fails there, it says nothing, and its mutants are judged again.
"""

from __future__ import annotations

import queue
import tempfile
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.mutation.copies import Copy
from tests.mutation.mutants import TOP, Mutant
from tests.mutation.reach import Reach, Uses, cache_folder, names_of, recorded, tests_for
from tests.mutation.running import LIMIT

Say = Callable[[str], None]
AT_ONCE = 60
"""Tests that have killed are tried again as things are, so many at a time."""


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """How one mutant ended."""

    mutant: Mutant
    end: str
    """`killed`, `died`, `hung`, `survived` or `unreached`."""
    by: str
    """The test that failed."""
    reaching: int
    run: int
    seconds: float
    words: str

    @property
    def alive(self) -> bool:
        """Whether nobody noticed."""
        return self.end in ("survived", "unreached")


class Bench:
    """Copies of the tree, and what is known of the reach of its tests."""

    def __init__(self, copies: list[Copy], top: Path = TOP) -> None:
        self.top = top
        self.count = len(copies)
        self.free: queue.Queue[Copy] = queue.Queue()
        for copy in copies:
            self.free.put(copy)
        self.reach, self.uses = Reach(), Uses()

    @contextmanager
    def copy(self) -> Iterator[Copy]:
        """A copy that nobody else uses meanwhile."""
        one = self.free.get()
        try:
            yield one
        finally:
            self.free.put(one)

    def each(self, work: Callable[[Any], Any], over: Iterable[Any]) -> list[Any]:
        """The work over all, as many at a time as there are copies; answers in order."""
        with ThreadPoolExecutor(self.count) as pool:
            return list(pool.map(work, over))

    def record(self, say: Say, folder: Path | None = None) -> None:
        """Sees to it that the reach of every file of tests is known."""
        place = folder or cache_folder()
        names = names_of(self.top)

        def one(file: str) -> None:
            with self.copy() as copy:
                came = recorded(copy, file, names[file], place)
            if came != "known":
                say(f"{file}: {came}")

        self.each(one, names)
        for file, name in names.items():
            if (place / f"{name}.json.gz").exists():
                text = (self.top / file).read_text(encoding="utf-8")
                self.reach.add(place / f"{name}.json.gz", text)

    def judge(self, mutant: Mutant) -> Verdict:
        """One mutant before the tests that reach it, in a copy as it was at the beginning."""
        met = tests_for(mutant, self.reach, self.uses)
        order = self.reach.order(met, LIMIT, mutant.file)
        said: dict[str, Any] = {"end": "unreached"}
        with self.copy() as copy:
            source = (copy.top / mutant.file).read_bytes()
            for _ in range(2 if order else 0):
                said = copy.with_file(mutant.file, mutant.applied(source), {"tests": order})[-1]
                if said["end"] != "hung":
                    break
        return Verdict(
            mutant=mutant,
            end=said["end"],
            by=said.get("by", ""),
            reaching=len(met),
            run=said.get("run", 0),
            seconds=said.get("seconds", 0.0),
            words=mutant.words(source),
        )

    def false_killers(self, killers: list[str]) -> set[str]:
        """Those of the tests that fail on the tree as it is."""
        false: set[str] = set()
        left = sorted(killers, key=lambda one: self.reach.seconds.get(one, 0.0))
        while left:
            with self.copy() as copy:
                said = copy.ask({"tests": left[:AT_ONCE]})
            run = sum("test" in one for one in said)
            if said[-1]["end"] != "survived":
                false.add(said[-1].get("by") or left[max(run - 1, 0)])
            left = left[max(run, 1) :]
        return false

    def judge_all(self, mutants: list[Mutant], say: Say) -> list[Verdict]:
        """All of them, with the check of those that killed."""
        done = 0

        def one(mutant: Mutant) -> Verdict:
            nonlocal done
            verdict = self.judge(mutant)
            done += 1
            what = verdict.words if verdict.alive else verdict.by
            say(f"{done}/{len(mutants)} {verdict.end} {mutant.file}:{mutant.line} {what}")
            return verdict

        verdicts = self.each(one, mutants)
        false = self.false_killers(sorted({one.by for one in verdicts if one.by in self.reach.seconds}))
        for test in false:
            say(f"fails as things are, so it says nothing: {test}")
            for rows in self.reach.by_file.values():
                rows.pop(test, None)
        return [one(verdict.mutant) if verdict.by in false else verdict for verdict in verdicts]


@contextmanager
def benches(workers: int, top: Path = TOP) -> Iterator[Bench]:
    """So many private copies, gone at the end."""
    with tempfile.TemporaryDirectory(prefix="ringwright-mutation-") as folder, ExitStack() as stack:
        copies = [stack.enter_context(Copy(Path(folder) / str(one), top)) for one in range(workers)]
        yield Bench(copies, top)

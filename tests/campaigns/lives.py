"""Random lives of a job: answers, undos, notes, leaving, reopening, kills, power cuts,
damage and settling it.

After every step the entries in use and their replay equal a small model kept beside it, which knows nothing
of the file but what was done to it. Long form: `python -m tests.campaigns.lives --long`.
"""

from __future__ import annotations

import argparse
import random
import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings, strategies as st
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)

from bench.file.entry import Value
from bench.file.new_job import create
from bench.file.plain import NotSaved
from bench.file.store import Session, open_session
from bench.job.job import replay
from tests.campaigns.common import AT, Plain, plain
from tests.campaigns.simulated_disk import SimulatedDisk

KEYS = ("case_bore", "glass_od", "ring_wall")
REACHED: Counter[str] = Counter()


class Model:
    """What was done to the job."""

    def __init__(self) -> None:
        self.present: dict[int, Plain] = {}
        self.written: dict[int, Value] = {}
        self.by_hand: set[int] = set()
        self.accepted: dict[int, tuple[int, object]] = {}
        """By number of the confirm: what it accepted, and as what."""
        self.last = 0

    def add(self, entry: Plain) -> None:
        """An entry was answered as saved."""
        self.present[entry[0]] = entry
        self.written[entry[0]] = entry[3]
        self.last = entry[0]

    def gaps(self) -> dict[int, int]:
        """First and last of each run of missing numbers below the highest one present."""
        runs: dict[int, int] = {}
        before = 0
        for n in sorted(self.present):
            if n > before + 1:
                runs[before + 1] = n - 1
            before = n
        return runs

    def unsettled(self) -> set[int]:
        """The numbers that have to be asked about."""
        latest = {of: seen for n, (of, seen) in sorted(self.accepted.items()) if n in self.present}
        asked = {first for first, last in self.gaps().items() if latest.get(first) != ("gap", last)}
        for n, entry in self.present.items():
            sound = entry[3] == self.written[n] and n not in self.by_hand
            if (not sound or n in latest) and latest.get(n) != entry[3]:
                asked.add(n)
        return asked

    def seen(self, n: int) -> object:
        """What a confirm of this number accepts."""
        return self.present[n][3] if n in self.present else ("gap", self.gaps()[n])

    def used(self) -> list[Plain]:
        """The entries that count."""
        return [] if self.unsettled() else [self.present[n] for n in sorted(self.present)]

    def answers(self) -> dict[str, Value]:
        """The newest answer to each key that no living undo takes back."""

        def lives(n: int) -> bool:
            return not any(e[1] == "undo" and e[4] == n and lives(e[0]) for e in self.present.values())

        return {key: value for n, kind, key, value, _ in self.used() if kind == "answer" and lives(n)}


class Life(RuleBasedStateMachine):
    """One job."""

    @initialize(seed=st.integers(0, 2**16))
    def begin(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.disk = SimulatedDisk()
        self.model = Model()
        self.torn = False
        self.job: Session | None = create(
            Path("/bench"), job="A-1042", made_by="x", disk=self.disk, new_id=lambda: "2265b1f5"
        )
        self.path = self.job.path

    def _put(self, kind: str, key: str, value: str, of: int | None = None) -> None:
        assert self.job is not None
        if self.model.unsettled() and kind in ("answer", "undo"):
            with pytest.raises(NotSaved):
                self.job.append(kind=kind, key=key, value=value, of=of, at=AT)
            REACHED["refused while it asks"] += 1
            return
        entry = self.job.append(kind=kind, key=key, value=value, of=of, at=AT)
        assert entry.n == self.model.last + 1
        self.model.add((entry.n, kind, key, entry.value, of))

    @precondition(lambda self: self.job)
    @rule(key=st.sampled_from(KEYS), value=st.integers(1000, 3999))
    def answer(self, key: str, value: int) -> None:
        self._put("answer", key, f"{value / 100:.2f} mm")

    @precondition(lambda self: self.job)
    @rule(value=st.text(st.characters(exclude_categories=["Cs"]), max_size=12))
    def note(self, value: str) -> None:
        self._put("note", "", value)

    @precondition(lambda self: self.job and self.model.last)
    @rule(data=st.data())
    def undo(self, data: st.DataObject) -> None:
        self._put("undo", "", "", data.draw(st.integers(1, self.model.last)))

    @precondition(lambda self: self.job)
    @rule()
    def mark(self) -> None:
        self._put("mark", "sitting", "")

    @precondition(lambda self: self.job)
    @rule()
    def leave(self) -> None:
        assert self.job is not None
        self.job.close()
        self.job = None

    @precondition(lambda self: self.job)
    @rule(power=st.booleans())
    def fall(self, power: bool) -> None:
        self.job = None
        if power:
            self.disk = self.disk.cut(self.chance)
        self.disk.locks.clear()
        REACHED["power cut" if power else "kill"] += 1

    @precondition(lambda self: not self.job)
    @rule()
    def reopen(self) -> None:
        self.job = open_session(self.path, disk=self.disk)
        assert self.job.writable
        self.torn = False
        assert {finding.of for finding in self.job.loaded.findings} == self.model.unsettled()

    @precondition(lambda self: self.job and self.model.unsettled())
    @rule(data=st.data())
    def settle(self, data: st.DataObject) -> None:
        assert self.job is not None
        of = data.draw(st.sampled_from(sorted(self.model.unsettled())))
        seen = self.model.seen(of)
        entry = self.job.append(kind="confirm", of=of, at=AT)
        self.model.add((entry.n, "confirm", "", entry.value, of))
        self.model.accepted[entry.n] = (of, seen)
        REACHED["settled"] += 1

    def _block(self, n: int) -> tuple[bytes, int, int]:
        content = self.disk.content(self.path)
        start = content.index(f"\n[[entry]]\nn = {n}\n".encode())
        end = content.find(b"\n[[entry]]\n", start + 1)
        return content, start, len(content) if end < 0 else end

    def _rewrite(self, content: bytes) -> None:
        self.disk.put(self.path, content)

    @precondition(lambda self: not self.job and self._values())
    @rule(data=st.data(), by_hand=st.booleans())
    def change(self, data: st.DataObject, by_hand: bool) -> None:
        n = data.draw(st.sampled_from(self._values()))
        value = f"{data.draw(st.integers(1000, 1009)) / 100:.2f} mm"
        content, start, end = self._block(n)
        block = re.sub(rb'\nvalue = ".*"', f'\nvalue = "{value}"'.encode(), content[start:end])
        if by_hand:
            block = re.sub(rb'\ncrc = ".*"', b'\ncrc = "hand"', block)
            self.model.by_hand.add(n)
        self._rewrite(content[:start] + block + content[end:])
        self.model.present[n] = (*self.model.present[n][:3], value, None)
        REACHED["changed"] += 1

    def _values(self) -> list[int]:
        return [n for n, entry in self.model.present.items() if entry[1] == "answer"]

    @precondition(lambda self: not self.job and len(self.model.present) > 1)
    @rule(data=st.data())
    def take_out(self, data: st.DataObject) -> None:
        n = data.draw(st.sampled_from(sorted(self.model.present)[:-1]))
        content, start, end = self._block(n)
        self._rewrite(content[:start] + content[end:])
        del self.model.present[n]
        REACHED["taken out"] += 1

    @precondition(lambda self: not self.job and not self.torn)
    @rule(length=st.integers(2, 60), fill=st.sampled_from([b"\0", b'n = 1\nat = "x', b"\xff"]))
    def tear(self, length: int, fill: bytes) -> None:
        self._rewrite(self.disk.content(self.path) + b"\n[[entry]]\n" + fill * length)
        self.torn = True
        REACHED["torn"] += 1

    @invariant()
    def the_replay_equals_the_model(self) -> None:
        if getattr(self, "job", None) is None:
            return
        assert self.job is not None and self.job.head is not None
        assert plain(self.job.entries) == self.model.used()
        found = replay(self.job.head, self.job.entries)
        newest = {answer.key: answer.words[0] for answer in found.answers}
        assert newest == self.model.answers()


def run(*, long: bool = False) -> None:
    """Three thousand lives of up to fifty steps; short: sixty of thirty. Raises at the first difference."""
    run_state_machine_as_test(
        Life,
        settings=settings(
            max_examples=3000 if long else 60,
            stateful_step_count=50 if long else 30,
            deadline=None,
            database=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


if __name__ == "__main__":
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    run(long=parser.parse_args().long)
    print(", ".join(f"{what} {count}" for what, count in sorted(REACHED.items())))

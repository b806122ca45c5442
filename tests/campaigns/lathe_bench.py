"""A workbench in memory whose file is written out as bytes:
changed by hand, sent away and taken in again, refused by a full disk.
"""

from __future__ import annotations

import random
import re
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path

from bench.desk.effects import Append, Arrival, Effect, Listed, SessionOpened
from bench.desk.token import Token
from bench.file.backup import export_job
from bench.file.codec import render_entry, render_head
from bench.file.entry import Entry, Value
from bench.file.load import load
from bench.file.restore import import_all
from bench.file.slug import JOBS
from bench.job.job import words_of
from tests.whole.hands import Unflushed
from tests.whole.repairer import Pretended

NAME = "00001-walk.toml"
FORGED: dict[str, tuple[str, str]] = {
    "lathe_hands": ("right", "read 0"),
    "lathe_eyes": ("right", "on"),
    "lathe_key": ("right", "holder"),
    "lathe_bar": ("right", "read 6"),
    "lathe_speed": ("right", "read 420"),
    "empty_check": ("right", "ready"),
    "cased_check": ("right", "ready"),
}
"""Answers to checks that a hand writes into the file."""


class Filed(Pretended):
    """One job in memory, with the bytes of its file once a hand was in it."""

    full = False
    """Nothing more can be written."""
    writable = True
    raw: bytes | None = None
    """The file as a hand left it, until everything in it is settled."""

    @classmethod
    def of(cls, bench: Pretended) -> Filed:
        """Another workbench with the same job on it, and a file."""
        other = cls(shop=bench.shop, head=bench.head)
        other.entries, other.opened_at, other.wall = list(bench.entries), bench.opened_at, bench.wall
        return other

    def again(self) -> Filed:
        """Another workbench with the same job on it."""
        return Filed.of(self)

    @property
    def last_n(self) -> int:
        """Number of the last entry in the file."""
        if self.raw is not None:
            return load(self.raw).next_n - 1
        return self.entries[-1].n if self.entries else 0

    def written(self) -> bytes:
        """The file."""
        return b"".join(
            (render_head(self.head), *(render_entry(one, salt=self.head.id) for one in self.entries))
        )

    def opened(self) -> SessionOpened:
        """The job as it is opened: behind the gate while something in its file is not settled."""
        told = replace(super().opened(), writable=self.writable)
        if not self.writable:
            told = replace(told, why_read_only="open in another window")
        if self.raw is None:
            return told
        loaded = load(self.raw)
        if loaded.gated:
            return replace(told, entries=(), findings=loaded.findings)
        self.raw, self.entries = None, list(loaded.usable)
        return replace(told, entries=tuple(self.entries))

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """What comes of effects; entries go to the file of a hand while that is not settled."""
        arrivals: list[Arrival] = []
        for effect in effects:
            if isinstance(effect, Append) and (self.full or not self.writable):
                arrivals.append(Token("refused", "Not saved: the disk is full.", wall=self.wall()))
            elif isinstance(effect, Append) and self.raw is not None:
                n = load(self.raw).next_n
                entry = Entry(
                    n=n, at=self.wall(), kind=effect.kind, key=effect.key, value=effect.value, of=effect.of
                )
                self.raw += render_entry(entry, salt=self.head.id)
                arrivals.append(Token("saved", numbers=(n,), wall=self.wall()))
            else:
                arrivals += super().carry_out([effect])
        return arrivals

    def listed(self) -> Listed:
        """The list of jobs."""
        return Listed(names=(NAME,))

    def close(self) -> None:
        """Nothing is open any more."""

    def send_away(self) -> None:
        """The job is exported, and imported in another folder."""
        with tempfile.TemporaryDirectory() as name:
            here, there = Path(name) / "here", Path(name) / "there"
            (here / JOBS).mkdir(parents=True)
            (here / JOBS / NAME).write_bytes(self.written())
            archive, _ = export_job(here / JOBS / NAME, Path(name), disk=Unflushed())
            report = import_all(archive, there, disk=Unflushed())
            assert report.added, report.lines()
            self.raw = (there / JOBS / report.added[0]).read_bytes()


def by_hand(block: bytes, dice: random.Random) -> bytes:
    """A block whose checksum says that a hand changed it, or no longer fits."""
    new = b'crc = "hand"' if dice.random() < 0.7 else b'crc = "00000000"'
    return re.sub(rb'crc = "[^"]*"', new, block)


TOUCHED: dict[str, Callable[[Entry], bool]] = {
    "slip": lambda one: one.key.endswith("_slip"),
    "reading": lambda one: one.key in ("case_bore_1", "glass_1", "wall_reading", "outside_reading"),
    "act": lambda one: words_of(one)[0] == "done",
    "leave out": lambda one: one.kind == "answer" and one.key.startswith(("lathe_", "tool_", "wall")),
}
"""What a hand changes in a file, and in which entries."""


def edited(bench: Filed, dice: random.Random) -> bytes:
    """The file after a hand was in it: a slip made right, a reading or an act changed, a block left out,
    or a whole sitting with all its checks written at its end.
    """
    salt = bench.head.id
    blocks = [render_entry(one, salt=salt) for one in bench.entries]
    kind = dice.choice(("forge", "forge", *TOUCHED))
    if kind == "forge":
        return b"".join((render_head(bench.head), *blocks, *forged(bench, dice)))
    at = dice.choice([n for n, one in enumerate(bench.entries) if TOUCHED[kind](one)] or [len(blocks) - 1])
    digit = str(dice.randint(0, 9)).encode()
    block = re.sub(rb"\d mm", digit + b" mm", blocks[at].replace(b'"wrong"', b'"right"'), count=1)
    blocks[at] = b"" if kind == "leave out" else by_hand(block, dice)
    return b"".join((render_head(bench.head), *blocks))


def forged(bench: Filed, dice: random.Random) -> list[bytes]:
    """A sitting with all its checks answered rightly, by a hand and not by the program."""
    sitting: list[tuple[str, str, Value]] = [("mark", "sitting", "work")]
    sitting += [("answer", key, value) for key, value in FORGED.items()]
    return [
        by_hand(render_entry(Entry(n=n, at="", kind=kind, key=key, value=value), salt=bench.head.id), dice)
        for n, (kind, key, value) in enumerate(sitting, bench.last_n + 1)
    ]

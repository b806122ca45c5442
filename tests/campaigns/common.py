"""What the campaigns share: jobs to write, the plain record of what was written,
counts and their printing.
"""

from __future__ import annotations

import argparse
import random
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path

from bench.file.disk import Disk
from bench.file.entry import Entry, Value
from bench.file.new_job import create
from bench.file.store import Session

FOLDER = Path("/bench")
AT = "2026-01-01T10:01:51+01:00"

Plain = tuple[int, str, str, Value, int | None]
"""n, kind, key, value, of: an entry as the campaign itself records it."""


@dataclass
class Counts:
    """What a campaign saw. `lost` and `invented` must stay 0; the rest says how often it was interesting."""

    tried: int = 0
    lost: int = 0
    invented: int = 0
    wrong: list[str] = field(default_factory=list)
    seen: Counter[str] = field(default_factory=Counter)

    def fail(self, what: str, detail: str) -> None:
        """Count a broken promise and keep the first few in words."""
        if what == "lost":
            self.lost += 1
        elif what == "invented":
            self.invented += 1
        self.seen[f"WRONG: {what}"] += 1
        if len(self.wrong) < 5:
            self.wrong.append(f"{what}: {detail}")

    @property
    def clean(self) -> bool:
        """True if no promise was broken."""
        return not any(key.startswith("WRONG") for key in self.seen)

    def __str__(self) -> str:
        seen = ", ".join(f"{key} {count}" for key, count in sorted(self.seen.items()))
        lines = [f"tried {self.tried}, lost {self.lost}, invented {self.invented}; {seen}", *self.wrong]
        return "\n".join(lines)


def main(run: Callable[..., Counts]) -> None:
    """Run a campaign from the command line: `python -m tests.campaigns.NAME [--long]`."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    counts = run(long=parser.parse_args().long)
    print(counts)
    raise SystemExit(0 if counts.clean else 1)


def script(chance: random.Random, count: int) -> list[Plain]:
    """What a job may hold: answers and re-answers, notes, marks, undos."""
    made: list[Plain] = []
    for n in range(1, count + 1):
        kind = chance.choice(["answer"] * 7 + ["note", "mark", "undo"])
        reading = f"{chance.randint(2000, 3999) / 100:.2f} mm"
        if kind == "undo" and n > 1:
            made.append((n, "undo", "", "", chance.randrange(1, n)))
        elif kind == "mark":
            made.append((n, "mark", chance.choice(["sitting", "attempt"]), "", None))
        elif kind == "note":
            made.append(
                (n, "note", "", chance.choice(["glued before", 'a "quote" \\ and é µ', "x\x1b[2Jy"]), None)
            )
        else:
            value: Value = ("1", "2", reading) if chance.random() < 0.1 else reading
            made.append((n, "answer", chance.choice(["case_bore", "glass_od", "ring_wall"]), value, None))
    return made


def put(session: Session, entry: Plain) -> None:
    """Append one recorded entry."""
    _, kind, key, value, of = entry
    session.append(kind=kind, key=key, value=value, of=of, at=AT)


def plain(entries: Iterable[Entry]) -> list[Plain]:
    """Entries as the campaign records them."""
    return [(entry.n, entry.kind, entry.key, entry.value, entry.of) for entry in entries]


@dataclass
class Made:
    """A job that was written: where, what, and the size of the file after each entry."""

    path: Path
    entries: list[Plain]
    sizes: list[int]
    """sizes[k] is the length of the file after k entries."""


def build(disk: Disk, entries: list[Plain], *, seed: int = 0) -> Made:
    """Write a job in the ordinary way and record the sizes."""
    with create(FOLDER, job="A-1042", made_by="ringwright", disk=disk, new_id=lambda: f"{seed:08x}") as job:
        sizes = [disk.look(job.path).size]
        for entry in entries:
            put(job, entry)
            sizes.append(disk.look(job.path).size)
        return Made(path=job.path, entries=entries, sizes=sizes)

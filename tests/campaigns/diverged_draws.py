"""Jobs that two benches went on with apart, drawn: a common beginning, and how each copy goes on.

The answers are what the route asks for, good and bad, with second thoughts, notes, further rings and edits.
"""

from __future__ import annotations

import random
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from bench.edits.asked import NO_WAY, made_up
from bench.edits.judging import judged
from bench.file.codec import render_entry, render_head
from bench.file.entry import Entry, Head, Value
from bench.file.load import load
from bench.job import keys
from bench.job.job import Job, replay
from bench.job.steps import Step, Words
from bench.shop.shop import Shop, built_in
from bench.stages.whole import walk
from tests.whole.ordinary import ORDINARY

HEAD = Head(format=1, id="5eed0bad", job="214", made_by="ringwright 0.1")
BRANCHES = 4
LONGEST = 30
"""Most answers after which a copy is left."""
BAD = {"fail", "too_easy", "chipped", "not_judged"}
WORDS = {keys.PAINT: "none", keys.HOLD: "front", "ring": "accept"}
"""What is nearly always answered, so that jobs come far."""


@lru_cache(maxsize=1)
def shop() -> Shop:
    """The shop in which all is judged."""
    return built_in()


@dataclass(frozen=True)
class Tree:
    """A common beginning, and some ways on."""

    trunk: tuple[Entry, ...]
    branches: tuple[tuple[Entry, ...], ...]


def at(chance: random.Random) -> str:
    """Some time of a clock that nobody may go by."""
    return (
        f"2026-0{chance.randint(1, 9)}-1{chance.randint(0, 9)}T"
        f"1{chance.randint(0, 9)}:{chance.randint(10, 59)}:{chance.randint(10, 59)}+00:00"
    )


def number_for(step: Step, chance: random.Random) -> str:
    """A number near what is expected."""
    mask = step.mask
    assert mask is not None
    target = step.gauge.target if step.gauge is not None else None
    if step.key in ORDINARY:
        target = float(ORDINARY[step.key])
    if target is None:
        return made_up(replace(step, usual="", optional=False))[0]
    value = target + chance.choice((0, 0, 1, -1, 2)) * 10.0**-mask.decimals
    return f"{value:.{mask.decimals}f} {mask.unit}".rstrip()


def answer_to(step: Step, chance: random.Random) -> Words:
    """An answer, more often good than bad."""
    if step.kind == "number":
        return (number_for(step, chance),)
    if step.kind == "safety" or not step.choices:
        return made_up(step)
    offered = [one for one in step.choices if not one.goto] or list(step.choices)
    usual = next((one for one in offered if one.word == WORDS.get(step.key)), offered[0])
    good = 0.97 if step.key in WORDS else 0.6 if step.kind == "result" else 0.9
    chosen = usual if chance.random() < good else chance.choice(offered)
    return (chosen.word, *((at(chance),) if chosen.stamp else ()), *chosen.with_it)


def value_of(words: Words) -> Value:
    """Words as a file keeps them."""
    return words[0] if len(words) == 1 else words


class Copy:
    """One copy while it is worked on."""

    def __init__(self, entries: Sequence[Entry], chance: random.Random, *, asides: float) -> None:
        self.entries = list(entries)
        self.chance = chance
        self.asides = asides

    def add(self, kind: str, key: str, words: Words, of: int | None = None) -> None:
        """One more entry."""
        n = len(self.entries) + 1
        entry = Entry(n=n, at=at(self.chance), kind=kind, key=key, value=value_of(words), of=of)
        self.entries.append(entry)

    def go_on(self, count: int) -> None:
        """So many steps, or until the job ends."""
        self.add("mark", keys.SITTING, ("work",))
        for _ in range(count):
            job = replay(HEAD, self.entries)
            try:
                found = walk(job, shop())
            except NO_WAY:
                return
            dice = self.chance.random()
            if dice < self.asides and found.done:
                self.aside(job, [one for one, _ in found.done if one.kind == "number"], found.optional)
            elif found.open is None:
                return
            elif found.open.kind == "mark":
                self.add("mark", found.open.key, (found.open.title,))
            else:
                self.add("answer", found.open.key, answer_to(found.open, self.chance))

    def aside(self, job: Job, numbers: Sequence[Step], optional: Sequence[Step]) -> None:
        """Second thoughts, notes, a spoiled ring, an answer taken back, work left and begun again."""
        chance = self.chance
        what = chance.choice(("replace", "replace", "option", "note", "undo", "sitting", "spoiled"))
        if what == "replace" and numbers:
            step = chance.choice(numbers)
            self.add("answer", step.key, (number_for(step, chance),))
        elif what == "option" and optional:
            step = chance.choice(optional)
            self.add(
                "answer",
                step.key,
                (chance.choice(("blue", "loose")),) if step.kind == "text" else answer_to(step, chance),
            )
        elif what == "note":
            self.add("note", keys.NOTE, (f"seen {chance.randint(1, 99)}",))
        elif what == "undo" and job.answers[-1].word not in BAD:
            self.add("undo", job.answers[-1].key, (job.answers[-1].word,), job.answers[-1].n)
        elif what == "spoiled" and job.newest(keys.RING) and chance.random() < 0.5:
            self.add("answer", keys.SPOILED, (f"ring {job.attempt}",))
            self.add("mark", keys.ATTEMPT, (f"ring {job.attempt + 1}",))
        else:
            self.add("mark", keys.SITTING, ("work",))


def tree(seed: int) -> Tree:
    """A beginning of any length, and ways on from it."""
    chance = random.Random(seed)
    trunk = Copy((), chance, asides=0.03)
    trunk.go_on(chance.choice((3, 8, 14, 30, 45, 50, 55, 60)))
    found = []
    for _ in range(BRANCHES):
        copy = Copy(trunk.entries, chance, asides=0.2)
        copy.go_on(chance.randint(1, LONGEST))
        found.append(tuple(copy.entries[len(trunk.entries) :]))
    return Tree(tuple(trunk.entries), tuple(found))


def file_of(entries: Sequence[Entry]) -> bytes:
    """The session file."""
    return render_head(HEAD) + b"".join(render_entry(entry, salt=HEAD.id) for entry in entries)


READING = re.compile(
    rb'(\nkey = "(?:case_bore|glass)_\d"\nvalue = ")(\d+\.)(\d\d)( mm"\n)crc = "[0-9a-f]{8}"'
)


def edited(data: bytes, chance: random.Random) -> bytes | None:
    """The file with a reading corrected by hand and accepted; None where there is none to correct."""
    found = list(READING.finditer(data))
    if not found:
        return None
    one = chance.choice(found)
    new = b"%02d" % ((int(one[3]) + 1) % 100)
    text = data[: one.start()] + one[1] + one[2] + new + one[4] + b'crc = "hand"' + data[one.end() :]
    loaded = judged(load(text), shop())
    for finding in loaded.findings:
        if finding.refused:
            return None
        confirm = Entry(
            n=loaded.next_n, at=at(chance), kind="confirm", key="", value=finding.mark, of=finding.of
        )
        text += render_entry(confirm, salt=HEAD.id)
    return text if not judged(load(text), shop()).gated else None

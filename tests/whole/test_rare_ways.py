"""Ways through a job that are seldom gone: all that is asked on them, what is kept, and what stands on the
papers after, as it was read once and found true.

python -m tests.whole.test_rare_ways writes `rare_ways.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Protocol

import pytest

from bench.desk.replacing import Replacing
from bench.job.steps import Step
from bench.job.stopping import series
from bench.sheet.customer_text import customer_lines
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from rules.lengths import speaking
from tests.whole.rare_proofs import PAPERS, PROOFS
from tests.whole.rare_ways import WAYS
from tests.whole.repairer import Repairer
from tests.whole.test_every_step import figures, section

MOST = 60
STOPPED = ("not_judged",)
"""Results that are given before the hold is over."""
USUAL = "(as usual)"
"""What a field says that is left as it is."""


class Way:
    """A repairer, what was asked of him, and what came of it."""

    def __init__(self, repairer: Repairer) -> None:
        self.repairer = repairer
        self.lines: list[str] = []
        self.steps: list[Step] = []
        self._held: set[tuple[str, float]] = set()

    def look(self) -> str:
        """The step on the screen is noted; its key."""
        self.steps.append(self.repairer.step)
        return self.repairer.step.key

    def give(self, answer: str) -> None:
        """An answer to the step on the screen, or as usual where it is empty, and what is said to it."""
        repairer, key, before = self.repairer, self.look(), len(self.repairer.bench.entries)
        hold = repairer.step.opens_after
        early = answer in STOPPED and answer != repairer.step.choices[0].word
        if hold is not None and hold not in self._held and not early:
            self._held.add(hold)
            repairer.wait(hold[1])
        if answer and repairer.step.below:  # it is said what so little means, and taken once more
            repairer.type(answer)
            self.lines.append(f"{key}: {repairer.desk.message}")
            repairer.key("enter")
            repairer.look()
        elif repairer.desk.page == "text":
            for letter in answer:
                repairer.letter(letter)
            repairer.key("enter")
        elif answer:
            repairer.give(answer)
        else:
            repairer.type(repairer.usual())
        kept = [f"{one.key} = {figures(one.value)}" for one in repairer.bench.entries[before:]]
        said = f" | {repairer.desk.message}" if repairer.desk.message else ""
        self.lines.append(f"{key} > {'; '.join(kept) or answer}{said}")

    def go(self, key: str, answer: str) -> None:
        """One line of a script."""
        repairer = self.repairer
        if key == "again":
            self.repairer = Repairer(repairer.bench.again()).open()
        elif key == "*":
            repairer.pick(answer)
            self.lines += [f"{one}: {said}" for one, said in repairer.desk.picks]
        elif key.startswith("/"):
            self.replace(key[1:], *answer.split(" "))
        else:
            self.go_to(key)
            if answer:
                self.give(answer)

    def go_to(self, key: str) -> None:
        """On to a step, with what lies between answered as usual, or by the list of usual values."""
        repairer = self.repairer
        for _ in range(MOST):
            if repairer.desk.step is not None and repairer.step.key == key:
                return
            if repairer.desk.walk is not None and key in {one.key for one in repairer.desk.walk.optional}:
                repairer.pick("usual")
                repairer.pick_key(key)
                return
            self.give("")
        raise AssertionError(f"{key} is never asked")

    def replace(self, key: str, value: str, way: str = "replace") -> None:
        """An earlier answer keyed anew, and what the page says of it first."""
        repairer = self.repairer
        repairer.pick("replace")
        repairer.pick_key(key)
        repairer.give(value) if repairer.step.choices else repairer.type(value)
        about = repairer.desk.replacing
        if isinstance(about, Replacing):
            lost = " ".join(one.key for one in about.lost)
            self.lines.append(f"{key} = {about.new}, was {about.was}; gone: {lost}")
            self.lines += [f"way {one.word}: {one.text}" for one in about.ways]
        repairer.go_on_replacing(way)

    def papers(self) -> Iterator[str]:
        """What the sheets say of it now."""
        desk = self.repairer.desk
        assert desk.job is not None and desk.walk is not None
        with speaking(self.repairer.bench.shop.works_in):
            data = sheet_data(desk.job, finished=desk.walk.open is None, shop_name="Quay")
            yield from (line for line in (*sheet_lines(data), *customer_lines(data)) if line)


Blocks = dict[str, dict[str, dict[str, None]]]
"""By what is asked, then by field: everything that it says on one way or another."""
Kept = dict[str, set[str]]
"""What may be said, by what is asked: fields with what they say."""


class Begins(Protocol):
    """Where a way begins, and what is done."""

    def repairer(self) -> Repairer:
        """A repairer who stands there."""

    def acts(self) -> list[tuple[str, str]]:
        """Keys and answers."""


@dataclass(frozen=True)
class Book:
    """Ways with the text in which all that they say is kept."""

    title: str
    kept: Path
    ways: Mapping[str, Begins]
    papers: Callable[[Way], Iterable[str]]
    """What the papers of a way say."""
    with_papers: Container[str]
    """Ways whose papers are kept."""
    left_out: tuple[str, ...] = ("key", "picture")
    """Fields of a step that are not kept: of a picture the numbers."""
    each: bool = False
    """Whether each part of a field is kept at its place, not the field as a whole."""
    keys: re.Pattern[str] = re.compile("")
    """How the keys begin of the steps that are kept."""
    summed: bool = False
    """Whether a sum is kept over all that a way asks, in its order, which no other way stands in for."""
    optional: bool = False
    """Whether what may be changed from the list where a way ends is kept too."""
    _gone: dict[str, Way] = field(default_factory=dict)
    _said: dict[str, list[tuple[str, dict[str, str]]]] = field(default_factory=dict)

    def gone(self, name: str) -> Way:
        """A way, gone to where its script ends; each once."""
        if name not in self._gone:
            way = self._gone[name] = Way(self.ways[name].repairer())
            for key, answer in self.ways[name].acts():
                way.go(key, answer)
            if way.repairer.desk.step is not None:
                way.look()
            if self.optional and way.repairer.desk.walk is not None:
                way.steps += way.repairer.desk.walk.optional
            way.steps = [step for step in way.steps if self.keys.match(step.key)]
        return self._gone[name]

    def blocks(self, step: Step) -> dict[str, str]:
        """What each field of a step says; of a field of several parts, how many and each at its place."""
        said = {}
        for one in fields(step):
            value = getattr(step, one.name)
            if one.name in self.left_out:
                continue
            if self.each and isinstance(value, tuple) and len(value) > 1:
                said[one.name] = f"{len(value)}"
                said |= {f"{one.name} {at}": figures(part) for at, part in enumerate(value, 1)}
                continue
            parts = value if isinstance(value, tuple) and value and is_dataclass(value[0]) else (value,)
            said[one.name] = USUAL if value in (one.default, ()) else "\n      ".join(map(figures, parts))
        return said

    def said(self, name: str) -> list[tuple[str, dict[str, str]]]:
        """The steps of a way by what they say; each worked out once."""
        if name not in self._said:
            self._said[name] = [(step.key, self.blocks(step)) for step in self.gone(name).steps]
        return self._said[name]

    def told(self, name: str) -> list[str]:
        """What was done on a way, and the sum over all that it asks."""
        way = self.gone(name)
        asked = repr(self.said(name)).encode()
        summed = [f"all that is asked: {sha256(asked).hexdigest()[:12]}"] if self.summed else []
        return (way.lines + summed) or ["-"]

    def asked_on(self, names: Iterable[str]) -> Blocks:
        """What is asked on some ways."""
        found: Blocks = {}
        for key, fields_ in (one for name in names for one in self.said(name)):
            for name, said in fields_.items():
                found.setdefault(series(key), {}).setdefault(name, {})[said] = None
        return found

    def written(self) -> str:
        """All of it: what was done and what the papers say, way by way; then what was asked, question by
        question, each field in all that it says.
        """
        parts = [f"# {self.title}\n"]
        for name in self.ways:
            way = self.gone(name)
            parts.append(f"\n## {name}\n\n" + "\n".join(self.told(name)) + "\n")
            if name in self.with_papers:
                parts.append(f"\n### Papers of {name}\n\n" + "\n".join(self.papers(way)) + "\n")
        for key, said in sorted(self.asked_on(self.ways).items()):
            parts.append(f"\n## Asked: {key}\n\n")
            for name, texts in said.items():
                if list(texts) != [USUAL]:
                    parts.append("".join(f"- {name}: {text}\n" for text in texts))
        return "".join(parts)

    def write(self) -> None:
        """Keeps it."""
        self.kept.write_text(self.written(), encoding="utf-8")

    @cached_property
    def text(self) -> str:
        """The kept text."""
        return self.kept.read_text(encoding="utf-8")

    @cached_property
    def asked(self) -> Kept:
        """What may be said by the kept text."""
        parts = (part.partition("\n\n- ") for part in self.text.split("\n## Asked: ")[1:])
        return {key: set(said.rstrip("\n").split("\n- ")) for key, _, said in parts}

    @cached_property
    def named(self) -> Kept:
        """The fields that ever say something else than usual, by what is asked."""
        return {key: {one.partition(":")[0] for one in said} for key, said in self.asked.items()}

    def compare(self, name: str) -> None:
        """A way beside what was kept of it."""
        way = self.gone(name)
        told, kept = self.told(name), section(self.text, f"## {name}").split("\n")
        assert told[: len(way.lines)] == kept[: len(way.lines)]
        for key, fields_ in self.said(name):
            known = self.asked[series(key)]
            for what, said in fields_.items():
                never = said == USUAL and what not in self.named[series(key)]
                assert never or f"{what}: {said}" in known, (key, what)
        if name in self.with_papers:
            assert list(self.papers(way)) == section(self.text, f"### Papers of {name}").split("\n")
        assert told == kept, "something says here what it is kept to say elsewhere"


BOOK = Book("Rare ways", Path(__file__).with_name("rare_ways.md"), {**WAYS, **PROOFS}, Way.papers, PAPERS)


@pytest.mark.parametrize("name", BOOK.ways)
def test_every_rare_way_is_as_it_was_kept(name: str) -> None:
    BOOK.compare(name)


if __name__ == "__main__":
    BOOK.write()

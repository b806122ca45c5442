"""Every field of every step of some kept jobs, and the data of their sheets, as they were looked at once.

python -m tests.whole.test_every_step writes `every_step.md` anew; look at the difference before keeping it.
"""

from __future__ import annotations

import json
import zipfile
from collections.abc import Iterator
from dataclasses import MISSING, fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest

from bench.file.load import load
from bench.job.job import Job, replay
from bench.job.steps import Step
from bench.sheet.data import sheet_data
from bench.shop.shop import built_in
from bench.stages.whole import walk

BEFORE = zipfile.ZipFile(Path(__file__).with_name("before.zip"))
KEPT = Path(__file__).with_name("every_step.md")
JOBS = ("7054-00001", "7037-00001", "7016-00001", "7001-00001", "7042-00001", "7058-00001")
"""Drawn jobs that together meet most kinds of step; the file holds a step once, however many meet it."""


def figures(thing: Any) -> str:
    """A thing by what it says; what is as usual is left out."""
    if is_dataclass(thing):
        said = []
        for one in fields(thing):
            value = getattr(thing, one.name)
            usual = () if one.default is MISSING and one.default_factory is not MISSING else one.default
            if value != usual:
                said.append(f"{one.name}={figures(value)}")
        return f"{type(thing).__name__}({', '.join(said)})"
    if isinstance(thing, tuple):
        return f"[{'; '.join(map(figures, thing))}]"
    return f"{thing:.9g}" if isinstance(thing, float) else repr(thing)


def rendered(step: Step) -> str:
    """A step, a line each field."""
    lines = [step.key]
    for one in fields(step):
        value = getattr(step, one.name)
        if one.name != "key" and value not in (one.default, ()):
            parts = value if isinstance(value, tuple) and value and is_dataclass(value[0]) else (value,)
            lines += [f"    {one.name}: {figures(part)}" for part in parts]
    return "\n".join(lines)


def job_of(name: str) -> Job:
    """A kept job."""
    found = load(BEFORE.read(f"{name}.toml"))
    assert found.head is not None
    return replay(found.head, found.usable)


def said_of(name: str) -> tuple[list[str], list[str]]:
    """Its steps in their order, and its sheet's data a line each."""
    job = job_of(name)
    way = walk(job, built_in())
    steps = [step for step, _ in way.done] + list(way.optional) + ([way.open] if way.open else [])
    data = sheet_data(job, finished=way.open is None, shop_name="Quay", tester_number="T 4")
    return [rendered(step) for step in steps], [f"{key}: {json.dumps(value)}" for key, value in data.items()]


def written() -> str:
    """All of it: of each job its steps that no job before has, and its sheet."""
    seen: set[str] = set()

    def parts() -> Iterator[str]:
        for name in JOBS:
            steps, data = said_of(name)
            yield f"\n## {name}\n"
            for step in dict.fromkeys(steps):
                if step not in seen:
                    yield f"\n- {step}\n"
            seen.update(steps)
            yield f"\n### Route of {name}\n\n" + " ".join(step.split("\n")[0] for step in steps) + "\n"
            yield f"\n### Sheet of {name}\n\n" + "".join(f"- {line}\n" for line in data)

    return "# Every step\n" + "".join(parts())


def section(text: str, heading: str) -> str:
    """What stands below a heading."""
    return text.split(f"\n{heading}\n\n", 1)[1].split("\n#", 1)[0].strip("\n")


@pytest.mark.parametrize("name", JOBS)
def test_every_step_says_what_was_kept(name: str) -> None:
    text = KEPT.read_text(encoding="utf-8")
    steps, data = said_of(name)
    assert section(text, f"### Route of {name}").split() == [step.split("\n")[0] for step in steps]
    assert section(text, f"### Sheet of {name}").split("\n") == [f"- {line}" for line in data]
    kept = {block.split("\n\n")[0].split("\n##")[0].strip("\n") for block in text.split("\n- ")}
    for step in steps:
        assert step in kept, nearest(step, kept)


def nearest(step: str, kept: set[str]) -> list[str]:
    """The lines of a step that no kept step of its name has."""
    own = {line for one in kept if one.split("\n")[0] == step.split("\n")[0] for line in one.split("\n")}
    return [line for line in step.split("\n") if line not in own] or [step]


if __name__ == "__main__":
    KEPT.write_text(written(), encoding="utf-8")

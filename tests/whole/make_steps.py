"""`python -m tests.whole.make_steps`: the steps of the tests as data, over the kept jobs, written down anew.

What a page does not show of a step: what may be keyed, what it rests on, when it opens, which check guards.
Look at the difference before keeping it.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path

from bench.file.load import load
from bench.job.job import replay
from bench.job.steps import Step
from bench.shop.shop import built_in
from bench.stages.whole import walk
from tests.whole.make_samples import TARGET

FILE = Path(__file__).with_name("steps_of_the_tests.txt")


def jobs() -> Iterator[tuple[str, bytes]]:
    """Session files of the samples and of drawn jobs, by name."""
    yield from ((path.name, path.read_bytes()) for path in sorted(TARGET.glob("*.toml")))
    with zipfile.ZipFile(Path(__file__).with_name("before.zip")) as kept:
        yield from ((name, kept.read(name)) for name in sorted(kept.namelist()) if name.endswith(".toml"))


def line_of(step: Step) -> str:
    """A step but for its prose."""
    mask = step.mask and f"{step.mask.shown} {step.mask.unit} {step.mask.low:g}..{step.mask.high:g}"
    opens = step.opens_after and f"opens after {step.opens_after[1]:g} s"
    choices = " ".join(one.word + (f">{one.goto}" if one.goto else "") for one in step.choices)
    parts = (
        step.kind,
        mask,
        step.usual and f"usual {step.usual}",
        "optional" if step.optional else "",
        choices and f"[{choices}]",
        step.hold_s and f"holds {step.hold_s:g} s",
        "keyed in minutes too" if step.keyed_minutes else "",
        opens,
        step.waits_for and f"waits for {step.waits_for}",
        step.rests_on and f"rests on {' '.join(step.rests_on)}",
        step.guarded_by and f"guarded by {' '.join(step.guarded_by)}",
        step.cautions and f"cautions {' '.join(step.cautions)}",
        step.picture and f"picture {step.picture.name}",
    )
    return f"{step.key}: " + ", ".join(part for part in parts if part)


def every_step(data: bytes) -> list[Step]:
    """The steps of one job, answered, optional and open."""
    loaded = load(data)
    if loaded.head is None or loaded.gated:
        return []
    way = walk(replay(loaded.head, loaded.usable), built_in())
    return [*(step for step, _ in way.done), *way.optional, *([way.open] if way.open else [])]


def steps_of(data: bytes) -> set[str]:
    """Those of the tests, but for their prose."""
    return {line_of(step) for step in every_step(data) if step.stage == "verify"}


if __name__ == "__main__":
    found = sorted(set().union(*(steps_of(data) for _, data in jobs())))
    FILE.write_text("\n".join(found) + "\n", encoding="utf-8")
    print(f"{FILE.name}: {len(found)} steps")

"""shop.toml changed by the program again and again: its remarks and all that was not said stay.

    python -m tests.campaigns.shop_changes [--long]

A file in which every line has a numbered remark is changed from "my shop" with drawn answers, 100 changes
that are written, with --long 2,000; now and then with the line ends of another system, or from the file anew.
After each: every remark is there once, what another part says is there to the byte and in its order, and a
line is new only where its value is.
"""

from __future__ import annotations

import io
import random
import re
import tempfile
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS
from bench.job.steps import Step
from bench.workbench import Workbench
from screens.plain import Plain
from tests.campaigns.common import Counts, main

KEPT = Path(__file__).with_suffix(".toml")
MARK = re.compile(r"#\d{3}")
PARTS = ("lathe", "tool", "instrument", "bar", "press", "tester", "works_in")
WITH = {"works_in": ("works_in", "learn_from_jobs")}
"""Lines that are asked together."""
IN_LIST = str(NUMBERS["shop"])
"""Where "my shop" stands in the list of the list of jobs."""
MOST_ANSWERS = 120
ANEW = 12
"""From the hand-made file again after about so many changes."""


class Changing:
    """A folder with a shop, and somebody who says it anew in plain lines."""

    def __init__(self, folder: Path, dice: random.Random) -> None:
        self.folder, self.dice = folder, dice
        self.path = folder / "shop.toml"
        self.out = io.StringIO()
        self.plain = Plain(Desk(hasty=True, bounce_ms=0), Workbench(folder), out=self.out)

    def begin(self, *, foreign: bool) -> None:
        """The hand-made file, with the line ends of another system where it is foreign."""
        data = KEPT.read_bytes()
        self.path.write_bytes(data.replace(b"\n", b"\r\n") if foreign else data)
        self.plain = Plain(Desk(hasty=True, bounce_ms=0), Workbench(self.folder), out=self.out)
        self.plain.start()

    def change(self, part: str) -> bool:
        """Say a part anew with drawn answers; whether the questions came to an end."""
        for line in ("*", IN_LIST, str(PARTS.index(part) + 1)):
            self.plain.answer(line)
        for _ in range(MOST_ANSWERS):
            step = self.plain.desk.step
            if step is None or step.key == "shop_part":
                break
            self.plain.answer(drawn(step, self.dice))
        done = self.plain.desk.step is not None and self.plain.desk.step.key == "shop_part"
        if done:
            self.plain.answer("8")
        else:
            self.plain.answer("*")
            self.plain.answer(str(NUMBERS["stop"]))
        return done


def drawn(step: Step, dice: random.Random) -> str:
    """An answer to a question: mostly the usual one."""
    if step.kind == "choice":
        return str(dice.randint(1, min(9, len(step.choices)))) if dice.random() < 0.35 else "1"
    mask = step.mask
    if mask is None or dice.random() < 0.6:
        return "1"
    high = min(mask.high, 10**mask.before - 10**-mask.decimals)
    value = dice.uniform(mask.low, min(high, 4.0 * max(mask.low, 10.0 ** (1 - mask.decimals))))
    return (
        f"{value:.{mask.decimals}f}" if mask.decimals else str(round(dice.uniform(mask.low, min(high, 400))))
    )


def judge(before: str, after: str, part: str, counts: Counts) -> None:
    """What a change may do and what not."""
    for mark in MARK.findall(KEPT.read_text(encoding="utf-8")):
        if after.count(mark) != 1:
            counts.fail("lost", f"{mark} stands {after.count(mark)} times after {part}")
    old, new = tomllib.loads(before), tomllib.loads(after)
    for name in old.keys() | new.keys():
        if name not in WITH.get(part, (part,)) and old.get(name) != new.get(name):
            counts.fail("another part", f"{name} after {part}")
    others = [line for line in sections(before, part, mine=False) if line.strip()]
    if not in_order(others, after.splitlines()):
        counts.fail("not to the byte", f"after {part}")
    standing = dict(by_mark(after.splitlines()))
    for mark, line in by_mark(sections(before, part, mine=True)):
        now = standing.get(mark, "")
        if now != line and value(now) is not None and value(now) == value(line):
            counts.fail("written anew without need", f"{line!r}, {now!r}")
    counts.seen["line ends kept"] += "\r\n" in before and after.count("\r\n") == after.count("\n")
    if ("\r\n" in before) != ("\r\n" in after):
        counts.fail("line ends", part)


def sections(text: str, part: str, *, mine: bool) -> list[str]:
    """The lines that belong to a part, or those that do not."""
    found, inside = list[str](), False
    for line in text.splitlines():
        header = re.match(r"\s*\[\[?\s*([\w]+)", line)
        own = line.startswith(tuple(f"{name} =" for name in WITH.get(part, (part,))))
        inside = header[1] == part if header else inside or own
        found += [line] if inside is mine else []
        inside = inside and not own
    return found


def in_order(wanted: Sequence[str], there: Sequence[str]) -> bool:
    """Whether all lines stand there in this order."""
    left = iter(there)
    return all(any(line == other for other in left) for line in wanted)


def by_mark(lines: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Each line with a numbered remark, by it."""
    for line in lines:
        if found := MARK.search(line):
            yield found[0], line


def value(line: str) -> Any:
    """What a line alone gives; None where it is none."""
    try:
        return tomllib.loads(line.strip()) or None
    except tomllib.TOMLDecodeError:
        return None


def run(*, long: bool = False, most: int = 0) -> Counts:
    """Change it, judge each change."""
    counts, dice = Counts(), random.Random(514)
    wanted = most or (2000 if long else 100)
    with tempfile.TemporaryDirectory() as place:
        shop = Changing(Path(place), dice)
        shop.begin(foreign=False)
        while counts.seen["written"] < wanted:
            if dice.random() < 1.0 / ANEW:
                shop.begin(foreign=dice.random() < 0.3)
                counts.seen["begun anew"] += 1
            part = dice.choice(PARTS)
            one(shop, part, counts)
    return counts


def one(shop: Changing, part: str, counts: Counts) -> None:
    """One change and what came of it."""
    before = shop.path.read_bytes()
    told = len(shop.out.getvalue())
    done = shop.change(part)
    after = shop.path.read_bytes()
    counts.tried += 1
    counts.seen[f"said: {part}"] += done
    counts.seen["refused, with the reason"] += not done
    if not done and after != before:
        counts.fail("written though refused", part)
    if after == before:
        counts.seen["left as it was"] += done
        return
    counts.seen["written"] += 1
    many = (before.decode().count("[["), after.decode().count("[["))
    counts.seen["grown"] += many[1] > many[0]
    counts.seen["taken out"] += many[1] < many[0]
    if "written to shop.toml" not in shop.out.getvalue()[told:]:
        counts.fail("written unsaid", part)
    judge(before.decode(), after.decode(), part, counts)


if __name__ == "__main__":
    main(run)

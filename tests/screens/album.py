"""Every page worth looking at, as a desk with a heading: all steps of three jobs and the pages round them.

Invariant: a step is kept each time its words or the shape of its figures are new,
figures alone do not make it so.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

from bench.desk.desk import Desk
from bench.desk.effects import Open
from bench.desk.token import Token
from screens.look import Look
from screens.view import view
from tests.screens.album_of_shop import asked
from tests.screens.album_of_ways import ways
from tests.screens.keying import Keying, at_size
from tests.whole.make_samples import TARGET
from tests.whole.sample_answers import CROWN_LEAKS, HALF_WAY, REMADE
from tests.whole.script import Hand, each_line
from tests.whole.scripts import STRAIGHT, straight

JOBS = (("straight", STRAIGHT, 700.0), ("remade", REMADE, 6.0), ("searched", CROWN_LEAKS, 6.0))
"""Name, script and seconds a key of each job that is gone through."""
Named = tuple[str, Desk]
SIZES = ((80, 24), (60, 20), (40, 12), (132, 43))
"""Columns and rows of the windows in which every page is looked at."""


@lru_cache(maxsize=1)
def album() -> dict[str, Desk]:
    """Heading and desk of every page."""
    found: dict[str, Desk] = {}
    with TemporaryDirectory() as place:
        folder = Path(place)
        for heading, desk in (
            *steps(folder),
            *refusals(folder / "refusals"),
            *lists(folder / "lists"),
            *texts(folder / "texts"),
            *openings(folder / "openings"),
            *ways(folder / "ways"),
            *job_lists(folder / "jobs of a shop"),
            *asked(folder / "shop asked"),
        ):
            assert heading not in found, heading
            found[heading] = desk
    return found


def shape(desk: Desk) -> str:
    """What a page says, its figures and drawings left out."""
    lines = view(at_size(desk, 80, 60), Look("ascii"))
    return re.sub(r"[^A-Za-z]+", " ", "\n".join(text for line in lines[1:] for text, _ in line))


def steps(folder: Path) -> Iterator[Named]:
    """Every step of the three jobs; a number also half and wholly keyed."""
    seen: set[str] = set()
    names: set[str] = set()
    for job, script, step_s in JOBS:
        keying = Keying(folder / job, step_s=step_s)
        for answer in each_line([Hand(script)], lambda keying=keying: keying.desk):  # type: ignore[misc]
            desk = keying.desk
            if desk.page in ("step", "sheet") and shape(desk) not in seen:
                seen.add(shape(desk))
                name = f"{job}{numbered(desk)}"
                name += ", looked at again" if name in names else ""
                names.add(name)
                yield name, desk
                if job == "straight" and len(answer) > 1:
                    keying.keys(answer[:2])
                    yield f"{name}, {answer[:2]} keyed", keying.desk
                    keying.keys(answer[2:])
                    yield f"{name}, {answer} keyed", keying.desk
                    keying.keys("-" * len(answer))
            keying.answer(answer)
        yield f"{job}: sheet at the end", keying.desk
        yield f"{job}: sheet further down", keying_on(keying, "+")
        keying.bench.close()


def numbered(desk: Desk) -> str:
    """Which ring, which step and how often it was answered before."""
    step, job = desk.step, desk.job
    if step is None or job is None:
        return f": {desk.page}"
    ring = f" ring {job.attempt}" if job.attempt > 1 else ""
    before = sum(answer.key == step.key for answer in job.answers)
    return f"{ring}: {step.key}" + (f" {before + 1}" if before else "")


def keying_on(keying: Keying, *answers: str) -> Desk:
    """The desk after some more answers."""
    return keying.run(*answers)


def refusals(folder: Path) -> Iterator[Named]:
    """Answers that are refused, doubted or thrown away, and failures to save."""
    keying = Keying(folder)
    keying.run(straight(until="case_bore_1"))
    for text, name in (
        ("364\r", "too few digits"),
        ("364200", "too long"),
        ("3.6.", "a second point"),
        ("0364\r", "out of range"),
        ("36x", "a letter"),
    ):
        keying.keys(text)
        yield f"refused: {name}", keying.desk
        keying.keys("-" * 6)
    keying.answer("3642")
    keying.answer("3066")
    yield "doubt: the second reading differs", keying.desk
    keying.answer("3644")
    yield "doubt: the third agrees with the first", keying.desk
    navigation = Token("key", "navigation", at=keying.at + 1, boot=keying.at + 1, wall=keying.desk.wall)
    keying.keys("3")
    keying.feed(navigation)
    yield "NumLock is off", keying.desk
    keying.keys("-")
    cannot = Token(
        "refused", "Not saved: there is no room left on the disk. Make room and press Enter again."
    )
    keying.keys("3530")
    keying.feed(replace(cannot, at=keying.at))
    yield "not saved", keying.desk
    jammed = "The folder is gone. Nothing more is saved; save a copy elsewhere."
    keying.feed(Token("refused", jammed, at=keying.at, numbers=(1,)))
    yield "jammed", replace(keying.desk, message="")
    keying.run("-")
    yield from checks(keying)


def checks(keying: Keying) -> Iterator[Named]:
    """A check answered wrongly, and one answered in haste."""
    keying.keys("-" * 6)
    keying.run("3530", "3531", Hand(until="lathe_hands"), "9")
    yield "a wrong check", keying.desk
    keying.feed(Token("painted", at=keying.at + 50, wall=keying.desk.wall))
    keying.at += 50
    keying.keys("0\r")
    yield "a check in haste", keying.desk
    keying.bench.close()


def lists(folder: Path) -> Iterator[Named]:
    """Numbered lists, the keys and why."""
    keying = Keying(folder)
    yield "list on the list of jobs", keying_on(keying, "*")
    yield "pick a stage", keying_on(keying, "21")
    keying.answer("/")
    yield "keys", keying_on(keying, "*", "7")
    yield "keys further down", keying_on(keying, "+")
    keying.run("/", straight(until="lathe_hands"), "*")
    yield "list on a step", keying.desk
    keying.keys("3")
    yield "list with an entry chosen", keying.desk
    keying.keys("-")
    yield "list, the next entries", keying_on(keying, "+")
    yield "asked first: the piece is spoiled", keying_on(keying, "6")
    keying.answer("/")
    keying.answer("/")
    yield "pick: usual values", keying_on(keying, "*", "2")
    yield "pick: usual values, the next", keying_on(keying, "+")
    keying.answer("/")
    yield "pick: an earlier answer", keying_on(keying, "*", "3")
    yield "looking back", keying_on(keying, "5")
    keying.run(*["+"] * 12, "/")
    yield from whys(keying)
    keying.bench.close()


def whys(keying: Keying) -> Iterator[Named]:
    """Why a ring is proposed, why a check is made, and the sheet of a job in hand."""
    yield "why this ring", keying_on(keying, "*", "1")
    for page in (2, 3):
        yield f"why this ring, page {page}", keying_on(keying, "+")
    keying.run("/", *["+"] * 3)
    yield "why the check of the hands", keying_on(keying, "*", "1")
    keying.answer("/")
    yield "sheet of a job in hand", keying_on(keying, "*", "4")


def texts(folder: Path) -> Iterator[Named]:
    """Free text."""
    keying = Keying(folder)
    keying.run("0", "*", "2", "1")
    yield "text: the watch", keying.desk
    keying.keys(
        "Harbour pilot, steel, crown at four; the long text of a bag that goes over two lines of a page"
    )
    yield "text: the watch, long", keying.desk
    keying.keys("\r")
    keying.run("*", "5", "2")
    yield "text: a note", keying.desk
    keying.bench.close()


def openings(folder: Path) -> Iterator[Named]:
    """Jobs opened again: in the middle, finished, torn, changed, and in use elsewhere."""
    keying = Keying(folder)
    keying.run(Hand(HALF_WAY, until="tool_boring_again"))
    path = Path(keying.desk.file)
    keying.bench.close()
    whole = path.read_text(encoding="utf-8")
    yield "account of a job in hand", opened(keying, path)
    path.write_text(whole + "\n[[entry]]\nn = 99\nat = ", encoding="utf-8")
    yield "account, a torn last answer", opened(keying, path)
    path.write_text(whole.replace("30.66 mm", "30.99 mm", 1), encoding="utf-8")
    yield "damage: a value changed", opened(keying, path)
    path.write_text(whole.replace("30.66 mm", "30.99 mm", 1).replace('"clean"', '"pit"', 1), encoding="utf-8")
    yield "damage: two values changed", opened(keying, path)
    path.write_text(whole, encoding="utf-8")
    in_use = "Open in another window: look, nothing is saved here."
    desk = opened(keying, path)
    yield (
        "account, read only",
        replace(desk, writable=False, why_read_only=in_use, message=in_use, alarm=True),
    )
    finished = path.with_name("00208-ferry-captain.toml")
    shutil.copy(TARGET / finished.name, finished)
    yield "account of a finished job", opened(keying, finished)
    keying.bench.close()


def opened(keying: Keying, path: Path) -> Desk:
    """The desk after a file was opened."""
    keying.feed(*keying.bench.carry_out([Open(path.name)]))
    return keying.desk


def job_lists(folder: Path) -> Iterator[Named]:
    """The list of jobs: empty, a few, many, filtered."""
    keying = Keying(folder)
    yield "jobs: none", keying.desk
    place = folder / "jobs"
    place.mkdir(parents=True, exist_ok=True)
    for path in sorted(TARGET.glob("*.toml")):
        shutil.copy(path, place / path.name)
    yield "jobs: a few", Keying(folder).desk
    for number in range(1, 60):
        shutil.copy(TARGET / "00221-net-mender.toml", place / f"{number:05d}-net-mender.toml")
    keying = Keying(folder)
    yield "jobs: many", keying.desk
    yield "jobs: many, further down", keying_on(keying, "+")
    keying.keys("22")
    yield "jobs: 22 keyed", keying.desk
    keying.keys("9")
    yield "jobs: none fits", keying.desk
    keying.keys("\r")
    yield "jobs: no such job", keying.desk
    keying.run("*", "1", "6")
    yield "jobs: only the finished", keying.desk

"""Simulated lives of a shop for the campaign of the drawer: jobs are begun, rings made, spoiled, tried, taken
out of the drawer and put back, months go by; every file is written as the program writes it.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

from bench.file.codec import render_entry, render_head
from bench.file.entry import Entry, Head
from bench.job import keys
from bench.job.job import Job, replay
from bench.job.route import Walk
from bench.job.steps import Step, Words
from bench.past.drawer import looked_in
from bench.shop.shop import built_in
from bench.stages.whole import walk
from rules.turning import operations
from tests.whole.clock import START
from tests.whole.hands import lines
from tests.whole.script import Hand
from tests.whole.scripts import STRAIGHT

SHOP = built_in()
OVER, GOES_ON = "stands over", "stands size: a ring to be chosen"
Said = tuple[str, str, Words]
"""Kind, key and words of an entry."""


@dataclass(frozen=True)
class Straight:
    """A straight job in parts, as the program wrote it."""

    measured: tuple[Said, ...]
    cut: tuple[Said, ...]
    read: tuple[Said, ...]
    pressed: tuple[Said, ...]


@lru_cache(maxsize=1)
def straight() -> Straight:
    """Typed once."""
    with TemporaryDirectory() as folder:
        desk, _ = lines(Path(folder), [Hand(STRAIGHT)])
    said = [
        (one.kind, one.key, one.value if isinstance(one.value, tuple) else (str(one.value),))
        for one in desk.entries
    ]
    at = {key: place for place, (_, key, _) in enumerate(said)}
    ring, dressed, ready = at[keys.RING], at[operations.DRESS] + 1, at[keys.FIT_READY]
    parts = (said[:ring], said[ring + 1 : dressed], said[dressed:ready], said[ready:])
    return Straight(*(tuple((k, key, tuple(map(str, words))) for k, key, words in part) for part in parts))


def measured_as(glass: str, plastic: str) -> list[Said]:
    """Readings up to the ring, of another glass, for a ring of a plastic."""
    out = [
        (kind, key, (glass,) if keys.readings_of(keys.GLASS).fullmatch(key) else words)
        for kind, key, words in straight().measured
    ]
    return [*out, *((("answer", keys.PLASTIC, (plastic,)),) if plastic != "acetal" else ())]


@dataclass
class Life:
    """A shop with its jobs on the disk."""

    folder: Path
    chance: random.Random
    now: datetime = START
    jobs: dict[str, list[Entry]] = field(default_factory=dict)
    back: int = 0
    """So many answers were taken back."""

    def wall(self) -> str:
        """The time."""
        return self.now.isoformat(timespec="seconds")

    def path(self, job: str) -> Path:
        """The file of a job."""
        return self.folder / "jobs" / f"{int(job):05d}.toml"

    def say(self, job: str, *said: Said) -> None:
        """More entries in a job, a minute for each."""
        entries = self.jobs.setdefault(job, [])
        for kind, key, words in said:
            self.now += timedelta(minutes=1)
            value = words[0] if len(words) == 1 else tuple(words)
            entries.append(Entry(n=len(entries) + 1, at=self.wall(), kind=kind, key=key, value=value))
        self.write(job)

    def take_back(self, job: str) -> None:
        """Take back the newest answer of a job."""
        gone = {one.of for one in self.jobs[job] if one.kind == "undo"}
        last = next(one for one in reversed(self.jobs[job]) if one.kind == "answer" and one.n not in gone)
        n, self.back = len(self.jobs[job]) + 1, self.back + 1
        self.jobs[job].append(Entry(n=n, at=self.wall(), kind="undo", key=last.key, value="", of=last.n))
        self.write(job)

    def write(self, job: str) -> None:
        """The file as it stands."""
        head = Head(format=1, id=f"{int(job):08x}", job=job, made_by="ringwright 0.1.0")
        blocks = (render_entry(one, salt=head.id) for one in self.jobs[job])
        self.path(job).parent.mkdir(exist_ok=True)
        self.path(job).write_bytes(b"".join((render_head(head), *blocks)))

    def job(self, number: str) -> Job:
        """A job as it stands."""
        return replay(Head(format=1, id="", job=number, made_by=""), self.jobs[number])

    def walked(self, number: str) -> Walk:
        """How far it has come, once the drawer was looked into for its open step, as the desk does it."""
        found = walk(self.job(number), SHOP)
        asks = found.open.looks_for if found.open is not None else ()
        if asks and (words := looked_in(self.folder, asks, besides=self.path(number), now=self.wall)):
            self.say(number, ("mark", keys.LOOKED_IN, words))
            found = walk(self.job(number), SHOP)
        return found

    def begin(self) -> str:
        """Another job, measured."""
        number = str(400 + len(self.jobs))
        glass = self.chance.choice(("35.29 mm", "35.30 mm", "35.31 mm", "35.33 mm"))
        self.say(number, *measured_as(glass, self.chance.choice(("acetal", "acetal", "pa66"))))
        return number

    def again(self, job: str, *said: Said) -> None:
        """What ends an attempt, and another ring."""
        self.say(job, *said, ("mark", keys.ATTEMPT, ("another", GOES_ON)))

    def make(self, job: str, step: Step) -> None:
        """The ring as proposed, with some spares, and one of its fates."""
        kept = (word for word in step.choices[0].with_it if not word.startswith("spares "))
        spares = self.chance.choice((0, 1, 2))
        self.say(job, ("answer", keys.RING, ("accept", *kept, f"spares {spares}")), *straight().cut)
        FATES[self.chance.choice(sorted(FATES))](self, job, spares)

    def read(self, job: str, spares: int) -> None:
        """Its walls, somewhere near, and perhaps those of its spares."""
        wall = self.chance.choice((0.604, 0.612, 0.62, 0.628))
        read = (
            (kind, key, (f"{wall:.3f} mm",) if keys.readings_of(keys.WALL).fullmatch(key) else words)
            for kind, key, words in straight().read
        )
        keyed = self.chance.random() < 0.7
        own = (("answer", keys.nth(keys.SPARE_WALL, n), (f"{wall:.3f} mm",)) for n in range(1, spares + 1))
        self.say(job, *read, *(own if keyed else ()))


def home(life: Life, job: str, spares: int) -> None:
    """Pressed home, tested, handed back."""
    life.read(job, spares)
    life.say(job, *straight().pressed)


def off_band(life: Life, job: str, spares: int) -> None:
    """Measured, and another one is made first."""
    life.read(job, spares)
    life.again(job, ("answer", keys.OFF_BAND, ("another",)))


def too_easy(life: Life, job: str, spares: int) -> None:
    """Pressed, and it did not stay; perhaps a spare of the set-up comes next."""
    life.read(job, spares)
    went = (
        "too_easy",
        "walls 0.604 0.604 0.604 0.604 mm",
        "squeeze 7.0 %",
        "squeeze_u 4.0 %",
        "decision fits",
    )
    life.say(job, straight().pressed[0], ("answer", keys.FIT_OUTCOME, went))
    if not spares or life.chance.random() < 0.5:
        life.again(job, ("answer", keys.REMAKE, ("ring",)))
        return
    found = life.walked(job)
    tried = (
        next((one for one in found.open.choices if one.word.startswith("spare")), None)
        if found.open
        else None
    )
    if tried is not None:
        life.again(job, ("answer", keys.REMAKE, (tried.word, *tried.with_it)))


def spoiled(life: Life, job: str, spares: int) -> None:
    """Given up."""
    life.again(job, ("answer", keys.SPOILED, (f"ring {life.job(job).attempt}",)))


def closed(life: Life, job: str, spares: int) -> None:
    """Measured, never pressed, the job ended."""
    life.read(job, spares)
    life.say(job, ("answer", keys.HAND_BACK, ("done", OVER)))


def left(life: Life, job: str, spares: int) -> None:
    """Left as it is."""


FATES: dict[str, Callable[[Life, str, int], None]] = {
    one.__name__: one for one in (home, off_band, too_easy, spoiled, closed, left)
}


def used(life: Life, job: str, walls: Sequence[str]) -> Step | None:
    """A ring of the drawer measured as far as it has to be, up to the page that judges it."""
    for key in (*walls, keys.HAND_HEIGHT, keys.HAND_SEAT):
        found = life.walked(job).open
        if found is not None and found.key == key:
            word = "lies" if key == keys.HAND_SEAT else "1.20 mm" if key == keys.HAND_HEIGHT else "0.615 mm"
            life.say(job, ("answer", key, (word,)))
    step = life.walked(job).open
    return step if step is not None and step.key == keys.RING else None

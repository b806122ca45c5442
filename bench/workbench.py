"""Carries out the effects of the desk on files and reports what happened.

Invariant: an answer is reported saved only after the file has it;
every failure comes back as a token in plain words, none as an exception.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.desk.effects import (
    Append,
    Arrival,
    Close,
    Deal,
    Effect,
    Glance,
    Glanced,
    Listed,
    Open,
    ReadShop,
    Reload,
    Sample,
    SaveCopy,
    SessionOpened,
    ShopIs,
    Start,
    WriteSheet,
    WriteShop,
)
from bench.desk.token import Leave, Token
from bench.edits.judging import judged
from bench.file.aside import write_aside
from bench.file.copies import save_copy
from bench.file.disk import REAL, Disk
from bench.file.listing import names
from bench.file.new_job import create, random_id
from bench.file.plain import CannotOpen, NotSaved, cause
from bench.file.store import JOBS, Session, open_session
from bench.folder import said_in, shop_in
from bench.job_list import glanced
from bench.refusal import COULD_NOT_WRITE, Refused
from bench.version import MADE_BY

if TYPE_CHECKING:
    from random import Random

SAMPLES = Path(__file__).resolve().parent.parent / "sample_sessions"


def wall_now() -> str:
    """Wall time with offset, to the second; in UTC where the zone of this computer is none."""
    try:
        return datetime.now().astimezone().isoformat(timespec="seconds")
    except (ValueError, OverflowError, OSError):
        return datetime.now(UTC).isoformat(timespec="seconds")


def since_boot() -> float | None:
    """Seconds since the computer was started, those asleep counted; None where the system does not tell."""
    clock = getattr(time, "CLOCK_BOOTTIME", None)
    try:
        return time.clock_gettime(clock) if clock is not None else None
    except OSError:
        return None


class Workbench:
    """One ringwright folder, and the session file that is open."""

    def __init__(
        self,
        folder: Path,
        *,
        disk: Disk = REAL,
        chance: Random | None = None,
        wall: Callable[[], str] = wall_now,
        new_id: Callable[[], str] = random_id,
    ) -> None:
        self.folder = folder
        self.session: Session | None = None
        self._disk = disk
        self._chance = chance
        self._wall = wall
        self._new_id = new_id

    def carry_out(self, effects: Sequence[Effect]) -> list[Arrival]:
        """Carry out effects in order; what happened, as tokens."""
        arrivals: list[Arrival] = []
        for effect in effects:
            try:
                arrivals += self._one(effect)
            except NotSaved as refused:
                numbers = () if refused.certain and self._can_write() else (1,)
                arrivals.append(Token("refused", clean(str(refused)), wall=self._wall(), numbers=numbers))
            except (CannotOpen, Refused) as refused:
                arrivals.append(Token("refused", clean(str(refused)), wall=self._wall()))
            except OSError as error:
                arrivals.append(Token("refused", cause(error), wall=self._wall()))
        return arrivals

    def _can_write(self) -> bool:
        return self.session is None or self.session.writable

    def _one(self, effect: Effect) -> list[Arrival]:
        match effect:
            case Append():
                return [self._append(effect)]
            case Open():
                return [self._open(self.folder / JOBS / effect.file), *self._notice()]
            case Glance():
                return [Glanced(glanced(self.folder, effect.names))]
            case Start():
                return [self._start(effect)]
            case Close():
                self.close()
                return [self.listed()]
            case Reload():
                return [self._opened()]
            case Deal():
                return [self._deal(effect.count)]
            case Sample():
                return [self._open(copy_of_sample(), sample=True)]
            case SaveCopy() if self.session is not None:
                words = f"A complete copy is in {self._copied(self.session)}"
                return [Token("said", words, wall=self._wall())]
            case WriteSheet():
                return [self._sheet()]
            case ReadShop():
                return [ShopIs(shop_in(self.folder))]
            case WriteShop():
                return [ShopIs(said_in(self.folder, effect.before, effect.changes))]
        return []

    def _deal(self, count: int) -> Token:
        from random import Random

        self._chance = self._chance or Random()
        order = list(range(count))
        self._chance.shuffle(order)
        return Token("deal", numbers=tuple(order))

    def _append(self, effect: Append) -> Token:
        assert self.session is not None
        at = self._wall()
        entry = self.session.append(kind=effect.kind, key=effect.key, value=effect.value, of=effect.of, at=at)
        return Token("saved", numbers=(entry.n,), wall=at)

    def _start(self, effect: Start) -> SessionOpened:
        self.close()
        number = int(effect.number) if effect.number else None
        shop_in(self.folder)  # a wrong shop file is refused before a job is begun
        self.session = create(
            self.folder, number=number, made_by=MADE_BY, disk=self._disk, new_id=self._new_id
        )
        return self._opened()

    def _open(self, path: Path, *, sample: bool = False) -> SessionOpened:
        self.close()
        shop = shop_in(self.folder)
        session = open_session(path, disk=self._disk, judge=lambda loaded: judged(loaded, shop))
        if session.head is None:
            message = session.loaded.message
            session.close()
            raise CannotOpen(message)
        self.session = session
        return self._opened(sample=sample)

    def _notice(self) -> list[Arrival]:
        """What is unusual about the file that was opened for work; nothing is written to one that is not."""
        if self.session is None or not (self.session.writable and self.session.warning):
            return []
        return [Token("said", self.session.warning, wall=self._wall())]

    def _opened(self, *, sample: bool = False) -> SessionOpened:
        session = self.session
        assert session is not None and session.head is not None
        return SessionOpened(
            head=session.head,
            entries=session.entries,
            file=str(session.path),
            shop=shop_in(self.folder),
            writable=session.writable,
            why_read_only=session.why_read_only,
            set_aside=len(session.set_aside),
            findings=session.loaded.findings if session.loaded.gated else (),
            sample=sample,
            wall=self._wall(),
        )

    def _copied(self, session: Session) -> Path:
        return save_copy(session, stamp=self._wall()[:19].replace(":", ""))

    def farewell(self, leave: Leave) -> Leave:
        """The last words as they are true: a file that is not where it was is told, and copied elsewhere."""
        why = self.session.why_unsaved if self.session is not None else ""
        if not why or not leave.words or self.session is None:
            return leave
        words = f"{why.partition('. ')[0].removesuffix('.')}."
        with suppress(NotSaved):
            words += f" A complete copy is in {self._copied(self.session)}"
        return Leave(COULD_NOT_WRITE, clean(words))

    def _sheet(self) -> Token:
        from bench.job.job import replay
        from bench.sheet.data import sheet_data
        from bench.sheet.text import sheet_lines
        from bench.stages.whole import walk

        session = self.session
        assert session is not None and session.head is not None
        job, shop = replay(session.head, session.entries), shop_in(self.folder)
        finished = walk(job, shop).open is None
        data = sheet_data(job, finished=finished, shop_name=shop.shop_name, tester_number=shop.tester_number)
        target = session.path.with_suffix(".sheet.txt")
        write_aside(target, ("\n".join(sheet_lines(data)) + "\n").encode())
        return Token("said", f"The sheet is in {target}", wall=self._wall())

    def listed(self, visible: int = 17) -> Listed:
        """The list of jobs: all names, and a quick look at the newest."""
        found = tuple(path.name for path in names(self.folder))
        return Listed(found, glanced(self.folder, found[:visible]))

    def close(self) -> None:
        """Close the session file that is open."""
        if self.session is not None:
            self.session.close()
            self.session = None


def copy_of_sample() -> Path:
    """A copy of the first sample job in a new temporary folder; raises Refused when there is none."""
    import tempfile

    found = sorted(SAMPLES.glob("*.toml"))
    if not found:
        raise Refused("the samples are missing from this installation")
    folder = Path(tempfile.mkdtemp(prefix="ringwright-sample-")) / "jobs"
    folder.mkdir()
    target = folder / found[0].name
    target.write_bytes(found[0].read_bytes())
    return target

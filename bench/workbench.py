"""Carries out the effects of the desk on files and reports what happened.

Invariant: an answer is reported saved only after the file has it;
every failure comes back as a token in plain words, none as an exception.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.clocks import wall_now
from bench.dealing import dealt
from bench.demo import NOTHING_KEPT, copy_of_sample, take_away
from bench.desk import copy_effects, effects as desk
from bench.desk.token import Leave, Token
from bench.file.disk import REAL, Disk
from bench.file.entry import random_id
from bench.file.plain import NO_LOCK, CannotOpen, NotSaved, cause
from bench.file.slug import JOBS
from bench.folder import said_in, shop_in
from bench.job_list import Looks, newest
from bench.refusal import COULD_NOT_WRITE, Refused

if TYPE_CHECKING:
    from random import Random

    from bench.file.store import Session
    from bench.shop.shop import Shop


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
        demo: bool = False,
    ) -> None:
        self.folder = folder
        self._demo = demo
        self._tried = {folder} if demo else set()  # temporary folders, gone at the end
        self._told_where = self._told_no_lock = False
        self._looks = Looks(folder)
        self.session: Session | None = None
        self._disk = disk
        self._chance = chance
        self._wall = wall
        self._new_id = new_id

    def carry_out(self, effects: Sequence[desk.Effect]) -> list[desk.Arrival]:
        """Carry out effects in order; what happened, as tokens."""
        arrivals: list[desk.Arrival] = []
        for effect in effects:
            try:
                arrivals += self._one(effect)
            except NotSaved as refused:
                numbers = () if refused.certain and (self.session is None or self.session.writable) else (1,)
                arrivals.append(Token("refused", clean(str(refused)), wall=self._wall(), numbers=numbers))
            except (CannotOpen, Refused, OSError) as why:
                words = cause(why) if isinstance(why, OSError) else clean(str(why))
                arrivals.append(Token("refused", words, wall=self._wall()))
        return arrivals

    def _one(self, effect: desk.Effect) -> list[desk.Arrival]:
        match effect:
            case desk.Append():
                return [self._append(effect)]
            case desk.Open():
                return [self._open(self.folder / JOBS / effect.file), *self._notice()]
            case desk.Glance():
                return [desk.Glanced(self._looks.into(effect.names))]
            case desk.Start():
                return [self._start(effect)]
            case desk.Close():
                self.close()
                return [self.listed()]
            case desk.Reload():
                return [self._opened()]
            case desk.Deal():
                return [dealt(effect.count, self._chance)]
            case desk.Sample():
                path = copy_of_sample()
                self._tried.add(path.parent.parent)
                return [self._open(path)]
            case desk.SaveCopy():
                return [self._copy()]
            case desk.WriteSheet():
                return [self._sheet()]
            case desk.ReadShop():
                return [self._shop_is(self._shop())]
            case desk.WriteShop():
                return [self._shop_is(self._here(said_in(self.folder, effect.before, effect.changes)))]
            case copy_effects.FindCopies():
                return [self._looks.copies()]
            case copy_effects.Compare():
                return self._compare(effect)
            case desk.LookUp():
                return [desk.Learnt(effect.learns, effect.mark, self._looked_up(effect))]
            case desk.LookIn():
                from bench.past.drawer import drawer_in

                return [desk.DrawerIs(drawer_in(self.folder, self._wall))]
        return []

    def _compare(self, effect: copy_effects.Compare) -> list[desk.Arrival]:
        from bench.side_by_side import compared

        jobs, at = self.folder / JOBS, self._wall()
        return compared(jobs, effect, self._shop(), at=at, opens=self._open, disk=self._disk)

    def _append(self, effect: desk.Append) -> Token:
        assert self.session is not None
        at = self._wall()
        entry = self.session.append(kind=effect.kind, key=effect.key, value=effect.value, of=effect.of, at=at)
        return Token("saved", numbers=(entry.n,), wall=at)

    def _start(self, effect: desk.Start) -> desk.SessionOpened:
        from bench.begin import begin  # files are opened and written later than the list is

        self.close()
        n = int(effect.number) if effect.number else None
        shop = shop_in(self.folder)  # a wrong shop file is refused before a job is begun
        like = self.folder / JOBS / effect.like if effect.like else None
        made = partial(begin, self.folder, shop, disk=self._disk, wall=self._wall, new_id=self._new_id)
        self.session = made(number=n, like=like)
        return self._opened()

    def _open(self, path: Path) -> desk.SessionOpened:
        from bench.edits.opened import open_judged

        self.close()
        self.session = open_judged(path, disk=self._disk, shop=self._shop())
        return self._opened()

    def _notice(self) -> list[desk.Arrival]:
        """What is unusual about the file that was opened for work, of a folder without locks once."""
        warning = self.session.warning if self.session is not None and self.session.writable else ""
        again, self._told_no_lock = self._told_no_lock, self._told_no_lock or warning == NO_LOCK
        told = not warning or (again and warning == NO_LOCK)
        return [] if told else [Token("said", warning, wall=self._wall())]

    @property
    def _is_tried(self) -> bool:
        """Whether the open job is a demo's or a sample, of which nothing is kept."""
        return self.session is not None and self.session.path.parent.parent in self._tried

    def _shop(self) -> Shop:
        """The shop as its file says."""
        return self._here(shop_in(self.folder))

    def _here(self, shop: Shop) -> Shop:
        """A shop with its own pace; in a demo a hold may be hurried."""
        from bench.sheet.pace import pace_in

        return replace(shop, pace=pace_in(self.folder), demo=self._demo)

    def _shop_is(self, shop: Shop) -> desk.ShopIs:
        """A shop as its page shows it, with what its finished jobs say; those of a demo say nothing."""
        from bench.past.learning import lately_in

        return desk.ShopIs(shop if self._demo else lately_in(self.folder, shop, self._wall))

    def _looked_up(self, asked: desk.LookUp) -> tuple[str, ...]:
        """What the jobs of the shop say to a ring, as it is kept with it; those of a demo say nothing."""
        from bench.past.looks import LOOKS

        own = self.session.path if self.session is not None else None
        return () if self._demo else LOOKS[asked.mark](self.folder, asked.learns, besides=own, now=self._wall)

    def _opened(self) -> desk.SessionOpened:
        session = self.session
        assert session is not None and session.head is not None
        return desk.SessionOpened(
            head=session.head,
            entries=session.entries,
            file=str(session.path),
            shop=self._shop(),
            writable=session.writable,
            why_read_only=session.why_read_only,
            set_aside=len(session.set_aside),
            findings=session.loaded.findings if session.loaded.gated else (),
            sample=self._is_tried,
            wall=self._wall(),
        )

    def _copy(self) -> Token:
        session = self.session
        assert session is not None
        if self._is_tried:
            return Token("said", f"No copy: {NOTHING_KEPT}", wall=self._wall())
        from bench.file.copies import places

        safe = session.writable and not session.why_unsaved
        if safe and not self._told_where and (place := next(places(), None)):
            self._told_where = True
            words = f"A complete copy goes into {place}: choose this once more to write it"
            return Token("said", words, wall=self._wall())
        return Token("said", f"A complete copy is in {self._copied(session)}", wall=self._wall())

    def _copied(self, session: Session) -> Path:
        from bench.file.copies import save_copy

        return save_copy(session, stamp=self._wall()[:19].replace(":", ""))

    def farewell(self, leave: Leave) -> Leave:
        """The last words as they are true: a file that is not where it was is told, and copied elsewhere."""
        if self._is_tried:
            return Leave(leave.status, NOTHING_KEPT if leave.words else "")
        if self.session is None or not self.session.why_unsaved or not leave.words:
            return leave
        words = f"{self.session.why_unsaved.partition('. ')[0].removesuffix('.')}."
        with suppress(NotSaved):
            words += f" A complete copy is in {self._copied(self.session)}"
        return Leave(COULD_NOT_WRITE, clean(words))

    def _sheet(self) -> Token:
        from bench.sheet.beside import write_beside

        assert self.session is not None
        words = f"The sheet is in {write_beside(self.session, self._shop())}"
        return Token("said", words + (f"; {NOTHING_KEPT}" if self._is_tried else ""), wall=self._wall())

    def listed(self, visible: int = 17) -> desk.Listed:
        """The list of jobs: all names, and a quick look at the newest."""
        return newest(self.folder, visible)

    def close(self) -> None:
        """Close the session file that is open."""
        self._told_where = False
        if self.session is not None:
            self.session.close()
            self.session = None

    def leave(self) -> None:
        """Close, and take away what was only tried."""
        self.close()
        take_away(self._tried)

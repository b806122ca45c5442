"""The desk: everything a person could see at one moment, as one immutable value.

Invariant: the pages are pure functions of a desk, and a desk changes only in `update`.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bench.desk.away import Moment
from bench.desk.bounce import Bounce
from bench.desk.effects import Append, JobRow
from bench.desk.pace import Pace
from bench.desk.typed import AnswerLine
from bench.desk.wheel import Turn
from bench.file.entry import Entry, Head
from bench.job import keys
from bench.keypad import WINDOW_MS

if TYPE_CHECKING:
    from bench.asking.asking import Asked
    from bench.desk.foreseen import Foreseen
    from bench.desk.offering import ReadingOffer
    from bench.desk.replacing import Replacing, Sure
    from bench.file.load import Finding
    from bench.job.in_drawer import Drawer
    from bench.job.job import Answer, Job
    from bench.job.route import Walk
    from bench.job.steps import Step
    from bench.joining.twins import Twin
    from bench.shop.shop import Shop

NOTHING_TYPED = AnswerLine()
NO_KEYS = Bounce()
NO_PACE = Pace()
NO_TURN = Turn()
SMALLEST = (40, 12)
"""Columns and rows below which one line is shown and no key answers."""
SEEN_S = 1.0
"""A check answered sooner than this after it was painted was not read."""


@dataclass(frozen=True, slots=True)
class Desk:
    """What is on the bench at this moment."""

    page: str = "jobs"
    """jobs, account, step, list, pick, replacing, why, keys, sheet, drawer, chapters, chapter, damage, text
    or left."""
    columns: int = 80
    rows: int = 24
    line: AnswerLine = NOTHING_TYPED
    """The answer line."""
    line_before: AnswerLine = NOTHING_TYPED
    """The answer line before the last key, should that turn out to be a key held down."""
    bounce: Bounce = NO_KEYS
    bounce_ms: int = WINDOW_MS
    """Window of the bounce filter; 0 = no filter."""
    turn: Turn = NO_TURN
    """The last arrow key, should it turn out to be a wheel."""
    pace: Pace = NO_PACE
    """When the keys of the answer line came."""
    sent_at: float = -math.inf
    """When a gauge on a line last put a reading into the answer line."""
    by_lines: bool = False
    """Answers come as whole lines, so that the pace of their keys says nothing."""
    message: str = ""
    """The one message, in words."""
    alarm: bool = False
    """The message says that something went wrong."""

    names: tuple[str, ...] = ()
    """Names of all session files, the highest number first."""
    fits: tuple[str, ...] = ()
    """Those that fit what is typed and picked."""
    known: Mapping[str, JobRow] = field(default_factory=dict)
    """What is known of some of them, by name; never changed in place."""
    twins: Mapping[str, Twin] = field(default_factory=dict)
    """How copies of one job stand to each other, by name; never changed in place."""
    twins_of: tuple[str, ...] = ()
    """The list of names in which all copies have been looked for."""
    stage_only: str = ""
    """Only jobs of this stage are listed."""
    result_only: str = ""
    """Only jobs with this result."""
    watch_only: str = ""
    """Only watches with a word that begins with this letter."""
    wanted: str = ""
    """A job number that was keyed and does not exist yet."""
    like: str = ""
    """Name of the file of a job that a new one is to be like."""

    job: Job | None = None
    walk: Walk | None = None
    shop: Shop | None = None
    head: Head | None = None
    entries: tuple[Entry, ...] = ()
    file: str = ""
    writable: bool = True
    why_read_only: str = ""
    findings: tuple[Finding, ...] = ()
    set_aside: int = 0
    sample: bool = False

    sitting: bool = False
    """The mark of this sitting is in the file: work has begun since the job was opened."""
    at: str = ""
    """Key of the step shown; empty = the open one."""
    pending: Append | None = None
    """What is being saved; its typed text stays in the line until it is."""
    foreseen: Foreseen | None = None
    """The walk once that is saved."""
    then: tuple[Append, ...] = ()
    """What is to be saved after that."""
    dealt: tuple[int, ...] = ()
    """Order in which the choices of a check stand on the screen; empty = not dealt yet."""
    conversion: str = ""
    """The typed text whose conversion has been shown."""
    offer: ReadingOffer | None = None
    """What the number just keyed may have been, to be taken by 1 Enter."""
    offset: int = 0
    """First of the nine entries shown of a long list."""
    scroll: int = 0
    """First line shown of a long page."""
    chapter: int = 0
    """Number of the chapter of the manual that is read."""
    picks: tuple[tuple[str, str], ...] = ()
    """(key, words) of a numbered list to pick from."""
    replacing: Replacing | Sure | None = None
    """What is about to be replaced or done, on the page that says what comes of it."""
    asked_shop: Asked | None = None
    """What is asked about the shop; job and walk are then those of its questions."""
    below: Desk | None = None
    """What lies under these questions."""
    put_off: frozenset[str] = frozenset()
    """Groups of the shop that are not to be asked while this job is open."""
    looked: tuple[object, ...] = ()
    """For what the shop's finished jobs were last looked into."""
    looked_in: tuple[object, ...] = ()
    """The same of the drawer."""
    drawer: Drawer | None = None
    """What lies in the drawer, while it is shown."""
    trail: tuple[str, ...] = ()
    """The pages this one lies over; `/` goes back to the last of them."""
    jammed: str = ""
    """Why nothing more can be saved to this file; empty = all is well."""

    now: float = 0.0
    """Monotonic time of the last token, seconds."""
    wall: str = ""
    """Wall time of the last token."""
    painted_at: float = 0.0
    """When what is asked now first stood on the screen."""
    painted: tuple[object, ...] = ()
    """What was asked then."""
    last_key: Moment | None = None
    """When the last key came."""
    hasty: bool = False
    """Input is no terminal: the one-second rule is off and a hold may be keyed in minutes."""
    night: bool = False
    night_chosen: bool = False
    """Day or night has been chosen from the list, and is kept whatever a shop or the terminal says."""
    bell: bool = True
    holds: Mapping[tuple[str, str], float] = field(default_factory=dict)
    """(file, UTC text of its beginning) of the holds this run knows, and when each began,
    monotonic; never changed.
    """
    rung: str = ""
    """The timer whose end has been rung."""

    @property
    def too_small(self) -> bool:
        """Whether the window shows nothing of the page: nothing may be accepted then."""
        return self.columns < SMALLEST[0] or self.rows < SMALLEST[1]

    @property
    def step(self) -> Step | None:
        """The step shown: the one gone back to, else the open one."""
        if self.walk is None:
            return None
        return (self.walk.step(self.at) if self.at else None) or self.walk.open

    def in_force(self, step: Step) -> Answer | None:
        """The answer that counts for a step, or the late correction in its place; None where it is open.

        A late correction of what is optional has its own line on the list, and holds for its ring alone.
        """
        from bench.job.values import AS_BEFORE  # comes with the first job, not with the list of jobs

        answer = self.walk.answer(step.key) if self.walk is not None else None
        if answer is None or self.job is None or step.optional:
            return answer
        late = self.job.fresh(keys.late(step.key), (step.key,))
        return answer if late is None or late.word == AS_BEFORE else late

    @property
    def asked(self) -> tuple[object, ...]:
        """What is asked now: page, step, place in the file, numbers dealt."""
        step = self.step
        return (self.page, step.key if step else "", len(self.entries), self.dealt)

    @property
    def offered(self) -> ReadingOffer | None:
        """The offer that stands: made for what is asked now."""
        return self.offer if self.offer is not None and self.offer.asked == self.asked else None

    @property
    def looking_back(self) -> bool:
        """Whether the step shown is an answered one, or one of the usual values."""
        return (
            bool(self.at)
            and self.walk is not None
            and (self.walk.open is None or self.at != self.walk.open.key)
        )

    @property
    def left_so(self) -> str:
        """What is left behind by leaving now, in words; empty where nothing is."""
        step = self.walk.open if self.walk is not None and self.writable else None
        return step.left_so if step is not None else ""

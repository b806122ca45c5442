"""What the desk asks the workbench for, and what comes back.

Invariant: an effect and an arrival are values; nothing is done here.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from bench.desk.copy_effects import Asks, CopiesFound
from bench.desk.sought import text_of
from bench.desk.token import Token
from bench.file.entry import Entry, Head, Value
from bench.wire.heard import Heard

if TYPE_CHECKING:
    from bench.file.load import Finding
    from bench.job.in_drawer import Drawer
    from bench.shop.changes import Change
    from bench.shop.shop import Shop


@dataclass(frozen=True, slots=True)
class JobRow:
    """One job on the list of jobs."""

    number: str
    file: str
    """Name of its session file."""
    watch: str = ""
    stage: str = ""
    step: str = ""
    waiting_for: str = ""
    since: str = ""
    attempt: int = 1
    finished: bool = False
    seat: str = ""
    """Readings of the seat as they were keyed, each with its unit, a comma between."""
    glass: str = ""
    """The same of the glass."""
    result: str = ""
    """What the newest test of this seal gave, as it is said; empty before one."""
    remark: str = ""
    plastic: str = ""
    """What the newest seal is made of, as its table calls it."""
    ring: str = ""
    """Its sizes, each with its unit, a comma between."""
    retest: str = ""
    """The day on which the watch is due for its next test; empty where it has passed none."""
    like: str = ""
    """Number of the job that this one was begun after."""
    linked: str = ""
    """Number of another job of the same owner."""
    sought: str = field(init=False, repr=False, compare=False)
    """What it is found by."""

    def __post_init__(self) -> None:
        """Make the text that words are looked for in."""
        named = self.number, self.result, "finished" if self.finished else self.stage, self.plastic
        sizes = f"{self.seat}, {self.glass}, {self.ring}"
        text = text_of(f"{self.watch} {self.remark}", named, sizes, self.since[:10])
        object.__setattr__(self, "sought", text)


@dataclass(frozen=True, slots=True)
class Append:
    """Effect: append one entry to the session file."""

    key: str
    value: Value
    kind: str = "answer"
    of: int | None = None


@dataclass(frozen=True, slots=True)
class Open:
    """Effect: open the session file of a job for work."""

    file: str


@dataclass(frozen=True, slots=True)
class Start:
    """Effect: start a job; an empty number means the next free one."""

    number: str = ""
    like: str = ""
    """Name of the file of a job that it is like; empty for none."""


@dataclass(frozen=True, slots=True)
class Close:
    """Effect: close the session file and bring the list of jobs."""


@dataclass(frozen=True, slots=True)
class Sample:
    """Effect: open a copy of a sample job in a temporary folder."""


@dataclass(frozen=True, slots=True)
class Deal:
    """Effect: deal the numbers 0 to count - 1 in a new order."""

    count: int


@dataclass(frozen=True, slots=True)
class SaveCopy:
    """Effect: write a complete copy of the session somewhere else."""


@dataclass(frozen=True, slots=True)
class WriteSheet:
    """Effect: write the sheet as a text file beside the job and say where."""


@dataclass(frozen=True, slots=True)
class Reload:
    """Effect: give the entries of the open file again, now that its findings are settled."""


@dataclass(frozen=True, slots=True)
class ReadShop:
    """Effect: read the shop file and bring the shop."""


@dataclass(frozen=True, slots=True)
class WriteShop:
    """Effect: write what is said of the shop into its file, and bring the shop as it then stands."""

    before: Shop
    """The shop of which it is said."""
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class LookUp:
    """Effect: look up in the shop's jobs what the open step learns, or what lies in the drawer for it."""

    learns: tuple[str, ...]
    mark: str
    """Key under which it is kept."""


@dataclass(frozen=True, slots=True)
class Learnt:
    """Arrival: what was looked up, as it is kept; nothing where no job says anything."""

    learns: tuple[str, ...]
    mark: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LookIn:
    """Effect: look into the drawer of the shop, to show it."""


@dataclass(frozen=True, slots=True)
class DrawerIs:
    """Arrival: what lies in the drawer."""

    drawer: Drawer


@dataclass(frozen=True, slots=True)
class ShopIs:
    """Arrival: the shop as it stands in its file."""

    shop: Shop


@dataclass(frozen=True, slots=True)
class SessionOpened:
    """Arrival: a session file was opened."""

    head: Head
    entries: tuple[Entry, ...]
    """The entries that may be used; none while the gate is shut."""
    file: str
    shop: Shop
    writable: bool = True
    why_read_only: str = ""
    set_aside: int = 0
    """Bytes of an unfinished last answer that were moved aside."""
    findings: tuple[Finding, ...] = ()
    """What has to be looked at before any value is used."""
    sample: bool = False
    wall: str = ""


@dataclass(frozen=True, slots=True)
class Glance:
    """Effect: look into some files of the list, by name."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Listed:
    """Arrival: the names of all session files, newest first, and what is known of some of them."""

    names: tuple[str, ...]
    rows: tuple[JobRow, ...] = ()


@dataclass(frozen=True, slots=True)
class Glanced:
    """Arrival: what was found in some files of the list."""

    rows: tuple[JobRow, ...]


OfTheList = Listed | Glanced | CopiesFound | Asks
"""What comes of the list of jobs."""
FromJobs = Learnt | DrawerIs
"""What the jobs of the shop say."""
Arrival = Token | SessionOpened | ShopIs | FromJobs | Heard | OfTheList
"""What the desk is fed with."""
Effect = object
"""One of the effect classes above, or Bell and Leave of `bench.desk.token`."""

"""Every Nth system call fails, once and for ever, while a job is made, written, recovered and written again.

Every entry answered as saved must be there afterwards, once and in order; an entry refused for certain must
not be; the program refuses in its own words and never ends with a system error. Long form:
`python -m tests.campaigns.failing_calls --long`.
"""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from bench.file.disk import REAL, Disk
from bench.file.new_job import create
from bench.file.plain import CannotOpen, NotSaved
from bench.file.store import Session, open_session
from tests.campaigns.common import AT, FOLDER, Counts, main
from tests.campaigns.simulated_disk import FaultyDisk, Plan, SimulatedDisk

TORN = b'\n[[entry]]\nn = 99\nat = "2026'


@dataclass(frozen=True)
class Fault:
    """Which calls fail and how."""

    name: str
    calls: frozenset[str]
    """The calls counted; empty means all."""
    error: int | None
    """Error number; None for a short write."""
    then: int | None = None
    """Error number of the next call after a short write."""


ANY: frozenset[str] = frozenset()
FAULTS = (
    Fault("any call EIO", ANY, errno.EIO),
    Fault("any call ENOSPC", ANY, errno.ENOSPC),
    Fault("any call EROFS", ANY, errno.EROFS),
    Fault("any call EACCES", ANY, errno.EACCES),
    Fault("write EIO", frozenset({"write"}), errno.EIO),
    Fault("write ENOSPC", frozenset({"write"}), errno.ENOSPC),
    Fault("flush EIO", frozenset({"flush", "flush_folder"}), errno.EIO),
    Fault("short write", frozenset({"write"}), None),
    Fault("part written, then ENOSPC", frozenset({"write"}), None, errno.ENOSPC),
    Fault("write and truncate EIO", frozenset({"write", "truncate"}), errno.EIO),
)


def plan_for(fault: Fault, nth: int, for_ever: bool) -> Plan:
    """The plan that makes the Nth counted call fail."""
    counted = 0

    def plan(_: int, name: str) -> BaseException | str | None:
        nonlocal counted
        if fault.calls and name not in fault.calls:
            return None
        counted += 1
        if counted == nth or (for_ever and counted > nth):
            if fault.error is None and (fault.then is None or counted == nth):
                return "part"
            return OSError(fault.error or fault.then, "planned")
        if fault.then is not None and counted == nth + 1:
            return OSError(fault.then, "planned")
        return None

    return plan


@dataclass
class Record:
    """What the person at the bench was told."""

    saved: list[str] = field(default_factory=list)
    uncertain: list[str] = field(default_factory=list)


def run(*, long: bool = False) -> Counts:
    """All faults, every call, on the simulated disk; in the long form on the real one as well."""
    counts = Counts()
    for fault in FAULTS:
        for for_ever in (False, True):
            _until_it_passes(counts, fault, for_ever, lambda: (SimulatedDisk(), FOLDER))
            if long:
                with tempfile.TemporaryDirectory() as folder:
                    numbers = iter(range(10**6))
                    _until_it_passes(
                        counts,
                        fault,
                        for_ever,
                        lambda: (REAL, Path(folder) / str(next(numbers))),  # noqa: B023
                    )
    return counts


def _until_it_passes(
    counts: Counts, fault: Fault, for_ever: bool, fresh: Callable[[], tuple[Disk, Path]]
) -> None:
    for nth in range(1, 2000):
        inner, folder = fresh()
        disk = FaultyDisk(inner, plan_for(fault, nth, for_ever))
        where = f"{fault.name} at {nth}{' for ever' if for_ever else ''}"
        counts.tried += 1
        record = Record()
        try:
            _work(counts, disk, inner, folder, record)
        except (NotSaved, CannotOpen):
            counts.seen["sitting ended in words"] += 1
        except OSError as error:
            counts.fail("crash", f"{where}: {error!r}")
        _check(counts, inner, folder, record, where)
        if not disk.failed:
            counts.seen["runs until nothing failed"] += 1
            return
    counts.fail("endless", f"{fault.name} never passed")


def _work(counts: Counts, disk: Disk, inner: Disk, folder: Path, record: Record) -> None:
    """Two sittings; between them the last words of an answer are left unfinished."""
    with create(folder, job="A-1042", made_by="ringwright", disk=disk) as job:
        _answer(counts, job, record, range(10, 14))
    fd = inner.open(job.path, os.O_WRONLY | os.O_APPEND)
    inner.write(fd, TORN)
    inner.close(fd)
    with open_session(job.path, disk=disk) as job:
        counts.seen["recovery refused, read only"] += not job.writable
        if job.writable:
            counts.seen["recovered"] += 1
            _answer(counts, job, record, range(14, 18))


def _answer(counts: Counts, job: Session, record: Record, numbers: range) -> None:
    """Answer, try a refused answer twice more, stop when the job says so."""
    for number in numbers:
        value = f"{number}.00 mm"
        for _ in range(3):
            try:
                job.append(kind="answer", key="case_bore", value=value, at=AT)
            except NotSaved as refused:
                counts.seen["refused" if refused.certain else "may or may not be saved"] += 1
                if not refused.certain:
                    record.uncertain.append(value)
                    if job.writable:
                        counts.fail("stop", f"still writable after: {refused.why}")
                continue
            record.saved.append(value)
            break
        if not job.writable:
            return


def _check(counts: Counts, inner: Disk, folder: Path, record: Record, where: str) -> None:
    """Read the file with a healthy disk."""
    try:
        paths = [folder / "jobs" / name for name in inner.names(folder / "jobs") if name.endswith(".toml")]
    except FileNotFoundError:
        paths = []
    if not paths:
        counts.seen["no file yet"] += 1
        if record.saved:
            counts.fail("lost", f"{where}: the file is gone")
        return
    with open_session(paths[0], disk=inner) as job:
        found = [str(entry.value) for entry in job.entries]
        why = job.why_read_only
    sure = [value for value in found if value not in record.uncertain]
    if sure != record.saved or len(set(found)) != len(found) or why:
        counts.fail("lost" if len(sure) < len(record.saved) else "invented", f"{where}: {found} {why}")


if __name__ == "__main__":
    main(run)

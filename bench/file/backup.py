"""Backup of all jobs and the shop file, and one job moved to another computer.

Invariant: nothing is ever overwritten, neither on the way out nor on the way in; every job is here afterwards
under its old name or a new one, or the report says why not.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from bench.clean import clean
from bench.file.archive import MEMBER, digest, read_archive, write_archive
from bench.file.disk import REAL, Disk, make_folders, read_file, write_new
from bench.file.entry import FILE_LIMIT
from bench.file.plain import CannotOpen, NotSaved, cause
from bench.file.slug import ENDING, SHOP, file_name, number_of
from bench.file.store import JOBS

_TORN = ".torn-"


@dataclass(slots=True)
class Report:
    """What an import did, by file name."""

    added: list[str] = field(default_factory=list)
    """Imported under the name it had."""
    renamed: list[tuple[str, str]] = field(default_factory=list)
    """Imported under a new name, because another file has the old one."""
    continues: list[tuple[str, str]] = field(default_factory=list)
    """New file, and the shorter one here that it goes on from, which was left as it is."""
    same: list[str] = field(default_factory=list)
    """Already here: the same, or this and more."""
    refused: list[tuple[str, str]] = field(default_factory=list)
    """Not imported, and why."""

    def lines(self) -> list[str]:
        """The report in plain words."""
        return [
            *(f"imported: {name}" for name in self.added),
            *(f"imported under a new name: {old} as {new}" for old, new in self.renamed),
            *(
                f"{new} is the same job as {old} and goes on from it; work on {new}"
                for new, old in self.continues
            ),
            *(f"already here: {name}" for name in self.same),
            *(f"NOT imported: {name}: {why}" for name, why in self.refused),
        ]


def export_all(folder: Path, target_folder: Path, *, disk: Disk = REAL) -> Path:
    """All session files, set-aside pieces and the shop file as a new zip. Raises NotSaved, CannotOpen."""
    members: dict[str, bytes] = {}
    try:
        present = sorted(disk.names(folder / JOBS))
    except FileNotFoundError:
        present = []
    except OSError as error:
        raise CannotOpen(f"The jobs cannot be read: {cause(error)}.") from error
    for name in present:
        if name.endswith(ENDING):
            _add_job(folder / JOBS / name, present, members, disk)
    with suppress(FileNotFoundError):
        disk.look(folder / SHOP)
        members[SHOP] = _content(folder / SHOP, disk)
    return write_archive(members, target_folder, "ringwright-backup", disk)


def export_job(path: Path, target_folder: Path, *, disk: Disk = REAL) -> Path:
    """One session file and its set-aside pieces as a new zip. Raises NotSaved, CannotOpen."""
    members: dict[str, bytes] = {}
    member = _add_job(path, sorted(disk.names(path.parent)), members, disk)
    return write_archive(members, target_folder, f"ringwright-job-{PurePosixPath(member).stem}", disk)


def _add_job(path: Path, present: list[str], members: dict[str, bytes], disk: Disk) -> str:
    """Put one job and its pieces among the members; its name there is plain and free."""
    member = f"{JOBS}/{path.name}"
    number = number_of(path.name) or 1
    while MEMBER.fullmatch(member) is None or member in members:
        member = f"{JOBS}/{file_name(number=number, text=_text(path.name))}"
        number += 1
    members[member] = _content(path, disk)
    pieces = [name for name in present if name.startswith(f"{path.name}{_TORN}")]
    for k, piece in enumerate(pieces, start=1):
        members[f"{member}{_TORN}{k}"] = _content(path.with_name(piece), disk)
    return member


def _text(name: str) -> str:
    """The part of a file name that is not its number."""
    return name.removesuffix(ENDING).lstrip("0123456789")


def _content(path: Path, disk: Disk) -> bytes:
    try:
        data = read_file(disk, path, FILE_LIMIT)
    except OSError as error:
        raise CannotOpen(f"{clean(path.name)} cannot be read: {cause(error)}.") from error
    if len(data) > FILE_LIMIT:
        raise CannotOpen(f"{clean(path.name)} is larger than a session file can be (8 MiB).")
    return data


def import_all(zip_path: Path, folder: Path, *, disk: Disk = REAL) -> Report:
    """Import the files of a backup or of one job; nothing is overwritten. Raises CannotOpen, NotSaved."""
    report = Report()
    members, report.refused = read_archive(zip_path)
    try:
        make_folders(disk, folder / JOBS)
        here = _Here(folder, disk, report)
        here.reserved = {number_of(PurePosixPath(name).name) or 0 for name in members}
        for name in sorted(members):
            if name == SHOP:
                here.take_shop(members[name])
            elif _TORN not in name:
                pieces = [members[other] for other in members if other.startswith(f"{name}{_TORN}")]
                here.take_job(PurePosixPath(name).name, members[name], pieces)
            elif name.partition(_TORN)[0] not in members:
                report.refused.append((name, "the job it belongs to is not in the archive"))
    except OSError as error:
        raise NotSaved(f"Not everything was imported: {cause(error)}.", certain=True) from error
    return report


class _Here:
    """The ringwright folder that files are imported into."""

    def __init__(self, folder: Path, disk: Disk, report: Report) -> None:
        self.folder, self.disk, self.report = folder, disk, report
        self.jobs = folder / JOBS
        self.numbers = {number_of(name.removesuffix(".new")) or 0 for name in disk.names(self.jobs)} | {0}
        self.reserved: set[int] = set()
        """Numbers in the archive, kept for their own jobs."""
        self.by_digest: dict[str, str] = {}
        self.by_start: dict[bytes, list[str]] = {}
        for name in disk.names(self.jobs):
            if number_of(name) is not None:
                with suppress(CannotOpen):
                    self._know(name, _content(self.jobs / name, disk))

    def _know(self, name: str, data: bytes) -> None:
        self.by_digest[digest(data)] = name
        self.by_start.setdefault(_start(data), []).append(name)
        self.numbers.add(number_of(name) or 0)

    def take_job(self, name: str, data: bytes, pieces: list[bytes]) -> None:
        """One session file with its set-aside pieces."""
        known = self.by_digest.get(digest(data)) or self._longer(data)
        if known is not None:
            self.report.same.append(name)
            self._take_pieces(known, pieces)
            return
        target = name
        if number_of(name) in self.numbers:
            target = file_name(number=max(self.numbers | self.reserved) + 1, text=_text(name))
        shorter = self._shorter(data)
        write_new(self.disk, self.jobs / target, data)
        self._know(target, data)
        if target == name:
            self.report.added.append(name)
        else:
            self.report.renamed.append((name, target))
        if shorter is not None:
            self.report.continues.append((target, shorter))
        self._take_pieces(target, pieces)

    def _longer(self, data: bytes) -> str | None:
        """A file here that holds all of this one and more."""
        return next((name for name, found in self._kin(data) if found.startswith(data)), None)

    def _shorter(self, data: bytes) -> str | None:
        """A file here that this one goes on from."""
        return next((name for name, found in self._kin(data) if data.startswith(found)), None)

    def _kin(self, data: bytes) -> list[tuple[str, bytes]]:
        names = self.by_start.get(_start(data), [])
        return [(name, _content(self.jobs / name, self.disk)) for name in names]

    def _take_pieces(self, target: str, pieces: list[bytes]) -> None:
        present = [name for name in self.disk.names(self.jobs) if name.startswith(f"{target}{_TORN}")]
        kept = {_content(self.jobs / name, self.disk) for name in present}
        k = 1
        for piece in pieces:
            if piece in kept:
                continue
            while f"{target}{_TORN}{k}" in present:
                k += 1
            write_new(self.disk, self.jobs / f"{target}{_TORN}{k}", piece)
            present.append(f"{target}{_TORN}{k}")

    def take_shop(self, data: bytes) -> None:
        """The shop file: where there is none; else beside it."""
        k = 0
        while True:
            path = self.folder / (SHOP if k == 0 else f"shop-from-backup-{k}.toml")
            try:
                self.disk.look(path)
            except FileNotFoundError:
                break
            if _content(path, self.disk) == data:
                self.report.same.append(path.name)
                return
            k += 1
        write_new(self.disk, path, data)
        if k == 0:
            self.report.added.append(SHOP)
        else:
            self.report.renamed.append((SHOP, path.name))


def _start(data: bytes) -> bytes:
    """The head of a session file, which carries its random id."""
    return data.partition(b"\n[[entry]]")[0].strip()

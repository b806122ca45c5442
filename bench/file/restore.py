"""The jobs of a backup, or one job from another computer, brought in.

Invariant: nothing is ever overwritten; every job is here afterwards under its old name or a new one, or the
report says why not. One file at a time is in memory.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from itertools import islice
from pathlib import Path, PurePosixPath

from bench.clean import clean
from bench.file.archive import Archive, Spoiled, digest
from bench.file.backup import TORN, pieces_by_job, text_of
from bench.file.disk import REAL, Disk, make_folders, write_new
from bench.file.entry import FILE_LIMIT
from bench.file.load import load
from bench.file.ordinary import read_regular
from bench.file.plain import NotSaved, cause
from bench.file.slug import JOBS, SHOP, SHOP_LIMIT, file_name, next_number, number_of

_KIN_LIMIT = 100
"""Most files of one beginning that a file is compared with."""


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
    look: list[tuple[str, str]] = field(default_factory=list)
    """Imported, and what in it needs a look."""
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
            *(f"needs a look: {name}: {words}" for name, words in self.look),
            *(f"NOT imported: {name}: {why}" for name, why in self.refused),
        ]


def import_all(zip_path: Path, folder: Path, *, disk: Disk = REAL) -> Report:
    """Import the files of a backup or of one job; nothing is overwritten. Raises CannotOpen, NotSaved."""
    report = Report()
    with Archive(zip_path) as archive:
        report.refused = archive.refused
        try:
            make_folders(disk, folder / JOBS)
            _Here(folder, disk, report, archive).take_all()
        except OSError as error:
            raise NotSaved(f"Not everything was imported: {cause(error)}.", certain=True) from error
    return report


class _Here:
    """The ringwright folder that files are imported into."""

    def __init__(self, folder: Path, disk: Disk, report: Report, archive: Archive) -> None:
        self.folder, self.disk, self.report, self.archive = folder, disk, report, archive
        self.jobs = folder / JOBS
        present = disk.names(self.jobs)
        self.numbers = {number_of(name.removesuffix(".new")) or 0 for name in present}
        self.reserved = {number_of(PurePosixPath(name).name) or 0 for name in archive.names}
        """Numbers in the archive, kept for their own jobs."""
        self.free = next_number(self.numbers | self.reserved)
        self.by_digest: dict[str, str] = {}
        self.by_start: dict[str, list[str]] = {}
        for name in present:
            if number_of(name) is not None and (data := self._read(name)) is not None:
                self._know(name, data)

    def _read(self, name: str) -> bytes | None:
        """A file that stands in the folder of jobs; None where it is no file that could be a job."""
        with suppress(OSError):
            data = read_regular(self.jobs / name, FILE_LIMIT)
            return data if len(data) <= FILE_LIMIT else None
        return None

    def _know(self, name: str, data: bytes) -> None:
        self.by_digest[digest(data)] = name
        self.by_start.setdefault(_start(data), []).append(name)
        self.numbers.add(number_of(name) or 0)

    def take_all(self) -> None:
        """Every file of the archive, one at a time."""
        names = self.archive.names
        known, pieces = set(names), pieces_by_job(names)
        for name in names:
            try:
                if name == SHOP:
                    self.take_shop(self.archive.content(name))
                elif TORN not in name:
                    self.take_job(name, self.archive.content(name), pieces.get(name, []))
                elif name.partition(TORN)[0] not in known:
                    self.report.refused.append((name, "the job it belongs to is not in the archive"))
            except Spoiled as why:
                self.report.refused.append((name, str(why)))

    def take_job(self, member: str, data: bytes, pieces: list[str]) -> None:
        """One session file with its set-aside pieces; raises Spoiled for one that could not be opened."""
        name = PurePosixPath(member).name
        known = self.by_digest.get(digest(data)) or self._longer(data)
        if known is not None:
            self.report.same.append(name)
            self._take_pieces(known, pieces)
            return
        loaded = load(data)
        if loaded.head is None:
            raise Spoiled(loaded.message)
        target = name
        if number_of(name) in self.numbers:
            target = file_name(number=self._free_number(), text=text_of(name))
        shorter = self._shorter(data)
        write_new(self.disk, self.jobs / target, data)
        self._know(target, data)
        if target == name:
            self.report.added.append(name)
        else:
            self.report.renamed.append((name, target))
        if shorter is not None:
            self.report.continues.append((target, shorter))
        if loaded.gated:
            self.report.look.append((target, clean(loaded.message)))
        self._take_pieces(target, pieces)

    def _free_number(self) -> int:
        """The next number that neither a file here nor one in the archive has."""
        while self.free in self.numbers or self.free in self.reserved:
            self.free = next_number(self.numbers | self.reserved)
        return self.free

    def _longer(self, data: bytes) -> str | None:
        """A file here that holds all of this one and more."""
        return next((name for name, found in self._kin(data) if found.startswith(data)), None)

    def _shorter(self, data: bytes) -> str | None:
        """A file here that this one goes on from."""
        return next((name for name, found in self._kin(data) if data.startswith(found)), None)

    def _kin(self, data: bytes) -> Iterator[tuple[str, bytes]]:
        for name in islice(reversed(self.by_start.get(_start(data), [])), _KIN_LIMIT):
            if (found := self._read(name)) is not None:
                yield name, found

    def _take_pieces(self, target: str, pieces: list[str]) -> None:
        present = [name for name in self.disk.names(self.jobs) if name.startswith(f"{target}{TORN}")]
        kept = {digest(found) for name in present if (found := self._read(name)) is not None}
        k = 1
        for member in pieces:
            try:
                piece = self.archive.content(member)
            except Spoiled as why:
                self.report.refused.append((member, str(why)))
                continue
            if digest(piece) in kept:
                continue
            while f"{target}{TORN}{k}" in present or f"{target}{TORN}{k}.new" in present:
                k += 1
            write_new(self.disk, self.jobs / f"{target}{TORN}{k}", piece)
            present.append(f"{target}{TORN}{k}")

    def take_shop(self, data: bytes) -> None:
        """The shop file: where there is none; else beside it. Raises Spoiled for one that says nothing."""
        if len(data) > SHOP_LIMIT or not data.strip():
            raise Spoiled("it is empty" if len(data) <= SHOP_LIMIT else "it is too large for a shop file")
        try:
            tomllib.loads(data.decode("utf-8-sig"))
        except (ValueError, RecursionError) as error:
            raise Spoiled("it cannot be read as a shop file") from error
        k = 0
        while True:
            path = self.folder / (SHOP if k == 0 else f"shop-from-backup-{k}.toml")
            try:
                write_new(self.disk, path, data)
                break
            except FileExistsError:
                with suppress(OSError):
                    if read_regular(path, FILE_LIMIT) == data:
                        self.report.same.append(path.name)
                        return
            k += 1
        if k == 0:
            self.report.added.append(SHOP)
        else:
            self.report.renamed.append((SHOP, path.name))


def _start(data: bytes) -> str:
    """Identifies the head of a session file, which carries its random id."""
    return digest(data.partition(b"\n[[entry]]")[0].strip())

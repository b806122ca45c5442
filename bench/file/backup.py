"""Backup of all jobs and the shop file as one zip, and one job moved to another computer.

Invariant: nothing is ever overwritten, neither on the way out nor on the way in; a file is taken in only if its
checksum is right and its name is one that this module itself writes, so that no archive can reach another folder.
"""

from __future__ import annotations

import hashlib
import io
import re
import zipfile
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from bench.clean import clean
from bench.file.disk import READ_ONLY, REAL, Disk, read_all, write_new
from bench.file.entry import FILE_LIMIT
from bench.file.plain import CannotOpen, NotSaved, cause, no_copy
from bench.file.slug import file_name, number_of, slug
from bench.file.store import JOBS

SHOP = "shop.toml"
CHECKSUMS = "checksums.sha256"
"""Member with one line `digest  name` for each file, the form that sha256sum -c reads."""

_MEMBER = re.compile(r"jobs/(?P<job>\d{1,9}(?:-[a-z0-9-]{0,60})?\.toml)(?P<torn>\.torn-\d{1,5})?|shop\.toml")
_MEMBERS_LIMIT = 200_000
_LINE = re.compile(r"([0-9a-f]{64})  (\S+)")
_NAMES_TRIED = 10_000
_FIXED_DATE = (1980, 1, 1, 0, 0, 0)


@dataclass(slots=True)
class Report:
    """What an import did; names are clean for showing."""

    added: list[str] = field(default_factory=list)
    """Taken in under the name they had."""
    renamed: list[tuple[str, str]] = field(default_factory=list)
    """Taken in under a new name, because a different file has the old one."""
    same: list[str] = field(default_factory=list)
    """Already there, byte for byte."""
    refused: list[tuple[str, str]] = field(default_factory=list)
    """Not taken in, and why."""

    def lines(self) -> list[str]:
        """The report in plain words."""
        return [
            *(f"taken in: {name}" for name in self.added),
            *(f"taken in under a new name: {old} as {new}" for old, new in self.renamed),
            *(f"already here: {name}" for name in self.same),
            *(f"NOT taken in: {name}: {why}" for name, why in self.refused),
        ]


def export_all(folder: Path, target_folder: Path, *, disk: Disk = REAL) -> Path:
    """All session files, their set-aside pieces and the shop file as a new zip. Raises NotSaved, CannotOpen."""
    try:
        jobs = sorted(name for name in disk.names(folder / JOBS) if _MEMBER.fullmatch(f"{JOBS}/{name}"))
    except FileNotFoundError:
        jobs = []
    except OSError as error:
        raise CannotOpen(f"The jobs cannot be read: {cause(error)}.") from error
    wanted = [folder / JOBS / name for name in jobs]
    members = {f"{JOBS}/{path.name}": _content(path, disk) for path in wanted}
    try:
        members[SHOP] = _content(folder / SHOP, disk)
    except CannotOpen:
        pass
    return _write_zip(members, target_folder, "ringwright-backup", disk)


def export_job(path: Path, target_folder: Path, *, disk: Disk = REAL) -> Path:
    """One session file and its set-aside pieces as a new zip, for another computer. Raises NotSaved, CannotOpen."""
    beside = [name for name in disk.names(path.parent) if name.startswith(f"{path.name}.torn-")]
    number = number_of(path.name)
    stem = path.name if number is not None else file_name(number=1, text=path.stem)
    members = {f"{JOBS}/{stem}": _content(path, disk)}
    for name in beside:
        members[f"{JOBS}/{stem}{name.removeprefix(path.name)}"] = _content(path.with_name(name), disk)
    return _write_zip(members, target_folder, f"ringwright-job-{Path(stem).stem}", disk)


def _content(path: Path, disk: Disk) -> bytes:
    try:
        fd = disk.open(path, READ_ONLY)
        try:
            data = read_all(disk, fd, FILE_LIMIT)
        finally:
            disk.close(fd)
    except OSError as error:
        raise CannotOpen(f"{clean(path.name)} cannot be read: {cause(error)}.") from error
    if len(data) > FILE_LIMIT:
        raise CannotOpen(f"{clean(path.name)} is larger than a session file can be (8 MiB).")
    return data


def _write_zip(members: dict[str, bytes], target: Path, stem: str, disk: Disk) -> Path:
    sums = "".join(f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in members.items())
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in {**members, CHECKSUMS: sums.encode()}.items():
            archive.writestr(zipfile.ZipInfo(name, _FIXED_DATE), data, zipfile.ZIP_DEFLATED)
    try:
        for k in range(1, _NAMES_TRIED):
            path = target / f"{stem}-{k}.zip"
            try:
                write_new(disk, path, packed.getvalue())
            except FileExistsError:
                continue
            _prove(path, members, disk)
            return path
    except OSError as error:
        raise NotSaved(no_copy(error), certain=True) from error
    raise NotSaved(
        "The copy was not saved: too many backups stand there. Choose another place.", certain=True
    )


def _prove(path: Path, members: dict[str, bytes], disk: Disk) -> None:
    """Read the written archive back and compare every file."""
    found, refused = _read_zip(path)
    del disk
    if refused or found != members:
        raise NotSaved("The copy does not read back as it was written. Choose another disk.", certain=True)


def import_all(zip_path: Path, folder: Path, *, disk: Disk = REAL) -> Report:
    """Take in the files of a backup or of one job; nothing is overwritten. Raises CannotOpen, NotSaved."""
    report = Report()
    members, report.refused = _read_zip(zip_path)
    try:
        disk.make_folder(folder / JOBS)
        here = _Here(folder, disk)
        jobs = sorted(name for name in members if name != SHOP and ".torn-" not in name)
        for name in jobs:
            torn = {other: members[other] for other in members if other.startswith(f"{name}.torn-")}
            here.take_job(PurePosixPath(name).name, members[name], torn, report)
        for name in members:
            if ".torn-" in name and name.partition(".torn-")[0] not in members:
                report.refused.append((name, "the job it belongs to is not in the archive"))
        if SHOP in members:
            here.take_shop(members[SHOP], report)
    except OSError as error:
        raise NotSaved(f"Not everything was taken in: {cause(error)}.", certain=True) from error
    return report


class _Here:
    """The ringwright folder that takes files in."""

    def __init__(self, folder: Path, disk: Disk) -> None:
        self.folder, self.disk = folder, disk
        self.jobs = folder / JOBS
        present = disk.names(self.jobs)
        self.names = set(present)
        self.sums: dict[bytes, str] = {}
        for name in present:
            if number_of(name) is not None:
                try:
                    self.sums[hashlib.sha256(_content(self.jobs / name, disk)).digest()] = name
                except CannotOpen:
                    continue
        self.next_number = 1 + max((number_of(name.removesuffix(".new")) or 0 for name in present), default=0)

    def take_job(self, name: str, data: bytes, torn: dict[str, bytes], report: Report) -> None:
        """One session file with its set-aside pieces."""
        known = self.sums.get(hashlib.sha256(data).digest())
        number = number_of(name)
        if known is not None:
            target = known
            report.same.append(name)
        elif any(number_of(other) == number for other in self.names):
            _, _, text = name.removesuffix(".toml").partition("-")
            target = file_name(number=self.next_number, text=text)
            write_new(self.disk, self.jobs / target, data)
            report.renamed.append((name, target))
        else:
            target = name
            write_new(self.disk, self.jobs / target, data)
            report.added.append(name)
        self.names.add(target)
        self.sums[hashlib.sha256(data).digest()] = target
        self.next_number = max(self.next_number, 1 + (number_of(target) or 0))
        self._take_torn(target, list(torn.values()))

    def _take_torn(self, target: str, pieces: Iterable[bytes]) -> None:
        present = [name for name in self.disk.names(self.jobs) if name.startswith(f"{target}.torn-")]
        kept = {_content(self.jobs / name, self.disk) for name in present}
        k = 1
        for piece in pieces:
            if piece in kept:
                continue
            while f"{target}.torn-{k}" in present:
                k += 1
            write_new(self.disk, self.jobs / f"{target}.torn-{k}", piece)
            present.append(f"{target}.torn-{k}")

    def take_shop(self, data: bytes, report: Report) -> None:
        """The shop file: only where there is none; else beside it."""
        for k in range(_NAMES_TRIED):
            path = self.folder / (SHOP if k == 0 else f"shop-from-backup-{k}.toml")
            try:
                if _content(path, self.disk) == data:
                    report.same.append(path.name)
                    return
            except CannotOpen:
                write_new(self.disk, path, data)
                report.added.append(SHOP) if k == 0 else report.renamed.append((SHOP, path.name))
                return


def _read_zip(path: Path) -> tuple[dict[str, bytes], list[tuple[str, str]]]:
    """The good files of an archive by name, and the refused ones with the reason. Raises CannotOpen."""
    good: dict[str, bytes] = {}
    refused: list[tuple[str, str]] = []
    try:
        with zipfile.ZipFile(path) as archive:
            if len(archive.infolist()) > _MEMBERS_LIMIT:
                raise CannotOpen(f"{clean(path.name)} holds too many files.")
            sums = _sums(_member(archive, CHECKSUMS))
            for item in archive.infolist():
                if item.filename == CHECKSUMS:
                    continue
                why = _take_member(archive, item, sums, good)
                if why:
                    refused.append((clean(item.filename)[:100], why))
    except OSError as error:
        raise CannotOpen(f"{clean(path.name)} cannot be read: {cause(error)}.") from error
    except (zipfile.BadZipFile, KeyError, ValueError, NotImplementedError, RuntimeError, EOFError) as error:
        raise CannotOpen(f"{clean(path.name)} is not a backup of ringwright, or it is damaged.") from error
    refused += [(clean(name)[:100], "it is missing from the archive") for name in sums if name not in good]
    return good, refused


def _sums(text: bytes) -> dict[str, str]:
    lines = (_LINE.fullmatch(line) for line in text.decode("utf-8").splitlines())
    return {found[2]: found[1] for found in lines if found is not None}


def _take_member(
    archive: zipfile.ZipFile, item: zipfile.ZipInfo, sums: dict[str, str], good: dict[str, bytes]
) -> str:
    if not _MEMBER.fullmatch(item.filename):
        return "its name is not that of a job"
    if item.filename in good:
        return "it is there twice"
    try:
        data = _member(archive, item.filename)
    except (zipfile.BadZipFile, ValueError, NotImplementedError, RuntimeError, EOFError, OSError):
        return "it is damaged"
    if hashlib.sha256(data).hexdigest() != sums.pop(item.filename, ""):
        return "its checksum is wrong"
    good[item.filename] = data
    return ""


def _member(archive: zipfile.ZipFile, name: str) -> bytes:
    with archive.open(name) as opened:
        data = opened.read(16 * FILE_LIMIT if name == CHECKSUMS else FILE_LIMIT + 1)
    if name != CHECKSUMS and len(data) > FILE_LIMIT:
        raise ValueError("too large")
    return data


__all__ = ["Report", "export_all", "export_job", "import_all", "slug"]

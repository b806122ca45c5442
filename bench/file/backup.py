"""Backup of all jobs and the shop file, or of one job for another computer.

Invariant: nothing is ever overwritten; every job is in the backup or named with the reason,
and what cannot be saved stops nothing else.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from bench.clean import clean
from bench.file.archive import MEMBER, WHOLE_LIMIT, write_archive
from bench.file.disk import REAL, Disk
from bench.file.entry import FILE_LIMIT
from bench.file.ordinary import read_regular
from bench.file.plain import CannotOpen, NotSaved, cause
from bench.file.slug import ENDING, JOBS, NUMBER_LIMIT, SHOP, file_name, number_of

TORN = ".torn-"
"""How the name of a set-aside piece goes on after that of its job."""


@dataclass(slots=True)
class Packed:
    """What goes into a backup."""

    members: dict[str, bytes] = field(default_factory=dict)
    left_out: list[tuple[str, str]] = field(default_factory=list)
    """What is not in it, and why."""


def export_all(folder: Path, target_folder: Path, *, disk: Disk = REAL) -> tuple[Path, list[tuple[str, str]]]:
    """All session files, set-aside pieces and the shop file as a new zip, and what could not be taken along.

    Raises NotSaved, CannotOpen.
    """
    packed = Packed()
    try:
        present = sorted(disk.names(folder / JOBS))
    except FileNotFoundError:
        present = []
    except OSError as error:
        raise CannotOpen(f"The jobs cannot be read: {cause(error)}.") from error
    pieces = pieces_by_job(present)
    for name in present:
        if name.endswith(ENDING):
            with suppress(CannotOpen):
                _add_job(folder / JOBS / name, pieces.get(name, []), packed, disk)
    with suppress(FileNotFoundError, CannotOpen):
        disk.look(folder / SHOP)
        packed.members[SHOP] = _content(folder / SHOP, packed, follow=True)
    if sum(map(len, packed.members.values())) > WHOLE_LIMIT:
        most = WHOLE_LIMIT // 1024**2
        raise NotSaved(f"The jobs are more than one backup may hold ({most} MiB).", certain=True)
    return write_archive(packed.members, target_folder, "ringwright-backup", disk), packed.left_out


def export_job(path: Path, target_folder: Path, *, disk: Disk = REAL) -> tuple[Path, list[tuple[str, str]]]:
    """One session file and its set-aside pieces in the same way. Raises NotSaved, CannotOpen."""
    packed = Packed()
    pieces = pieces_by_job(sorted(disk.names(path.parent))).get(path.name, [])
    member = _add_job(path, pieces, packed, disk)
    stem = f"ringwright-job-{PurePosixPath(member).stem}"
    return write_archive(packed.members, target_folder, stem, disk), packed.left_out


def pieces_by_job(names: list[str]) -> dict[str, list[str]]:
    """The set-aside pieces among some names, by the name of the job they belong to."""
    found: dict[str, list[str]] = {}
    for name in names:
        job, torn, number = name.rpartition(TORN)
        if torn and number.isascii() and number.isdigit():
            found.setdefault(job, []).append(name)
    return found


def _add_job(path: Path, pieces: list[str], packed: Packed, disk: Disk) -> str:
    """Put one job and its pieces among the members; its name there is plain and free."""
    data = _content(path, packed)
    member = f"{JOBS}/{path.name}"
    number = number_of(path.name) or 1
    while MEMBER.fullmatch(member) is None or member in packed.members:
        member = f"{JOBS}/{file_name(number=number, text=text_of(path.name))}"
        number = number % (NUMBER_LIMIT - 1) + 1
    packed.members[member] = data
    for k, piece in enumerate(pieces, start=1):
        with suppress(CannotOpen):
            packed.members[f"{member}{TORN}{k}"] = _content(path.with_name(piece), packed)
    return member


def text_of(name: str) -> str:
    """The part of a file name that is not its number."""
    return name.removesuffix(ENDING).lstrip("0123456789")


def _content(path: Path, packed: Packed, *, follow: bool = False) -> bytes:
    """A file; one that cannot go into a backup is noted. Raises CannotOpen.

    `follow`: where a link leads is taken along.
    """
    name = clean(path.name)
    try:
        if path.is_symlink() and not follow:
            why = "it is a link to another place"
        else:
            data = read_regular(path, FILE_LIMIT)
            if len(data) <= FILE_LIMIT:
                return data
            why = "it is larger than a session file can be (8 MiB)"
    except OSError as error:
        why = cause(error)
    packed.left_out.append((name, why))
    raise CannotOpen(f"{name} cannot be read: {why}.")

"""The zip of a backup: files and their checksums, written once and read with distrust.

Invariant: a file comes out of an archive only if its name is one that we write ourselves and its checksum is
right, so that no archive can reach another folder or bring in half a file.
"""

from __future__ import annotations

import hashlib
import io
import re
import struct
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path

from bench.clean import clean
from bench.file.disk import Disk, write_new
from bench.file.entry import FILE_LIMIT
from bench.file.plain import CannotOpen, NotSaved, cause, no_copy

CHECKSUMS = "checksums.sha256"
"""Member with one line `digest  name` for each file, the form that sha256sum -c reads."""
MEMBER = re.compile(r"jobs/\d{1,9}(?:-[a-z0-9-]{1,60})?\.toml(?:\.torn-\d{1,5})?|shop\.toml")
"""The names that a backup holds."""

_LINE = re.compile(r"([0-9a-f]{64})  (\S+)")
_FILES_LIMIT = 200_000
_NAMES_TRIED = 10_000
_FIXED_DATE = (1980, 1, 1, 0, 0, 0)
_BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    struct.error,
    KeyError,
    ValueError,
    NotImplementedError,
    RuntimeError,
    EOFError,
)
_PACKED = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)


def digest(data: bytes) -> str:
    """SHA-256 as 64 hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def write_archive(members: Mapping[str, bytes], target: Path, stem: str, disk: Disk) -> Path:
    """A new zip `stem`-1.zip, -2.zip ... in the target folder, read back and compared. Raises NotSaved."""
    sums = "".join(f"{digest(data)}  {name}\n" for name, data in members.items())
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
            _prove(path, members)
            return path
    except OSError as error:
        raise NotSaved(no_copy(error), certain=True) from error
    raise NotSaved(
        "The copy was not saved: too many backups stand there. Choose another place.", certain=True
    )


def _prove(path: Path, members: Mapping[str, bytes]) -> None:
    try:
        found, refused = read_archive(path)
    except CannotOpen:
        found, refused = {}, [("", "")]
    if refused or found != members:
        raise NotSaved("The copy does not read back as it was written. Choose another disk.", certain=True)


def read_archive(path: Path) -> tuple[dict[str, bytes], list[tuple[str, str]]]:
    """The good files of an archive by name, and the refused names with the reason. Raises CannotOpen."""
    good: dict[str, bytes] = {}
    refused: list[tuple[str, str]] = []
    try:
        with zipfile.ZipFile(path) as archive:
            items = archive.infolist()
            if len(items) > _FILES_LIMIT:
                raise CannotOpen(f"{clean(path.name)} holds too many files to be a backup of ringwright.")
            sums = _sums(_content(archive, archive.getinfo(CHECKSUMS)))
            for item in items:
                why = "" if item.filename == CHECKSUMS else _take(archive, item, sums, good)
                if why:
                    refused.append((clean(item.filename)[:100], why))
    except OSError as error:
        raise CannotOpen(f"{clean(path.name)} cannot be read: {cause(error)}.") from error
    except _BROKEN as error:
        raise CannotOpen(f"{clean(path.name)} is not a backup of ringwright, or it is damaged.") from error
    refused += [(clean(name)[:100], "it is missing from the archive") for name in sums]
    return good, refused


def _sums(text: bytes) -> dict[str, str]:
    lines = (_LINE.fullmatch(line) for line in text.decode("utf-8").splitlines())
    return {found[2]: found[1] for found in lines if found is not None}


def _take(
    archive: zipfile.ZipFile, item: zipfile.ZipInfo, sums: dict[str, str], good: dict[str, bytes]
) -> str:
    """Take one file out; why not, if not. What is left in `sums` at the end was not in the archive."""
    if not MEMBER.fullmatch(item.filename):
        return "its name is not that of a job"
    if item.filename in good:
        return "it is there twice"
    stated = sums.pop(item.filename, None)
    if stated is None:
        return "it has no checksum"
    try:
        data = _content(archive, item)
    except (*_BROKEN, OSError):
        return "it is damaged"
    if digest(data) != stated:
        return "its checksum is wrong"
    good[item.filename] = data
    return ""


def _content(archive: zipfile.ZipFile, item: zipfile.ZipInfo) -> bytes:
    if item.compress_type not in _PACKED:
        raise ValueError("packed in a way that we do not use")
    limit = 16 * FILE_LIMIT if item.filename == CHECKSUMS else FILE_LIMIT
    with archive.open(item) as opened:
        data = opened.read(limit + 1)
    if len(data) > limit:
        raise ValueError("too large")
    return data

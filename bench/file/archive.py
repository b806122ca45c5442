"""The zip of a backup: files and their checksums, written once and read with distrust.

Invariant: a file comes out of an archive only if its name is one that we write ourselves and its checksum is
right, so that no archive can reach another folder or bring in half a file. One file at a time is unpacked, so
that no archive can fill the memory.
"""

from __future__ import annotations

import hashlib
import io
import os
import re
import stat
import struct
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path

from bench.clean import clean
from bench.file.disk import Disk, write_new
from bench.file.entry import FILE_LIMIT
from bench.file.ordinary import open_regular
from bench.file.plain import CannotOpen, NotSaved, cause, no_copy

CHECKSUMS = "checksums.sha256"
"""Member with one line `digest  name` for each file, the form that sha256sum -c reads."""
MEMBER = re.compile(r"jobs/[0-9]{1,9}(?:-[a-z0-9-]{1,60})?\.toml(?:\.torn-[0-9]{1,5})?|shop\.toml")
"""The names that a backup holds."""
WHOLE_LIMIT = 1024**3
"""Most bytes that all files of an archive may have together."""
FILES_LIMIT = 100_000
"""Most files of an archive."""

_LINE = re.compile(r"([0-9a-f]{64})  (\S+)")
_READ_LIMIT = 3 * FILE_LIMIT // 2
"""Most bytes read from the archive at once: its table of contents is one piece."""
_SUMS_LIMIT = 2 * FILE_LIMIT
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
_KINDS = {
    stat.S_IFLNK: "a link",
    stat.S_IFIFO: "a pipe",
    stat.S_IFSOCK: "a socket",
    stat.S_IFCHR: "a device",
    stat.S_IFBLK: "a device",
    stat.S_IFDIR: "a folder",
}


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
        with Archive(path) as archive:
            same = not archive.refused and len(archive.names) == len(members)
            same = same and all(archive.content(name) == data for name, data in members.items())
    except (CannotOpen, Spoiled):
        same = False
    if not same:
        raise NotSaved("The copy does not read back as it was written. Choose another disk.", certain=True)


class Spoiled(Exception):
    """A file of an archive that does not come out as it went in; the text says why."""


class Archive:
    """An archive opened to read, one file at a time. Use as a context manager; raises CannotOpen."""

    def __init__(self, path: Path) -> None:
        self.refused: list[tuple[str, str]] = []
        """What is not taken out of it whatever it holds, and why."""
        self._sums: dict[str, str] = {}
        self._items: dict[str, zipfile.ZipInfo] = {}
        name = clean(path.name)
        try:
            self._zip = zipfile.ZipFile(_Measured(open_regular(path), "rb"))
            self._look_through(name)
        except OSError as error:
            raise CannotOpen(f"{name} cannot be read: {cause(error)}.") from error
        except (*_BROKEN, MemoryError) as error:
            raise CannotOpen(f"{name} is not a backup of ringwright, or it is damaged.") from error

    def _look_through(self, name: str) -> None:
        """Which files may be taken out, from the table of contents and the checksums alone."""
        items = self._zip.infolist()
        if len(items) > FILES_LIMIT:
            raise CannotOpen(f"{name} holds too many files to be a backup of ringwright.")
        if sum(item.file_size for item in items) > WHOLE_LIMIT:
            most = WHOLE_LIMIT // 1024**2
            raise CannotOpen(f"{name} unpacks to more than a backup of ringwright may hold ({most} MiB).")
        self._sums = _sums(_content(self._zip, self._zip.getinfo(CHECKSUMS), _SUMS_LIMIT))
        for item in items:
            if item.filename == CHECKSUMS:
                continue
            why = self._why_not(item)
            if why:
                self.refused.append((clean(item.filename)[:100], why))
            else:
                self._items[item.filename] = item
        seen = {item.filename for item in items}
        missing = [name for name in self._sums if name not in seen]
        self.refused += [(clean(name)[:100], "it is missing from the archive") for name in missing]

    def _why_not(self, item: zipfile.ZipInfo) -> str:
        """Why a file is not taken out, from what the table of contents says of it."""
        kind = _KINDS.get(stat.S_IFMT(item.external_attr >> 16))
        if kind is not None:
            return f"it is {kind}, not an ordinary file"
        if not MEMBER.fullmatch(item.filename):
            return "its name is not that of a job"
        if item.filename in self._items:
            return "it is there twice"
        if item.filename not in self._sums:
            return "it has no checksum"
        if item.file_size > FILE_LIMIT:
            return "it is larger than a session file can be (8 MiB)"
        return ""

    @property
    def names(self) -> list[str]:
        """The files that may be taken out, in the order of their names."""
        return sorted(self._items)

    def content(self, name: str) -> bytes:
        """One file; raises Spoiled."""
        try:
            data = _content(self._zip, self._items[name], FILE_LIMIT)
        except (*_BROKEN, OSError) as error:
            raise Spoiled("it is damaged") from error
        if digest(data) != self._sums[name]:
            raise Spoiled("its checksum is wrong")
        return data

    def __enter__(self) -> Archive:
        return self

    def __exit__(self, *error: object) -> None:
        self._zip.close()


class _Measured(io.FileIO):
    """A file of which no piece larger than a table of contents may be asked for at once."""

    def read(self, size: int | None = -1, /) -> bytes:
        left = os.fstat(self.fileno()).st_size - self.tell()
        wanted = left if size is None or size < 0 else min(size, left)
        if wanted > _READ_LIMIT:
            raise zipfile.BadZipFile("a piece beyond all measure")
        return super().read(max(wanted, 0)) or b""


def _sums(text: bytes) -> dict[str, str]:
    lines = (_LINE.fullmatch(line) for line in text.decode("utf-8").splitlines())
    return {found[2]: found[1] for found in lines if found is not None}


def _content(archive: zipfile.ZipFile, item: zipfile.ZipInfo, limit: int) -> bytes:
    if item.compress_type not in _PACKED:
        raise ValueError("packed in a way that we do not use")
    with archive.open(item) as opened:
        data = opened.read(limit + 1)
    if len(data) > limit:
        raise ValueError("too large")
    return data

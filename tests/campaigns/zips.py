"""Zip archives made byte by byte, so that they can say anything: sizes, kinds and counts that are not so."""

from __future__ import annotations

import hashlib
import stat
import struct
import zlib
from collections.abc import Iterable
from dataclasses import dataclass

STORED, DEFLATED = 0, 8


@dataclass(frozen=True, kw_only=True)
class Member:
    """One file of an archive, and what the archive says of it."""

    name: bytes
    data: bytes = b""
    """As it stands in the archive, packed or not."""
    size: int | None = None
    """What it is said to unpack to; usually the length of the data."""
    crc: int | None = None
    method: int = STORED
    mode: int = stat.S_IFREG | 0o600
    flags: int = 0x800
    shared: bool = False
    """Stands at the place of the member before it, so that its bytes are there once only."""


def packed(name: str, data: bytes, *, mode: int = stat.S_IFREG | 0o600) -> Member:
    """An ordinary packed member."""
    squeezer = zlib.compressobj(wbits=-15)
    raw = squeezer.compress(data) + squeezer.flush()
    return Member(
        name=name.encode(), data=raw, size=len(data), crc=zlib.crc32(data), method=DEFLATED, mode=mode
    )


def sums(contents: Iterable[tuple[str, bytes]]) -> Member:
    """The member with the right checksums of some files."""
    lines = (f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in contents)
    return packed("checksums.sha256", "".join(lines).encode())


def archive(members: Iterable[Member], *, table_size: int | None = None) -> bytes:
    """The whole archive; `table_size`: what its end says of the size of its table of contents."""
    body, table, count, at = bytearray(), bytearray(), 0, 0
    for one in members:
        size = len(one.data) if one.size is None else one.size
        crc = zlib.crc32(one.data) if one.crc is None else one.crc
        about = struct.pack(
            "<HHHHHLLLHH", 20, one.flags, one.method, 0, 33, crc, len(one.data), size, len(one.name), 0
        )
        if not one.shared:
            at = len(body)
            body += b"PK\x03\x04" + about + one.name + one.data
        table += b"PK\x01\x02" + struct.pack("<H", 0x0314) + about
        table += struct.pack("<HHHLL", 0, 0, 0, one.mode << 16, at) + one.name
        count += 1
    end = struct.pack(
        "<HHHHLLH",
        0,
        0,
        min(count, 0xFFFF),
        min(count, 0xFFFF),
        len(table) if table_size is None else table_size,
        len(body),
        0,
    )
    return bytes(body + table + b"PK\x05\x06" + end)

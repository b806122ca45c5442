"""Session files as text for the tests: a small job, and edits on it."""

from __future__ import annotations

from bench.file.codec import crc_of, render_entry, render_head
from bench.file.entry import Entry, Head, Value

AT = "2026-01-01T10:01:51+01:00"
ID = "2265b1f5"
HEAD = Head(format=1, id=ID, job="A-1042", made_by="ringwright 0.1")


def answer(n: int, value: Value, key: str = "case_bore_1") -> Entry:
    """An answer."""
    return Entry(n=n, at=AT, kind="answer", key=key, value=value)


ENTRIES = (
    answer(1, "29.46 mm"),
    answer(2, "1.20 mm", "ring_wall"),
    answer(3, "29.48 mm"),
    Entry(n=4, at=AT, kind="note", key="", value="glued before"),
    answer(5, "30.10 mm", "glass_od"),
)


def file_of(*entries: Entry, head: Head = HEAD) -> bytes:
    """A session file."""
    return render_head(head) + b"".join(render_entry(entry, salt=head.id) for entry in entries)


def job() -> bytes:
    """Head and five entries; entry 3 answers anew what entry 1 had answered."""
    return file_of(*ENTRIES)


def block(text: str) -> bytes:
    """A block with any fields and no checksum of its own."""
    return f"\n[[entry]]\n{text}".encode()


def sealed(fields: dict[str, object], salt: str = ID) -> bytes:
    """A block with any fields and the right checksum."""

    def written(value: object) -> str:
        return f'"{value}"' if isinstance(value, str) else str(value)

    lines = "".join(f"{name} = {written(value)}\n" for name, value in fields.items())
    return f'\n[[entry]]\n{lines}crc = "{crc_of(salt, fields)}"\n'.encode()


def with_crc_of(data: bytes, n: int, crc: str) -> bytes:
    """The checksum of entry n replaced."""
    at = data.index(b'crc = "', data.index(f"\nn = {n}\n".encode()))
    return data[:at] + f'crc = "{crc}"'.encode() + data[data.index(b"\n", at) :]

"""`python -m tests.bench.file.make_read_as`: how a small file reads after each way of changing it.


Blocks gone, twice, moved, renumbered, edited, cut; whole files in other dress. Look at the difference before
keeping it: what is said of each, which entries count, and what is left to be looked at.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import permutations
from pathlib import Path

from bench.file.load import load
from tests.bench.file.texts import ENTRIES, HEAD, file_of, job, sealed, with_crc_of

FILE = Path(__file__).with_name("read_as.txt")
HEAD_BLOCK = file_of()
BLOCKS = tuple(file_of(entry)[len(HEAD_BLOCK) :] for entry in ENTRIES)
Way = tuple[str, bytes]


def together(*blocks: bytes, head: bytes = HEAD_BLOCK) -> bytes:
    """Head and blocks."""
    return head + b"".join(blocks)


def one_block(index: int) -> Iterator[Way]:
    """What can happen to one block."""
    others, it = [*BLOCKS[:index], *BLOCKS[index + 1 :]], BLOCKS[index]
    n = index + 1

    def instead(block: bytes) -> bytes:
        return together(*BLOCKS[:index], block, *BLOCKS[index + 1 :])

    yield "gone", together(*others)
    yield "twice in its place", instead(it + it)
    yield "again at the end", together(*BLOCKS, it)
    yield "moved to the front", together(it, *others)
    yield "moved to the end", together(*others, it)
    for number in (0, -1, 7, 1000, n + 1001, 10**9, (n % 5) + 1):
        yield f"numbered {number}", instead(it.replace(b"n = %d\n" % n, b"n = %d\n" % number))
    edited = it.replace(b"value = ", b"value = ").replace(b"9", b"8", 1).replace(b"glued", b"glues")
    edited = edited.replace(b"1.20", b"1.30").replace(b"30.10", b"31.10")
    edited = edited if edited != it else it.replace(b"29.4", b"29.5")
    yield "edited", instead(edited)
    yield (
        "edited, and again at the end as it was",
        together(*BLOCKS[:index], edited, *BLOCKS[index + 1 :], it),
    )
    yield "edited by hand", with_crc_of(instead(edited), n, "hand")
    yield (
        "edited by hand and renumbered",
        with_crc_of(instead(edited), n, "hand").replace(b"n = %d\n" % n, b"n = 9\n"),
    )
    yield "kind unknown", instead(it.replace(b'kind = "', b'kind = "x'))
    yield "a quote gone", instead(it.replace(b'"\ncrc', b"\ncrc"))
    yield "no checksum", instead(it[: it.index(b"crc")])
    yield "zeros in it", instead(it[:40] + bytes(9) + it[49:])
    yield "text after it", instead(it + b"\nwritten by hand\n")
    yield "a comment after it", instead(it + b"\n# seen\n")
    yield "cut in the middle", together(*BLOCKS[:index], it[: len(it) // 2])
    yield "cut in the middle, the rest there", instead(it[: len(it) // 2])


def many_blocks() -> Iterator[Way]:
    """Two blocks gone, blocks in other orders, and what a newer or another program wrote."""
    for first in range(5):
        for second in range(first + 1, 5):
            left = [block for index, block in enumerate(BLOCKS) if index not in (first, second)]
            yield f"{first + 1} and {second + 1} gone", together(*left)
    for order in list(permutations(range(5)))[7::17]:
        yield f"in the order {' '.join(str(n + 1) for n in order)}", together(*(BLOCKS[n] for n in order))
    at = {"at": "2026-01-01T10:01:51+01:00"}
    for name, fields in (
        ("a confirm of 3", {"n": 6, **at, "kind": "confirm", "key": "", "value": "x", "of": 3}),
        ("an undo of 3", {"n": 6, **at, "kind": "undo", "key": "case_bore_1", "value": "29.48 mm", "of": 3}),
        ("an undo of 9", {"n": 6, **at, "kind": "undo", "key": "case_bore_1", "value": "29.48 mm", "of": 9}),
        ("a mark", {"n": 6, **at, "kind": "mark", "key": "sitting", "value": "work"}),
        ("a field of a newer version", {"n": 6, **at, "kind": "note", "key": "", "value": "x", "hue": "red"}),
        ("a kind of a newer version", {"n": 6, **at, "kind": "sketch", "key": "", "value": "x"}),
        ("an answer without a value", {"n": 6, **at, "kind": "answer", "key": "glass_od"}),
    ):
        yield f"and {name}", together(*BLOCKS, sealed(fields))


def whole_files() -> Iterator[Way]:
    """The whole file in another dress, and what is no file of ours."""
    plain = job()
    yield "as written", plain
    yield "with a byte order mark", b"\xef\xbb\xbf" + plain
    yield "with Windows line ends", plain.replace(b"\n", b"\r\n")
    yield "with old Macintosh line ends", plain.replace(b"\n", b"\r")
    yield "in UTF-16", plain.decode().encode("utf-16")
    yield "nothing", b""
    yield "blanks", b" \n\n"
    yield "an archive", b"PK\x03\x04 whatever"
    yield "another file", b"[package]\nname = 'x'\n"
    yield "a last line without its end", plain[:-1]
    yield "blank lines more", plain.replace(b"\n\n", b"\n\n\n")
    yield "text before the first block", b"hello\n" + plain
    yield "text after the last block", plain + b"hello\n"
    yield "zeros after the last block", plain + bytes(40)
    yield "two halves after the last block", plain + BLOCKS[0][:40] + b"\n" + BLOCKS[1][:40]
    yield "the head alone", HEAD_BLOCK
    yield "no head", b"".join(BLOCKS)
    yield "a head half written", HEAD_BLOCK[: len(HEAD_BLOCK) // 2]
    yield "the head changed", plain.replace(b"A-1042", b"A-1043")
    yield "the head changed by hand", with_head_crc(plain.replace(b"A-1042", b"A-1043"), b"hand")
    yield "a newer format", plain.replace(b"format = 1", b"format = 2")
    yield "a newer format by hand", with_head_crc(plain.replace(b"format = 1", b"format = 2"), b"hand")


def with_head_crc(data: bytes, crc: bytes) -> bytes:
    """The checksum of the head replaced."""
    at = data.index(b'crc = "')
    return data[:at] + b'crc = "' + crc + b'"' + data[data.index(b"\n", at) :]


def ways() -> Iterator[Way]:
    """Every way, named."""
    yield from whole_files()
    for index in range(len(BLOCKS)):
        yield from ((f"entry {index + 1} {name}", data) for name, data in one_block(index))
    yield from many_blocks()


def read_as(data: bytes) -> list[str]:
    """What is made of a file: its state, what counts, and what has to be looked at."""
    loaded = load(data)
    numbers = " ".join(f"{one.n}={one.value!r}" if one.n in (1, 3) else str(one.n) for one in loaded.usable)
    flags = [word for word, is_so in (("read only", loaded.read_only), ("gated", loaded.gated)) if is_so]
    lines = [
        f"{loaded.state} {' '.join(flags)}".rstrip() + f"; next {loaded.next_n}; counts: {numbers or 'none'}"
    ]
    if loaded.torn:
        lines.append(f"torn {len(loaded.torn)} bytes after {loaded.trusted_end}")
    lines.append(loaded.message.replace("\n", " / "))
    lines += [f"{one.of} {one.state} {one.line} {one.entry and one.entry.value!r}" for one in loaded.findings]
    return lines


def text(every: Callable[[], Iterator[Way]] = ways) -> str:
    """All of it."""
    assert HEAD.format == 1
    return "\n".join(f"== {name}\n" + "\n".join(read_as(data)) for name, data in every()) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
    print(f"{FILE.name}: {sum(1 for _ in ways())} ways")

"""Odd files, each with the states in which it may be explained;
made by hand, most of them met in the wild.
"""

from __future__ import annotations

import gzip
import zipfile
from io import BytesIO

from bench.file.entry import FILE_LIMIT, N_LIMIT
from tests.bench.file.texts import AT, ENTRIES, HEAD, ID, answer, block, file_of, job, sealed

JOB = job()
HEAD_ONLY = file_of()
_BLOCK = JOB[JOB.index(b"\n[[entry]]") :]


def _zip() -> bytes:
    made = BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        archive.writestr("jobs/00001.toml", JOB)
    return made.getvalue()


def _fields(**changes: object) -> dict[str, object]:
    return {"n": 6, "at": AT, "kind": "answer", "key": "a", "value": "b"} | changes


def _line(text: str) -> bytes:
    return block(f'n = 6\nat = "{AT}"\nkind = "answer"\nkey = "a"\n{text}\ncrc = "00000000"\n')


_other = HEAD.__class__(format=1, id="0badcafe", job="B", made_by="x")

ODD_FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "foreign"),
    "one newline": (b"\n", "foreign"),
    "one zero": (b"\0", "foreign"),
    "zeros": (bytes(5000), "foreign"),
    "prose": (b"Dear customer,\nyour watch is ready.\n", "foreign"),
    "other toml": (b'[shop]\nname = "x"\n', "foreign"),
    "shop file with a format": (b'format = 1\nid = "2265b1f5"\n', "foreign"),
    "json": (b'{"format": 1}', "foreign"),
    "html": (b"<!doctype html><p>crc = 1</p>", "foreign"),
    "gzip": (gzip.compress(JOB), "foreign"),
    "zip": (_zip(), "foreign"),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 8, "foreign"),
    "program": (b"\x7fELF" + bytes(300), "foreign"),
    "all bytes": (bytes(range(256)), "foreign"),
    "terminal codes": (b"\x1b[2J\x1b]0;x\x07\x1b]52;c;eA==\x07", "foreign"),
    "too large": (b"#" * (FILE_LIMIT + 1), "foreign"),
    "head only": (HEAD_ONLY, "fine"),
    "head without its last line": (HEAD_ONLY[: HEAD_ONLY.rindex(b"crc")], "damaged"),
    "half a head": (HEAD_ONLY[:150], "damaged"),
    "head cut in its comment": (HEAD_ONLY[:40], "damaged"),
    "head twice": (HEAD_ONLY + HEAD_ONLY, "unfinished"),
    "no head": (_BLOCK, "damaged"),
    "entries before the head": (_BLOCK + HEAD_ONLY, "damaged"),
    "byte order mark": (b"\xef\xbb\xbf" + JOB, "fine"),
    "byte order mark twice": (b"\xef\xbb\xbf" * 2 + JOB, "damaged"),
    "byte order mark inside": (
        JOB.replace(b"\n[[entry]]\nn = 3", b"\n\xef\xbb\xbf[[entry]]\nn = 3"),
        "damaged",
    ),
    "CRLF": (JOB.replace(b"\n", b"\r\n"), "fine"),
    "CRLF mixed": (JOB[:400] + JOB[400:].replace(b"\n", b"\r\n"), "fine"),
    "lone CR": (JOB.replace(b"\n", b"\r"), "damaged"),
    "one lone CR": (JOB.replace(b"29.48 mm", b"29.48\r mm"), "damaged"),
    "zero inside": (JOB.replace(b"29.48", b"29\x0048"), "damaged"),
    "zeros at the end": (JOB + bytes(4096), "unfinished"),
    "zeros in the last entry": (JOB.replace(b"30.10", bytes(5)), "unfinished"),
    "UTF-16": (JOB.decode().encode("utf-16"), "damaged"),
    "UTF-16 without its mark": (JOB.decode().encode("utf-16-le"), "damaged"),
    "UTF-16 prose": ("Dear customer".encode("utf-16"), "foreign"),
    "UTF-16 cut in half a letter": (JOB.decode().encode("utf-16")[:-1], "damaged"),
    "Latin-1 in an answer": (JOB.replace(b"29.48 mm", b"29.48 \xb5m"), "damaged"),
    "Latin-1 in the last answer": (JOB.replace(b"30.10 mm", b"30.10 \xb5m"), "unfinished"),
    "Latin-1 in the head": (JOB.replace(b"A-1042", b"R\xe9f"), "damaged"),
    "nested 30,000 deep": (JOB + _line("value = " + "[" * 30_000), "damaged"),
    "nested 3,000 deep": (JOB + _line("value = " + "[" * 3_000 + "]" * 3_000), "damaged"),
    "inline tables 3,000 deep": (JOB + _line("value = " + "{a=" * 3_000 + "1" + "}" * 3_000), "damaged"),
    "dotted key 3,000 deep": (JOB + _line("a" + ".a" * 3_000 + " = 1"), "damaged"),
    "number of 5,000 digits": (JOB + _line("value = " + "9" * 5_000), "damaged"),
    "hexadecimal number of 5,000 digits": (JOB + _line("value = 0x" + "f" * 5_000), "damaged"),
    "number of an entry of 5,000 digits": (
        JOB.replace(b"n = 3\n", b"n = " + b"3" * 5_000 + b"\n"),
        "damaged",
    ),
    "decimal of 5,000 digits": (JOB + _line("value = 0." + "9" * 5_000), "damaged"),
    "exponent of 20 digits": (JOB + _line("value = 1e99999999999999999999"), "damaged"),
    "not a number": (JOB + _line("value = nan"), "damaged"),
    "infinity": (JOB + _line("value = -inf"), "damaged"),
    "date": (JOB + _line("value = 2026-01-01T10:00:00Z"), "damaged"),
    "table in an entry": (JOB + _line('value = "b"\n[entry.x]\ny = 1'), "damaged"),
    "list of 2,000": (JOB + _line("value = [" + "1," * 2_000 + "]"), "damaged"),
    "text over many lines": (JOB + _line('value = """a\nb"""'), "changed"),
    "line too long": (JOB + _line('value = "' + "x" * 17_000 + '"'), "damaged"),
    "block too long": (JOB + _line('# "' + ("x" * 100 + "\n# ") * 700 + '\nvalue = "b"'), "damaged"),
    "key twice": (JOB + _line('value = "b"\nvalue = "c"'), "damaged"),
    "surrogate as an escape": (JOB + _line('value = "\\ud800"'), "damaged"),
    "bidi and zero-width raw": (JOB.replace(b"29.48", "29\u202e\u200b48".encode()), "changed"),
    "newer format": (JOB.replace(b"format = 1", b"format = 2"), "newer"),
    "much newer format": (JOB.replace(b"format = 1", b"format = 1000000000"), "newer"),
    "format beyond reason": (JOB.replace(b"format = 1", b"format = 99999999999999999999"), "damaged"),
    "format 0": (JOB.replace(b"format = 1", b"format = 0"), "damaged"),
    "format as text": (JOB.replace(b"format = 1", b'format = "1"'), "damaged"),
    "format true": (JOB.replace(b"format = 1", b"format = true"), "damaged"),
    "id too short": (JOB.replace(b"2265b1f5", b"2265b1f"), "damaged"),
    "unknown kind": (JOB + sealed(_fields(kind="picture")), "newer"),
    "unknown field": (JOB + sealed(_fields(unit="mm")), "newer"),
    "number below one": (JOB + sealed(_fields(n=0)), "damaged"),
    "number above the limit": (JOB + sealed(_fields(n=N_LIMIT + 1)), "damaged"),
    "number at the limit": (JOB + sealed(_fields(n=N_LIMIT)), "gap"),
    "undo of itself": (JOB + sealed({"n": 6, "at": AT, "kind": "undo", "of": 6}), "damaged"),
    "undo of a later one": (JOB + sealed({"n": 6, "at": AT, "kind": "undo", "of": 7}), "damaged"),
    "undo of nothing": (JOB + sealed({"n": 6, "at": AT, "kind": "undo"}), "damaged"),
    "confirm of a sound entry with a wrong mark": (
        JOB + sealed({"n": 6, "at": AT, "kind": "confirm", "of": 3, "value": "00000000"}),
        "changed",
    ),
    "answer without a key": (JOB + sealed({"n": 6, "at": AT, "kind": "answer", "value": "b"}), "damaged"),
    "answer without a value": (JOB + sealed({"n": 6, "at": AT, "kind": "answer", "key": "a"}), "damaged"),
    "two files joined": (JOB + file_of(answer(1, "1.00 mm"), head=_other), "damaged"),
    "a file twice": (JOB + JOB, "damaged"),
    "same number twice, same content": (JOB + _BLOCK, "fine"),
    "same number twice, other content": (JOB + file_of(answer(5, "9.99 mm"))[len(HEAD_ONLY) :], "damaged"),
    "first entries missing": (file_of(*ENTRIES[2:]), "gap"),
    "backwards": (file_of(*reversed(ENTRIES)), "fine"),
    "clock nonsense": (JOB.replace(AT.encode(), b"yesterday"), "changed"),
    "header in small and large letters": (JOB.replace(b"[[entry]]\nn = 3", b"[[Entry]]\nn = 3"), "damaged"),
    "conflict marks of a version control": (
        JOB.replace(b"\n[[entry]]\nn = 3", b"\n<<<<<<< mine\n\n[[entry]]\nn = 3"),
        "damaged",
    ),
    "markup": (JOB.replace(b"A-1042", b"[@click=app.quit]x[/]"), "changed"),
    "checksum emptied": (JOB.replace(JOB[JOB.rindex(b"crc") :], b'crc = ""\n'), "changed"),
    "checksum in capitals": (JOB[: JOB.rindex(b"crc")] + JOB[JOB.rindex(b"crc") :].upper(), "unfinished"),
    "checksum line gone at the end": (JOB[: JOB.rindex(b"crc")], "unfinished"),
    "text behind the last entry": (JOB + b"thin ring\n", "unfinished"),
    "comment behind the last entry": (JOB + b"# thin ring\n", "fine"),
    "two unfinished entries": (JOB + block("n = 6\n") + block("n = 7\n"), "damaged"),
    "entry header only": (JOB + b"\n[[entry]]\n", "unfinished"),
    "2,000 empty entries": (HEAD_ONLY + b'[[entry]]\ncrc = ""\n' * 2_000, "damaged"),
    "20,000 headers": (HEAD_ONLY + b"[[entry]]\n" * 20_000, "damaged"),
    "id of another job in the head": (JOB.replace(ID.encode(), b"deadbeef"), "changed"),
}

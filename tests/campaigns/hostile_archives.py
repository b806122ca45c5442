"""Archives that mean harm, each imported by the program in half a gigabyte of address space.

Whatever the archive, the program ends by itself with a status of its own and no fault of ours, writes nothing
but ordinary files into the folder of jobs, and names what it does not take. Long form:
`python -m tests.campaigns.hostile_archives --long`.
"""

from __future__ import annotations

import os
import resource
import socket
import stat
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.campaigns.common import Counts, main
from tests.campaigns.zips import Member, archive, packed, sums

MEMORY = 512 * 2**20
FILE = 8 * 2**20
ROOT = Path(__file__).resolve().parents[2]
SAMPLE = next(iter(sorted((ROOT / "sample_sessions").glob("*.toml")))).read_bytes()
HEAD = SAMPLE.partition(b"\n[[entry]]")[0] + b"\n"
PLANTED = "import bench.file.archive as a; a.WHOLE_LIMIT = a.FILE_LIMIT = a._SUMS_LIMIT = 10**12;"
"""The fault that the campaign has to catch: no limit on what is unpacked."""

Zip = Callable[[Path], object]
"""Puts an archive, or whatever stands for one, under a name."""


def of(*members: Member) -> Zip:
    """An archive of these members, their checksums missing."""
    return lambda path: path.write_bytes(archive(members))


def whole(*files: tuple[str, bytes]) -> Zip:
    """An archive of these files with right checksums."""
    return of(*(packed(name, data) for name, data in files), sums(files))


def job(number: int) -> str:
    """The name of a job in an archive."""
    return f"jobs/{number:05d}.toml"


def bomb(path: Path) -> None:
    """A megabyte that unpacks to more than a gigabyte, every file as large as a job may be."""
    zeros = bytes(FILE)
    one = packed(job(1), zeros)
    rest = [
        Member(name=job(n).encode(), data=one.data, size=one.size, crc=one.crc, method=one.method)
        for n in range(2, 152)
    ]
    path.write_bytes(archive([one, *rest, sums((job(n), zeros) for n in range(1, 152))]))


def liar(path: Path) -> None:
    """A file that says it is small and unpacks to a gigabyte; the checksums say the same of theirs."""
    zeros = packed(job(1), bytes(1024 * 2**20))
    small = Member(name=zeros.name, data=zeros.data, size=100, crc=zeros.crc, method=zeros.method)
    path.write_bytes(archive([small, sums([(job(1), b"x")])]))


def swollen_sums(path: Path) -> None:
    """Checksums that unpack to more than half a gigabyte."""
    path.write_bytes(archive([packed("checksums.sha256", bytes(600 * 2**20))]))


def endless_table(path: Path) -> None:
    """A sparse file of five gigabytes that says it is all table of contents."""
    with path.open("wb") as file:
        file.truncate(5 * 2**30)
        file.seek(0, os.SEEK_END)
        file.write(archive([], table_size=0xFFFFFFF0))


def many(count: int) -> Zip:
    """Very many files of no length."""
    return lambda path: path.write_bytes(archive(Member(name=b"%d" % n, shared=n > 0) for n in range(count)))


def kin(path: Path) -> None:
    """Very many files of one job, each a little different."""
    files = [(job(n), HEAD + b"# %d\n" % n) for n in range(1, 3001)]
    whole(*files)(path)


def pieces(path: Path) -> None:
    """A job with many large set-aside pieces."""
    zeros = [(f"{job(1)}.torn-{n}", bytes([n]) * FILE) for n in range(1, 9)]
    whole((job(1), SAMPLE), *zeros)(path)


def kinds(path: Path) -> None:
    """Files that say they are links, pipes, sockets, devices and folders."""
    modes = (stat.S_IFLNK, stat.S_IFIFO, stat.S_IFSOCK, stat.S_IFCHR, stat.S_IFBLK, stat.S_IFDIR)
    files = [(job(n), b"/etc/passwd") for n, _ in enumerate(modes, 1)]
    marked = [packed(name, data, mode=mode) for (name, data), mode in zip(files, modes, strict=True)]
    path.write_bytes(archive([*marked, sums(files)]))


def listener(path: Path) -> None:
    """A socket under the name of the archive."""
    with socket.socket(socket.AF_UNIX) as made:
        made.bind(str(path))


HOSTILE: dict[str, Zip] = {
    "bomb": bomb,
    "overlapping bomb": of(
        packed(job(1), bytes(FILE)),
        *(Member(name=job(n).encode(), size=FILE, method=8, shared=True) for n in range(2, 200)),
        sums([]),
    ),
    "liar": liar,
    "swollen checksums": swollen_sums,
    "swollen file": lambda path: whole((job(1), bytes(600 * 2**20)))(path),
    "endless table": endless_table,
    "150,000 files": many(150_000),
    "400,000 files": many(400_000),
    "file of blocks": whole((job(1), HEAD + b'[[entry]]\ncrc=""\n' * (FILE // 18 - 100))),
    "file of headers": whole((job(1), HEAD + b"[[entry]]\n" * (FILE // 10 - 100))),
    "file of stray words": whole((job(1), HEAD + b'x\n[[entry]]\nn=1\ncrc="0"\n' * (FILE // 28))),
    "file of line ends": whole((job(1), HEAD + b"\n" * (FILE - 1000))),
    "file of brackets": whole((job(1), HEAD + b"[" * (FILE - 1000))),
    "one long line": whole((job(1), HEAD + b"[[entry]]\nvalue = '" + b"x" * (FILE - 1000))),
    "kin": kin,
    "pieces": pieces,
    "kinds": kinds,
    "nothing and broken": whole(
        (job(1), b""), (job(2), b"hello"), (job(3), HEAD[: len(HEAD) // 2]), ("shop.toml", b"= ")
    ),
    "other digits": whole(("jobs/\u0661\u0662.toml", SAMPLE), (job(5), SAMPLE)),
    "other packing": of(
        *(Member(name=job(n).encode(), method=n) for n in range(1, 20)), sums([(job(1), b"")])
    ),
    "locked": of(Member(name=job(1).encode(), data=b"x" * 20, flags=1), sums([(job(1), b"x" * 20)])),
    "long name": of(Member(name=b"jobs/" + b"1" * 60_000 + b".toml"), sums([])),
    "zeros": lambda path: path.symlink_to("/dev/zero"),
    "noise": lambda path: path.symlink_to("/dev/urandom"),
    "full": lambda path: path.symlink_to("/dev/full"),
    "pipe": os.mkfifo,
    "folder": Path.mkdir,
    "socket": listener,
    "link to itself": lambda path: path.symlink_to(path),
    "nobody": lambda path: None,
}
"""Every archive by its name."""
REFUSED_WHOLE = (
    "bomb",
    "overlapping bomb",
    "swollen checksums",
    "endless table",
    "150,000 files",
    "400,000 files",
    "zeros",
    "noise",
    "full",
    "pipe",
    "folder",
    "socket",
    "link to itself",
    "nobody",
)
"""Archives of which nothing is taken."""
SLOW = ("liar", "swollen checksums", "swollen file", "400,000 files", "pieces", "kin", "bomb")
SHORT = tuple(name for name in HOSTILE if name not in SLOW)


def run(*, long: bool = False, planted: str = "") -> Counts:
    """Each archive once; short: those that are quickly made."""
    counts = Counts()
    for name in HOSTILE if long else SHORT:
        with tempfile.TemporaryDirectory() as folder:
            one(counts, name, Path(folder), planted)
    return counts


def one(counts: Counts, name: str, place: Path, planted: str = "") -> None:
    """One archive imported in a program of its own, and what stands there afterwards."""
    counts.tried += 1
    HOSTILE[name](place / "x.zip")
    before = set(place.rglob("*"))
    with limited() as limit:
        done = subprocess.run(
            [sys.executable, "-c", f"import sys; {planted} from ringwright import main; sys.exit(main())"]
            + ["--folder", str(place / "here"), "import", str(place / "x.zip")],
            capture_output=True,
            text=True,
            timeout=120,
            cwd=ROOT,
            preexec_fn=limit,
            check=False,
        )
    said = (done.stdout + done.stderr).strip()
    counts.seen[f"status {done.returncode}"] += 1
    if done.returncode not in (0, 1, 2, 3) or "fault of ours" in said or not said:
        counts.fail("status", f"{name}: {done.returncode}: {said[-200:]}")
    made = {path for path in place.rglob("*") if path not in before and path.is_file()}
    counts.seen["files imported"] += len(made)
    counts.seen["files refused by name"] += said.count("NOT imported")
    if any(path.parent != place / "here" / "jobs" or path.is_symlink() for path in made):
        counts.fail("place", f"{name}: {sorted(made)[:3]}")
    if name in REFUSED_WHOLE and made:
        counts.fail("taken", f"{name}: {len(made)} files")


@contextmanager
def limited() -> Iterator[Callable[[], None]]:
    """What limits the memory of a program that is begun."""
    yield lambda: resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


if __name__ == "__main__":
    main(run)

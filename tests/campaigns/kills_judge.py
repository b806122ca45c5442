"""What has to be in a session file after a kill, from what was told before it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from bench.file.entry import Entry
from bench.file.load import load
from bench.file.store import open_session
from tests.campaigns.common import Counts


def flat(entry: Entry) -> list[Any]:
    """Kind, key, value and of, as they are told."""
    value = list(entry.value) if isinstance(entry.value, tuple) else entry.value
    return [entry.kind, entry.key, value, entry.of]


def judge(
    counts: Counts,
    path: Path,
    told: Sequence[dict[str, Any]],
    before: bytes,
    where: str,
    *,
    said: Callable[[Entry], list[Any]] = flat,
) -> None:
    """Every entry told as saved is there, at most one that was about to be written, nothing else;
    every byte that was cut off is kept beside the file.
    """
    intended = [one["will"] for one in told if "will" in one]
    saved = sum("saved" in one for one in told)
    known = [said(entry) for entry in load(before).usable]
    damaged = path.read_bytes()
    with open_session(path) as job:
        found = [said(entry) for entry in job.entries]
        if not job.writable:
            counts.fail("lock", f"{where}: {job.why_read_only}")
    fresh = found[len(known) :]
    if known != found[: len(known)] or intended[:saved] != fresh[:saved]:
        counts.fail("lost", f"{where}: {len(fresh)} of {saved}")
    elif fresh != intended[: len(fresh)] or len(fresh) > saved + 1:
        counts.fail("invented", f"{where}: {fresh[saved:]}")
    counts.seen["entries told as saved"] += saved
    counts.seen["in flight turned up whole"] += len(fresh) > saved
    now = path.read_bytes()
    if now != damaged:
        counts.seen["torn tail"] += 1
        kept = [other.read_bytes() for other in path.parent.glob(f"{path.name}.torn-*")]
        if not damaged.startswith(now) or damaged[len(now) :] not in kept:
            counts.fail("bytes", f"{where}: {len(damaged) - len(now)} bytes are gone")

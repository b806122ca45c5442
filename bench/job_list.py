"""The rows of the list of jobs: by a quick look at their files, or by walking the route of each.

Invariant: only reads jobs; an index of earlier looks is disposable
and never trusted over a file that changed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.desk.copy_effects import CopiesFound
from bench.desk.effects import JobRow, Listed
from bench.file.listing import Apply, Index, Row, file_names, names, rows
from bench.file.slug import JOBS, SHOP, number_of
from bench.folder import GLANCED_NAME, INDEX_NAME, shop_in, wrong_shop
from bench.in_numbers import Told, apply_to_many, unheard
from bench.refusal import Refused
from bench.summary import GATED, glance, summary
from bench.version import VERSION

if TYPE_CHECKING:
    from bench.file.load import Loaded
    from bench.joining.twins import Heads
    from bench.shop.shop import Shop

CHUNK = 50
"""Files looked into at once while jobs are looked for; a key that comes meanwhile waits for no more."""
ROUTE = {"route": "to be walked"}
"""What is kept of a file that does not say where its job stands."""


FOUND_BY = ("seat", "glass", "result", "remark", "plastic", "ring", "retest", "like", "linked")
"""What of a file stands in its row as it is."""
GLANCED = f"{VERSION} 2"
"""Of what is kept of a look; another makes every file looked into again."""


def glanced(
    folder: Path, found: Sequence[str], *, index: Index | None = None, apply: Apply = map
) -> tuple[JobRow, ...]:
    """Rows of some jobs by file name, in that order; a route is walked only where a file does not say it."""
    paths = [folder / JOBS / name for name in found]
    shop_at = written_at(folder / SHOP)
    seen: dict[Path, JobRow] = {}
    for row in rows(paths, summarise=glance_of, index=index, apply=apply):
        said = job_row(row)
        changed = (
            said.stage == "cut" and written_at(row.path) < shop_at
        )  # the shop decides whether it can be turned
        if row.summary != ROUTE and not changed:
            seen[row.path] = said
    known = walked(folder, [path for path in paths if path not in seen], apply=apply)
    return tuple(seen.get(path) or known[path] for path in paths)


def newest(folder: Path, visible: int) -> Listed:
    """The list of jobs: all names, and a quick look at the newest."""
    found = tuple(file_names(folder))
    return Listed(found, glanced(folder, found[:visible]))


class Looks:
    """Looks into the jobs of a folder; where they are many, with what is known of earlier looks."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._index: Index | None = None
        self._heads: Heads | None = None

    def into(self, found: Sequence[str]) -> tuple[JobRow, ...]:
        """Rows of a few jobs; of many those that the index knows and a few others, the rest later."""
        if self._index is None and len(found) > CHUNK:
            self._index = Index(self._folder / GLANCED_NAME, version=GLANCED)
        if self._index is None:
            return glanced(self._folder, found)
        fresh = [name for name in found if not self._index.has(name)]
        now = [name for name in found if self._index.has(name)] + fresh[:CHUNK]
        seen = glanced(self._folder, now, index=self._index)
        if len(fresh) <= CHUNK:
            self._index.save()
        return seen

    def copies(self) -> CopiesFound:
        """Copies of one job among the files, as far as they were looked into; some more of them now."""
        from bench.joining.twins import Heads  # the first page does without it

        self._heads = self._heads or Heads(self._folder)
        complete = self._heads.look(CHUNK)
        return CopiesFound(self._heads.twins(), complete)


def glance_of(data: bytes) -> tuple[str, str, dict[str, str]]:
    """What a few blocks of a session file say."""
    said = glance(data)
    return "", "", ROUTE if said is None else said


def written_at(path: Path) -> float:
    """When a file was last written; 0 where there is none."""
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def walked(
    folder: Path, paths: Iterable[Path], *, apply: Apply = map, present: Iterable[Path] | None = None
) -> dict[Path, JobRow]:
    """Rows with stage and open step worked out by walking each route, or taken from the index.

    A shop file that is wrong is said in each row. `present`: all files there are; the index forgets others.
    """
    paths = list(paths)
    if not paths:
        return {}
    try:
        shop = shop_in(folder)
    except Refused as wrong:
        return {path: waiting(path.name, str(wrong)) for path in paths}
    index = Index(folder / INDEX_NAME, version=f"{GLANCED} {stamp(folder)}")
    found = rows(paths, summarise=partial(walk_of, shop), index=index, apply=apply)
    if present is not None:
        index.keep_only(present)
    index.save()
    return {row.path: job_row(row) for row in found}


def walk_of(shop: Shop, data: bytes) -> tuple[str, str, dict[str, str]]:
    """What the route of a job says, walked in a shop."""
    from bench.file.load import load  # the first page does without it

    loaded = load(data)
    return loaded.state, loaded.message, said_of(loaded, shop)


def listed(folder: Path, *, open_steps: bool = False, told: Told = unheard) -> list[JobRow]:
    """All jobs, newest first. `open_steps`: also which step each waits at, for which its route is walked."""
    paths = names(folder)
    index = Index(folder / GLANCED_NAME, version=GLANCED)
    index.keep_only(paths)
    found = glanced(
        folder, [path.name for path in paths], index=index, apply=partial(apply_to_many, told=told)
    )
    index.save()
    if not open_steps:
        return list(found)
    if wrong_shop(folder):
        return list(found)  # no route is walked in a shop that cannot be read; the files say where they stand
    unfinished = [folder / JOBS / row.file for row in found if not row.finished]
    known = walked(folder, unfinished, apply=partial(apply_to_many, told=told), present=paths)
    return [known.get(folder / JOBS / row.file, row) for row in found]


def said_of(loaded: Loaded, shop: Shop) -> dict[str, str]:
    """The summary of a file; one that makes no sense stops neither the list nor another job."""
    try:
        return summary(loaded, shop)
    except (ValueError, LookupError, TypeError, ArithmeticError, AssertionError):
        return GATED


def stamp(folder: Path) -> str:
    """What the shop file was when a list was made: the open step of a job can depend on it."""
    try:
        found = (folder / SHOP).stat()
    except OSError:
        return "built-in shop"
    return f"{found.st_size} {found.st_mtime_ns}"


def waiting(name: str, words: str) -> JobRow:
    """The row of a file of which nothing else can be said."""
    number = number_of(name)
    return JobRow(number=str(number) if number is not None else name, file=name, waiting_for=clean(words))


def job_row(row: Row) -> JobRow:
    """A row of the list of jobs from what a file says of itself."""
    said: Mapping[str, str] = row.summary
    bare = waiting(row.path.name, said.get("waiting_for", "") if said else row.message)
    return replace(
        bare,
        watch=clean(said.get("watch", "")),
        stage=said.get("stage", ""),
        step=said.get("step", ""),
        since=said.get("since", ""),
        attempt=int(said.get("attempt", "1") or 1),
        finished=bool(said.get("finished")),
        **{name: clean(said.get(name, "")) for name in FOUND_BY},
    )

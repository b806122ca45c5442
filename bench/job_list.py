"""The rows of the list of jobs: by a quick look at their files, or by walking the route of each.

Invariant: only reads jobs; the index of walked routes is disposable
and never trusted over a file that changed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.desk.effects import JobRow
from bench.file.entry import FILE_LIMIT
from bench.file.listing import Index, rows
from bench.file.plain import cause
from bench.file.slug import SHOP, number_of
from bench.file.store import JOBS
from bench.folder import INDEX_NAME, shop_in
from bench.refusal import Refused
from bench.summary import GATED, glance, summary
from bench.version import VERSION

if TYPE_CHECKING:
    from bench.file.load import Loaded
    from bench.shop.shop import Shop


def glanced(folder: Path, found: Sequence[str]) -> tuple[JobRow, ...]:
    """Rows of some jobs by file name, in that order; a route is walked only where a file does not say it."""
    seen = {name: glance_at(folder / JOBS / name) for name in found}
    shop_at = written_at(folder / SHOP)
    for name, row in seen.items():
        if row is not None and row.stage == "cut" and written_at(folder / JOBS / name) < shop_at:
            seen[name] = None  # whether it can be turned may have changed with the shop
    unsaid = [folder / JOBS / name for name, row in seen.items() if row is None]
    known = {row.file: row for row in walked(folder, unsaid)} if unsaid else {}
    return tuple(row or known[name] for name, row in seen.items())


def written_at(path: Path) -> float:
    """When a file was last written; 0 where there is none."""
    try:
        return path.stat().st_mtime
    except OSError:
        return 0.0


def glance_at(path: Path) -> JobRow | None:
    """What a few blocks of a session file say; None where they do not say where the job stands."""
    try:
        with path.open("rb") as file:
            said = glance(file.read(FILE_LIMIT))
    except OSError as error:
        said = {"waiting_for": cause(error)}
    return None if said is None else job_row(path.name, said)


def walked(folder: Path, paths: Iterable[Path], *, all_there_are: bool = False) -> list[JobRow]:
    """Rows with stage and open step worked out by walking each route, or taken from the index.

    `all_there_are`: the index forgets every other file. A shop file that is wrong is said in each row.
    """
    paths = list(paths)
    try:
        shop = shop_in(folder)
    except Refused as wrong:
        if all_there_are:
            raise
        return [job_row(path.name, {"waiting_for": str(wrong)}) for path in paths]
    index = Index(folder / INDEX_NAME, version=f"{VERSION} {stamp(folder)}")
    found = rows(paths, summarise=lambda loaded: said_of(loaded, shop), index=index)
    if all_there_are:
        index.keep_only(paths)
    index.save()
    return [job_row(row.path.name, row.summary or {"waiting_for": row.message}) for row in found]


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


def job_row(name: str, said: Mapping[str, str]) -> JobRow:
    """A row of the list of jobs from what a file says of itself."""
    number = number_of(name)
    return JobRow(
        number=str(number) if number is not None else name,
        file=name,
        watch=clean(said.get("watch", "")),
        stage=said.get("stage", ""),
        step=said.get("step", ""),
        waiting_for=said.get("waiting_for", ""),
        since=said.get("since", ""),
        attempt=int(said.get("attempt", "1") or 1),
        finished=bool(said.get("finished")),
    )

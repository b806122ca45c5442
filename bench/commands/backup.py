"""`ringwright export FOLDER` and `ringwright import ZIP`: all jobs and the shop file, or one job.

Invariant: nothing is ever overwritten.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from zipfile import ZipFile

from bench.clean import clean
from bench.command import COULD_NOT_WRITE, DONE, FOUND_SOMETHING, Refused
from bench.commands.about import Subparsers, new
from bench.file.backup import export_all, export_job
from bench.file.listing import names
from bench.file.plain import CannotOpen, NotSaved
from bench.file.restore import import_all
from bench.file.slug import SHOP, number_of


def add(subparsers: Subparsers) -> None:
    """Register `export` and `import`."""
    out = new(subparsers, "export")
    out.add_argument("target", metavar="FOLDER", type=Path, help="where the zip goes")
    out.add_argument("--job", type=int, metavar="NUMBER", help="only this job, for another computer")
    out.set_defaults(run=run_export)
    back = new(subparsers, "import")
    back.add_argument("zip", metavar="ZIP", type=Path, help="the zip")
    back.set_defaults(run=run_import)


def run_export(arguments: argparse.Namespace) -> int:
    """Write the zip, print its path and what it holds; status 1 if anything could not be taken along."""
    if not arguments.target.is_dir():
        raise Refused(f"no such folder: {clean(str(arguments.target))}; make it, or name another one")
    try:
        if arguments.job is None:
            made, left_out = export_all(arguments.folder, arguments.target)
        else:
            made, left_out = export_job(_job(arguments.folder, arguments.job), arguments.target)
    except NotSaved as error:
        raise Refused(error.why, COULD_NOT_WRITE) from error
    except CannotOpen as error:
        raise Refused(error.why) from error
    print(clean(str(made)))
    print(held_by(made))
    for name, why in left_out:
        print(f"NOT in the backup: {name}: {why}")
    return FOUND_SOMETHING if left_out else DONE


def held_by(made: Path) -> str:
    """How many jobs a backup holds, read from the backup itself."""
    with ZipFile(made) as archive:
        members = archive.namelist()
    jobs = sum(number_of(Path(name).name) is not None for name in members)
    return f"{jobs} job{'s' * (jobs != 1)}{' and shop.toml' * (SHOP in members)}"


def _job(folder: Path, number: int) -> Path:
    for path in names(folder):
        if number_of(path.name) == number:
            return path
    raise Refused(f"there is no job {number} in {clean(str(folder))}")


def run_import(arguments: argparse.Namespace) -> int:
    """Import the files and print what was done; status 1 if any file was refused."""
    try:
        report = import_all(arguments.zip, arguments.folder)
    except NotSaved as error:
        raise Refused(error.why, COULD_NOT_WRITE) from error
    except CannotOpen as error:
        raise Refused(error.why) from error
    print("\n".join(report.lines()) or "the archive holds no jobs")
    return FOUND_SOMETHING if report.refused else DONE

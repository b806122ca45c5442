"""`ringwright export FOLDER` and `ringwright import ZIP`: all jobs and the shop file, or one job.

Invariant: nothing is ever overwritten.
"""

from __future__ import annotations

import argparse
from pathlib import Path

from bench.clean import clean
from bench.command import COULD_NOT_WRITE, DONE, FOUND_SOMETHING, Refused
from bench.file.backup import export_all, export_job
from bench.file.listing import names
from bench.file.plain import CannotOpen, NotSaved
from bench.file.restore import import_all
from bench.file.slug import number_of


def add(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Register `export` and `import`."""
    out = subparsers.add_parser("export", help="save all jobs and the shop file as one zip in a folder")
    out.add_argument("target", metavar="FOLDER", type=Path, help="where the zip goes")
    out.add_argument("--job", type=int, metavar="NUMBER", help="only this job, for another computer")
    out.set_defaults(run=run_export)
    back = subparsers.add_parser("import", help="import the jobs of such a zip; nothing is overwritten")
    back.add_argument("zip", metavar="ZIP", type=Path, help="the zip")
    back.set_defaults(run=run_import)


def run_export(arguments: argparse.Namespace) -> int:
    """Write the zip and print its path; status 1 if anything could not be taken along."""
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
    for name, why in left_out:
        print(f"NOT in the backup: {name}: {why}")
    return FOUND_SOMETHING if left_out else DONE


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

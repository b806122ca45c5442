"""A folder to try everything in: the sample jobs and a new one, all gone when the program ends.

Invariant: what is made here lies in a temporary folder of its own, and nothing of it is kept.
"""

from __future__ import annotations

import signal
import sys
from pathlib import Path

from bench.file.plain import NotSaved
from bench.file.slug import JOBS
from bench.refusal import Refused
from bench.version import MADE_BY

SAMPLES = Path(__file__).resolve().parent.parent / "sample_sessions"
NOTHING_KEPT = "a demo: nothing of it is kept"


def demo_folder() -> tuple[Path, Path]:
    """A new folder with the samples and the file of a new job beside them; raises Refused without any."""
    from tempfile import mkdtemp

    from bench.file.new_job import create  # the first page does without either

    found = samples()
    folder = Path(mkdtemp(prefix="ringwright-demo-"))
    (folder / JOBS).mkdir()
    for path in found:
        (folder / JOBS / path.name).write_bytes(path.read_bytes())
    try:
        session = create(folder, made_by=MADE_BY)
    except NotSaved as why:
        raise Refused(str(why)) from why
    session.close()
    return folder, session.path


def end_in_order() -> None:
    """A signal that ends the program lets it clean up first; the full screen answers signals itself."""
    for number in (signal.SIGTERM, getattr(signal, "SIGHUP", signal.SIGTERM)):
        if signal.getsignal(number) is not signal.SIG_IGN:
            signal.signal(number, lambda *_: sys.exit(0))


def copy_of_sample() -> Path:
    """A copy of the first sample in a new temporary folder; raises Refused when there is none."""
    from tempfile import mkdtemp

    found = samples()
    folder = Path(mkdtemp(prefix="ringwright-sample-")) / JOBS
    folder.mkdir()
    target = folder / found[0].name
    target.write_bytes(found[0].read_bytes())
    return target


def samples() -> list[Path]:
    """The sample jobs; raises Refused when there are none."""
    found = sorted(SAMPLES.glob("*.toml"))
    if not found:
        raise Refused("the samples are missing from this installation")
    return found


def take_away(tried: set[Path]) -> None:
    """Take away the folders in which something was only tried."""
    from shutil import rmtree

    while tried:
        rmtree(tried.pop(), ignore_errors=True)

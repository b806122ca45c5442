"""A folder with the sample jobs and one that was sized after them: what a shop that learned leaves behind."""

from __future__ import annotations

import shutil
from pathlib import Path

from bench.file.load import Loaded, load as load_job
from bench.job.job import Job, replay
from tests.whole.hands import lines
from tests.whole.sample_answers import FIRST_ATTEMPT
from tests.whole.script import Hand

SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
NOW = "2026-04-01T08:00:00+00:00"
SCRIPT = (("job", "300"), *(pair for pair in FIRST_ATTEMPT[1:] if pair[0] not in ("watch", "remark")))
TO_THE_PRESS = SCRIPT[: next(at for at, pair in enumerate(SCRIPT) if pair[0] == "marking")]


def learned_folder(folder: Path) -> Path:
    """Four turned rings in three of the samples, and a ring sized after them, to the press."""
    (folder / "jobs").mkdir()
    for path in SAMPLES.glob("*.toml"):
        shutil.copy(path, folder / "jobs")
    lines(folder, [Hand(TO_THE_PRESS, until="marking")])
    return folder


def loaded_in(folder: Path, number: int = 300) -> Loaded:
    """The file of a job."""
    return load_job(next((folder / "jobs").glob(f"{number:05d}*.toml")).read_bytes())


def job_in(folder: Path, number: int = 300) -> Job:
    """A job as its file says it."""
    loaded = loaded_in(folder, number)
    assert loaded.head is not None and not loaded.gated
    return replay(loaded.head, loaded.usable)

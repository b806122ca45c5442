"""`python -m tests.whole.make_samples`: the sample sessions, written anew from their scripts.

Id, wall time and the numbers dealt are handed in, so a file changes only where its job does.
"""

from __future__ import annotations

import tempfile
from datetime import UTC, datetime
from pathlib import Path

from tests.whole.hands import Clock, lines
from tests.whole.sample_answers import SAMPLES, Sample
from tests.whole.script import Hand
from tests.whole.stated import stated

TARGET = Path(__file__).resolve().parents[2] / "sample_sessions"
BEGUN = datetime(2026, 3, 2, 8, 40, tzinfo=UTC)
SECONDS_A_KEY = 6.0


def written(sample: Sample, folder: Path) -> bytes:
    """The session file that a script writes."""
    hand = Hand(sample.script, until=sample.until)
    lines(stated(folder), [hand], clock=Clock(SECONDS_A_KEY, BEGUN), new_id=lambda: sample.id)
    return next((folder / "jobs").glob("*.toml")).read_bytes()


def main() -> None:
    """Write every sample."""
    for name, sample in SAMPLES.items():
        with tempfile.TemporaryDirectory() as folder:
            (TARGET / name).write_bytes(written(sample, Path(folder)))
        print(name)


if __name__ == "__main__":
    main()

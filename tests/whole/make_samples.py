"""`python -m tests.whole.make_samples`: the sample sessions, written anew from the answers keyed."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

from tests.whole.hands import Clock, lines
from tests.whole.sample_answers import SAMPLES

TARGET = Path(__file__).resolve().parents[2] / "sample_sessions"
BEGUN = datetime(2026, 3, 2, 8, 40, tzinfo=UTC)
SECONDS_A_KEY = 6.0
AT_THE_BENCH_MIN = 15


def keyed(script: str, clock: Clock) -> Iterator[str]:
    """The answers of a script; a line such as @11 moves the clock on by so many minutes instead."""
    for text in script.strip().splitlines():
        if text.startswith("@"):
            let_pass(clock, int(text[1:]))
        else:
            yield text


def let_pass(clock: Clock, minutes: int) -> None:
    """A hold is waited for at the bench; over a night the computer sleeps, and its steady clock stands."""
    if minutes < AT_THE_BENCH_MIN:
        clock.wait(minutes * 60)
    else:
        clock.now += timedelta(minutes=minutes)


def written(script: str, folder: Path) -> str:
    """The session file that a script writes."""
    clock = Clock(SECONDS_A_KEY, BEGUN)
    desk, _ = lines(folder, keyed(script, clock), clock=clock)
    assert desk.job is not None
    found = next((folder / "jobs").glob("*.toml"))
    return found.read_text(encoding="utf-8")


def main() -> None:
    """Write every sample."""
    for name, script in SAMPLES.items():
        with tempfile.TemporaryDirectory() as folder:
            (TARGET / name).write_text(written(script, Path(folder)), encoding="utf-8")
        print(name)


if __name__ == "__main__":
    main()

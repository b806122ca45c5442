"""A whole job in plain lines, and the commands, where no POSIX module is."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from bench.file.elsewhere import LOCK_ENDING
from tests.whole.hands import lines, session_text, without_times
from tests.whole.scripts import STRAIGHT, answers, straight

TOP = Path(__file__).resolve().parents[2]


def without(folder: Path, *words: str, typed: str = "", status: int = 0) -> str:
    """What the program says without POSIX."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.whole.no_posix", str(folder), *words],
        input=typed, capture_output=True, text=True, timeout=120, check=False, cwd=TOP,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )  # fmt: skip
    assert done.returncode == status, done.stderr
    return done.stdout + done.stderr


def test_a_whole_job_by_plain_lines_writes_what_it_writes_with_posix(tmp_path: Path) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    lines(here, [straight()])
    said = without(there, typed="".join(f"{line}\n" for line in answers(STRAIGHT)))
    assert "fault of ours" not in said
    assert without_times(session_text(there)) == without_times(session_text(here))
    assert not list((there / "jobs").glob(f"*{LOCK_ENDING}")), "the lock is given back"


def test_the_commands(tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    sample = TOP / "sample_sessions" / "00208-ferry-captain.toml"
    (tmp_path / "jobs" / sample.name).write_bytes(sample.read_bytes())
    assert "208" in without(tmp_path, "jobs")
    assert "held at 3 bar" in without(tmp_path, "sheet", "208")


def test_a_job_that_is_open_is_open_elsewhere_without_posix_too(tmp_path: Path) -> None:
    """Two descriptors of one file: the second has no lock until the first gives it back."""
    code = (
        "from tests.whole.no_posix import hide; hide()\n"
        "import sys; from pathlib import Path; from bench.file.disk import NEW, READ_WRITE, REAL\n"
        "path = Path(sys.argv[1]); one = REAL.open(path, NEW); two = REAL.open(path, READ_WRITE)\n"
        "print(REAL.lock(one), REAL.lock(two)); REAL.close(one); print(REAL.lock(two))"
    )
    words = [sys.executable, "-W", "ignore", "-c", code, str(tmp_path / "x.toml")]
    done = subprocess.run(words, capture_output=True, text=True, timeout=60, check=False, cwd=TOP)
    assert done.stdout.split() == ["True", "False", "True"], done.stderr

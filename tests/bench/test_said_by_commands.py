"""What the commands print, to the letter, as it was looked at once and kept.

python -m tests.bench.test_said_by_commands writes `said_by_commands.md` anew; look at the difference first.
"""

from __future__ import annotations

import contextlib
import io
import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path
from unittest.mock import patch

import pytest

from ringwright import main
from tests.bench.test_leak_command import series

TOP = Path(__file__).resolve().parents[2]
KEPT = Path(__file__).with_name("said_by_commands.md")
SEAT = "size --case-bore 33.20 --glass 32.10"
CASE = "--case-metal 316L --case-wall 3.5 --case-height 4 --height 1.2"
GLASS = "--glass-material mineral --glass-thickness 1.8 --overpressure 6"
RING = "fit --case-bore 33.20 --glass 32.10 --outside 33.20 --bore 32.00 --height 1.2"
NOW = "2026-03-10T08:00:00+00:00"
"""When the shop is asked what its rings say: old ones count less."""
LEAK = "leak SERIES --volume 2.0 --volume-u 0.3 --overpressure 2 --step 0.1"
SAID = (
    SEAT,
    f"{SEAT} {CASE}",
    f"{SEAT} {CASE} {GLASS} --support 30.5 --press-force 900",
    f"{SEAT} {CASE} --json",
    f"{SEAT} --seat-depth 1.5 --glass-edge 1.1 --material pa66 --case-metal gold18 --case-wall 1",
    f"{SEAT} --ovality 0.10 --case-bore-u 0.03 --glass-u 0.02 --temperature 12",
    f"{SEAT} {CASE} --why",
    f"{SEAT} {CASE} --why window.chance",
    f"{SEAT} {CASE} --rigid --friction 0.1 --domed --old-glass other",
    "size --case-bore 33.20 --glass 33.00",
    "size --case-bore 1.3071in --glass 1.2638in --height 1.2mm",
    RING,
    f"{RING} {CASE.replace('--height 1.2', '')} {GLASS}",
    f"{RING} --case-metal brass --case-wall 0.8 --case-height 3 --case-yield 124",
    f"{RING} --bore 31.60 --case-metal titanium2 --case-wall 1 --case-height 3 --json",
    "fit --case-bore 33.20 --glass 28.00 --wall 3 --height 1.2",
    "fit --case-bore 33.20 --glass 32.90 --wall 0.2 --height 1.2",
    "fit --case-bore 33.20 --glass 32.10 --wall 3.1 --height 1.2",
    "fit --case-bore 33.20 --glass 32.10 --wall 0.6 --bore 32 --height 1.2",
    "fit --case-bore 33.20 --glass 32.10 --wall thick --height 1.2",
    "size --case-bore 33.20",
    "size --case-bore 3 --glass 2",
    "size --case-bore 33,20 --glass 32.10 --material cheese",
    LEAK,
    f"{LEAK} --json",
    LEAK.replace("SERIES", "LARGE"),
    f"{LEAK.replace('SERIES', 'MIDDLE')} --temperature 25 --hold 10 --after-venting 0.4",
    LEAK.replace("SERIES", "MISSING"),
    f"{LEAK} --hold 3",
    "plug --seat 33.2",
    "plug --seat 33.2 --steps 5 --material pa66 --json",
    "plug --enters 33.18 --not 33.22",
    "plug --enters 33.18 --not 33.22 --plug-limit 0.01 --json",
    "plug --enters 33.22 --not 33.18",
    "plug --seat 90",
    "jobs",
    "jobs --json",
    *(f"sheet {job}" for job in ("208", "214", "221", "226")),
    "sheet 226 --shop",
    "sheet 214 --json",
    "plan 208",
    "plan 999",
    "check JOB",
    "check SERIES",
    "shop",
)


def typed(words: str, folder: Path) -> str:
    """What a command prints and its status, the folder left out."""
    places = {name: str(folder / f"{name.lower()}.csv") for name in ("SERIES", "LARGE", "MIDDLE", "MISSING")}
    places["JOB"] = str(next((folder / "jobs").glob("00208-*")))
    command, *rest = [places.get(word, word) for word in words.split()]
    out, err = io.StringIO(), io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status: object = main(["--folder", str(folder), command, *rest])
        except SystemExit as end:
            status = end.code
    text = (out.getvalue() + err.getvalue()).replace(str(folder), "FOLDER")
    return f"{text.strip()}\n= {status}"


@contextlib.contextmanager
def ready() -> Iterator[Path]:
    """A folder with the samples and three series of readings, and a terminal 80 wide."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        (folder / "jobs").mkdir()
        for path in (TOP / "sample_sessions").glob("*.toml"):
            shutil.copy(path, folder / "jobs")
        for name, rate in (("series", 20.0), ("large", 120.0), ("middle", 45.0)):
            (folder / f"{name}.csv").write_text(series(rate), encoding="utf-8")
        terminal = {"COLUMNS": "80", "LINES": "24", "NO_COLOR": "1", "TZ": "UTC"}
        with patch.dict(os.environ, terminal), patch("bench.commands.shop.wall_now", lambda: NOW):
            yield folder


@pytest.fixture(scope="module")
def folder() -> Iterator[Path]:
    """The same for all of them: nothing is written."""
    with ready() as made:
        yield made


@pytest.fixture(autouse=True)
def plain_environment() -> None:
    """The terminal of `ready` in place of none at all."""


@pytest.mark.parametrize("words", SAID)
def test_every_command_says_what_was_kept(words: str, folder: Path) -> None:
    parts = KEPT.read_text(encoding="utf-8").split("\n## ")[1:]
    kept = {head: text.strip("\n`") for head, _, text in (part.partition("\n\n") for part in parts)}
    assert typed(words, folder).splitlines() == kept[words].splitlines()


def write() -> None:
    """Writes it anew."""
    with ready() as folder:
        text = "".join(f"\n## {words}\n\n```\n{typed(words, folder)}\n```\n" for words in SAID)
    KEPT.write_text(f"# Said by the commands\n{text}", encoding="utf-8")


if __name__ == "__main__":
    write()

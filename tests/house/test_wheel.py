"""The wheel, installed into a clean environment, runs outside the source tree, beside decoys of its own names."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]


def run(words: list[str], cwd: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a command and give what it said."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return subprocess.run(
        words, cwd=cwd, env={**kept, **environment}, capture_output=True, text=True, timeout=300, check=False
    )


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """The wheel built from this tree."""
    target = tmp_path_factory.mktemp("wheel")
    done = run([sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "-w", str(target), str(TOP)], target)
    assert done.returncode == 0, done.stderr
    yield next(target.glob("ringwright-*.whl"))


def test_the_wheel_holds_the_program_and_no_tests(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    tops = {name.partition("/")[0] for name in names if ".dist-info" not in name}
    assert tops == {"rules", "bench", "screens", "sample_sessions"}
    assert "rules/data/plastics.toml" in names
    assert sum(name.startswith("sample_sessions/") and name.endswith(".toml") for name in names) >= 3


def test_it_runs_from_a_folder_with_decoys(wheel: Path, tmp_path: Path) -> None:
    """Packages called rules and bench lie in the working folder; the installed command takes its own."""
    environment = tmp_path / "clean"
    done = run([sys.executable, "-m", "venv", "--system-site-packages", str(environment)], tmp_path)
    assert done.returncode == 0, done.stderr
    site = next(environment.glob("lib/python*/site-packages"))
    (site / "of-the-tests.pth").write_text(
        "\n".join(path for path in sys.path if path.endswith("site-packages"))
    )
    done = run(
        [
            str(environment / "bin" / "python"),
            "-m",
            "pip",
            "install",
            "-q",
            "--no-deps",
            "--force-reinstall",
            str(wheel),
        ],
        tmp_path,
    )
    assert done.returncode == 0, done.stderr
    for name in ("rules", "bench"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "__init__.py").write_text("raise SystemExit('a decoy was imported')\n")
    command = str(environment / "bin" / "ringwright")
    done = run(
        [command, "size", "--case-bore", "28.40", "--glass", "27.36", "--json"],
        tmp_path,
        RINGWRIGHT_HOME="home",
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["ring"]["outside_diameter_mm"] == 28.40
    done = run([command, "--plain", "demo"], tmp_path, RINGWRIGHT_HOME="home")
    assert done.returncode == 0, done.stderr
    assert "Measured" in done.stdout or "Next:" in done.stdout
    decoyed = run([command, "jobs"], tmp_path, PYTHONPATH=str(tmp_path), RINGWRIGHT_HOME="home")
    assert decoyed.returncode == 4
    assert decoyed.stderr.count("\n") == 1 and "rules and bench" in decoyed.stderr

"""Installed, everything lives under one name:
beside libraries called rules and bench, in both orders, and editable.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from bench.languages import ENGLISH, LANGUAGES

pytestmark = pytest.mark.xdist_group("wheel")

TOP = Path(__file__).resolve().parents[2]
DECOYS = ("rules", "bench")


def run(words: list[str], cwd: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a command and give what it said."""
    kept = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    return subprocess.run(
        words, cwd=cwd, env={**kept, **environment}, capture_output=True, text=True, timeout=300, check=False
    )


def done_well(words: list[str], cwd: Path, **environment: str) -> str:
    """What a command said that has to succeed."""
    done = run(words, cwd, **environment)
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel built from this tree, without the network."""
    target = tmp_path_factory.mktemp("wheel")
    pip = [sys.executable, "-m", "pip", "wheel", "-q", "--no-deps", "--no-build-isolation"]
    done_well([*pip, "-w", str(target), str(TOP)], target)
    return next(target.glob("ringwright-*.whl"))


@pytest.fixture(scope="module")
def decoy(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Another library that installs packages called rules and bench."""
    path = tmp_path_factory.mktemp("decoy") / "decoy-1.0-py3-none-any.whl"
    info = "decoy-1.0.dist-info"
    with zipfile.ZipFile(path, "w") as archive:
        for name in DECOYS:
            archive.writestr(f"{name}/__init__.py", "OURS = False\n")
        archive.writestr(f"{info}/METADATA", "Metadata-Version: 2.1\nName: decoy\nVersion: 1.0\n")
        archive.writestr(
            f"{info}/WHEEL",
            "Wheel-Version: 1.0\nGenerator: by hand\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
        )
        listed = [*(f"{name}/__init__.py" for name in DECOYS), f"{info}/METADATA", f"{info}/WHEEL"]
        archive.writestr(f"{info}/RECORD", "".join(f"{name},,\n" for name in (*listed, f"{info}/RECORD")))
    return path


def clean_environment(folder: Path) -> Path:
    """A virtual environment that finds the libraries of this one but nothing of the project."""
    environment = folder / "clean"
    done_well([sys.executable, "-m", "venv", "--without-pip", str(environment)], folder)
    site = next(environment.glob("lib/python*/site-packages"))
    libraries = [path for path in sys.path if path.endswith("site-packages")]
    (site / "libraries.pth").write_text("\n".join(libraries))
    return environment


def installed(environment: Path, *what: str) -> None:
    """Install without the network and without what it needs."""
    pip = [sys.executable, "-m", "pip", "--python", str(environment / "bin" / "python"), "install", "-q"]
    pip.append("--no-compile")
    done_well(
        [*pip, "--no-deps", "--no-index", "--force-reinstall", "--no-build-isolation", *what], environment
    )


def works(environment: Path, folder: Path, **environ: str) -> None:
    """A headless command and the plain lines run."""
    command = str(environment / "bin" / "ringwright")
    sizes = ["size", "--case-bore", "28.40", "--glass", "27.36", "--json"]
    said = done_well([command, *sizes], folder, RINGWRIGHT_HOME="home", **environ)
    assert json.loads(said)["ring"]["outside_diameter_mm"] == 28.40
    said = done_well([command, "--plain", "demo"], folder, RINGWRIGHT_HOME="home", **environ)
    assert "[paint]" in said and "nothing of it is kept" in said


def test_the_wheel_installs_one_name(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert {name.partition("/")[0] for name in names if ".dist-info" not in name} == {"ringwright"}
    assert "ringwright/rules/data/plastics.toml" in names
    papers = {f"ringwright/bench/data/papers/{word}.po" for word in LANGUAGES if word != ENGLISH}
    assert papers <= set(names)
    samples = [name for name in names if "/sample_sessions/" in name and name.endswith(".toml")]
    assert len(samples) >= 3
    assert not [name for name in names if "/tests/" in name]


@pytest.mark.parametrize("ours_first", [True, False], ids=["before the library", "after the library"])
def test_another_library_of_these_names_works_beside_it(
    wheel: Path, decoy: Path, tmp_path: Path, ours_first: bool
) -> None:
    environment = clean_environment(tmp_path)
    for one in (wheel, decoy) if ours_first else (decoy, wheel):
        installed(environment, str(one))
    works(environment, tmp_path)
    python = str(environment / "bin" / "python")
    for name in DECOYS:
        assert done_well([python, "-c", f"import {name}; print({name}.OURS)"], tmp_path) == "False\n"


def test_folders_of_these_names_where_it_is_started_change_nothing(wheel: Path, tmp_path: Path) -> None:
    environment = clean_environment(tmp_path)
    installed(environment, str(wheel))
    for name in DECOYS:
        (tmp_path / name).mkdir()
        (tmp_path / name / "__init__.py").write_text("raise SystemExit('a decoy was imported')\n")
    works(environment, tmp_path)
    works(environment, tmp_path, PYTHONPATH=str(tmp_path))


def test_an_editable_install_works_beside_the_library(decoy: Path, tmp_path: Path) -> None:
    environment = clean_environment(tmp_path)
    installed(environment, str(decoy))
    installed(environment, "-e", str(TOP))
    works(environment, tmp_path)


def test_a_library_of_these_names_that_is_loaded_first_does_not_stand_in_the_way(
    wheel: Path, decoy: Path, tmp_path: Path
) -> None:
    environment = clean_environment(tmp_path)
    installed(environment, str(wheel), str(decoy))
    site = next(environment.glob("lib/python*/site-packages"))
    (site / "loads-it-first.pth").write_text("import rules, bench\n")
    works(environment, tmp_path)
    code = "import ringwright, rules; print(rules.OURS)"
    assert done_well([str(environment / "bin" / "python"), "-c", code], tmp_path) == "False\n"

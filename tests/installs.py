"""`python -m tests.installs [--python PYTHON ...]`: the program installed in every way that README and manual
show, each in a clean place, and a short job by plain lines with it.

pipx and uv are taken from the PATH, else installed into a place of their own; the libraries come from where
pip takes them. Nothing of it is kept. What cannot be had here is said and ends with status 1.
"""

from __future__ import annotations

import argparse
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

TOP = Path(__file__).resolve().parent.parent
ANSWERS = ("0", "1", "1", "1", "3642", "3644", "3531", "3530", "1.45", "1")
"""A job by plain lines, from its number to the ring accepted."""
DECOY = {
    "pyproject.toml": '[project]\nname = "decoy"\nversion = "1.0"\n[tool.setuptools]\npackages = ["rules"]\n'
}
PIPX, UV = "pipx", "uv"
VERBS = ("install --force", "uninstall", "install '")
VENV = "python3 -m venv .venv && .venv/bin/pip install -q '.[paper]'"
SHOWN = (
    "pipx install '.[paper]'",
    "uv tool install '.[paper]'",
    VENV,
    f"{VENV} && .venv/bin/ringwright",
    "python3 -m venv .venv && .venv/bin/pip install -q -e '.[paper,test]' && "
    ".venv/bin/python -m pytest -n auto --dist loadgroup",
    "pipx install --force '.[paper]'",
    "uv tool install --force '.[paper]'",
    "pipx uninstall ringwright",
    "uv tool uninstall ringwright",
)
"""Every command of README and manual that installs or takes away, to the letter. The last part of the two
that go on is the program itself, which `works` runs, and the tests, which CI runs by that very line.
"""


@dataclass
class Place:
    """A clean folder with a copy of the repository, the wheel, and the ways to install."""

    root: Path
    python: str
    environment: dict[str, str] = field(default_factory=dict)

    @property
    def copy(self) -> Path:
        """The copy of the repository."""
        return self.root / "copy"

    @property
    def wheel(self) -> Path:
        """The built wheel."""
        return next((self.root / "wheel").glob("*.whl"))

    def run(self, command: str, *, cwd: Path | None = None, given: str = "") -> str:
        """Run a line of the shell and give what it printed; raises RuntimeError with what it said."""
        done = subprocess.run(
            ["bash", "-c", command],
            cwd=cwd or self.copy,
            env=self.environment,
            input=given,
            capture_output=True,
            text=True,
            timeout=900,
            check=False,
        )
        if done.returncode:
            raise RuntimeError(f"{command}: status {done.returncode}: {(done.stderr or done.stdout)[-600:]}")
        return done.stdout

    def works(self, command: str) -> str:
        """The installed program says its version and does a short job; the version."""
        home = Path(tempfile.mkdtemp(dir=self.root))
        version = self.run(f"{command} -V", cwd=home).strip()
        at = f"--folder {home}"
        self.run(f"{command} --plain {at}", cwd=home, given="\n".join(ANSWERS) + "\n")
        listed = self.run(f"{command} jobs {at}", cwd=home)
        assert " cut" in listed, listed
        assert self.run(f"{command} sheet 1 --pdf sheet.pdf {at}", cwd=home).strip() == "sheet.pdf"
        assert (home / "sheet.pdf").read_bytes().startswith(b"%PDF-")
        return version


@contextmanager
def clean_place(python: str) -> Iterator[Place]:
    """A place with nothing of this environment; the copy holds what git knows, as it stands now."""
    with tempfile.TemporaryDirectory(prefix="ringwright-installs-") as made:
        root = Path(made)
        kept = {
            name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "VIRTUAL"))
        }
        tools = root / "tools" / "bin"
        path = os.pathsep.join([str(root / "bin"), str(tools), kept.get("PATH", "")])
        place = Place(
            root, python, kept | {"PATH": path, "PIPX_HOME": str(root / "pipx"), "HOME": str(root / "home")}
        )
        place.environment |= {"PIPX_BIN_DIR": str(root / "bin"), "UV_TOOL_BIN_DIR": str(root / "bin")}
        place.environment |= {"UV_TOOL_DIR": str(root / "uv"), "UV_CACHE_DIR": str(root / "cache")}
        place.environment |= {"PIPX_DEFAULT_PYTHON": python, "UV_PYTHON": python}
        (root / "home").mkdir()
        listed = subprocess.check_output(
            ["git", "ls-files", "-z", "-co", "--exclude-standard"], cwd=TOP, text=True
        )
        for name in filter(None, listed.split("\0")):
            target = place.copy / name
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(TOP / name, target)
        yield place


def tools(place: Place) -> None:
    """pipx and uv, where they are not there, and the wheel."""
    missing = [name for name in (PIPX, UV) if shutil.which(name, path=place.environment["PATH"]) is None]
    place.run(f"{sys.executable} -m venv {place.root / 'tools'}")
    place.run(f"{place.root / 'tools'}/bin/pip install -q build {' '.join(missing)}")
    place.run(f"{place.root / 'tools'}/bin/python -m build -q --wheel --outdir {place.root / 'wheel'} .")


def by_tool(place: Place, tool: str) -> str:
    """From the wheel, then from the folder over it, and away again; from the folder alone, and away."""
    again, away, plain = (next(line for line in SHOWN if line.startswith(f"{tool} {word}")) for word in VERBS)
    place.run(f"{tool} install '{place.wheel}[paper]'")
    version = place.works("ringwright")
    for lines in ((again,), (away, plain)):
        for line in lines:
            place.run(line)
        assert place.works("ringwright") == version
    place.run(away)
    assert not (place.root / "bin" / "ringwright").exists()
    return version


def by_pip(place: Place) -> str:
    """The line for Python alone, in the folder, word for word; python3 is the one asked for."""
    (place.root / "bin").mkdir(exist_ok=True)
    shim = place.root / "bin" / "python3"
    shim.unlink(missing_ok=True)
    shim.symlink_to(place.python)
    place.run(VENV)
    return place.works(str(place.copy / ".venv" / "bin" / "ringwright"))


def beside(place: Place, *, ours_first: bool) -> str:
    """Beside another library that is called rules, before it or after."""
    decoy, venv = place.root / "decoy", place.root / ("before" if ours_first else "after")
    (decoy / "rules").mkdir(parents=True, exist_ok=True)
    (decoy / "rules" / "__init__.py").write_text("OURS = False\n", encoding="utf-8")
    (decoy / "pyproject.toml").write_text(DECOY["pyproject.toml"], encoding="utf-8")
    place.run(f"{place.python} -m venv {venv}")
    ours = f"{place.wheel}[paper]"
    for what in (ours, str(decoy)) if ours_first else (str(decoy), ours):
        place.run(f"{venv}/bin/pip install -q '{what}'")
    assert (
        place.run(f"{venv}/bin/python -c 'import rules; print(rules.OURS)'", cwd=place.root).strip()
        == "False"
    )
    return place.works(f"{venv}/bin/ringwright")


WAYS: dict[str, Callable[[Place], str]] = {
    PIPX: lambda place: by_tool(place, PIPX),
    f"{UV} tool": lambda place: by_tool(place, f"{UV} tool"),
    "venv and pip": by_pip,
    "pip, before a library called rules": lambda place: beside(place, ours_first=True),
    "pip, after a library called rules": lambda place: beside(place, ours_first=False),
}


def main() -> int:
    """Try every way with every Python asked for; a line each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--python", action="append", metavar="PYTHON", help="one to install with; may be repeated"
    )
    status = 0
    for python in parser.parse_args().python or [sys.executable]:
        with clean_place(str(Path(shutil.which(python) or python).resolve())) as place:
            tools(place)
            for name, way in WAYS.items():
                try:
                    print(
                        f"{python}: {name}: {way(place)}, a job by plain lines, its sheet on paper",
                        flush=True,
                    )
                except (RuntimeError, AssertionError, OSError) as why:
                    status = 1
                    print(f"{python}: {name}: NOT: {why}", flush=True)
    return status


if __name__ == "__main__":
    sys.exit(main())

"""Nothing in the product is used by tests only or by nobody."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]


def unused(folder: Path) -> set[str]:
    """Names that nothing under the folder uses, the allowed ones included; settings as in pyproject.toml."""
    words = [sys.executable, "-m", "vulture", "--config", str(TOP / "pyproject.toml"), "--ignore-names", "-"]
    done = subprocess.run(words, cwd=folder, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode in (0, 3) and not done.stderr, done.stderr
    found = (re.search(r"unused [a-z]+ '(.+)'", line) for line in done.stdout.splitlines())
    return {one[1] if one else line for one, line in zip(found, done.stdout.splitlines(), strict=True)}


def test_what_is_unused_is_what_is_allowed_to_be() -> None:
    """Both ways: an allowed name that is used or gone is taken off the list."""
    settings = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))
    allowed = settings["tool"]["vulture"]["ignore_names"]
    assert len(allowed) == len(set(allowed))
    assert unused(TOP) == set(allowed)


def test_the_check_sees_what_nobody_calls(tmp_path: Path) -> None:
    for package in ("ringwright", "rules", "bench", "screens"):
        (tmp_path / package).mkdir()
    text = "LIMIT = 3\n\n\ndef called() -> int:\n    return 1\n\n\ndef idle() -> int:\n    return called()\n"
    (tmp_path / "rules" / "one.py").write_text(text, encoding="utf-8")
    assert unused(tmp_path) == {"LIMIT", "idle"}

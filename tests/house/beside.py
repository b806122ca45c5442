"""Checks that are programs of their own: begun before the tests, run beside them, awaited last."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import IO

TOP = Path(__file__).resolve().parents[2]
PACKAGES = ("ringwright", "rules", "bench", "screens", "tests")
CHECKS = {
    "lint": ("-m", "ruff", "check", "--no-cache", *PACKAGES),
    "format": ("-m", "ruff", "format", "--no-cache", "--check", *PACKAGES),
    "arrows": ("-c", "from importlinter.cli import lint_imports; raise SystemExit(lint_imports())"),
    "types": ("-m", "mypy", *PACKAGES),
}
"""Name of each check and how Python is called for it."""
PATIENCE_S = 600.0


@dataclass
class Running:
    """A check that runs, and where its words go."""

    process: subprocess.Popen[bytes]
    said: IO[bytes]


_running: dict[str, Running] = {}


def begin(name: str) -> Running:
    """Start a check, unless it runs already; it gives way to the tests."""
    if name not in _running:
        said = tempfile.TemporaryFile()  # noqa: SIM115 - closed by `end`
        process = subprocess.Popen(
            [sys.executable, *CHECKS[name]],
            cwd=TOP,
            stdin=subprocess.DEVNULL,
            stdout=said,
            stderr=subprocess.STDOUT,
            preexec_fn=lambda: os.nice(5),
        )
        _running[name] = Running(process, said)
    return _running[name]


def result(name: str) -> tuple[int, str]:
    """Wait for a check; its exit status and what it said."""
    running = begin(name)
    status = running.process.wait(PATIENCE_S)
    running.said.seek(0)
    return status, running.said.read().decode("utf-8", "replace")


def end() -> None:
    """Stop what still runs."""
    for running in _running.values():
        if running.process.poll() is None:
            running.process.kill()
            running.process.wait()
        running.said.close()
    _running.clear()

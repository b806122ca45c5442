"""Checks that are programs of their own, and where they look."""

from __future__ import annotations

from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
PACKAGES = ("ringwright", "rules", "bench", "screens", "tests")
CHECKS = {
    "types": ("-m", "mypy", *PACKAGES),
    "lint": ("-m", "ruff", "check", "--no-cache", *PACKAGES),
    "format": ("-m", "ruff", "format", "--no-cache", "--check", *PACKAGES),
    "arrows": ("-c", "from importlinter.cli import lint_imports; raise SystemExit(lint_imports())"),
}
"""Name of each check and how Python is called for it."""

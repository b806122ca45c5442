"""The examples in the docstrings are run, of every module that has any."""

from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

TOP = Path(__file__).resolve().parents[2]
MODULES = sorted(
    path.relative_to(TOP).with_suffix("").as_posix().replace("/", ".")
    for room in ("rules", "bench")
    for path in (TOP / room).rglob("*.py")
    if ">>> " in path.read_text(encoding="utf-8")
)


@pytest.mark.parametrize("name", MODULES)
def test_examples(name: str) -> None:
    failed, tried = doctest.testmod(importlib.import_module(name))
    assert tried and not failed


def test_there_are_examples() -> None:
    assert len(MODULES) >= 20

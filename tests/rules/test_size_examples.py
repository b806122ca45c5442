"""The examples in the docstrings of the sizing are run."""

from __future__ import annotations

import doctest
import importlib

import pytest

MODULES = (
    *["rules.checks", "rules.student", "rules.reading", "rules.budget", "rules.tables", "rules.casing"],
    *["rules.strip", "rules.climate", "rules.limits", "rules.squeeze", "rules.seated", "rules.glass"],
    *["rules.pressing", "rules.band", "rules.chance", "rules.window", "rules.advice", "rules.why"],
    *["rules.figures", "rules.free_ring", "bench.units"],
)


@pytest.mark.parametrize("name", MODULES)
def test_examples(name: str) -> None:
    failed, _ = doctest.testmod(importlib.import_module(name))
    assert failed == 0


def test_there_are_examples() -> None:
    finder = doctest.DocTestFinder()
    modules = [importlib.import_module(name) for name in MODULES]
    tried = sum(len(found.examples) for module in modules for found in finder.find(module))
    assert tried >= 10

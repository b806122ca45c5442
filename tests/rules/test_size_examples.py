"""The examples in the docstrings of the sizing are run."""

from __future__ import annotations

import doctest
import importlib

import pytest

MODULES = (
    *[
        "rules.checks",
        "rules.measuring.student",
        "rules.measuring.reading",
        "rules.measuring.budget",
        "rules.tables",
        "rules.sizing.casing",
    ],
    *[
        "rules.sizing.strip",
        "rules.sizing.climate",
        "rules.limits",
        "rules.sizing.squeeze",
        "rules.sizing.thumb",
        "rules.sizing.seated",
        "rules.sizing.glass",
    ],
    *[
        "rules.sizing.pressing",
        "rules.sizing.demands",
        "rules.sizing.chance",
        "rules.sizing.window",
        "rules.sizing.sizing",
        "rules.sizing.advice",
        "rules.sizing.why",
    ],
    *["rules.sizing.figures", "rules.turning.plug", "bench.units"],
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

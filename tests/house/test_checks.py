"""Format, lint, types and the arrows between the packages, all in the test command."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.house.checks import CHECKS, PACKAGES, TOP


@pytest.mark.parametrize("name", CHECKS)
def test_check(name: str) -> None:
    command = [sys.executable, *CHECKS[name]]
    done = subprocess.run(
        command, cwd=TOP, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=600
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_files_and_functions_stay_small() -> None:
    """No file of the three packages over 250 lines, no function over 40."""
    import ast

    long: list[str] = []
    for package in PACKAGES[:4]:
        for path in (TOP / package).rglob("*.py"):
            text = path.read_text(encoding="utf-8")
            if text.count("\n") > 250:
                long.append(str(path.relative_to(TOP)))
            for node in ast.walk(ast.parse(text)):
                if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                    lines = (node.end_lineno or node.lineno) - node.lineno + 1
                    if lines > 40:
                        long.append(f"{path.relative_to(TOP)}:{node.name}")
    assert long == []


def test_every_public_name_says_what_it_is() -> None:
    """Modules, public classes and public functions carry a docstring."""
    import ast

    silent: list[str] = []
    for package in PACKAGES[:4]:
        for path in (TOP / package).rglob("*.py"):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            if tree.body and ast.get_docstring(tree) is None:
                silent.append(str(path.relative_to(TOP)))
            for node in tree.body:
                public = isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_")
                if public and ast.get_docstring(node) is None:  # type: ignore[arg-type]
                    silent.append(f"{path.relative_to(TOP)}:{node.name}")  # type: ignore[attr-defined]
    assert silent == []


def test_every_class_has_a_name_of_its_own() -> None:
    """No class name, and no name of a kind of value (`Point = tuple[...]`), is given twice in the product."""
    import ast
    from collections import Counter

    given: Counter[str] = Counter()
    for package in PACKAGES[:4]:
        for path in (TOP / package).rglob("*.py"):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            given.update(node.name for node in ast.walk(tree) if isinstance(node, ast.ClassDef))
            given.update(
                node.targets[0].id
                for node in tree.body
                if isinstance(node, ast.Assign)
                and isinstance(node.targets[0], ast.Name)
                and not node.targets[0].id.isupper()
                and node.targets[0].id[0].isupper()
            )
    assert [name for name, times in given.items() if times > 1] == []

"""Nothing of the product asks for what only POSIX has, but where it first asks whether that is there."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.whole.no_posix import HIDDEN
from tests.whole.posix_only import only_there, posix_only

TOP = Path(__file__).resolve().parents[2]
ROOMS = ("rules", "bench", "screens", "ringwright")
OF_POSIX = {"screens.terminal", "textual.drivers.linux_driver"}
"""Modules beside those of the library; the first of them is the one in which POSIX is not asked about."""
IMPORTED, PLAIN = re.compile(r"^ *(?:import|from) ([\w.]+)", re.M), re.compile(r"\b(os|signal|time)\.")
FACTS = ("POSIX", "POSIX_TERMINAL")
LEAVES = ast.Return | ast.Raise


def missing_elsewhere(source: str) -> list[str]:
    """What of a module is unguarded and not there on Windows, with its line."""
    if not any(map(may_lack, set(IMPORTED.findall(source)) | set(PLAIN.findall(source)))):
        return []
    tree = ast.parse(source)
    asked = [(node, what) for node in ast.walk(tree) for what in asks(node)]
    if not asked:
        return []
    above = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    return [f"{getattr(node, 'lineno', 0)}: {what}" for node, what in asked if not guarded(node, what, above)]


def may_lack(module: str) -> bool:
    """Whether something of a module may not be there."""
    return bool(posix_only(module)) or any(one.startswith(module) for one in OF_POSIX)


def asks(node: ast.AST) -> Iterator[str]:
    """What a node asks of POSIX alone: modules, and names of modules."""
    if isinstance(node, ast.Import):
        yield from (item.name for item in node.names if of_posix(item.name))
    elif isinstance(node, ast.ImportFrom) and node.module is not None:
        within = [f"{node.module}.{item.name}" for item in node.names]
        known = posix_only(node.module)
        yield from (node.module for _ in [0] if of_posix(node.module))
        yield from (full for full in within if of_posix(full) or full.rpartition(".")[2] in known)
    elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
        yield from [ast.unparse(node)] if node.attr in posix_only(node.value.id) else ()


def of_posix(module: str) -> bool:
    """Whether a module is there on POSIX alone."""
    return module in OF_POSIX or only_there(module)


def guarded(node: ast.AST, what: str, above: dict[ast.AST, ast.AST]) -> bool:
    """Whether it is reached only once it is known to be there."""
    while node in above:
        inside, node = node, above[node]
        if isinstance(node, ast.Try) and inside in node.body and catches(node):
            return True
        if isinstance(node, ast.If | ast.IfExp) and inside is not node.test and known(node, inside, what):
            return True
        before = getattr(node, "body", [])
        earlier = before[: before.index(inside)] if isinstance(before, list) and inside in before else []
        if any(turned_back(one) for one in earlier):
            return True
    return False


def catches(node: ast.Try) -> bool:
    """Whether a try goes on where a name is not there."""
    return any("AttributeError" in ast.unparse(one.type) for one in node.handlers if one.type)


def known(node: ast.If | ast.IfExp, inside: ast.AST, what: str) -> bool:
    """Whether a condition says that it is there, for the side that is taken."""
    first = inside in node.body if isinstance(node.body, list) else inside is node.body
    test, negated = node.test, False
    if isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not):
        test, negated = test.operand, True
    said = ast.unparse(test)
    module, _, name = what.rpartition(".")
    return (said in FACTS or said == f"hasattr({module}, '{name}')") and first is not negated


def turned_back(node: ast.stmt) -> bool:
    """Whether a statement has left already where there is no POSIX."""
    if not isinstance(node, ast.If) or not isinstance(node.body[-1], LEAVES):
        return False
    return ast.unparse(node.test) in [f"not {fact}" for fact in FACTS]


def test_no_name_of_posix_is_asked_for_unguarded() -> None:
    found = {}
    for path in (path for room in ROOMS for path in sorted((TOP / room).rglob("*.py"))):
        name = path.relative_to(TOP).with_suffix("").as_posix().replace("/", ".")
        if name not in OF_POSIX and (lacking := missing_elsewhere(path.read_text(encoding="utf-8"))):
            found[name] = lacking
    assert found == {}


def test_the_program_is_tried_without_every_module_of_posix() -> None:
    """But posix itself, which the library of the interpreter takes by the name of the system."""
    public = {name for name in sys.stdlib_module_names if not name.startswith("_")}
    assert set(filter(only_there, public)) == {*HIDDEN, "posix"} & public


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ("import os\nos.fork()", ["2: os.fork"]),
        ("import os\nos.replace('a', 'b')", []),
        ("def f():\n    import fcntl", ["2: fcntl"]),
        ("from signal import SIGTERM, SIGHUP", ["1: signal.SIGHUP"]),
        ("from screens import terminal", ["1: screens.terminal"]),
        ("from screens.terminal import X", ["1: screens.terminal"]),
        ("if POSIX:\n    import pwd\nelse:\n    import grp", ["4: grp"]),
        ("if not POSIX:\n    os.getuid()", ["2: os.getuid"]),
        ("def f():\n    if not POSIX:\n        return\n    signal.alarm(1)", []),
        ("if hasattr(os, 'pread'):\n    os.pread(0, 1, 0); os.pwrite(0, b'', 0)", ["2: os.pwrite"]),
        ("try:\n    os.ttyname(0)\nexcept (OSError, AttributeError):\n    os.nice(1)", ["4: os.nice"]),
        ("uid = os.getuid() if hasattr(os, 'getuid') else os.geteuid()", ["1: os.geteuid"]),
    ],
)
def test_a_planted_one_is_caught(source: str, found: list[str]) -> None:
    assert missing_elsewhere(source) == found

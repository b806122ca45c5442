"""No module of the product needs itself by way of others, imports inside functions counted."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path

TOP = Path(__file__).resolve().parents[2]
PACKAGES = ("ringwright", "rules", "bench", "screens")

Graph = Mapping[str, frozenset[str]]


def name_of(path: Path, top: Path) -> str:
    """The dotted name of a module."""
    parts = path.relative_to(top).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def for_types_only(node: ast.AST) -> bool:
    """Whether this is `if TYPE_CHECKING:`; what stands in it is never run."""
    return isinstance(node, ast.If) and ast.unparse(node.test).endswith("TYPE_CHECKING")


def running(node: ast.AST) -> Iterator[ast.AST]:
    """Every node that can run, functions looked into."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and for_types_only(child):
            for other in child.orelse:
                yield other
                yield from running(other)
        else:
            yield child
            yield from running(child)


def imported(tree: ast.Module, known: frozenset[str]) -> frozenset[str]:
    """Modules that a module imports, wherever in it, and those it names whole as text for importlib."""
    found: set[str] = set()
    for node in running(tree):
        if isinstance(node, ast.Import):
            found |= {one.name for one in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "write imports whole, from the top"
            inside = {f"{node.module}.{one.name}" for one in node.names}
            found |= (inside & known) | ({str(node.module)} if not inside <= known else set())
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and "." in node.value:
            found.add(node.value)
    return frozenset(found & known)


def graph_of(top: Path, packages: tuple[str, ...] = PACKAGES) -> Graph:
    """Which module imports which."""
    files = {name_of(path, top): path for package in packages for path in (top / package).rglob("*.py")}
    known = frozenset(files)
    return {
        name: imported(ast.parse(path.read_text(encoding="utf-8")), known) - {name}
        for name, path in files.items()
    }


def reached(graph: Graph, start: str) -> frozenset[str]:
    """Every module that one needs, by however many steps."""
    found: set[str] = set()
    waiting = list(graph[start])
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += graph[name]
    return frozenset(found)


def circles(graph: Graph) -> set[frozenset[str]]:
    """Groups of modules that each need one another."""
    needs = {name: reached(graph, name) for name in graph}
    return {
        frozenset({name, *(other for other in needs[name] if name in needs[other])})
        for name in graph
        if name in needs[name]
    }


def test_the_checker_sees_circles_and_leaves_types_alone(tmp_path: Path) -> None:
    (tmp_path / "p").mkdir()
    texts = {
        "__init__": "",
        "a": "def f() -> None:\n    from p import b\n",
        "b": "import p.c\n",
        "c": 'WHERE = {"x": "p.a"}\n',
        "d": "from typing import TYPE_CHECKING\n\nif TYPE_CHECKING:\n    from p.e import x\n",
        "e": "from p.d import y\n",
    }
    for name, text in texts.items():
        (tmp_path / "p" / f"{name}.py").write_text(text, encoding="utf-8")
    graph = graph_of(tmp_path, ("p",))
    assert graph["p.e"] == {"p.d"} and graph["p.d"] == frozenset()
    assert circles(graph) == {frozenset({"p.a", "p.b", "p.c"})}


def test_no_module_needs_itself() -> None:
    assert circles(graph_of(TOP)) == set()

"""What of the standard library only POSIX has, as typeshed says it (the stubs that come with mypy).

typeshed follows the lines "Availability: Unix" and "not Windows" of the library's documentation, and is
checked against a running Windows by its own tests.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterable, Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from types import SimpleNamespace

WINDOWS, LINUX = "win32", "linux"


@cache
def posix_only(module: str) -> frozenset[str]:
    """Names that a module of the standard library has on Linux and not on Windows."""
    place = stub(module)
    if place is None or WINDOWS not in place.read_text(encoding="utf-8"):
        return frozenset()
    return frozenset(there(module, LINUX) - there(module, WINDOWS))


@cache
def only_there(module: str) -> bool:
    """Whether a whole module is POSIX alone."""
    return bool(posix_only(module)) and not there(module, WINDOWS)


def there(module: str, platform: str) -> set[str]:
    """The public names of a module on a platform; none of a module without stubs."""
    place = stub(module)
    if place is None:
        return set()
    read = ast.parse(place.read_text(encoding="utf-8"))
    return {name for name in defined(read.body, platform) if not name.startswith("_")}


def stub(module: str) -> Path | None:
    """The file of stubs of a module."""
    mypy = find_spec("mypy")
    assert mypy is not None and mypy.origin is not None
    place = Path(mypy.origin).parent.joinpath("typeshed", "stdlib", *module.split("."))
    both = (place.with_suffix(".pyi"), place / "__init__.pyi")
    return next((one for one in both if one.is_file()), None)


def defined(body: Iterable[ast.stmt], platform: str) -> Iterator[str]:
    """What a list of statements defines on a platform."""
    here = {"sys": SimpleNamespace(platform=platform, version_info=sys.version_info)}
    for statement in body:
        if isinstance(statement, ast.If):
            holds = eval(ast.unparse(statement.test), here)
            yield from defined(statement.body if holds else statement.orelse, platform)
        elif isinstance(statement, ast.AnnAssign) and isinstance(statement.target, ast.Name):
            yield statement.target.id
        elif isinstance(statement, ast.Assign):
            yield from (target.id for target in statement.targets if isinstance(target, ast.Name))
        elif isinstance(statement, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield statement.name

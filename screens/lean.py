"""The toolkit loaded without two parts that are never used here: a fifth of its start, a sixth of its memory.

Invariant: what was left out is missed by nobody: asyncio knows itself how to be without ssl, and the palette
of commands is never opened. Whoever asks for either later gets the real one.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import ModuleType

UNUSED = "textual.command"


@contextmanager
def left_out() -> Iterator[None]:
    """While it lasts, asyncio is loaded without ssl and the toolkit without its palette."""
    standing = stand_in()
    hidden: dict[str, ModuleType | None] = {"ssl": None, UNUSED: standing}
    put = {name: hidden[name] for name in hidden if name not in sys.modules}
    sys.modules.update(put)  # type: ignore[arg-type]  # None: not to be had
    try:
        yield
    finally:
        for name in put:
            del sys.modules[name]


def stand_in() -> ModuleType:
    """A module in which any name is found, and nothing behind it."""
    module = ModuleType(UNUSED)

    def found(name: str) -> type:
        if name.startswith("__"):
            raise AttributeError(name)
        return type(name, (), {})

    module.__getattr__ = found  # type: ignore[method-assign]
    return module

"""The command `ringwright`.

Invariant: it starts only with the packages it was installed with; three plain names can be taken elsewhere.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path

HERE = Path(__file__).resolve().parent.parent


def strangers() -> list[str]:
    """The packages that would be taken from another place than this one."""
    found = {name: find_spec(name) for name in ("rules", "bench")}
    return [
        name
        for name, spec in found.items()
        if spec is None or spec.origin is None or Path(spec.origin).resolve().parent.parent != HERE
    ]


def main(words: Sequence[str] | None = None) -> int:
    """Run the program; the exit status."""
    odd = strangers()
    if odd:
        names = " and ".join(odd)
        print(
            f"ringwright: another package called {names} stands in the way; unset PYTHONPATH", file=sys.stderr
        )
        return 4
    from screens.dispatch import main as dispatched

    return dispatched(words)


if __name__ == "__main__":
    sys.exit(main())

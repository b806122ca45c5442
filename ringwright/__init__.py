"""The command `ringwright`: the one name under which everything is installed.

Invariant: rules, bench and screens are taken from one place, in a checkout beside this folder and installed
inside it; another library of one of these names neither stands in the way nor is stood in the way of.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from pathlib import Path

INSIDE = Path(__file__).parent
HOME = INSIDE if (INSIDE / "screens").is_dir() else INSIDE.parent
OURS = ("rules", "bench", "screens", "sample_sessions")


def main(words: Sequence[str] | None = None) -> int:
    """Run the program; the exit status."""
    take_our_own()
    from screens.dispatch import main as dispatched

    return dispatched(words)


def take_our_own() -> None:
    """Have our packages found first in this process, and forget others of their names loaded before."""
    for name in [name for name in sys.modules if name.partition(".")[0] in OURS]:
        module = sys.modules[name]
        place = getattr(module, "__file__", None) or next(iter(getattr(module, "__path__", ())), "")
        if not place.startswith(f"{HOME}{os.sep}"):
            del sys.modules[name]
    if sys.path[:1] != [str(HOME)]:
        sys.path.insert(0, str(HOME))

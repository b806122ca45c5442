"""The command `ringwright`: the one name under which everything is installed.

Invariant: rules, bench and screens are taken from one place, in a checkout beside this folder and installed
inside it; another library of one of these names neither stands in the way nor is stood in the way of.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

INSIDE = Path(__file__).parent
HOME = str(INSIDE if (INSIDE / "screens").is_dir() else INSIDE.parent)
if HOME not in sys.path[:1]:
    sys.path.insert(0, HOME)


def main(words: Sequence[str] | None = None) -> int:
    """Run the program; the exit status."""
    from screens.dispatch import main as dispatched

    return dispatched(words)

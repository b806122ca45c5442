"""What a command prints for a program: JSON with the number of its format, as its schema describes it.

Invariant: within one format keys are only ever added; `bench/data/schemas/` holds a JSON Schema of each.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

FORMAT_KEY, FORMAT = "json_format", 1
"""`format` alone is what `check` says of a session file."""


def numbered(tree: Mapping[str, Any]) -> dict[str, Any]:
    """An object with the number of its format first."""
    return {FORMAT_KEY: FORMAT, **tree}


def give(tree: Mapping[str, Any], *, indent: int | None = None) -> None:
    """Print an object; raises ValueError for a figure that JSON has no word for."""
    print(json.dumps(numbered(tree), indent=indent, allow_nan=False))

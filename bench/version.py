"""The version of the program, as files and sheets name it."""

from __future__ import annotations

VERSION = "0.1.0"
MADE_BY = f"ringwright {VERSION}"

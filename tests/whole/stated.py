"""A shop that has said what stands in it, so that a job asks nothing about it."""

from __future__ import annotations

from pathlib import Path

from bench.file.slug import SHOP
from bench.shop.starter import write


def stated(folder: Path) -> Path:
    """The folder with the starter of shop.toml in it, where it has none."""
    if not (folder / SHOP).exists():
        write(folder)
    return folder

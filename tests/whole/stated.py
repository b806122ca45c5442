"""A shop that has said what stands in it, so that a job asks nothing about it."""

from __future__ import annotations

from pathlib import Path

from bench.file.slug import SHOP
from bench.shop.shop import load
from bench.shop.starter import starter_text, write


def stated(folder: Path) -> Path:
    """The folder with the starter of shop.toml in it, where it has none."""
    if not (folder / SHOP).exists():
        write(folder)
    return folder


def with_the_rest_said(folder: Path, words: str) -> Path:
    """The folder with these words of shop.toml, and everything that they leave out said as it is assumed."""
    path = folder / SHOP
    path.write_text(words, encoding="utf-8")
    path.write_text(starter_text(load(folder)), encoding="utf-8")
    return folder

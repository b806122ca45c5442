"""The parser of each command, with what it does, its units and examples from `bench/data/commands.toml`.

Invariant: light to load; every command of the program stands in that table.
"""

from __future__ import annotations

import argparse
import textwrap
import tomllib
from dataclasses import dataclass
from importlib.resources import files
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class About:
    """One command."""

    line: str
    """What it does, in one line."""
    module: str
    """Where it lives; empty for one of the screen."""
    more: str
    """What it takes and gives, with units."""
    examples: tuple[str, ...]
    """Command lines without the name of the program."""


ABOUT = {
    name: About(one["line"], one.get("module", ""), one["more"], tuple(one["examples"]))
    for name, one in tomllib.loads(
        files("bench").joinpath("data", "commands.toml").read_text(encoding="utf-8")
    ).items()
}
Subparsers: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def new(subparsers: Subparsers, name: str) -> argparse.ArgumentParser:
    """The parser of a command, with what it does, units and examples as its help."""
    about = ABOUT[name]
    examples = "\n".join(f"  ringwright {one}" for one in about.examples)
    return subparsers.add_parser(
        name,
        help=about.line,
        description=textwrap.fill(f"{about.line[0].upper()}{about.line[1:]}. {about.more}", 78),
        epilog=f"example{'s' * (len(about.examples) > 1)}:\n{examples}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )

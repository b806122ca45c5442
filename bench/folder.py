"""Where the jobs live: --folder, else RINGWRIGHT_HOME, else the user's data folder.

Invariant: nothing is created by looking.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path
from typing import TYPE_CHECKING

from bench.file.plain import cause
from bench.refusal import Refused

if TYPE_CHECKING:
    from bench.shop.changes import Change
    from bench.shop.shop import Shop

INDEX_NAME = ".jobs-index.json"
GLANCED_NAME = ".jobs-glanced.json"


def home(given: Path | None = None) -> Path:
    """The ringwright folder; raises Refused for one that can be none, such as a file."""
    named = os.environ.get("RINGWRIGHT_HOME")
    if given is not None:
        return usable(given, "--folder")
    if named:
        return usable(Path(named), "RINGWRIGHT_HOME")
    from platformdirs import user_data_path

    return usable(user_data_path("ringwright"), "the data folder")


def usable(folder: Path, named: str) -> Path:
    """The folder, if it is one or is still to be made; raises Refused."""
    try:
        is_folder = stat.S_ISDIR(folder.stat().st_mode)
    except FileNotFoundError:
        return folder
    except OSError as error:
        raise Refused(f"{named} {shortened(str(folder))}: {cause(error)}") from error
    if not is_folder:
        raise Refused(f"{named} {folder}: this is no folder; name one, or a new one")
    return folder


def shortened(text: str) -> str:
    """What was given, short enough for one line."""
    return text if len(text) <= 80 else f"{text[:60]}... ({len(text)} characters)"


def shop_in(folder: Path) -> Shop:
    """The shop of a folder; raises Refused with file, line and reason when its file is wrong."""
    from bench.shop.shop import ShopWrong, load

    try:
        return load(folder)
    except ShopWrong as why:
        raise Refused(str(why)) from why


def wrong_shop(folder: Path) -> str:
    """Why the shop file of a folder cannot be used, empty where it can."""
    try:
        shop_in(folder)
    except Refused as why:
        return str(why)
    return ""


def said_in(folder: Path, before: Shop, changes: tuple[Change, ...]) -> Shop:
    """Write what was said of the shop of a folder; the shop as it then stands. Raises Refused, OSError."""
    from bench.shop.writing import write_said
    from rules.checks import OutOfRange

    try:
        return write_said(folder, before, changes)
    except OutOfRange as why:
        raise Refused(f"not written: {why}") from why

"""A year counted once more, from the raw TOML of session files in which nothing was corrected or taken back.

Nothing of the program is imported: keys and words are written out here as they stand in a file.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections import Counter
from collections.abc import Iterable
from datetime import datetime
from itertools import pairwise
from pathlib import Path
from typing import Any

MADE = ("part", "gasket_part", "gasket_cut_out", "foot_part")
PUT_IN = ("fit_outcome", "gasket_laid", "foot_laid", "oring_laid")
RESULTS = ("empty_result", "cased_result")
PARKED_MIN = 30.0

Counts = Counter[tuple[str, str]]
"""How much of what, by month and name."""


def recounted(paths: Iterable[Path]) -> Counts:
    """The whole folder."""
    found: Counts = Counter()
    for path in paths:
        found.update(of_job(tomllib.loads(path.read_text(encoding="utf-8"))["entry"]))
    return found


def of_job(entries: list[dict[str, Any]]) -> Counts:
    """One job, its entries in their order; each counts in the month of its own time."""
    found: Counts = Counter()
    tried: set[str] = set()
    order, month = "", ""
    for one in entries:
        words = one["value"] if isinstance(one["value"], list) else [one["value"]]
        full, month = one.get("key", ""), one["at"][:7]
        seal, key = full[:7] if re.match(r"seal_\d_", full) else "", re.sub(r"^seal_\d_", "", full)
        order = next((word for word in words if word.startswith("order {")), order)
        if key in MADE:
            found[month, "made"] += 1
        if key in PUT_IN and seal not in tried:
            tried.add(seal)
            found[month, "first_tries"] += 1
            found[month, "first_home"] += int(words[0] == "home")
        if key in RESULTS:
            found[month, {"pass": "passed", "fail": "failed"}[words[0]]] += 1
        if key == "sitting":
            found[month, "sittings"] += 1
        if key in ("rough_outside", "foot_rough_outside"):
            left = next(float(word.split()[1]) for word in words if word.startswith("left "))
            taken = json.loads(order.partition(" ")[2])["bar"]["length_mm"] - left
            found[month, "bar_um"] += round(taken * 1000)
            found[month, "set_ups"] += 1
    for before, after in pairwise(entries):
        seconds = (datetime.fromisoformat(after["at"]) - datetime.fromisoformat(before["at"])).total_seconds()
        if 0.0 < seconds <= PARKED_MIN * 60.0:
            found[after["at"][:7], "seconds"] += round(seconds)
    return found


def next_test(entries: list[dict[str, Any]]) -> str:
    """The day a year after the last pass of the cased watch, of a job that ended with it; else empty."""
    last = next((one for one in reversed(entries) if one.get("key") in RESULTS), None)
    if last is None or last["key"] != "cased_result" or last["value"][0] != "pass":
        return ""
    year, rest = last["value"][1][:4], last["value"][1][4:10]
    return f"{int(year) + 1}{rest.replace('02-29', '02-28')}"

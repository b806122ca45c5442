"""Sheets of random jobs against an independent checker: `python -m tests.campaigns.sheet_claims [--long]`."""

from __future__ import annotations

import argparse
import contextlib
import io
import json
import random
import re
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from ringwright import main as ringwright
from tests.campaigns.edited_sheets import accept, edited
from tests.independent.claims_customer import customer_complaints, slip_complaints
from tests.independent.claims_over import shop_complaints
from tests.independent.hand_claims import page_complaints
from tests.independent.promised import unlike
from tests.independent.sheet_claims import complaints
from tests.whole.random_bench import Bench

MOST, LONG = 96, 500
"""Jobs at most in the short form, which ends once every state was reached often enough;
jobs of the long form.
"""
LEAST = {
    "finished": 8,
    "unfinished": 5,
    "further ring": 5,
    "test passed": 8,
    "test failed": 3,
    "not judged": 3,
    "early": 3,
    "not early": 3,
    "leak rate": 2,
    "no pressure": 1,
    "pass taken away": 1,
    "answers changed": 1,
    "stopped short": 1,
    "time as keyed": 3,
    "verdict of the tester": 5,
    "left during a hold": 2,
    "shorter than needed": 2,
    "timed by the program": 3,
    "marking tested": 2,
    "marking not tested": 5,
    "reading struck": 2,
    "old paint": 1,
    "ended without": 2,
    "keyed wrong": 2,
    "keyed over, tested again": 1,
    "result changed": 1,
    "reading keyed again": 1,
    "edited: changed": 8,
    "edited: changed after the end": 8,
    "edited: missing": 1,
    "edited: missing after the end": 1,
}
"""How often each state must come up in the short form."""
Case = tuple[dict[str, Any], str, str]
"""A sheet as data, as text, and its session file."""


def said(*words: str) -> str:
    """What a command prints; raises AssertionError when it fails."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        status = ringwright(list(words))
    assert status == 0, f"{words}: status {status}"
    return out.getvalue()


def sheet_of(path: Path, folder: Path) -> tuple[dict[str, Any], str]:
    """A session file's sheet as data, and the workshop's as text as far as it repeats them."""
    data: dict[str, Any] = json.loads(said("sheet", str(path), "--json", "--folder", str(folder)))
    return data, shop_of(path, folder).partition("\nFor the shop\n")[0]


def customers_of(path: Path, folder: Path) -> str:
    """The customer's page of a session file, as its statements stand before they are translated."""
    return said("sheet", str(path), "--language", "en", "--folder", str(folder))


def slip_of(sheet: dict[str, Any]) -> str:
    """The words of the slip."""
    return " ".join(one["text"] for one in sheet["slip"])


def customer_faults(sheet: dict[str, Any], path: Path, folder: Path) -> list[str]:
    """What the customer's page and the slip claim that the session file does not hold."""
    page = customers_of(path, folder)
    own = [*customer_complaints(page, path, sheet), *slip_complaints(slip_of(sheet), path, sheet)]
    return own + translated_otherwise(sheet)


def translated_otherwise(sheet: dict[str, Any]) -> list[str]:
    """Statements whose figures are others in the language of the papers."""
    said = (*(one for part in sheet["customer"] for one in part["statements"]), *sheet["slip"])
    return [
        f"{one['name']}: {one['translated']}"
        for one in said
        if figures(one["text"]) != figures(one["translated"])
    ]


def figures(text: str) -> list[str]:
    """The figures of a text, with a point, the smallest first."""
    return sorted(re.findall(r"\d+(?:\.\d+)?", re.sub(r"(?<=\d),(?=\d)", ".", text)))


def shop_of(path: Path, folder: Path) -> str:
    """The workshop's page of a session file."""
    return said("sheet", str(path), "--shop", "--folder", str(folder))


def states(sheet: dict[str, Any], raw: str) -> Counter[str]:
    """Which interesting states a sheet shows, beside its session file."""
    tests = sheet["tests"]
    keyed = len(set(re.findall(r'key = "(case_bore_\d+)"', raw)))
    seen = {
        "finished": sheet["finished"],
        "unfinished": not sheet["finished"],
        "further ring": sheet["attempt"] > 1,
        "test passed": any(one["stands"] for one in tests),
        "test failed": any(one["result"] == "fail" for one in tests),
        "not judged": any(one["result"] == "not_judged" for one in tests),
        "early": any(one["early"] for one in tests),
        "not early": any(not one["early"] for one in tests),
        "leak rate": any(one["leak"] for one in tests),
        "in water": any(one["method"] in ("water_overpressure", "shallow_immersion") for one in tests),
        "no pressure": any(one["overpressure_bar"] is None for one in tests),
        "pass taken away": any(
            one["counts"] and one["result"] == "pass" and not one["stands"] for one in tests
        ),
        "answers changed": any(not one["counts"] for one in tests),
        "stopped short": any(one["stopped_after_min"] is not None for one in tests),
        "time as keyed": any(one["timed"] == "keyed" for one in tests),
        "verdict of the tester": any(one["timed"] == "tester" for one in tests),
        "left during a hold": any(one["timed"] == "asked" for one in tests),
        "shorter than needed": any(one["needed_minutes"] is not None for one in tests),
        "timed by the program": any(one["timed"] == "program" for one in tests),
        "marking tested": sheet["marking_tested"],
        "marking not tested": sheet["marking_bar"] is not None and not sheet["marking_tested"],
        "reading struck": 0 < (sheet["measured"]["case_bore"]["n"] or 0) < keyed,
        "leak found before": any(one["leak_found"] for one in sheet["attempts"][:-1]),
        "readings changed": sheet["ring"]["bore_mm"] is not None and sheet["measured"]["glass"]["n"] is None,
        "old paint": sheet["old_paint"],
        "ended without": sheet["ended"] is not None,
        "keyed wrong": any(one["how"] == "keyed_wrong" for one in sheet["corrections"]),
        "keyed over, tested again": any(one["how"] == "again" for one in sheet["corrections"]),
        "keyed over, not said": any(one["how"] == "open" for one in sheet["corrections"]),
        "result changed": any(one["how"] == "corrected" for one in sheet["corrections"]),
        "fitting corrected": any(one["what"] == "fitting" for one in sheet["corrections"]),
        "reading keyed again": bool(sheet["readings_changed"]),
    }
    return Counter(name for name, holds in seen.items() if holds)


def lacking(reached: Counter[str], least: Mapping[str, int] = LEAST) -> dict[str, tuple[int, int]]:
    """States that did not come up often enough: how often they did, and how often they must."""
    return {name: (reached[name], times) for name, times in least.items() if reached[name] < times}


def run(
    most: int,
    *,
    first: int = 0,
    until_enough: bool = False,
    at: type[Bench] = Bench,
    least: Mapping[str, int] = LEAST,
    edits: bool = True,
) -> tuple[Counter[str], list[str], list[Case]]:
    """States reached, complaints, and the cases for planting faults, of so many jobs or until it is
    enough; with `edits` each file is then changed by hand as well, until
    that too is enough.
    """
    reached: Counter[str] = Counter()
    found: list[str] = []
    cases: list[Case] = []
    for seed in range(first, first + most):
        if until_enough and not lacking(reached, least):
            break
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            bench = at(folder, seed)
            reached[f"bench {bench.run()}"] += 1
            path = next((folder / "jobs").glob("*.toml"))
            sheet, text = sheet_of(path, folder)
            found += [f"seed {seed}: {one}" for one in complaints(sheet, text, path)]
            found += [f"seed {seed}: {one}" for one in shop_complaints(shop_of(path, folder), path)]
            found += [f"seed {seed}: {one}" for one in customer_faults(sheet, path, folder)]
            found += [f"seed {seed}: {one}" for one in unlike("sheet", sheet)]
            raw = path.read_text(encoding="utf-8")
            reached += bench.done + states(sheet, raw)
            cases.append((sheet, text, raw))
            if edits and (not until_enough or any(name.startswith("edited") for name in lacking(reached))):
                found += [f"seed {seed}, {one}" for one in by_hand(path, folder, seed, reached)]
    return reached, found, cases


def by_hand(path: Path, folder: Path, seed: int, reached: Counter[str]) -> list[str]:
    """Complaints about the sheets of a job after up to three edits by hand, each accepted."""
    dice, found = random.Random(seed), []
    for _ in range(3):
        raw = path.read_text(encoding="utf-8")
        path.write_text(edited(raw, dice), encoding="utf-8")
        if not accept(path, folder):
            path.write_text(raw, encoding="utf-8")
            continue
        sheet, text = sheet_of(path, folder)
        page = shop_of(path, folder)
        own = (*complaints(sheet, text, path), *shop_complaints(page, path), *page_complaints(page, path))
        own += (*customer_faults(sheet, path, folder),)
        last = sheet["changed_by_hand"][-1]
        found += [f"after {last['what']} {last['key']} = {last['value']}: {one}" for one in own]
        reached[f"edited: {last['what']}{' after the end' * last['after_end']}"] += 1
    return found


Run = Callable[..., tuple[Counter[str], list[str], list[Case]]]


def main(jobs: Run = run, *, most: int = MOST, long: int = LONG, about: str | None = __doc__) -> int:
    """Run, print, 1 when a sheet claims too much."""
    parser = argparse.ArgumentParser(description=about)
    parser.add_argument("--long", action="store_true", help=f"{long} jobs instead of at most {most}")
    parser.add_argument("--first", type=int, default=0, help="first seed")
    given = parser.parse_args()
    reached, found, _ = jobs(long if given.long else most, first=given.first, until_enough=not given.long)
    for name, times in sorted(reached.items()):
        print(f"{times:5d}  {name}")
    for one in found:
        print(one)
    print(f"{len(found)} complaints")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())

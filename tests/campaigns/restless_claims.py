"""Sheets of jobs whose answers are corrected, whose clock jumps and which are opened again and again,
against the independent checker: `python -m tests.campaigns.restless_claims [--long]`.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.campaigns.lathe_walks import remembered
from tests.campaigns.sheet_claims import Case, main, sheet_of, shop_of, states
from tests.independent.claims_over import shop_complaints
from tests.independent.sheet_claims import complaints
from tests.whole.restless_bench import Restless

MOST, LONG = 60, 500
"""Jobs at most in the short form, which ends once every state was reached; jobs of the long form."""
LEAST = {
    "clock jumped": 10,
    "resumed": 10,
    "keyed over": 10,
    "gone back": 5,
    "finished": 2,
    "unfinished": 1,
    "test passed": 2,
    "test failed": 1,
    "left during a hold": 2,
    "result changed": 1,
    "answers changed": 1,
}
"""How often each must come up in the short form."""


def lacking(reached: Counter[str]) -> dict[str, tuple[int, int]]:
    """States that did not come up often enough: how often they did, and how often they must."""
    return {name: (reached[name], least) for name, least in LEAST.items() if reached[name] < least}


def run(
    most: int, *, first: int = 0, until_enough: bool = False
) -> tuple[Counter[str], list[str], list[Case]]:
    """States reached, complaints, and the cases, of so many jobs or until it is enough."""
    reached: Counter[str] = Counter()
    found: list[str] = []
    cases: list[Case] = []
    for seed in range(first, first + most):
        if until_enough and not lacking(reached):
            break
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            bench = Restless(folder, seed)
            with remembered():
                reached[f"bench {bench.run()}"] += 1
            reached += bench.done
            path = next((folder / "jobs").glob("*.toml"))
            sheet, text = sheet_of(path, folder)
            found += [f"seed {seed}: {one}" for one in complaints(sheet, text, path)]
            found += [f"seed {seed}: {one}" for one in shop_complaints(shop_of(path, folder), path)]
            raw = path.read_text(encoding="utf-8")
            reached += states(sheet, raw)
            cases.append((sheet, text, raw))
    return reached, found, cases


if __name__ == "__main__":
    sys.exit(main(run, most=MOST, long=LONG, about=__doc__))

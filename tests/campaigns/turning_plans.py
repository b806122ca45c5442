"""Drawn rings, lathes and tool sets, each plan cut by the independent replay.

python -m tests.campaigns.turning_plans [--long]
"""

from __future__ import annotations

import argparse
import json

from bench.sheet.turning import plan_json
from rules.turning.planning import plan
from tests.independent.plan_replay import faults
from tests.turning_draws import job


def main() -> None:
    """Print how many plans were right and what was wrong with the rest."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    draws = 10_000 if parser.parse_args().long else 500
    wrong = 0
    for seed in range(draws):
        ring, set_up, shop = job(seed)
        data = json.loads(json.dumps(plan_json(plan(ring=ring, set_up=set_up)), allow_nan=False))
        found = faults(data, shop)
        wrong += bool(found)
        for fault in found[:2]:
            print(f"draw {seed}: {fault}")
    print(f"{draws - wrong} of {draws} plans right")
    raise SystemExit(1 if wrong else 0)


if __name__ == "__main__":
    main()

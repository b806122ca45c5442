"""Drawn rings, lathes, tool sets and bars of every kind, each plan cut by the independent replay.

python -m tests.campaigns.turning_plans [--long]
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from dataclasses import dataclass, field
from typing import Any

from bench.sheet.turning import plan_json
from rules.checks import OutOfRange
from rules.turning.planning import plan
from tests.independent.plan_replay import Workshop, faults
from tests.turning_draws import drawn


@dataclass
class Tally:
    """What came of the draws."""

    planned: int = 0
    wrong: list[str] = field(default_factory=list)
    refused: Counter[str] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    plans: list[tuple[dict[str, Any], Workshop]] = field(default_factory=list)


def run(draws: int, *, keep: int = 0) -> Tally:
    """Plan and replay so many draws; the first `keep` plans are kept."""
    tally = Tally()
    for seed in range(draws):
        ring, set_up, shop = drawn(seed)
        try:
            made = plan(ring=ring, set_up=set_up)
        except OutOfRange as why:
            tally.refused[str(why).partition(":")[0]] += 1
            continue
        data = json.loads(json.dumps(plan_json(made), allow_nan=False))
        tally.planned += 1
        tally.wrong += [f"draw {seed}: {fault}" for fault in faults(data, shop)]
        tally.kinds.update(kinds_of(data))
        if len(tally.plans) < keep:
            tally.plans.append((data, shop))
    return tally


def kinds_of(data: dict[str, Any]) -> list[str]:
    """Which of the kinds of bar, opening and holding a plan reaches."""
    opening, bar = data["opening"], data["bar"]
    drills = len(opening["drills_mm"])
    how = "core" if opening["face_grooving"] else ("own bore", "one drill", "drills in steps")[min(drills, 2)]
    oversize = ["oversize"] if bar["start_mm"] > bar["diameter_mm"] else []
    spares = ["core before a spare"] if how == "core" and data["rings"] > 1 else []
    return [bar["kind"], how, f"in {bar['grip']}", *oversize, *spares, *(["sawn"] if bar["sawn_mm"] else [])]


def main() -> None:
    """Print how many plans were right and what was wrong with the rest."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    tally = run(10_000 if parser.parse_args().long else 500)
    for fault in tally.wrong[:20]:
        print(fault)
    print(f"{tally.planned} planned, {len(tally.wrong)} faults; reached {dict(sorted(tally.kinds.items()))}")
    print(f"{sum(tally.refused.values())} refused, by what is lacking: {dict(tally.refused)}")
    raise SystemExit(1 if tally.wrong else 0)


if __name__ == "__main__":
    main()

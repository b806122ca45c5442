"""Ordinary jobs by the thousand: do the verdicts read as a competent repairer would give them?

    python -m tests.campaigns.ordinary_jobs [--long]

draws jobs in 316L with gaps of 0.3 to 1.0 mm and usual sections (2,000; with --long 20,000) and prints a
table of counts.
"""

from __future__ import annotations

import argparse
import random
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size

CONTRADICTIONS = (
    ("the ring is loose", "will stay stretched"),
    ("the ring is loose", "more than the press gives"),
    ("the ring is loose", "higher than its room"),
    ("outside larger", "outside smaller"),
    ("wall under 0.30", "gap over 1.2"),
)
"""Pairs of warnings that would say the opposite of each other."""


@dataclass(slots=True)
class Counts:
    """What was said over all jobs."""

    jobs: int = 0
    open: int = 0
    good_chance: int = 0
    warnings: Counter[str] = field(default_factory=Counter)
    warnings_a_job: Counter[int] = field(default_factory=Counter)
    ring_inside: int = 0
    """Proposed rings that lie in their own window."""
    contradictions: list[str] = field(default_factory=list)
    binds_low: Counter[str] = field(default_factory=Counter)
    binds_high: Counter[str] = field(default_factory=Counter)
    force: Counter[str] = field(default_factory=Counter)
    bezel: Counter[str] = field(default_factory=Counter)
    glass: Counter[str] = field(default_factory=Counter)


def ordinary(dice: random.Random) -> SizingQuestion:
    """One usual job: 316L, mostly acetal and sapphire, calliper and micrometer, a small bench lathe."""
    glass = round(dice.uniform(24.0, 38.0), 2)
    gap = dice.uniform(0.3, 1.0)
    thickness = round(dice.uniform(1.2, 2.5), 1)
    depth = round(dice.uniform(1.2, 2.6), 2)
    return SizingQuestion(
        case_bore_mm=round(glass + 2 * gap, 2),
        glass_mm=glass,
        seat_depth_mm=depth,
        glass_edge_mm=round(max(0.6, thickness - 0.2), 2),
        material=dice.choices(("acetal", "pa66", "pa12", "peek"), (17, 1, 1, 1))[0],
        case_metal="316L",
        case_wall_mm=round(dice.uniform(1.0, 4.0), 1),
        case_height_mm=round(dice.uniform(2.0, 5.0), 1),
        ring_offset_mm=round(dice.uniform(0.0, 0.4), 1),
        glass_material=dice.choices(("sapphire", "mineral"), (3, 1))[0],
        glass_thickness_mm=thickness,
        case_bore_u_mm=dice.choice((0.015, 0.015, 0.02, 0.04)),
        glass_u_mm=dice.choice((0.005, 0.01, 0.02)),
        ovality_mm=dice.choices((0.0, 0.01, 0.02, 0.04), (4, 3, 2, 1))[0],
        turning_spread_mm=dice.choice((0.005, 0.01, 0.015)),
        overpressure_bar=dice.choice((None, 2.0, 3.0, 5.0)),
    )


def _contradicts(answer: Sizing) -> Iterator[str]:
    """Warnings and verdicts of one answer that cannot both be true."""
    said = " | ".join(answer.warnings)
    for one, other in CONTRADICTIONS:
        if one in said and other in said:
            yield f"{one} / {other}"
    if answer.window.feasible == ("no bore meets every requirement" in said):
        yield "window open / no bore works"
    if answer.fit.case_yields is not True and "will stay stretched" in said:
        yield "springs back / will stay stretched"
    if len(set(answer.warnings)) != len(answer.warnings):
        yield "the same warning twice"


def _glass_side(answer: Sizing) -> str:
    """Where the stress lies beside the published design stress."""
    stress, design = answer.glass.stress_supported_mpa, answer.glass.design_stress_mpa
    if stress is None or design is None:
        return "no pressure given, or beyond the formula"
    return "above its design stress" if stress > design else "below its design stress"


def count(jobs: int, *, seed: int = 1) -> Counts:
    """Sizes that many ordinary jobs and counts the verdicts."""
    dice, counts = random.Random(seed), Counts()
    for _ in range(jobs):
        answer = size(ordinary(dice))
        window = answer.window
        counts.jobs += 1
        counts.open += window.feasible
        counts.good_chance += window.chance >= 0.5
        counts.ring_inside += (
            window.bore_low_mm is not None
            and window.bore_high_mm is not None
            and window.bore_low_mm <= answer.ring.bore_mm <= window.bore_high_mm
        )
        counts.warnings.update(words.split(":")[0] for words in answer.warnings)
        counts.warnings_a_job[len(answer.warnings)] += 1
        counts.contradictions += _contradicts(answer)
        counts.binds_low[window.binds_low.split(" on the")[0]] += 1
        counts.binds_high[window.binds_high.split(" on the")[0]] += 1
        counts.force[answer.consequences.force_words] += 1
        counts.bezel[answer.consequences.stretch_words] += 1
        counts.glass[_glass_side(answer)] += 1
    return counts


def table(counts: Counts) -> list[str]:
    """The counts as lines."""
    lines = [
        f"ordinary jobs                {counts.jobs:6d}",
        f"a window                     {counts.open:6d}  {100 * counts.open / counts.jobs:5.1f} %",
        (
            f"chance of 50 % or more       {counts.good_chance:6d}  "
            f"{100 * counts.good_chance / counts.jobs:5.1f} %"
        ),
        (
            f"proposed ring in its window  {counts.ring_inside:6d}  "
            f"{100 * counts.ring_inside / counts.jobs:5.1f} %"
        ),
        f"contradictions               {len(counts.contradictions):6d}",
    ]
    lines += [f"{number} warnings  {times:6d}" for number, times in sorted(counts.warnings_a_job.items())]
    for title, counter in (
        ("warning", counts.warnings),
        ("too tight by", counts.binds_low),
        ("too loose by", counts.binds_high),
        ("to press it home", counts.force),
        ("bezel", counts.bezel),
        ("glass under test", counts.glass),
    ):
        lines += [f"{title}: {words}  {times}" for words, times in counter.most_common()]
    return lines


def main() -> int:
    """Runs the campaign; status 1 when the verdicts are not as they should be."""
    parser = argparse.ArgumentParser(description="verdicts over ordinary jobs")
    parser.add_argument("--long", action="store_true", help="20,000 jobs instead of 2,000")
    counts = count(20_000 if parser.parse_args().long else 2_000)
    print("\n".join(table(counts)))
    good = counts.open >= 0.9 * counts.jobs and not counts.contradictions
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())

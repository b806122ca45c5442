"""Ordinary jobs by the thousand: do the verdicts read as a competent repairer would give them, and does
nothing that is said deny another?

    python -m tests.campaigns.ordinary_jobs [--long]

counts the verdicts over jobs of every day, in 316L with gaps of 0.3 to 1.0 mm and usual sections, and looks
for contradictions in jobs of all metals, glasses and plastics, with gaps of 0.2 to 1.4 mm, ovals to 0.12 mm
and pressures to 20 bar; 500 of each, with --long 2,000 and 20,000. Every second of the latter is asked again
with a ring that is there.
"""

from __future__ import annotations

import argparse
import random
import sys
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

from rules.checks import OutOfRange
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from tests.campaigns.ordinary_claims import contradictions, inside, proposed
from tests.campaigns.ordinary_draws import given, ordinary, wide

Sizer = Callable[[SizingQuestion], Sizing]


@dataclass(slots=True)
class Verdicts:
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
    reached: Counter[str] = field(default_factory=Counter)
    """How often each material and region was met."""


def _glass_side(answer: Sizing) -> str:
    """Where the stress lies beside the published design stress."""
    stress, design = answer.glass.stress_supported_mpa, answer.glass.design_stress_mpa
    if stress is None or design is None:
        return "no pressure given, or beyond the formula"
    return "above its design stress" if stress > design else "below its design stress"


def noted(counts: Verdicts, answer: Sizing) -> None:
    """Counts the verdicts of one answer."""
    window = answer.window
    counts.jobs += 1
    counts.open += window.feasible
    counts.good_chance += window.chance >= 0.5
    counts.ring_inside += inside(answer)
    counts.warnings.update(words.split(":")[0] for words in answer.warnings)
    counts.warnings_a_job[len(answer.warnings)] += 1
    counts.contradictions += contradictions(answer)
    counts.binds_low[window.binds_low.split(" on the")[0]] += 1
    counts.binds_high[window.binds_high.split(" on the")[0]] += 1
    counts.force[answer.consequences.force_words] += 1
    counts.bezel[answer.consequences.stretch_words] += 1
    counts.glass[_glass_side(answer)] += 1


def count(jobs: int, *, seed: int = 1) -> Verdicts:
    """Sizes that many jobs of every day and counts the verdicts."""
    dice, counts = random.Random(seed), Verdicts()
    for _ in range(jobs):
        noted(counts, size(ordinary(dice)))
    return counts


def regions(answer: Sizing) -> list[str]:
    """Where an answer lies in what there is."""
    asked, joint, fit = answer.resolved.question, answer.resolved.joint, answer.fit
    window, gap, tested = answer.window, joint.gap_mm, asked.overpressure_bar or 0.0
    return [
        f"metal: {joint.metal.key if joint.metal else 'not known'}",
        f"glass: {joint.glass.key if joint.glass else 'not known'}",
        f"plastic: {joint.plastic.key}",
        f"gap: {0.2 * int(gap / 0.2):.1f} to {0.2 * int(gap / 0.2) + 0.2:.1f} mm",
        f"oval: {'over' if answer.resolved.demands.ovality_mm > 0.08 else 'to'} 0.08 mm",
        f"test: {'none' if not asked.overpressure_bar else 'to 5 bar' if tested <= 5.0 else 'to 20 bar'}",
        f"ring: {'proposed' if proposed(answer) else 'given'}",
        f"window: {'no bore works' if not window.feasible else 'inside' if inside(answer) else 'outside'}",
        f"chance: {'good' if window.ring_chance >= 0.5 else 'poor'}",
        f"bezel: {answer.consequences.stretch_words}",
        f"figures: {'stretched' if fit.stretched else 'both' if fit.perhaps else 'elastic'}",
        f"warm: {'not known' if fit.answer.contact_pressure_warm_mpa is None else 'known'}",
        f"remedies: {len(answer.remedies)}",
        f"warnings: {min(len(answer.warnings), 4)}",
    ]


def look(jobs: int, *, seed: int = 1, sizer: Sizer = size) -> Verdicts:
    """Looks for contradictions in that many jobs from the whole range; `sizer` answers."""
    dice, counts = random.Random(seed), Verdicts()
    for number in range(jobs):
        asked = wide(dice)
        try:
            answers = [sizer(asked)]
            if number % 2:
                ring = answers[0].ring
                answers.append(sizer(given(dice, asked, ring.outside_diameter_mm, ring.bore_mm)))
        except OutOfRange as refused:
            counts.reached[f"refused: {str(refused).split(':')[0]}"] += 1
            continue
        for answer in answers:
            counts.jobs += 1
            counts.contradictions += contradictions(answer)
            counts.reached.update(regions(answer))
    return counts


def table(counts: Verdicts) -> list[str]:
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
    parser = argparse.ArgumentParser(description="verdicts over ordinary jobs, contradictions in any")
    parser.add_argument("--long", action="store_true", help="2,000 and 20,000 jobs instead of 500 each")
    long, begun = parser.parse_args().long, time.monotonic()
    counts = count(2_000 if long else 500)
    print("\n".join(table(counts)))
    whole = look(20_000 if long else 500)
    print(f"answers from the whole range {whole.jobs:6d}")
    print(f"contradictions               {len(whole.contradictions):6d}  {time.monotonic() - begun:.0f} s")
    print("\n".join(f"{where}  {times}" for where, times in sorted(whole.reached.items())))
    print("\n".join(sorted(set(whole.contradictions))[:20]))
    good = counts.open >= 0.9 * counts.jobs and not counts.contradictions and not whole.contradictions
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())

"""The stated chance beside drawing, over many jobs:
at the best aim, and at the proposed ring where no bore works.

    python -m tests.campaigns.drawn_chances [--long]

40 jobs of 100,000 drawn rings each; with --long 400. Windows that are shut are drawn too.
"""

from __future__ import annotations

import argparse
import random
import sys
from dataclasses import replace

import numpy as np

from rules.sizing.sizing import size
from tests.independent.drawn_rings import chance_by_drawing
from tests.independent.random_jobs import drawn, job

RINGS = 100_000
CLOSE = 0.01


def compare(jobs: int, *, seed: int) -> list[tuple[float, str]]:
    """Stated less drawn chance for each bore asked, with what binds there."""
    dice, found = random.Random(seed), []
    for number in range(jobs):
        asked = job(dice)
        answer = size(asked)
        window, joint = answer.window, answer.resolved.joint
        for bore in {answer.ring.bore_mm, window.target_bore_mm or answer.ring.bore_mm}:
            given = size(replace(asked, outside_mm=answer.ring.outside_diameter_mm, bore_mm=bore))
            share = chance_by_drawing(
                drawn(asked, given.ring, seat_mm=joint.case_bore_mm, glass_mm=joint.glass_mm),
                rings=RINGS,
                dice=np.random.default_rng(number),
            )
            state = "open" if window.feasible else "shut"
            words = f"{asked.material}, {asked.case_metal}: {window.binds_low} / {window.binds_high}, {state}"
            found.append((given.window.ring_chance - share, words))
    return found


def main() -> int:
    """Runs the campaign; status 1 when a chance is more than a percentage point off."""
    parser = argparse.ArgumentParser(description="stated chance beside drawn chance")
    parser.add_argument("--long", action="store_true", help="400 jobs instead of 40")
    found = compare(400 if parser.parse_args().long else 40, seed=11)
    found.sort(key=lambda one: -abs(one[0]))
    far = [one for one in found if abs(one[0]) > CLOSE]
    print(f"{len(found)} bores drawn, {len(far)} more than {100 * CLOSE:g} percentage points off; the worst:")
    for off, words in found[:8]:
        print(f"{100 * off:+.2f}  {words}")
    return 1 if far else 0


if __name__ == "__main__":
    sys.exit(main())

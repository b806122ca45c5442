"""How often a simulated watch passes and fails, cell by cell, through the function the command uses.

A watch is a volume drawn from its uncertainty, a true leak, a flow law, a gauge with a step and a scatter
that may be correlated from reading to reading. The hold is the one the program asks for before the test.
The physics of the watch is written out here on its own and shares nothing with `rules`.

Long form, with the table:  python -m tests.campaigns.leak_cells --long
"""

from __future__ import annotations

import argparse
import itertools
import math
import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from rules.testing.leak_fit import fit_leak
from rules.testing.rig import Rig

AIR_UG_CM3_BAR = 1188.4
ROOM_BAR = 1.01325
LIMIT, THRICE, TIGHT = 50.0, 150.0, 5.0
OVERPRESSURE_BAR, SIZE_UM_BAR = 2.0, 5.0
VOLUME_SHARE = 0.15
"""Expanded uncertainty (95 %) of the volume, as a share of it."""


@dataclass(frozen=True, slots=True)
class Gauge:
    """A gauge: its step and the standard deviation of one reading, um, against 10 um of deflection."""

    step_um: float
    scatter_um: float
    fixed: bool = False
    """The case gives 9.5 to 10.5 um, and the hold is fixed from the first reading, as on the screen;
    else 10 um and the hold for that, as for a file."""
    known: bool = False
    """The scatter is known beforehand, and the hold fixed accordingly."""
    judged_on_power: bool = True
    """Whether tight and badly leaking watches must be told apart with it too."""


GAUGES = (
    Gauge(0.1, 0.04),
    Gauge(1.0, 0.04),
    Gauge(1.0, 0.04, fixed=True),
    Gauge(0.1, 0.3, judged_on_power=False),
    Gauge(1.0, 0.6, judged_on_power=False),
    Gauge(0.1, 0.2, fixed=True, known=True),
)


@dataclass(frozen=True, slots=True)
class Cell:
    """One combination of law, gauge, correlation, number of readings and volume."""

    law: str
    gauge: Gauge
    correlation: float
    readings: int
    volume_cm3: float

    def hold_s(self, first_reading_um: float) -> float:
        """The hold the program asks for: fixed from the first reading, or for a file the one it names."""
        if not self.gauge.fixed:
            return _hold_for_a_file(self.volume_cm3, self.gauge.step_um)
        rig = Rig(self.volume_cm3, 0.0, OVERPRESSURE_BAR, self.gauge.step_um)
        return rig.planned_hold_s(
            first_reading_um,
            scatter=self.gauge.scatter_um if self.gauge.known else 0.0,
            readings=self.readings,
        )


@lru_cache
def _hold_for_a_file(volume_cm3: float, step_um: float) -> float:
    return fit_leak(
        [0.0, 60.0, 120.0, 180.0, 240.0],
        [SIZE_UM_BAR * OVERPRESSURE_BAR] * 5,
        Rig(volume_cm3, VOLUME_SHARE * volume_cm3, OVERPRESSURE_BAR, step_um),
    ).hold_needed_s


@dataclass(frozen=True, slots=True)
class Rates:
    """What came of one cell."""

    cell: Cell
    limit_passes: float
    """Share of watches leaking at the limit that passed."""
    thrice_fails: float
    """Share of watches leaking three times the limit that failed."""
    tight_passes: float
    """Share of tight watches that passed."""
    decisions: Counter[str]
    """How often each decision was reached, all watches together."""


def cells(volumes_cm3: tuple[float, ...] = (1.0, 2.0, 6.0)) -> Iterator[Cell]:
    """All the cells."""
    for law, gauge, correlation, readings, volume in itertools.product(
        ("fixed", "laminar"), GAUGES, (0.0, 0.5, 0.7), (13, 21, 61), volumes_cm3
    ):
        yield Cell(law, gauge, correlation, readings, volume)


def difference_bar(law: str, leak_ug_min: float, volume_cm3: float, time_s: float) -> float:
    """Pressure difference over a leaking case; the leak is the one at the start, at 2 bar overpressure."""
    outside = ROOM_BAR + OVERPRESSURE_BAR
    start_rate_bar_s = leak_ug_min / (AIR_UG_CM3_BAR * volume_cm3) / 60.0
    if law == "fixed":
        return OVERPRESSURE_BAR * math.exp(-start_rate_bar_s / OVERPRESSURE_BAR * time_s)
    k = start_rate_bar_s / (outside**2 - ROOM_BAR**2)
    growth = math.exp(2.0 * outside * k * time_s) * (outside + ROOM_BAR) / (outside - ROOM_BAR)
    return outside - outside * (growth - 1.0) / (growth + 1.0)


def decision(cell: Cell, leak_ug_min: float, dice: random.Random) -> str:
    """The program's decision on one simulated watch."""
    gauge, r = cell.gauge, cell.correlation
    volume = cell.volume_cm3 * (1.0 + VOLUME_SHARE / 2.0 * dice.gauss(0.0, 1.0))
    size_um_bar = SIZE_UM_BAR * (dice.uniform(0.95, 1.05) if gauge.fixed else 1.0)
    noise = dice.gauss(0.0, 1.0)

    def reading(time_s: float) -> float:
        true_um = size_um_bar * difference_bar(cell.law, leak_ug_min, volume, time_s)
        return round((true_um + gauge.scatter_um * noise) / gauge.step_um) * gauge.step_um

    times, signal = [0.0], [reading(0.0)]
    hold = cell.hold_s(signal[0] if gauge.fixed else SIZE_UM_BAR * OVERPRESSURE_BAR)
    for i in range(1, cell.readings):
        noise = r * noise + math.sqrt(1.0 - r * r) * dice.gauss(0.0, 1.0)
        times.append(hold * i / (cell.readings - 1))
        signal.append(reading(times[-1]))
    return fit_leak(
        times,
        signal,
        Rig(cell.volume_cm3, cell.volume_cm3 * VOLUME_SHARE, OVERPRESSURE_BAR, gauge.step_um),
        fixed_hold_s=hold if gauge.fixed else None,
    ).decision


def rates(cell: Cell, watches: int, seed: int) -> Rates:
    """Run one cell with so many watches for each leak."""
    dice = random.Random(f"{seed} {cell}")
    limit, thrice, tight = (
        Counter(decision(cell, leak, dice) for _ in range(watches)) for leak in (LIMIT, THRICE, TIGHT)
    )
    return Rates(
        cell,
        limit["PASS"] / watches,
        thrice["FAIL"] / watches,
        tight["PASS"] / watches,
        limit + thrice + tight,
    )


def faults(results: list[Rates], watches: int) -> list[str]:
    """What breaks the promises; a cell may miss by three standard deviations of its own counting."""

    def slack(share: float) -> float:
        return 3.0 * math.sqrt(share * (1.0 - share) / watches) if watches < 2000 else 0.0

    found = []
    pooled = sum(one.limit_passes for one in results) / len(results)
    if pooled > 0.05:
        found.append(f"pooled: {pooled:.3f} of the watches leaking at the limit passed")
    for one in results:
        if one.limit_passes > 0.065 + slack(0.065):
            found.append(f"{one.cell}: {one.limit_passes:.3f} of the watches leaking at the limit passed")
        if one.cell.gauge.judged_on_power:
            if one.thrice_fails < 0.99 - slack(0.99):
                found.append(f"{one.cell}: only {one.thrice_fails:.3f} failed at three times the limit")
            if one.tight_passes < 0.90 - slack(0.90):
                found.append(f"{one.cell}: only {one.tight_passes:.3f} of the tight watches passed")
    return found


def table(results: list[Rates]) -> Iterator[str]:
    """One line a cell."""
    yield "law     step scatter fixed known corr  n   V  hold_min  limit_pass  3x_fail  tight_pass"
    for one in results:
        cell, gauge = one.cell, one.cell.gauge
        yield (
            f"{cell.law:7} {gauge.step_um:4} {gauge.scatter_um:7} {gauge.fixed!s:5} {gauge.known!s:5} "
            f"{cell.correlation:4} "
            f"{cell.readings:3} {cell.volume_cm3:3g} {cell.hold_s(10.0) / 60:8.0f} {one.limit_passes:11.4f} "
            f"{one.thrice_fails:8.4f} {one.tight_passes:11.4f}"
        )


def main() -> int:
    """Print the table; status 1 when a promise is broken."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--long", action="store_true", help="2,000 watches for each leak in each cell")
    parser.add_argument("--seed", type=int, default=20)
    options = parser.parse_args()
    watches = 2000 if options.long else 60
    results = [rates(cell, watches, options.seed) for cell in cells()]
    for line in table(results):
        print(line)
    by_gauge = {gauge: [one for one in results if one.cell.gauge == gauge] for gauge in GAUGES}
    for gauge, some in by_gauge.items():
        pooled = sum(one.limit_passes for one in some) / len(some)
        print(
            f"{gauge}: limit passes {pooled:.4f} pooled, {max(one.limit_passes for one in some):.4f} most; "
            f"3x fails {min(one.thrice_fails for one in some):.4f} at least; "
            f"tight passes {min(one.tight_passes for one in some):.4f} at least"
        )
    found = faults(results, watches)
    for one in found:
        print("BROKEN", one)
    return 1 if found else 0


if __name__ == "__main__":
    raise SystemExit(main())

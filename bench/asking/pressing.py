"""Press and tester: the force it reaches, what it gives, how far it goes.

Invariant: a force that is not known stays not known.
"""

from __future__ import annotations

from dataclasses import replace

from bench.asking import names
from bench.asking.questions import choice, count, number_said
from bench.job.asking import Stage, word
from bench.shop.changes import Change
from bench.shop.groups import PRESS, TESTER
from bench.shop.shop import Shop
from rules.limits import RANGES

NOT_KNOWN = "not known"


def press_said(shop: Shop) -> Stage[Change]:
    """The press as it is said."""
    low, high, unit = RANGES["press force"]
    now = shop.press.largest_force_n
    step = count(
        names.FORCE,
        f"{shop.press.name}: the largest force it shows or is good for".capitalize(),
        NOT_KNOWN if now is None else now,
        digits=5,
        unit=unit,
        low=low,
        high=high,
        why="Known, it limits the squeeze that is proposed; not known, it limits nothing.",
    )
    said = yield from number_said(step)
    return Change(PRESS, (replace(shop.press, largest_force_n=said),))


def tester_said(shop: Shop) -> Stage[Change]:
    """The tester as it is said."""
    now = shop.tester
    gives = yield from word(
        choice(
            names.GIVES,
            f"{now.name}: what does it give?".capitalize(),
            ("verdict", "pass or fail, by itself"),
            ("deflection", "it shows how far the watch gives"),
            ("water", "bubbles in water, nothing else"),
            usual=now.gives,
            why="The test that it makes is offered first.",
        )
    )
    most = count(
        names.REACHES_BAR,
        f"{now.name}: largest overpressure".capitalize(),
        now.largest_bar,
        digits=3,
        decimals=1,
        unit="bar",
        low=0.1,
        high=200.0,
    )
    largest = yield from number_said(most)
    fine = count(
        names.GAUGE_STEP,
        f"{now.name}: one step of its pressure gauge".capitalize(),
        now.gauge_step_bar,
        digits=1,
        decimals=2,
        unit="bar",
        low=0.01,
        high=5.0,
    )
    step = yield from number_said(fine)
    said = replace(
        now,
        gives=gives,
        largest_bar=now.largest_bar if largest is None else largest,
        gauge_step_bar=now.gauge_step_bar if step is None else step,
    )
    return Change(TESTER, (said,))

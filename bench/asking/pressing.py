"""Press and tester: the force it reaches, what it gives, how far it goes.

Invariant: a force that is not known stays not known.
"""

from __future__ import annotations

from dataclasses import replace

from bench.asking import names
from bench.asking.questions import choice, count, number_said
from bench.job.asking import Stage, word
from bench.job.values import number
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
    largest = yield from bar_said(names.REACHES_BAR, f"{now.name}: largest overpressure", now.largest_bar)
    step = yield from bar_said(names.GAUGE_STEP, f"{now.name}: one step of its gauge", now.gauge_step_bar)
    return Change(TESTER, (replace(now, gives=gives, largest_bar=largest, gauge_step_bar=step),))


def bar_said(key: str, title: str, now: float) -> Stage[float]:
    """A pressure of the tester, bar."""
    largest = key == names.REACHES_BAR
    low, high = (0.1, 200.0) if largest else (0.01, 5.0)
    step = count(
        key,
        title.capitalize(),
        now,
        digits=3 if largest else 1,
        decimals=1 if largest else 2,
        unit="bar",
        low=low,
        high=high,
    )
    text = (yield step).word
    return now if text == step.usual else number(text)

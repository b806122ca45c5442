"""The checks before anything turns.

Invariant: none can be ticked through: each is read off, or found among states in a new order.
"""

from __future__ import annotations

from typing import Any

from bench.job import keys
from bench.job.steps import Step, Words
from bench.seals.ring.cut_steps import BASE
from bench.seals.ring.turning_facts import kept_words
from bench.stages.common import plain_choices
from rules.turning.passes import Plan

EYES = plain_choices(
    ("on", "on my face"), ("bench", "on the bench"), ("pushed_up", "pushed up on the forehead")
)
CHUCK_KEY = plain_choices(("holder", "in its holder"), ("chuck", "in the chuck"), ("bed", "on the lathe bed"))
WHY = "A lathe does not stop for a hand. Local rules and the lathe's own manual come first."


def lathe_checks(made: Plan, *, asked_again: bool) -> tuple[Step, ...]:
    """The five checks before anything turns, in the order one comes to them; the last keeps the plan."""
    rests: Words = (*BASE, keys.LATHE_SLIP, *((keys.SITTING,) if asked_again else ()))
    rpm = next((one.rpm for one in made.passes if one.rpm), 0.0) or 0.0
    out = made.order.stock.stick_out_mm

    def check(key: str, title: str, **more: Any) -> Step:
        return Step(key, "cut", "safety", title, rests_on=rests, cautions=("lathe",), why=WHY, **more)

    return (
        check(
            keys.LATHE_HANDS,
            "Gloves, rings, watch, bracelet, loose cuffs, tie, hanging hair: how many are still on you?",
            readback=0,
        ),
        check(keys.LATHE_EYES, "Eye protection: where is it?", choices=EYES),
        check(keys.LATHE_KEY, "The chuck key: where is it?", choices=CHUCK_KEY),
        check(
            keys.LATHE_BAR,
            f"Bar of {made.order.bar.diameter_mm:g} mm gripped, nothing standing out behind the spindle: "
            f"how many whole millimetres stand out in front? ({out:.1f} planned)",
            say=(*made.stock_words, *(f"CHECK  {text}" for text in made.warnings)),
            consequence=(f"All passes, rests and dressing: about {made.minutes:.0f} min.",),
            readback=round(out),
            readback_within=1,
        ),
        check(
            keys.LATHE_SPEED,
            f"Set the spindle to {rpm:g} rpm, still stopped. Which speed does the lathe show?",
            readback=round(rpm),
            decided=kept_words(made.order),
        ),
    )

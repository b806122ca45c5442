"""The checks before anything turns, and after a tool was changed.

Invariant: none can be ticked through: each is read off, or found among states in a new order;
what is to be set stands on a page before, never on the page that asks what is set.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from bench.job import keys
from bench.job.mask import Mask
from bench.job.steps import Choice, Step, Words
from bench.seals.lathe.turning_facts import kept_words
from bench.stages.common import plain_choices
from rules.equipment import NEEDED_KINDS, Lathe, Tool
from rules.lengths import INCH, by_rule, plainly, sixteenths, spoken, translated
from rules.turning.cutting_words import KIND_NAMES, speed_words
from rules.turning.passes import Pass, Plan
from rules.turning.tool_choice import tool_of

EYES = plain_choices(
    ("on", "on my face"), ("bench", "on the bench"), ("pushed_up", "pushed up on the forehead")
)
CHUCK_KEY = plain_choices(("holder", "in its holder"), ("chuck", "in the chuck"), ("bed", "on the lathe bed"))
WHY = "A lathe does not stop for a hand. Local rules and the lathe's own manual come first."
NEAR_ENOUGH = 0.10
"""A stepless speed within this share of the planned one is right. Common practice, no source."""
MOST_DEALT = 4
"""So many belt steps are dealt out at most."""
RPM = Mask(5, 0, "rpm")
AGAIN = "The checks start again."


def lathe_checks(
    made: Plan, takes: str, *, base: Words, asked_again: bool, goes_on: Pass | None = None
) -> tuple[Step, ...]:
    """The checks before anything turns, in the order one comes to them, resting on `base`; the last keeps the
    plan;
    `takes` says how long it will take, `goes_on` with which pass work goes on after a break.
    """
    rests: Words = (*base, keys.LATHE_SLIP, *((keys.SITTING,) if asked_again else ()))
    named = bool(made.order.lathe.speed_names)

    def check(key: str, title: str, **more: Any) -> Step:
        belt = named and key in (keys.LATHE_KEY, keys.LATHE_SPEED)
        cautions = ("belt", "lathe") if belt else ("lathe",)
        return Step(key, "cut", "safety", title, rests_on=rests, cautions=cautions, why=WHY, **more)

    hands = check(
        keys.LATHE_HANDS,
        "Gloves, rings, watch, bracelet, loose cuffs, tie, hanging hair: how many on?",
        readback=0,
        wrong=(f"{{given}} still on you: off with them. {AGAIN}",),
    )
    eyes = check(
        keys.LATHE_EYES,
        "Eye protection: where is it?",
        choices=EYES,
        wrong=(f"Eye protection {{given}} protects nothing. {AGAIN}",),
    )
    asked = (hands, eyes, *(check(**one) for one in set_up_asked(made, takes, goes_on)))
    return (*asked[:-1], replace(asked[-1], decided=kept_words(made.order)))


def set_up_asked(made: Plan, takes: str, goes_on: Pass | None) -> tuple[dict[str, Any], ...]:
    """What is asked of chuck key, bar and speed; what is to be set stands on the first of these pages."""
    order, lathe = made.order, made.order.lathe
    out, bar = by_rule(order.stock.stick_out_mm), plainly(order.bar.diameter_mm)
    first = goes_on or next((one for one in made.passes if one.rpm), None)
    rpm = (first and first.rpm) or 0.0
    tool = tool_of(order, first.tool) if first else ""
    set_to = "; ".join((*((f"fit {tool}",) if tool else ()), f"set {speed_words(lathe, rpm)}"))
    say: Words = (
        f"bar of {bar}, {out} standing out; {set_to}",
        f"Grip the bar in the {order.stock.grip.name}; the tool tight and on centre height.",
    )
    if goes_on:
        say = (f"leave the bar as it stands; {set_to}", "The tool tight and on centre height.")
    chuck = {
        "key": keys.LATHE_KEY,
        "title": "Set up, spindle stopped. Then the chuck key: where is it?",
        "say": say,
        "choices": CHUCK_KEY,
        "wrong": (f"The chuck key {{given}} flies when the spindle turns. {AGAIN}",),
    }
    speeds = ({"key": keys.LATHE_SPEED, **one} for one in speed_asked(lathe, rpm))
    return (chuck, length_asked(made, takes, moved=goes_on is not None), *speeds)


def length_asked(made: Plan, takes: str, *, moved: bool) -> dict[str, Any]:
    """How far the bar stands out, read off a rule: in whole millimetres, or in sixteenths of an inch;
    `moved`: it is gripped already, and stands elsewhere only where it has moved.
    """
    out = made.order.stock.stick_out_mm
    whole, unit, count = by_the_rule(out)
    then = (
        "A bar that has moved is spoiled: * another ring." if moved else f"Grip it with {by_rule(out)} out."
    )
    return {
        "key": keys.LATHE_BAR,
        "title": f"Bar held, none out behind the spindle: how many {whole} in front?",
        "say": of_the_bar(made),
        "consequence": (takes,),
        "readback": count,
        "readback_within": 1,
        "wrong": tuple(f"{{given}} {unit} stand out: too {how}. {then} {AGAIN}" for how in ("short", "long")),
    }


def of_the_bar(made: Plan) -> Words:
    """What warns, and how much of the bar is used and left."""
    warned = (f"CHECK  {translated(text)}" for text in made.warnings)
    return (*warned, *map(translated, made.stock_words))


def by_the_rule(out_mm: float) -> tuple[str, str, int]:
    """In what it is measured how far the bar stands out, the same in short, and how many they are."""
    if spoken() == INCH:
        return "sixteenths of an inch", "sixteenths", sixteenths(out_mm)
    return "whole millimetres", "mm", round(out_mm)


def speed_asked(lathe: Lathe, rpm: float) -> tuple[dict[str, Any], ...]:
    """How it is asked which speed is set, by what can be seen of it; nothing where nothing can."""
    if not lathe.shows_speed or len(lathe.speeds_rpm) == 1:
        return ()
    if lathe.speed_names:
        return (belt_asked(lathe.speed_names, lathe.speeds_rpm.index(rpm)),)
    where = "scale" if lathe.stepless else "lever"
    asked: dict[str, Any] = {
        "title": f"The spindle still stopped: key the number that its {where} stands at.",
        "mask": RPM,
        "readback": round(rpm),
        "readback_within": int(NEAR_ENOUGH * rpm) if lathe.stepless else int(rpm != round(rpm)),
        "wrong": tuple(f"{{given}} rpm is too {how} to begin with. {AGAIN}" for how in ("slow", "fast")),
    }
    return (asked,)


def belt_asked(names: Sequence[str], right: int) -> dict[str, Any]:
    """On which step the belt is: by the number of the step where each has its own, else found among them."""
    title = "The spindle still stopped: on which step is the belt?"
    said = [re.findall(r"\d+", name) for name in names]
    numbers = {found[0] for found in said if len(found) == 1}
    if len(numbers) < len(names):
        wrong = f"The belt is on {{given}}: not the step to begin on. {AGAIN}"
        return {"title": title, "choices": dealt(names, right), "wrong": (wrong,)}
    return {
        "title": f"{title} Key the number of the step.",
        "readback": int(said[right][0]),
        "wrong": (f"The belt is on step {{given}}: not the step to begin on. {AGAIN}",),
    }


def dealt(names: Sequence[str], right: int) -> tuple[Choice, ...]:
    """The right one and its nearest neighbours as choices, the right one first."""
    near = sorted(range(len(names)), key=lambda at: abs(at - right))[:MOST_DEALT]
    return tuple(Choice(names[at], names[at]) for at in near)


def tool_change(key: str, lathe: Lathe, tool: Tool, rests: Words) -> Step:
    """A look at the post after a change: the number on the tool, or its kind where it has none."""
    numbered = lathe.numbered_tools
    kinds = dict.fromkeys((tool.kind, *NEEDED_KINDS))
    return Step(
        key=key,
        stage="cut",
        kind="safety",
        title="Spindle stopped, chuck key out, next tool tight, on centre height: "
        + ("number?" if numbered else "which?"),
        readback=tool.number if numbered else None,
        choices=() if numbered else tuple(Choice(kind, KIND_NAMES[kind]) for kind in kinds),
        wrong=(f"{'Tool ' if numbered else 'The '}{{given}} does not cut next: / shows what does.",),
        rests_on=(*rests, keys.slip_of(key)),
        cautions=("lathe",),
        why="A loose tool digs in. What is in the post is looked at, not remembered.",
    )

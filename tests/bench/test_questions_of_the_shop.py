"""Every question about the shop and what its answers add up to, as it was looked at once and kept.

python -m tests.bench.test_questions_of_the_shop writes `questions_of_the_shop.md` anew; read it before.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from bench.asking.asking import ALL_PARTS
from bench.asking.opening import in_words, opening_step, part_step
from bench.job.job import Answer
from bench.job.steps import Step
from bench.shop.groups import BARS, GROUPS, INSTRUMENTS, LATHE, LEARNING, PAPERS, PRESS, TESTER, TOOLS, UNITS
from bench.shop.shop import Shop, built_in
from rules.bars import Bar
from rules.equipment import Axis, Tool
from rules.instrument import Instrument
from rules.press_and_tester import Press
from tests.whole.lathe_presses import dials
from tests.whole.shop_presses import OWN

KEPT = Path(__file__).with_name("questions_of_the_shop.md")
MM, INCH = (replace(built_in(unit), said=frozenset()) for unit in ("mm", "inch"))
LATHE_NOW = MM.lathes[0]
SAID = replace(MM, said=frozenset(GROUPS))
FAST = replace(LATHE_NOW, name="second lathe", stepless=True, speeds_rpm=(80.0, 3000.0), largest_rpm=3000.0)
TWO = replace(MM, lathes=(LATHE_NOW, replace(FAST, shows_speed=False, numbered_tools=False)))
BELT = replace(LATHE_NOW, speeds_rpm=(310.0, 620.0), largest_rpm=620.0, speed_names=("inner", "outer"))
SETS = replace(MM, tools=(*MM.tools, *(replace(one, tool_set="wax") for one in MM.tools)))
ODD = Instrument(name="old gauge", kind="bore_gauge", resolution_mm=0.003, limit_of_error_mm=0.02)
PLUG = Instrument(name="stepped plug", kind="plug", resolution_mm=0.001, limit_of_error_mm=0.004)
COARSE = Axis(shows="radius", step_mm=0.04, division_mm=0.08, divisions_per_turn=0, backlash_mm=0.3)
SCRIPTS: tuple[tuple[str, Shop, str, Mapping[str, str]], ...] = (
    ("lathe as it is", MM, LATHE, {}),
    ("lathe as it is, said before", SAID, LATHE, {}),
    ("lathe of one's own", MM, LATHE, dict(OWN)),
    (
        "lathe in inch",
        INCH,
        LATHE,
        {"cross_figures": "inward", "drills_to": "0.500", "speeds_by": "scale"},
    ),
    ("dials in inch", INCH, LATHE, {"cross_shown_by": "dial", "cross_turn": "125"}),
    ("hand dials as they are", dials(), LATHE, {"carriage_division": "0.250"}),
    (
        "a coarse dial",
        replace(MM, lathes=(replace(LATHE_NOW, cross=COARSE),)),
        LATHE,
        {"cross_division": "0.120"},
    ),
    ("two lathes, the second", TWO, LATHE, {"which": "1", "slowest": "3100", "fastest": "90"}),
    (
        "two lathes, by a lever",
        TWO,
        LATHE,
        {"which": "1", "speeds_by": "lever", "speed_1": "200", "speed_2": "150"},
    ),
    ("a belt as it is", replace(MM, lathes=(BELT,)), LATHE, {"numbered": "no"}),
    (
        "a belt of four",
        replace(MM, lathes=(BELT,)),
        LATHE,
        {"speeds_are": "keyed", "speed_1": "100", "speed_2": "200", "speed_3": "400", "speed_4": "800"},
    ),
    ("a dial for a read-out", dials(), LATHE, {"cross_shown_by": "readout", "carriage_marked_in": "inch"}),
    (
        "a lathe that holds by everything",
        replace(MM, lathes=(replace(LATHE_NOW, grips=LATHE_NOW.grips[1:]),)),
        LATHE,
        {
            "holds_more_1": "three-jaw chuck",
            "holds_more_2": "four-jaw chuck",
            "holds_more_3": "step collet",
            "holds_more_4": "soft jaws",
        },
    ),
    ("tools as they are", MM, TOOLS, {}),
    ("tools in inch", INCH, TOOLS, {"goes_into_2": "0.300", "blade_4": "0.040"}),
    (
        "tools of a set and others",
        SETS,
        TOOLS,
        {
            "which": "wax",
            "tool_number_5": "12",
            "goes_into_6": "5.0",
            "tool_more_9": "boring",
            "tool_more_10": "parting",
        },
    ),
    ("instruments as they are", MM, INSTRUMENTS, {}),
    ("instruments said before, in inch", replace(SAID, works_in="inch"), INSTRUMENTS, {}),
    ("instruments in inch", replace(MM, works_in="inch"), INSTRUMENTS, {"reads_more_4": "bore_gauge"}),
    (
        "an odd instrument",
        replace(MM, instruments=(ODD,)),
        INSTRUMENTS,
        {
            "reads_more_2": "micrometer",
            "reads_to_2": "none",
            "reads_more_3": "depth_gauge",
            "reads_to_3": "0.02",
        },
    ),
    ("a plug and a bore gauge", replace(MM, instruments=(PLUG, ODD)), INSTRUMENTS, {"reads_to_1": "0.01"}),
    ("instruments gone", MM, INSTRUMENTS, {"reads_to_1": "0.05", "reads_to_2": "none", "reads_to_3": "0.01"}),
    ("bars as assumed", MM, BARS, {}),
    (
        "bars keyed",
        MM,
        BARS,
        {"bars_are": "others", "bar_more_2": "yes", "bar_plastic_2": "pa66", "bar_across_2": "40.5"},
    ),
    (
        "bars in inch and another",
        replace(SAID, works_in="inch"),
        BARS,
        {"bars_are": "another", "bar_across_1": "1.250"},
    ),
    ("a bar that is shorter", SAID, BARS, {"bars_are": "shorter", "bar_which": "2", "bar_left": "120"}),
    ("a bar that is used up", SAID, BARS, {"bars_are": "shorter", "bar_left": "0"}),
    ("press not known", MM, PRESS, {}),
    ("press known", replace(MM, press=Press(largest_force_n=900.0)), PRESS, {"force": "1200"}),
    ("tester as it is", MM, TESTER, {}),
    ("another tester", MM, TESTER, {"gives": "water", "reaches_bar": "10.0", "gauge_step": "0.05"}),
    ("mm or inch", INCH, UNITS, {"works_in": "mm"}),
    ("inch it stays", INCH, UNITS, {}),
    ("learning goes on", MM, LEARNING, {}),
    ("learning is switched off, and on", replace(MM, learn_from_jobs=False), LEARNING, {"learns": "yes"}),
    ("papers in another language", replace(MM, papers_in="fr"), PAPERS, {"papers_in": "de"}),
    ("a bar of just a millimetre", SAID, BARS, {"bars_are": "shorter", "bar_left": "1"}),
    ("bars said before stay", SAID, BARS, {}),
    (
        "nine bars",
        MM,
        BARS,
        {"bars_are": "others", **{f"bar_more_{n}": "yes" for n in range(2, 11)}, "bar_length_1": "100"},
    ),
    (
        "twelve speeds of a lever, a drill and grips of odd sizes",
        replace(MM, lathes=(replace(LATHE_NOW, largest_drill_mm=12.96, grips=LATHE_NOW.grips[:1]),)),
        LATHE,
        {
            "speeds_by": "lever",
            "speeds_are": "keyed",
            **{f"speed_{n}": str(90 + 10 * n) for n in range(1, 14)},
            "holds_1": "2.0",
            "holds_more_1": "collet",
            "holds_to_1": "0",
        },
    ),
    (
        "a fastest speed over its largest",
        replace(MM, lathes=(replace(FAST, largest_rpm=2500.0),)),
        LATHE,
        {"speeds_by": "blind", "slowest": "80", "numbered": "yes"},
    ),
    ("stepless as it is", replace(MM, lathes=(replace(FAST, largest_rpm=2500.0),)), LATHE, {}),
    (
        "every tool that can be another",
        replace(MM, tools=(*MM.tools, replace(MM.tools[1], number=9, name=""))),
        TOOLS,
        {
            **{
                f"tool_more_{n}": kind for n, kind in enumerate(("turning", "boring", "parting", "boring"), 6)
            },
            "goes_into_2": "1.0",
        },
    ),
    (
        "tools without numbers",
        replace(MM, lathes=(replace(LATHE_NOW, numbered_tools=False),)),
        TOOLS,
        {"reaches_2": "31.5"},
    ),
    (
        "pressures between two steps",
        replace(MM, tester=replace(MM.tester, largest_bar=6.04, gauge_step_bar=0.054)),
        TESTER,
        {},
    ),
    (
        "every measuring tool",
        replace(MM, instruments=MM.instruments[:1]),
        INSTRUMENTS,
        {
            f"reads_more_{n}": kind
            for n, kind in enumerate(("micrometer", "ball_micrometer", "bore_gauge", "depth_gauge"), 2)
        },
    ),
)


def question(step: Step) -> str:
    """A step in one line."""
    if step.mask is not None:
        mask = step.mask
        how = f"{mask.before}.{mask.decimals} {mask.unit} {mask.low:g} to {mask.high:g}, usual {step.usual!r}"
        how += ", 0 for none" * mask.nought + ", fewer places" * mask.fewer
    else:
        how = " | ".join(f"{one.word}: {one.text}" for one in step.choices)
    more = [f"say {step.say}"] if step.say else []
    more += [f"1 Enter says {step.usual_said}"] if step.usual_said and step.mask else []
    more += [f"rests on {step.rests_on}"] if step.rests_on else []
    more += [f"why {step.why}"] if step.why else []
    return " // ".join((f"{step.key} ({step.stage}, {step.kind}): {step.title}", how, *more))


def figures(thing: Any) -> str:
    """A thing by what it says, what is not said left out."""
    if not is_dataclass(thing):
        return repr(thing)
    said = ((one.name, getattr(thing, one.name)) for one in fields(thing))
    return f"{type(thing).__name__}({', '.join(f'{k}={inner(v)}' for k, v in said if v not in ('', 0, ()))})"


def inner(value: Any) -> str:
    """What stands in a thing."""
    return f"[{'; '.join(map(inner, value))}]" if isinstance(value, tuple) else figures(value)


def asked(shop: Shop, group: str, answers: Mapping[str, str]) -> list[str]:
    """The questions of a group in their order with what is answered, and what they add up to."""
    stage, lines = ALL_PARTS[group](shop), []
    try:
        step = next(stage)
        for n in range(1, 100):
            usual = step.usual if step.mask is not None else step.choices[0].word
            word = answers.get(step.key, "usual")
            word = str(usual) if word == "usual" else f"{word} {step.mask.unit}" if step.mask else word
            lines.append(f"- {question(step)} -> {word}")
            step = stage.send(Answer(n=n, at="", key=step.key, words=(word,)))
    except StopIteration as end:
        lines.append(f"- = {end.value.group}")
        lines += [f"  - {figures(thing)}" for thing in end.value.things]
    return lines


def written() -> dict[str, list[str]]:
    """Everything, by its heading."""
    found = {name: asked(shop, group, answers) for name, shop, group, answers in SCRIPTS}
    known = replace(SAID, bars=(*SAID.bars, Bar(plastic="peek", diameter_mm=20.5, length_mm=50.0)))
    found["the opening"] = [f"- {question(opening_step(MM, some))}" for some in (GROUPS, (BARS,), (PRESS,))]
    found["the parts"] = [f"- {question(part_step(shop))}" for shop in (MM, known, TWO)]
    bare = replace(TWO, lathes=TWO.lathes[1:], press=Press(name="lever press", largest_force_n=1500.0))
    bare = replace(bare, tools=(*bare.tools, Tool(number=8, kind="parting", blade_mm=0.8)))
    found["groups in words"] = [f"- {group}: {in_words(bare, group)}" for group in GROUPS]
    found["groups in words"] += [
        f"- {LATHE}: {in_words(dials(), LATHE)}",
        f"- {LATHE}: {in_words(SETS, LATHE)}",
    ]
    return found


@pytest.mark.parametrize(
    "name", [*(row[0] for row in SCRIPTS), "the opening", "the parts", "groups in words"]
)
def test_every_question_stands_as_it_was_kept(name: str, everything: dict[str, list[str]]) -> None:
    parts = KEPT.read_text(encoding="utf-8").split("\n## ")[1:]
    kept = {
        head: text.strip("\n").split("\n") for head, _, text in (part.partition("\n\n") for part in parts)
    }
    assert everything[name] == kept[name]


@pytest.fixture(scope="module")
def everything() -> dict[str, list[str]]:
    """All of it, asked once."""
    return written()


def main() -> None:
    """Writes it anew."""
    text = "".join(f"\n## {name}\n\n" + "\n".join(lines) + "\n" for name, lines in written().items())
    KEPT.write_text(f"# Questions about the shop\n{text}", encoding="utf-8")


if __name__ == "__main__":
    main()

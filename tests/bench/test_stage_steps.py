"""What the stages of proving ask on every way through them, each field of each step: the stages alone are
walked, without those of the seal before them, as it was read once and found true.

python -m tests.bench.test_stage_steps writes `stage_steps.md`; read the difference before you keep it.

A way is lines parted by semicolons. `key word` goes on to a step, what lies between answered as usual, and
answers it; `key` alone goes there. `= key words` is written as it stands, words parted by |,
`@ key` is a mark.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, fields, replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from bench.desk.answering import choice_words
from bench.file.entry import Entry, Head, Value
from bench.job import further, keys
from bench.job.asking import Stage
from bench.job.job import Job, replay
from bench.job.mask import Mask
from bench.job.route import Walk, walk_route
from bench.job.steps import Step
from bench.seals import SEALS
from bench.seals.seal import Fitted
from bench.seals.several import OneSeal
from bench.shop.shop import Shop, built_in
from bench.stages.common import Dimension, readings
from bench.stages.each_seal import said_of_each
from bench.stages.keyed_in import said_and_keyed
from bench.stages.like import begun_after
from bench.stages.opening import opened
from bench.stages.proving import proved
from bench.stages.searching import after_a_fail
from rules.testing.hunt import search
from tests.whole.test_every_step import figures

KEPT = Path(__file__).with_name("stage_steps.md")
BUILT_IN = built_in()
HEAD = Head(format=1, id="00000000", job="84", made_by="test")
USUAL, NONE = "usual", "-"
SIGNALS = tuple(f"{one.signal}_" for one in keys.SITTINGS)
MOST = 80
FITTED = "2026-03-02T08:00:00+00:00"
ToAsk = Callable[[Job], Stage[Any]]


@dataclass(frozen=True)
class Way:
    """What is walked, and what is answered on it."""

    acts: str
    shop: Shop = BUILT_IN
    seal: str = "ring"
    old_paint: bool = False
    stage: Callable[[Way, Job], Stage[Any]] | None = None

    def walked(self, job: Job) -> Stage[Any]:
        """The stage: both sittings, where no other is said."""
        if self.stage is not None:
            return self.stage(self, job)
        return proved(job, self.shop, (self.made(job), Fitted(FITTED)), old_paint=self.old_paint)

    def made(self, job: Job) -> OneSeal:
        """The seal that the job is about."""
        return OneSeal(further.FIRST, SEALS[self.seal], job)


def in_the_route(way: Way, job: Job) -> Stage[Any]:
    """Both sittings, said and keyed in the units of the shop."""
    return said_and_keyed(replace(way, stage=None).walked(job), way.shop)


def the_opening(_way: Way, _job: Job) -> Stage[Any]:
    """What the bag says, and the paint."""
    return opened()


def like_another(way: Way, job: Job) -> Stage[Any]:
    """Both sittings of a job begun after another one."""
    return begun_after(job, way.shop, in_the_route(way, job))


class Walker:
    """Somebody who answers the open step."""

    def __init__(self, way: Way) -> None:
        self.way = way
        self.entries: list[Entry] = []
        self.lines: list[str] = []
        self.gave: list[object] = []
        self.look()

    def look(self) -> None:
        """Where the job stands now."""
        self.job = replay(HEAD, self.entries)
        self.gave = []
        self.walk: Walk = walk_route(self.job, self.noted(self.way.walked(self.job)), seal="ring")

    def noted(self, stage: Stage[Any]) -> Stage[None]:
        """The stage; what it gives at its end is noted."""
        self.gave.append((yield from stage))

    def write(self, kind: str, key: str, value: Value) -> None:
        """One more entry."""
        n = len(self.entries) + 1
        at = f"2026-03-02T{9 + n // 60:02}:{n % 60:02}:30+01:00"
        self.entries.append(Entry(n=n, at=at, kind=kind, key=key, value=value))
        self.look()

    def go(self, act: str) -> None:
        """One act of a way."""
        key, _, word = act.partition(" ")
        if key == "@":
            name, _, text = word.partition(" ")
            self.write("mark", name, tuple((text or "work").split("|")))
        elif key == "=":
            name, _, text = word.partition(" ")
            self.write("answer", name, tuple(text.split("|")) if "|" in text else text)
        else:
            self.on_to(key)
            if word:
                self.answer(self.walk.step(key), word)

    def on_to(self, key: str) -> None:
        """On to a step, what lies between answered as usual."""
        for _ in range(MOST):
            step = self.walk.open
            optional = {one.key for one in self.walk.optional}
            if key in optional or (step is not None and step.key == key):
                return
            self.answer(step, "")
        raise AssertionError(f"{key} is never asked: {self.lines}")

    def answer(self, step: Step | None, text: str) -> None:
        """An answer as the desk writes it; as usual where it is empty."""
        assert step is not None, self.lines
        value = self.value(step, text)
        self.lines.append(f"{self.named(step)} > {', '.join(value)}")
        kind = "mark" if step.kind == "mark" else "answer"
        self.write(kind, step.key, value if len(value) > 1 else value[0])
        chosen = step.choice(value[0])
        for key, word in chosen.follows if chosen else ():
            self.write("answer", key, word)

    def value(self, step: Step, text: str) -> tuple[str, ...]:
        """The words of an answer."""
        word, *more = ("" if text == USUAL else text or step.usual).split("|")
        word = word or step.usual or ("020.0" if step.key.startswith(SIGNALS) else "")
        if step.kind == "safety":
            return ("right", step.choices[0].word)
        if step.choices:
            offered = [one for one in step.choices if not one.goto]
            at = f"2026-03-02T{9 + len(self.entries) // 60:02}:{len(self.entries) % 60:02}:00+01:00"
            known = [one for one in offered if one.word == word] or ([] if word else offered)
            return (*(choice_words(known[0], at) if known else (word,)), *more)
        if step.kind == "mark":
            return ("again",)
        assert word or step.kind == "text", (step.key, self.lines)
        unit = step.mask.unit if step.mask and word[:1].isdigit() and " " not in word else ""
        return (f"{word} {unit}".strip(), *more)

    def named(self, step: Step) -> str:
        """How a step is called in a way: by its key and the number of what it says."""
        return f"{step.key} {number_of(step)}"

    def end(self) -> Iterator[str]:
        """Where the walk stands: what was given, passed, is open, old or hidden."""
        walk = self.walk
        done = [step for step, _ in walk.done]
        said = (
            ("done", " ".join(map(self.named, done))),
            ("optional", " ".join(map(self.named, walk.optional))),
            ("assumed", " ".join(step.key for step in walk.assumed)),
            ("open", self.named(walk.open) if walk.open else ""),
            ("was", ", ".join(walk.stale.words) if walk.stale else ""),
            ("hidden", " ".join(sorted(walk.hidden))),
            ("gave", ", ".join(map(figures, self.gave))),
        )
        yield from (f"{what}: {text}" for what, text in said if text)


NUMBERED: dict[str, dict[str, int]] = {}
"""By key, every way in which a step was seen and its number: as kept, or as found while it is written."""


def number_of(step: Step) -> int:
    """Which of the kept texts of that key a step says; a new one gets the next number."""
    known = NUMBERED.setdefault(step.key, {})
    return known.setdefault(rendered(step), len(known) + 1)


def said_by(step: Step) -> dict[str, str]:
    """What each field says, where it is not left as it is."""
    said = {}
    for one in fields(step):
        value = getattr(step, one.name)
        if one.name != "key" and value not in (one.default, ()):
            said[one.name] = figures(value)
    return said


def rendered(step: Step) -> str:
    """A step, a line each field."""
    return "\n".join(f"- {field}: {text}" for field, text in said_by(step).items())


def gone(name: str) -> list[str]:
    """The lines of a way."""
    walker = Walker(WAYS[name])
    for act in WAYS[name].acts.split(";"):
        if act.strip():
            walker.go(act.strip())
    return [*walker.lines, *walker.end()]


def written() -> str:
    """All of it; of a step that is seen otherwise again, the fields that differ from the first time."""
    NUMBERED.clear()
    parts = ["# What the stages ask\n"]
    parts += [f"\n## {name}\n\n" + "\n".join(gone(name)) + "\n" for name in WAYS]
    for key, texts in sorted(NUMBERED.items()):
        parts.append(f"\n## Asked: {key}\n")
        first: dict[str, str] = {}
        for text, number in texts.items():
            now = dict(line[2:].split(": ", 1) for line in text.split("\n"))
            lines = [f"- {field}: {said}" for field, said in now.items() if first.get(field) != said]
            lines += [f"- {field}: {NONE}" for field in first if field not in now]
            parts.append(f"\n### {key} {number}\n\n" + "\n".join(lines) + "\n")
            first = first or now
    return "".join(parts)


def read_kept() -> dict[str, dict[str, int]]:
    """The kept texts of steps with their numbers."""
    names = [one.name for one in fields(Step)]
    found: dict[str, dict[str, int]] = {}
    for part in KEPT.read_text(encoding="utf-8").split("\n## Asked: ")[1:]:
        key, *blocks = part.rstrip("\n").split("\n\n### ")
        first: dict[str, str] = {}
        for number, block in enumerate(blocks, 1):
            now = dict(line[2:].split(": ", 1) for line in block.split("\n\n")[1].split("\n"))
            merged = {field: said for field, said in {**first, **now}.items() if said != NONE}
            text = "\n".join(f"- {one}: {merged[one]}" for one in names if one in merged)
            found.setdefault(key, {})[text] = number
            first = first or merged
    return found


@cache
def kept_ways() -> dict[str, list[str]]:
    """The lines of each way, and the steps made known, as they are kept."""
    NUMBERED.update(read_kept())
    text = KEPT.read_text(encoding="utf-8").split("\n## Asked: ")[0]
    parts = (part.partition("\n\n") for part in text.split("\n## ")[1:])
    return {name: lines.strip("\n").split("\n") for name, _, lines in parts}


def searched(way: Way, job: Job) -> Stage[Any]:
    """The search after a test of the empty case that failed."""
    return after_a_fail(job, keys.EMPTY, (way.made(job),))


def of_each(_way: Way, job: Job) -> Stage[Any]:
    """What is known of every other seal, where the job is about that of the back."""
    return said_of_each(job, (OneSeal(further.FIRST, SEALS["gasket"], job),))


def watched(way: Way, job: Job) -> Stage[Any]:
    """Four places of a diameter, one of which may be keyed as one mean."""
    crossed = Dimension(ASKED, 0.031, between_mm=0.015, differs=("A burr, or a worn seat.",))
    one_mean = Dimension(replace(ASKED, key="mean"), 0.011, least=1, expected_mm=3.20, one_by_one=crossed)
    return readings(one_mean if way.seal == "mean" else crossed)


def expected(_way: Way, _job: Job) -> Stage[Any]:
    """A thickness of which it is known what it should be."""
    asked = replace(ASKED, key="thick", title="Thickness, {place}")
    return readings(Dimension(asked, 0.011, places=("one side", "the other"), expected_mm=0.80, least=1))


ASKED = Step(
    key="across", stage="measure", kind="number", title="Across {place}", mask=Mask(1, 2, "mm", 0.1, 9.0),
    consequence=("Two that agree are used.",),
)  # fmt: skip


def signals(*um: str, of: str = "empty") -> str:
    """Readings of the gauge over a hold."""
    return "; ".join(f"{of}_signal_{n} {one}" for n, one in enumerate(um))


def steadily(first: float, last: float, of: str = "empty") -> str:
    """Thirteen readings from one to the other."""
    return signals(*(f"{first + (last - first) * n / 12:05.1f}" for n in range(13)), of=of)


STRONG = replace(
    BUILT_IN, divers_equipped=True, tester=replace(BUILT_IN.tester, largest_bar=12.5, gives="deflection")
)
WATER = replace(BUILT_IN, tester=replace(BUILT_IN.tester, gives="water"))
DEMO = replace(BUILT_IN, demo=True)
VENTED = (
    *("zero", "not_read"),
    *(f"{side}; empty_vented_by 000.{tenths}" for side in ("inward", "outward") for tenths in (1, 6)),
)
UNDER = "empty_method underpressure"
READ = "empty_method dry_deflection; empty_volume_exact 02.0"
KEYED = "keyed|2026-03-02T08:30:00+00:00"
FAILED = "= empty_result fail|2026-03-02T09:30:00+00:00|method dry_pass_fail|pressure 3 bar|timed tester"
READ_FAILED = FAILED.replace("pass_fail", "deflection").replace("tester", "program")
WET_FAILED = "= empty_result fail|2026-03-02T09:30:00+00:00|method water_overpressure|pressure 2 bar"
PASSED = "= cased_result pass|2026-03-02T09:30:00+00:00|method dry_pass_fail|pressure 3 bar|timed tester"


def paths(joint: str) -> dict[str, str]:
    """The shortest way through the search to each of its conclusions."""
    graph, found = search(joint), dict[str, str]()
    open_ways = [(graph.start, "")]
    while open_ways:
        place, so_far = open_ways.pop(0)
        if place in found:
            continue
        found[place] = so_far
        if place in graph.questions:
            open_ways += [
                (one.leads_to, f"{so_far}; {keys.asked_in_search(place)} {one.key}")
                for one in graph.questions[place].answers
            ]
    return {place: acts for place, acts in found.items() if place in graph.conclusions}


def searches() -> Iterator[tuple[str, Way]]:
    """A way to each conclusion of each search, after a test whose reading was read."""
    for joint, (seal, place) in JOINTS.items():
        for end, acts in paths(joint).items():
            yield (
                f"search {joint}: {end}",
                Way(f"{place}; {READ_FAILED}{acts}; empty_found", seal=seal, stage=searched),
            )


JOINTS = {
    "glass": ("ring", ""),
    "back": ("gasket", ""),
    "oring_back": ("oring", ""),
    "oring_crown": ("oring", "= oring_place crown"),
    "oring_pushers": ("oring", "= oring_place pusher"),
}
WAYS: dict[str, Way] = {
    "all as usual": Way("hand_back done"),
    "begun, marked with nothing": Way("marking nothing; empty_pressure"),
    "water-resistant, no figure": Way("marking words_only; empty_pressure usual; empty_check"),
    "a divers' watch and no equipment for it": Way("marking divers_20; empty_method; empty_check"),
    "a divers' watch, the equipment there": Way(
        "marking divers_20; empty_pressure; empty_check; empty_hold", STRONG
    ),
    "a marking keyed as a figure": Way("marking_keyed 12.0; empty_pressure 03.5; empty_result pass"),
    "a low pressure": Way("marking bar_3; empty_pressure 00.8; empty_hold; renewed none; cased_check"),
    "more than the tester reaches": Way("marking bar_20; empty_pressure"),
    "one bar marked": Way("marking_keyed 1.0; empty_pressure"),
    "old paint": Way("renewed back; cased_method; cased_result pass; hand_back", old_paint=True),
    "a tester that only gives bubbles": Way("marking bar_5; renewed none; cased_check", WATER),
    "a tester that reads": Way("marking bar_5; empty_signal_0 020.0; empty_hold", STRONG),
    "underpressure": Way(f"{UNDER}; empty_hold; empty_result pass|ran 5.0 min; renewed"),
    "underpressure, temperature and time said": Way(
        f"{UNDER}; empty_minutes 12; empty_temperature 26; empty_hold; empty_result pass|ran 12.0 min;renewed"
    ),
    "underpressure for too short": Way(
        f"{UNDER}; empty_minutes 2; empty_hold; empty_result; empty_unclear go_on; renewed"
    ),
    "underpressure, keyed for too short": Way(
        f"{UNDER}; empty_hold {KEYED}|3 min; empty_result not_judged; empty_unclear"
    ),
    "underpressure, keyed just long enough": Way(f"{UNDER}; empty_hold {KEYED}|5 min; empty_result pass"),
    "underpressure, stopped": Way(
        f"{UNDER}; empty_hold; empty_result not_judged|ran 2.0 min; empty_unclear again"
    ),
    "underpressure, given up at once": Way(
        f"{UNDER}; empty_hold; empty_result fail|ran 0.4 min; empty_found"
    ),
    "a demo that hurries": Way(f"{UNDER}; empty_hold hurried; empty_result pass; cased_method", DEMO),
    "a hurried pass outside a demo": Way(
        "= empty_result pass|2026-03-02T09:30:00+00:00|method dry_pass_fail|timed hurried; empty_method"
    ),
    "bubbles in the empty case": Way(
        "empty_method bubble; empty_hold; empty_result fail|ran 5.0 min; empty_found"
    ),
    "water after a dry pass of the empty case": Way(
        "= fit_outcome home; @ sitting; = empty_result pass|x|method dry_pass_fail|timed tester; empty_method"
    ),
    "overpressure in water": Way(
        f"= cased_check right|shut; {PASSED}; cased_method water_overpressure;"
        f"cased_result fail|ran 10.0 min;"
        "cased_found"
    ),
    "shallow water": Way(
        f"= cased_check right|shut; {PASSED}; cased_method shallow_immersion; cased_result pass; hand_back"
    ),
    "the crown under water": Way(
        f"= cased_check right|shut; {PASSED}; cased_method crown_force; cased_result fail;"
        f"hunt_kind water; cased_found"
    ),
    "a warm plate": Way(
        f"= cased_check right|shut; {PASSED}; cased_method condensation; cased_result not_judged;"
        f"cased_unclear search;"
        "hunt_kind"
    ),
    "left while the tester measures": Way("empty_hold start; @ sitting; empty_check"),
    "left before the tester was set going": Way("empty_check; @ sitting; empty_check; @ sitting; empty_hold"),
    "left during a hold, held": Way(
        f"{UNDER}; empty_hold start; @ sitting; empty_check; empty_throughout yes; @ sitting;"
        f"empty_throughout;"
        "empty_result pass; @ sitting; renewed"
    ),
    "left during a hold, not known": Way(
        f"{UNDER}; empty_hold start; @ sitting; empty_throughout no; empty_check"
    ),
    "bubbles, left during the hold": Way(
        "empty_method bubble; empty_hold start; @ sitting; empty_throughout"
    ),
    "pressure in water, left during the hold": Way(
        f"= cased_check right|shut; {PASSED}; cased_method shallow_immersion; cased_hold start;"
        f"@ sitting; cased_throughout"
    ),
    "keyed, and another sitting before the result": Way(
        f"{UNDER}; empty_hold {KEYED}|6 min; @ sitting; empty_result"
    ),
    "a check that was wrong": Way("empty_check usual; = empty_slip wrong|empty_check|open; empty_check"),
    "a check wrong after the hold began": Way(
        f"{UNDER}; empty_hold start; @ sitting; = empty_slip wrong|empty_check|open; empty_check"
    ),
    "a fail keyed over": Way(
        f"{UNDER}; empty_hold; empty_result fail; = empty_result pass|x; empty_correction"
    ),
    "a fail keyed over, tested again": Way(
        "empty_result fail; = empty_result pass|2026-03-02T10:00:00+00:00; empty_correction again; empty_hold"
    ),
    "a fail that was keyed wrong": Way(
        "empty_result fail; = empty_result pass|x; empty_correction keyed_wrong; empty_result pass; renewed"
    ),
    "a fail of the cased watch keyed over": Way(
        "cased_result fail; = cased_result not_judged|2026-03-02T10:00:00+00:00; cased_correction again;"
        "cased_check"
    ),
    "not judged by the tester": Way("empty_result not_judged; empty_unclear search; empty_found hand_back"),
    "cased, not judged": Way("cased_result not_judged; cased_unclear go_on; hand_back"),
    "another test of the cased watch": Way("hand_back; = cased_method underpressure; cased_result"),
    "a reading that passes": Way(
        f"{READ}; {steadily(20, 20)}; empty_vented zero; empty_result pass|ran 20.0 min; renewed"
    ),
    "a reading that fails": Way(
        f"{READ}; {steadily(20, 8)}; empty_vented outward; empty_vented_by 002.0; empty_result; empty_found"
    ),
    "a reading that only settles": Way(
        f"{READ}; {signals('020.0', '019.0', '018.5', '018.2', '018.1', *('018.0',) * 8)};"
        "empty_vented inward; empty_vented_by 002.0; empty_result; renewed"
    ),
    "a reading that rises": Way(
        f"{READ}; {steadily(20, 26)}; empty_vented not_read; empty_result not_judged; empty_unclear"
    ),
    "a reading that something went wrong with": Way(
        f"{READ}; {steadily(20, 18)}; empty_vented zero; empty_result not_judged; empty_unclear again"
    ),
    **{
        f"a small fall, then {vented}": Way(
            f"{READ}; {steadily(20, 19)}; empty_vented {vented}; empty_result usual"
        )
        for vented in VENTED
    },
    **{
        f"a gauge that shows {um}, then {vented}": Way(
            f"{READ}; {signals(*(um,) * 13)}; empty_vented {vented}; empty_result usual"
        )
        for um in ("000.0", "000.3")
        for vented in VENTED[:3]
    },
    "by size, a large case, warm": Way(
        f"empty_method dry_deflection; empty_volume large; empty_temperature 10; {steadily(40, 39)};"
        f"empty_vented; "
        "empty_result"
    ),
    "cased, a middle one": Way(
        f"= empty_result pass|x; cased_method dry_deflection; cased_volume middle;"
        f"{steadily(20, 19, 'cased')};"
        "cased_vented inward; cased_vented_by 001.0; cased_result"
    ),
    "old paint and a divers' watch": Way(
        "marking divers_20; empty_method; renewed none; cased_method", old_paint=True
    ),
    "a gauge in whole micrometres": Way(
        f"{READ}; empty_gauge_step 1; empty_temperature 30; {signals(*('020',) * 13)}; empty_vented zero;"
        "empty_result"
    ),
    "nothing on the gauge": Way(f"{READ}; empty_signal_0 000.0; empty_hold"),
    "a case by its size": Way(
        "empty_method dry_deflection; empty_volume middle; empty_signal_0 020.0; empty_hold"
    ),
    "readings over a hold that was keyed": Way(
        f"{READ}; empty_signal_0 020.0; empty_hold {KEYED}|2 min; empty_signal_3 019.0; empty_vented"
    ),
    "readings over a hold that was keyed longer": Way(
        f"{READ}; empty_signal_0 020.0; empty_hold {KEYED}|600 min; empty_signal_2"
    ),
    "readings of the cased watch": Way(
        f"= empty_result pass|x; cased_method dry_deflection; cased_volume;"
        f"{steadily(20, 19.4, 'cased')}; cased_vented;"
        "cased_result"
    ),
    "left between readings": Way(
        f"{READ}; empty_signal_0 020.0; empty_hold start; empty_signal_1 019.9; @ sitting; empty_check;"
        f"empty_throughout yes;"
        "empty_signal_2"
    ),
    "left after the first reading": Way(f"{READ}; empty_signal_0 020.0; @ sitting; empty_check"),
    "a demo with readings": Way(f"{READ}; empty_signal_0 020.0; empty_hold hurried; empty_signal_1", DEMO),
    "begun on a tester that reads no more": Way(
        "empty_method dry_deflection; empty_pressure usual; empty_check usual; = empty_hold start|x;"
        "empty_result; renewed"
    ),
    "a glass that was measured": Way("= glass_thickness 1.50 mm; empty_check"),
    "a glass that was not": Way("= glass_thickness not measured; empty_check"),
    "renewed of each": Way(
        "= linked 31; renewed; besides_back made_here|job 31; besides_crown new; besides_tube left;"
        "besides_pushers has_none; renewed; renewed back_crown; cased_check"
    ),
    "renewed of each, the rest asked": Way(
        "renewed; besides_back made_here; besides_back_job 77; besides_crown new; besides_tube not_looked_at;"
        "besides_pushers; renewed"
    ),
    "a gasket in the back": Way("= seal gasket; renewed; hand_back", seal="gasket"),
    "an O-ring at the crown": Way("= seal oring; = oring_place crown; renewed; hand_back", seal="oring"),
    "an O-ring at a pusher": Way("= seal oring; = oring_place pusher; renewed; hand_back", seal="oring"),
    "a ring with a foot": Way("= seal foot; hand_back done", seal="foot"),
    "in inch": Way("empty_temperature; hand_back", replace(BUILT_IN, works_in="inch"), stage=in_the_route),
    "like another": Way(
        "@ like 31|cased_method underpressure|empty_method bubble|plastic pa66; like_taken take; hand_back",
        stage=like_another,
    ),
    "opened": Way("watch Buoy painter; remark old; papers_in de; linked 12; paint none", stage=the_opening),
    "opened with old paint": Way("paint old; paint_go go", stage=the_opening),
    "opened with old paint, and stopped": Way("paint unknown; paint_go stop", stage=the_opening),
    "a search that finds another seal, cased": Way(
        "cased_result fail; hunt_kind rate; hunt_opened back; hunt_back tight; cased_found test; renewed"
    ),
    "found in the empty case, and renewed": Way(
        "empty_result fail; hunt_kind rate; hunt_opened crown; hunt_crown_positions changes;"
        "hunt_crown_seal tight;"
        "empty_found test; empty_result pass; renewed"
    ),
    "tested again unchanged": Way(
        "cased_result fail; hunt_kind rate; hunt_opened back; hunt_back cannot; cased_found unchanged;"
        "cased_check"
    ),
    "of each": Way(
        "besides_glass new; besides_glass_size 295; besides_crown made_here; besides_crown_job unknown;"
        "besides_tube left; besides_pushers not_looked_at",
        stage=of_each,
    ),
    "of each, one linked": Way(
        "= linked 31; besides_glass made_here; besides_pushers has_none", stage=of_each
    ),
    "of each, nothing said": Way("", stage=of_each),
    "found, another ring": Way(
        f"{FAILED}; hunt_kind loose; hunt_glass_lifts yes; empty_found ring; attempt", stage=searched
    ),
    "found, measured again": Way(
        f"{FAILED}; hunt_kind loose; hunt_glass_lifts yes; empty_found measure; measure_again usual;"
        f"attempt again",
        stage=searched,
    ),
    "found, another one of a bought kind": Way(
        f"= oring_place crown; {FAILED}; hunt_kind loose; empty_found measure; oring_attempt again",
        seal="oring",
        stage=searched,
    ),
    "found, handed back": Way(
        f"{READ_FAILED}; hunt_kind gross; hunt_contact no; empty_found hand_back", stage=searched
    ),
    "no test was kept": Way("hunt_kind gross; hunt_contact yes; hunt_opened back; hunt_back", stage=searched),
    "after water": Way(
        f"{WET_FAILED}; hunt_kind gross; hunt_opened none; hunt_crown_positions same; hunt_joint_glass",
        stage=searched,
    ),
    "a search in several sittings": Way(
        f"{READ_FAILED}; hunt_kind rate; hunt_settled zero; hunt_two_pressures closes; hunt_opened back;"
        f"hunt_back same;"
        "@ sitting; hunt_crown_positions; @ sitting; = hunt_check_slip wrong|hunt_check_crown_positions|open;"
        "hunt_crown_positions cannot; hunt_joint_glass",
        stage=searched,
    ),
    "an answer from before the tester's verdict": Way(
        f"{FAILED}; = hunt_contact no; = hunt_settled inward; hunt_kind gross; empty_found", stage=searched
    ),
    "two crossing readings": Way("across_1 3.20; across_2 3.21; across_3", stage=watched),
    "readings that lie apart": Way(
        "across_1 3.20; across_2 3.24; across_3 3.21; across_4 3.26; across_5 3.20", stage=watched
    ),
    "crossing readings further apart than both agree": Way(
        "across_1 3.20; across_2 3.22; across_3 3.21; across_4 3.20; across_5 3.23", stage=watched
    ),
    "no two agree": Way(
        "across_1 3.20; across_2 3.30; across_3 3.40; across_4 3.50; across_5 3.60; across_6 3.70",
        stage=watched,
    ),
    "a mean": Way("mean 3.20", stage=watched, seal="mean"),
    "no mean, one by one": Way("mean one by one; across_1 3.20; across_2 3.20", stage=watched, seal="mean"),
    "as expected": Way("thick 0.81", stage=expected),
    "not as expected, then so": Way("thick 0.90; thick_2 0.80", stage=expected),
    "not as expected, twice the same": Way("thick 0.90; thick_2 0.91", stage=expected),
    **dict(searches()),
}


SEARCHES = [name for name, way in WAYS.items() if way.stage is searched]
GAUGED = [name for name, way in WAYS.items() if "_signal_" in way.acts]
OTHERS = [name for name in WAYS if name not in (*SEARCHES, *GAUGED)]


@pytest.mark.parametrize("name", SEARCHES)
def test_every_search_asks_what_was_kept(name: str) -> None:
    as_kept(name)


@pytest.mark.parametrize("name", GAUGED)
def test_every_test_with_a_gauge_asks_what_was_kept(name: str) -> None:
    as_kept(name)


@pytest.mark.parametrize("name", OTHERS)
def test_every_other_way_asks_what_was_kept(name: str) -> None:
    as_kept(name)


def as_kept(name: str) -> None:
    """Whether a way is as it was kept."""
    kept = kept_ways()[name]
    assert gone(name) == kept, new_texts(read_kept())


def new_texts(kept: dict[str, dict[str, int]]) -> list[str]:
    """What was said that no kept text of that key has."""
    return [text for key, texts in NUMBERED.items() for text in texts if text not in kept.get(key, {})]


if __name__ == "__main__":
    KEPT.write_text(written(), encoding="utf-8")

"""A route walked over its answers, what stops counting, a step in words, with what a number is read."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.file.entry import Accepted
from bench.job import keys, remembered
from bench.job.as_keyed import as_keyed, read_since
from bench.job.asking import Stage
from bench.job.job import Answer, Job, replay
from bench.job.mask import Mask
from bench.job.read_by import as_held, instrument_of, mask_of, read_with
from bench.job.route import ASSUMED, Walk, assumed_for, given, hidden, walk_route
from bench.job.steps import Choice, ReadBy, Step, Target
from bench.job.stopping import counted, series, stops_counting
from rules.instrument import Instrument
from rules.lengths import speaking
from tests.bench.test_job_entries import HEAD, answers, entry, job_of
from tests.bench.test_job_words import STEP


def act(key: str, *rests: str, kind: str = "number", stage: str = "measure", optional: bool = False) -> Step:
    """A step that rests on others."""
    mask = Mask(2, 2) if kind == "number" else None
    return Step(
        key=key,
        stage=stage,
        kind=kind,
        title=key,
        mask=mask,
        rests_on=rests,
        optional=optional,
        usual="none" if optional else "",
    )


def walked(job: Job, *steps: Step, seal: str = "ring") -> Walk:
    """A route of these steps, walked; the word of each optional one is handed on as the title of the next."""

    def stage() -> Stage[None]:
        word = ""
        for step in steps:
            answer = yield replace(step, title=f"{step.title}{word}")
            word = f" after {answer.word}" if step.optional else ""

    return walk_route(job, stage(), seal=seal)


def test_a_route_is_walked_to_its_first_open_step() -> None:
    a, b, c, d = act("a"), act("b", "a"), act("c", optional=True), act("d")
    found = walked(job_of("a 1.00 mm", "b 2.00 mm", "a 3.00 mm"), a, b, c, d)
    assert (
        [step.key for step, _ in found.done] == ["a"]
        and found.open == b
        and found.optional == () == found.assumed
    )
    assert found.stale is not None and found.stale.word == "2.00 mm" and found.seal == "ring"
    passed = walked(job_of("a 1.00 mm", "b 2.00 mm"), a, b, c, d)
    assert passed.open is not None and passed.open.title == "d after none" and passed.stale is None
    assert (passed.assumed, passed.optional, passed.keys) == ((c,), (c,), ("a", "b", "d"))
    over = walked(job_of("a 1.00 mm", "b 2.00 mm", "c 4.00 mm", "d 5.00 mm"), a, b, c, d, seal="gasket")
    assert (over.open, over.stale, over.assumed, over.optional, over.keys, over.seal) == (
        None,
        None,
        (),
        (c,),
        ("a", "b", "c", "d"),
        "gasket",
    )
    assert (over.step("b"), passed.step("c"), passed.step("e"), passed.step("d")) == (b, c, None, passed.open)
    answered = over.answer("c")
    assert answered is not None and answered.n == 3 and passed.answer("c") is None
    assert over.asked_by(answered) == c and over.asked_by(replace(answered, n=9)) is None
    assert (over.stage_counts("measure"), over.stage_counts("cut")) == (4, 0)
    assert assumed_for(c) == Answer(ASSUMED, "", "c", ("none",)) and ASSUMED == 0


def test_what_was_answered_is_read_as_the_step_asks_it() -> None:
    chosen = Step(
        key="c", stage="size", kind="choice", title="C", choices=(Choice("x", "X"),), usual="x", optional=True
    )
    assert given(job_of("c gone"), chosen) is None and given(job_of("c x"), chosen) is not None
    assert given(job_of("c gone"), replace(chosen, optional=False)) is not None
    assert given(job_of("c gone"), replace(chosen, kind="text", choices=())) is not None
    hand = Accepted(by=2, counted=True, after_end=False)
    for word, counts in (("1.00 mm", True), ("1 mm", False)):
        job = replay(HEAD, [entry(1, f"a {word}", accepted=hand), entry(2, "confirm x", of=1)])
        assert (given(job, act("a")) is not None) is counts
    assert given(job_of("a 1 mm"), act("a")) is not None


def test_what_stands_behind_a_check_of_an_earlier_sitting_is_hidden() -> None:
    check = act("check", kind="safety")
    cut, other = replace(act("cut"), guarded_by=("check",)), act("other")
    steps = (check, cut, other)
    before = job_of("check right", "cut 1.00 mm", "other 1.00 mm", "@ sitting work")
    found = walked(before, *steps, act("next"))
    assert found.hidden == {"cut"} and [step.key for step, _ in found.shown] == ["check", "other"]
    assert (found.keys, found.step("cut")) == (("check", "other", "next"), None) and found.answer(
        "cut"
    ) is not None
    assert (
        walked(job_of("@ sitting work", "check right", "cut 1.00 mm", "other 1.00 mm"), *steps).hidden
        == frozenset()
    )
    asked = found.done[1][1]
    assert found.asked_by(asked) is None
    assert hidden(before, []) == frozenset()


def test_what_stops_counting() -> None:
    a, b, c, d, mark = act("a"), act("b", "a"), act("c", "b"), act("d"), act("m", "a", kind="mark")
    steps = (a, b, c, d, mark)
    lines = ("a 1.00 mm", "b 2.00 mm", "c 3.00 mm", "d 4.00 mm", "m again")
    walk = walked(job_of(*lines), *steps)
    then = walked(job_of(*lines, "a 9.00 mm"), *steps)
    assert [step.key for step in stops_counting(walk, "a", then)] == ["b", "c"]
    assert stops_counting(walk, "d", walked(job_of(*lines, "d 9.00 mm"), *steps)) == ()
    assert [one.key for one in stops_counting(walk, "b", walked(job_of(*lines, "b 9.00 mm"), *steps))] == [
        "c"
    ]
    first, second, third, rest = act("s_1"), act("s_2"), act("s_3"), act("z", "s_1", "s_2", "s_3")
    read = ("s_1 1.00 mm", "s_2 2.00 mm", "z 4.00 mm")
    walk = walked(job_of(*read), first, second, rest)
    then = walked(job_of(*read, "s_3 3.00 mm"), first, second, third, rest)
    assert [one.key for one in stops_counting(walk, "s_3", then)] == ["z"]
    on_first, on_second = act("x", "s_1"), act("y", "s_2")
    both = (first, second, on_second, on_first)
    all_four = ("s_1 1.00 mm", "s_2 2.00 mm", "y 3.00 mm", "x 4.00 mm")
    again = walked(job_of(*all_four, "s_1 9.00 mm"), *both)
    assert [one.key for one in stops_counting(walked(job_of(*all_four), *both), "s_1", again)] == ["x"]
    assert (series("wall_12"), series("wall_x"), series("1_2")) == ("wall", "wall_x", "1")
    passed = walked(job_of("a 1.00 mm", "b 2.00 mm"), a, act("b", "a", optional=True))
    then = walked(job_of("a 1.00 mm", "b 2.00 mm", "a 3.00 mm"), a, act("b", "a", optional=True))
    assert then.open is None and [one.key for one in stops_counting(passed, "a", then)] == ["b"]
    some = [
        act("a", kind=kind, stage=stage)
        for stage in ("verify", "size")
        for kind in ("result", "number", "number", "safety", "timer", "choice", "action", "text")
    ]
    line = "2 readings, 1 choice, 1 check, 1 act, 1 hold, 1 result"
    assert counted(some) == (f"size: {line}", f"verify: {line}") and counted([]) == ()
    several_of = counted(
        [act("a", kind=kind) for kind in ("choice", "safety", "action", "timer", "result") for _ in range(2)]
    )
    assert several_of == ("measure: 2 choices, 2 checks, 2 acts, 2 holds, 2 results",)


def test_a_step_in_words() -> None:
    step = replace(
        STEP, kind="choice", choices=(Choice("x", "an X"),), say=("Look.",), opens_after=("t", 5.0),
        targets=(Target("go to 3"), Target("to 4", before=("Set the tool.", "Lock it."))),
    )  # fmt: skip
    assert step.to_do == ("Look.", "go to 3", "Set the tool.", "Lock it.", "to 4")
    assert (step.runs_since, replace(step, opens_after=None, ran_since="u").runs_since, STEP.runs_since) == (
        "t",
        "u",
        "",
    )
    assert (step.in_words("x"), step.in_words("y"), step.choice("y")) == ("an X", "y", None)
    check = replace(step, kind="safety")
    assert [check.in_words(word) for word in ("right", "wrong", "x")] == [
        "as it should be",
        "not as it should be",
        "x",
    ]
    titles = {"Which?": "Which? an X", "It is.": "It is: an X", "Which": "Which: an X"}
    assert {title: replace(step, title=title).with_answer("x") for title in titles} == titles
    assert ReadBy("micrometer", Mask(1, 2)).said == "by micrometer"


CALLIPER = Instrument(name="calliper", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03)
BALL = Instrument(name="ball", kind="ball_micrometer", resolution_mm=0.001, limit_of_error_mm=0.004)
IN_INCH = Instrument(
    name="inch one", kind="micrometer", resolution_mm=0.00254, limit_of_error_mm=0.005, unit="inch"
)


def test_with_which_instrument_a_number_is_read() -> None:
    assert mask_of(BALL, 1, 0.2, 5.0) == Mask(1, 3, "mm", 0.2, 5.0)
    assert mask_of(IN_INCH, 2, 2.54, 25.4) == Mask(1, 4, "in", 0.1, 1.0)
    asked = read_with(
        replace(STEP, how=("{held}.",)), BALL, (CALLIPER, BALL), before=1, low_mm=0.2, high_mm=5.0
    )
    assert (
        asked.mask == Mask(1, 3, "mm", 0.2, 5.0)
        and asked.read_with == "ball"
        and asked.how == ("Ball anvil inside.",)
    )
    assert asked.by == (
        ReadBy("ball", Mask(1, 3, "mm", 0.2, 5.0)),
        ReadBy("calliper", Mask(1, 2, "mm", 0.2, 5.0)),
    )
    by_jaws = read_with(
        replace(STEP, how=("{held}.",)), CALLIPER, (CALLIPER,), before=1, low_mm=0.2, high_mm=5.0
    )
    assert by_jaws.how == ("Thin ends of the jaws across the wall.",)
    assert (
        as_held(asked, ())
        == asked
        == as_held(asked, answers("x 0.61 mm|by nobody"))
        == as_held(asked, answers("x 0.61 mm"))
    )
    held = as_held(asked, answers("x 0.612 mm", "x 0.61 mm|by calliper"))
    assert held.by == asked.by[::-1] and held.mask == Mask(1, 2, "mm", 0.2, 5.0) and held.read_with == "ball"
    assert as_held(asked, answers("x 0.61 mm|by calliper", "x 0.612 mm")) == asked
    tools = (CALLIPER, BALL)
    assert instrument_of((), BALL, tools) == BALL == instrument_of(answers("x 1", "x 2|by x"), BALL, tools)
    mixed = instrument_of(answers("x 1", "x 2|by calliper"), BALL, tools)
    assert (
        mixed.limit_of_error_mm == pytest.approx(0.017)
        and instrument_of(answers("x 1|by calliper"), BALL, tools) == CALLIPER
    )


def test_readings_as_they_were_keyed() -> None:
    span = answers(
        "wall_1 0.61 mm", "wall_2 none", "glass 30.10 mm", "wall_1 0.62 mm", "wall_x 1 mm", "old_wall 1 mm"
    )
    assert as_keyed(2, span, ("glass", "wall")) == [
        {"attempt": 2, "what": "wall", "as_keyed": ["0.61 mm", "0.62 mm"], "replaced": ["0.61 mm"]},
        {"attempt": 2, "what": "glass", "as_keyed": ["30.10 mm"], "replaced": []},
    ]
    walls = keys.readings_of("wall")
    job = job_of("ring x", "wall_1 0.61 mm", "glass 30.10 mm")
    ring, wall, glass = job.answers
    assert (
        read_since(job, ring, walls)
        and not read_since(job, wall, walls)
        and not read_since(job, glass, walls)
    )
    hand = replace(job, answers=(replace(wall, accepted=9),))
    assert read_since(hand, glass, walls) and not read_since(hand, replace(glass, n=9), walls)


def test_answers_are_remembered_by_what_was_asked_and_the_unit_spoken() -> None:
    asked: list[tuple[int, str]] = []

    def work(n: int, *, how: str = "") -> int:
        asked.append((n, how))
        if n < 0:
            raise ValueError("less than nothing")
        return n * 2

    forgets = len(remembered.FORGETTING)
    known = remembered.remembered(work)
    assert [known(1), known(1), known(1, how="x"), known(2)] == [2, 2, 2, 4] and asked == [
        (1, ""),
        (1, "x"),
        (2, ""),
    ]
    with speaking("inch"):
        assert known(1) == 2 == known(1) and len(asked) == 4
    for _ in range(2):
        with pytest.raises(ValueError, match="nothing"):
            known(-1)
    assert len(asked) == 6 and known.__name__ == "work"
    assert {known(n) // n for n in range(100, 100 + remembered.SO_MANY)} == {2} and remembered.SO_MANY == 64
    before = len(asked)
    assert known(100) == 200 and len(asked) == before
    (forget,) = remembered.FORGETTING[forgets:]
    forget()
    assert known(100) == 200 and len(asked) == before + 1
    del remembered.FORGETTING[forgets:]

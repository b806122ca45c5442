"""What one stage does to another: units put on, checks set before it, what an old job chose offered first."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import pytest

from bench.file.entry import Entry, Head
from bench.job import keys
from bench.job.asking import Stage, T
from bench.job.job import Answer, Job, replay
from bench.job.kept import KEYED
from bench.job.mask import Mask
from bench.job.other_jobs import LIKE, LIKE_TAKEN
from bench.job.steps import Choice, Gauge, Step
from bench.seals import SEALS
from bench.seals.seal import Fitted
from bench.shop.shop import built_in
from bench.stages import like
from bench.stages.again import begun_again
from bench.stages.beside import beside
from bench.stages.common import Dimension, pairs_of, readings
from bench.stages.guard import OFF_THE_LATHE, at_the_lathe, guarded, still_at_the_lathe
from bench.stages.holding import left_meanwhile, on_the_clock
from bench.stages.keyed_in import OUTSIDES, WANTED, keyed, said_and_keyed
from bench.stages.leak_outcome import leak_words, outcome_step, rate_words
from bench.stages.letting_off import leaves_it_up, said_first
from bench.stages.proving import begun_by_tester, has_passed_dry, once_more
from bench.stages.proving_steps import Setup
from bench.stages.whole import walk
from rules.instrument import Instrument
from rules.lengths import plainly, spoken
from rules.testing.hunt import JOINTS
from rules.testing.leak_result import Leak
from rules.testing.methods import method
from rules.turning import operations

AT = "2026-03-02T09:00:00+00:00"
HEAD = Head(format=1, id="00000000", job="84", made_by="test")
INCH_SHOP, MM_SHOP = built_in("inch"), built_in()
CALLIPER = Instrument(
    name="inch calliper", kind="calliper", resolution_mm=0.0127, limit_of_error_mm=0.03, unit="inch"
)
MICROMETER = Instrument(name="micrometer", kind="micrometer", resolution_mm=0.01, limit_of_error_mm=0.01)
MIXED = replace(MM_SHOP, instruments=(CALLIPER, MICROMETER))
HEIGHT = Step(
    key="height", stage="measure", kind="number", title="Height", mask=Mask(1, 2, "mm", 0.254, 2.54),
    usual="1.27 mm", gauge=Gauge(0.254, 2.54, 1.27, half_width=0.0254),
)  # fmt: skip
ASKED = Step(
    key="kind",
    stage="measure",
    kind="choice",
    title="Which?",
    choices=(Choice("a", "A"), Choice("b", "B: best")),
)
IN_INCH = Gauge(0.01, 0.1, 0.05, half_width=0.001)


def job_of(*lines: str) -> Job:
    """A job of answers `key word|words`, marks `@ key word` and undone ones."""
    entries = []
    for n, line in enumerate(lines, 1):
        kind, rest = ("mark", line[2:]) if line.startswith("@ ") else ("answer", line)
        key, _, text = rest.partition(" ")
        entries.append(Entry(n=n, at=AT, kind=kind, key=key, value=tuple(text.split("|"))))
    return replay(HEAD, entries)


def asked(*steps: Step, gives: str = "done") -> Stage[str]:
    """A stage of these steps; it gives what was answered and in which unit was spoken."""
    said = []
    for step in steps:
        answer = yield step
        said.append(f"{answer.word} {spoken()}")
    return ", ".join((*said, gives))


def driven(stage: Stage[T], words: Mapping[str, str]) -> tuple[list[Step], T]:
    """The steps of a stage, each answered by a word of its own or `x`, and what it gives."""
    steps: list[Step] = []
    answer: Answer | None = None
    while True:
        try:
            step = next(stage) if answer is None else stage.send(answer)
        except StopIteration as end:
            return steps, end.value
        steps.append(step)
        answer = Answer(len(steps), "", step.key, (words.get(step.key, "x"),))


def test_a_length_is_keyed_as_its_instrument_shows_it() -> None:
    assert keyed(HEIGHT, MM_SHOP) == HEIGHT
    inch = keyed(HEIGHT, INCH_SHOP)
    assert inch.mask == Mask(1, 4, "in", 0.01, 0.1) and inch.usual == "0.0500 in" and inch.gauge == IN_INCH
    assert (inch.read_with, [one.name for one in inch.by]) == ("calliper", ["calliper", "micrometer"])
    mixed = keyed(HEIGHT, MIXED)
    assert mixed.mask == Mask(1, 4, "in", 0.01, 0.1) and mixed.gauge == IN_INCH and mixed.usual == "0.0500 in"
    assert [(one.name, one.mask.unit) for one in mixed.by] == [("inch calliper", "in"), ("micrometer", "mm")]
    other_way = replace(MIXED, instruments=(replace(MICROMETER, unit="inch"), replace(CALLIPER, unit="mm")))
    for key in OUTSIDES:
        outside = replace(HEIGHT, key=key)
        assert keyed(outside, MIXED) == outside and keyed(HEIGHT, other_way) == HEIGHT
        by = keyed(outside, other_way).by
        assert [(one.name, one.mask.unit) for one in by] == [("micrometer", "in"), ("inch calliper", "mm")]
    all_mm = replace(INCH_SHOP, instruments=(MICROMETER,))
    assert keyed(HEIGHT, all_mm).by[0].mask == HEIGHT.mask
    assert keyed(replace(HEIGHT, gauge=Gauge(0.254, 2.54)), INCH_SHOP).gauge == Gauge(0.01, 0.1)
    assert keyed(replace(HEIGHT, gauge=None, usual="as chosen"), INCH_SHOP).usual == "as chosen"


@pytest.mark.parametrize("key", sorted({"height", *WANTED}))
def test_a_length_that_is_chosen_is_keyed_in_the_unit_of_the_shop(key: str) -> None:
    step = replace(HEIGHT, key=key, chosen=key == "height")
    chosen = keyed(step, INCH_SHOP)
    assert (chosen.mask, chosen.by, chosen.usual) == (Mask(1, 4, "in", 0.01, 0.1), (), "0.0500 in")
    assert keyed(step, MIXED) == step == keyed(step, MM_SHOP)


def test_which_lengths_are_chosen_and_which_are_measured_as_outsides() -> None:
    assert {
        "plug_enters", "plug_stays_out", "plug_stays_out_again", "bar_measured", "bar_measured_2",
    } == OUTSIDES  # fmt: skip
    assert {
        "bore_wanted", "outside_wanted", "height_wanted", "glass_wanted", "ring_offset", "height_wanted_late",
    } == WANTED  # fmt: skip


def test_what_is_no_length_is_left_and_bare_figures_stand_in_the_unit_of_the_shop() -> None:
    pressure = replace(HEIGHT, mask=Mask(2, 1, "bar"), usual="1.0 bar", gauge=None)
    assert keyed(pressure, INCH_SHOP) == pressure
    by = keyed(HEIGHT, MIXED).by
    named = replace(HEIGHT, by=by, gauge=None, usual="")
    assert keyed(named, INCH_SHOP) == named
    shown = replace(ASKED, gauge=HEIGHT.gauge)
    assert keyed(shown, INCH_SHOP).gauge == IN_INCH and keyed(shown, MM_SHOP) == shown == keyed(shown, MIXED)


def test_a_stage_is_spoken_in_the_unit_of_the_shop_and_gives_what_it_gives() -> None:
    def stage() -> Stage[str]:
        return (yield from asked(replace(ASKED, title=plainly(2.54)), HEIGHT, gives="end"))

    steps, gave = driven(said_and_keyed(stage(), INCH_SHOP), {"kind": "a", "height": "b"})
    assert (steps[0].title, steps[1].mask.unit if steps[1].mask else "") == ("0.1 in", "in")
    assert (gave, spoken()) == ("a inch, b inch, end", "mm")
    assert driven(said_and_keyed(stage(), MM_SHOP), {})[1] == "x mm, x mm, end"


def test_steps_behind_checks_are_named_as_such_and_the_others_left() -> None:
    behind = guarded(asked(ASKED, HEIGHT), ("lid", "eyes"), lambda step: step.kind == "number", by=("lathe",))
    steps, gave = driven(behind, {"height": "b"})
    assert steps == [ASKED, replace(HEIGHT, guarded_by=("lid", "eyes"), goes_by=("lathe",))]
    assert gave == "x mm, b mm, done"
    assert driven(guarded(asked(HEIGHT), ("lid",), lambda _: True), {})[0][0].goes_by == ()


def test_whether_work_is_still_at_the_lathe() -> None:
    bore, optional = (Step(key=key, stage="cut", kind="action", title=key) for key in ("bore", "left"))
    optional = replace(optional, optional=True, usual="no")
    off = replace(bore, key=operations.DRESS)
    assert [at_the_lathe(replace(bore, key=key)) for key in (*OFF_THE_LATHE, "bore")] == [False] * 4 + [True]
    assert still_at_the_lathe(job_of(), asked(bore)) and still_at_the_lathe(job_of(), asked(optional, bore))
    assert not still_at_the_lathe(job_of(), asked(optional, off, bore))
    assert still_at_the_lathe(job_of(f"{operations.DRESS} done"), asked(off, bore))
    assert still_at_the_lathe(job_of("left yes"), asked(optional, bore))
    assert not still_at_the_lathe(job_of("bore done"), asked(bore))
    assert not still_at_the_lathe(job_of(), asked(bore), lambda step: step.key == "bore")
    assert still_at_the_lathe(job_of(), asked(off), lambda step: step.key == "bore")


def test_another_one_is_begun_after_measuring_again_where_that_was_chosen() -> None:
    again = SEALS["ring"].again
    found = {chosen: driven(begun_again(again, chosen), {})[0] for chosen in ("measure", "ring", "hand_back")}
    assert found == {"measure": [again.measured, again.another], "ring": [again.another], "hand_back": []}


@pytest.mark.parametrize("joint", JOINTS)
def test_the_seal_of_the_job_is_never_one_beside_it(joint: str) -> None:
    own = {
        "glass": "glass",
        "back": "back",
        "oring_back": "back",
        "oring_crown": "crown",
        "oring_pushers": "pushers",
    }
    words = [one.word for one in beside(joint)]
    assert words and len(set(words)) == len(words)
    assert all(own[joint] not in word.split("_") for word in words)


def like_job(*more: str) -> Job:
    """A job begun after job 47, whose ring was of nylon and whose watch was tested in water."""
    return job_of(f"@ {LIKE} 47|plastic pa66|cased_method underpressure|hold behind", *more)


def test_what_an_old_job_chose_is_kept_by_key_and_read_back() -> None:
    known = like.known_of(
        job_of("hold behind", "plastic pa66", "case_bore_1 31.40 mm", "cased_method bubble"), MM_SHOP
    )
    assert known == ("84", "hold behind", "plastic pa66", "cased_method bubble")
    assert like.known_of(job_of("plastic cork"), MM_SHOP) == ("84",)
    assert like.pairs(like_job()) == {"plastic": "pa66", "cased_method": "underpressure", "hold": "behind"}
    assert like.pairs(job_of()) == {}
    assert [one.key for one in like.known_steps(SEALS["ring"], MM_SHOP)] == [
        "seal", "hold", "glass_material", "plastic", "case_metal", "empty_method", "cased_method",
    ]  # fmt: skip


def test_it_is_offered_once_and_only_where_something_is_known() -> None:
    (page, *_), gave = driven(like.begun_after(like_job(), MM_SHOP, asked(ASKED)), {})
    assert page.key == LIKE_TAKEN and gave == "x mm, done"
    assert page.title == "One like job 47: take over what is known of it?"
    assert page.choices == (
        Choice(
            "take",
            "take it over; each can be changed in its place",
            follows=(("plastic", "pa66"),),
        ),
        Choice("number", "no: keep the number alone"),
    )
    assert len(page.say) == 3
    for nothing in (job_of(), job_of(f"@ {LIKE} 47"), job_of(f"@ {LIKE} 47|plastic cork")):
        assert [step.key for step in driven(like.begun_after(nothing, MM_SHOP, asked(ASKED)), {})[0]] == [
            "kind"
        ]
    oring = driven(like.begun_after(job_of(f"@ {LIKE} 47|seal oring"), MM_SHOP, asked(ASKED)), {})[0][0]
    assert "O-ring" in oring.say[0] and oring.choices[0].follows == (("seal", "oring"),)


def test_taken_over_it_stands_first_or_as_the_usual_value() -> None:
    mark = f"@ {LIKE} 47|kind b|height 1.00"
    optional = replace(ASKED, optional=True, usual="a")
    taken = job_of(mark, f"{LIKE_TAKEN} take")
    steps, gave = driven(like.offered_first(taken, asked(ASKED, HEIGHT, optional)), {"kind": "b"})
    assert steps[0] == replace(ASKED, choices=(Choice("b", "B: best, as in job 47"), Choice("a", "A")))
    assert steps[1:] == [HEIGHT, replace(optional, usual="b")] and gave == "b mm, x mm, b mm, done"
    for left in (
        job_of(mark),
        job_of(mark, f"{LIKE_TAKEN} number"),
        job_of(f"@ {LIKE} 47", f"{LIKE_TAKEN} take"),
    ):
        assert driven(like.offered_first(left, asked(ASKED)), {}) == ([ASKED], "x mm, done")
    act = replace(ASKED, kind="action")
    assert like.as_there(act, "b", "47") == act and like.as_there(ASKED, "c", "47") == ASKED
    assert like.shortly(ASKED, Choice("b", "B: best")) == "Which? B"
    assert like.shortly(ASKED, Choice("a", "A")) == "Which? A"


READS, VERDICT, BUBBLES = (
    Setup(keys.EMPTY, method(key), 2.0, (keys.EMPTY.method,))
    for key in ("dry_deflection", "dry_pass_fail", "bubble")
)
HOLD, RESULT = keys.EMPTY.hold, keys.EMPTY.result


def test_by_whom_a_hold_runs() -> None:
    assert on_the_clock(("start", "x", "5 min")) and not on_the_clock((KEYED, "x", "5 min"))
    assert begun_by_tester(job_of(f"{HOLD} start|x"), READS)
    assert not begun_by_tester(job_of(f"{HOLD} start|x|5 min"), READS)
    assert not begun_by_tester(job_of(f"{HOLD} {KEYED}|x"), READS) and not begun_by_tester(job_of(), READS)
    assert not begun_by_tester(job_of(f"{HOLD} start|x", f"{keys.EMPTY.method} bubble"), READS)


@pytest.mark.parametrize(
    ("lines", "left"),
    [
        ((), False),
        ((f"{HOLD} start|x|5 min",), False),
        ((f"@ {keys.SITTING} work", f"{HOLD} start|x|5 min"), False),
        ((f"{HOLD} start|x|5 min", f"@ {keys.SITTING} work"), True),
        ((f"{HOLD} start|x|5 min", "@ note x"), False),
        ((f"{HOLD} {KEYED}|x|5 min", f"@ {keys.SITTING} work"), False),
        ((f"{HOLD} start|x|5 min", f"{RESULT} pass", f"@ {keys.SITTING} work"), False),
        ((f"{HOLD} start|x|5 min", f"@ {keys.SITTING} work", f"{RESULT} pass"), True),
        ((f"{RESULT} fail", f"{HOLD} start|x|5 min", f"@ {keys.SITTING} work"), True),
    ],
)
def test_whether_the_bench_was_left_during_a_hold(lines: tuple[str, ...], left: bool) -> None:
    assert left_meanwhile(job_of(*lines), keys.EMPTY) is left


def test_what_sends_a_job_back_to_the_test() -> None:
    sitting = keys.EMPTY
    led = {
        sitting.found: ("test", "seen_to", "unchanged"),
        sitting.unclear: ("again",),
        sitting.correction: ("again",),
        sitting.throughout: ("no",),
    }
    every = [(key, word) for key, words in led.items() for word in (*words, "ring", "yes", "keyed_wrong")]
    for key, word in every:
        assert once_more(job_of(f"{key} {word}"), sitting) == ((key,) if word in led[key] else ()), (
            key,
            word,
        )
    assert once_more(job_of(*(f"{key} {words[0]}" for key, words in led.items())), sitting) == tuple(led)


DRY = "pass|x|method dry_pass_fail|timed tester"


@pytest.mark.parametrize(
    ("lines", "passed"),
    [
        ((), False),
        ((f"{RESULT} {DRY}",), True),
        ((f"{RESULT} {DRY.replace('pass|', 'not_judged|')}",), False),
        ((f"{RESULT} {DRY.replace('dry_pass_fail', 'bubble')}",), False),
        ((f"{RESULT} {DRY.replace('dry_pass_fail', 'unheard_of')}",), False),
        ((f"{RESULT} {DRY}", f"{keys.FIT_OUTCOME} home"), False),
        ((f"{RESULT} {DRY}", f"{keys.EMPTY.found} test"), False),
        ((f"{RESULT} {DRY}", f"{keys.CASED.found} test"), True),
        ((f"{keys.CASED.result} {DRY}",), False),
        ((f"{RESULT} fail|x", f"{RESULT} {DRY}"), False),
        ((f"{RESULT} {DRY}", f"{HOLD} start|x", f"{RESULT} fail|x"), True),
    ],
)
def test_whether_a_dry_test_has_passed_in_this_sitting(lines: tuple[str, ...], passed: bool) -> None:
    assert has_passed_dry(job_of(*lines), keys.EMPTY, demo=False) is passed


def test_a_hurried_pass_counts_in_a_demo_alone() -> None:
    hurried = job_of(f"{RESULT} {DRY.replace('tester', 'hurried')}")
    assert has_passed_dry(hurried, keys.EMPTY, demo=True) and not has_passed_dry(
        hurried, keys.EMPTY, demo=False
    )


def test_which_answers_leave_a_case_under_pressure() -> None:
    def left(key: str, *words: str) -> bool:
        return leaves_it_up(Answer(1, "", key, words), keys.EMPTY)

    assert left(RESULT, "fail", "x", "held 10 min", "ran 9.9 min")
    assert not left(RESULT, "fail", "x", "held 10 min", "ran 10.0 min")
    assert not left(RESULT, "fail", "x", "held unknown", "ran 2.0 min")
    assert not left(RESULT, "fail", "x", "held 10 min")
    assert not left(keys.CASED.result, "fail", "x", "held 10 min", "ran 2.0 min")
    assert left(keys.EMPTY.throughout, "no") and not left(keys.EMPTY.throughout, "yes")


def test_only_the_open_step_says_how_pressure_is_let_off() -> None:
    method_asked = replace(ASKED, key=keys.EMPTY.method, optional=True, usual="underpressure")
    stopped = job_of("kind a", f"{RESULT} fail|x|held 5 min|ran 2.0 min")
    nxt = replace(HEIGHT, consequence=("Then this.",), cautions=("lathe", "underpressure"))
    words = {keys.EMPTY.method: "underpressure"}

    def steps_of(job: Job) -> list[Step]:
        steps, gave = driven(said_first(job, asked(method_asked, ASKED, nxt)), words)
        assert gave == "underpressure mm, x mm, x mm, done"
        return steps

    first = "CHECK first: Let the air back in slowly; only then open."
    said = replace(nxt, consequence=(first, "Then this."), cautions=("underpressure", "lathe"))
    assert steps_of(stopped) == [method_asked, ASKED, said]
    assert steps_of(job_of("kind a")) == [method_asked, ASKED, nxt]
    later = job_of("kind a", f"{RESULT} fail|x|held 5 min|ran 2.0 min", f"@ {keys.SITTING} work")
    assert steps_of(later) == [method_asked, ASKED, nxt]
    words[keys.EMPTY.method] = "unheard_of"
    assert driven(said_first(stopped, asked(method_asked, nxt)), words)[0] == [method_asked, nxt]


def agreeing(*mm: str, **how: object) -> tuple[int, tuple[float, ...], tuple[float, ...]]:
    """What a dimension of these readings comes to: how many were asked, those used, those that count."""
    step = Step(key="d", stage="measure", kind="number", title="{place}", mask=Mask(1, 2))
    dimension = Dimension(step, 0.02, **how)  # type: ignore[arg-type]
    words = {f"d_{n}": f"{one} mm" for n, one in enumerate(mm, 1)} | {"d": f"{mm[0]} mm"}
    steps, found = driven(readings(dimension), words | {f"d_{len(mm) + 1}": "none"})
    assert found.keys == tuple(step.key for step in steps[: len(found.answers)])
    return len(found.answers), found.used_mm, found.counted_mm


def test_which_readings_count() -> None:
    assert agreeing("3.20", "3.22") == (2, (3.2, 3.22), (3.2, 3.22))
    assert agreeing("3.20", "3.23", "3.21") == (3, (3.2, 3.21), (3.2, 3.21))
    apart = ("3.20", "3.30", "3.40", "3.50")
    assert agreeing(*apart, places=("a", "b")) == (4, (3.2,), (3.2, 3.3, 3.4, 3.5))
    assert agreeing("3.20", least=1, expected_mm=3.22) == (1, (3.2,), (3.2,))
    assert agreeing("3.23", "3.20", least=1, expected_mm=3.20) == (2, (3.2,), (3.2,))
    between = agreeing("3.20", "3.22", "3.21", "3.21", between_mm=0.01)
    assert between == (4, (3.2, 3.22, 3.21, 3.21), (3.2, 3.22, 3.21, 3.21))
    assert agreeing("3.20", "3.21", between_mm=0.01) == (2, (3.2, 3.21), (3.2, 3.21))
    answers = [Answer(n, "", "d", (word,)) for n, word in enumerate(("1 mm", "2 mm", "3 mm"))]
    assert pairs_of(answers, ("a", "b")) == (("a", "1 mm"), ("b", "2 mm"))


def test_a_job_is_walked_from_the_bag_to_its_end() -> None:
    found = walk(job_of("paint old", "paint_go stop"), MM_SHOP)
    assert found.open is None and [step.key for step, _ in found.done] == ["paint", "paint_go"]
    assert (found.seal, walk(job_of("seal oring"), MM_SHOP).seal) == ("ring", "O-ring")
    opened = walk(job_of("paint none"), MM_SHOP)
    assert opened.open is not None and opened.open.stage == "measure"
    asked_first = walk(job_of(f"@ {LIKE} 47|plastic pa66"), MM_SHOP).open
    assert asked_first is not None and asked_first.key == LIKE_TAKEN
    closed = walk(replace(job_of("paint none"), closed=True), MM_SHOP)
    assert (closed.open, closed.stale) == (None, None)


def test_a_leak_is_written_as_it_was_judged() -> None:
    leak = Leak(
        rate_ug_min=12.26, low_ug_min=6.04, high_ug_min=18.48, decision="PASS", law="fixed",
        reason="so it is",
        hold_needed_s=600.0, settled=True, kind="measured", duration_s=600.0, signal_at_start=20.0,
        decay_per_s=1e-4,
        limit_decay_per_s=4e-4,
    )  # fmt: skip
    assert leak_words(leak) == (
        "leak 12.3 ug/min", "leak_low 6.0 ug/min", "leak_high 18.5 ug/min", "leak_decision PASS",
        "leak_law fixed", "leak_reason so it is",
    )  # fmt: skip
    assert rate_words(leak) == ("leak 12 ug/min at 2 bar overpressure", ", 95 %: 6 to 18; limit 50")
    half_known = replace(leak, low_ug_min=None, high_ug_min=None)
    assert leak_words(half_known)[:3] == ("leak 12.3 ug/min", "leak_low 12.3 ug/min", "leak_high unknown")
    for one in (half_known, replace(leak, low_ug_min=None), replace(leak, high_ug_min=None)):
        assert rate_words(one) == ("leak 12 ug/min at 2 bar overpressure", "")
    silent = replace(half_known, rate_ug_min=None, decision="NOT_JUDGED", reason="frozen")
    assert leak_words(silent) == ("leak_decision NOT_JUDGED", "leak_reason frozen") and rate_words(
        silent
    ) == ("no rate", "")
    asked = outcome_step(READS, silent, [0.0, 600.0], [20.0, 19.0], ("method x",), "since")
    assert asked.title == "NOT JUDGED: no rate" and asked.ran_since == "since"
    assert asked.choices[0] == Choice(
        "not_judged",
        "accept this result: NOT JUDGED",
        with_it=("method x", "leak_decision NOT_JUDGED", "leak_reason frozen"),
        stamp=True,
    )
    words = {"PASS": "pass", "FAIL": "fail", "UNDECIDED": "not_judged", "NOT_JUDGED": "not_judged"}
    said = {
        end: outcome_step(READS, replace(leak, decision=end), [0.0, 600.0], [20.0, 19.0], (), "")
        .choices[0]
        .word
        for end in words
    }
    assert said == words


def test_a_job_goes_from_stage_to_stage_as_far_as_each_gives_something() -> None:
    """The stages of a seal in place of its own, each saying what it was given."""
    seal, names = SEALS["ring"], ("measured", "sized", "made", "fitted")
    nothing: set[str] = set()

    def stage(name: str) -> Callable[..., Stage[object]]:
        def asks(_job: Job, _shop: object, given: str = "begun") -> Stage[object]:
            yield replace(HEIGHT, key=f"stage_{name}", title=f"{name} {given}", optional=True)
            return None if name in nothing else Fitted(AT) if name == "fitted" else name

        return asks

    def asked(*lines: str) -> list[str]:
        steps = walk(job_of("paint none", *lines), MM_SHOP)
        titles = [step.title for step in steps.optional if step.key.startswith("stage_")]
        return [*titles, steps.open.key if steps.open else "-"]

    all_four = ["measured begun", "sized measured", "made sized", "fitted made"]
    with pytest.MonkeyPatch.context() as patch:
        own: dict[str, Any] = {name: stage(name) for name in names}
        patch.setitem(SEALS, "ring", replace(seal, **own))
        assert asked() == [*all_four, "marking"]
        for upto, name in enumerate(names, 1):
            nothing = {name}
            assert asked() == [*all_four[:upto], "-"]
        nothing = set()
        for key in (keys.MEASURE_AGAIN, keys.SPOILED):
            assert asked(f"{key} done") == ["measured begun", keys.ATTEMPT]
            assert asked(f"{key} done", f"@ {keys.ATTEMPT} again") == [*all_four, "marking"]
        assert asked("marking nothing")[-1] == "empty_pressure"
        assert [step.key for step in walk(job_of("paint old", "paint_go go"), MM_SHOP).optional][:4] == [
            "watch",
            "remark",
            "papers_in",
            "linked",
        ]
        methods_of = {
            paint: walk(job_of(*paint, "marking nothing"), MM_SHOP).step("empty_method")
            for paint in (("paint none",), ("paint old", "paint_go go"))
        }
        offered = [one is not None and one.choice("bubble") is not None for one in methods_of.values()]
        assert offered == [True, False]

"""What the desk makes of one thing that happens: all that is another on it then, and what it asks for, as it
was read once and found true.

python -m tests.bench.test_desk_said writes `desk_said.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest

from bench.asking.asking import PARTS, Asked
from bench.desk import (
    answering,
    arrivals,
    away,
    bounce,
    copies,
    entries,
    everything,
    finding,
    foreseen,
    gate,
    gauges,
    hold,
    jobs_page,
    keys as desk_keys,
    learning,
    line_reading,
    manual,
    moving,
    offering,
    pace,
    pages,
    replacing,
    shop_asked,
    sitting,
    sought,
    sure,
    suspicion,
    typed,
    update,
    wheel,
)
from bench.desk.copy_effects import Asks, Compare, CopiesFound
from bench.desk.desk import Desk
from bench.desk.effects import (
    Append,
    DrawerIs,
    Glance,
    Glanced,
    JobRow,
    Learnt,
    Listed,
    Open,
    SessionOpened,
    ShopIs,
)
from bench.desk.pages import Outcome
from bench.desk.token import Bell, Leave, Token
from bench.desk.typed import AnswerLine
from bench.file.entry import Entry, Head
from bench.file.load import Finding, load
from bench.job.in_drawer import Drawer
from bench.job.job import replay
from bench.job.mask import Mask
from bench.job.route import Walk
from bench.job.steps import Choice, Meanwhile, ReadBy, Step, Target
from bench.joining.twins import Twin
from bench.manual.chapters import chapters
from bench.stages.whole import walk as whole_walk
from bench.wire.heard import Heard
from tests.seals.test_ring_measured import SHOP, Given, Kept, job_of, told

KEPT = Kept(__file__)
SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
AT = "2026-03-02T10:00:00+00:00"
HEAD = Head(format=1, id="0f0f0f0f", job="7001", made_by="ringwright 1")
MM = Mask(2, 2, "mm", 5.0, 80.0)
NUMBER = Step("case_bore_1", "measure", "number", "Glass seat at 12", mask=MM)
CHOICE = Step(
    "hold",
    "measure",
    "choice",
    "How is it held?",
    choices=(Choice("front", "from the front"), Choice("behind", "from behind")),
)
CHECK = Step(
    "fit_ready",
    "verify",
    "safety",
    "How do the dies stand?",
    wrong=("{given}: not so.",),
    rests_on=("ring", "fit_slip"),
    choices=(
        Choice("right", "as they should"),
        Choice("crooked", "one is crooked"),
        Choice("off", "one is off"),
    ),
)
READ_OFF = replace(
    CHECK, choices=(), readback=12, readback_within=1, wrong=("{given} is too few", "{given} is too many")
)
UNDER = "under pressure. Let it off slowly, then open it."


def on(step: Step | None, *given: Given, **more: Any) -> Desk:
    """The desk in a job, on a step that has been painted a while ago."""
    job = job_of(*given)
    desk = Desk(
        page="step",
        job=job,
        walk=Walk((), (), (), step, None, seal="ring"),
        shop=SHOP,
        head=HEAD,
        file="/jobs/00007.toml",
        sitting=True,
        now=100.0,
        wall=AT,
        painted_at=50.0,
    )
    desk = replace(desk, **more)
    return replace(desk, painted=desk.asked) if "painted" not in more else desk


def typing(desk: Desk, text: str) -> Desk:
    """The same with this in the answer line."""
    return replace(desk, line=AnswerLine(text))


def behind(*steps: tuple[Step, str], step: Step | None = NUMBER, **more: Any) -> Desk:
    """The desk with answered steps behind it."""
    job = job_of(*((one.key, word) for one, word in steps))
    done = tuple((one, answer) for (one, _), answer in zip(steps, job.answers, strict=True))
    walk = Walk(done, (), more.pop("optional", ()), step, None, more.pop("hidden", frozenset()), seal="ring")
    return on(step, walk=walk, job=job, **more)


def came(before: Desk, outcome: Outcome | Desk) -> Iterator[str]:
    """What is another on the desk afterwards, and the effects; a job and a walk by their places alone."""
    after, effects = (outcome, ()) if isinstance(outcome, Desk) else outcome
    for one in fields(Desk):
        was, now = getattr(before, one.name), getattr(after, one.name)
        if was == now:
            continue
        if one.name == "turn":
            now = now.text, now.at, now.before and (now.before.scroll, now.before.turn.text)
        if one.name == "walk":
            now = now and (now.open and now.open.key, [step.key for step, _ in now.done])
        if one.name in ("job", "foreseen", "below", "asked_shop", "shop"):
            now = now and type(now).__name__
        yield f"{one.name}: {told(now)}"
    yield f"effects: {told(effects)}" if effects else "no effects"


# clocks


@KEPT.case
def how_long_a_hold_runs() -> Iterator[object]:
    stamp = "2026-03-02T09:55:00+00:00"
    held = replace(
        CHOICE, opens_after=(stamp, 600.0), ran_since=stamp, meanwhile=Meanwhile("Wait", ("so",), ("press",))
    )
    for wall, began in ((AT, None), (AT, 40.0), (AT, 200.0), ("", None), ("2026-03-02T09:54:00+00:00", None)):
        desk = on(held, wall=wall)
        desk = desk if began is None else replace(desk, holds={(desk.file, stamp): began})
        yield (
            wall[11:19],
            began,
            hold.seconds_run(desk, stamp),
            hold.seconds_left(desk, held),
            hold.share_run(desk, held),
        )
        yield hold.countdown(desk, held), hold.countdown(desk, replace(held, kind="number"))
        yield hold.until_next_word(desk, held), hold.ran_words(desk, held), hold.as_now(desk, held).title
        yield (
            hold.is_shut(desk, held, 0),
            hold.is_shut(desk, held, 1),
            hold.is_shut(desk, replace(held, kind="number"), 0),
        )
    later = on(held, holds={("/jobs/00007.toml", stamp): -500.0})
    yield (
        hold.seconds_left(later, held),
        hold.as_now(later, held).title,
        hold.countdown(later, held),
        hold.until_next_word(later, held),
    )
    yield (
        hold.seconds_left(later, CHOICE),
        hold.countdown(later, CHOICE),
        hold.share_run(later, CHOICE),
        hold.rings(CHOICE),
        hold.ran_words(later, CHOICE),
    )
    yield hold.rings(held), hold.share_run(later, replace(held, opens_after=(stamp, 0.0)))
    for left in (600.0, 301.0, 300.5, 300.0, 299.0, 61.0, 60.0, 59.0, 0.5):
        desk = replace(later, holds={("/jobs/00007.toml", stamp): 100.0 - 600.0 + left})
        yield left, hold.until_next_word(desk, held)
    yield [hold.lasting(seconds) for seconds in (0.0, 0.4, 59.0, 59.2, 60.0, 61.0, 3600.0, 1.0000005)]


@KEPT.case
def what_is_known_of_a_hold() -> Iterator[object]:
    stamp = "2026-03-02T09:55:00+00:00"
    held = replace(CHOICE, opens_after=(stamp, 600.0))
    desk = on(held)
    yield from came(desk, hold.begun(desk, stamp))
    for name, one, token in (
        ("found", desk, Token("key", at=100.0)),
        ("no moment", desk, Token("key")),
        ("no token", desk, "x"),
        ("no hold", on(CHOICE), Token("key", at=100.0)),
        ("known", replace(desk, holds={(desk.file, stamp): 3.0}), Token("key", at=100.0)),
        ("of another file", replace(desk, holds={("b", stamp): 3.0}), Token("key", at=100.0)),
        ("since its result", on(replace(CHOICE, ran_since=stamp)), Token("key", at=100.0)),
    ):
        yield name
        yield from came(one, hold.found(one, token))


@KEPT.case
def whether_somebody_was_away() -> Iterator[object]:
    first = away.Moment(0.0, "2026-03-02T10:00:00+00:00", 1000.0)
    for at, wall, boot in (
        (900.0, "2026-03-02T10:15:00+00:00", 1900.0),
        (900.1, "2026-03-02T10:15:00+00:00", 1900.0),
        (1.0, "2026-03-02T10:00:01+00:00", 1901.0),
        (1.0, "2026-03-02T10:00:01+00:00", 996.0),
        (1.0, "2026-03-02T10:00:01+00:00", 995.9),
        (1.0, "2026-03-02T10:15:01+00:00", None),
        (1.0, "2026-03-02T09:59:56+00:00", None),
        (1.0, "2026-03-02T09:59:55+00:00", None),
        (1.0, "", None),
        (-5.0, "2026-03-02T10:00:00+00:00", None),
    ):
        yield at, wall[11:19], boot, away.why_anew(first, away.Moment(at, wall, boot))
    bare = away.Moment(0.0, "", None)
    yield away.why_anew(bare, away.Moment(900.0, "", None)), away.why_anew(bare, away.Moment(901.0, "", None))
    yield away.passed(bare, away.Moment(3.0, "", 5.0), 3.0), away.passed(first, replace(bare, wall=AT), 1.0)
    yield away.moment_of(Token("key", at=2.0, wall=AT, boot=3.0))


# keys that build an answer


@KEPT.case
def what_a_number_may_have_been() -> Iterator[object]:
    for unit in ("mm", "in"):
        for value, earlier in (
            (3.21, [32.1]),
            (321.0, [32.1]),
            (23.1, [32.1]),
            (0.321, [32.1]),
            (1.264, [32.1]),
            (815.34, [32.1]),
            (32.3, [32.1]),
            (32.301, [32.1]),
            (32.05, [31.0, 35.0, 32.1]),
            (3210.0, [32.1]),
            (9.0, []),
        ):
            yield unit, value, str(earlier), suspicion.suspect(value, earlier, 5.0, 80.0, unit=unit)
    yield (
        suspicion.suspect(5.0, [], 5.0, 80.0),
        suspicion.suspect(80.0, [], 5.0, 80.0),
        suspicion.suspect(4.99, [], 5.0, 80.0),
    )
    yield (
        suspicion.suspect(12.15, [12.51], 5.0, 80.0),
        suspicion.suspect(12.15, [12.57], 5.0, 80.0),
        suspicion.suspect(1.5, [5.1], 0.1, 9.0, decimals=1),
    )
    yield tuple(suspicion.swaps(0.45, 2)), tuple(suspicion.swaps(11.2, 1)), tuple(suspicion.swaps(12.0, 0))


@KEPT.case
def offers_of_what_was_meant() -> Iterator[object]:
    by = (ReadBy("calliper", MM), ReadBy("micrometer", replace(MM, decimals=3)))
    step = replace(NUMBER, by=by, read_with="calliper")
    desk = on(step)
    yield from came(
        desk,
        offering.offered(desk, ("32.140 mm", "by micrometer"), "32140: read by micrometer?", first="So. "),
    )
    offered, _ = offering.offered(desk, ("32.140 mm", "by micrometer"), "read by micrometer?")
    assert offered.offer is not None
    yield offered.offer.takes, offered.offer.line
    for text in ("", "1", "2", "11"):
        one = typing(offered, text)
        yield text, offering.still_offered(one).offer is None, offering.is_taken(one)
    elsewhere = replace(offered, page="list")
    yield elsewhere.offered, offering.is_taken(typing(elsewhere, "1"))
    for text in ("32140", "32.140", "32.14", "3214", "x"):
        yield text, offering.by_another(text, step, inch=False)
    inch = Mask(1, 4, "in", 0.1, 3.2)
    for text, value in (("3214", 2.3623), ("3214", 2.362), ("32.14", 3.2), (" 3214 ", 2.5)):
        yield text, value, offering.looks_like_mm(text, inch, value), offering.looks_like_mm(text, MM, value)
    for text in ("32140", "3214", "1", "321"):
        yield text
        yield from came(desk, answering.accept(typing(desk, text)))


@KEPT.case
def answers_accepted_and_refused() -> Iterator[object]:
    many = replace(
        CHOICE, choices=tuple(Choice(f"w{n}", f"text {n}", follows=(("seal", "ring"),)) for n in range(11))
    )
    stamped = replace(
        CHOICE,
        kind="timer",
        keyed_minutes=True,
        choices=(Choice("start", "start", stamp=True, with_it=("10 min",)),),
    )
    for name, desk, text in (
        ("a choice", on(many), "9"),
        ("none", on(many), "0"),
        ("its second page", replace(on(many), offset=9), "2"),
        ("not on its second page", replace(on(many), offset=9), "3"),
        ("it leads to the jobs", on(replace(CHOICE, choices=(Choice("k", "k", goto="jobs"),))), "1"),
        ("it leads to the shop", on(replace(CHOICE, choices=(Choice("k", "k", goto="shop"),))), "1"),
        ("a timer", on(stamped), "1"),
        ("a hold still to run", on(replace(CHOICE, kind="timer", opens_after=(AT, 60.0))), "1"),
        ("a hold given up", on(replace(CHOICE, kind="timer", opens_after=(AT, 60.0))), "2"),
        ("minutes keyed", on(stamped, hasty=True), "12"),
        ("no minutes", on(stamped, hasty=True), "0"),
        ("too many", on(stamped, hasty=True), "1000"),
        ("a check, right", on(CHECK, dealt=(2, 0, 1)), "2"),
        ("a check, wrong", on(CHECK, dealt=(2, 0, 1)), "1"),
        ("a check, no such number", on(CHECK, dealt=(2, 0, 1)), "4"),
        ("a check, too quick", on(CHECK, dealt=(0, 1, 2), painted_at=99.1), "1"),
        ("a check, just seen", on(CHECK, dealt=(0, 1, 2), painted_at=99.0), "1"),
        ("a check, not painted", on(CHECK, dealt=(0, 1, 2), painted=()), "1"),
        ("a check, by lines", on(CHECK, dealt=(0, 1, 2), painted=(), hasty=True), "1"),
        ("read off", on(READ_OFF), "13"),
        ("read off, too few", on(READ_OFF), "10"),
        ("read off, too many", on(READ_OFF), "14"),
        ("read off, no number", on(READ_OFF), "x"),
        ("as usual", on(replace(NUMBER, usual="36.40 mm")), "1"),
        ("a little", on(replace(NUMBER, below=(6.0, "Under 6 mm it leaks"))), "5.50"),
        ("not so little", on(replace(NUMBER, below=(6.0, "Under 6 mm it leaks"))), "6.00"),
        ("a reading not due", on(replace(NUMBER, opens_after=(AT, 60.0))), "36.40"),
        ("beside an earlier one", on(replace(NUMBER, asked_of=("36.40 mm", "20 C"))), "63.40"),
    ):
        yield name
        yield from came(desk, answering.accept(typing(desk, text)))
    again = replace(typing(on(replace(NUMBER, below=(6.0, "it leaks"))), "5.50"), conversion="5.50")
    yield from came(again, answering.accept(again))
    yield (
        answering.mask_of(NUMBER),
        answering.mask_of(READ_OFF),
        answering.mask_of(replace(READ_OFF, readback=98, readback_within=3)),
        answering.mask_of(CHOICE),
    )
    yield (
        answering.mask_of(stamped),
        answering.mask_of(stamped, hasty=True),
        answering.slip_key(CHECK),
        answering.slip_key(NUMBER),
    )
    yield (
        answering.said_wrong(NUMBER, "12"),
        answering.earlier_in(("36.40 mm", "1.000 in", "20 C"), MM),
        answering.earlier_in(("36.40 mm", "20 C"), Mask(2, 0, "C")),
    )
    yield (
        answering.below_words(NUMBER, 1.0),
        answering.suspect_text("x", MM, [36.4]),
        answering.suspect_text("3,64", MM, [36.4]),
    )


@KEPT.case
def an_answer_given_again() -> Iterator[object]:
    back = behind((CHOICE, "front"), at="hold")
    for text in ("1", "2"):
        yield from came(back, answering.accept(typing(back, text)))
    optional = behind((replace(CHOICE, optional=True), "front"), at="hold")
    yield from came(optional, answering.accept(typing(optional, "1")))


@KEPT.case
def a_line_typed_key_by_key() -> Iterator[object]:
    for keyed, mask, inch in (
        (("3", "6", ".", "4", "2"), MM, False),
        (("3", ".", "."), MM, False),
        (("3", "6", ".", "4", "2", "1"), MM, False),
        (("3", "6", ".", "4", "2", "1"), MM, True),
        (("char:-", "3"), MM, False),
        (("3", "char:-"), MM, False),
        (("1", "char:i", "char:n", "char:c", "char:h"), MM, False),
        (("char:m",), MM, False),
        (("1", "char:x"), MM, False),
        (("char:&",), MM, False),
        (("char:ě",), MM, False),
        (("navigation",), MM, False),
        (("unknown",), MM, False),
        (("refused:a key of a gauge",), MM, False),
        (("1", "."), replace(MM, decimals=0), False),
        (("1", "2"), None, False),
        (("char:a",), None, False),
        (("paste:36,42 mm",), MM, False),
        (("1", "paste:2"), MM, False),
        (("paste:36x42",), MM, False),
        (('paste:+36.4"',), MM, False),
        (("paste:3.6.4",), MM, False),
        (("0",) * 9, MM, False),
        (("0",) * 11, MM, False),
        (("1",) * 5, MM, False),
        (("char:x", "back", "1"), MM, False),
        (("char:x", "1"), MM, False),
        (("1", "back", "tab", "", "enter", "arrow:next"), MM, False),
        (("1", "2", ".", "3", "4", "5"), Mask(1, 4, "in"), False),
        (("1", "2", "3", "."), Mask(1, 4, "in"), False),
        (("1", "2", "3"), Mask(1, 4, "in"), False),
        (("1", "2", "3", "4", "5", "6"), Mask(1, 4, "in"), False),
        (("1", "2", "3", "."), MM, False),
        (("1", "2", "3"), Mask(2, 0, "C"), False),
    ):
        line = AnswerLine()
        for one in keyed:
            line = typed.type_key(line, one, mask=mask, inch=inch)
        yield "".join(keyed), line.text, line.void
    further = typed.type_key(AnswerLine("36.42"), "1", mask=MM, others=(replace(MM, decimals=3),))
    yield further.text, further.void
    for most in (1, 2, 3):
        yield (
            most,
            typed.type_key(AnswerLine("1"), "2", most=most),
            typed.type_key(AnswerLine("12"), "2", most=most),
        )


def strained(*keyed: tuple[str, float], typing: bool = False) -> Iterator[str]:
    """Keys through the bounce filter, text and moment; what comes out after each."""
    state = bounce.Bounce()
    for text, at in keyed:
        token = Token("settle" if text == "settle" else "key", text, at=at)
        state, out = bounce.strain(state, token, typing=typing)
        said = ", ".join(f"{one.kind} {one.text}" for one in out)
        yield f"{text} {at}: {said or 'nothing'}; wait {bounce.settle_ms(state)} ms"
    yield told(state)


@KEPT.case
def keys_that_bounce() -> Iterator[object]:
    for name, keyed in {
        "struck twice": (("1", 1.0), ("1", 1.2)),
        "bounced": (("1", 1.0), ("1", 1.03), ("settle", 1.2)),
        "bounced, not settled yet": (("1", 1.0), ("1", 1.03), ("settle", 1.04)),
        "by a machine, even": (("1", 1.0), ("1", 1.03), ("2", 1.06)),
        "by a machine, fast": (("1", 1.0), ("1", 1.05), ("2", 1.08)),
        "by a machine before": (("3", 1.0), ("1", 1.03), ("1", 1.05), ("2", 1.1)),
        "by hand": (("1", 1.0), ("1", 1.02), ("2", 1.075)),
        "by hand, late": (("1", 1.0), ("1", 1.05), ("2", 1.4)),
        "held down": (("1", 1.0), ("1", 1.5), ("1", 1.53), ("1", 1.56), ("1", 1.59), ("2", 1.6)),
        "held down after a short pause": (("1", 0.0), ("1", 0.15), ("1", 0.18), ("1", 0.21)),
        "held down after a shorter one": (("1", 1.0), ("1", 1.14), ("1", 1.17), ("1", 1.2)),
        "held down after a long pause": (("1", 0.0), ("1", 1.2), ("1", 1.23), ("1", 1.26)),
        "held down after a longer one": (("1", 1.0), ("1", 2.21), ("1", 2.24), ("1", 2.27)),
        "enter held down": (("enter", 1.0), ("enter", 1.5), ("enter", 1.53), ("enter", 1.56)),
        "a sign of a reading": (("back", 0.0), ("3", 0.03)),
        "a sign of a reading, a point": (("next", 1.0), (".", 1.01)),
        "a sign alone": (("back", 0.0), ("3", 0.031)),
        "a sign settled": (("back", 1.0), ("settle", 1.03)),
        "a sign before another key": (("back", 1.0), ("enter", 1.01)),
        "a sign twice": (("back", 1.0), ("back", 1.02), ("settle", 1.2)),
    }.items():
        yield name
        yield from strained(*keyed)
    yield from strained(("back", 1.0), ("3", 1.01), typing=True)
    for window in (-1, 0, 500, 501):
        try:
            yield window, bounce.strain(bounce.Bounce(), Token("key", "1"), typing=False, window_ms=window)[1]
        except ValueError as why:
            yield window, str(why)
    yield bounce.strain(bounce.Bounce(), Token("tick"), typing=False)[1]
    held = bounce.Bounce("1", 1.0, held=Token("key", "1"), count=1)
    yield bounce.settle_ms(held, window_ms=50), bounce.settle_ms(replace(held, count=0), window_ms=50)


@KEPT.case
def a_gauge_that_types() -> Iterator[object]:
    here = on(NUMBER)
    quiet = replace(here, pace=replace(pace.Pace(), last_at=99.0))

    def act(desk: Desk, text: str) -> Outcome:
        return (
            replace(desk, message="taken", pending=Append("k", "v"))
            if text == "enter"
            else typing(desk, desk.line.text + text)
        ), ()

    sent = replace(typing(here, "36.4"), pace=replace(pace.Pace(), last_at=99.9, steps=(0.01, 0.01, 0.01)))
    soon = replace(sent, pace=replace(sent.pace, soon=True))
    held = replace(typing(here, "36.4"), message="Held", pace=replace(pace.Pace(), last_at=99.0, held=True))
    jammed = replace(sent, pace=replace(sent.pace, jammed=True))
    taken = replace(
        typing(here, "36.4"),
        entries=(Entry(n=4, at=AT, kind="answer", key="case_bore_1", value="36.42 mm"),),
        pace=replace(sent.pace, taken="36.42", after_s=0.05),
    )
    for name, desk, text, at in (
        ("the first key", quiet, "3", 100.0),
        ("a key soon after a number", replace(quiet, pace=replace(quiet.pace, number_at=99.6)), "3", 100.0),
        ("a key for what is not painted", replace(quiet, painted=()), "3", 100.0),
        ("a sign held back", replace(quiet, painted_at=100.5), "char:-", 100.0),
        ("on what is held", held, "3", 100.0),
        ("soon on what is held", held, "3", 99.05),
        ("while jammed", jammed, "3", 99.95),
        ("jammed, then quiet", jammed, "3", 100.4),
        ("enter by hand", sent, "enter", 100.0),
        ("enter of the gauge", sent, "enter", 99.91),
        ("enter of the gauge, soon", soon, "enter", 99.91),
        ("enter by hand, soon", soon, "enter", 100.1),
        ("enter with nothing typed", quiet, "enter", 100.0),
        ("enter while jammed", jammed, "enter", 99.95),
        ("enter by hand while jammed", jammed, "enter", 100.05),
        ("enter on what is held", held, "enter", 100.0),
        ("enter of a gauge on what is held", held, "enter", 99.05),
        (
            "enter where two met",
            replace(sent, pace=replace(sent.pace, steps=(0.01, 0.01, 0.3))),
            "enter",
            99.91,
        ),
        (
            "enter that ran through the one before",
            replace(taken, pace=replace(taken.pace, taken="36.42", steps=(0.2,), after_s=0.3)),
            "enter",
            100.0,
        ),
        ("back clears what is held", held, "back", 100.0),
        ("back", sent, "back", 100.0),
        ("back while jammed", jammed, "back", 99.95),
        ("next", quiet, "next", 100.0),
        ("by lines", replace(sent, by_lines=True), "enter", 99.91),
        ("in a series", replace(soon, pace=replace(soon.pace, series_until=120.0)), "enter", 99.91),
        (
            "a blind reading in a series",
            replace(
                soon,
                walk=Walk((), (), (), replace(NUMBER, blind=True), None),
                pace=replace(soon.pace, series_until=120.0),
            ),
            "enter",
            99.91,
        ),
    ):
        yield name
        yield from came(desk, gauges.watched(desk, text, at, act))
    yield from came(here, gauges.announce(here))
    yield from came(taken, gauges.crossed(taken, 100.0))
    yield from came(sent, gauges.crossed(sent, 100.0))
    for page, step in (("step", NUMBER), ("step", CHOICE), ("list", NUMBER), ("step", None)):
        desk = replace(on(step), page=page)
        yield (
            page,
            gauges.is_number(desk),
            gauges.is_unseen(replace(desk, painted=())),
            gauges.is_unseen(replace(desk, painted=desk.asked)),
        )


@KEPT.case
def a_gauge_on_a_line() -> Iterator[object]:
    sent = Heard(
        name="calliper", number="36.42", unit="mm", at=101.0, wall="2026-03-02T10:00:01+00:00", words=""
    )
    for name, desk, one in (
        ("a reading", on(NUMBER), sent),
        ("in inch", on(NUMBER), replace(sent, unit="in", number="1.4340")),
        ("not painted", on(NUMBER, painted=()), sent),
        ("a choice is asked", on(CHOICE), sent),
        ("no length is asked", on(replace(NUMBER, mask=Mask(2, 0, "C"))), sent),
        ("something is typed", typing(on(NUMBER), "36"), sent),
        ("something was thrown away", replace(on(NUMBER), line=AnswerLine(void="x")), sent),
        ("another reading", replace(typing(on(NUMBER), "36"), pace=replace(pace.Pace(), held=True)), sent),
        ("too small a window", on(NUMBER, columns=39), sent),
        ("being saved", on(NUMBER, pending=Append("a", "b")), sent),
        ("left", on(NUMBER, page="left"), sent),
        ("a word of its port", on(NUMBER), replace(sent, number="", words="the line is gone", gone=True)),
        ("an older moment", on(NUMBER), replace(sent, at=3.0, wall="")),
    ):
        yield name
        yield from came(desk, line_reading.heard(desk, one))
    waits = replace(typing(on(NUMBER), "36"), sent_at=100.0, pace=replace(pace.Pace(), held=True))
    for text, at, desk in (
        ("enter", 100.49, waits),
        ("enter", 100.5, waits),
        ("3", 100.1, waits),
        ("enter", 100.1, replace(waits, hasty=True)),
        ("enter", 100.1, typing(waits, "")),
        ("enter", 100.1, replace(waits, pace=pace.Pace())),
    ):
        yield text, at, line_reading.too_soon(desk, text, at)


@KEPT.case
def a_wheel_that_is_turned() -> Iterator[object]:
    desk = on(NUMBER)

    def act(one: Desk, token: Token) -> Outcome:
        return replace(one, scroll=one.scroll + 1), (Bell(),)

    first, _ = wheel.arrow(desk, Token("key", "arrow:next", at=0.0), act)
    yield from came(desk, wheel.arrow(desk, Token("key", "arrow:next", at=0.0), act))
    for text, at in (("arrow:next", 0.079), ("arrow:next", 0.08), ("arrow:previous", 0.01)):
        yield text, at
        yield from came(first, wheel.arrow(first, Token("key", text, at=at), act))
    saved = replace(first, entries=(Entry(n=1, at=AT, kind="answer", key="a", value="b"),))
    for one in (saved, replace(first, pending=Append("a", "b"))):
        yield from came(one, wheel.arrow(one, Token("key", "arrow:next", at=0.01), act))


# moving


@KEPT.case
def from_question_to_question() -> Iterator[object]:
    other = replace(CHOICE, key="bench")
    desk = behind((other, "front"), (CHOICE, "front"))
    for at in ("", "hold", "bench", "gone"):
        here = replace(desk, at=at)
        for move in ("previous", "next", "list"):
            yield at, move
            yield from came(here, moving.MOVE[move](here))
    finished = behind((other, "front"), (CHOICE, "front"), step=None, at="hold")
    yield from came(finished, moving.MOVE["next"](finished))
    many = on(replace(CHOICE, choices=tuple(Choice(f"{n}", f"{n}") for n in range(19))))
    for offset in (0, 9, 18):
        here = replace(many, offset=offset)
        yield offset
        yield from came(here, moving.MOVE["next"](here))
    nine = on(replace(CHOICE, choices=tuple(Choice(f"{n}", f"{n}") for n in range(9))))
    yield from came(nine, moving.MOVE["next"](nine))


@KEPT.case
def through_pages() -> Iterator[object]:
    for page in (
        "list",
        "pick",
        "why",
        "keys",
        "sheet",
        "customer",
        "drawer",
        "jobs",
        "account",
        "damage",
        "replacing",
        "chapter",
    ):
        desk = on(NUMBER, page=page, trail=("step",), picks=(("a", "b"),) * 12, scroll=4, chapter=1)
        for move in ("previous", "next", "list"):
            yield page, move
            yield from came(desk, moving.MOVE[move](desk))
    for page in ("jobs", "account"):
        for scroll in (0, 3):
            desk = Desk(page=page, scroll=scroll)
            yield from came(desk, moving.MOVE["previous"](desk))
    bare = Desk(page="jobs")
    yield from came(bare, moving.MOVE["list"](bare))
    for offset in (0, 9, 18):
        listed = on(NUMBER, page="list", trail=("step",), offset=offset)
        yield from came(listed, moving.MOVE["next"](listed))
    for rows in (8, 9, 10, 11, 12, 25):
        one = on(NUMBER, page="replacing", trail=("step",), rows=rows)
        two = replace(one, page="why")
        yield rows, moving.MOVE["next"](one)[0].scroll, moving.MOVE["next"](two)[0].scroll


@KEPT.case
def pages_over_pages() -> Iterator[object]:
    desk = on(CHECK, scroll=3, offset=2, picks=(("a", "b"),))
    yield from came(desk, pages.over(desk, "why"))
    laid = pages.over(desk, "why")
    yield from came(laid, pages.back(laid))
    yield from came(desk, pages.say(desk, "words", alarm=True))
    for key in ("jobs", "shop", "hold"):
        yield from came(desk, pages.goto(desk, key))
    noted = behind((replace(CHOICE, kind="text"), "x"))
    yield from came(noted, pages.show(noted, "hold"))
    yield from came(desk, pages.show(desk, ""))
    yield (
        pages.deal_for(desk),
        pages.deal_for(replace(desk, dealt=(1, 0, 2))),
        pages.deal_for(on(READ_OFF)),
        pages.deal_for(on(CHOICE)),
    )
    mark = Step("attempt", "cut", "mark", "another ring")
    for one in (on(mark), on(mark, writable=False), on(None), on(CHECK), Desk()):
        yield from came(one, pages.arrive(one))


@KEPT.case
def the_manual_is_read() -> Iterator[object]:
    desk = on(NUMBER, page="chapters", trail=("step",))
    for text in ("1", "0", "99", "x"):
        yield from came(desk, manual.choose(typing(desk, text)))
    reading = replace(desk, page="chapter", chapter=1, rows=24)
    lines = len(manual.text_of(reading))
    for scroll in (0, lines - 22, lines - 21, lines):
        one = replace(reading, scroll=scroll)
        yield from came(one, manual.read_on(one))
        yield from came(one, manual.read_back(one))
    last = replace(reading, chapter=len(chapters()), scroll=9999)
    yield from came(last, manual.read_on(last))
    yield (
        manual.room(replace(reading, rows=4)),
        manual.room(replace(reading, rows=3)),
        manual.chapter_at(reading).number,
    )


# what comes from outside


@KEPT.case
def a_job_is_opened() -> Iterator[object]:
    entry = Entry(n=1, at=AT, kind="answer", key="watch", value="a diver")
    finding = Finding(of=1, state="changed", line=4, words="entry 1 was changed", mark="x", entry=None)
    before = on(NUMBER, night=True, bounce_ms=50, message="old", put_off=frozenset(("bar",)), looked=("a",))
    shop = replace(SHOP, bounce_ms=33, bell=False, theme="day")
    for name, desk, more in (
        ("with an answer", before, {"entries": (entry,)}),
        ("empty", before, {"entries": ()}),
        (
            "to read only",
            before,
            {"entries": (), "writable": False, "why_read_only": "another window has it"},
        ),
        ("with something found", before, {"entries": (), "findings": (finding,), "set_aside": 12}),
        (
            "night chosen, no filter",
            replace(before, night_chosen=True, bounce_ms=0),
            {"entries": (entry,), "sample": True},
        ),
        (
            "a new job like another",
            before,
            {"entries": (replace(entry, kind="mark", key="like"),), "wall": "2026-03-03T10:00:00+00:00"},
        ),
    ):
        yield name
        yield from came(
            desk, arrivals.opened(desk, SessionOpened(head=HEAD, file="/jobs/00008.toml", shop=shop, **more))
        )
    for theme in ("day", "night", "terminal"):
        token = SessionOpened(head=HEAD, file="x.toml", shop=replace(SHOP, theme=theme), entries=())
        yield (
            theme,
            [arrivals.opened(replace(before, night=night), token)[0].night for night in (False, True)],
        )


@KEPT.case
def what_else_arrives() -> Iterator[object]:
    stamp = "2026-03-02T09:59:00+00:00"
    held = replace(CHOICE, opens_after=(stamp, 60.0))
    for name, desk, token in (
        ("saved, nothing pending", on(NUMBER), Token("saved", numbers=(1,))),
        ("saved without its number", on(NUMBER, pending=Append("watch", "x")), Token("saved")),
        (
            "saved",
            on(NUMBER, pending=Append("watch", "x"), at="hold", offset=9),
            Token("saved", numbers=(1,), wall=AT),
        ),
        (
            "saved, more to come",
            on(NUMBER, pending=Append("watch", "x"), then=(Append("a", "b"), Append("c", "d"))),
            Token("saved", numbers=(1,), wall=AT),
        ),
        (
            "a note saved",
            on(NUMBER, pending=Append("note", "x", kind="note"), at="hold"),
            Token("saved", numbers=(1,), wall=AT),
        ),
        (
            "a sitting begun",
            on(NUMBER, pending=Append("sitting", "work", kind="mark"), sitting=False, at="hold"),
            Token("saved", numbers=(1,), wall=AT),
        ),
        (
            "refused",
            on(CHECK, pending=Append("a", "b"), then=(Append("c", "d"),)),
            Token("refused", "the disk is full"),
        ),
        (
            "refused for good",
            on(CHECK, pending=Append("a", "b")),
            Token("refused", "the disk is full", numbers=(1,)),
        ),
        (
            "refused again",
            on(CHECK, pending=Append("a", "b"), jammed="first"),
            Token("refused", "second", numbers=(1,)),
        ),
        (
            "a sitting refused",
            on(CHECK, pending=Append("sitting", "work", kind="mark"), at="hold", trail=("a",)),
            Token("refused", "no"),
        ),
        ("dealt", on(CHECK), Token("deal", numbers=(2, 0, 1))),
        ("said", on(NUMBER, alarm=True), Token("said", "a copy was written")),
        ("resized", on(NUMBER), Token("resized", columns=100, rows=30)),
        ("resized from too small", on(NUMBER, columns=10), Token("resized", columns=100, rows=30)),
        ("painted", on(NUMBER, painted=()), Token("painted", at=101.0)),
        ("painted again", on(NUMBER), Token("painted", at=101.0)),
        ("painted too small", on(NUMBER, painted=(), rows=11), Token("painted", at=101.0)),
        ("ticked, no hold", on(NUMBER), Token("tick")),
        ("ticked, running", on(held, holds={("/jobs/00007.toml", stamp): 50.0}), Token("tick")),
        ("ticked, over", on(held, holds={("/jobs/00007.toml", stamp): 40.0}), Token("tick")),
        (
            "ticked, rung",
            on(held, holds={("/jobs/00007.toml", stamp): 40.0}, rung=f"{stamp} 60"),
            Token("tick"),
        ),
        ("ticked, no bell", on(held, holds={("/jobs/00007.toml", stamp): 40.0}, bell=False), Token("tick")),
        ("left", on(replace(NUMBER, left_so=UNDER)), Token("leave")),
    ):
        yield name
        yield from came(desk, arrivals.HANDLERS[token.kind](desk, token))


@KEPT.case
def checks_asked_again() -> Iterator[object]:
    checked = behind((CHECK, "right"), message="old")
    for name, desk in {
        "checks were given": checked,
        "none was": behind((CHOICE, "front")),
        "while a note is written": replace(checked, page="text", line=AnswerLine("a note")),
        "typed": typing(checked, "36"),
        "read only": replace(checked, writable=False),
    }.items():
        yield name
        yield from came(desk, arrivals.checks_anew(desk, "A quarter of an hour."))
    one = on(NUMBER, at="hold", picks=(("a", "b"),), trail=("x",))
    yield from came(one, sitting.begin_sitting(one))


@KEPT.case
def findings_are_settled() -> Iterator[object]:
    found = Finding(of=1, state="changed", line=4, words="entry 1 was changed", mark="m1", entry=None)
    two = on(None, page="damage", findings=(found, replace(found, of=2, mark="m2")))
    for name, desk, text in (
        ("used", two, "1"),
        ("left", two, "2"),
        ("no such choice", two, "3"),
        ("read only", replace(two, writable=False), "1"),
        ("refused", replace(two, findings=(replace(found, refused=True),)), "1"),
        ("nothing to confirm", replace(two, findings=()), "1"),
    ):
        yield name
        yield from came(desk, gate.choose(typing(desk, text)))
    yield from came(two, gate.settled(two))
    more = replace(two, then=(Append("", "m2", kind="confirm", of=2),))
    yield from came(more, gate.settled(more))


@KEPT.case
def the_shop_is_looked_up() -> Iterator[object]:
    step = replace(CHOICE, learns=("rings a",), looks_for=("plastic acetal",))
    plain = on(step)
    for name, desk in {
        "first": plain,
        "learned": replace(plain, looked=("/jobs/00007.toml", 1, ("rings a",))),
        "looked in as well": replace(
            plain,
            looked=("/jobs/00007.toml", 1, ("rings a",)),
            looked_in=("/jobs/00007.toml", 1, 0, ("plastic acetal",)),
        ),
        "looked in for another": replace(
            plain,
            looked=("/jobs/00007.toml", 1, ("rings a",)),
            looked_in=("/jobs/00007.toml", 1, 0, ("plastic peek",)),
        ),
        "nothing to learn": on(CHOICE),
        "another page": replace(plain, page="list"),
        "no sitting": replace(plain, sitting=False),
        "read only": replace(plain, writable=False),
        "a sample": replace(plain, sample=True),
        "being saved": replace(plain, pending=Append("a", "b")),
        "looking back": behind((replace(CHOICE, key="bench"), "front"), step=step, at="bench"),
    }.items():
        yield name
        yield from came(desk, learning.looked_up_when_due(desk, (Bell(),)))
    for name, desk, learnt in (
        ("kept", plain, Learnt(("rings a",), "learned", ("looked up", "x"))),
        ("kept of the drawer", plain, Learnt(("plastic acetal",), "looked_in", ("looked", "x"))),
        ("of another", plain, Learnt(("rings b",), "learned", ("looked up",))),
        ("nothing", plain, Learnt(("rings a",), "learned", ())),
        ("being saved", replace(plain, pending=Append("a", "b")), Learnt(("rings a",), "learned", ("x",))),
        ("nothing open", on(None), Learnt(("rings a",), "learned", ("x",))),
    ):
        yield name
        yield from came(desk, learning.told(desk, learnt))
    yield from came(plain, learning.told(plain, DrawerIs(Drawer((), ()))))


@KEPT.case
def copies_of_one_job() -> Iterator[object]:
    names = ("b.toml", "a.toml", "c.toml")
    twins = {"a.toml": Twin("behind", "b.toml"), "c.toml": Twin("parted", "b.toml")}
    desk = Desk(page="jobs", names=names)
    for one in (desk, replace(desk, twins_of=names), replace(desk, names=("a",)), replace(desk, page="step")):
        yield copies.looking(one)
    for complete in (True, False):
        yield from came(desk, copies.found(desk, CopiesFound(twins, complete)))
    known = replace(desk, twins=twins)
    for wanted in (
        ("a.toml", "b.toml"),
        ("a.toml",),
        ("c.toml", "b.toml"),
        ("c.toml",),
        ("a.toml", "d.toml"),
        ("d.toml",),
        ("b.toml",),
    ):
        yield wanted, copies.chosen(known, wanted)
    yield [copies.is_parted(known, name) for name in names]
    asks = Asks(
        "Two copies", ("said",), (("join", "join them", Compare(("a", "b"))), ("open", "open one", Open("a")))
    )
    yield from came(
        replace(known, page="step", trail=("x",), scroll=3),
        copies.asks(replace(known, page="step", trail=("x",), scroll=3), asks),
    )


# lists


@KEPT.case
def the_list_of_everything() -> Iterator[object]:
    accepted = replace(CHOICE, key="ring")
    for name, desk in {
        "the jobs": Desk(page="jobs"),
        "a job": on(NUMBER),
        "a choice": on(CHOICE),
        "a ring accepted": behind((accepted, "front")),
        "finished": behind((accepted, "front"), step=None),
        "a sample": on(NUMBER, sample=True),
        "read only": on(NUMBER, writable=False),
        "by lines": on(NUMBER, by_lines=True),
        "under pressure": on(replace(NUMBER, left_so=UNDER)),
    }.items():
        yield name, " ".join(f"{one.number}{'' if one.now else '-'}" for one in entries.items(desk))
    yield from (
        f"{one.number} {one.word}: {one.text}" for one in entries.items(on(replace(NUMBER, left_so=UNDER)))
    )
    yield [one.text for one in entries.items(Desk(page="jobs")) if "{" in one.text or "piece" in one.text]


@KEPT.case
def what_an_entry_does() -> Iterator[object]:
    optional = (
        replace(CHOICE, key="plastic", title="Plastic", usual="front", optional=True),
        replace(
            NUMBER, key="glass_edge", title="A title much longer than forty-four characters is", optional=True
        ),
    )
    desk = behind(
        (CHOICE, "front"),
        (replace(CHOICE, key="ring", targets=(Target("a"), Target("b", figure="36.4"))), "behind"),
        optional=optional,
    )
    for word in entries.NUMBERS:
        if word not in ("undo", "spoiled", "note_back", "stop"):
            yield word
            yield from came(desk, everything.chosen(desk, word))
    jobs = Desk(page="jobs")
    yield from came(jobs, everything.of_like(jobs))
    pressed = on(replace(NUMBER, left_so=UNDER))
    for word in ("leave", "jobs", "like"):
        yield from came(pressed, everything.chosen(pressed, word))
    listed = pages.over(desk, "list")
    for text in ("9", "10", "19", "99", "6"):
        yield text
        yield from came(listed, everything.choose(typing(listed, text)))
    bare = on(NUMBER)
    yield from came(bare, everything.chosen(bare, "replace"))
    yield (
        [everything.title_of("x" * n) for n in (43, 44, 45)],
        everything.saved_words(Desk()),
        everything.saved_words(pressed),
    )


@KEPT.case
def an_answer_is_taken_back() -> Iterator[object]:
    for name, given in {
        "nothing": (),
        "an answer": (("bench", "clean"),),
        "a wrong check": (("fit_slip", "wrong", "fit_ready"),),
        "a bad result": (("ring", "accept"), ("fit_outcome", "shaved")),
        "with the ring begun by it": (("remake", "ring"), ("attempt", "another ring")),
        "a spoiled one": (("spoiled", "ring 1"), ("attempt", "another ring")),
    }.items():
        desk = on(NUMBER, *given)
        assert desk.job is not None
        yield name
        yield from came(desk, everything.take_back(desk, desk.job))
    over = behind((CHOICE, "front"), step=None)
    assert over.job is not None
    yield from came(over, everything.take_back(over, over.job))
    yield everything.said_of(None, over.job.answers[0]), everything.said_of(over.walk, over.job.answers[0])
    yield (
        everything.current(over, CHOICE),
        everything.current(on(None), replace(CHOICE, usual="behind")),
        everything.current(on(None), CHOICE),
        everything.current(Desk(), CHOICE),
    )


@KEPT.case
def picked_from_a_list() -> Iterator[object]:
    for word in everything.PICKS:
        desk = replace(
            pages.over(Desk(page="jobs"), "pick"), picks=everything.PICKS[word], offset=9, scroll=3
        )
        for text in ("2", "0", "99", "x"):
            yield word, text
            yield from came(desk, everything.pick(typing(desk, text)))
    own = replace(pages.over(behind((CHOICE, "front")), "pick"), picks=(("hold", "How"),))
    yield from came(own, everything.pick(typing(own, "1")))


@KEPT.case
def what_is_asked_before_it_is_done() -> Iterator[object]:
    desk = on(replace(NUMBER, left_so=UNDER))
    undo = (Append("bench", "clean", kind="undo", of=1),)
    yield from came(desk, sure.if_over(desk, undo, "the bench"))
    over = on(None)
    yield from came(over, sure.if_over(over, undo, "the bench"))
    yield from came(desk, sure.of_leaving(desk, "leave", "leave all the same", Leave(0, "saved")))
    asked, _ = sure.of_leaving(desk, "leave", "leave all the same", Leave(0, "saved"))
    listed, _ = sure.of_leaving(desk, "jobs", "to the jobs", Bell())
    done, _ = sure.if_over(over, undo, "the bench")
    for one, text in (
        (asked, "1"),
        (asked, "2"),
        (listed, "2"),
        (done, "1"),
        (done, "2"),
        (done, "3"),
        (done, "x"),
        (desk, "1"),
    ):
        yield text
        yield from came(one, replacing.choose(typing(one, text)))
    yield (
        replacing.answers(1),
        replacing.answers(2),
        replacing.value_of(("a",)),
        replacing.value_of(("a", "b")),
    )


@KEPT.case
def what_stops_counting_with_an_answer() -> Iterator[object]:
    sample = [one.entry for one in load((SAMPLES / "00208-ferry-captain.toml").read_bytes()).entries]
    entries = sample[: next(n for n, one in enumerate(sample, 1) if one.key == "drill")]
    walk = whole_walk(replay(HEAD, entries), SHOP)
    leading = replace(CHOICE, choices=(Choice("a", "a"), Choice("again", "again", goto="case_bore_1")))
    back = on(None, job=replay(HEAD, entries), walk=walk, entries=tuple(entries), at="hold")
    for key, value, desk in (
        ("hold", "foot", back),
        ("hold", ("foot", "x"), back),
        ("hold", ("front",), back),
        ("case_bore_1", "34.38 mm", back),
        ("case_bore_1", ("34.38 mm", "at 20 C"), back),
        ("case_bore_1", "34.38 mm", replace(back, walk=replace(walk, hidden=frozenset({"rough_outside"})))),
        ("case_bore_1", "34.38 mm", replace(back, walk=replace(walk, open=leading))),
        ("seat_depth", "1.45 mm", back),
        ("drill", "done", back),
        ("watch", "another diver", back),
        ("case_bore_1", "34.38 mm", replace(back, at="")),
        ("case_bore_1", "34.38 mm", replace(back, walk=None)),
        ("case_bore_1", "34.38 mm", replace(back, job=None)),
        ("case_bore_1", "34.38 mm", replace(back, shop=None)),
        ("case_bore_1", "34.38 mm", replace(back, asked_shop=Asked(SHOP, PARTS))),
    ):
        step = next(step for step, _ in walk.done if step.key == key)
        desk = replace(desk, at=desk.at and key)
        outcome = replacing.asked_first(desk, step, Append(key, value), "as said")
        yield key, value
        about = outcome and outcome[0].replacing
        if outcome is None or not isinstance(about, replacing.Replacing):
            yield "at once"
            continue
        yield about.step.key, about.was, about.new, about.message, outcome[0].page
        yield [one.key for one in about.lost], [one.key for one in about.named]
        yield from about.ways


# the list of jobs

ROWS = (
    JobRow(
        number="214",
        file="00214.toml",
        watch="Ferry captain",
        stage="cut",
        seat="34.18 mm, 34.20 mm",
        result="pass",
        since=AT,
        retest="2026-03-02",
        plastic="acetal",
    ),
    JobRow(
        number="21",
        file="00021.toml",
        watch="otter 12",
        stage="size",
        finished=True,
        glass="33.10 mm",
        result="fail",
        retest="2026-03-03",
    ),
    JobRow(number="3", file="00003.toml", watch="2 hands", stage="measure", ring="1.4340 in", attempt=2),
)
JOBS = Desk(
    page="jobs",
    names=("00214.toml", "00021.toml", "00003.toml"),
    known={row.file: row for row in ROWS},
    wall=AT,
)


def looked_for(text: str, **more: Any) -> Desk:
    """The list of jobs with this typed."""
    return jobs_page.fitted(replace(JOBS, line=AnswerLine(text), **more), JOBS)


@KEPT.case
def jobs_that_fit() -> Iterator[object]:
    for text in (
        "",
        "2",
        "21",
        "214",
        "9",
        "0",
        "0214",
        "3418",
        "34.1",
        "ferry",
        "FERRY captain",
        "otter pass",
        "fail",
        "finished",
        "acetal",
        "2026.03",
        "20260302",
        "1.43",
        "14340",
    ):
        yield text, looked_for(text).fits
    for more in (
        {"stage_only": "finished"},
        {"stage_only": "cut"},
        {"result_only": "pass"},
        {"result_only": "not tested"},
        {"result_only": "due"},
        {"watch_only": "F"},
        {"watch_only": "other"},
        {"watch_only": "H", "stage_only": "measure"},
    ):
        desk = looked_for("", **more)
        yield more, desk.fits, finding.picked_words(desk), finding.narrowed(desk)
    yield looked_for("2", stage_only="cut").fits, finding.picked_words(JOBS)
    strange = looked_for("", stage_only="cut", names=("00300.toml", "00214.toml"))
    yield (
        strange.fits,
        finding.is_picked(strange, "00300.toml"),
        jobs_page.unknown(strange),
        jobs_page.still_looking(strange),
        jobs_page.looked_into(strange),
    )
    yield [
        finding.begins_with(name, "21")
        for name in ("00214.toml", "00021-otter.toml", "00121.toml", "lantern.toml")
    ]
    yield [finding.searches(text) for text in ("", "123", "1234", "0123", "1.2", "a")]
    yield [finding.is_due(row, now) for row in ROWS for now in (AT, "2026-03-01T", "")]
    wide = tuple(f"{n:05}.toml" for n in range(1500, 0, -1))
    (first,) = jobs_page.unknown(replace(JOBS, names=wide, known={}, stage_only="cut"))
    assert isinstance(first, Glance)
    yield len(first.names)
    few = replace(JOBS, names=wide, fits=wide, known={}, rows=10, scroll=2)
    yield (
        jobs_page.unknown(few),
        jobs_page.room(few),
        jobs_page.room(replace(few, rows=5)),
        jobs_page.unknown(replace(few, page="step")),
    )


@KEPT.case
def a_number_typed_on_the_list() -> Iterator[object]:
    for keyed in (
        ("2", "1", "back"),
        ("navigation",),
        ("char:a", "char: ", "char:b"),
        (".", "."),
        ("2", "0", "2", "6", ".", "0", "3", "."),
        ("char:?",),
        ("1",) * 9,
        ("0",) * 3 + ("1",) * 7,
        ("char:x",) * 41,
        ("char: ",),
        ("char:?", "1"),
        ("char:?", "back"),
        ("1", "next"),
    ):
        line = AnswerLine()
        for one in keyed:
            line = jobs_page.type_number(line, one)
        yield "".join(keyed), line.text, line.void


@KEPT.case
def a_job_is_chosen() -> Iterator[object]:
    for text in ("0", "0214", "0999", "21", "214", "2", "5", "ferry", "otter", "e", "zebra", "3410", "1.43"):
        desk = looked_for(text, wanted="77", like="old.toml")
        yield text
        yield from came(desk, jobs_page.choose(desk))
    partly = looked_for("zebra", names=("00300.toml", *JOBS.names))
    yield from came(partly, jobs_page.choose(partly))
    for wanted, known in (("77", JOBS.known), ("", {})):
        desk = replace(looked_for("0214"), wanted=wanted, known=known)
        yield from came(desk, jobs_page.one_like(desk, "214"))
    yield from came(JOBS, jobs_page.one_like(JOBS, ""))
    twins = looked_for("21", twins={"00021.toml": Twin("parted", "00003.toml")})
    yield from came(twins, jobs_page.choose(twins))


@KEPT.case
def the_list_comes() -> Iterator[object]:
    before = on(NUMBER, jammed="x", like="y", sample=True, scroll=4)
    yield from came(before, jobs_page.came(before, Listed(("00003.toml",), ROWS[2:])))
    yield from came(JOBS, jobs_page.came(JOBS, Glanced((replace(ROWS[0], watch="new"),))))
    yield from came(JOBS, jobs_page.came(JOBS, CopiesFound({}, True)))
    yield from came(Desk(), jobs_page.first(Listed(("00003.toml",), ())))
    fresh = replace(JOBS, known={}, fits=JOBS.names)
    yield (
        jobs_page.wanted(fresh, Token("key")),
        jobs_page.wanted(fresh, Glanced(())),
        jobs_page.wanted(fresh, CopiesFound({}, True)),
    )
    yield [jobs_page.number_in(name) for name in ("00214-otter.toml", "0000.toml", "lantern.toml")]
    again = replace(JOBS, line=AnswerLine("2"), scroll=3)
    yield (
        jobs_page.fitted(again, JOBS).scroll,
        jobs_page.fitted(again, again) is again,
        jobs_page.fitted(again, replace(again, page="step")) is again,
    )
    narrower = jobs_page.fitted(
        replace(again, line=AnswerLine("21"), fits=("00021.toml",)), replace(again, fits=("00021.toml",))
    )
    yield narrower.fits


@KEPT.case
def how_a_row_is_found() -> Iterator[object]:
    yield [row.sought for row in ROWS]
    yield [sought.forms(word) for word in ("otter", "34.1", "341", "3418", "2026.03", "202603", "20260")]
    yield [sought.forms(word, digits_alone=True) for word in ("34.1", "341", "3418", "2026.03")]
    yield (
        sought.all_forms("34.1"),
        sought.all_forms("Otter 34"),
        [sought.is_date(text) for text in ("2026.", "2026-", "20260", "202603", "2026", "x")],
    )


# keys


@KEPT.case
def what_keys_mean() -> Iterator[object]:
    for name, character in (
        ("shift+tab", None),
        ("5", "5"),
        ("x", "x"),
        ("comma", ","),
        ("minus", "\u2212"),
        ("f1", None),
        ("left", None),
        ("tab", None),
        ("kp_home", None),
        ("ctrl+home", None),
        ("decimal", None),
        ("enter", None),
        ("shift", None),
        ("a", "\x01"),
        ("enter", "\x00"),
        ("ctrl+b", "\x02"),
        ("tab", "\t"),
    ):
        yield name, repr(character), desk_keys.meaning(name, character)
    for text in ("tab", "arrow:next", "5"):
        yield text, desk_keys.resolve(text, typing=True), desk_keys.resolve(text, typing=False)
    yield (
        [desk_keys.key_line(columns) for columns in (90, 73, 60, 50, 40, 30, 20, 8, 7)],
        desk_keys.key_line(90, dead=frozenset(("next", "enter"))),
    )
    yield desk_keys.help_table()


@KEPT.case
def one_key_at_the_desk() -> Iterator[object]:
    note = on(NUMBER, page="text", at="note", line=AnswerLine(" a  note "))
    checks = replace(behind((CHECK, "right")), last_key=away.Moment(0.0, AT, None))
    for name, desk, token in (
        ("a digit", on(NUMBER), Token("key", "3", at=101.0, wall=AT)),
        ("nothing", on(NUMBER), Token("key", "", at=101.0)),
        ("while saving", on(NUMBER, pending=Append("a", "b")), Token("key", "3", at=101.0)),
        (
            "after a quarter of an hour",
            checks,
            Token("key", "3", at=1001.0, wall="2026-03-02T10:20:00+00:00"),
        ),
        (
            "too soon after a reading",
            replace(typing(on(NUMBER), "36"), sent_at=101.0, pace=replace(pace.Pace(), held=True)),
            Token("key", "enter", at=101.1),
        ),
        ("a note is written", note, Token("key", "enter", at=101.0)),
        ("a note goes on", note, Token("key", "5", at=101.0, raw="5")),
        ("a note, taken back", note, Token("key", "back", at=101.0)),
        ("a note, a minus", note, Token("key", "back", at=101.0, raw="-")),
        ("a note, left", note, Token("key", "previous", at=101.0)),
        ("a note, nothing typed", replace(note, line=AnswerLine("  ")), Token("key", "enter", at=101.0)),
        ("a note, full", replace(note, line=AnswerLine("x" * 200)), Token("key", "5", at=101.0, raw="5")),
        ("a note, one more", replace(note, line=AnswerLine("x" * 199)), Token("key", "5", at=101.0, raw="5")),
        ("the old ring is described", replace(note, at="old_ring"), Token("key", "enter", at=101.0)),
    ):
        yield name
        yield from came(desk, update.on_key(desk, token))


@KEPT.case
def what_a_key_does() -> Iterator[object]:
    for name, desk, text in (
        ("enter, nothing typed", on(NUMBER), "enter"),
        ("enter on an unknown page", replace(typing(on(NUMBER), "1"), page="x"), "enter"),
        ("a move while typing", typing(on(NUMBER), "3"), "next"),
        ("a digit on a page that is read", on(NUMBER, page="why", trail=("step",)), "3"),
        ("enter there", on(NUMBER, page="why", trail=("step",)), "enter"),
        ("back in the manual", on(NUMBER, page="chapter", trail=("step",), chapter=1, scroll=30), "back"),
        ("enter clears", replace(on(NUMBER), line=AnswerLine(void="why")), "enter"),
        ("a paste", on(NUMBER), "paste:36.42"),
        ("a paste into a choice", on(CHOICE), "paste:1"),
        ("two digits on a list", typing(on(NUMBER, page="list", trail=("step",)), "1"), "2"),
        ("two digits for a choice", typing(on(CHOICE), "1"), "2"),
        ("the account: go on", typing(on(NUMBER, page="account"), "1"), "enter"),
        ("the account: sheet", typing(on(NUMBER, page="account"), "2"), "enter"),
        ("the account: jobs", typing(on(NUMBER, page="account"), "3"), "enter"),
        ("the account: no such", typing(on(NUMBER, page="account"), "4"), "enter"),
        ("the account of a finished job", typing(on(None, page="account"), "1"), "enter"),
        ("the account to read only", typing(on(NUMBER, page="account", writable=False), "1"), "enter"),
    ):
        yield name
        yield from came(desk, update.act(desk, text))
    small = on(NUMBER, columns=39)
    yield from came(small, update.strained(small, Token("key", "3", at=101.0)))
    twice = replace(
        typing(on(NUMBER), "33"),
        line_before=AnswerLine("3"),
        pace=replace(pace.Pace(), steps=(0.3, 0.5)),
        bounce=bounce.Bounce("3", 100.5, pause_s=0.5, held=Token("key", "3"), count=1),
    )
    yield from came(twice, update.strained(twice, Token("key", "3", at=100.53)))
    yield [
        update.sitting_is_due(one)
        for one in (
            on(NUMBER),
            on(NUMBER, sitting=False),
            on(NUMBER, sitting=False, writable=False),
            on(NUMBER, sitting=False, pending=Append("a", "b")),
            Desk(),
        )
    ]


# the shop


@KEPT.case
def the_shop_is_asked() -> Iterator[object]:
    step = replace(CHOICE, asks_shop=("press", "bar"), goes_by=("press",))
    unsaid = replace(SHOP, said=frozenset(("bar",)))
    desk = on(step, shop=unsaid)
    for name, one in {
        "asked": desk,
        "put off": replace(desk, put_off=frozenset(("press",))),
        "said": on(step),
        "nothing is asked": on(CHOICE, shop=unsaid),
        "no sitting": replace(desk, sitting=False),
        "read only": replace(desk, writable=False),
        "a sample": replace(desk, sample=True),
        "another page": replace(desk, page="list"),
        "being saved": replace(desk, pending=Append("a", "b")),
        "looking back": behind((replace(CHOICE, key="bench"), "x"), step=step, shop=unsaid, at="bench"),
    }.items():
        yield name, shop_asked.wanted(one)
    over, effects = shop_asked.asked_when_needed(desk, (Bell(),))
    yield from came(desk, (over, effects))
    yield from came(on(step), shop_asked.asked_when_needed(on(step), (Bell(),)))
    yield (
        shop_asked.first_question(over),
        shop_asked.first_question(desk),
        shop_asked.is_begun_with(over, "press"),
    )
    begun = replace(over, below=on(replace(step, asks_shop=())))
    yield shop_asked.is_begun_with(begun, "press"), shop_asked.is_begun_with(begun, "bar")
    yield from came(over, shop_asked.left_off(over))
    away_long = replace(
        over, below=replace(desk, last_key=away.Moment(0.0, AT, None)), last_key=away.Moment(1000.0, AT, None)
    )
    yield from came(away_long, shop_asked.left_off(away_long))
    listed = replace(over, below=JOBS, message="so", alarm=True, columns=99)
    yield from came(listed, shop_asked.left_off(listed))
    parts, _ = shop_asked.shop_is(JOBS, ShopIs(SHOP))
    yield from came(JOBS, (parts, ()))
    yield from came(over, shop_asked.refused(over, "no such press"))
    yield from came(parts, moving.MOVE["previous"](parts))


@KEPT.case
def the_job_as_it_will_be() -> Iterator[object]:
    desk = on(NUMBER, pending=Append("bench", "clean"))
    assert desk.pending is not None and desk.walk is not None
    yield from came(desk, foreseen.stated(desk, (desk.pending,)))
    for one in (
        replace(desk, pending=None),
        replace(desk, head=None),
        replace(desk, pending=Append("note", "x", kind="note")),
    ):
        yield from came(one, foreseen.stated(one, (Bell(),)))
    yield from came(desk, foreseen.stated(desk, (Bell(),)))
    yield foreseen.with_word("a", "w"), foreseen.with_word(("a", "b", "c"), "w"), foreseen.before_n(())
    first = Entry(n=1, at=AT, kind="answer", key="a", value="b")
    known = foreseen.Foreseen((first,), "x", desk.walk)
    second = Entry(n=2, at=AT, kind="answer", key="c", value="x")
    for entries_now in (
        (first, second),
        (first, replace(second, n=3)),
        (first, replace(second, value="y")),
        (replace(first), second),
        (second,),
        (first,),
    ):
        yield known.came_true(entries_now)
    yield foreseen.Foreseen((), "b", desk.walk).came_true((first,))


@KEPT.case
def what_stands_on_the_desk() -> Iterator[object]:
    for columns, rows in ((40, 12), (39, 12), (40, 11)):
        yield Desk(columns=columns, rows=rows).too_small
    desk = behind((CHOICE, "front"))
    yield desk.asked, replace(desk, at="hold").asked, Desk().asked
    yield (
        [replace(desk, at=at).looking_back for at in ("", "hold", "case_bore_1")],
        replace(behind((CHOICE, "front"), step=None), at="hold").looking_back,
    )
    under = on(replace(NUMBER, left_so=UNDER))
    yield under.left_so, replace(under, writable=False).left_so, Desk().left_so
    depth = replace(NUMBER, key="seat_depth")
    for late in ((), (("seat_depth_late", "1.40 mm"),), (("seat_depth_late", "as before"),)):
        job = job_of(("seat_depth", "1.60 mm"), *late)
        walk = Walk(((depth, job.answers[0]),), (), (), NUMBER, None)
        found = replace(desk, job=job, walk=walk).in_force(depth)
        yield found and found.word
        kept = replace(desk, job=job, walk=walk).in_force(replace(depth, optional=True))
        yield kept and kept.word
    yield desk.in_force(NUMBER), math.isinf(Desk().sent_at)


@KEPT.case
def each_arrival_at_its_door() -> Iterator[object]:
    account = on(NUMBER, page="account", sitting=False)
    for name, desk, token in (
        ("a sitting begins", account, Token("key", "enter", at=101.0, wall=AT)),
        ("it has begun", replace(account, sitting=True), Token("key", "enter", at=101.0, wall=AT)),
        ("a gauge", on(NUMBER), Heard("dial", "36.42", "mm", line="36.42 mm", at=101.0, wall=AT)),
        ("the shop", on(NUMBER), ShopIs(SHOP)),
        ("nothing learnt", on(NUMBER), Learnt(("allowance",), "learned", ())),
        ("the list", JOBS, Listed(("00007.toml",))),
        ("a kind nobody knows", on(NUMBER), Token("zebra", at=101.0)),
    ):
        yield name
        yield from came(desk, update.update(desk, token))


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_the_desk_makes_of_it(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()

"""What comes to the desk from outside the keyboard, and how time is counted there, each at its edge."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from bench.desk import arrivals, hold, jobs_page
from bench.desk.away import Moment, passed, why_anew
from bench.desk.desk import Desk
from bench.desk.effects import Append, JobRow, Listed, SessionOpened
from bench.desk.pace import Pace
from bench.desk.token import Bell, Leave, Token
from bench.desk.typed import AnswerLine
from bench.file.entry import Entry, Head
from bench.job import keys
from bench.job.steps import Meanwhile, Step
from bench.shop.shop import built_in

START = "2026-03-02T09:00:00+00:00"
HEAD = Head(format=1, id="0badcafe", job="7", made_by="ringwright 0.1.0")
STEP = Step(
    key="cased_pressure",
    stage="verify",
    kind="action",
    title="Then let off",
    say=("slowly",),
    opens_after=(START, 600.0),
    meanwhile=Meanwhile("Hold", ("wait",), ("pressure",)),
)


def desk(seconds: float, **more: Any) -> Desk:
    """A desk so many seconds after the hold began, by the clock on the wall alone."""
    minutes, rest = divmod(seconds, 60.0)
    wall = f"2026-03-02T09:{int(minutes):02d}:{rest:04.1f}+00:00"
    return Desk(wall=wall, now=100.0 + seconds, file="7.toml", **more)


def test_how_long_a_hold_has_run() -> None:
    at = desk(90.0)
    assert hold.seconds_run(at, START) == 90.0 and hold.seconds_left(at, STEP) == 510.0
    assert (
        hold.seconds_left(desk(601.0), STEP) == 0.0 == hold.seconds_left(at, replace(STEP, opens_after=None))
    )
    known = hold.begun(replace(at, wall=""), START)
    assert hold.seconds_run(replace(known, now=250.0), START) == 60.0, "by the clock that nobody sets"
    assert hold.seconds_run(replace(known, now=100.0), START) == 0.0
    assert hold.seconds_run(replace(at, wall=""), START) == 0.0, "not known"
    other = replace(known, file="8.toml")
    assert other.holds == known.holds and hold.seconds_run(other, START) == 0.0


@pytest.mark.parametrize(
    ("ran", "said", "share", "word"),
    [
        (0.0, "Another 10 min to hold, of 10 min.", 0.0, 300.0),
        (90.0, "Another 8 min 30 s to hold, of 10 min.", 0.15, 210.0),
        (300.0, "Another 5 min to hold, of 10 min.", 0.5, 60.0),
        (330.0, "Another 4 min 30 s to hold, of 10 min.", 0.55, 30.0),
        (588.0, "Another 12 s to hold, of 10 min.", 0.98, 12.0),
        (600.0, "", 1.0, None),
    ],
)
def test_what_is_left_of_a_hold(ran: float, said: str, share: float, word: float | None) -> None:
    at = desk(ran) if ran < 600.0 else desk(600.0)
    assert hold.countdown(at, STEP) == said and hold.share_run(at, STEP) == pytest.approx(share)
    assert hold.until_next_word(at, STEP) == word
    assert hold.is_shut(at, STEP, 0) == (ran < 600.0) and not hold.is_shut(at, STEP, 1)
    shown = hold.as_now(at, STEP)
    now = ("Hold", ("wait",), ("pressure",)) if ran < 600.0 else ("Then let off", ("slowly",), ())
    assert (shown.title, shown.say, shown.cautions) == now


def test_a_reading_that_is_due() -> None:
    reading = replace(STEP, kind="number")
    assert hold.countdown(desk(540.0), reading) == "This reading is due in 1 min."
    assert not hold.is_shut(desk(0.0), reading, 0)
    assert hold.rings(STEP) == f"{START} 600" and hold.rings(replace(STEP, opens_after=None)) == ""
    assert hold.share_run(desk(0.0), replace(STEP, opens_after=None)) == 1.0
    assert hold.as_now(desk(0.0), replace(STEP, meanwhile=None)).title == "Then let off"
    said = {0.2: "1 s", 59.0: "59 s", 59.5: "1 min", 60.0: "1 min", 61.0: "1 min 1 s", 0.0: "0 s"}
    assert {seconds: hold.lasting(seconds) for seconds in said} == said


def test_how_long_it_ran_is_written_rounded_down() -> None:
    ran = replace(STEP, ran_since=START)
    said = {0.0: "ran 0.0 min", 5.9: "ran 0.0 min", 6.0: "ran 0.1 min", 599.0: "ran 9.9 min"}
    assert {seconds: hold.ran_words(desk(seconds), ran)[0] for seconds in said} == said
    assert hold.ran_words(desk(90.0), STEP) == ()


def moment(at: float, wall: str = "", boot: float | None = None) -> Moment:
    return Moment(at, wall, boot)


UNCLEAR = "The clock does not say how long nobody was here: checks are asked again."
QUARTER = "A quarter of an hour without a key: checks are asked again."


@pytest.mark.parametrize(
    ("last", "now", "said"),
    [
        (moment(0.0), moment(900.0), ""),
        (moment(0.0), moment(900.1), QUARTER),
        (moment(0.0, boot=0.0), moment(10.0, boot=900.0), ""),
        (moment(0.0, boot=0.0), moment(10.0, boot=900.1), QUARTER),
        (moment(0.0, boot=10.0), moment(10.0, boot=15.0), ""),
        (moment(0.0, boot=10.0), moment(10.0, boot=14.9), UNCLEAR),
        (moment(0.0, START), moment(10.0, "2026-03-02T09:15:00+00:00"), ""),
        (moment(0.0, START), moment(10.0, "2026-03-02T09:15:01+00:00"), QUARTER),
        (moment(0.0, START), moment(10.0, ""), UNCLEAR),
        (moment(0.0, boot=1.0), moment(10.0), ""),
        (moment(20.0), moment(10.0), ""),
    ],
)
def test_how_long_nobody_was_there(last: Moment, now: Moment, said: str) -> None:
    assert why_anew(last, now) == said
    assert passed(moment(0.0), moment(3.0), 3.0) == 3.0


def opened(**more: Any) -> SessionOpened:
    usual: dict[str, Any] = {"head": HEAD, "entries": (), "file": "7.toml", "shop": built_in(), "wall": START}
    return SessionOpened(**{**usual, **more})


def test_a_job_is_opened_with_nothing_left_of_the_one_before() -> None:
    before = Desk(
        page="jobs",
        message="old",
        line=AnswerLine("12"),
        at="x",
        scroll=3,
        jammed="why",
        dealt=(1,),
        wanted="9",
        put_off=frozenset({"lathe"}),
        sitting=True,
        pending=Append("k", "v"),
        then=(Append("k", "v"),),
    )
    after, effects = arrivals.opened(before, opened())
    assert (after.page, after.message, after.alarm, after.file) == ("step", "", False, "7.toml")
    assert after.wall == START
    assert (after.line.text, after.at, after.scroll, after.jammed, after.dealt) == ("", "", 0, "", ())
    assert (after.wanted, after.put_off, after.then, after.sitting) == ("", frozenset(), (), False)
    assert effects == (Append(keys.SITTING, "work", kind="mark"),) and after.pending == effects[0]
    assert after.bounce_ms == 80 and after.bell and not after.night and after.job is not None


def test_a_job_that_may_only_be_read() -> None:
    after, effects = arrivals.opened(Desk(), opened(writable=False, why_read_only="held elsewhere", wall=""))
    assert (after.page, after.message, after.alarm, effects) == ("account", "held elsewhere", True, ())
    assert not after.writable and after.why_read_only == "held elsewhere" and after.wall == ""
    shop = replace(built_in(), bounce_ms=120, bell=False, theme="night")
    quiet, _ = arrivals.opened(Desk(bounce_ms=0, wall="w"), opened(shop=shop, writable=False, wall=""))
    assert (quiet.bounce_ms, quiet.bell, quiet.night, quiet.wall) == (0, False, True, "w")
    assert arrivals.opened(Desk(), opened(shop=shop, writable=False))[0].bounce_ms == 120
    assert arrivals.opened(Desk(night=True), opened(writable=False))[0].night
    entry = Entry(n=1, at=START, kind="mark", key=keys.SITTING, value="work")
    known, effects = arrivals.opened(Desk(), opened(entries=(entry,)))
    assert (known.page, known.sitting, effects) == ("account", False, ())


def test_the_list_of_jobs_knows_no_job() -> None:
    row = JobRow(number="7", file="7.toml", watch="a diver")
    busy = replace(
        desk(0.0), page="step", trail=("a",), at="x", jammed="y", pending=Append("k", "v"), scroll=2
    )
    after = jobs_page.listed(busy, Listed(names=("7.toml",), rows=(row,)))
    assert (after.page, after.names, dict(after.known)) == ("jobs", ("7.toml",), {"7.toml": row})
    assert (after.trail, after.at, after.jammed, after.pending, after.scroll, after.file) == (
        (),
        "",
        "",
        None,
        0,
        "",
    )
    assert (after.job, after.walk, after.head, after.entries, after.sample) == (None, None, None, (), False)


def test_what_is_saved_counts_and_nothing_else() -> None:
    idle = desk(0.0)
    assert arrivals.on_saved(idle, Token("saved", numbers=(1,))) == (idle, ())
    waiting = replace(idle, pending=Append("k", "v"))
    assert arrivals.on_saved(waiting, Token("saved")) == (waiting, ())
    begun, _ = arrivals.opened(Desk(), opened())
    after, _ = arrivals.on_saved(begun, Token("saved", numbers=(1,), wall=START))
    assert (
        after.sitting
        and after.pending is None
        and [(one.n, one.key) for one in after.entries] == [(1, "sitting")]
    )
    more = (Append("a", "1"), Append("b", "2"))
    chained, effects = arrivals.on_saved(replace(begun, then=more), Token("saved", numbers=(1,), wall=START))
    assert (chained.pending, chained.then, effects) == (more[0], more[1:], (more[0],))


def test_what_is_refused_stays_in_the_line() -> None:
    typed = replace(
        desk(0.0), line=AnswerLine("12"), pending=Append("k", "v"), then=(Append("k", "w"),), page="step"
    )
    told, _ = arrivals.on_refused(typed, Token("refused", "disk full", numbers=(1,)))
    assert (told.line.text, told.pending, told.then, told.message) == ("12", None, (), "disk full")
    assert told.alarm and told.jammed == "disk full"
    soft, _ = arrivals.on_refused(typed, Token("refused", "again"))
    assert soft.jammed == "" and soft.alarm
    kept, _ = arrivals.on_refused(replace(typed, jammed="first"), Token("refused", "second", numbers=(1,)))
    assert (kept.jammed, kept.message) == ("first", "second")
    mark = replace(typed, pending=Append(keys.SITTING, "work", kind="mark"), trail=("a",), at="x")
    back, effects = arrivals.on_refused(mark, Token("refused", "no"))
    assert (back.page, back.trail, back.at, effects) == ("account", (), "", ())


def test_small_arrivals() -> None:
    plain = desk(0.0)
    assert arrivals.on_deal(plain, Token("deal", numbers=(2, 0, 1)))[0].dealt == (2, 0, 1)
    said, _ = arrivals.on_said(replace(plain, alarm=True), Token("said", "copied"))
    assert (said.message, said.alarm) == ("copied", False)
    after, effects = arrivals.on_leave(plain, Token("leave"))
    assert after.page == "left" and isinstance(effects[0], Leave) and effects[0].status == 0
    grown, _ = arrivals.on_resized(plain, Token("resized", columns=40, rows=12))
    assert (grown.columns, grown.rows, grown.too_small, grown.pace) == (40, 12, False, plain.pace)
    for columns, rows in ((39, 12), (40, 11)):
        small, _ = arrivals.on_resized(plain, Token("resized", columns=columns, rows=rows))
        assert small.too_small and arrivals.on_painted(small, Token("painted", at=5.0)) == (small, ())
        wide, _ = arrivals.on_resized(
            replace(small, pace=Pace(last_at=1.0)), Token("resized", columns=80, rows=24)
        )
        assert wide.pace.last_at == wide.pace.broken_at == small.bounce.at


def test_the_bell_rings_once_at_the_end_of_a_hold() -> None:
    begun, _ = arrivals.opened(Desk(), opened())
    walk = begun.walk
    assert walk is not None
    holding = replace(desk(599.0), walk=replace(walk, open=STEP), page="step", bell=True)
    assert arrivals.on_tick(holding, Token("tick")) == (holding, ())
    over = replace(holding, wall="2026-03-02T09:10:00+00:00")
    rung, effects = arrivals.on_tick(over, Token("tick"))
    assert effects == (Bell(),) and (rung.message, rung.alarm) == ("The time is over.", False)
    assert arrivals.on_tick(rung, Token("tick")) == (rung, ())
    silent, effects = arrivals.on_tick(replace(over, bell=False), Token("tick"))
    assert effects == () and silent.message == "The time is over."
    assert arrivals.on_tick(desk(700.0), Token("tick"))[1] == ()

"""Going from page to page at the desk: back to the first question, the lists, what each entry does."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk import everything
from bench.desk.desk import Desk
from bench.desk.effects import Append, Close, Effect, Reload, Sample, SaveCopy, WriteSheet
from bench.desk.hold import begun, ran_words, seconds_left
from bench.desk.moving import following, open_list, previous
from bench.desk.pages import forward_question, show
from bench.desk.token import Bell, Leave, Token
from bench.desk.typed import AnswerLine
from bench.desk.update import update
from bench.file.load import Finding
from bench.job import keys
from bench.job.steps import Choice, Step
from tests.screens.keying import Keying
from tests.whole.scripts import straight


@pytest.fixture(scope="module")
def keying(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Keying]:
    """A job keyed as far as the depth of the seat."""
    hands = Keying(tmp_path_factory.mktemp("desk"))
    hands.run(straight(until="seat_depth"))
    yield hands
    hands.bench.close()


@pytest.fixture
def desk(keying: Keying) -> Desk:
    """The desk on the open step, nothing keyed."""
    assert keying.desk.page == "step" and keying.desk.step is not None
    assert keying.desk.step.key == "seat_depth"
    return keying.desk


def keyed(desk: Desk, text: str) -> Desk:
    """The desk with this in the line."""
    return replace(desk, line=AnswerLine(text))


def listed(desk: Desk, word: str) -> tuple[Desk, tuple[Effect, ...]]:
    """An entry of the list chosen by its number."""
    words = [one for one, _ in everything.items(desk)]
    place = words.index(word)
    opened = replace(open_list(desk)[0], offset=place - place % 9)
    return everything.choose(keyed(opened, str(place % 9 + 1)))


def test_back_leads_to_the_first_question_and_no_further(desk: Desk) -> None:
    assert desk.walk is not None
    asked = desk.walk.keys
    for key in reversed(asked[:-1]):
        desk, _ = previous(desk)
        assert desk.step is not None and desk.step.key == key and desk.page == "step"
    stays, effects = previous(desk)
    assert (stays.at, stays.message, effects) == (asked[0], "this is the first question", ())


def test_forward_leads_to_the_open_question_and_no_further(desk: Desk) -> None:
    assert desk.walk is not None
    asked, here = desk.walk.keys, show(desk, desk.walk.keys[0])[0]
    for key in asked[1:]:
        here, _ = following(here)
        assert here.step is not None and here.step.key == key
    assert here.at == ""
    assert following(here)[0].message == "this is the first open question"
    usual = desk.walk.optional[0].key
    assert forward_question(show(desk, usual)[0])[0].at == ""
    assert forward_question(replace(desk, walk=None, at="x"))[0].message == "this is the first open question"


def test_a_page_over_another_is_taken_off_again(desk: Desk) -> None:
    assert desk.walk is not None
    first = show(desk, desk.walk.keys[0])[0]
    over = listed(first, "why")[0]
    assert (over.page, over.trail, over.at) == ("why", ("step",), first.at)
    assert (over.scroll, over.offset, over.line.text) == (0, 0, "")
    further = following(replace(over, rows=24))[0]
    assert further.scroll == 12
    under = previous(further)[0]
    assert (under.page, under.trail, under.at, under.scroll) == ("step", (), first.at, 0)


@pytest.mark.parametrize(("rows", "lines"), [(24, 12), (25, 12), (2, 1), (1, 1)])
def test_long_pages_move_by_half_a_window(desk: Desk, rows: int, lines: int) -> None:
    for page in ("why", "keys", "sheet", "jobs", "account", "damage"):
        moved = following(replace(desk, page=page, rows=rows, scroll=5))[0]
        assert (moved.page, moved.scroll) == (page, 5 + lines)
        up = previous(replace(desk, page=page, trail=(), rows=rows, scroll=5))[0]
        assert up.scroll == 4
        assert previous(replace(desk, page=page, trail=(), scroll=0))[0].scroll == 0
    other = following(replace(desk, page="replacing", rows=24, scroll=0))[0]
    assert other.scroll == 8


def test_a_list_is_opened_once_and_read_nine_at_a_time(desk: Desk) -> None:
    opened = open_list(desk)[0]
    assert (opened.page, opened.trail) == ("list", ("step",))
    for page in ("list", "pick", "damage"):
        there = replace(opened, page=page)
        assert open_list(there) == (there, ())
    count = len(everything.items(opened))
    assert 9 < count <= 18
    second = following(opened)[0]
    assert second.offset == 9 and following(second)[0].offset == 0
    picks = tuple((str(n), str(n)) for n in range(18))
    picking = replace(desk, page="pick", picks=picks)
    assert following(picking)[0].offset == 9
    assert following(replace(picking, offset=9))[0].offset == 0
    assert following(replace(picking, picks=picks[:9]))[0].offset == 0


def test_what_each_entry_does(desk: Desk) -> None:
    for word, page in (("why", "why"), ("keys", "keys"), ("sheet", "sheet")):
        found, effects = listed(desk, word)
        assert (found.page, found.trail, effects) == (page, ("step",), ())
    for word, effect in (("jobs", Close()), ("copy", SaveCopy()), ("print", WriteSheet())):
        found, effects = listed(desk, word)
        assert (found.page, found.message, effects) == ("step", "", (effect,))
    left, effects = listed(desk, "leave")
    assert left.page == "left" and effects == (Leave(0, f"saved: {desk.file}"),)
    for word, field in (("night", "night"), ("bell", "bell")):
        turned = listed(desk, word)[0]
        assert getattr(turned, field) is not getattr(desk, field)
        assert getattr(listed(turned, word)[0], field) is getattr(desk, field)
    note = listed(desk, "note")[0]
    assert (note.page, note.at, note.trail) == ("text", keys.NOTE, ())
    series = listed(desk, "series")[0]
    assert series.pace.series_until == desk.now + 30.0 and series.message.startswith("Send the stored")


def test_the_lists_to_pick_from(desk: Desk) -> None:
    assert desk.walk is not None
    usual = listed(desk, "usual")[0]
    assert usual.page == "pick" and [key for key, _ in usual.picks] == [s.key for s in desk.walk.optional]
    assert all(len(words) <= 44 + 2 + 40 and ": " in words for _, words in usual.picks)
    chosen, _ = everything.pick(keyed(usual, "1"))
    assert chosen.at == usual.picks[0][0] and (chosen.picks, chosen.line.text) == ((), "")
    replacing = listed(desk, "replace")[0]
    asked = [step.key for step, _ in desk.walk.shown if not step.optional]
    assert [key for key, _ in replacing.picks] == asked[::-1]
    for nowhere in ("0", "99", "x", ""):
        said = everything.pick(keyed(replacing, nowhere))[0]
        assert said.message == f"there is no entry {nowhere}" and said.page == "pick"
        assert everything.choose(keyed(open_list(desk)[0], nowhere))[0].message.startswith(
            "there is no entry"
        )
    second = replace(usual, offset=9)
    assert everything.pick(keyed(second, "1"))[0].at == usual.picks[9][0]


def test_what_is_offered_where(desk: Desk) -> None:
    here = {word for word, _ in everything.items(desk)}
    assert {"why", "usual", "replace", "note", "undo", "series", "leave"} <= here and "spoiled" not in here
    looking = {word for word, _ in everything.items(replace(desk, writable=False))}
    assert here - looking == {"replace", "usual", "note", "undo"}
    assert "series" not in {word for word, _ in everything.items(replace(desk, by_lines=True))}
    assert desk.walk is not None
    finished = replace(desk, walk=replace(desk.walk, open=None))
    assert here - {word for word, _ in everything.items(finished)} == {"why", "series"}
    jobs = replace(desk, job=None, page="jobs")
    assert [word for word, _ in everything.items(jobs)] == ["stage", "sample", "keys", "night", "leave"]
    assert listed(jobs, "sample")[1] == (Sample(),)
    stages = listed(jobs, "stage")[0]
    assert [word for word, _ in stages.picks] == ["", "measure", "size", "cut", "verify", "finished"]
    only = everything.pick(keyed(stages, "3"))[0]
    assert (only.page, only.stage_only, only.scroll, only.trail) == ("jobs", "size", 0, ())


def test_the_last_answer_is_taken_back(desk: Desk) -> None:
    assert desk.job is not None
    last = desk.job.answers[-1]
    taken, effects = listed(desk, "undo")
    undo = Append(last.key, last.word, kind="undo", of=last.number)
    assert effects == (undo,) and taken.pending == undo and taken.then == () and taken.at == ""


def test_a_save_that_is_refused_drops_what_was_to_follow(desk: Desk) -> None:
    """Nothing that was queued behind it is written later, and what was typed stays."""
    first, later = Append("a", "1"), Append("b", "2")
    waiting = replace(keyed(desk, "145"), pending=first, then=(later,))
    told, effects = update(waiting, Token("refused", "Not saved: no room.", at=desk.now))
    assert (told.pending, told.then, effects) == (None, (), ())
    assert (told.line.text, told.message, told.alarm, told.jammed) == ("145", "Not saved: no room.", True, "")
    jam = update(waiting, Token("refused", "The folder is gone.", at=desk.now, numbers=(1,)))[0]
    assert jam.jammed == "The folder is gone."
    mark = replace(waiting, pending=Append(keys.SITTING, "work", kind="mark"))
    assert update(mark, Token("refused", "Not saved.", at=desk.now))[0].page == "account"


def test_what_was_queued_is_saved_one_after_the_other(desk: Desk) -> None:
    first, *later = (Append(keys.NOTE, str(n), kind="note") for n in range(3))
    waiting = replace(desk, pending=first, then=tuple(later))
    saved = Token("saved", numbers=(90,), at=desk.now, wall=desk.wall)
    second, effects = update(waiting, saved)
    assert effects == (later[0],) and (second.pending, second.then) == (later[0], (later[1],))
    third, effects = update(second, replace(saved, numbers=(91,)))
    assert effects == (later[1],) and third.then == ()
    assert [entry.n for entry in third.entries[-2:]] == [90, 91]
    nothing = replace(desk, pending=None)
    assert update(nothing, saved) == (replace(nothing, now=saved.at), ())


def test_the_value_of_a_step_on_the_lists(desk: Desk) -> None:
    assert desk.walk is not None
    step, answer = desk.walk.shown[0]
    assert everything.current(desk, step.key) == answer.word
    assumed = desk.walk.assumed
    usual = next(one for one in assumed if one.usual)
    assert everything.current(desk, usual.key) == f"{usual.usual} (assumed)"
    assert everything.current(desk, "no such step") == "-"
    assert everything.current(replace(desk, walk=None), step.key) == "-"


FINDINGS = tuple(
    Finding(of=n, state="changed", line=n, words=f"line {n}", mark=f"mark {n}", entry=None) for n in (3, 5)
)


def test_findings_are_accepted_one_by_one_where_the_file_can_be_written(desk: Desk) -> None:
    gate = replace(desk, page="damage", findings=FINDINGS, job=None, walk=None, sitting=False)
    first, effects = update(keyed(gate, "1"), enter(gate))
    confirms = [Append("", f"mark {n}", kind="confirm", of=n) for n in (3, 5)]
    assert effects == (confirms[0],) and (first.pending, first.then) == (confirms[0], (confirms[1],))
    second, effects = update(first, Token("saved", numbers=(9,), at=first.now, wall=first.wall))
    assert effects == (confirms[1],) and second.then == ()
    last, effects = update(second, Token("saved", numbers=(10,), at=first.now, wall=first.wall))
    assert last.findings == () and effects == (Reload(),)
    only_read = replace(keyed(gate, "1"), writable=False)
    said, effects = update(only_read, enter(gate))
    assert effects == () and said.findings == FINDINGS and "can only be read" in said.message
    assert update(keyed(gate, "2"), enter(gate))[1] == (Close(),)
    assert update(keyed(gate, "3"), enter(gate))[0].message == "there is no choice 3"


def enter(desk: Desk) -> Token:
    """Enter, well after the last key."""
    return Token("key", "enter", at=desk.now + 2.0, wall=desk.wall, boot=desk.now + 2.0)


BEGAN = "2026-03-02T09:00:00Z"


def holding(desk: Desk, seconds: float) -> Desk:
    """A hold of ten minutes that began so long ago."""
    step = Step(
        key="cased_result",
        stage="verify",
        kind="result",
        title="What came of it?",
        choices=(Choice("pass", "passed"), Choice("fail", "failed")),
        opens_after=(BEGAN, 600.0),
        ran_since=BEGAN,
    )
    assert desk.walk is not None
    started = begun(replace(desk, walk=replace(desk.walk, open=step), at=""), BEGAN)
    return replace(started, now=started.now + seconds)


@pytest.mark.parametrize(("seconds", "rings"), [(0.0, False), (571.0, False), (599.9, False), (600.0, True)])
def test_the_bell_rings_when_the_hold_is_over_and_once(desk: Desk, seconds: float, rings: bool) -> None:
    held = holding(desk, seconds)
    assert held.step is not None and seconds_left(held, held.step) == pytest.approx(600.0 - seconds)
    tick = Token("tick", at=held.now, wall=held.wall)
    after, effects = update(held, tick)
    assert effects == ((Bell(),) if rings else ())
    assert (after.message == "The time is over.") == rings
    assert update(after, tick)[1] == ()
    quiet, effects = update(replace(held, bell=False), tick)
    assert effects == () and (quiet.message == "The time is over.") == rings


def test_how_long_a_hold_ran_is_rounded_down(desk: Desk) -> None:
    for seconds, words in (
        (0.0, "ran 0.0 min"),
        (59.9, "ran 0.9 min"),
        (60.0, "ran 1.0 min"),
        (605.9, "ran 10.0 min"),
    ):
        held = holding(desk, seconds)
        assert held.step is not None and ran_words(held, held.step) == (words,)
    assert desk.step is not None and ran_words(desk, desk.step) == ()


def test_a_finished_job_opens_on_its_sheet_at_the_top(desk: Desk, tmp_path: Path) -> None:
    from bench.desk.arrivals import arrive

    assert desk.walk is not None
    finished = replace(desk, walk=replace(desk.walk, open=None), scroll=7)
    sheet, effects = arrive(finished)
    assert (sheet.page, sheet.trail, sheet.scroll, effects) == ("sheet", ("account",), 0, ())

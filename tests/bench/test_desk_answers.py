"""Answers at the desk: accepted, refused, thrown away, free text; the account and the list of jobs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from bench.desk import jobs_page
from bench.desk.answering import accept, mask_of
from bench.desk.desk import Desk
from bench.desk.effects import Append, Close, Effect, Glance, JobRow, Open, Start
from bench.desk.everything import saved_words, title_of
from bench.desk.foreseen import with_word
from bench.desk.token import Token
from bench.desk.typed import AnswerLine
from bench.desk.update import account, on_key, text_key, typed
from bench.job import keys
from bench.job.mask import Mask
from bench.job.steps import Choice, Step
from bench.moments import utc_text
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
    """The desk on the open step, painted a while ago, nothing keyed."""
    here = keying.desk
    return replace(here, painted=here.asked, painted_at=here.now - 9.0)


def asked(desk: Desk, **fields: object) -> Desk:
    """The desk with another step open."""
    plain = {"key": "ring_height", "stage": "verify", "kind": "number", "title": "Which?"}
    step = Step(**(plain | fields))  # type: ignore[arg-type]
    assert desk.walk is not None
    changed = replace(desk, walk=replace(desk.walk, open=step), at="")
    return replace(changed, painted=changed.asked)


def answered(desk: Desk, text: str) -> tuple[Desk, tuple[Effect, ...]]:
    """Enter with this in the line."""
    return accept(replace(desk, line=AnswerLine(text)))


HEIGHT = Mask(1, 2, "mm", 0.5, 4.0)


def test_nothing_is_accepted_from_an_empty_line_or_where_nothing_is_asked(desk: Desk) -> None:
    assert accept(replace(desk, line=AnswerLine())) == (replace(desk, line=AnswerLine()), ())
    assert desk.walk is not None
    done = replace(desk, walk=replace(desk.walk, open=None), line=AnswerLine("1"), at="")
    assert accept(done) == (done, ())


def test_a_number_is_taken_whole_or_refused_in_words(desk: Desk) -> None:
    here = asked(desk, mask=HEIGHT)
    taken, effects = answered(here, "121")
    assert effects == (Append("ring_height", "1.21 mm"),) and taken.pending == effects[0]
    assert (taken.line.text, taken.message, taken.then) == ("121", "", ())
    for text, words in (("12", "2 digits where 3 are asked"), ("405", "4.05"), ("049", "0.49")):
        said, effects = answered(here, text)
        assert effects == () and words in said.message and said.line.text == ""
    doubted = asked(desk, mask=Mask(2, 2, "mm", 4.0, 80.0), asked_of=("32.14 mm", "5 min"))
    kept, effects = answered(doubted, "2314")
    assert effects == (Append("ring_height", "23.14 mm"),)
    assert kept.message == "looks like the earlier reading with two digits swapped"
    out = asked(desk, mask=HEIGHT, asked_of=("0.41 mm",))
    assert "looks like ten times the earlier reading" in answered(out, "410")[0].message


def test_a_usual_number_is_taken_by_one(desk: Desk) -> None:
    here = asked(desk, mask=HEIGHT, usual="1.30 mm")
    assert answered(here, "1")[1] == (Append("ring_height", "1.30 mm"),)
    assert answered(asked(desk, mask=HEIGHT), "1")[1] == ()


@pytest.mark.parametrize(
    ("passed", "due"), [(0.0, "1 min 30 s"), (29.5, "1 min 1 s"), (89.0, "1 s"), (90.0, "")]
)
def test_a_reading_is_not_taken_before_its_time(desk: Desk, passed: float, due: str) -> None:
    began = "2026-03-02T09:00:00Z"
    here = asked(desk, mask=HEIGHT, opens_after=(began, 90.0))
    here = replace(here, holds={(here.file, began): here.now - passed})
    said, effects = answered(here, "121")
    assert bool(effects) == (not due)
    assert said.message == (f"This reading is due in {due}." if due else "")


def test_a_choice_is_taken_by_its_number_on_its_page(desk: Desk) -> None:
    choices = tuple(Choice(f"word{n}", f"Text {n}") for n in range(12))
    here = asked(desk, kind="choice", choices=choices)
    assert answered(here, "3")[1] == (Append("ring_height", "word2"),)
    assert answered(replace(here, offset=9), "3")[1] == (Append("ring_height", "word11"),)
    for text, offset in (("0", 0), ("4", 9), ("x", 0)):
        said, effects = answered(replace(here, offset=offset), text)
        assert (said.message, effects) == (f"there is no choice {text}", ())
    leads = asked(desk, kind="choice", choices=(Choice("later", "leave it", goto="jobs"),))
    assert answered(leads, "1")[1] == (Close(),)
    with_more = asked(desk, kind="choice", choices=(Choice("yes", "Yes", with_it=("2.0 bar",), stamp=True),))
    stamp = utc_text(desk.wall)
    assert answered(with_more, "1")[1] == (Append("ring_height", ("yes", stamp, "2.0 bar")),)


def test_a_hold_is_begun_at_the_moment_that_is_written(desk: Desk) -> None:
    start = Choice("start", "start", with_it=("10 min",), stamp=True)
    here = asked(desk, kind="timer", choices=(start,), keyed_minutes=True, hold_s=600.0)
    started, effects = answered(here, "1")
    stamp = utc_text(desk.wall)
    assert effects == (Append("ring_height", ("start", stamp, "10 min")),)
    assert started.holds == {**desk.holds, (desk.file, stamp): desk.now}
    assert mask_of(here.step or Step("", "", "", "")) is None
    hasty = replace(here, hasty=True)
    assert hasty.step is not None and mask_of(hasty.step, hasty=True) == Mask(3, 0, "min")
    assert answered(hasty, "12")[1] == (Append("ring_height", ("keyed", stamp, "12 min")),)
    assert answered(hasty, "1")[1] == effects
    assert answered(hasty, "2")[1] == (Append("ring_height", ("keyed", stamp, "2 min")),)
    for text in ("0", "1000"):
        assert answered(hasty, text)[0].message == "key the minutes held, 2 to 999, or 1 to start the clock"


def test_a_check_is_read_off_before_it_is_keyed(desk: Desk) -> None:
    """Not sooner than a second after it stood there; the number dealt to a state is what counts."""
    states = tuple(Choice(word, f"it is {word}") for word in ("clear", "near", "open"))
    here = asked(desk, kind="safety", choices=states, rests_on=("cased_slip",), decided=("at 2 bar",))
    here = replace(here, dealt=(2, 0, 1))
    here = replace(here, painted=here.asked, painted_at=here.now - 1.0)
    assert answered(here, "2")[1] == (Append("ring_height", ("right", "clear", "at 2 bar")),)
    wrong, effects = answered(here, "1")
    assert effects == (Append("cased_slip", ("wrong", "ring_height", "open")),)
    assert wrong.alarm and wrong.dealt == () and "Put it right" in wrong.message
    for text in ("0", "4", "x"):
        assert answered(here, text)[0].message == f"there is no choice {text}"
    quick = replace(here, painted_at=here.now - 0.99)
    assert answered(quick, "2")[0].message == "too quick to have been read: look, then key it"
    assert answered(replace(here, painted=()), "2")[1] == ()
    assert answered(replace(quick, hasty=True), "2")[1] != ()


@pytest.mark.parametrize(
    ("text", "right", "words"),
    [
        ("480", True, ""),
        ("470", True, ""),
        ("490", True, ""),
        ("469", False, "469 is slow"),
        ("491", False, "491 is fast"),
    ],
)
def test_a_number_read_back_lies_near_enough(desk: Desk, text: str, right: bool, words: str) -> None:
    wrong = ("{given} is slow", "{given} is fast")
    here = asked(desk, kind="safety", readback=480, readback_within=10, wrong=wrong)
    said, effects = answered(here, text)
    slip = Append(keys.CHECK_SLIP, ("wrong", "ring_height", f"read {text}"))
    assert effects == ((Append("ring_height", ("right", f"read {text}")),) if right else (slip,))
    assert said.message == words
    assert here.step is not None and mask_of(here.step) == Mask(3, 0, "")


def typing(desk: Desk, *marks: str) -> Desk:
    """The desk after some keys of free text."""
    for mark in marks:
        raw = mark if len(mark) == 1 else ""
        desk = text_key(desk, Token("key", mark, raw=raw))[0]
    return desk


def test_free_text_is_kept_on_enter_alone(desk: Desk) -> None:
    here = replace(desk, page="text", at=keys.NOTE, line=AnswerLine())
    written = typing(here, *"two  words ", "1", "/")
    assert written.line.text == "two  words 1/"
    assert typing(written, "back").line.text == "two  words 1"
    kept, effects = text_key(written, Token("key", "enter"))
    assert effects == (Append(keys.NOTE, "two words 1/", kind="note"),) and kept.at == ""
    empty, effects = text_key(here, Token("key", "enter"))
    assert (empty.page, empty.at, effects) == ("step", "", ()), "Enter on nothing leaves, as on a keypad"
    watch = replace(written, at="watch")
    assert text_key(watch, Token("key", "enter"))[1] == (Append("watch", "two words 1/"),)
    left = text_key(written, Token("key", "previous"))[0]
    assert (left.page, left.at, left.line.text, left.trail) == ("step", "", "", ())
    full = replace(here, line=AnswerLine("x" * 199))
    assert len(typing(full, "a", "b", "c").line.text) == 200


def test_the_account_leads_on_to_the_sheet_or_to_the_jobs(desk: Desk) -> None:
    here = replace(desk, page="account", sitting=False)

    def keyed(desk: Desk, text: str) -> tuple[Desk, tuple[Effect, ...]]:
        return account(replace(desk, line=AnswerLine(text)))

    began, effects = keyed(here, "1")
    assert effects == (Append(keys.SITTING, "work", kind="mark"),) and began.page == "step"
    for there in (replace(here, writable=False), replace(here, walk=replace(here.walk, open=None))):  # type: ignore[type-var]
        sheet, effects = keyed(there, "1")
        assert (sheet.page, sheet.trail, sheet.line.text, effects) == ("customer", ("account",), "", ())
    assert keyed(here, "2")[0].page == "sheet"
    assert keyed(here, "3")[1] == (Close(),)
    assert keyed(here, "4")[0].message == "there is no choice 4"


def test_keys_on_a_step_build_the_line_or_say_why_not(desk: Desk) -> None:
    here = asked(desk, mask=HEIGHT)
    one = typed(here, "1")[0]
    assert (one.line.text, one.line_before.text, one.message, one.alarm) == ("1", "", "", False)
    for move in ("previous", "next", "list"):
        said = on_key(one, Token("key", move, at=one.now + 9.0, wall=one.wall, boot=one.now + 9.0))[0]
        assert said.message == "finish the answer with Enter or clear it with - first"
    pasted = typed(here, "paste:1.21")[0]
    assert pasted.line == AnswerLine("1.21")
    choice = asked(desk, kind="choice", choices=(Choice("a", "A"),))
    assert typed(choice, "paste:1")[0].line.void == "a paste belongs in a number only: key the choice"


def test_words_of_a_value_keep_the_last_in_its_place() -> None:
    assert with_word("a", "now") == ("a", "now")
    assert with_word(("a", "b"), "now") == ("a", "b", "now")
    assert with_word(("a", "b", "last"), "now") == ("a", "b", "now", "last")


def test_titles_and_where_the_job_is_kept(desk: Desk) -> None:
    assert title_of("x" * 44) == "x" * 44 and title_of("x" * 45) == "x" * 42 + ".."
    assert saved_words(desk) == f"saved: {desk.file}" and saved_words(replace(desk, file="")) == ""


NAMES = ("00221-mender.toml", "00214-clerk.toml", "00022-pilot.toml", "00007.toml")


def jobs(text: str = "", **fields: object) -> Desk:
    """The list of four jobs with digits keyed."""
    before = Desk()
    here = replace(before, names=NAMES, line=AnswerLine(text), **fields)  # type: ignore[arg-type]
    return jobs_page.fitted(here, before)


def test_digits_narrow_the_list_and_enter_opens_the_one_that_fits() -> None:
    assert jobs().fits == NAMES and jobs("0").fits == NAMES
    assert jobs("2").fits == NAMES[:3] and jobs("22").fits == (NAMES[0], NAMES[2]) and jobs("9").fits == ()
    assert jobs_page.choose(jobs("21"))[1] == (Open("00214-clerk.toml"),)
    assert jobs_page.choose(jobs("22"))[1] == (Open("00022-pilot.toml"),)
    assert jobs_page.choose(jobs("2"))[0].message == "3 jobs begin with 2: key more digits"
    none, effects = jobs_page.choose(jobs("9"))
    assert (none.wanted, none.message, effects) == ("9", "There is no job 9. 0 Enter starts it.", ())
    begun, effects = jobs_page.choose(replace(jobs("0"), wanted="9"))
    assert effects == (Start("9"),) and begun.wanted == ""
    assert [jobs_page.number_in(name) for name in (*NAMES, "000-x")] == ["221", "214", "22", "7", "000"]


def test_what_no_job_is_found_by_is_not_taken() -> None:
    line = AnswerLine("22")
    assert jobs_page.type_number(line, "1").text == "221"
    assert jobs_page.type_number(line, "back").text == "2"
    for text, void in (
        ("navigation", "NumLock is off: press NumLock, then key it again"),
        ("char:%", "a job is found by its number, a size or words of its watch"),
        ("paste:22", "a job is found by its number, a size or words of its watch"),
    ):
        assert jobs_page.type_number(line, text).void == void
    for move in ("enter", "previous", "next", "list"):
        assert jobs_page.type_number(line, move) == line
    longest = AnswerLine("1" * jobs_page.LONGEST_NUMBER)
    assert jobs_page.type_number(longest, "1").void == "the number is too long"
    thrown = AnswerLine(void="no")
    assert jobs_page.type_number(thrown, "1") == thrown
    assert jobs_page.type_number(thrown, "back") == jobs_page.type_number(thrown, "enter") == AnswerLine()


def test_jobs_of_one_stage_are_looked_into_and_kept() -> None:
    rows = {name: JobRow(number="", file=name, stage="size") for name in NAMES[:2]}
    rows[NAMES[2]] = JobRow(number="", file=NAMES[2], stage="verify", finished=True)
    here = jobs(known=rows, stage_only="size")
    assert here.fits == NAMES[:2] and jobs("22", known=rows, stage_only="size").fits == (NAMES[0],)
    assert jobs(known=rows, stage_only="finished").fits == (NAMES[2],)
    assert jobs_page.looked_into(here) == 3 and jobs_page.still_looking(here)
    assert jobs_page.unknown(here) == (Glance((NAMES[3],)),)
    every = jobs(known=rows | {NAMES[3]: JobRow(number="", file=NAMES[3])}, stage_only="size")
    assert not jobs_page.still_looking(every) and jobs_page.unknown(every) == ()
    assert jobs_page.unknown(jobs(rows=9)) == (Glance(NAMES[:2]),)
    assert jobs_page.unknown(jobs(rows=5)) == (Glance(NAMES[:1]),)
    further = replace(jobs(rows=9), scroll=2)
    assert jobs_page.unknown(further) == (Glance(NAMES[2:]),)
    assert jobs_page.unknown(replace(further, page="step")) == ()
    told, _ = jobs_page.glanced(here, (JobRow(number="7", file=NAMES[3], stage="size"),))
    assert told.known == rows | {NAMES[3]: JobRow(number="7", file=NAMES[3], stage="size")}
    again = jobs_page.fitted(replace(told, scroll=3), here)
    assert again.fits == (*NAMES[:2], NAMES[3]) and again.scroll == 3
    assert jobs_page.fitted(replace(again, line=AnswerLine("2")), again).scroll == 0

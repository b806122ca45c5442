"""The parts of a job by themselves, with values worked out by hand: words kept with an answer, numbers, times,
staleness, results keyed over, where a job stands, what stops counting.
"""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import asdict, replace
from datetime import UTC, datetime

import pytest

from bench.file.entry import Accepted, Entry, Head
from bench.job import corrections, endings, in_drawer, kept, keys, learned, remembered, statement
from bench.job.as_keyed import as_keyed, read_since
from bench.job.begun import Beginnings, is_attempt, is_spoiled, of_kind
from bench.job.corrections import Course, Over
from bench.job.drawer_said import BARS, RINGS, bar_words, drawer_words, ring_words, why_not
from bench.job.in_drawer import BarLeft, Drawer, InDrawer, Lying
from bench.job.in_words import moment
from bench.job.job import Answer, Job, newest_of, replay, undone, words_of
from bench.job.kept import Misfit
from bench.job.mask import Mask
from bench.job.number import Refusal, TypedNumber, read_number
from bench.job.of_each_seal import KnownSeal, as_data, known_seals, new_ones, others_of
from bench.job.other_jobs import like_number, linked_number
from bench.job.past import PastRing, from_json, to_json
from bench.job.read_by import as_held, instrument_of, mask_of, read_with
from bench.job.reading_back import read_back, reads
from bench.job.renewed import in_order, listed, named, renewed_in_search, seals_of, word_of
from bench.job.route import ASSUMED, Walk, assumed_for, given, hidden, walk_route
from bench.job.standing import OVER, Standing, last_said, said_in, standing_of
from bench.job.steps import Choice, ReadBy, Step, Target, Words
from bench.job.stopping import counted, series, stops_counting
from bench.job.values import figure, figure_if, mask_for, number, several
from bench.job.values import named as figure_named, named_text
from bench.job.when import believed, longest_run
from rules.instrument import Instrument
from rules.learning.landing import Lands
from rules.learning.repeating import Repeating
from rules.lengths import speaking
from rules.tables import plastics

HEAD = Head(format=1, id="00000000", job="84", made_by="test")
AT = "2026-03-02T10:00:00+01:00"


def answers(*lines: str, first: int = 1) -> tuple[Answer, ...]:
    """Answers `key word|words`, numbered."""
    parts = (line.partition(" ") for line in lines)
    return tuple(Answer(n, AT, key, tuple(text.split("|"))) for n, (key, _, text) in enumerate(parts, first))


def entry(n: int, line: str, *, at: str = AT, of: int | None = None, accepted: Accepted | None = None) -> Entry:
    """`key word|words`; a mark begins with @, a note with #, an undo or a confirm with its name."""
    kind = {"@": "mark", "#": "note", "undo": "undo", "confirm": "confirm"}.get(line.split(" ")[0], "answer")
    key, _, text = (line if kind == "answer" else line.partition(" ")[2]).partition(" ")
    value = tuple(text.split("|")) if "|" in text else text
    return Entry(n=n, at=at, kind=kind, key=key, value=value, of=of, accepted=accepted)


def job_of(*lines: str) -> Job:
    """The job of these entries."""
    return replay(HEAD, [entry(n, line) for n, line in enumerate(lines, 1)])


def test_every_key_is_its_name_in_small_letters() -> None:
    """A key of the session file is never renamed; one that is not its name is written out."""
    plain = (
        "SITTING ATTEMPT LEARNED JOINED LOOKED_IN NOTE SHOP_NOTE WATCH REMARK PAPERS_IN PAINT PAINT_GO SEAL BENCH "
        "HOLD NOT_THIS_RING SEAT_WAY CASE_BORE PLUG_ENTERS PLUG_STAYS_OUT PLUG_STAYS_OUT_AGAIN GLASS_WAY GLASS "
        "SEAT_DEPTH SEAT_DEPTH_AGAIN GLASS_EDGE TEMPERATURE OLD_RING DIAL_RING MEASURE_AGAIN OLD_WALL OLD_HEIGHT "
        "GLASS_ORDER GLASS_WANTED GLASS_COMES GLASS_DIFFERS PLASTIC CASE_METAL CASE_WALL CASE_HEIGHT RING_OFFSET "
        "FRICTION GLASS_MATERIAL GLASS_THICKNESS GLASS_AGAINST_OLD ACRYLIC_ANYWAY LATHE TOOL_SET BAR BAR_MEASURED "
        "BAR_BORE SPARES SPARE_WALL BORE_WANTED OUTSIDE_WANTED HEIGHT_WANTED AT_HAND HAND_WALL HAND_HEIGHT HAND_SEAT "
        "NO_RING RING CANNOT_TURN LATHE_HANDS LATHE_EYES LATHE_KEY LATHE_BAR LATHE_SPEED LATHE_SLIP TOUCH_OFF "
        "TOOL_AGAIN TOOL_BORING TOOL_BORING_AGAIN TOOL_CORE TOOL_TURNING TOOL_CHAMFER TOOL_PARTING OUTSIDE_READING "
        "WALL_READING PAST_OUTSIDE PAST_BORE FRESH_RING SPOILED CHECK_SLIP WALL RING_HEIGHT DRESS_LOWER OFF_BAND "
        "TOO_HIGH FIT_READY FIT_SLIP FIT_OUTCOME FIT_CAUSE LEAK_CAUSE REMAKE MARKING MARKING_KEYED RENEWED "
        "FIT_CORRECTION HAND_BACK"
    ).split()
    assert {name: getattr(keys, name) for name in plain} == {name: name.lower() for name in plain}
    assert sorted(plain) == sorted(name for name, value in vars(keys).items() if name.isupper() and value == name.lower())
    of_a_sitting = (
        "method pressure check slip minutes temperature hold throughout volume volume_exact gauge_step signal vented "
        "vented_by result unclear found correction"
    ).split()
    for one, name, title in ((keys.EMPTY, "empty", "empty case"), (keys.CASED, "cased", "cased watch")):
        assert {what: getattr(one, what) for what in of_a_sitting} == {what: f"{name}_{what}" for what in of_a_sitting}
        assert (one.title, one.heading, one.what(f"{name}_hold")) == (title, title.capitalize(), "hold")
    assert keys.SITTINGS == (keys.EMPTY, keys.CASED) == tuple(keys.BY_NAME[one] for one in ("empty", "cased"))


def test_keys_made_from_keys() -> None:
    made = (
        keys.nth("wall", 3), keys.slip_of("lathe"), keys.asked_in_search("back"), keys.each("wall"),
        *(keys.taken_again("wall_reading", n) for n in (1, 2, 3)), keys.last("bore"), keys.more("bore", 2),
        keys.odd("bore"), keys.late("height_wanted"), keys.afresh("bore"), keys.spare(2),
    )  # fmt: skip
    assert made == (
        "wall_3", "lathe_slip", "hunt_back", "wall_each", "wall_reading", "second_wall_reading", "third_wall_reading",
        "last_bore", "more_bore_2", "odd_bore", "height_wanted_late", "bore_afresh", "spare_2",
    )  # fmt: skip
    assert keys.is_slip("fit_slip") and not keys.is_slip("slip_fit")
    pattern = keys.readings_of("wall", "glass")
    assert [bool(pattern.fullmatch(one)) for one in ("wall", "wall_12", "glass_1", "wall_x", "old_wall", "wall_1_2")] == [
        True, True, True, False, False, False,
    ]  # fmt: skip
    numbers = [keys.spare_number(one) for one in ("spare_2", "spare_13_from_4", "spare", "spare_2_x", "spares")]
    assert numbers == [2, 13, None, None, None]
    assert of_kind("lid") == Beginnings("lid_attempt", "lid_spoiled", "lid_measure_again")
    assert Beginnings() == Beginnings("attempt", "spoiled", "measure_again")
    assert is_attempt("attempt") and is_attempt("lid_attempt") and not is_attempt("attempt_2")
    assert is_spoiled("spoiled") and is_spoiled("lid_spoiled") and not is_spoiled("spoiled_lid")


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("outside 32,04", "outside 32.04 mm"), ("Bore 31.5 MM", "bore 31.5 mm"), ("wall .5 mm", "wall .5 mm"),
        ("seat_n 4", "seat_n 4"), ("squeeze -1.5", "squeeze -1.5 %"), ("plastic  PTFE white", "plastic PTFE white"),
        ("walls 0.61 0,62", "walls 0.61 0.62 mm"), ("walls 0.61  0.62 MM", "walls 0.61 0.62 mm"),
        ("decision Does not", "decision does_not"), ("timed KEYED", "timed keyed"), ("held Unknown", "held unknown"),
        ("temperature 21 °C", "temperature 21 C"), ("leak 12 µg/min", "leak 12 ug/min"), ("leak_high unknown", "leak_high unknown"),
        ("rpm 1200", "rpm 1200"), ("ran 9.5", "ran 9.5 min"), ("said each", "said each"), ("load 4", "load 4 N"),
        ("presses_low 2", "presses_low 2 MPa"), ("pressure 3", "pressure 3 bar"), ("lies FLAT", "lies flat"),
        ("cork 3", None), ("", None),
    ],
)  # fmt: skip
def test_a_word_with_a_name_is_taken_as_it_is_meant(text: str, meant: str | None) -> None:
    assert kept.named_word(text) == meant


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("outside 32.04 in", "outside with a number in mm"), ("outside", "outside with a number in mm"),
        ("seat_n 4.5", "seat_n with a whole number"), ("seat_n 1234567", "seat_n with a whole number"),
        ("plastic", "plastic with some words"), ("walls 0.61 thick", "walls with numbers in mm"),
        ("walls 1", "walls with numbers in mm"), ("bore unknown", "bore with a number in mm"),
        ("timed nobody", "timed with one of these words: program, keyed, asked, tester, hurried"),
        ("leak_decision passed", "leak_decision with one of these words: PASS, FAIL, UNDECIDED, NOT_JUDGED"),
        ("temperature 21 F", "temperature with a number in C"),
    ],
)  # fmt: skip
def test_a_word_that_is_not_certain_is_refused(text: str, why: str) -> None:
    with pytest.raises(Misfit) as refused:
        kept.named_word(text)
    assert str(refused.value) == why


def test_words_and_figures_without_what_may_be_written_otherwise() -> None:
    assert kept.folded("  Does - not_KNOW ") == "does_not_know"
    assert kept.squashed("Held 10,5 \u00a0Min_x") == "held10.5minx"
    assert kept.one_of("AS ordered", ("as_ordered", "as_ordered", "other")) == "as_ordered"
    assert kept.parted("\u22121,5 \u00b5m") == ("-1.5", "um") and kept.parted("+.5") == ("+.5", "")
    assert kept.parted("5\u00a0cm\u00b3") == ("5", "cm3") and kept.parted("x5") is None and kept.parted("5.") == ("5", ".")
    assert kept.with_unit("5", "") == "5" and kept.with_unit("5 MM", "mm") == "5 mm"
    for text, unit, why in (("5 in", "mm", "a number in mm"), ("5 x", "", "a number"), ("five", "mm", "a number in mm")):
        with pytest.raises(Misfit, match=f"^{why}$"):
            kept.with_unit(text, unit)
    for text, words, why in (("c", ("a", "b"), "one of these words: a, b"), ("a", (), "nothing by hand"), ("A", ("a", " a"), ".*a,  a")):
        with pytest.raises(Misfit, match=f"^{why}$"):
            kept.one_of(text, words)


def test_what_is_kept_with_an_answer_is_named_once_with_its_unit() -> None:
    by_unit = {
        "mm": "outside bore height chamfer lower_chamfer wall seat seat_u seat_oval glass glass_u glass_oval gap gap_u "
        "highest used_wall used_height lands lands_sd stays_wider to_20 thickness inside room_outside room_inside "
        "room_height cord inside_limit cord_limit wear groove_inner groove_outer groove_other foot foot_bore corner "
        "ledge stands_over sinks sinks_years bar offset left tighter",
        kept.COUNT: "seat_n glass_n spares tool rpm passes",
        "%": "squeeze squeeze_u squeeze_low squeeze_high chance fill likely stretch most_fill later",
        kept.TEXT: "plastic press by at_hand from bezel shut material way joint place inside_by cord_by lathe colour order "
        "read method leak_reason leak_law job",
        "MPa": "ten_years_low ten_years_high presses_low presses_high bears clamp_presses",
        kept.SEVERAL: "walls thicknesses",
        "N": "takes_low takes_high given_low given_high load",
        "bar": "pressure",
        "C": "temperature",
        "min": "held ran planned needed",
        "ug/min": "leak leak_low leak_high",
    }
    words = {
        "decision": ("fits", "does_not", "undecided"), "closes": ("stop", "all"), "lies": ("flat", "male", "female"),
        "moves": ("still", "moves"), "carries": ("foot", "wall"), "said": ("each",),
        "timed": ("program", "keyed", "asked", "tester", "hurried"),
        "leak_decision": ("PASS", "FAIL", "UNDECIDED", "NOT_JUDGED"),
    }  # fmt: skip
    assert words | {name: unit for unit, names in by_unit.items() for name in names.split()} == kept.KEPT
    assert kept.MAY_BE_UNKNOWN == {"height", "pressure", "temperature", "held", "rpm", "leak_high"}
    assert kept.TOGETHER == {
        "seat": tuple("outside bore height chamfer lower_chamfer seat seat_u seat_n glass glass_u glass_n".split()),
        "walls": ("walls", "squeeze", "squeeze_u", "decision"),
        "method": ("method", "pressure", "temperature", "held", "timed"),
        "leak": ("leak", "leak_low", "leak_high", "leak_decision"),
    }
    assert (kept.UNKNOWN, kept.SEEN_TO, kept.UNCHANGED) == ("unknown", "seen_to", "unchanged")


def test_numbers_in_words() -> None:
    words = ("ring", "bore 32.04 mm", "height unknown", "walls 0.612 0.615 mm", "offset 0.1 in")
    assert (number("2.5 mm"), number("0.5 in"), number("7")) == (2.5, 12.7, 7.0)
    assert figure_named(words, "bore") == 32.04 and figure_named(words, "offset") == pytest.approx(2.54)
    assert figure_named(words, "height") is None and figure_named(words, "cord") is None
    assert named_text(words, "walls") == "0.612 0.615 mm" and named_text(words, "ring") == "" == named_text(words, "x")
    assert several(words, "walls") == (0.612, 0.615) and several(words, "x") == ()
    assert mask_for("press force", 4, 1) == Mask(4, 1, "N", *mask_limits("press force"))
    for asked, word, value in ((figure(STEP), "2.5 mm", 2.5), (figure_if(STEP, "none"), "2.5 mm", 2.5), (figure_if(STEP, "none"), "none", None)):
        assert next(asked) == STEP
        with pytest.raises(StopIteration) as end:
            asked.send(Answer(1, AT, "x", (word,)))
        assert end.value.value == value


def mask_limits(quantity: str) -> tuple[float, float]:
    """What can be, from its home."""
    from rules.limits import RANGES

    return RANGES[quantity][:2]


STEP = Step(key="x", stage="measure", kind="number", title="X", mask=Mask(2, 2, "mm", 1.0, 50.0), usual="as chosen")


def test_a_text_over_its_mask() -> None:
    mask, whole = Mask(2, 2), Mask(3, 0, "rpm")
    assert (mask.shown, whole.shown) == ("__.__", "___")
    over = {"": "__.__", "3": "3_.__", "36": "36.__", "364": "36.4_", "3642": "36.42", "7.": "7.__", "7.5": "7.5_", "36425": "36425", "x": "x", ".": ".__"}
    assert {text: mask.over(text) for text in over} == over
    assert (whole.over("12"), whole.over("")) == ("12", "___")
    pointed = {"3642": "36.42", "364": "364", "36.4": "36.4", "36.42": "36.42", "36425": "36425"}
    assert {text: mask.pointed(text) for text in pointed} == pointed and whole.pointed("123") == "123"
    assert replace(mask, low=2.54, high=25.4).in_inch() == Mask(1, 4, "in", 0.1, 1.0)
    assert Mask(2, 3, "mm", 0.0, 2.54).in_inch(3) == Mask(1, 3, "in", 0.0, 0.1)
    assert (Mask(1, 1).unit, Mask(1, 1).low, Mask(1, 1).high) == ("mm", 0.0, math.inf)


FEWER = Mask(2, 2, "mm", 0.0, 60.0, nought=True, fewer=True)


@pytest.mark.parametrize(
    ("text", "mask", "inch", "read"),
    [
        ("0", FEWER, False, ("0.00 mm", 0.0, "")), ("36.", FEWER, False, ("36.00 mm", 36.0, "")),
        ("36", FEWER, False, ("36.00 mm", 36.0, "")), ("3.", FEWER, False, ("3.00 mm", 3.0, "")),
        (".5", FEWER, False, ("0.50 mm", 0.5, "")), ("36.5", FEWER, False, ("36.50 mm", 36.5, "")),
        ("3642", FEWER, False, ("36.42 mm", 36.42, "")), ("036.42", FEWER, False, ("36.42 mm", 36.42, "")),
        ("60.00", FEWER, False, ("60.00 mm", 60.0, "")), ("+1.25", FEWER, False, ("1.25 mm", 1.25, "")),
        ("-0.00", FEWER, False, ("0.00 mm", 0.0, "")), ("\x0236,42 mm\r\n", FEWER, False, ("36.42 mm", 36.42, "")),
        ("1.161 in", FEWER, True, ("1.161 in", 29.4894, "1.161 in = 29.489 mm")),
        ('1.16150"', FEWER, True, ("1.16150 in", 29.5021, "1.16150 in = 29.502 mm")),
        ("25.40 mm", Mask(1, 4, "in", 0.0, 3.0), False, ("25.40 mm", 1.0, "25.40 mm = 1.0000 in")),
        ("1.161 in", Mask(1, 4, "in", 0.0, 3.0), False, ("1.161 in", 1.161, "")),
        ("0120", Mask(3, 0, "rpm", 10, 500), False, ("120 rpm", 120.0, "")), ("7", Mask(2, 0, "", 1, 9), False, ("7", 7.0, "")),
    ],
)  # fmt: skip
def test_a_number_as_it_is_keyed(text: str, mask: Mask, inch: bool, read: tuple[str, float, str]) -> None:
    found = read_number(text, mask, inch=inch)
    assert isinstance(found, TypedNumber), found
    assert (found.value_text, found.converted) == (read[0], read[2]) and found.value == pytest.approx(read[1])


@pytest.mark.parametrize(
    ("text", "mask", "why"),
    [
        ("3", FEWER, "1 digit where 4 are asked: key __.__ mm, or the point as well"),
        ("360", FEWER, "3 digits where 4 are asked: key __.__ mm, or the point as well"),
        ("36.425", FEWER, "2 decimals are asked: key __.__ mm"), ("360.", FEWER, "2 decimals are asked: key __.__ mm"),
        (".", FEWER, "not understood as one number: key __.__ mm"), ("60.01", FEWER, "60.01 mm cannot be: above 60 mm; measure again"),
        ("3.4", Mask(2, 2, "mm", 3.4, 9.0), "3.4? key 3.40 if that is meant"), ("9.0", Mask(2, 2, "mm", 3.4, 9.0), "9.0? key 9.00 if that is meant"),
        ("9.1", Mask(2, 2, "mm", 3.4, 9.0), "2 decimals are asked: key __.__ mm"), ("-0.01", FEWER, "below zero: set the gauge to zero and measure again"),
        ("12 mm", Mask(3, 0, "min"), "mm typed where min is asked"), (".161 in", Mask(1, 3, "in"), "a reading in inch needs a point and 3 to 5 decimals"),
    ],
)  # fmt: skip
def test_a_number_that_does_not_fit(text: str, mask: Mask, why: str) -> None:
    assert read_number(text, mask) == Refusal(why)


def test_what_is_read_of_an_answer_changed_by_hand() -> None:
    number_step = replace(STEP, by=(ReadBy("calliper", STEP.mask or Mask(1, 1)), ReadBy("micrometer", Mask(2, 3, "mm", 1, 50))))
    choice = Step(
        key="c", stage="size", kind="choice", title="C", usual="none",
        choices=(Choice("nothing", "Nothing marked"), Choice("bar_3", "3 bar", with_it=("3 bar",)), Choice("x", "X", goto="y")),
    )  # fmt: skip
    result = Step(
        key="r", stage="verify", kind="result", title="R",
        choices=(
            Choice("pass", "pass", with_it=("method m", "held 5 min"), stamp=True),
            Choice("not_judged", "short", with_it=("leak 2 ug/min",)), Choice("not_judged", "stopped"),
        ),
    )  # fmt: skip
    timer = Step(key="t", stage="verify", kind="timer", title="T", keyed_minutes=True, choices=(Choice("start", "start it", with_it=("5 min",), stamp=True),))
    check = Step(key="k", stage="cut", kind="safety", title="K", decided=("tool 3",), choices=(Choice("shut", "shut"), Choice("open", "open")))
    action = Step(key="a", stage="cut", kind="action", title="A", choices=(Choice("done", "done"),))
    words = Step(key="w", stage="measure", kind="text", title="W")
    kept_with = ("method m", "pressure 2", "temperature unknown", "held 5,0", "timed tester")
    good: list[tuple[Step, Words, Words]] = [
        (words, ("Anything", "at all"), ("Anything", "at all")), (STEP, ("12,5",), ()),
        (STEP, ("12,50",), ("12.50 mm",)), (STEP, ("12.50 mm", "stands  size"), ("12.50 mm", "stands size")),
        (STEP, ("As Chosen",), ("as chosen",)), (number_step, ("12.500", "BY micrometer"), ("12.500 mm", "by micrometer")),
        (number_step, ("12.50",), ("12.50 mm",)), (check, ("Right", "shut", "TOOL 3"), ("right", "shut", "tool 3")),
        (check, ("right", "whatever"), ("right", "whatever")), (choice, ("NOTHING",), ("nothing",)),
        (choice, ("Nothing marked",), ("nothing",)), (choice, ("bar 3", "3 BAR"), ("bar_3", "3 bar")), (choice, ("none",), ("none",)),
        (result, ("pass", "2026-03-02 09:00:00+01:00", *kept_with), ("pass", "2026-03-02T08:00:00+00:00", "method m", "pressure 2 bar", "temperature unknown", "held 5.0 min", "timed tester")),
        (result, ("not_judged",), ("not_judged",)),
        (result, ("not_judged", "leak 3", "leak_low 1", "leak_high unknown", "leak_decision fail"), ("not_judged", "leak 3 ug/min", "leak_low 1 ug/min", "leak_high unknown", "leak_decision FAIL")),
        (timer, ("start", "2026-03-02T09:00:00Z", "7"), ("start", "2026-03-02T09:00:00+00:00", "7 min")),
        (timer, ("Keyed", "2026-03-02T09:00:00Z", "7 min"), ("keyed", "2026-03-02T09:00:00+00:00", "7 min")),
        (action, ("done", "go to 29.20"), ("done", "go to 29.20")),
    ]  # fmt: skip
    for step, said, read in good:
        if read:
            assert read_back(step, said) == read and reads(step, read), said
    assert reads(STEP, ("12.50 mm",)) and not reads(STEP, ("12,50 mm",)) and not reads(choice, ("x",))
    bad: list[tuple[Step, Words, str]] = [
        (STEP, (), "a value"), (STEP, ("12.5",), "__.__ mm from 1 to 50, or as chosen"), (STEP, ("1250",), "__.__ mm from 1 to 50, or as chosen"),
        (STEP, ("12.50 kg",), "__.__ mm from 1 to 50, or as chosen"), (STEP, ("50.01",), "__.__ mm from 1 to 50, or as chosen"),
        (replace(STEP, usual="", mask=Mask(3, 0, "rpm")), ("fast",), "___ rpm"), (replace(STEP, usual="", mask=Mask(3, 0, "")), ("fast",), "___"),
        (STEP, ("12.50", "and more"), "one value, with nothing behind it"), (check, ("wrong",), "one of these words: right"),
        (choice, ("x",), "one of these words: nothing, bar_3, none"), (choice, ("bar_3",), "a number in bar behind it as well"),
        (choice, ("bar_3", "5 bar"), "bar_3 together with 3 bar"), (choice, ("nothing", "3 bar"), "nothing of the kind of '3 bar' behind it"),
        (result, ("pass",), "a time such as 2026-03-02T09:00:00+00:00"), (result, ("pass", "yesterday"), "a time such as 2026-03-02T09:00:00+00:00"),
        (result, ("pass", "2026-03-02T09:00:00Z", "method m"), "pressure, temperature, held, timed behind it as well"),
        (timer, ("start", "2026-03-02T09:00:00Z"), "a number in min behind it as well"),
        (result, ("not_judged", "nonsense"), "nothing of the kind of 'nonsense' behind it"),
    ]  # fmt: skip
    for step, said, why in bad:
        with pytest.raises(Misfit) as refused:
            read_back(step, said)
        assert str(refused.value) == why, said
    with pytest.raises(Misfit, match="or inches with the unit in$"):
        read_back(STEP, ("12.50",), inch=True)
    assert read_back(STEP, ("12.50 mm",), inch=True) == ("12.50 mm",)


def test_times_that_can_be_believed() -> None:
    runs: dict[tuple[float, ...], list[int]] = {(): [], (5,): [0], (5, 4): [1], (1, 9, 2, 3, 3, 0, 4): [0, 2, 3, 4, 6], (2, 2): [0, 1]}
    assert {times: longest_run(times) for times in runs} == runs

    def moments(*times: str) -> list[int | None]:
        found = believed([entry(n, "x y", at=at) for n, at in enumerate(times, 1)])
        return [found[n].day if n in found else None for n in range(1, len(times) + 1)]

    day = "2026-03-{:02}T10:00:00+00:00".format
    assert moments(day(2), day(3), day(9), day(4)) == [2, 3, 3, 4]
    assert moments(day(9), day(3), day(4)) == [3, 3, 4] and moments("x", day(3), "x") == [3, 3, 3]
    assert moments("x", "") == [None, None]
    assert moments("2024-03-05T10:00:00+00:00", day(3)) == [3, 3]
    assert moments("2025-01-01T00:00:00+00:00", day(3)) == [1, 3]
    assert moments("2020-01-05T00:00:00+00:00", "2020-01-06T00:00:00+00:00") == [5, 6]
    backwards = believed([entry(2, "x y", at=day(2)), entry(1, "x y", at=day(1))])
    assert backwards == {1: datetime(2026, 3, 1, 10, tzinfo=UTC), 2: datetime(2026, 3, 2, 10, tzinfo=UTC)}
    assert moment("2026-03-02T09:15:30+00:00") == "2026-03-02 09:15 UTC"


def test_one_rule_of_staleness() -> None:
    job = job_of("a 1", "b 2", "@ sitting work", "a 3|4", "# note seen")
    assert (job.newest_n("a"), job.newest_n("c"), job.last_n) == (4, 0, 5)
    assert job.fresh("a", ("b", "sitting")) == Answer(4, AT, "a", ("3", "4"), 4)
    assert job.fresh("b", ("a",)) is None is job.fresh("c", ()) and job.fresh("b", ("b", "c")) is not None
    assert [one.key for one in job.answers] == ["a", "b", "a"] and [one.key for one in job.notes] == ["note"]
    assert [one.key for one in job.marks] == ["sitting"] and job.newest("note") is None
    assert job.unchecked().fresh("a", ("sitting",)) is None and job.unchecked().newest_n("sitting") == 6
    renamed = job.renamed({"a": "x", "sitting": "s"}.get)  # type: ignore[arg-type]
    assert [one.key for one in (*renamed.answers, *renamed.marks)] == ["x", "x", "s"] and renamed.newest("b") is None
    assert renamed.newest_n("x") == 4
    assert (Answer(1, AT, "a", ()).word, Answer(3, AT, "a", ("x",), 2, 3).number, Answer(3, AT, "a", ()).number) == ("", 2, 3)
    assert Answer(3, AT, "a", (), 2, 3).by_hand and not Answer(3, AT, "a", ()).by_hand
    assert newest_of(answers("a 1", "b 2", "a 3"), "a") == Answer(3, AT, "a", ("3",)) and newest_of((), "a") is None
    assert words_of(entry(1, "a 1|2")) == ("1", "2") and words_of(entry(1, "a 1")) == ("1",)


def test_what_was_taken_back_and_taken_back_again() -> None:
    some = [entry(1, "a 1"), entry(2, "undo a", of=1), entry(3, "undo ", of=2), entry(4, "b 1"), entry(5, "undo b", of=4)]
    assert undone(some) == {2, 4}
    job = replay(HEAD, some)
    assert [one.key for one in job.answers] == ["a"] and job.last_n == 5
    assert (replay(HEAD, []).last_n, replay(HEAD, []).attempt) == (0, 1)


def test_every_attempt_has_its_answers() -> None:
    job = job_of("a 1", "@ attempt again", "a 2", "b 1", "@ lid_attempt again", "a 3")
    assert job.attempt == 3
    assert [[one.word for one in span] for span in job.attempt_spans()] == [["1"], ["2", "1"], ["3"]]
    before = job.before_attempt("a")
    assert before is not None and before.word == "2" and job.before_attempt("c") is None
    assert job_of("a 1").before_attempt("a") is None


def test_an_answer_changed_by_hand_counts_from_where_it_was_accepted() -> None:
    def changed(*, counted: bool, after_end: bool, more: Sequence[Entry] = ()) -> Job:
        hand = Accepted(by=4, counted=counted, after_end=after_end)
        some = [entry(1, "a 9", accepted=hand), entry(2, "b 1"), entry(3, "c 1"), entry(4, "confirm a 9", of=1)]
        return replay(HEAD, [*some, *more])

    moved = changed(counted=True, after_end=False)
    assert (moved.newest_n("a"), [one.key for one in moved.answers], moved.closed) == (4, ["b", "c", "a"], False)
    first = moved.newest("a")
    assert first is not None and (first.number, first.accepted) == (1, 4)
    ((of, was, after),) = [(one.of, one.entry and one.entry.value, one.after_end) for one in moved.changes]
    assert (of, was, after, moved.changes[0].mark) == (1, "9", False, "9")
    uncounted = changed(counted=False, after_end=False).newest("a")
    assert uncounted is not None and (uncounted.n, uncounted.accepted) == (1, 4)
    ended = changed(counted=True, after_end=True)
    assert ended.closed and ended.newest_n("a") == 1 and not (ended.newest("a") or Answer(0, "", "", (), 0, 1)).accepted
    beside = changed(counted=True, after_end=True, more=[entry(5, f"{keys.REMARK} x")])
    assert beside.closed and changed(counted=True, after_end=True, more=[entry(5, "@ sitting work")]).closed
    on = changed(counted=True, after_end=True, more=[entry(5, "d 1")])
    assert not on.closed and on.newest_n("a") == 4


def test_an_earlier_ring_that_teaches_otherwise_is_rested_on() -> None:
    hand = Accepted(by=4, counted=False, after_end=False)
    begun = [entry(2, "@ attempt again"), entry(3, "b 1"), entry(4, "confirm x 9", of=1)]
    for key in (keys.RING, keys.FIT_OUTCOME, keys.FIT_CORRECTION, keys.FIT_CAUSE, keys.LEAK_CAUSE, keys.REMAKE):
        assert replay(HEAD, [entry(1, f"{key} 9", accepted=hand), *begun]).newest_n("taught") == 4
    for other in ([entry(1, "wall 9", accepted=hand), *begun], [entry(1, "ring 9"), *begun], [entry(1, "ring 9", accepted=hand), *begun[1:]]):
        assert replay(HEAD, other).newest_n("taught") == 0


TEST = corrections.TESTS["empty"]
HOLD, RESULT, ASKS = keys.EMPTY.hold, keys.EMPTY.result, keys.EMPTY.correction
PRESSED = corrections.fitting(result="fit_outcome", begins="part", asks="fit_correction", again="made again")


def course_of(*lines: str) -> Course:
    """The last course of these answers of a test."""
    *_, last = corrections.courses(answers(*lines), TEST)
    return last


def test_which_result_holds() -> None:
    first, then, last = answers(f"{RESULT} fail", f"{RESULT} pass", f"{RESULT} not_judged")
    fail, passed = f"{RESULT} fail", f"{RESULT} pass"
    assert course_of() == Course() == course_of("wall_1 0.6") == course_of(f"{ASKS} again")
    assert course_of(fail, passed) == Course(holds=first, refused=then)
    assert course_of(fail, passed).traces == (Over(first, then, "open"),)
    assert course_of(fail, passed, f"{ASKS} again").traces == (Over(first, then, "again"),)
    said = course_of(fail, passed, f"{ASKS} keyed_wrong")
    assert (said.holds, said.refused, said.said) == (first, then, "keyed_wrong")
    *_, wrong = corrections.courses((*answers(fail, passed, f"{ASKS} keyed_wrong"), replace(then, n=4)), TEST)
    assert (wrong.holds, wrong.refused, wrong.over) == (replace(then, n=4), None, (Over(first, replace(then, n=4), "keyed_wrong"),))
    assert course_of(passed, fail).over == (Over(replace(then, n=1), replace(first, n=2), "corrected"),)
    assert course_of(passed, f"{RESULT} not_judged").holds == replace(last, n=2)
    assert course_of(fail, f"{RESULT} not_judged").refused == replace(last, n=2)
    assert course_of(fail, passed, fail) == Course(holds=replace(first, n=3))
    assert course_of(fail, passed, f"{ASKS} again", f"{RESULT} not_judged").said == ""
    assert [one.holds for one in corrections.courses(answers(fail, f"{HOLD} start", passed), TEST)] == [first, replace(then, n=3)]
    assert course_of(passed, f"{ASKS} keyed_wrong").said == ""
    assert Course(refused=then).traces == ()


def test_a_seal_that_did_not_go_home_holds_likewise() -> None:
    tight, home = answers("fit_outcome too_tight", "fit_outcome home")
    assert PRESSED.bad(tight) and not PRESSED.bad(home) and (PRESSED.what, PRESSED.again) == ("fitting", "made again")
    assert TEST.bad(answers("x fail")[0]) and not any(TEST.bad(answers(f"x {word}")[0]) for word in ("pass", "home"))
    assert (TEST.what, TEST.result, TEST.begins, TEST.asks, TEST.again) == ("empty", RESULT, HOLD, ASKS, "tested again")
    assert corrections.outcome((tight, home), PRESSED) == tight and corrections.outcome((), PRESSED) is None
    made_again = answers("fit_outcome too_tight", "part done", "fit_outcome home", "part done")
    assert corrections.outcome(made_again, PRESSED) == made_again[2]
    bad = [corrections.bad_result(one, PRESSED) for one in answers(f"{RESULT} fail", "cased_result fail", "fit_outcome chip", f"{RESULT} pass", "fit_outcome home", "x fail")]
    assert bad == [True, True, True, False, False, False]


def test_results_of_both_sittings_in_their_order_and_what_is_to_be_asked() -> None:
    given_ones = answers("cased_result pass", f"{RESULT} fail", f"{HOLD} start", f"{RESULT} pass")
    assert corrections.results(given_ones) == [given_ones[0], given_ones[1], given_ones[3]]
    over = (f"{RESULT} fail", f"{RESULT} pass")
    asked = corrections.to_ask(job_of(*over), TEST)
    assert asked is not None and asked.refused is not None and asked.refused.word == "pass"
    assert corrections.to_ask(job_of(*over, f"{ASKS} again"), TEST) is not None
    for nothing in ((*over, f"{ASKS} keyed_wrong"), over[:1], (*over, "@ attempt again"), (*over, f"{HOLD} start")):
        assert corrections.to_ask(job_of(*nothing), TEST) is None


def test_every_result_keyed_over_stands_for_the_sheet() -> None:
    stamped = answers(f"{RESULT} fail|2026-03-02T09:00:00+00:00", f"{RESULT} pass|no time", "cased_result pass", "cased_result fail")
    spans = [answers("fit_outcome chip", "fit_outcome home", first=11), stamped]
    found = corrections.corrections_of(spans, PRESSED)
    rows = [tuple(one.values()) for one in found]
    utc, later = "2026-03-02T09:00:00+00:00", "2026-03-02T09:00:00+00:00"
    assert rows == [
        (2, "empty", "fail", utc, "pass", later, "open"),
        (2, "cased", "pass", later, "fail", later, "corrected"),
        (1, "fitting", "chip", later, "home", later, "open"),
    ]
    assert list(found[0]) == ["attempt", "what", "first", "first_at", "then", "then_at", "how"]
    assert corrections.given_at(Answer(1, "x", "a", ("fail", "2026-03-02T10:00:00+02:00"))) == "2026-03-02T08:00:00+00:00"
    assert corrections.given_at(Answer(1, "x", "a", ("fail", "y", AT))) is None


def test_how_a_job_ended() -> None:
    known = endings.endings({("fit_outcome", "stopped"): "Given up."}, stopped="Not opened.")
    assert dict(known) == {
        (keys.PAINT_GO, "stop"): "Not opened.",
        ("fit_outcome", "stopped"): "Given up.",
        ("empty_found", "hand_back"): "Handed back as not water-resistant.",
        ("cased_found", "hand_back"): "Handed back as not water-resistant.",
    }
    ended = endings.ending_of(job_of("paint_go stop", "empty_found hand_back"), known)
    assert ended is not None and endings.ending_word(ended) == "empty_found: hand_back"
    assert endings.ending_of(job_of("empty_found ring", "hand_back done"), known) is None
    assert endings.ending_of(job_of("empty_found hand_back", "hand_back done"), known) is None
    again = endings.ending_of(job_of("hand_back done", "empty_found hand_back"), known)
    assert again is not None and again.n == 2
    assert endings.ending_said("paint_go: stop", known) == "Not opened."
    reasons = {"paint_go": endings.PAINT_REASONS}
    stop = answers("paint_go stop")[0]
    assert endings.because(job_of("paint old", "paint_go stop"), stop, reasons) == "paint: old"
    assert endings.because(job_of("paint none"), stop, reasons) is None is endings.because(job_of("paint old"), stop, {})
    two = {"paint_go": {("a", "1"): "A", ("b", "1"): "B"}}
    assert endings.because(job_of("b 1", "a 1"), stop, two) == "a: 1" and endings.because(job_of("a 1", "b 1"), stop, two) == "b: 1"
    assert endings.reason_said("paint_go: stop", "b: 1", two) == "B"
    assert set(endings.PAINT_REASONS) == {(keys.PAINT, "old"), (keys.PAINT, "unknown")}


def test_where_a_job_stands() -> None:
    waiting = replace(STEP, stage="size")
    walk = Walk((), (), (), waiting, None, seal="gasket")
    assert standing_of(walk) == Standing("size", "a gasket to be chosen")
    assert standing_of(replace(walk, open=replace(waiting, waits_for="the glass"))) == Standing("size", "the glass")
    said = {stage: standing_of(replace(walk, open=replace(waiting, stage=stage))).waits_for for stage in ("measure", "cut", "verify")}
    assert said == {"measure": "readings", "cut": "turning", "verify": "testing"}
    over = standing_of(replace(walk, open=None))
    assert over == Standing(OVER, "") and over.over and over.word == "stands over" and not Standing("size", "").over
    assert Standing("cut", "turning: the last").word == "stands cut: turning: the last"
    assert said_in(entry(1, "a 1|stands cut: turning: the last")) == Standing("cut", "turning: the last")
    assert said_in(entry(1, "a 1|stands size: x|stands over")) == Standing("over", "") == said_in(entry(1, "a stands size|stands over|2"))
    for nothing in ("a stands over", "a 1|2", "a 1|stands glued: x", "a 1|stands"):
        assert said_in(entry(1, nothing)) is None
    assert said_in(replace(entry(1, "a 1"), value=(1, "stands cut"))) == Standing("cut", "")
    assert last_said([entry(2, "a 1"), entry(3, "a 1|stands cut"), entry(1, "a 1|stands over")]) == Standing("cut", "")
    assert last_said([]) is None


def act(key: str, *rests: str, kind: str = "number", stage: str = "measure", optional: bool = False) -> Step:
    """A step that rests on others."""
    mask = Mask(2, 2) if kind == "number" else None
    return Step(key=key, stage=stage, kind=kind, title=key, mask=mask, rests_on=rests, optional=optional, usual="none" if optional else "")


def walked(job: Job, *steps: Step, seal: str = "ring") -> Walk:
    """A route of these steps, walked; the word of each optional one is handed on as the title of the next."""

    def stage() -> object:
        word = ""
        for step in steps:
            answer = yield replace(step, title=f"{step.title}{word}")
            word = f" after {answer.word}" if step.optional else ""

    return walk_route(job, stage(), seal=seal)  # type: ignore[arg-type]


def test_a_route_is_walked_to_its_first_open_step() -> None:
    a, b, c, d = act("a"), act("b", "a"), act("c", optional=True), act("d")
    found = walked(job_of("a 1.00 mm", "b 2.00 mm", "a 3.00 mm"), a, b, c, d)
    assert [step.key for step, _ in found.done] == ["a"] and found.open == b and found.optional == () == found.assumed
    assert found.stale is not None and found.stale.word == "2.00 mm" and found.seal == "ring"
    passed = walked(job_of("a 1.00 mm", "b 2.00 mm"), a, b, c, d)
    assert passed.open is not None and passed.open.title == "d after none" and passed.stale is None
    assert (passed.assumed, passed.optional, passed.keys) == ((c,), (c,), ("a", "b", "d"))
    over = walked(job_of("a 1.00 mm", "b 2.00 mm", "c 4.00 mm", "d 5.00 mm"), a, b, c, d, seal="gasket")
    assert (over.open, over.stale, over.assumed, over.optional, over.keys, over.seal) == (None, None, (), (c,), ("a", "b", "c", "d"), "gasket")
    assert (over.step("b"), passed.step("c"), passed.step("e"), passed.step("d")) == (b, c, None, passed.open)
    answered = over.answer("c")
    assert answered is not None and answered.n == 3 and passed.answer("c") is None
    assert over.asked_by(answered) == c and over.asked_by(replace(answered, n=9)) is None
    assert (over.stage_counts("measure"), over.stage_counts("cut")) == (4, 0)
    assert assumed_for(c) == Answer(ASSUMED, "", "c", ("none",)) and ASSUMED == 0


def test_what_was_answered_is_read_as_the_step_asks_it() -> None:
    chosen = Step(key="c", stage="size", kind="choice", title="C", choices=(Choice("x", "X"),), usual="x", optional=True)
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
    assert (found.keys, found.step("cut")) == (("check", "other", "next"), None) and found.answer("cut") is not None
    assert walked(job_of("@ sitting work", "check right", "cut 1.00 mm", "other 1.00 mm"), *steps).hidden == frozenset()
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
    assert [one.key for one in stops_counting(walk, "b", walked(job_of(*lines, "b 9.00 mm"), *steps))] == ["c"]
    first, second, third, rest = act("s_1"), act("s_2"), act("s_3"), act("z", "s_1", "s_2", "s_3")
    read = ("s_1 1.00 mm", "s_2 2.00 mm", "z 4.00 mm")
    walk = walked(job_of(*read), first, second, rest)
    then = walked(job_of(*read, "s_3 3.00 mm"), first, second, third, rest)
    assert [one.key for one in stops_counting(walk, "s_3", then)] == ["z"]
    assert (series("wall_12"), series("wall_x"), series("1_2")) == ("wall", "wall_x", "1")
    some = [act("a", kind=kind, stage=stage) for stage in ("verify", "size") for kind in ("result", "number", "number", "safety", "timer", "choice", "action", "text")]
    line = "2 readings, 1 choice, 1 check, 1 act, 1 hold, 1 result"
    assert counted(some) == (f"size: {line}", f"verify: {line}") and counted([]) == ()
    several_of = counted([act("a", kind=kind) for kind in ("choice", "safety", "action", "timer", "result") for _ in range(2)])
    assert several_of == ("measure: 2 choices, 2 checks, 2 acts, 2 holds, 2 results",)


def test_a_step_in_words() -> None:
    step = replace(
        STEP, kind="choice", choices=(Choice("x", "an X"),), say=("Look.",), opens_after=("t", 5.0),
        targets=(Target("go to 3"), Target("to 4", before=("Set the tool.", "Lock it."))),
    )  # fmt: skip
    assert step.to_do == ("Look.", "go to 3", "Set the tool.", "Lock it.", "to 4")
    assert (step.runs_since, replace(step, opens_after=None, ran_since="u").runs_since, STEP.runs_since) == ("t", "u", "")
    assert (step.in_words("x"), step.in_words("y"), step.choice("y")) == ("an X", "y", None)
    check = replace(step, kind="safety")
    assert [check.in_words(word) for word in ("right", "wrong", "x")] == ["as it should be", "not as it should be", "x"]
    titles = {"Which?": "Which? an X", "It is.": "It is: an X", "Which": "Which: an X"}
    assert {title: replace(step, title=title).with_answer("x") for title in titles} == titles
    assert ReadBy("micrometer", Mask(1, 2)).said == "by micrometer"


def test_which_seals_are_new() -> None:
    searched = ("empty_result fail", "hunt_kind rate", "hunt_opened back", "hunt_back tight")
    assert renewed_in_search(answers(*searched)) == ("back",)
    assert renewed_in_search(answers(*searched[:2], "cased_result fail", *searched[2:])) == ()
    assert renewed_in_search(answers(*searched[:3], "cased_result pass", searched[3])) == ()
    assert renewed_in_search(answers(*searched[:-1], "back tight")) == () == renewed_in_search(())
    crown = ("cased_result fail", "hunt_kind rate", "hunt_opened crown", "hunt_crown_positions changes", "hunt_crown_seal tight")
    assert renewed_in_search(answers(*crown, *searched)) == ("back", "crown")
    assert in_order(["tube", "back", "glass", "back", "x"]) == ("glass", "back", "tube")
    words = {"none": (), "all": ("back", "crown", "tube", "pushers"), "back_crown": ("back", "crown"), "glass": ("glass",), "x": ()}
    assert {word: seals_of(word) for word in words} == words
    assert {seals: word_of(seals) for seals in ((), ("back", "crown", "tube", "pushers"), ("glass", "back"))} == {
        (): "none", ("back", "crown", "tube", "pushers"): "all", ("glass", "back"): "glass_back",
    }  # fmt: skip
    assert [named(one) for one in ((), ("back",), ("back", "tube"), ("back", "crown", "tube"))] == ["none", "back", "back and tube", "back, crown and tube"]
    assert listed(()) == ("none", ("none",)) and listed(("back", "tube")) == ("back and tube", ("back", "tube"))


def test_what_is_known_of_each_seal() -> None:
    each = ("besides_back made_here", "besides_back_job 31", "besides_crown new", "besides_crown_size 2.50 x 0.9", "besides_tube left", "besides_pushers has_none")
    found = known_seals(answers(*each, "renewed back_crown|said each"), "glass")
    assert found == (
        KnownSeal("glass", "this_job"), KnownSeal("back", "made_here", job="31"), KnownSeal("crown", "new", size="2.50 x 0.9"),
        KnownSeal("tube", "left"), KnownSeal("pushers", "has_none"),
    )  # fmt: skip
    assert as_data(found)[1] == {"seal": "back", "known": "made_here", "job": "31", "size": None}
    assert [one.is_new for one in found] == [False, True, True, False, False]
    by_names = known_seals(answers(*each, "renewed crown"), "back")
    assert by_names == (KnownSeal("glass"), KnownSeal("back", "this_job"), KnownSeal("crown", "new"), KnownSeal("tube"), KnownSeal("pushers"))
    by_hand = known_seals(answers(*each, "renewed tube|said each"), "glass")
    assert [one.known for one in by_hand] == ["this_job", None, None, "new", None]
    later = known_seals(answers("renewed none|said each", *each), "glass")
    assert [one.known for one in later] == ["this_job", None, None, None, None] and known_seals((), "glass") == later
    kept_with = known_seals(answers("besides_back made_here|job 77", "renewed back|said each"), "glass")[1]
    assert kept_with == KnownSeal("back", "made_here", job="77")
    unknown = known_seals(answers("besides_back made_here", "besides_back_job unknown", "renewed back|said each"), "glass")[1]
    assert unknown == KnownSeal("back", "made_here")
    stale = known_seals(answers("besides_back_job 31", "besides_back made_here", "renewed back|said each"), "glass")[1]
    assert stale == unknown
    searched = ("empty_result fail", "hunt_kind rate", "hunt_opened back", "hunt_back tight")
    over_left = known_seals(answers("besides_back left", *searched, "renewed back|said each"), "glass")[1]
    assert over_left == KnownSeal("back", "new")
    assert new_ones(answers(*each), ()) == ("back", "crown") and new_ones(answers("besides_tube left"), ("tube",)) == ("tube",)
    assert known_seals(answers("besides_back new", "besides_back_size ", "renewed back|said each"), "glass")[1] == KnownSeal("back", "new")
    assert others_of("tube") == ("glass", "back", "crown", "pushers")


def test_other_jobs_are_named_by_number() -> None:
    assert (like_number(job_of("@ like 47|plastic pa66")), like_number(job_of())) == ("47", None)
    assert [linked_number(job) for job in (job_of("linked 12"), job_of("linked none"), job_of())] == ["12", None, None]


PAST = PastRing(job="84", number=2, at=AT, plastic="ptfe", outside_mm=32.0, bore_mm=30.9, height_mm=1.2, aimed_mm=0.55)


def test_a_past_ring_is_the_same_read_back() -> None:
    turned = replace(
        PAST, allowed_mm=0.01, walls_mm=(0.55, 0.56, 0.55, 0.58), turned_by="lathe, boring bar", tools=(("boring bar", 0.02),),
        repeats=(("seat", 0.01), ("glass", 0.02)), outcome="home", leaked=True, promised=0.8, seat_mm=32.0, glass_mm=30.9,
        other_cause="dirt",
    )  # fmt: skip
    assert turned.off_mm == pytest.approx(0.56 - 0.54) and turned.name == "2 of job 84"
    assert replace(turned, turned_by="").off_mm is None is PAST.off_mm is replace(turned, walls_mm=()).off_mm
    text = to_json([turned, PAST])
    assert from_json(text) == (turned, PAST) and "\n" not in text and ": " not in text.replace("lathe, ", "")
    later = json.loads(to_json([PAST]))
    assert from_json(json.dumps([{**later[0], "of_a_later_version": 1}])) == (PAST,)
    for broken in ("[{}]", "[1]", "x", '[{"job": "1"}]'):
        with pytest.raises((ValueError, TypeError, KeyError, AttributeError)):
            from_json(broken)
    assert (PAST.walls_mm, PAST.promised, PAST.leaked, PAST.allowed_mm, PAST.seat_mm, PAST.glass_mm) == ((), None, False, 0.0, 0.0, 0.0)


LIES = Lying(
    job="208", piece="spare-1", at="2026-03-02T10:00:00+00:00", plastic="PTFE", outside_mm=32.04, wall_mm=0.545, height_mm=1.2,
    chamfer_mm=0.15, lower_chamfer_mm=0.1, walls_mm=(0.54, 0.55),
)  # fmt: skip
LEFT = BarLeft(job="209", at="2026-03-03T10:00:00+00:00", plastic="PTFE", colour="white", diameter_mm=36.0, left_mm=120.4)


def test_what_lies_in_the_drawer() -> None:
    assert (LIES.ref, LIES.name, LIES.kind) == ("208 spare-1", "spare of job 208", "spare")
    names = {"208 tighter-1": "tighter spare of job 208", "A 7 ring-2": "ring 2 of job A 7", "208 spare-1": "spare of job 208"}
    assert {ref: in_drawer.name_of(ref) for ref in names} == names
    found = InDrawer(lying=(LIES, replace(LIES, walls_mm=(), free=False)), taken=("12 ring-1",), bar=LEFT)
    assert in_drawer.from_json(in_drawer.to_json(found)) == found
    empty = in_drawer.to_json(in_drawer.NOTHING)
    assert in_drawer.from_json(empty) == InDrawer() == in_drawer.nothing_lies(None)
    assert empty == '{"lying":[],"taken":[],"bar":null}'
    assert in_drawer.lying_from(json.loads(in_drawer.lying_text(LIES))) == LIES
    assert json.loads(in_drawer.lying_text(LIES))["walls_mm"] == [0.54, 0.55]
    swelling = {key for key, one in plastics().items() if in_drawer.swells(one)}
    assert swelling == {key for key, one in plastics().items() if "nylon" in one.name.lower() or (one.water_growth or 0) >= 0.01} and swelling
    some = next(iter(plastics().values()))
    grown = {growth: in_drawer.swells(replace(some, name="wax", water_growth=growth)) for growth in (None, 0.0099, 0.01, 0.02)}
    assert grown == {None: False, 0.0099: False, 0.01: True, 0.02: True} and in_drawer.swells(replace(some, name="Nylon 6", water_growth=None))
    now = {"2026-04-01T10:00:00+00:00": False, "2026-04-01T10:00:01+00:00": True, "2026-03-02T10:00:00+00:00": False, "2026-03-02T09:59:59+00:00": True, "x": True}
    assert {at: in_drawer.due_again(LIES, at) for at in now} == now


def test_the_drawer_in_words() -> None:
    line = "spare of job 208, 2026-03-02: PTFE, outside 32.04, wall 0.545 as measured, height 1.20 mm"
    assert ring_words(LIES) == line
    held = {
        replace(LIES, free=False): "kept for its own job until that is finished",
        replace(LIES, walls_mm=()): "not offered: its walls were not measured",
        replace(LIES, plastic=""): "not offered: its plastic is not known",
        replace(LIES, again=True): "its walls are measured again before it is used",
        LIES: "",
    }
    assert {ring: why_not(ring) for ring in held} == held
    assert ring_words(replace(LIES, again=True)) == f"{line}; its walls are measured again before it is used"
    planned = ring_words(replace(LIES, walls_mm=(), plastic=""))
    assert planned == line.replace("as measured", "as planned").replace("PTFE", "plastic not known") + "; not offered: its walls were not measured"
    assert bar_words(LEFT) == "PTFE white, 36 mm: about 120 mm left after job 209, 2026-03-03"
    assert drawer_words(Drawer((LIES,), (LEFT,))) == ((RINGS, (line,)), (BARS, (bar_words(LEFT),)))
    assert drawer_words(Drawer((), (LEFT,))) == ((BARS, (bar_words(LEFT),)),) and drawer_words(Drawer((), ())) == ()


LANDS = Lands(rings=6, of_line=4, mean_mm=0.0123, sd_mm=0.008, u_mm=0.003, dof=4.5, good_to_mm=0.02, assumed_mm=0.016, odd=("3 of job 12",))


def test_what_was_looked_up_is_the_same_read_back() -> None:
    found = learned.Learned(LANDS, Repeating(5, 0.004, 4.0), None)
    words = learned.learned_words(found)
    assert words == (
        "looked up", "rings 6", "of_line 4", "lands 0.0123 mm", "lands_sd 0.0080 mm", "lands_u 0.0030 mm", "dof 4.5",
        "good_to 0.0200 mm", "assumed 0.0160 mm", "odd_1 3 of job 12", "seat_pairs 5", "seat_sd 0.0040 mm", "seat_dof 4.0",
    )  # fmt: skip
    assert learned.learned_from(words) == found
    both = replace(found, glass=Repeating(2, 0.5, 1.0))
    assert learned.learned_from(learned.learned_words(both)) == both
    assert learned.learned_from(learned.learned_words(learned.Learned(LANDS))) == learned.Learned(LANDS)

    def kept_with(name: str, text: str) -> object:
        return learned.learned_from(tuple(f"{name} {text}" if word.startswith(f"{name} ") else word for word in words))

    inside = {"lands": ("0.5 mm", "-0.5 mm"), "lands_sd": ("0.5 mm", "0.0001 mm"), "dof": ("2.1",), "rings": ("1",), "seat_sd": ("0.5 mm",), "seat_dof": ("1.0",)}
    outside = {
        "lands": ("0.51 mm", "-0.51 mm", "x", "unknown"), "lands_sd": ("0.51 mm", "0 mm"), "lands_u": ("0.51 mm", "0 mm"), "good_to": ("0.6 mm", "0 mm"),
        "dof": ("2.0",), "rings": ("0",), "seat_sd": ("0.51 mm", "0 mm", "unknown"), "seat_dof": ("0.9", "unknown"), "assumed": ("unknown",),
    }  # fmt: skip
    assert all(kept_with(name, text) is not None for name, texts in inside.items() for text in texts)
    assert [(name, text) for name, texts in outside.items() for text in texts if kept_with(name, text) is not None] == []
    assert learned.learned_from(()) is None


def test_when_something_counts_as_looked_up() -> None:
    mark = "@ learned " + "|".join(learned.learned_words(learned.Learned(LANDS)))
    for key in (keys.PLASTIC, keys.LATHE, keys.TOOL_SET):
        assert learned.is_to_be_looked_up(job_of(mark, f"{key} x")) and not learned.is_to_be_looked_up(job_of(f"{key} x", mark))
        assert learned.learned_in(job_of(mark, f"{key} x"), goes_by_it=True) is None
    assert learned.is_to_be_looked_up(job_of(mark, "@ attempt again")) and learned.is_to_be_looked_up(job_of())
    assert learned.learned_in(job_of(mark), goes_by_it=True) == learned.Learned(LANDS)
    assert learned.learned_in(job_of(mark), goes_by_it=False) is None is learned.learned_in(job_of("ring x", mark), goes_by_it=False)
    assert learned.learned_in(job_of(mark, "ring x"), goes_by_it=False) == learned.Learned(LANDS)
    assert learned.learned_in(job_of(), goes_by_it=True) is None


CALLIPER = Instrument(name="calliper", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03)
BALL = Instrument(name="ball", kind="ball_micrometer", resolution_mm=0.001, limit_of_error_mm=0.004)
IN_INCH = Instrument(name="inch one", kind="micrometer", resolution_mm=0.00254, limit_of_error_mm=0.005, unit="inch")


def test_with_which_instrument_a_number_is_read() -> None:
    assert mask_of(BALL, 1, 0.2, 5.0) == Mask(1, 3, "mm", 0.2, 5.0)
    assert mask_of(IN_INCH, 2, 2.54, 25.4) == Mask(1, 4, "in", 0.1, 1.0)
    asked = read_with(replace(STEP, how=("{held}.",)), BALL, (CALLIPER, BALL), before=1, low_mm=0.2, high_mm=5.0)
    assert asked.mask == Mask(1, 3, "mm", 0.2, 5.0) and asked.read_with == "ball" and asked.how == ("Ball anvil inside.",)
    assert asked.by == (ReadBy("ball", Mask(1, 3, "mm", 0.2, 5.0)), ReadBy("calliper", Mask(1, 2, "mm", 0.2, 5.0)))
    by_jaws = read_with(replace(STEP, how=("{held}.",)), CALLIPER, (CALLIPER,), before=1, low_mm=0.2, high_mm=5.0)
    assert by_jaws.how == ("Thin ends of the jaws across the wall.",)
    assert as_held(asked, ()) == asked == as_held(asked, answers("x 0.61 mm|by nobody")) == as_held(asked, answers("x 0.61 mm"))
    held = as_held(asked, answers("x 0.612 mm", "x 0.61 mm|by calliper"))
    assert held.by == asked.by[::-1] and held.mask == Mask(1, 2, "mm", 0.2, 5.0) and held.read_with == "ball"
    assert as_held(asked, answers("x 0.61 mm|by calliper", "x 0.612 mm")) == asked
    tools = (CALLIPER, BALL)
    assert instrument_of((), BALL, tools) == BALL == instrument_of(answers("x 1", "x 2|by x"), BALL, tools)
    mixed = instrument_of(answers("x 1", "x 2|by calliper"), BALL, tools)
    assert mixed.limit_of_error_mm == pytest.approx(0.017) and instrument_of(answers("x 1|by calliper"), BALL, tools) == CALLIPER


def test_readings_as_they_were_keyed() -> None:
    span = answers("wall_1 0.61 mm", "wall_2 none", "glass 30.10 mm", "wall_1 0.62 mm", "wall_x 1 mm", "old_wall 1 mm")
    assert as_keyed(2, span, ("glass", "wall")) == [
        {"attempt": 2, "what": "wall", "as_keyed": ["0.61 mm", "0.62 mm"]},
        {"attempt": 2, "what": "glass", "as_keyed": ["30.10 mm"]},
    ]
    walls = keys.readings_of("wall")
    job = job_of("ring x", "wall_1 0.61 mm", "glass 30.10 mm")
    ring, wall, glass = job.answers
    assert read_since(job, ring, walls) and not read_since(job, wall, walls) and not read_since(job, glass, walls)
    hand = replace(job, answers=(replace(wall, accepted=9),))
    assert read_since(hand, glass, walls) and not read_since(hand, replace(glass, n=9), walls)


def test_what_stands_in_the_blanks_of_a_statement() -> None:
    blanks = {
        "text": ("x", "x"), "count": (3, 3), "words": (statement.Ours("new"), "new"), "list": (statement.WordList("a and b", ("a", "b")), "a and b"),
        "long": (statement.Long(1.5, 3), 1.5), "size": (statement.DecidedSize(2.5), 2.5), "bar": (statement.Pressing(3.0), 3.0),
        "for": (statement.Lasting(10.0), 10.0), "at": (statement.AtTime(AT), AT), "on": (statement.OnDay("2026-03-02"), "2026-03-02"),
    }  # fmt: skip
    said = statement.Statement("made", "Made {n}.", {name: blank for name, (blank, _) in blanks.items()}, one="Made one.")  # type: ignore[misc]
    assert said.data() == {"name": "made", "values": {name: plain for name, (_, plain) in blanks.items()}}
    assert (statement.Long(1.0).places, statement.Long(1.0).with_unit, statement.DecidedSize(1.0).with_unit) == (2, True, True)
    assert statement.WordList("a", ("a",)).joined_by_and and (statement.Statement("a", "b").values, statement.Statement("a", "b").one) == ({}, "")


def test_answers_are_remembered_by_what_was_asked_and_the_unit_spoken() -> None:
    asked: list[tuple[int, str]] = []

    def work(n: int, *, how: str = "") -> int:
        asked.append((n, how))
        if n < 0:
            raise ValueError("less than nothing")
        return n * 2

    forgets = len(remembered.FORGETTING)
    known = remembered.remembered(work)
    assert [known(1), known(1), known(1, how="x"), known(2)] == [2, 2, 2, 4] and asked == [(1, ""), (1, "x"), (2, "")]
    with speaking("inch"):
        assert known(1) == 2 == known(1) and len(asked) == 4
    for _ in range(2):
        with pytest.raises(ValueError, match="nothing"):
            known(-1)
    assert len(asked) == 6 and known.__name__ == "work"
    assert [known(n) for n in range(100, 100 + remembered.SO_MANY)][0] == 200 and remembered.SO_MANY == 64
    before = len(asked)
    assert known(100) == 200 and len(asked) == before
    (forget,) = remembered.FORGETTING[forgets:]
    forget()
    assert known(100) == 200 and len(asked) == before + 1
    del remembered.FORGETTING[forgets:]

"""Words, numbers and keys of a session file by themselves, with values worked out by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from bench.job import kept, keys
from bench.job.begun import Beginnings, is_attempt, is_spoiled, of_kind
from bench.job.job import Answer
from bench.job.kept import Misfit
from bench.job.mask import Mask
from bench.job.number import Refusal, TypedNumber, read_number
from bench.job.reading_back import read_back, reads
from bench.job.steps import Choice, ReadBy, Step, Words
from bench.job.values import figure, figure_if, mask_for, named as figure_named, named_text, number, several


def names_in(text: str) -> list[str]:
    """The names in a text, parted by blanks."""
    return text.split()


def test_every_key_is_its_name_in_small_letters() -> None:
    """A key of the session file is never renamed; one that is not its name is written out."""
    plain = names_in(
        "SITTING ATTEMPT LEARNED JOINED LOOKED_IN NOTE SHOP_NOTE WATCH REMARK PAPERS_IN PAINT "
        "PAINT_GO SEAL BENCH HOLD NOT_THIS_RING SEAT_WAY CASE_BORE PLUG_ENTERS PLUG_STAYS_OUT "
        "PLUG_STAYS_OUT_AGAIN GLASS_WAY GLASS SEAT_DEPTH SEAT_DEPTH_AGAIN GLASS_EDGE TEMPERATURE "
        "OLD_RING DIAL_RING MEASURE_AGAIN OLD_WALL OLD_HEIGHT GLASS_ORDER GLASS_WANTED GLASS_COMES "
        "GLASS_DIFFERS PLASTIC CASE_METAL CASE_WALL CASE_HEIGHT RING_OFFSET FRICTION GLASS_MATERIAL "
        "GLASS_THICKNESS GLASS_AGAINST_OLD ACRYLIC_ANYWAY LATHE TOOL_SET BAR BAR_MEASURED BAR_BORE "
        "SPARES SPARE_WALL BORE_WANTED OUTSIDE_WANTED HEIGHT_WANTED AT_HAND HAND_WALL HAND_HEIGHT "
        "HAND_SEAT NO_RING RING CANNOT_TURN LATHE_HANDS LATHE_EYES LATHE_KEY LATHE_BAR LATHE_SPEED "
        "LATHE_SLIP TOUCH_OFF TOOL_AGAIN TOOL_BORING TOOL_BORING_AGAIN TOOL_CORE TOOL_TURNING "
        "TOOL_CHAMFER TOOL_PARTING OUTSIDE_READING WALL_READING PAST_OUTSIDE PAST_BORE FRESH_RING "
        "SPOILED CHECK_SLIP WALL RING_HEIGHT DRESS_LOWER OFF_BAND TOO_HIGH FIT_READY FIT_SLIP "
        "FIT_OUTCOME FIT_CAUSE LEAK_CAUSE REMAKE MARKING MARKING_KEYED RENEWED FIT_CORRECTION "
        "HAND_BACK"
    )
    assert {name: getattr(keys, name) for name in plain} == {name: name.lower() for name in plain}
    assert sorted(plain) == sorted(
        name for name, value in vars(keys).items() if name.isupper() and value == name.lower()
    )
    of_a_sitting = names_in(
        "method pressure check slip minutes temperature hold throughout volume volume_exact "
        "gauge_step signal vented vented_by result unclear found correction"
    )
    for one, name, title in ((keys.EMPTY, "empty", "empty case"), (keys.CASED, "cased", "cased watch")):
        assert {what: getattr(one, what) for what in of_a_sitting} == {
            what: f"{name}_{what}" for what in of_a_sitting
        }
        assert (one.title, one.heading, one.what(f"{name}_hold")) == (title, title.capitalize(), "hold")
    assert keys.SITTINGS == (keys.EMPTY, keys.CASED) == tuple(keys.BY_NAME[one] for one in ("empty", "cased"))


def test_keys_made_from_keys() -> None:
    made = (
        keys.nth("wall", 3), keys.slip_of("lathe"), keys.asked_in_search("back"), keys.each("wall"),
        *(keys.taken_again("wall_reading", n) for n in (1, 2, 3)), keys.last("bore"), keys.more("bore", 2),
        keys.odd("bore"), keys.late("height_wanted"), keys.afresh("bore"), keys.spare(2),
    )  # fmt: skip
    assert made == (
        "wall_3", "lathe_slip", "hunt_back", "wall_each", "wall_reading", "second_wall_reading",
        "third_wall_reading",
        "last_bore", "more_bore_2", "odd_bore", "height_wanted_late", "bore_afresh", "spare_2",
    )  # fmt: skip
    assert keys.is_slip("fit_slip") and not keys.is_slip("slip_fit")
    pattern = keys.readings_of("wall", "glass")
    assert [bool(pattern.fullmatch(one)) for one in ("wall", "wall_12", "glass_1", "wall_x", "old_wall",
        "wall_1_2")] == [
        True, True, True, False, False, False,
    ]  # fmt: skip
    numbers = [
        keys.spare_number(one) for one in ("spare_2", "spare_13_from_4", "spare", "spare_2_x", "spares")
    ]
    assert numbers == [2, 13, None, None, None]
    assert of_kind("lid") == Beginnings("lid_attempt", "lid_spoiled", "lid_measure_again")
    assert Beginnings() == Beginnings("attempt", "spoiled", "measure_again")
    assert is_attempt("attempt") and is_attempt("lid_attempt") and not is_attempt("attempt_2")
    assert is_spoiled("spoiled") and is_spoiled("lid_spoiled") and not is_spoiled("spoiled_lid")


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("outside 32,04", "outside 32.04 mm"), ("Bore 31.5 MM", "bore 31.5 mm"), ("wall .5 mm", "wall .5 mm"),
        ("seat_n 4", "seat_n 4"), ("squeeze -1.5", "squeeze -1.5 %"),
        ("plastic  PTFE white", "plastic PTFE white"),
        ("walls 0.61 0,62", "walls 0.61 0.62 mm"), ("walls 0.61  0.62 MM", "walls 0.61 0.62 mm"),
        ("decision Does not", "decision does_not"), ("timed KEYED", "timed keyed"),
        ("held Unknown", "held unknown"),
        ("temperature 21 °C", "temperature 21 C"), ("leak 12 µg/min", "leak 12 ug/min"),
        ("leak_high unknown", "leak_high unknown"),
        ("rpm 1200", "rpm 1200"), ("ran 9.5", "ran 9.5 min"), ("said each", "said each"),
        ("load 4", "load 4 N"),
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
    assert (
        kept.parted("5\u00a0cm\u00b3") == ("5", "cm3")
        and kept.parted("x5") is None
        and kept.parted("5.") == ("5", ".")
    )
    assert kept.with_unit("5", "") == "5" and kept.with_unit("5 MM", "mm") == "5 mm"
    for text, unit, why in (
        ("5 in", "mm", "a number in mm"),
        ("5 x", "", "a number"),
        ("five", "mm", "a number in mm"),
    ):
        with pytest.raises(Misfit, match=f"^{why}$"):
            kept.with_unit(text, unit)
    for text, words, why in (
        ("c", ("a", "b"), "one of these words: a, b"),
        ("a", (), "nothing by hand"),
        ("A", ("a", " a"), ".*a,  a"),
    ):
        with pytest.raises(Misfit, match=f"^{why}$"):
            kept.one_of(text, words)


def test_what_is_kept_with_an_answer_is_named_once_with_its_unit() -> None:
    by_unit = {
        "mm": "outside bore height chamfer lower_chamfer wall seat seat_u seat_oval glass glass_u glass_oval "
        "gap gap_u highest used_wall used_height lands lands_sd stays_wider to_20 thickness inside "
        "room_outside room_inside room_height cord inside_limit cord_limit wear groove_inner "
        "groove_outer groove_other foot foot_bore corner ledge stands_over sinks sinks_years "
        "bar offset left tighter",
        kept.COUNT: "seat_n glass_n spares tool rpm passes",
        "%": "squeeze squeeze_u squeeze_low squeeze_high chance fill likely stretch most_fill later",
        kept.TEXT: "plastic press by at_hand from bezel shut material way joint place inside_by "
        "cord_by lathe colour order read method leak_reason leak_law job",
        "MPa": "ten_years_low ten_years_high presses_low presses_high bears clamp_presses",
        kept.SEVERAL: "walls thicknesses",
        "N": "takes_low takes_high given_low given_high load",
        "bar": "pressure",
        "C": "temperature",
        "min": "held ran planned needed",
        "ug/min": "leak leak_low leak_high",
    }
    words = {
        "decision": ("fits", "does_not", "undecided"), "closes": ("stop", "all"),
        "lies": ("flat", "male", "female"),
        "moves": ("still", "moves"), "carries": ("foot", "wall"), "said": ("each",),
        "timed": ("program", "keyed", "asked", "tester", "hurried"),
        "leak_decision": ("PASS", "FAIL", "UNDECIDED", "NOT_JUDGED"),
    }  # fmt: skip
    assert words | {name: unit for unit, names in by_unit.items() for name in names.split()} == kept.KEPT
    assert {"height", "pressure", "temperature", "held", "rpm", "leak_high"} == kept.MAY_BE_UNKNOWN
    readings = "seat seat_u seat_n glass glass_u glass_n"
    assert {
        "seat": tuple(names_in(f"outside bore height chamfer lower_chamfer {readings}")),
        "walls": ("walls", "squeeze", "squeeze_u", "decision"),
        "method": ("method", "pressure", "temperature", "held", "timed"),
        "leak": ("leak", "leak_low", "leak_high", "leak_decision"),
    } == kept.TOGETHER
    assert (kept.UNKNOWN, kept.SEEN_TO, kept.UNCHANGED) == ("unknown", "seen_to", "unchanged")


def test_numbers_in_words() -> None:
    words = ("ring", "bore 32.04 mm", "height unknown", "walls 0.612 0.615 mm", "offset 0.1 in")
    assert (number("2.5 mm"), number("0.5 in"), number("7")) == (2.5, 12.7, 7.0)
    assert figure_named(words, "bore") == 32.04 and figure_named(words, "offset") == pytest.approx(2.54)
    assert figure_named(words, "height") is None and figure_named(words, "cord") is None
    assert named_text(words, "walls") == "0.612 0.615 mm" and named_text(words, "ring") == "" == named_text(
        words, "x"
    )
    assert several(words, "walls") == (0.612, 0.615) and several(words, "x") == ()
    assert mask_for("press force", 4, 1) == Mask(4, 1, "N", *mask_limits("press force"))
    for asked, word, value in (
        (figure(STEP), "2.5 mm", 2.5),
        (figure_if(STEP, "none"), "2.5 mm", 2.5),
        (figure_if(STEP, "none"), "none", None),
    ):
        assert next(asked) == STEP
        with pytest.raises(StopIteration) as end:
            asked.send(Answer(1, "", "x", (word,)))
        assert end.value.value == value


def mask_limits(quantity: str) -> tuple[float, float]:
    """What can be, from its home."""
    from rules.limits import RANGES

    return RANGES[quantity][:2]


STEP = Step(
    key="x", stage="measure", kind="number", title="X", mask=Mask(2, 2, "mm", 1.0, 50.0), usual="as chosen"
)


def test_a_text_over_its_mask() -> None:
    mask, whole = Mask(2, 2), Mask(3, 0, "rpm")
    assert (mask.shown, whole.shown) == ("__.__", "___")
    over = {
        "": "__.__",
        "3": "3_.__",
        "36": "36.__",
        "364": "36.4_",
        "3642": "36.42",
        "7.": "7.__",
        "7.5": "7.5_",
        "36425": "36425",
        "x": "x",
        ".": ".__",
    }
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
        ("-0.00", FEWER, False, ("0.00 mm", 0.0, "")),
        ("\x0236,42 mm\r\n", FEWER, False, ("36.42 mm", 36.42, "")),
        ("1.161 in", FEWER, True, ("1.161 in", 29.4894, "1.161 in = 29.489 mm")),
        ('1.16150"', FEWER, True, ("1.16150 in", 29.5021, "1.16150 in = 29.502 mm")),
        ("25.40 mm", Mask(1, 4, "in", 0.0, 3.0), False, ("25.40 mm", 1.0, "25.40 mm = 1.0000 in")),
        ("1.161 in", Mask(1, 4, "in", 0.0, 3.0), False, ("1.161 in", 1.161, "")),
        ("0120", Mask(3, 0, "rpm", 10, 500), False, ("120 rpm", 120.0, "")),
        ("7", Mask(2, 0, "", 1, 9), False, ("7", 7.0, "")),
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
        ("36.425", FEWER, "2 decimals are asked: key __.__ mm"),
        ("360.", FEWER, "2 decimals are asked: key __.__ mm"),
        (".", FEWER, "not understood as one number: key __.__ mm"),
        ("60.01", FEWER, "60.01 mm cannot be: above 60 mm; measure again"),
        ("3.4", Mask(2, 2, "mm", 3.4, 9.0), "3.4? key 3.40 if that is meant"),
        ("9.0", Mask(2, 2, "mm", 3.4, 9.0), "9.0? key 9.00 if that is meant"),
        ("9.1", Mask(2, 2, "mm", 3.4, 9.0), "2 decimals are asked: key __.__ mm"),
        ("-0.01", FEWER, "below zero: set the gauge to zero and measure again"),
        ("0.0100", Mask(1, 4, "in", 0.03937, 3), "0.0100 in cannot be: below 0.0394 in; measure again"),
        ("12 mm", Mask(3, 0, "min"), "mm typed where min is asked"),
        (".161 in", Mask(1, 3, "in"), "a reading in inch needs a point and 3 to 5 decimals"),
    ],
)  # fmt: skip
def test_a_number_that_does_not_fit(text: str, mask: Mask, why: str) -> None:
    assert read_number(text, mask) == Refusal(why)


def test_what_is_read_of_an_answer_changed_by_hand() -> None:
    number_step = replace(
        STEP, by=(ReadBy("calliper", STEP.mask or Mask(1, 1)), ReadBy("micrometer", Mask(2, 3, "mm", 1, 50)))
    )
    choice = Step(
        key="c", stage="size", kind="choice", title="C", usual="none",
        choices=(Choice("nothing", "Nothing marked"), Choice("bar_3", "3 bar", with_it=("3 bar",)),
            Choice("x", "X", goto="y")),
    )  # fmt: skip
    result = Step(
        key="r", stage="verify", kind="result", title="R",
        choices=(
            Choice("pass", "pass", with_it=("method m", "held 5 min"), stamp=True),
            Choice("not_judged", "short", with_it=("leak 2 ug/min",)), Choice("not_judged", "stopped"),
        ),
    )  # fmt: skip
    timer = Step(
        key="t",
        stage="verify",
        kind="timer",
        title="T",
        keyed_minutes=True,
        choices=(Choice("start", "start it", with_it=("5 min",), stamp=True),),
    )
    check = Step(
        key="k",
        stage="cut",
        kind="safety",
        title="K",
        decided=("tool 3",),
        choices=(Choice("shut", "shut"), Choice("open", "open")),
    )
    action = Step(key="a", stage="cut", kind="action", title="A", choices=(Choice("done", "done"),))
    words = Step(key="w", stage="measure", kind="text", title="W")
    own = replace(result, choices=(Choice("done", "done", with_it=("cut 3 mm", "kind some words")),))
    inch = replace(STEP, usual="", mask=Mask(1, 4, "in", 0.2, 3.0))
    kept_with = ("method m", "pressure 2", "temperature unknown", "held 5,0", "timed tester")
    good: list[tuple[Step, Words, Words]] = [
        (words, ("Anything", "at all"), ("Anything", "at all")), (STEP, ("12,5",), ()),
        (STEP, ("12,50",), ("12.50 mm",)), (STEP, ("12.50 mm", "stands  size"), ("12.50 mm", "stands size")),
        (STEP, ("As Chosen",), ("as chosen",)),
        (number_step, ("12.500", "BY micrometer"), ("12.500 mm", "by micrometer")),
        (number_step, ("12.50",), ("12.50 mm",)),
        (check, ("Right", "shut", "TOOL 3"), ("right", "shut", "tool 3")),
        (check, ("right", "whatever"), ("right", "whatever")), (choice, ("NOTHING",), ("nothing",)),
        (choice, ("Nothing marked",), ("nothing",)), (choice, ("bar 3", "3 BAR"), ("bar_3", "3 bar")),
        (choice, ("none",), ("none",)),
        (result, ("pass", "2026-03-02 09:00:00+01:00", *kept_with),
            ("pass", "2026-03-02T08:00:00+00:00", "method m", "pressure 2 bar", "temperature unknown",
                "held 5.0 min", "timed tester")),
        (result, ("not_judged",), ("not_judged",)),
        (result, ("not_judged", "leak 3", "leak_low 1", "leak_high unknown", "leak_decision fail"),
            ("not_judged", "leak 3 ug/min", "leak_low 1 ug/min", "leak_high unknown", "leak_decision FAIL")),
        (timer, ("start", "2026-03-02T09:00:00Z", "7"), ("start", "2026-03-02T09:00:00+00:00", "7 min")),
        (timer, ("Keyed", "2026-03-02T09:00:00Z", "7 min"), ("keyed", "2026-03-02T09:00:00+00:00", "7 min")),
        (action, ("done", "go to 29.20"), ("done", "go to 29.20")),
        (own, ("done", "cut 2,5", "KIND of ours", "stands  cut"),
            ("done", "cut 2.5 mm", "KIND of ours", "stands cut")),
        (inch, ("1.1610 in",), ("1.1610 in",)), (inch, ("29.49 mm",), ("29.49 mm",)),
    ]  # fmt: skip
    for step, said, read in good:
        if read:
            assert read_back(step, said) == read and reads(step, read), said
    assert reads(STEP, ("12.50 mm",)) and not reads(STEP, ("12,50 mm",)) and not reads(choice, ("x",))
    bad: list[tuple[Step, Words, str]] = [
        (STEP, (), "a value"), (STEP, ("12.5",), "__.__ mm from 1 to 50, or as chosen"),
        (STEP, ("1250",), "__.__ mm from 1 to 50, or as chosen"),
        (STEP, ("12.50 kg",), "__.__ mm from 1 to 50, or as chosen"),
        (STEP, ("50.01",), "__.__ mm from 1 to 50, or as chosen"),
        (replace(STEP, usual="", mask=Mask(3, 0, "rpm")), ("fast",), "___ rpm"),
        (replace(STEP, usual="", mask=Mask(3, 0, "")), ("fast",), "___"),
        (STEP, ("12.50", "and more"), "one value, with nothing behind it"),
        (check, ("wrong",), "one of these words: right"),
        (choice, ("x",), "one of these words: nothing, bar_3, none"),
        (choice, ("bar_3",), "a number in bar behind it as well"),
        (choice, ("bar_3", "5 bar"), "bar_3 together with 3 bar"),
        (choice, ("nothing", "3 bar"), "nothing of the kind of '3 bar' behind it"),
        (result, ("pass",), "a time such as 2026-03-02T09:00:00+00:00"),
        (result, ("pass", "yesterday"), "a time such as 2026-03-02T09:00:00+00:00"),
        (result, ("pass", "2026-03-02T09:00:00Z", "method m"),
            "pressure, temperature, held, timed behind it as well"),
        (timer, ("start", "2026-03-02T09:00:00Z"), "a number in min behind it as well"),
        (inch, ("1.161 in",), "_.____ in from 0.2 to 3"),
        (inch, ("1.1610",), "_.____ in from 0.2 to 3, or mm with the unit mm"),
        (own, ("done", "cut deep"), "a number in mm"),
        (own, ("done", "depth 3"), "nothing of the kind of 'depth 3' behind it"),
        (result, ("pass", "0001-01-01T00:00:00+10:00", *kept_with),
            "a time such as 2026-03-02T09:00:00+00:00"),
        (result, ("not_judged", "nonsense"), "nothing of the kind of 'nonsense' behind it"),
    ]  # fmt: skip
    for step, said, why in bad:
        with pytest.raises(Misfit) as refused:
            read_back(step, said)
        assert str(refused.value) == why, said
    with pytest.raises(Misfit, match="or inches with the unit in"):
        read_back(STEP, ("12.50",), inch=True)
    assert read_back(STEP, ("12.50 mm",), inch=True) == ("12.50 mm",)

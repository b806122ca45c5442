"""What the sheet says, to the letter, for data that differ in one thing each."""

from __future__ import annotations

from typing import Any

import pytest

from bench.file.entry import Entry
from bench.seals import SEALS
from bench.seals.ring import text
from bench.sheet import text as whole
from bench.sheet.bench_time import bench_minutes, hours_words, shop_lines
from bench.sheet.by_hand import change_text
from bench.sheet.text import leak_text, method_words, notes_text, sections, sheet_lines
from bench.sheet.workshop import ZONE, correction_text, place, reading_text, shop_copy, when
from rules.lengths import speaking

AT = "2026-03-02T09:22:36+00:00"
NOTHING = {"mean_mm": None, "u_mm": None, "ovality_mm": None, "n": None}
MEASURED = {"mean_mm": 34.19, "u_mm": 0.04, "ovality_mm": 0.02, "n": 2}
RING = {
    "outside_diameter_mm": 34.19,
    "bore_mm": 32.9205,
    "chamfer_mm": 0.15,
    "lower_chamfer_mm": 0.1,
    "height_mm": 1.1,
    "wall_mm": 0.635,
    "plastic": "acetal",
}
NOT_PLANNED = dict.fromkeys(RING) | {"wall_mm": 0.605, "plastic": ""}
MADE = {
    "wall_mm": [0.628, 0.6335],
    "height_mm": 1.11,
    "squeeze_pct": 8.41,
    "squeeze_u_pct": 4.27,
    "decision": "fits",
    "shut": None,
}
TURNED: dict[str, Any] = {
    **dict.fromkeys(("lathe", "bar_mm", "colour", "left_mm")),
    "spares_left": 0,
    "spare": False,
}
NOT_MADE: dict[str, Any] = {**dict.fromkeys(MADE), "wall_mm": []}
EXPECTED = dict.fromkeys(("bezel", "stays_wider_mm", "ten_years_low_mpa", "ten_years_high_mpa"))
THERE = {"what": None, "used_wall_mm": None, "used_height_mm": None, "made_after_it": False}
TEST = {
    "sitting": "empty",
    "method": "dry_pass_fail",
    "overpressure_bar": 3.0,
    "minutes": 10.0,
    "needed_minutes": None,
    "timed": "program",
    "stopped_after_min": None,
    "temperature_c": None,
    "result": "pass",
    "leak": None,
    "reason": None,
    "readings": None,
    "at": AT,
    "early": False,
    "counts": True,
    "stands": True,
}
TIMED = "10 min (timed by the program)"
DRY = "dry test, pass or fail as the tester gives it"
BEFORE: dict[str, Any] = {"attempt": 1, "bore_mm": None, "wall_mm": None, "outcome": None, "tests": []}


def data(**changed: Any) -> dict[str, Any]:
    """The data of a sheet, nothing known but what is given."""
    usual: dict[str, Any] = {
        "job": "7", "watch": None,
    "like": None,
        "joined_from": [],
    "linked": None, "finished": True, "shop_name": "", "tester_number": "", "seal": "ring",
        "attempt": 1, "attempts": [BEFORE], "measured": {"case_bore": NOTHING, "glass": NOTHING},
        "gap_believed_mm": None, "made_by": None, "ring": RING, "expected": EXPECTED, "at_hand": THERE,
        "turned": TURNED,
        "made": NOT_MADE, "renewed": None, "renewed_in_search": [], "seals_of_watch": [], "searches": [],
        "further_seals": [],
        "on_the_ring": {"outside_on_bar_mm": None, "outside_final": False},
        "fitting": {"outcome": None, "at": None}, "tests": [], "marking_bar": None, "not_tested": [],
        "remark": None, "notes": [], "ended": None, "cautions": [], "corrections": [], "readings_changed": [],
        "changed_by_hand": [], "shop_notes": [], "marking": None, "ended_because": None, "readings": [],
        "at_the_lathe": [],
    }  # fmt: skip
    return usual | changed


def test_what_was_measured() -> None:
    both = {"case_bore": MEASURED, "glass": {**MEASURED, "ovality_mm": 0.0, "u_mm": 0.0004, "n": 3}}
    seat = "Glass seat: 34.19 mm, good to 0.04 mm, 2 readings, 0.02 mm out of round."
    glass = "Glass: 34.19 mm, good to 0.0004 mm, 3 readings."
    assert text.measured_text(data(measured=both)).sentences == (seat, glass)
    believed = text.measured_text(data(gap_believed_mm=0.5325, made_by="x"))
    assert believed.sentences == ("Gap taken as 0.533 mm after the rings tried before.",)
    gone = "Readings were changed after the ring was decided: no figure stands."
    assert text.measured_text(data(made_by="ringwright")).sentences == (gone,)
    assert text.measured_text(data()).sentences == () and text.measured_text(data()).heading == "Measured"
    with speaking("inch"):
        inch = text.measured_text(data(measured=both)).sentences[0]
    assert inch == "Glass seat: 1.3461 in, good to 0.0016 in, 2 readings, 0.0008 in out of round."


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        (
            {},
            [
                "Planned: outside 34.19, bore 32.921, height 1.10 mm, acetal.",
                "Planned: wall 0.635, entry chamfer 0.15, lower outside edge 0.10 mm.",
            ],
        ),
        (
            {"ring": NOT_PLANNED, "made": {**MADE, "height_mm": 1.25}},
            ["Measured: mean wall 0.605, height 1.25 mm, plastic not named."],
        ),
        ({"ring": NOT_PLANNED}, ["Measured: mean wall 0.605 mm, plastic not named."]),
        ({"ring": dict.fromkeys(RING)}, []),
        ({"ring": {**RING, "bore_mm": None, "wall_mm": None}}, []),
        (
            {
                "ring": NOT_PLANNED | {"wall_mm": None},
                "turned": {"colour": None, "left_mm": 197.4, "spares_left": 0, "spare": False},
            },
            ["What is left of the bar: about 197 mm."],
        ),
    ],
)
def test_the_ring(changed: dict[str, Any], said: list[str]) -> None:
    part = text.ring_text(data(**changed))
    assert (part.heading, list(part.sentences), part.drawn) == ("Ring", said, True)


def test_the_outside_as_it_stayed_and_before() -> None:
    stayed = {"outside_on_bar_mm": 34.402, "outside_final": True}
    said = text.ring_text(data(on_the_ring=stayed)).sentences
    assert said[0] == "Planned: bore 32.921, height 1.10 mm, acetal."
    assert said[-1] == "Outside measured on the bar, as it stayed: 34.402 mm."
    before = text.ring_text(data(on_the_ring={**stayed, "outside_final": False})).sentences
    assert before[-1] == "Outside measured on the bar, before its last pass: 34.402 mm."


def test_rings_before_it() -> None:
    empty, cased = {**TEST, "result": "pass"}, {**TEST, "sitting": "cased", "result": "fail"}
    tried = [
        {**BEFORE, "bore_mm": 32.04, "outcome": "too_easy", "tests": [empty, cased]},
        {**BEFORE, "attempt": 2, "wall_mm": 0.58},
        {**BEFORE, "attempt": 3, "outcome": "spoiled"},
        BEFORE,
    ]
    part = text.ring_text(data(attempts=tried, attempt=4))
    assert part.heading == "Ring 4" and part.sentences[2:] == (
        "Ring 1 before it: planned bore 32.04 mm, went in too easily; last test, cased watch: FAIL.",
        "Ring 2 before it: wall 0.580 mm, not fitted.",
        "Ring 3 before it: spoiled at the lathe.",
    )
    words = {"home": "home and level", "would_not_start": "would not start", "shaved": "ring shaved"}
    words |= {"chipped": "glass chipped", "bezel_moved": "bezel moved", "spoiled": "spoiled at the lathe"}
    for outcome, said in words.items():
        assert text.attempt_text({**BEFORE, "outcome": outcome}) == f"Ring 1 before it: {said}."


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({}, []),
        (
            {"ten_years_low_mpa": 18.2, "ten_years_high_mpa": 33.4},
            ["presses with about 18 to 33 MPa after ten years"],
        ),
        ({"bezel": "may stay stretched"}, ["the bezel may stay stretched"]),
        (
            {
                "bezel": "stays wider",
                "stays_wider_mm": 0.0124,
                "ten_years_low_mpa": 20.0,
                "ten_years_high_mpa": 20.0,
            },
            ["presses with about 20 MPa after ten years; the bezel stays wider by 0.012 mm on the diameter"],
        ),
    ],
)
def test_what_is_expected(changed: dict[str, Any], said: list[str]) -> None:
    assert text.expected_text({**EXPECTED, **changed}) == [f"Expected (estimate): {one}." for one in said]


def test_a_ring_that_was_there() -> None:
    assert text.at_hand_text(THERE) == []
    new = "This ring was there already, never pressed before; it was measured and judged, not turned here."
    made = "This ring was turned before readings were corrected; it was measured and judged again."
    assert text.at_hand_text({**THERE, "what": "new"}) == [new]
    assert text.at_hand_text({**THERE, "what": "made"}) == [made] and not text.at_hand_text(
        {**THERE, "what": "used"}
    )
    used = {**THERE, "used_wall_mm": 0.56, "used_height_mm": 1.2}
    said = "A used ring was measured: wall 0.560, height 1.20 mm. It was a pattern and was not fitted again; "
    assert text.at_hand_text(used) == [said + "this ring is new, made as proposed."]
    assert text.at_hand_text({**used, "made_after_it": True}) == [said + "this ring is new, made after it."]


def test_plastic_and_bar() -> None:
    white, unsaid = (
        {"colour": colour, "left_mm": None, "spares_left": 0, "spare": False}
        for colour in ("white", "not said")
    )
    assert text.bar_words(data(turned=white)) == "acetal, white"
    assert text.bar_words(data(turned=unsaid)) == "acetal"


def test_made_and_fitted() -> None:
    said = text.made_text(data(made=MADE, fitting={"outcome": "home", "at": AT}, renewed="back_crown"))
    assert said.heading == "Made and fitted" and said.sentences == (
        "Wall measured at 2 places: 0.628, 0.634; height 1.11 mm.",
        "Squeeze 8.4 +- 4.3 % of the wall (95 %): fits.",
        "Fitting: home and level, 2026-03-02 09:22 UTC.",
        "Seals renewed besides the ring: back, crown.",
    )
    flat = {**MADE, "height_mm": None, "decision": "does_not"}
    part = text.made_text(data(made=flat, fitting={"outcome": "chipped", "at": None})).sentences
    assert part[0] == "Wall measured at 2 places: 0.628, 0.634 mm." and part[1].endswith(
        "(95 %): does not fit."
    )
    assert part[2] == "Fitting: glass chipped."
    shut = {**MADE, "decision": "undecided", "shut": "the press"}
    assert (
        "undecided (no bore met every requirement: the press)."
        in text.made_text(data(made=shut)).sentences[1]
    )
    assert "(measure better to decide)." in text.made_text(data(made={**shut, "shut": None})).sentences[1]
    assert text.made_text(data(made={**shut, "decision": "fits"})).sentences[1].endswith(": fits.")
    assert text.made_text(data()).sentences == ()


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({}, f"{DRY}, 3 bar over, 10 min (timed by the program), 2026-03-02 09:22 UTC: PASS."),
        ({"overpressure_bar": None, "at": None}, f"{DRY}, {TIMED}: PASS."),
        (
            {"minutes": None, "timed": "tester"},
            f"{DRY}, 3 bar over, verdict of the tester at 2026-03-02 09:22 UTC: PASS.",
        ),
        (
            {"timed": None, "at": None, "temperature_c": 21.5, "result": "unclear"},
            f"{DRY}, 3 bar over, 10 min (time as keyed), 21.5 C: unclear.",
        ),
        ({"stopped_after_min": 4.5, "at": None}, f"{DRY}, 3 bar over, stopped after 4.5 of {TIMED}: PASS."),
        (
            {"needed_minutes": 12.0, "stopped_after_min": 4.5, "at": None, "method": None},
            "not named, 3 bar over, stopped after 4.5 of 12 min (timed by the program): PASS.",
        ),
        (
            {"needed_minutes": 12.0, "at": None, "method": "own_way"},
            "own way, 3 bar over, 10 min of 12 min (timed by the program): PASS.",
        ),
        (
            {"at": None, "reason": "the gauge stood still."},
            f"{DRY}, 3 bar over, {TIMED}: PASS. The gauge stood still.",
        ),
        (
            {"at": None, "early": True, "counts": False},
            f"{DRY}, 3 bar over, {TIMED}: PASS. Early: within 12 hours of fitting; to be repeated. "
            "Its answers were changed afterwards: it does not count.",
        ),
    ],
)
def test_a_test_as_a_sentence(changed: dict[str, Any], said: str) -> None:
    assert whole.test_text({**TEST, **changed}) == f"Empty case, tested by method: {said}"


def test_by_whom_a_hold_was_timed() -> None:
    by = {
        "program": "timed by the program",
        "asked": "the bench was left meanwhile; held throughout, as answered",
    }
    by |= {"hurried": "hurried in a demo: it proves nothing", "keyed": "time as keyed"}
    assert {
        one: said for one, said in by.items() if f"10 min ({said})" in whole.test_text({**TEST, "timed": one})
    } == by


def test_a_leak_as_a_sentence() -> None:
    leak = {
        "rate_ug_min": 24.6,
        "low_ug_min": 20.4,
        "high_ug_min": 30.6,
        "decision": "not_judged",
        "law": None,
    }
    said = "Leak 25 ug/min (95 %: 20 to 31, referred to 2 bar overpressure; limit 50): not judged."
    assert leak_text(leak) == said and whole.test_text({**TEST, "leak": leak, "reason": "unsaid"}).endswith(
        f"PASS. {said}"
    )
    assert "20 to no upper limit, referred" in leak_text({**leak, "high_ug_min": None})


def test_tests_and_notes() -> None:
    part = whole.tests_text(
        data(tests=[TEST], tester_number="T 4", marking_bar=2.5, not_tested=["It was not."])
    )
    assert part.heading == "Tested" and part.sentences[1:] == (
        "Tester: T 4.",
        "Marking: 2.5 bar.",
        "It was not.",
    )
    assert whole.tests_text(data(tester_number="T 4")).sentences == ()
    notes = notes_text(data(remark="Stiff crown.", notes=["One.", "Two."], cautions=["Dry."]))
    assert (notes.heading, notes.sentences) == ("To know", ("Stiff crown.", "One.", "Two.", "Dry."))
    assert [one.heading for one in sections(data())] == ["Ring"]


def test_lines_are_folded_and_headed() -> None:
    lines = sheet_lines(data(finished=False, shop_name="Quay", watch="a diver"), columns=40)
    assert lines[:3] == ("NOT FINISHED", "Quay", "Job 7   a diver") and lines[3:5] == ("", "Ring")
    assert lines[5] == "  Planned: outside 34.19, bore 32.921," and lines[6] == "    height 1.10 mm, acetal."
    assert sheet_lines(data())[0] == "Job 7" and max(map(len, sheet_lines(data(), columns=5))) <= 20


def test_methods_by_name() -> None:
    named = {"dry_pass_fail": DRY, "own_way": "own way", None: "not named", "": "not named"}
    assert {method: method_words({"method": method}) for method in named} == named


def test_what_was_keyed_over() -> None:
    one = {
        "what": "empty",
        "attempt": 2,
        "first": "pass",
        "first_at": AT,
        "then": "fail",
        "then_at": None,
        "how": "keyed_wrong",
    }
    seal = SEALS["ring"]
    ring = "Ring 2, empty case: first given as PASS, 2026-03-02 09:22 UTC; "
    assert (
        correction_text(one, 3, seal)
        == ring + "keyed wrong, read once more and keyed as FAIL, time not known."
    )
    changed = correction_text({**one, "how": "corrected", "then_at": AT}, 2, seal)
    assert (
        changed
        == "Empty case: first given as PASS, 2026-03-02 09:22 UTC; changed to FAIL, 2026-03-02 09:22 UTC."
    )
    assert place({"what": "anything", "attempt": 1}, 1, seal) == "Fitting"
    assert place({"what": "cased", "attempt": 1}, 2, seal) == "Ring 1, cased watch"
    assert when(None) == "time not known"
    read = {
        "what": "cased",
        "attempt": 1,
        "reading": "vented",
        "first": None,
        "then": "not_read",
        "then_at": AT,
    }
    said = (
        "Cased watch, {0}: first {1}, keyed again after the hold had begun as not read, 2026-03-02 09:22 UTC."
    )
    assert reading_text(read, 1, seal) == said.format("gauge after venting", "as usual")
    more = {"volume": "free volume", "volume_exact": "measured volume", "gauge_step": "step of the gauge"}
    more |= {"temperature": "temperature", "vented_by": "gauge after venting", "signal_3": "reading 3"}
    for name, words in more.items():
        assert reading_text({**read, "reading": name, "first": "1_2"}, 1, seal) == said.format(words, "1 2")


def test_the_shop_s_copy() -> None:
    own, *more = shop_copy(data(shop_notes=["Late."]), (125.4, 61.0), ("1. face",))
    assert [one.heading for one in more if one.sentences == ("1. face",)] == ["Turning plan"]
    assert own.heading == "For the shop" and own.sentences == (
        ZONE,
        "Note: Late.",
        "Time at the bench: 2 h 05 min.",
        "Parked: 1 h 01 min (gaps over 30 min between entries).",
    )
    assert [hours_words(minutes) for minutes in (0.4, 59.6, 119.4)] == [
        "0 h 00 min",
        "1 h 00 min",
        "1 h 59 min",
    ]
    assert len(shop_lines((0.0, 0.0))) == 2


def test_minutes_between_entries() -> None:
    """30 minutes still count at the bench, 31 are parked, back in time is nothing."""
    times = ("09:00", "09:30", "10:01", "09:50", "09:50", "09:55")
    entries = [
        Entry(n=n, at=f"2026-03-02T{at}:00+00:00", kind="answer", key="k", value="v")
        for n, at in enumerate(times, 1)
    ]
    assert bench_minutes(reversed(entries)) == (35.0, 31.0) and bench_minutes(entries[:1]) == (0.0, 0.0)


def test_what_was_changed_by_hand() -> None:
    one = {
        "entry": 4,
        "last": 4,
        "what": "changed",
        "after_end": False,
        "key": "wall",
        "takes_back": 2,
        "value": "0.6",
    }
    one["accepted_at"] = AT
    end = "; accepted 2026-03-02 09:22 UTC."
    said = {
        "changed": "Changed by hand: entry 4, wall is now 0.6",
        "taken_back": "Changed by hand: entry 4 takes back entry 2, wall = 0.6",
        "missing": "Missing in the file: entry 4",
        "left_out": "Damaged in the file and left out: entry 4",
        "beside": "Something was written into the file beside entry 4 and is not used",
        "head": "Changed by hand: the first lines of the file",
    }
    assert {what: change_text({**one, "what": what}) for what in said} == {
        what: words + end for what, words in said.items()
    }
    late = change_text({**one, "what": "missing", "last": 6, "after_end": True, "accepted_at": None})
    assert late == "Missing in the file after the end: entry 4 to 6; accepted time not known."

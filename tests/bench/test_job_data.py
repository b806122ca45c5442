"""What a job keeps as plain data, read back as it was: past rings, the drawer, what was looked up."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from bench.job import in_drawer, keys, learned, statement
from bench.job.drawer_said import BARS, RINGS, bar_words, drawer_words, ring_words, why_not
from bench.job.in_drawer import BarLeft, Drawer, InDrawer, Lying
from bench.job.past import PastRing, from_json, to_json
from rules.learning.landing import Lands
from rules.learning.repeating import Repeating
from rules.tables import plastics
from tests.bench.test_job_entries import AT, job_of

PAST = PastRing(
    job="84", number=2, at=AT, plastic="ptfe", outside_mm=32.0, bore_mm=30.9, height_mm=1.2, aimed_mm=0.55
)


def test_a_past_ring_is_the_same_read_back() -> None:
    turned = replace(
        PAST, allowed_mm=0.01, walls_mm=(0.55, 0.56, 0.55, 0.58), turned_by="lathe, boring bar",
        tools=(("boring bar", 0.02),),
        repeats=(("seat", 0.01), ("glass", 0.02)), outcome="home", leaked=True, promised=0.8, seat_mm=32.0,
        glass_mm=30.9,
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
    assert (PAST.walls_mm, PAST.promised, PAST.leaked, PAST.allowed_mm, PAST.seat_mm, PAST.glass_mm) == (
        (),
        None,
        False,
        0.0,
        0.0,
        0.0,
    )


LIES = Lying(
    job="208", piece="spare-1", at="2026-03-02T10:00:00+00:00", plastic="PTFE", outside_mm=32.04,
    wall_mm=0.545, height_mm=1.2,
    chamfer_mm=0.15, lower_chamfer_mm=0.1, walls_mm=(0.54, 0.55),
)  # fmt: skip
LEFT = BarLeft(
    job="209", at="2026-03-03T10:00:00+00:00", plastic="PTFE", colour="white", diameter_mm=36.0, left_mm=120.4
)


def test_what_lies_in_the_drawer() -> None:
    assert (LIES.ref, LIES.name, LIES.kind) == ("208 spare-1", "spare of job 208", "spare")
    names = {
        "208 tighter-1": "tighter spare of job 208",
        "A 7 ring-2": "ring 2 of job A 7",
        "208 spare-1": "spare of job 208",
    }
    assert {ref: in_drawer.name_of(ref) for ref in names} == names
    found = InDrawer(lying=(LIES, replace(LIES, walls_mm=(), free=False)), taken=("12 ring-1",), bar=LEFT)
    assert in_drawer.from_json(in_drawer.to_json(found)) == found
    empty = in_drawer.to_json(in_drawer.NOTHING)
    assert in_drawer.from_json(empty) == InDrawer() == in_drawer.nothing_lies(None)
    assert empty == '{"lying":[],"taken":[],"bar":null}'
    assert in_drawer.lying_from(json.loads(in_drawer.lying_text(LIES))) == LIES
    assert json.loads(in_drawer.lying_text(LIES))["walls_mm"] == [0.54, 0.55]
    swelling = {key for key, one in plastics().items() if in_drawer.swells(one)}
    assert (
        swelling
        == {
            key
            for key, one in plastics().items()
            if "nylon" in one.name.lower() or (one.water_growth or 0) >= 0.01
        }
        and swelling
    )
    some = next(iter(plastics().values()))
    grown = {
        growth: in_drawer.swells(replace(some, name="wax", water_growth=growth))
        for growth in (None, 0.0099, 0.01, 0.02)
    }
    assert grown == {None: False, 0.0099: False, 0.01: True, 0.02: True} and in_drawer.swells(
        replace(some, name="Nylon 6", water_growth=None)
    )
    now = {
        "2026-04-01T10:00:00+00:00": False,
        "2026-04-01T10:00:01+00:00": True,
        "2026-03-02T10:00:00+00:00": False,
        "2026-03-02T09:59:59+00:00": True,
        "x": True,
    }
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
    assert (
        planned
        == line.replace("as measured", "as planned").replace("PTFE", "plastic not known")
        + "; not offered: its walls were not measured"
    )
    assert bar_words(LEFT) == "PTFE white, 36 mm: about 120 mm left after job 209, 2026-03-03"
    assert drawer_words(Drawer((LIES,), (LEFT,))) == ((RINGS, (line,)), (BARS, (bar_words(LEFT),)))
    assert (
        drawer_words(Drawer((), (LEFT,))) == ((BARS, (bar_words(LEFT),)),)
        and drawer_words(Drawer((), ())) == ()
    )


LANDS = Lands(
    rings=6,
    of_line=4,
    mean_mm=0.0123,
    sd_mm=0.008,
    u_mm=0.003,
    dof=4.5,
    good_to_mm=0.02,
    assumed_mm=0.016,
    odd=("3 of job 12",),
)


def test_what_was_looked_up_is_the_same_read_back() -> None:
    found = learned.Learned(LANDS, Repeating(5, 0.004, 4.0), None)
    words = learned.learned_words(found)
    assert words == (
        "looked up", "rings 6", "of_line 4", "lands 0.0123 mm", "lands_sd 0.0080 mm", "lands_u 0.0030 mm",
        "dof 4.5",
        "good_to 0.0200 mm", "assumed 0.0160 mm", "odd_1 3 of job 12", "seat_pairs 5", "seat_sd 0.0040 mm",
        "seat_dof 4.0",
    )  # fmt: skip
    assert learned.learned_from(words) == found
    both = replace(found, glass=Repeating(2, 0.5, 1.0))
    assert learned.learned_from(learned.learned_words(both)) == both
    assert learned.learned_from(learned.learned_words(learned.Learned(LANDS))) == learned.Learned(LANDS)

    def kept_with(name: str, text: str) -> object:
        return learned.learned_from(
            tuple(f"{name} {text}" if word.startswith(f"{name} ") else word for word in words)
        )

    inside = {
        "lands": ("0.5 mm", "-0.5 mm"),
        "lands_sd": ("0.5 mm", "0.0001 mm"),
        "dof": ("2.1",),
        "rings": ("1",),
        "seat_sd": ("0.5 mm",),
        "seat_dof": ("1.0",),
    }
    outside = {
        "lands": ("0.51 mm", "-0.51 mm", "x", "unknown"), "lands_sd": ("0.51 mm", "0 mm"),
        "lands_u": ("0.51 mm", "0 mm"), "good_to": ("0.6 mm", "0 mm"),
        "dof": ("2.0",), "rings": ("0",), "seat_sd": ("0.51 mm", "0 mm", "unknown"),
        "seat_dof": ("0.9", "unknown"), "assumed": ("unknown",),
    }  # fmt: skip
    assert all(kept_with(name, text) is not None for name, texts in inside.items() for text in texts)
    assert [
        (name, text) for name, texts in outside.items() for text in texts if kept_with(name, text) is not None
    ] == []
    assert learned.learned_from(()) is None


def test_when_something_counts_as_looked_up() -> None:
    mark = "@ learned " + "|".join(learned.learned_words(learned.Learned(LANDS)))
    for key in (keys.PLASTIC, keys.LATHE, keys.TOOL_SET):
        assert learned.is_to_be_looked_up(job_of(mark, f"{key} x")) and not learned.is_to_be_looked_up(
            job_of(f"{key} x", mark)
        )
        assert learned.learned_in(job_of(mark, f"{key} x"), goes_by_it=True) is None
    assert learned.is_to_be_looked_up(job_of(mark, "@ attempt again")) and learned.is_to_be_looked_up(
        job_of()
    )
    assert learned.learned_in(job_of(mark), goes_by_it=True) == learned.Learned(LANDS)
    assert (
        learned.learned_in(job_of(mark), goes_by_it=False)
        is None
        is learned.learned_in(job_of("ring x", mark), goes_by_it=False)
    )
    assert learned.learned_in(job_of(mark, "ring x"), goes_by_it=False) == learned.Learned(LANDS)
    assert learned.learned_in(job_of(), goes_by_it=True) is None


def test_what_stands_in_the_blanks_of_a_statement() -> None:
    blanks: dict[str, tuple[statement.Blank, object]] = {
        "text": ("x", "x"), "count": (3, 3), "words": (statement.Ours("new"), "new"),
        "list": (statement.WordList("a and b", ("a", "b")), "a and b"),
        "long": (statement.Long(1.5, 3), 1.5), "size": (statement.DecidedSize(2.5), 2.5),
        "bar": (statement.Pressing(3.0), 3.0),
        "for": (statement.Lasting(10.0), 10.0), "at": (statement.AtTime(AT), AT),
        "on": (statement.OnDay("2026-03-02"), "2026-03-02"),
    }  # fmt: skip
    said = statement.Statement(
        "made", "Made {n}.", {name: blank for name, (blank, _) in blanks.items()}, one="Made one."
    )
    assert said.data() == {"name": "made", "values": {name: plain for name, (_, plain) in blanks.items()}}
    assert (
        statement.Long(1.0).places,
        statement.Long(1.0).with_unit,
        statement.DecidedSize(1.0).with_unit,
    ) == (2, True, True)
    assert statement.WordList("a", ("a",)).joined_by_and and (
        statement.Statement("a", "b").values,
        statement.Statement("a", "b").one,
    ) == ({}, "")

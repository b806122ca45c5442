"""What the sentences of a plan say on other lathes: dials, tools without numbers, where a tool touches."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from rules.equipment import Axis
from tests.rules.test_turning import LATHE, planned, with_cross


def test_a_dial_says_where_it_is_set_and_which_way_it_counts() -> None:
    """From 13.00 to 31.44 is 9.22 of travel: 461 divisions, 4 turns of 100 and 61, at 39 backwards."""
    dial = with_cross(
        shows="radius", step_mm=0.01, division_mm=0.02, divisions_per_turn=100, direction="inward"
    )
    made = planned(lathe=dial)
    outside, bore = made.of("rough_outside")[0].before, made.of("rough_bore")[0].before
    assert outside[0] == "touch off on the outside (36.00), moving in: dial to 0; turned in it counts up"
    assert (
        bore[1] == "touch off on the bore (13.00), moving out: dial to 0; turned out it counts down from 100"
    )
    again = next(text for text in made.of("finish_bore")[0].before if "touch off on the bore" in text)
    assert again == (
        "touch off on the bore (31.44), moving out: dial to 39, counted as 4 turns 39 dial; "
        "turned out it counts down from 100"
    )


def test_every_figure_of_a_dial_is_said_in_turns_and_divisions_with_the_size_that_it_makes() -> None:
    both: dict[str, Any] = {"division_mm": 0.02, "divisions_per_turn": 50}
    lathe = replace(
        with_cross(shows="radius", step_mm=0.01, direction="inward", **both),
        carriage=Axis(shows="length", step_mm=0.02, direction="to_chuck", **both),
    )
    made = planned(lathe=lathe)
    figure = r"(bore: go to \d+ turns? [\d.]+ dial|(?!bore: ).*go to \d+ turns? [\d.]+ div), "
    figure += r"makes \d+\.\d{2,3}([,;]|$)"
    said = [
        one.reading_text for one in made.passes if one.axis in ("cross", "long") and one.operation != "face"
    ]
    said += [one.along_text for one in made.passes if one.along_text]
    assert len(said) > 30 and [text for text in said if not re.match(figure, text)] == []


def test_the_chamfer_tool_touches_where_the_blade_will_cut_and_never_the_ring() -> None:
    made = planned()
    before = made.of("lower_chamfer")[0].before
    touched = next(
        re.search(r"behind the ring at (\d+\.\d\d), where the blade will cut", text) for text in before[1:]
    )
    assert touched is not None
    ring = 1.10 + 0.10
    assert ring < float(touched[1]) < ring + made.order.parting.blade_mm
    assert before[0] == "touch off on the face: carriage to zero"


def test_where_tools_show_no_numbers_no_sentence_of_the_plan_has_one() -> None:
    offsets = {"offsets_mm": ((1, 0.055), (2, -0.046))}
    for numbered, there in ((True, True), (False, False)):
        made = planned(lathe=replace(LATHE, numbered_tools=numbered), spares=1, **offsets)
        said = [*made.set_up_words, *made.warnings, *(text for one in made.passes for text in one.before)]
        assert any(re.search(r"(tool|bar) \d", text) for text in said) is there
        assert any("the boring bar" in text for text in said) is not there


def test_words_before_the_first_pass_of_each_operation() -> None:
    made = planned(spares=1)
    boring = "spindle stopped: fit tool 2 (boring bar), tight, on centre height"
    turning = "spindle stopped: fit tool 1 (keen right-hand turning tool), tight, on centre height"
    chamfer = "spindle stopped: fit tool 3 (45 degree chamfer tool), tight, on centre height"
    face = "touch off on the face: carriage to zero"
    must = "the read-out must show {0}, diameter; if not, set it"
    come = "come to every figure moving {0}; past it, back {1} by over 0.05 mm and come again"
    outward = come.format("out", "in")
    zero = "point at the face: tailstock to zero"
    said = {
        ("face", 1): (),
        ("face", 2): (turning,),
        ("rough_outside", 1): (
            "touch off on the outside (36.00): set the read-out to 36.00, diameter",
            come.format("in", "out"),
        ),
        ("drill", 2): (
            "spindle stopped: tool post clear",
            "the hole goes on; spindle stopped: rule across the face, point against it: tailstock to zero",
        ),
        ("drill", 1): (zero,),
        ("rough_bore", 1): (
            boring,
            "touch off on the bore (13.00): set the read-out to 13.00, diameter",
            outward,
            face,
        ),
        ("rough_bore", 2): (boring, "touch off on the bore (13.00): " + must.format("13.00"), outward, face),
        ("finish_outside", 1): (
            turning,
            "touch off on the outside (33.60): " + must.format("33.60"),
            come.format("in", "out"),
            face,
        ),
        ("finish_bore", 1): (boring, "touch off on the bore (31.44): " + must.format("31.44"), outward, face),
        ("finish_bore", 2): ("touch off on the bore (31.44): " + must.format("31.44"), outward),
        ("chamfer", 1): (chamfer, "touch off on the bore's open edge: carriage to zero"),
        ("lower_chamfer", 1): (
            face,
            "touch off on the outside behind the ring at 1.70, where the blade will cut (33.20): "
            "set the read-out to 33.20, diameter",
        ),
    }
    assert {key: made.of(*key)[0].before for key in said} == said
    assert planned(chamfer_mm=0.0).of("lower_chamfer")[0].before[0] == chamfer
    assert not any(one.before for one in made.of("rough_bore")[1:])


def test_sentences_of_the_passes_that_are_no_cuts_of_a_diameter() -> None:
    made = planned()
    said = {
        "face": "face: 0.30 off; carriage to zero",
        "centre": "centre drill: go to 1.5, length, from the tailstock",
        "drill": "drill of 13 mm: go to 6.4, length, at its point; draw it out often",
        "rest": "rest: spindle stopped, 10 minutes, until as cool as the room",
        "chamfer": "chamfer: go to 0.15, length, from the edge touched",
        "lower_chamfer": "lower edge: go to 32.80, diameter",
        "part": "part: go to 2.20, length; then in to the bore, the ring drops on the rod",
        "dress": "dress: parted face on fine paper on a flat plate, to 1.10 high at four places",
    }
    assert {act: made.of(act)[0].reading_text for act in said} == said
    assert made.of("part")[0].before == (
        "spindle stopped: fit tool 4 (parting blade), tight, on centre height",
        "touch off on the face with the side of the blade nearer the chuck: carriage to zero",
        "the width of the blade, 1.00 mm, is in the figure: it is cut away on the chuck's side",
        "smooth rod in the tailstock, loose in the bore, to catch the ring; nothing is held by hand",
    )

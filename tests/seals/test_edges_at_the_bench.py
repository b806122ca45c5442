"""What the younger seals and the lathe make of figures at the edges, each asked directly."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest

from bench.file.entry import Entry
from bench.job import keys
from bench.job.begun import Beginnings
from bench.job.job import replay
from bench.job.kept import UNKNOWN
from bench.job.mask import Mask
from bench.seals import SEALS
from bench.seals.foot.drawing import FootSection
from bench.seals.foot.size_words import beside_rim, load_words, stands_words
from bench.seals.foot.text import beside, foot_text, made_text
from bench.seals.foot.within import own, own_step, theirs
from bench.seals.gasket import decided as gasket_decided, text as gasket_text
from bench.seals.gasket.fit_steps import width_step
from bench.seals.gasket.planning import said_of_gasket
from bench.seals.lathe import cut_checks, turning_words
from bench.seals.lathe.bar_outside import as_measured, outside_mask
from bench.seals.lathe.left_on_bar import deepest_mm
from bench.seals.lathe.turning_facts import LONGEST, from_text, kept_words, to_text
from bench.seals.oring import decided as oring_decided, text as oring_text
from bench.seals.oring.fit_steps import cord_gauge
from bench.seals.oring.measure import digits, fitting_corner
from bench.seals.oring.size_steps import greased_with
from bench.shop.shop import built_in
from bench.stages.again import SEARCHED
from rules.bars import Bar
from rules.checks import OutOfRange
from rules.equipment import Lathe
from rules.foot.sizing import FootQuestion, foot_sizing
from rules.gasket.room import GasketSizes
from rules.lengths import INCH, speaking
from rules.oring.housing import Length
from rules.oring.judging import CordWindow
from rules.turning.order import SetUp
from rules.turning.passes import Plan
from rules.turning.planning import plan
from tests.rules.test_foot_turned import RING, planned
from tests.seals.test_foot import at
from tests.whole.lathe_presses import core, dials, stepless
from tests.whole.repairer import HEAD

LATHE = built_in().lathes[0]
KINDS = ("gasket", "oring", "foot")
SAID = {
    **{word: ("oring_place", word) for word in ("back", "crown", "tube", "pusher")},
    **{
        word: ("gasket_joint", word)
        for word in ("back_thread", "back_screws", "glass_thread", "glass_screws")
    },
}
"""What says where a seal lies, by its word."""


def test_what_a_bar_may_measure_and_when_it_is_another() -> None:
    """1.5 thinner to 2.5 thicker; three digits before the point once 99.5 may be keyed."""
    assert outside_mask(30.0) == Mask(2, 2, "mm", 28.5, 32.5)
    assert outside_mask(4.0).low == 3.0 and outside_mask(4.6).low == pytest.approx(3.1)
    assert [outside_mask(one).before for one in (96.9, 97.0, 100.0)] == [2, 3, 3]
    bar = Bar(plastic="acetal", diameter_mm=30.0, length_mm=100.0, colour="white")
    for mm, its in ((28.5, True), (28.49, False), (32.5, True), (32.51, False)):
        assert as_measured(bar, mm) == (replace(bar, outside_mm=mm) if its else bar)


def test_a_belt_is_found_among_its_nearest_steps() -> None:
    names = ("a", "b", "c", "d", "e", "f")
    assert [one.word for one in cut_checks.dealt(names, 0)] == ["a", "b", "c", "d"]
    assert [one.word for one in cut_checks.dealt(names, 3)] == ["d", "c", "e", "b"]
    assert [one.word for one in cut_checks.dealt(names[:2], 1)] == ["b", "a"]
    by_number = cut_checks.belt_asked(("step 11", "step 12"), 1)
    assert by_number["readback"] == 12 and "choices" not in by_number and "step 12" not in by_number["title"]
    for said in (("step 1", "step 1 of the back gear", "step 2"), ("inner", "step 2")):
        assert "readback" not in cut_checks.belt_asked(said, 0)


def speeds(**more: Any) -> tuple[dict[str, Any], ...]:
    """How it is asked which speed is set."""
    return cut_checks.speed_asked(replace(LATHE, **more), 1000.0)


def test_a_speed_is_asked_by_what_can_be_seen() -> None:
    assert speeds(shows_speed=False) == () and speeds(speeds_rpm=(1000.0,)) == ()
    (lever,) = speeds()
    assert (lever["readback"], lever["readback_within"]) == (1000, 0) and "lever" in lever["title"]
    assert [text.split()[3] for text in lever["wrong"]] == ["too", "too"] and "slow" in lever["wrong"][0]
    (scale,) = speeds(stepless=True, speeds_rpm=(100.0, 2500.0))
    assert scale["readback_within"] == 100 and "scale" in scale["title"]
    (odd,) = cut_checks.speed_asked(LATHE, 562.5)
    assert (odd["readback"], odd["readback_within"]) == (562, 1)
    (belt,) = speeds(speeds_rpm=(500.0, 1000.0), speed_names=("step 7", "step 8"))
    assert belt["readback"] == 8


def test_how_far_a_bar_stands_out_is_read_off_a_rule() -> None:
    assert cut_checks.by_the_rule(25.4) == ("whole millimetres", "mm", 25)
    with speaking(INCH):
        assert cut_checks.by_the_rule(25.4) == ("sixteenths of an inch", "sixteenths", 16)


def test_a_tool_in_the_post_is_looked_at_by_its_number_or_its_kind() -> None:
    tool = next(one for one in built_in().tools if one.kind == "chamfer")
    by_number = cut_checks.tool_change("tool_x", LATHE, tool, ("a",))
    assert by_number.readback == tool.number and by_number.choices == ()
    assert by_number.rests_on == ("a", keys.slip_of("tool_x")) and by_number.title.endswith("number?")
    by_kind = cut_checks.tool_change("tool_x", replace(LATHE, numbered_tools=False), tool, ())
    words = [one.word for one in by_kind.choices]
    assert by_kind.readback is None and words == ["chamfer", "turning", "boring", "parting"]


def turned(lathe: Lathe = LATHE, **more: Any) -> Plan:
    """The plan of a ring with a foot."""
    bar = max(built_in().bars, key=lambda one: one.diameter_mm)
    return plan(ring=RING, set_up=SetUp(lathe=lathe, tools=built_in().tools, bar=bar, **more))


def test_an_order_is_read_back_as_it_was_kept() -> None:
    """With a foot, of hand dials, of a core, of a stepless lathe; what is usual is not written."""
    for made in (planned(), turned(dials().lathes[0]), turned(stepless().lathes[0]), turned(spares=2)):
        text = to_text(made.order)
        assert from_text(text) == made.order
        raw = json.loads(text)
        assert "stock" not in raw and "shows_speed" not in raw["lathe"]
        assert ("dials" in raw) is made.order.lathe.cross.is_dial
        assert (raw["ring"]["foot_mm"], raw["ring"]["corner_mm"]) == (RING.foot_mm, RING.corner_mm)
    own_core = core()
    bar = max(own_core.bars, key=lambda one: one.diameter_mm)
    big = replace(RING, outside_diameter_mm=40.6, bore_mm=39.44, foot_bore_mm=38.0)
    cored = plan(ring=big, set_up=SetUp(lathe=own_core.lathes[0], tools=own_core.tools, bar=bar)).order
    assert from_text(to_text(cored)) == cored and "opening" in json.loads(to_text(cored))
    (word,) = kept_words(cored)
    assert word == f"order {to_text(cored)}"


def test_letters_of_a_name_are_written_as_they_are() -> None:
    order = planned().order
    assert '"name":"Drehb\u00e4nkchen"' in to_text(
        replace(order, lathe=replace(order.lathe, name="Drehb\u00e4nkchen"))
    )


def test_an_order_too_long_for_a_line_is_not_kept() -> None:
    order = planned().order
    room = LONGEST - len(json.dumps(to_text(order))) + len(order.lathe.name)
    for letters, kept in ((room, 1), (room + 1, 0)):
        assert len(kept_words(replace(order, lathe=replace(order.lathe, name="x" * letters)))) == kept


def test_what_is_no_order_is_refused_with_the_reason() -> None:
    raw = json.loads(to_text(planned().order))
    for text in ("{}", "[]", "x", json.dumps({**raw, "lathe": 3}), json.dumps({**raw, "more": 1})):
        with pytest.raises(OutOfRange, match="cannot be used, it is no turning order; this one is worked"):
            from_text(text)
    wrong = {**raw, "bar": {**raw["bar"], "length_mm": -1.0}}
    with pytest.raises(OutOfRange, match=r"cannot be used \(.*\); this one is worked"):
        from_text(json.dumps(wrong))
    old = {**raw, "lathe": dict(raw["lathe"])}
    assert from_text(json.dumps(old)).lathe.speeds_rpm == LATHE.speeds_rpm


def test_how_deep_a_piece_goes_into_the_bar() -> None:
    """As far as it is turned, bored or drilled, whichever is most; of what cannot be read nothing is said."""
    made = planned()
    drilled = max(one.target_mm or 0.0 for one in made.passes if one.axis == "tailstock")
    assert drilled > made.order.turned_length_mm and deepest_mm(to_text(made.order)) == drilled
    assert deepest_mm("x") == deepest_mm("{}") == 0.0


def test_words_of_a_page_at_the_lathe() -> None:
    made = planned()
    (face, *_), (part,) = made.of("face"), made.of("part")
    assert turning_words.figure_of(face) == "" and turning_words.figure_of(part) == "2.65"
    assert turning_words.set_words((), made) == "" and turning_words.fed_words(()) == ""
    goes = turning_words.targets(made.passes[:2], made, looked=True)
    assert turning_words.only_first(goes) == "only face, spindle stopped"
    assert turning_words.only_first(goes[1:]) == "only this one, spindle stopped"
    assert goes[0].on == "" and goes[1].on == "cross slide"
    assert turning_words.after_words(()) == () and turning_words.after_words(made.of("rest")) == ()
    assert turning_words.after_words(made.of("dress"))[0].startswith("Then burrs off")
    assert turning_words.title_of("another_outside_2") == "Another pass outside"
    assert turning_words.title_of("another_bore_2") == "Another pass in the bore"


def test_a_gasket_is_not_called_a_ring_in_its_plan() -> None:
    said = said_of_gasket(planned())
    texts = [*said.stock_words, *(text for one in said.passes for text in (one.reading_text, *one.before))]
    assert not [text for text in texts if " ring" in f" {text}".replace("spring", "")]
    assert any("gasket" in text for text in said.stock_words)


@pytest.mark.parametrize("lost", ["outside", "inside", "thickness"])
def test_a_gasket_without_one_of_its_sizes_is_none(lost: str) -> None:
    words = ("accept", "outside 29.35 mm", "inside 27.75 mm", "thickness 0.60 mm", "way cut")
    assert gasket_decided.sizes_from(words) == GasketSizes(29.35, 27.75, 0.60)
    with pytest.raises(ValueError, match="lacks one of its sizes"):
        gasket_decided.sizes_from(tuple(one for one in words if not one.startswith(lost)))


@pytest.mark.parametrize("lost", ["inside", "cord", "inside_limit", "cord_limit"])
def test_an_oring_without_one_of_its_sizes_is_none(lost: str) -> None:
    words = ("accept", "inside 26.00 mm", "cord 0.75 mm", "inside_limit 0.309 mm", "cord_limit 0.050 mm")
    ring = oring_decided.ring_from((*words, "inside_by reading", "cord_by standard"))
    assert (ring.inside, ring.cord) == (Length(mm=26.0, limit_mm=0.309), Length(mm=0.75, limit_mm=0.05))
    assert (ring.inside_by, ring.cord_by) == ("reading", "standard")
    with pytest.raises(ValueError, match="lacks one of its sizes"):
        oring_decided.ring_from(tuple(one for one in words if not one.startswith(f"{lost} ")))


def test_what_is_in_no_table_any_more_goes_by_its_key() -> None:
    assert gasket_text.material_name("nbr") == oring_text.material_name("nbr") == "nitrile rubber (NBR)"
    assert gasket_text.material_name("cork") == oring_text.material_name("cork") == "cork"
    assert greased_with(None) == "a grease that its rubber bears"
    room = {"outside_mm": None}
    assert gasket_text.room_text(room) == (
        "Readings were changed after the gasket was decided: no figure stands.",
    )
    assert oring_text.groove_text({"inner_mm": None}) == (
        "Readings were changed after the O-ring was decided: no figure stands.",
    )


def test_a_gauge_of_cords_is_shown_where_there_is_room_for_one() -> None:
    assert cord_gauge(None, 0.75) is None and cord_gauge(CordWindow(0.7, 0.7049, "", ""), 0.70) is None
    gauge = cord_gauge(CordWindow(0.7, 0.7051, "", ""), 0.70)
    assert gauge is not None and (gauge.low, gauge.high, gauge.target) == (0.7, 0.7051, 0.70)


def test_how_a_width_and_a_groove_are_keyed() -> None:
    """Up to 3 mm, or twice as wide as it was planned."""
    assert [width_step(one).mask.high for one in (0.8, 1.5, 2.0)] == [3.0, 3.0, 4.0]  # type: ignore[union-attr]
    gauge = width_step(0.8).gauge
    assert gauge is not None and (gauge.low, gauge.high) == pytest.approx((0.7, 0.9))
    assert [digits(one) for one in (9.9, 10.0, 62.0)] == [1, 2, 2]
    assert fitting_corner(0.5, Length(mm=0.6)) == 0.3 and fitting_corner(0.05, Length(mm=0.6)) == 0.05


FOOT = FootQuestion(
    seat_depth_mm=1.60, ledge_mm=28.40, glass_mm=29.50, edge_mm=1.28, bevel_mm=0.20, over_mm=0.0
)


def test_where_the_edge_of_a_glass_stands_is_said_from_half_a_hundredth_on() -> None:
    for thick, said in (
        (0.324, "level with the rim"),
        (0.33, "0.01 mm over the rim"),
        (0.316, "level with the rim"),
        (0.31, "0.01 mm under the rim"),
    ):
        found = foot_sizing(replace(FOOT, thick_mm=thick))
        assert beside_rim(found) == said == beside(found.stands_over_mm)
    assert (
        stands_words(foot_sizing(FOOT)) == "home on the foot the edge of the glass stands level with the rim"
    )
    hangs = foot_sizing(replace(FOOT, home=False, over_mm=0.10))
    assert stands_words(hangs).endswith("down on the foot its edge would stand 0.05 mm over the rim")
    assert load_words(foot_sizing(FOOT)).endswith(f"how it sinks is {UNKNOWN}")


def test_the_section_of_a_foot_goes_round_from_its_chamfer() -> None:
    """Foot 1.2 wide, wall 0.6 on its outside, 1.4 high with 0.4 of foot."""
    section = FootSection(1.2, 0.6, 1.4, 0.4, 0.15, 0.1)
    corners = [(0.75, 0), (1.2, 0), (1.2, 1.3), (1.1, 1.4), (0, 1.4), (0, 1.0), (0.6, 1.0), (0.6, 0.15)]
    assert [pytest.approx(one) for one in section.outline] == corners


def test_what_the_sheet_says_of_a_foot_of_which_little_was_kept() -> None:
    nothing = dict.fromkeys(
        ("carries", "stands_over_mm", "load_n", "bears_mpa", "sinks_mm", "sinks_years_mm")
    )
    foot = {"thickness_mm": 0.32, "inside_mm": 28.4, "clamp_presses_mpa": None, **nothing}
    assert foot_text(foot) == ("Foot planned: 0.32 thick, inside 28.40 mm.",)
    loaded = {**foot, "load_n": 684.0, "bears_mpa": 21.5}
    assert foot_text(loaded)[1] == "It bears 21.5 MPa where the water pushes with 684 N (estimate)."
    assert len(foot_text({**foot, "load_n": 684.0})) == 1
    assert made_text({"measured_mm": []}) == ()
    assert made_text({"measured_mm": [0.32, 0.33]}) == ("Foot measured at 2 places: 0.320, 0.330 mm.",)


def test_what_a_foot_shares_keeps_its_key_and_looks_nothing_up() -> None:
    for key in (
        keys.SITTING,
        keys.LATHE_BAR,
        keys.LATHE_SLIP,
        "jobs",
        "shop",
        "",
        "empty_result",
        "cased_hold",
    ):
        assert own(key) == theirs(key) == key
    assert (
        own("ring") == "foot_accepted" and own("foot_ring") == "foot_ring" and theirs("foot_ring") == "ring"
    )
    assert theirs("gasket_depth_1") == "" and own(keys.asked_in_search("kind")) == keys.asked_in_search(
        "kind"
    )
    ring = at("foot_accepted").step
    assert ring.learns == () and ring.looks_for == ()
    kept = own_step(replace(ring, key="ring", rests_on=("case_bore_1", "sitting"), learns=("x",)))
    assert (kept.key, kept.rests_on, kept.learns) == ("foot_accepted", ("foot_case_bore_1", "sitting"), ())


def test_what_a_job_begun_after_another_takes_over() -> None:
    """Steps with choices, in the order in which they are asked."""
    taken = {word: [step.key for step in SEALS[word].alike(built_in())] for word in KINDS}
    assert taken == {
        "gasket": ["gasket_joint", "gasket_meets", "gasket_shape", "gasket_material"],
        "oring": ["oring_place", "oring_held", "oring_lies", "oring_material"],
        "foot": ["foot_stands", "foot_home", "foot_clamped"]
        + ["foot_glass_material", "foot_plastic", "foot_case_metal"],
    }
    assert SEALS["gasket"].alike(built_in())[-1].usual == "acetal"


def test_what_a_kind_of_seal_is_known_by() -> None:
    named = {word: (SEALS[word].short, SEALS[word].accepted, SEALS[word].made_by) for word in KINDS}
    assert named == {
        "gasket": ("gasket", "gasket_accepted", ("gasket_part", "gasket_cut_out")),
        "oring": ("O-ring", "oring_accepted", ()),
        "foot": ("ring", "foot_accepted", ("foot_part",)),
    }
    begun = {word: vars_of(SEALS[word].again.begin) for word in KINDS}
    assert begun == {word: (f"{word}_attempt", f"{word}_spoiled", f"{word}_measure_again") for word in KINDS}
    fitted = {word: (SEALS[word].fitting.result, SEALS[word].fitting.asks) for word in KINDS}
    assert fitted == {
        "gasket": ("gasket_laid", "gasket_corrected"),
        "oring": ("oring_laid", "oring_corrected"),
        "foot": ("foot_laid", "foot_fit_correction"),
    }
    stopped = [said for word in KINDS for at, said in SEALS[word].endings.items() if at[0] == keys.PAINT_GO]
    assert stopped[0].endswith("no gasket was made.") and "no O-ring was renewed" in stopped[1]
    assert all(
        at[0].startswith((word, keys.PAINT_GO, *SEARCHED)) for word in KINDS for at in SEALS[word].endings
    )
    assert all(at.startswith((word, keys.PAINT_GO)) for word in KINDS for at in SEALS[word].reasons)


def vars_of(begin: Beginnings) -> tuple[str, str, str]:
    """Keys under which another one is begun."""
    return begin.attempt, begin.spoiled, begin.measured


def entered(key: str, word: str) -> Entry:
    """One answer in a file."""
    return Entry(n=1, at="", kind="answer", key=key, value=word)


def test_which_joint_and_which_seal_of_the_watch_it_is() -> None:
    jobs = {word: replay(HEAD, (entered(*said),)) for word, said in SAID.items()}
    none = replay(HEAD, ())
    found = {word: (SEALS["oring"].joint(job), SEALS["oring"].closes(job)) for word, job in jobs.items()}
    assert found["crown"] == ("oring_crown", "crown") and found["tube"] == ("oring_crown", "tube")
    assert found["pusher"] == ("oring_pushers", "pushers") and found["back"] == ("oring_back", "back")
    assert (SEALS["oring"].joint(none), SEALS["oring"].closes(none)) == ("oring_back", "back")
    lids = {word: SEALS["gasket"].closes(job) for word, job in jobs.items() if word.endswith(("d", "s"))}
    assert lids == {
        "back_thread": "back",
        "back_screws": "back",
        "glass_thread": "glass",
        "glass_screws": "glass",
    }
    assert SEALS["gasket"].joint(none) == "back" and SEALS["foot"].closes(none) == "glass"
    assert SEALS["oring"].bought(none) and not SEALS["gasket"].bought(none) and not SEALS["foot"].bought(none)


def test_what_a_drawing_needs() -> None:
    """None while a size is not known, or where there is nothing between inside and outside."""
    sizes = {"outside_mm": 29.0, "inside_mm": 27.4, "thickness_mm": 0.6}
    blank = {"made_gasket": {"mean_mm": None, "width_mm": None}, "room": {"outside_mm": None}}
    drawn = SEALS["gasket"].drawing({"gasket": sizes, **blank})
    assert drawn is not None and (drawn.wide_mm, drawn.high_mm) == pytest.approx((0.8, 0.6))
    assert drawn.made_for == ()
    for name in sizes:
        assert SEALS["gasket"].drawing({"gasket": {**sizes, name: None}, **blank}) is None
    for inside in (29.0, 29.5):
        assert SEALS["gasket"].drawing({"gasket": {**sizes, "inside_mm": inside}, **blank}) is None
    cord = {"inside_mm": 26.0, "cord_mm": 0.8}
    rest = {"measured_oring": {"mean_mm": None, "inside_mm": None}, "groove": {"inner_mm": None}}
    ring = SEALS["oring"].drawing({"oring": cord, **rest})
    assert ring is not None and (ring.wide_mm, ring.high_mm) == pytest.approx((0.8, 0.8))
    assert len(ring.outline) == 48 and ring.made_for == ()
    assert all((x - 0.4) ** 2 + (y - 0.4) ** 2 == pytest.approx(0.16) for x, y in ring.outline)
    for name in cord:
        assert SEALS["oring"].drawing({"oring": {**cord, name: None}, **rest}) is None


def test_a_foot_is_drawn_where_it_can_be() -> None:
    ring = {"outside_diameter_mm": 30.6, "bore_mm": 29.4, "height_mm": 1.4, "wall_mm": 0.6}
    ring |= {"chamfer_mm": 0.15, "lower_chamfer_mm": 0.1}
    foot = {"thickness_mm": 0.4, "inside_mm": 28.2, "mean_mm": None}
    rest = {"on_the_ring": {"wall_mean_mm": None, "outside_final": False}, "made": {"height_mm": None}}
    data = {"ring": ring, "foot": foot, **rest}
    drawn = SEALS["foot"].drawing(data)
    assert drawn is not None and (drawn.wide_mm, drawn.high_mm) == pytest.approx((1.2, 1.4))
    assert len(drawn.leaders) == 6
    plain = SEALS["foot"].drawing({**data, "ring": {**ring, "chamfer_mm": 0.0}})
    assert plain is not None and len(plain.leaders) == 5
    for name in ring:
        assert SEALS["foot"].drawing({**data, "ring": {**ring, name: None}}) is None
    wrong = ({"thickness_mm": None}, {"inside_mm": 29.5}, {"thickness_mm": 1.4}, {"mean_mm": 1.5})
    for one in wrong:
        assert SEALS["foot"].drawing({**data, "foot": {**foot, **one}}) is None
    assert SEALS["foot"].drawing({**data, "ring": {**ring, "wall_mm": 0.0}}) is None

"""The asking of a shop and the setting of the manual by themselves: what is asked next, what finished rings
say in words, a line folded and a picture that finds no room.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest

from bench.asking import asking, lately, lathe, measuring, names, opening, questions
from bench.asking.asking import ALL_PARTS, BEHIND, Asked, chain, told
from bench.asking.slides import slide_said, usual_way
from bench.file.entry import Entry, Head
from bench.job.asking import Stage, T
from bench.job.job import Answer, Job, replay
from bench.job.mask import Mask
from bench.job.steps import Choice, Picture, Step
from bench.manual import chapters
from bench.manual.chapters import Chapter, ManualPiece, blocks_of, chapter_named, chapter_of
from bench.manual.lines import block_lines, folded, lines_of, pictured
from bench.shop.changes import Change
from bench.shop.groups import BARS, GROUPS, INSTRUMENTS, LATHE, LEARNING, PAPERS, PRESS, TESTER, TOOLS, UNITS
from bench.shop.lately import Lately, Repeats, ToolOff
from bench.shop.shop import Shop, built_in
from rules.equipment import Axis
from rules.instrument import Instrument
from rules.learning.landing import Lands
from rules.learning.promised import Kept

SHOP = built_in()
HEAD = Head(format=1, id="", job="", made_by="")


def driven(stage: Stage[T], words: Mapping[str, str]) -> tuple[list[Step], T]:
    """The steps of a stage, each answered by a word of its own or as usual, and what it gives."""
    steps: list[Step] = []
    answer: Answer | None = None
    while True:
        try:
            step = next(stage) if answer is None else stage.send(answer)
        except StopIteration as end:
            return steps, end.value
        steps.append(step)
        usual = step.usual or (step.choices[0].word if step.choices else "")
        answer = Answer(len(steps), "", step.key, (words.get(step.key, usual),))


def test_a_choice_begins_with_its_usual_value() -> None:
    picture = Picture("p")
    step = questions.choice(
        "k",
        "K?",
        ("a", "A"),
        ("b", "B"),
        ("c", "C"),
        usual="b",
        say=("s",),
        why="w",
        rests_on=("r",),
        picture=picture,
    )
    assert step == Step(
        key="k", stage="shop", kind="choice", title="K?", say=("s",), why="w", rests_on=("r",),
        picture=picture,
        choices=(Choice("b", "B"), Choice("a", "A"), Choice("c", "C")),
    )  # fmt: skip
    assert [one.word for one in questions.choice("k", "K?", ("a", "A"), ("b", "B")).choices] == ["a", "b"]


@pytest.mark.parametrize(
    ("mm", "inch", "low", "word", "mask", "usual", "gives"),
    [
        (8.126, False, 1.0, "", Mask(2, 2, "mm", 1.0, 50.8, fewer=True), "8.13 mm", 8.126),
        (8.126, False, 0.0, "8.12 mm", Mask(2, 2, "mm", 0.0, 50.8, nought=True, fewer=True), "8.13 mm", 8.12),
        (12.7, True, 2.54, "", Mask(1, 3, "in", 0.1, 2.0, fewer=True), "0.500 in", 12.7),
        (12.7, True, 2.54, "0.333 in", Mask(1, 3, "in", 0.1, 2.0, fewer=True), "0.500 in", 8.4582),
    ],
)
def test_a_length_is_exact_where_the_usual_one_is_taken(
    mm: float, inch: bool, low: float, word: str, mask: Mask, usual: str, gives: float
) -> None:
    asked = questions.length(
        "k",
        "K?",
        mm,
        inch=inch,
        whole=2,
        places=2,
        low_mm=low,
        high_mm=50.8,
        rests_on=("r",),
        why="w",
        say=("s",),
    )
    (step,), given = driven(asked, {"k": word} if word else {})
    assert step == Step(
        key="k",
        stage="shop",
        kind="number",
        title="K?",
        mask=mask,
        usual=usual,
        rests_on=("r",),
        why="w",
        say=("s",),
    )
    assert given == gives
    (one,), _ = driven(
        questions.length("k", "K?", 25.4, inch=True, whole=1, places=1, low_mm=0, high_mm=9.0), {}
    )
    assert one.mask is not None and one.mask.before == 1


def test_a_count_says_what_one_enter_means() -> None:
    no_more = questions.count("k", "K?", "no more", digits=5, unit="rpm", low=10, high=20000, why="w")
    assert (no_more.usual, no_more.usual_said, no_more.mask, no_more.why) == (
        "no more",
        "1 Enter: no more",
        Mask(5, 0, "rpm", 10, 20000),
        "w",
    )
    said = {
        (12.0, "", 1.0, 0): ("12", "1 Enter takes 12; 1 itself is keyed 01"), (1.0, "", 1.0, 0): ("1", ""),
        (12.0, "", 1.1, 0): ("12", ""),
        (12.0, "", 0.0, 0): ("12", "1 Enter takes 12; 1 itself is keyed 01"),
        (12.0, "bar", 0.1, 1): ("12.0 bar", ""),
    }  # fmt: skip
    for (usual, unit, low, decimals), found in said.items():
        step = questions.count("k", "K?", usual, digits=4, unit=unit, low=low, high=99, decimals=decimals)
        assert (step.usual, step.usual_said) == found and step.mask == Mask(4, decimals, unit, low, 99)
    assert questions.count("k", "K?", "x", digits=1, high=9).mask == Mask(1, 0, "", 0.0, 9)
    assert (
        driven(questions.number_said(no_more), {})[1] is None
        and driven(questions.number_said(no_more), {"k": "20 rpm"})[1] == 20.0
    )
    assert questions.listed((1.0, 2.5, 3.0, 4.0), "mm") == "1, 2.5, 3, 4 mm"
    assert questions.listed((1, 2, 3, 4, 5), "rpm") == "1, 2 .. 5 rpm"


def step_of(asked: Asked) -> Step:
    """Its open question."""
    step = asked.walk.open
    assert step is not None
    return step


def test_a_part_is_asked_to_its_end_and_told() -> None:
    asked = Asked(SHOP, PRESS)
    assert (step_of(asked).key, asked.walk.seal, asked.heading, asked.put_off) == (names.FORCE, "", "", False)
    with pytest.raises(ValueError, match="force is still to be answered"):
        asked.changes()
    said = asked.answered(names.FORCE, "900 N", "2026-03-02T09:00:00+00:00")
    assert said.answers == (
        Entry(n=1, at="2026-03-02T09:00:00+00:00", kind="answer", key=names.FORCE, value="900 N"),
    )
    assert said.walk.open is None and said.job.last_n == 1 and said.taken_back() == asked
    assert said.changes() == (Change(PRESS, (replace(SHOP.press, largest_force_n=900.0),)),)
    assert said.answered("x", "y", "").answers[1].n == 2
    assert Asked(SHOP, LATHE).walk.open == driven(ALL_PARTS[LATHE](SHOP), {})[0][0]
    replaced = (
        Asked(SHOP, LATHE).answered("cross_shown_by", "dial", "").answered("cross_shown_by", "readout", "")
    )
    assert [step.key for step, _ in replaced.walk.done] == ["cross_shown_by"]


def test_what_is_asked_after_the_opening() -> None:
    first = asking.opening(SHOP, (LATHE, BARS))
    assert (first.part, first.after, first.heading, first.following(SHOP)) == (
        "your_shop",
        (LATHE, BARS),
        "not said yet",
        None,
    )
    assert step_of(first) == opening.opening_step(SHOP, (LATHE, BARS))
    every, page_by_page, later = (
        first.answered(names.OPENING, word, "") for word in (opening.ALL, opening.ASK, opening.LATER)
    )
    assert (
        every.changes() == (Change(LATHE, SHOP.lathes), Change(BARS, SHOP.bars))
        and every.following(SHOP) is None
    )
    assert (page_by_page.changes(), later.changes(), first.changes()) == ((), (), ())
    assert [one.put_off for one in (first, every, page_by_page, later)] == [False, False, False, True]
    assert later.following(SHOP) is None
    assert page_by_page.following(SHOP) == Asked(SHOP, UNITS, (LATHE, BARS))
    assert asking.opening(SHOP, (PRESS,)).answered(names.OPENING, opening.ASK, "").following(SHOP) == Asked(
        SHOP, PRESS
    )
    assert not Asked(SHOP, PRESS).answered(names.OPENING, opening.LATER, "").put_off


def test_what_is_asked_after_the_list_of_parts() -> None:
    parts = Asked(SHOP, names.PART)
    assert (
        step_of(parts) == opening.part_step(SHOP) and parts.following(SHOP) is None and parts.changes() == ()
    )
    assert parts.answered(names.PART, opening.BACK, "").following(SHOP) is None
    other = replace(SHOP, works_in="inch")
    assert parts.answered(names.PART, TOOLS, "").following(other) == Asked(other, TOOLS, (names.PART,))
    assert parts.answered(names.PART, UNITS, "").following(SHOP) == Asked(SHOP, UNITS, (LEARNING, names.PART))
    assert Asked(SHOP, UNITS, (LEARNING, names.PART)).following(SHOP) == Asked(SHOP, LEARNING, (names.PART,))
    assert chain(SHOP, ()) is None and Asked(SHOP, LATHE).following(SHOP) is None
    headings = {part: Asked(SHOP, part).heading for part in (UNITS, LEARNING, PAPERS, LATHE)}
    assert headings == {UNITS: "mm or inch", LEARNING: "learning", PAPERS: "customer's papers", LATHE: ""}
    assert BEHIND == {UNITS: (UNITS, LEARNING)} and set(ALL_PARTS) == {*GROUPS, UNITS, LEARNING, PAPERS}
    assert [step_of(Asked(SHOP, part)).key for part in (UNITS, LEARNING, PAPERS)] == [
        "works_in",
        "learns",
        "papers_in",
    ]


def test_what_small_parts_add_up_to() -> None:
    def job_of(key: str, word: str) -> Job:
        return replay(HEAD, [Entry(n=1, at="", kind="answer", key=key, value=word)])

    assert told(job_of("works_in", "inch"), asking.units_said(SHOP)) == Change(UNITS, ("inch",))
    assert told(job_of("papers_in", "de"), asking.papers_said(SHOP)) == Change(PAPERS, ("de",))
    assert [told(job_of("learns", word), asking.learning_said(SHOP)).things for word in ("yes", "no")] == [
        (True,),
        (False,),
    ]
    assert (names.of("cross", "turn"), names.nth("holds", 2)) == ("cross_turn", "holds_2")


def test_every_question_of_a_shop_has_its_name() -> None:
    """By its name a script answers it, and the page beside it is found."""
    said = (
        "WORKS_IN LEARNS PAPERS_IN WHICH CROSS CARRIAGE SHOWN_BY MARKED_IN COUNTS SMALLEST_STEP "
        "DIVISION TURN BACKLASH FIGURES SPEEDS_BY SPEEDS_ARE SPEED SLOWEST FASTEST HOLDS HOLDS_MORE "
        "HOLDS_TO DRILLS_TO NUMBERED TOOL_NUMBER GOES_INTO REACHES BLADE TOOL_MORE READS_TO "
        "READS_MORE BARS_ARE BAR_PLASTIC BAR_ACROSS BAR_LENGTH BAR_COLOUR BAR_MORE BAR_WHICH BAR_LEFT "
        "FORCE GIVES REACHES_BAR GAUGE_STEP"
    )
    named = said.split(" ")
    assert {name: getattr(names, name) for name in named} == {name: name.lower() for name in named}
    assert (names.OPENING, names.PART) == ("your_shop", "shop_part")


def test_what_an_instrument_may_read_to() -> None:
    """Limits of error are common practice, no source."""
    assert {to: row[:3] for to, row in measuring.TO.items()} == {
        "0.001": (0.001, 0.004, "mm"), "0.005": (0.005, 0.01, "mm"), "0.01": (0.01, 0.01, "mm"),
        "0.02": (0.02, 0.03, "mm"),
        "0.05": (0.05, 0.05, "mm"), "0.0001 in": (0.00254, 0.004, "inch"),
        "0.0005 in": (0.0127, 0.03, "inch"),
        "0.001 in": (0.0254, 0.03, "inch"),
    }  # fmt: skip
    assert measuring.READ_BY == {
        "calliper": ("0.01", "0.02", "0.05", "0.0005 in", "0.001 in"), "plug": ("0.001", "0.01"),
        "bore_gauge": ("0.001", "0.005", "0.01", "0.0001 in", "0.0005 in"),
        "depth_gauge": ("0.01", "0.02", "0.0005 in", "0.001 in"),
        "micrometer": ("0.001", "0.01", "0.0001 in", "0.001 in"),
        "ball_micrometer": ("0.001", "0.01", "0.0001 in", "0.001 in"),
    }  # fmt: skip
    usual = {
        kind: (measuring.first_of(kind, inch=False), measuring.first_of(kind, inch=True))
        for kind in measuring.READ_BY
    }
    assert usual == {
        "calliper": ("0.01", "0.0005 in"), "plug": ("0.001", "0.001"), "bore_gauge": ("0.001", "0.0001 in"),
        "depth_gauge": ("0.01", "0.0005 in"), "micrometer": ("0.001", "0.0001 in"),
        "ball_micrometer": ("0.001", "0.0001 in"),
    }  # fmt: skip
    tool = Instrument(name="one", kind="calliper", resolution_mm=0.02, limit_of_error_mm=0.02)
    errors = {
        kind: measuring.as_read(replace(tool, kind=kind), "0.01").limit_of_error_mm
        for kind in measuring.READ_BY
    }
    assert errors == {
        "calliper": 0.03,
        "plug": 0.01,
        "bore_gauge": 0.01,
        "depth_gauge": 0.03,
        "micrometer": 0.01,
        "ball_micrometer": 0.01,
    }
    assert measuring.as_read(tool, "as it is") == tool and measuring.CALLIPER_ERROR_MM == 0.03
    assert (
        measuring.read_to(tool),
        measuring.read_to(replace(tool, unit="inch")),
        measuring.read_to(replace(tool, resolution_mm=0.03)),
    ) == ("0.02", "as it is", "as it is")
    assert (
        measuring.words_of("as it is", replace(tool, resolution_mm=0.0254, unit="inch"))
        == "0.001 in, as it stands in the file"
    )
    assert measuring.words_of("0.01", tool) == "hundredths, 0.01 mm"


def test_speeds_that_stay_leave_the_lathe_as_it_is() -> None:
    plain = replace(SHOP.lathes[0], shows_speed=False)
    belt = replace(plain, speeds_rpm=(310.0, 620.0), largest_rpm=700.0, speed_names=("inner", "outer"))
    for now in (plain, belt):
        assert driven(lathe.speeds_said(now), {})[1] == now
    by_lever = driven(lathe.speeds_said(belt), {"speeds_by": "lever"})[1]
    assert by_lever == replace(belt, speed_names=(), shows_speed=True)
    keyed = driven(
        lathe.speeds_said(belt),
        {"speeds_are": "keyed", "speed_1": "200 rpm", "speed_2": "900 rpm", "speed_3": "200 rpm"},
    )[1]
    assert (keyed.speeds_rpm, keyed.largest_rpm, keyed.speed_names) == (
        (200.0, 900.0),
        900.0,
        ("inner", "outer"),
    )
    assert lathe.step_names(1) == ("step 1, fastest",) and lathe.step_names(3) == (
        "step 1, slowest",
        "step 2",
        "step 3, fastest",
    )
    scale = driven(
        lathe.speeds_said(plain), {"speeds_by": "scale", "slowest": "3000 rpm", "fastest": "100 rpm"}
    )[1]
    assert (scale.speeds_rpm, scale.stepless, scale.shows_speed, scale.largest_rpm) == (
        (100.0, 3000.0),
        True,
        True,
        3000.0,
    )
    blind = driven(lathe.speeds_said(plain), {"speeds_by": "blind"})[1]
    assert (blind.stepless, blind.shows_speed, blind.speeds_rpm) == (
        True,
        False,
        (min(plain.speeds_rpm), max(plain.speeds_rpm)),
    )
    exact = driven(lathe.speed_said("k", "K", 150.4), {})[1]
    assert exact == 150.4 and driven(lathe.speed_said("k", "K", 150.4), {"k": "151 rpm"})[1] == 151.0


DIAL = Axis(
    shows="radius", step_mm=0.01, division_mm=0.02, divisions_per_turn=50, backlash_mm=0.3, direction="inward"
)
READOUT = Axis(shows="diameter", step_mm=0.005, backlash_mm=0.07, direction="inward")


def test_which_way_figures_are_likely_to_grow() -> None:
    assert [usual_way("cross", one, dial=dial) for one in (DIAL, READOUT) for dial in (True, False)] == [
        "inward",
        "outward",
        "inward",
        "inward",
    ]
    assert usual_way("carriage", replace(DIAL, direction="to_chuck"), dial=False) == "to_chuck"


def test_a_slide_said_in_the_other_unit_takes_what_is_usual_there() -> None:
    inch = {"cross_marked_in": "inch"}
    steps, said = driven(slide_said("cross", READOUT, inch=False), inch)
    assert said == replace(READOUT, unit="inch", step_mm=0.0127) and [
        step.usual for step in steps if step.mask
    ] == ["0.0005 in", "0.003 in"]
    steps, said = driven(slide_said("cross", DIAL, inch=False), inch)
    assert (said.division_mm, said.step_mm, said.divisions_per_turn) == (0.0254, 0.0254, 50)
    marked = {
        step.key: step.choices[0].word
        for step in driven(slide_said("carriage", READOUT, like=said, inch=False), {})[0]
        if step.choices
    }
    assert marked["carriage_marked_in"] == "inch"
    plain = driven(slide_said("carriage", replace(READOUT, unit="inch"), like=READOUT, inch=True), {})[0]
    assert plain[1].choices[0].word == "mm"
    assert driven(slide_said("cross", READOUT, inch=True), {})[0][1].choices[0].word == "inch"
    assert (
        driven(slide_said("cross", replace(READOUT, unit="inch"), inch=False), {})[0][1].choices[0].word
        == "inch"
    )


@pytest.mark.parametrize(
    ("division", "step"),
    [
        ("0.050 mm", 0.05),
        ("0.051 mm", 0.0255),
        ("0.100 mm", 0.05),
        ("0.150 mm", 0.05),
        ("0.020 mm", 0.01),
        ("0.120 mm", 0.04),
    ],
)
def test_a_coarse_division_is_set_between_its_marks(division: str, step: float) -> None:
    assert driven(slide_said("cross", DIAL, inch=False), {"cross_division": division})[1].step_mm == step


def test_a_slide_that_changes_from_dial_to_readout_and_back() -> None:
    _, said = driven(slide_said("cross", DIAL, inch=False), {"cross_shown_by": "readout"})
    assert said == Axis(shows="radius", step_mm=0.01, backlash_mm=0.0, direction="outward")
    _, said = driven(slide_said("cross", READOUT, inch=False), {"cross_shown_by": "dial"})
    assert said == Axis(
        shows="diameter",
        step_mm=0.02,
        division_mm=0.02,
        divisions_per_turn=100,
        backlash_mm=0.1,
        direction="inward",
    )


LANDS = Lands(
    rings=6,
    of_line=6,
    mean_mm=0.0123,
    sd_mm=0.008,
    u_mm=0.003,
    dof=4.5,
    good_to_mm=0.02,
    assumed_mm=0.016,
    odd=(),
)


def test_where_walls_land_in_words() -> None:
    assert (
        lately.lands_words(LANDS)
        == "from your last 6 rings: walls land 0.012 thick, good to 0.020; assumed on size, good to 0.016"
    )
    said = {
        (6, 4): "from your last 6 rings, 4 of them with this tool, plastic and lathe",
        (6, 0): "from your last 6 rings, none of them with this tool, plastic and lathe",
        (1, 1): "from your last ring",
        (2, 2): "from your last 2 rings",
    }
    assert {
        (rings, of_line): lately.from_rings(replace(LANDS, rings=rings, of_line=of_line))
        for rings, of_line in said
    } == said
    off = {
        0.0006: "walls land 0.001 thick",
        -0.0123: "walls land 0.012 thin",
        0.0004: "walls land on size",
        -0.0004: "walls land on size",
    }
    assert {mm: lately.off_words(mm) for mm in off} == off
    assert lately.odd_words(replace(LANDS, odd=("2 of job 7", "1 of job 9"))) == (
        "far off, so counted for less: ring 2 of job 7, 1 of job 9",
    )
    assert lately.odd_words(LANDS) == ()


TENTHS = tuple(
    Kept(rings=rings, promised=at / 10 + 0.05, fitted=rings - 1)
    for at, rings in enumerate((3, 12, 2, 9, 1, 8))
)


def test_what_was_promised_in_words_and_as_a_picture() -> None:
    assert lately.kept_words(Kept(rings=1, promised=0.85, fitted=1)) == "of 1 ring promised 85 %, 1 fitted"
    assert lately.kept_words(Kept(rings=2, promised=0.85, fitted=1)) == "of 2 rings promised 85 %, 1 fitted"
    assert lately.kept_words(Kept(rings=12, promised=0.8, fitted=10)).endswith(
        "(83 %; the true share lies between 55 and 95 %)"
    )
    everything = Lately(
        lands=replace(LANDS, odd=("2 of job 7",)), kept=Kept(rings=1, promised=0.85, fitted=1)
    )
    assert lately.lately_words(everything) == (
        lately.lands_words(LANDS), "far off, so counted for less: ring 2 of job 7",
        "of 1 ring promised 85 %, 1 fitted",
    )  # fmt: skip
    assert (
        lately.lately_words(Lately()) == () == lately.lately_why(Lately())
        and lately.lately_picture(Lately()) is None
    )
    few = Kept(rings=2, promised=0.85, fitted=1)
    low, high = TENTHS[1].interval or (0.0, 0.0)
    assert lately.lately_picture(Lately(tenths=(few, TENTHS[1]))) == Picture(
        "promised", series=(
            ("promised", 0.85), ("fitted", 0.5), ("low", -1.0), ("high", -1.0),
            ("promised", 1 / 10 + 0.05), ("fitted", 11 / 12), ("low", low), ("high", high),
        ),
    )  # fmt: skip


def test_what_more_there_is_to_say() -> None:
    found = Lately(
        lands=LANDS, uncorrected_mm=0.05, tenths=TENTHS,
        tools=(ToolOff("boring bar", 4, 0.0312, 0.01), ToolOff("blade", 2, -0.02, 0.005)),
        repeats=(Repeats("seat", 7, 0.0042),),
    )  # fmt: skip
    tools, corrected, repeats, tenths, few = (
        lately.lately_why(found)[:2],
        *lately.lately_why(found)[2:4],
        lately.lately_why(found)[4:-1],
        lately.lately_why(found)[-1],
    )
    assert tools == (
        "boring bar cuts 0.031 mm large on the diameter before it is corrected, good to 0.010 (4 rings).",
        "blade cuts 0.020 mm small on the diameter before it is corrected, good to 0.005 (2 rings).",
    )
    alone, before = corrected.split("; ")
    assert alone == "By the boring bar alone a wall would be good to 0.050 mm"
    assert before == "with the reading before the last pass it is 0.020."
    assert repeats == "A reading of a seat repeats with a spread of 0.004 mm, from 7 pairs."
    assert [line.split(" rings")[0] for line in tenths] == ["Of 3", "Of 12", "Of 9", "Of 8"]
    assert few == "From 10 rings on an interval is given."
    assert lately.lately_why(Lately(tenths=TENTHS[:1])) == (few,)
    assert (
        lately.corrected_words(replace(found, lands=None))
        == ()
        == lately.corrected_words(replace(found, uncorrected_mm=None))
    )


def test_the_parts_of_a_shop_that_learns() -> None:
    shop: Shop = replace(
        SHOP,
        lately=Lately(lands=LANDS, tenths=TENTHS[:1]),
        learn_from_jobs=False,
        said=frozenset({TESTER}),
        papers_in="fr",
    )
    step = opening.part_step(shop)
    said = {one.word: one.text for one in step.choices}
    assert (
        said[UNITS]
        == f"mm or inch: works in mm; learning from finished rings: off; {lately.lands_words(LANDS)}"
    )
    assert said[PAPERS] == "language of the customer's papers: French"
    assert [word for word, text in said.items() if text.endswith(" (assumed)")] == [
        LATHE,
        TOOLS,
        INSTRUMENTS,
        BARS,
        PRESS,
    ]
    assert list(said) == [LATHE, TOOLS, INSTRUMENTS, BARS, PRESS, TESTER, UNITS, opening.BACK, PAPERS]
    assert step.picture == lately.lately_picture(shop.lately) and step.why.endswith(
        "From 10 rings on an interval is given."
    )
    learning = opening.learning_step(shop)
    assert learning.say == (lately.lands_words(LANDS),) and learning.choices[0].word == "no"
    assert (
        opening.part_step(replace(shop, learn_from_jobs=True))
        .choices[6]
        .text.startswith("mm or inch: works in mm; learning from finished rings: on; ")
    )


TEXT = """# Title

Some *words*
on two lines, see [the list](9-words.md) and [elsewhere](https://x).

## Head

- one
- `two`

2. second

> Mind it.

| a | b | c | d |
|---|---|---|---|
| 1 | 2 | 3 |  |
| 4 | 5 |  | 6 |

```page
| picture
```

```at-work
at the lathe
```

```
code one
```

<!-- a comment -->

End.
"""
PIECES = (
    ManualPiece("text", "Some words on two lines, see the list (chapter 9) and elsewhere."),
    ManualPiece("head", "Head"), ManualPiece("item", "one", "-"), ManualPiece("item", "two", "-"),
    ManualPiece("item", "second", "2."),
    ManualPiece("caution", "Mind it."), ManualPiece("row", "1: 2; c: 3"), ManualPiece("row", "4: 5; d: 6"),
    ManualPiece("page", "| picture"), ManualPiece("at-work", "at the lathe"),
    ManualPiece("code", "code one"), ManualPiece("text", "End."),
)  # fmt: skip


def test_a_chapter_in_pieces() -> None:
    assert tuple(blocks_of(TEXT)) == (ManualPiece("head", "Title"), *PIECES)
    assert chapter_of("3-first-job.md", TEXT) == Chapter(3, "first-job", "Title", PIECES)
    for name in ("first-job.md", "0-x.md", "10-x.md", "3-first.txt", "3-First.md"):
        with pytest.raises(AssertionError, match="no name of a chapter"):
            chapter_of(name, TEXT)


def test_a_chapter_is_found_by_number_or_by_how_its_name_begins() -> None:
    every = chapters.chapters()
    assert [one.number for one in every] == list(range(1, 10))
    assert (
        every[6] is chapter_named("7")
        and every[6] is chapter_named("TROU")
        and every[6] is chapter_named("trouble")
    )
    assert [chapter_named(words) for words in ("", "x", "s", "17", "7 ")] == [None] * 5
    assert [one.name[:4] for one in every] == sorted(
        (one.name[:4] for one in every), key=[one.name[:4] for one in every].index
    )


def test_a_chapter_in_lines() -> None:
    chapter = Chapter(3, "x", "Title", PIECES[1:])
    printed = lines_of(chapter, 30, on_screen=False)
    assert printed == (
        ("Head", "strong"), ("----", "strong"), ("", "ink"), ("- one", "ink"), ("- two", "ink"),
        ("2. second", "ink"), ("", "ink"), ("Mind it.", "caution"),
        ("", "ink"), ("1: 2; c: 3", "ink"), ("4: 5; d: 6", "ink"), ("", "ink"), ("| | picture", "note"),
        ("", "ink"), ("| at the lathe", "note"),
        ("", "ink"), ("    code one", "strong"), ("", "ink"), ("End.", "ink"),
    )  # fmt: skip
    shown = lines_of(chapter, 30, on_screen=True)
    assert shown[:2] == (("Head", "strong"), ("", "ink"))
    at = [text for text, _ in shown].index("| | picture")
    behind = [text for text, role in shown[at + 2 :] if role == "note"]
    assert (
        behind[0] == "(A picture of a page at the"
        and behind[-1].endswith("paper.)")
        and ("| at the lathe", "note") not in shown
    )
    assert lines_of(replace(chapter, blocks=()), 30, on_screen=True) == ()


def test_a_line_is_folded_and_a_picture_stands_in_a_frame_where_it_finds_room() -> None:
    words = "one two-three four five six seven"
    assert list(folded(words, 20, "ink", first="- ", later="  ")) == [
        ("- one two-three four", "ink"),
        ("  five six seven", "ink"),
    ]
    assert list(folded(words, 5, "note")) == [("one two-three four", "note"), ("five six seven", "note")]
    assert list(pictured("abcdef  \nab", 10)) == [("| abcdef", "note"), ("| ab", "note")]
    assert list(pictured("abcdef  \nab", 9)) == [
        ("(A picture of a", "note"),
        ("page, 10 wide, does", "note"),
        ("not find room here.)", "note"),
    ]
    long = ManualPiece("row", "one: two three four five six seven")
    assert list(block_lines(long, 20, on_screen=True)) == [
        ("one: two three four", "ink"),
        ("  five six seven", "ink"),
    ]
    item = ManualPiece("item", "two three four five six seven", "10.")
    assert list(block_lines(item, 20, on_screen=True)) == [
        ("10. two three four", "ink"),
        ("    five six seven", "ink"),
    ]
    code = ManualPiece("code", "one two three four five\nsix")
    assert list(block_lines(code, 20, on_screen=True)) == [
        ("    one two three", "strong"),
        ("      four five", "strong"),
        ("    six", "strong"),
    ]
    head = ManualPiece("head", "one two three four five six")
    assert list(block_lines(head, 20, on_screen=False)) == [
        ("one two three four", "strong"),
        ("five six", "strong"),
        ("-" * 18, "strong"),
    ]
    assert list(block_lines(ManualPiece("text", words), 20, on_screen=True)) == [
        ("one two-three four", "ink"),
        ("five six seven", "ink"),
    ]

"""What a person at the lathe reads on the pages, from their text alone, at every size and on other lathes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

import pytest

from bench.desk.desk import Desk
from bench.job.job import words_of
from bench.job.steps import Step
from bench.shop.shop import built_in
from rules.turning.short_words import shortened
from screens.figures import figures
from screens.layout import text_of
from screens.look import Look
from screens.pages.further import in_columns
from screens.pages.overview import GAP, LEAST, WIDE
from screens.view import view
from tests.grooving import DEEP_CORING
from tests.whole.lathe_presses import WIDER, answer_to, dials
from tests.whole.repairer import Repairer, fresh
from tests.whole.test_inch import STRAIGHT

SIZES = ((132, 43), (80, 24), (60, 20), (40, 12))
PICTURE = {132: 48, 80: 32}
"""Columns of the picture beside the words, where there is one."""
AT_STANDSTILL = re.compile(r"[^.;:]*(?:spindle (?:stopped|off)|chuck key)[^.;:]*")
SPLIT = re.compile(r"(go to|\d turns?|\d turn)$")
GRAMMAR = re.compile(
    r"(outside|bore|core|lower edge|chamfer|part|centre drill|drill of [\d./ ]+ (mm|in)): go to "
    r"(-?[\d.]+( in| mm)?( from zero)?|(\d+ turns? )?[\d.]+ div|\d+ turns? [\d.]+ dial), "
    r"((diameter|radius)(, makes [\d.]+( in| mm)?)?|length"
    r"|makes [\d.]+( in| mm)?)"
    r"([,;] [^,;]+)*"
)
"""A target, as `bench.seals.lathe.turning_words` has it."""
ALONG = re.compile(
    r"(turn|bore|groove|edge) along: go to "
    r"(-?[\d.]+( in| mm)?, length|(\d+ turns? )?[\d.]+ div(, makes [\d.]+( in| mm)?)?)"
)
NO_TARGET = re.compile(
    r"face: [\d.]+( in| mm)?( \((\d+ turns? )?[\d.]+ div\))? off; carriage to zero|rest: spindle stopped, .*"
    r"|dress: .*, to [\d.]+( in| mm)? high at four places"
)
WALLS = re.compile(r"\b0\.[3-9]\d{1,2}\b|\b3[5-7]\.\d\d\b")
USUALLY = (15, 9, 20)
"""Figures, acts with a figure, and acts more where each pass is recorded by itself: at least so many."""
FEWER = {"all in inch": (13, 9, 20), "hand dials, a core cut out": (15, 7, 8), "a tube": (13, 8, 6)}
"""A bar nearer its size, or a hole that is there, leaves fewer passes."""
CROWDED = {("rough_outside", 40): 2, ("rough_bore", 40): 1, ("finish_bore", 40): 1}
"""Figures on pages of hand dials that say most, by their columns: what is set first and from which side one
comes to a figure stand there, the next wait behind *."""
TWO_TOUCHES = ("chamfer", 40)
"""A page of two settings, of which the narrowest shows the first; where nothing wraps, both."""
MORE_CROWDED = {("rough_outside", 40): 1, ("core", 40): 1, ("rough_outside", 60): 3, ("core", 60): 3}
"""The same where a core is cut out, too."""
SET_TO = re.compile(r"(?:carriage|tailstock) to zero|(?<=dial to )[\d.]+|(?<=read-out to )-?[\d.]+")
"""What a slide is set to where a tool touches off."""
each_size = pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
each_shop = pytest.mark.parametrize("shop", WIDER)


@lru_cache(maxsize=8)
def walked(shop: str, *, each_pass: bool = False) -> tuple[Desk, ...]:
    """The desk at every step of the lathe part of a straight job."""
    return tuple(steps(fresh(shop=WIDER[shop]()).on_to("lathe_hands"), each_pass=each_pass))


def steps(repairer: Repairer, *, each_pass: bool) -> Iterator[Desk]:
    """The same as it goes on."""
    while repairer.desk.step is not None and repairer.desk.step.stage == "cut":
        yield repairer.desk
        repairer.type(answer_to(repairer, each_pass=each_pass))


def acts(shop: str, *, each_pass: bool = False) -> list[tuple[Step, Desk]]:
    """The steps at which something is turned."""
    found = [(one.step, one) for one in walked(shop, each_pass=each_pass) if one.step and one.step.targets]
    assert len(found) >= 10
    return found


def words(desk: Desk, size: tuple[int, int]) -> list[str]:
    """The lines of a page at a size, without the picture."""
    lines = [text_of(one) for one in view(replace(desk, columns=size[0], rows=size[1]), Look("half"))]
    page = size[0] - WIDE - GAP if size >= LEAST else size[0]
    drawn = desk.step is not None and desk.step.targets and desk.step.picture is not None
    cut = min(page, 110) - 2 - PICTURE.get(size[0], 0) if drawn else page
    cut = cut if any("chuck" in line[cut:] for line in lines) else page
    return [lines[0], *(line[:cut].rstrip() for line in lines[1:-2]), *(line.rstrip() for line in lines[-2:])]


def flat(lines: list[str]) -> str:
    """The text of a page."""
    return " ".join(" ".join(lines).split())


def at_most(shop: str, step: Step, size: tuple[int, int]) -> int:
    """How many figures a page shows that says so much that the next, or the large one, wait behind the key
    for more; 0 for one that says less.
    """
    dials, page = shop.startswith("hand dials"), (step.key, size[0])
    if page == TWO_TOUCHES:
        return 2 if shop in ("read-out, lever", "a tube") else 1
    more = MORE_CROWDED.get(page, 0) if "core" in shop else 0
    return (more or CROWDED.get(page, 0)) if dials else 0


@each_size
@each_shop
def test_tool_length_and_the_next_three_figures_stand_on_every_page(shop: str, size: tuple[int, int]) -> None:
    figures_met = waiting = 0
    for step, desk in acts(shop):
        lines = words(desk, size)
        page = flat(lines)
        assert (step.title if size >= (80, 24) else re.sub(r", [\d.]+ \w+ a turn$", "", step.title)) in page
        most = at_most(shop, step, size) or 3
        next_three = [one for one in step.targets if one.figure][:3]
        shown = next_three[:most]
        waiting += len(next_three) - len(shown)
        for one in shown:
            figures_met += 1
            on = [line for line in lines if f"go to {one.figure}" in line]
            assert on, (step.key, one.words, lines)
            many = page.count("go to ") > 1 or len(shown) > 1
            assert not many or all(line.count("go to ") == 1 for line in on), (step.key, on)
            if "makes" in one.words and len({two.words.partition(":")[0] for two in shown}) == 1:
                made = re.search(r"makes [\d.]+( in| mm)?", one.words)
                assert made is not None and made[0] in page, (step.key, lines)
        along = [text for one in shown for text in one.before if " along: go to " in text]
        for text in along:
            found = re.search(r"go to ((\d+ turns? )?[\d.-]+( in| mm| div)?)", text)
            assert found is not None and f"go to {found[1]}" in page, (step.key, text, lines)
    assert figures_met + waiting >= FEWER.get(shop, USUALLY)[0] and waiting <= (6 if size == (40, 12) else 0)


@each_size
@each_shop
def test_what_says_that_the_spindle_stands_is_never_cut(shop: str, size: tuple[int, int]) -> None:
    met = 0
    for step, desk in acts(shop):
        page = flat(words(desk, size))
        sentences = (step.title, *step.to_do, *step.consequence, *(one.text for one in step.choices))
        for found in (one[0].strip() for text in sentences for one in AT_STANDSTILL.finditer(text)):
            met += 1
            assert found in page, (step.key, found, page)
    assert met > 15


@each_size
@each_shop
def test_a_page_that_lacks_a_sentence_says_where_it_stands(shop: str, size: tuple[int, int]) -> None:
    short = 0
    for step, desk in acts(shop):
        page = flat(words(desk, size))
        said = (*step.say, *(text for one in step.targets for text in one.before), *step.consequence)
        lacking = [text for text in said if text not in page and " along: " not in text]
        rest = [one for one in step.targets if one.figure and one.figure not in page]
        short += bool(lacking or rest)
        assert not (lacking or rest) or "* 1 Enter" in page, (step.key, lacking, page)
        why = flat(
            [text_of(one) for one in view(replace(desk, page="why", columns=200, rows=90), Look("half"))]
        )
        assert [text for text in (*said, *(one.words for one in step.targets)) if text not in why] == []
    assert short > 0 or size[0] > 40


@each_size
@each_shop
def test_no_figure_is_split_and_every_choice_and_key_stands_there(shop: str, size: tuple[int, int]) -> None:
    for step, desk in acts(shop, each_pass=True):
        lines = words(desk, size)
        assert [line for line in lines if SPLIT.search(line)] == [], step.key
        for number, choice in enumerate(step.choices, 1):
            assert any(line.startswith(f"  {number}  {choice.text.split()[0]}") for line in lines), (
                step.key,
                lines,
            )
        assert "Enter accept" in lines[-1]
        assert not step.cautions or "CAUTION" in flat(lines), step.key


@pytest.mark.parametrize("size", SIZES[:3], ids=lambda size: f"{size[0]}x{size[1]}")
@each_shop
def test_the_figure_to_go_to_is_the_largest_on_the_page(shop: str, size: tuple[int, int]) -> None:
    met = 0
    for step, desk in acts(shop):
        first = next((one.figure for one in step.targets if one.figure), "")
        if not first or at_most(shop, step, size):
            continue
        lines, number = words(desk, size), re.findall(r"-?[\d.]+", first)[-1]
        drawn = [figures(number, 100, tall, "half") for tall in (4, 8, 12)]
        met += 1
        assert any(all(any(row.rstrip() in line for line in lines) for row in one) for one in drawn), (
            step.key,
            lines,
        )
    assert met >= FEWER.get(shop, USUALLY)[1]


@each_shop
def test_every_target_is_said_in_the_grammar(shop: str) -> None:
    targets = [one for step, _ in acts(shop) for one in step.targets]
    assert [
        one.words for one in targets if not (GRAMMAR if one.figure else NO_TARGET).fullmatch(one.words)
    ] == []
    along = [text for one in targets for text in one.before if "along" in text]
    assert len(along) >= 5 and [text for text in along if not ALONG.match(text)] == []


def test_every_page_that_cuts_a_surface_says_how_far_along_the_bar() -> None:
    for shop in WIDER:
        for step, desk in acts(shop):
            surfaces = {one.words.partition(":")[0] for one in step.targets} & {
                "outside",
                "bore",
                "lower edge",
            }
            assert len(re.findall(r" along: go to \S+", flat(words(desk, (80, 24))))) >= len(surfaces), (
                step.key
            )


@each_shop
def test_passes_may_be_recorded_one_by_one_and_those_gone_are_left_out(shop: str) -> None:
    once, each = acts(shop), acts(shop, each_pass=True)
    assert len(each) > len(once) + FEWER.get(shop, USUALLY)[2]
    whole = {step.key: [one.words for one in step.targets] for step, _ in once}
    for step, _ in each:
        act, _, number = step.key.partition("_from_")
        gone = int(number or 1) - 1
        assert [one.words for one in step.targets] == whole[act][gone:], step.key
        left = [
            text for text in step.targets[0].before if not re.search(" along: |^come to every |^feed ", text)
        ]
        assert left == [] or gone < 2, "what was set stays set"


def test_all_that_were_made_are_recorded_by_one_enter_after_some_were() -> None:
    repairer = fresh().on_to("rough_bore")
    for _ in range(3):
        repairer.give("some")
    assert repairer.asked == "rough_bore_from_4"
    kept = [words_of(entry) for entry in repairer.bench.entries if entry.key.startswith("rough_bore")]
    assert [value[1] for value in kept] == ["passes 1"] * 3 and all(" go to " in value[2] for value in kept)
    repairer.give("done")
    assert repairer.asked == "rest"
    whole = fresh().on_to("rough_bore")
    whole.give("done")
    assert repairer.bench.entries[-1].value == whole.bench.entries[-1].value


def test_a_face_is_not_what_a_surface_was_last_cut_with() -> None:
    repairer = fresh().on_to("rough_outside")
    repairer.give("some")
    repairer.wait(3600)
    repairer.open()
    repairer.on_to("touch_off")
    assert not any("face: 0.30 off" in text for text in repairer.step.say)
    assert any("the diameter that stands, as measured" in text for text in repairer.step.say)


def test_work_left_amid_its_passes_goes_on_with_the_next_and_names_the_last() -> None:
    repairer = fresh().on_to("rough_bore")
    repairer.give("some")
    made = words_of(repairer.bench.entries[-1])[2]
    repairer.wait(3600)
    repairer.open()
    repairer.on_to("touch_off")
    assert any(f'last cut with "{made}"' in text for text in repairer.step.say)
    assert any("still tight and not moved" in one.text for one in repairer.step.choices)
    repairer.give("done")
    assert repairer.asked == "rough_bore_from_2"


@pytest.mark.parametrize("key", ["rest", "touch_off"])
def test_a_bar_that_has_moved_leads_to_a_new_ring(key: str) -> None:
    repairer = fresh().on_to("rest")
    if key == "touch_off":
        repairer.wait(3600)
        repairer.open()
        repairer.on_to(key)
    assert "bar still tight and not moved" in repairer.step.choices[0].text
    repairer.give("moved")
    assert repairer.asked == "fresh_ring"
    repairer.on_to("ring")


@each_size
@pytest.mark.parametrize("key", ["outside_reading", "wall_reading"])
def test_what_is_expected_stands_behind_why_and_not_where_it_is_read(key: str, size: tuple[int, int]) -> None:
    desk = next(one for one in walked("read-out, lever") if one.step and one.step.key == f"{key}")
    step = desk.step
    assert step is not None and step.gauge is not None and step.gauge.target is not None
    page = flat(words(desk, size))
    assert WALLS.findall(page) == [] and "should be" not in page
    why = flat([text_of(one) for one in view(replace(desk, page="why", columns=100, rows=60), Look("half"))])
    expected = re.search(r"By the cross slide it should be (\d+\.\d+) mm", why)
    assert expected is not None and float(expected[1]) == pytest.approx(step.gauge.target, abs=0.006)


@each_size
def test_burrs_come_off_before_a_wall_is_measured(size: tuple[int, int]) -> None:
    desks = {one.step.key: one for one in walked("read-out, lever") if one.step}
    assert "Burrs off both edges first: a burr reads as wall." in flat(words(desks["wall_reading"], size))
    assert any(
        "burrs off both edges" in text for text in (desks["finish_bore"].step or pytest.fail()).consequence
    )
    assert any("burrs off both edges" in text for text in (desks["dress"].step or pytest.fail()).consequence)


@each_size
def test_where_the_belt_goes_over_its_caution_stands(size: tuple[int, int]) -> None:
    over = 0
    for step, desk in acts("hand dials, belt, tools without numbers"):
        belts = any("belt over" in text for one in step.targets for text in one.before)
        over += belts
        assert belts is ("belt" in step.cautions), step.key
        assert not belts or "spindle off at the switch: belt over" in flat(words(desk, size)), step.key
    assert over >= 4


def test_no_page_names_a_tool_by_a_number_that_it_does_not_show() -> None:
    for desk in walked("hand dials, belt, tools without numbers"):
        assert [line for line in words(desk, (132, 43)) if re.search(r"\btool \d", line)] == [], desk.step


def test_a_narrow_page_that_holds_not_even_its_least_says_where_the_rest_stands() -> None:
    """Long figures in inch, a tool with a long name next: the touching off stands behind "more" alone."""
    own = built_in("inch")
    lathe = replace(own.lathes[0], cross=dials().lathes[0].cross, numbered_tools=False)
    shop = replace(own, lathes=(lathe,), tools=(*own.tools, DEEP_CORING))
    inch = {name: figure for name, figure in STRAIGHT if name != "marking"}
    repairer = fresh(shop=shop).on_to("rough_outside", inch)
    lines = words(repairer.desk, (40, 12))
    page = flat(lines)
    assert "touch off on" not in page and "* 1 Enter" in page, lines
    assert "CAUTION" in page and all(f"  {n}  " in "\n".join(lines) for n in (1, 2)), lines


@each_size
@each_shop
def test_what_is_done_now_stands_on_the_page_at_every_size(shop: str, size: tuple[int, int]) -> None:
    """Where a tool touches off, what slide, drill and dial are set to, which way, and the burrs."""
    touched = burrs = 0
    for step, desk in acts(shop):
        page = flat(words(desk, size))
        first = next((at for at, one in enumerate(step.targets) if one.figure), 0)
        for text in (text for one in step.targets[: first + 1] for text in one.before):
            for to in SET_TO.findall(text):
                touched += 1
                assert re.search(rf"(touch|point)[^;]*{to}", page), (step.key, text, page)
        if any("burrs off" in text for text in step.consequence):
            burrs += 1
            assert "Then burrs off both edges" in page, (step.key, page)
    assert touched >= 7 and burrs == 2, (touched, burrs)


def test_every_page_of_a_surface_says_which_way_its_figures_are_come_to() -> None:
    """Backlash: said again where passes go on, and before the last one."""
    seen = set()
    for step, _ in acts("hand dials, belt, tools without numbers", each_pass=True):
        surfaces = {one.words.partition(":")[0] for one in step.targets} & {"outside", "bore"}
        rules = [text for one in step.targets for text in one.before if text.startswith("come to every")]
        assert len(rules) == len(surfaces), step.key
        seen |= {step.key} if rules else set()
    assert {"rough_bore_from_4", "last_outside", "last_bore", "finish_bore"} <= seen


@each_size
def test_a_dial_is_come_to_from_the_side_that_its_page_says(size: tuple[int, int]) -> None:
    """In few words on the smallest page, with what is faced off as its dial counts it."""
    ways = []
    for step, desk in acts("hand dials, belt, tools without numbers"):
        page = flat(words(desk, size))
        for rule in (text for one in step.targets for text in one.before if text.startswith("come to every")):
            assert rule in page or shortened(rule) in page, (step.key, rule, page)
            ways.append(re.findall("dial counting (down|up)", rule)[0])
        assert "face: 0" not in page or re.search(r"face: 0\.30 \((0 turns )?6 div\) off", page), page
    assert ways == ["up", "down", "up", "up", "down", "down"]


def test_the_large_figure_is_the_one_at_the_mark_and_says_on_which_slide() -> None:
    steps = {step.key: (step, desk) for step, desk in acts("hand dials, belt, tools without numbers")}
    bore, desk = steps["last_bore"]
    assert bore.targets[0].figure == "13 turns 26 dial"
    assert re.search(r"turns .* dial\b", flat(words(desk, (60, 20))))
    for key, slide in (("rough_outside", "cross slide"), ("drill", "tailstock"), ("part", "carriage")):
        assert slide in flat(words(steps[key][1], (80, 24))), key


@each_size
def test_a_dial_that_runs_backwards_is_never_counted_in_divisions(size: tuple[int, int]) -> None:
    """Whoever sets the divisions counted where those at the mark are meant cuts through the ring."""
    met = 0
    for step, desk in acts("hand dials, belt, tools without numbers"):
        bored = [one for one in step.targets if one.words.startswith("bore: ")]
        for line in words(desk, size) if bored else ():
            if "go to " in line and " along: " not in line:
                met += 1
                assert re.search(r"go to \d+ turns? [\d.]+ dial\b", line), (step.key, line)
        assert not bored or f"go to {bored[0].figure}, makes" in flat(words(desk, size)), step.key
    assert met >= (3 if size[0] == 40 else 4), "the smallest page shows one figure of a bore at a time"


def test_further_figures_are_read_along_the_line() -> None:
    """Read down the columns along the line, two cuts are taken as one."""
    figures_left = [f"0.{number} in" for number in range(8040, 8940, 100)]
    lines = [text_of(one) for one in in_columns(figures_left, 60)]
    assert len(lines) > 1 and re.findall(r"0\.\d+ in", " ".join(lines)) == figures_left


@each_size
def test_what_catches_the_ring_stands_on_the_page_that_parts_it(size: tuple[int, int]) -> None:
    for shop, catcher in (("a tube", "rod in the tailstock"), ("hand dials, a core cut out", "core catches")):
        desk = next(desk for step, desk in acts(shop) if step.key == "part")
        assert catcher in flat(words(desk, size)), words(desk, size)


def test_after_a_break_the_set_up_leaves_the_bar_and_asks_for_what_cuts_next() -> None:
    repairer = fresh(shop=dials()).on_to("rough_bore")
    speed = re.search(r"the boring bar, (.* rpm \(step (\d)\))", repairer.step.title)
    assert speed is not None
    repairer.give("some")
    repairer.wait(3600)
    repairer.open()
    repairer.on_to("lathe_key")
    said = " ".join(repairer.step.say)
    assert f"leave the bar as it stands; fit the boring bar; set {speed[1]}" in said and "Grip" not in said
    repairer.on_to("lathe_speed")
    assert repairer.step.readback == int(speed[2])
    repairer.on_to("tool_again")
    assert repairer.step.choices[0].word == "boring"
    repairer.on_to("rough_bore_from_2")


@each_size
def test_after_a_break_what_to_do_and_the_figure_stand_on_the_page(size: tuple[int, int]) -> None:
    repairer = fresh(shop=dials()).on_to("rough_bore")
    repairer.give("some")
    turns, mark = re.findall(r"go to (\d+ turns?) ([\d.]+) dial", words_of(repairer.bench.entries[-1])[2])[0]
    repairer.wait(3600)
    repairer.open()
    repairer.on_to("touch_off")
    lines = words(repairer.desk, size)
    page = flat(lines)
    assert re.search(rf"bore: touch[^;]*dial (to )?{mark}\b[^;]*{turns}", page), lines
    assert re.search(r"outside: touch[^;]*dial (to )?[\d.]+", page), lines
    assert re.search(r"[Tt]ouch (off on the finished )?face[:,] (set the )?carriage to 0", page), lines
    assert "not keyed" in page and "not moved" in page and "it has moved" in page, lines


@each_size
def test_a_page_says_how_many_cuts_it_does_not_show(size: tuple[int, int]) -> None:
    """And shows figures rather than the drawing where it cannot hold both."""
    steps = {step.key: (step, desk) for step, desk in acts("hand dials, belt, tools without numbers")}
    step, desk = steps["rough_bore"]
    page = flat(words(desk, size))
    waiting = sum(f"{one.figure}" not in page for one in step.targets)
    assert waiting == 0 or f" {waiting} cuts: * 1" in page or f" {waiting} more cuts: * 1" in page, page
    assert waiting < (len(step.targets) - 3 if size[0] > 60 else len(step.targets))


def test_what_is_touched_behind_the_ring_is_said_in_full_rather_than_drawn() -> None:
    """At 80 columns the page of the chamfers gives its picture for whole sentences; others keep theirs."""
    steps = {step.key: (step, desk) for step, desk in acts("hand dials, belt, tools without numbers")}
    step, desk = steps["chamfer"]
    page = flat(words(desk, (80, 24)))
    assert [text for one in step.targets for text in one.before if text not in page] == []
    assert any(
        "chuck" in text_of(one) for one in view(replace(steps["part"][1], columns=80, rows=24), Look("half"))
    )


def test_no_caution_is_cut_where_there_is_room() -> None:
    _, desk = next(one for one in acts("read-out, lever") if "swarf" in one[0].cautions)
    lines = words(desk, (132, 43))
    assert "No abrasive held by hand on turning work" in flat(lines) and not any(".." in one for one in lines)

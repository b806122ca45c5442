"""What no size of window may lose: every page of the album at every size."""

from __future__ import annotations

import re

import pytest

from bench.desk.answering import mask_of
from bench.desk.desk import Desk
from bench.desk.hold import as_now
from rules.cautions import for_places
from screens.layout import text_of, width
from screens.look import Look
from screens.pages.overview import GAP, LEAST, WIDE
from screens.pages.parts import shown_choices
from screens.view import view
from tests.screens.album import SIZES, album
from tests.screens.keying import at_size
from tests.whole.places import at

ANSWERED = re.compile(r"(\d+) answered$")
each_size = pytest.mark.parametrize("size", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")


def page_text(desk: Desk, columns: int, rows: int) -> list[str]:
    """The lines of a page."""
    return [text_of(line) for line in view(at_size(desk, columns, rows), Look("half"))]


def step_desks() -> list[tuple[str, Desk]]:
    """The pages of steps."""
    return [(heading, desk) for heading, desk in album().items() if desk.page == "step" and desk.step]


@each_size
def test_every_line_fits(size: tuple[int, int]) -> None:
    columns, rows = size
    for heading, desk in album().items():
        lines = view(at_size(desk, columns, rows), Look("half"))
        assert len(lines) == rows, heading
        assert max(map(width, lines)) <= columns, heading


def test_no_word_that_only_the_file_needs_is_shown() -> None:
    """On no page that is looked at; what a changed file says is quoted from it and stands apart."""
    for heading, desk in album().items():
        if desk.page != "damage":
            said = "\n".join(page_text(desk, 132, 43))
            assert not re.search(r"[a-z0-9]_[a-z0-9]|\bNone\b", said), heading


@each_size
def test_the_question_and_the_answer_are_there(size: tuple[int, int]) -> None:
    """The whole title, and what is typed on a number with its unit, large or small."""
    numbers = 0
    for heading, desk in step_desks():
        assert desk.step is not None
        lines = left_of_the_picture(desk, size)
        title = as_now(desk, desk.step).title
        if size < (80, 24):
            title = re.sub(r", [\d.]+ \w+ a turn$", "", title)  # the feed gives way to the figure
        said = " ".join(words_from(lines, title))
        assert said.removesuffix(",") == title, heading
        mask = mask_of(desk.step)
        if mask is not None and desk.step.kind != "timer":
            numbers += 1
            small = f"{mask.over(desk.line.text)} {mask.unit}".strip()
            large = [line for line in lines if set(line.strip()) & set("▀▄█")]
            assert any(small in line for line in lines) or len(large) >= (2 if desk.line.text else 1), heading
            assert not mask.unit or any(line.rstrip().endswith(f" {mask.unit}") for line in lines), heading
    assert numbers > 50


def left_of_the_picture(desk: Desk, size: tuple[int, int]) -> list[str]:
    """The lines of a page as far as a picture beside them, or the second column of a wide window."""
    columns = size[0] - WIDE - GAP if size >= LEAST else size[0]
    beside = columns >= 80 and desk.step is not None and desk.step.picture is not None
    at_the_lathe = desk.step is not None and bool(desk.step.targets)
    large = size >= LEAST or columns >= 110 if at_the_lathe else size >= (100, 30)
    return [
        line[: min(columns, 110) - (50 if large else 34) if beside else columns]
        for line in page_text(desk, *size)
    ]


def words_from(lines: list[str], title: str) -> list[str]:
    """As many words as a title has, from the line where it begins."""
    first = next(place for place, line in enumerate(lines) if line.split()[:1] == title.split()[:1])
    return " ".join(lines[first:]).split()[: len(title.split())]


@each_size
def test_the_key_line_drops_whole_items(size: tuple[int, int]) -> None:
    """What is left of the keys are items of the widest window, in its order,
    and Enter is among them on a step.
    """
    fewer = 0
    for heading, desk in album().items():
        every = re.split(" {3,}", page_text(desk, 200, 60)[-1].strip())
        left = re.split(" {3,}", page_text(desk, *size)[-1].strip())
        assert [item for item in every if item in left] == left, heading
        assert desk.page != "step" or "Enter accept" in left, heading
        fewer += len(left) < len(every)
    assert (fewer > 100) is (size[0] < 60), fewer


@each_size
def test_the_page_counts_what_is_answered(size: tuple[int, int]) -> None:
    """Answers of the stage, counted from the walk; not where what is assumed stands in their place, nor
    where the smallest page at the lathe needs the line for what is done there.
    """
    met = 0
    for heading, desk in step_desks():
        if desk.looking_back or heading.startswith("shop: "):
            continue
        first = page_text(desk, *size)[0].rstrip()
        if size == (40, 12) and desk.step and desk.step.targets and first.startswith("  "):
            continue
        found = ANSWERED.search(first)
        assert found is not None and desk.step is not None and desk.walk is not None, heading
        assert int(found[1]) == sum(step.stage == desk.step.stage for step, _ in desk.walk.done), heading
        met += 1
    assert met > 100


def test_the_account_counts_answers() -> None:
    """Answers of the file that no undo took back, counted from its entries."""
    met = 0
    for heading, desk in album().items():
        found = [
            match for line in page_text(desk, 80, 24) if (match := re.search(r"(\d+) answers kept", line))
        ]
        if desk.page == "account" and found and desk.job is not None:
            met += 1
            assert int(found[0][1]) == sum(one.kind == "answer" for one in desk.entries), heading
    assert met >= 3


@each_size
def test_no_choice_and_no_caution_is_left_out(size: tuple[int, int]) -> None:
    """Every choice that can be keyed stands on the page, and the word CAUTION where there is one."""
    choices = cautions = 0
    for heading, desk in step_desks():
        step = desk.step
        assert step is not None
        lines = page_text(desk, *size)
        for number, choice in shown_choices(desk, step):
            if step.kind == "number" or step.readback is not None:
                continue
            choices += 1
            first = choice.text.split()[0]
            assert any(f"  {number}  {first}" in line for line in lines), (heading, number)
        if step.cautions:
            cautions += 1
            assert any(line.startswith("  CAUTION") for line in lines), heading
    assert choices > 150 and cautions > 50


@each_size
def test_a_page_that_lacks_what_is_said_or_how_it_is_done_says_where_it_stands(size: tuple[int, int]) -> None:
    lacking = 0
    for heading, desk in step_desks():
        assert desk.step is not None
        step = as_now(desk, desk.step)
        page = " ".join(" ".join(left_of_the_picture(desk, size)).split())
        for texts in (step.say, step.how):
            if texts and not any(text[:20] in page for text in texts) and not (desk.message or desk.jammed):
                lacking += 1
                assert "* 1 Enter" in page, (heading, texts)
    assert lacking > 5 or size[0] > 60


def all_words(text: str) -> set[str]:
    """The words of a text without its stops."""
    return {word for piece in text.split() if (word := piece.strip(";.,:"))}


def asked_desks() -> list[tuple[str, Desk]]:
    """The pages of steps but those at the lathe that are laid out by their targets."""
    return [(heading, desk) for heading, desk in step_desks() if desk.step and not desk.step.targets]


@pytest.mark.parametrize("size", [(60, 20), (80, 24)], ids=str)
def test_no_choice_and_no_caution_loses_a_word(size: tuple[int, int]) -> None:
    met = 0
    for heading, desk in asked_desks():
        assert desk.step is not None
        step = as_now(desk, desk.step)
        page = all_words(" ".join(left_of_the_picture(desk, size)))
        texts = [
            choice.text for _, choice in shown_choices(desk, step) if step.kind not in ("number", "text")
        ]
        texts = [] if step.readback is not None else texts
        for text in (*texts, *(item.title for item in for_places(step.cautions))):
            met += 1
            assert all_words(text) <= page, (heading, text)
    assert met > 200


def test_the_smallest_window_keeps_the_way_back_the_figures_and_the_squeeze() -> None:
    rings = 0
    for heading, desk in step_desks():
        lines = page_text(desk, 40, 12)
        assert "/ back" in lines[-1], heading
        assert desk.step is not None
        if desk.step.key == "ring" and desk.step.say[0].startswith("outside"):
            rings += 1
            page = " ".join(lines)
            figures = re.findall(r"\d+\.\d+", desk.step.say[0])
            assert len(figures) == 3 and all(figure in page for figure in figures), heading
            assert re.search(r"squeeze -?[\d.]+ %", page), heading
    assert rings >= 3


@pytest.mark.parametrize("size", [(40, 12), (60, 20)], ids=str)
def test_a_page_that_cannot_show_all_says_where_the_rest_stands(size: tuple[int, int]) -> None:
    """Every word of what is to be known, of a choice or a caution's name is there, or where it stands is."""
    short = 0
    for heading, desk in asked_desks():
        assert desk.step is not None
        step = as_now(desk, desk.step)
        page = " ".join(left_of_the_picture(desk, size))
        texts = (*step.say, *step.consequence, *(item.title for item in for_places(step.cautions)))
        if desk.message or desk.jammed or all(all_words(text) <= all_words(page) for text in texts):
            continue
        short += 1
        assert "* 1 Enter" in page, heading
    assert short > (10 if size == (40, 12) else 0)


@each_size
def test_no_target_on_a_scale_is_left_out(size: tuple[int, int]) -> None:
    """The figure to aim at stands under its scale."""
    met = 0
    for heading, desk in step_desks():
        step = desk.step
        assert step is not None
        if step.gauge is None or not step.gauge.drawn or step.gauge.target is None or step.mask is None:
            continue
        met += 1
        target = f"{step.gauge.target:.{step.mask.decimals}f}"
        assert any(target in re.split(r"[ ,]+", line) for line in page_text(desk, *size)), (heading, target)
    assert met > 20


@pytest.mark.parametrize(
    "size", [size for size in SIZES if size != (40, 12)], ids=lambda size: f"{size[0]}x{size[1]}"
)
def test_a_completed_number_is_as_large_as_an_empty_one(size: tuple[int, int]) -> None:
    """The large figures do not shrink at the moment they are to be read, 40 x 12 apart."""
    met = 0
    for heading, desk in album().items():
        if desk.page == "step" and desk.step is not None and desk.step.kind == "number" and desk.line.text:
            met += 1
            blocks = sum(
                set(line.strip()) <= set(" ▀▄█m") and "█" in line for line in left_of_the_picture(desk, size)
            )
            assert blocks >= 2, heading
    assert met > 20


SMALLEST_SAYS = {
    "cased_hold": ("Close the screen. Raise it in steps: 0.5, 1, 2 bar.",),
    "fit_ready": ("Ring in, chamfer towards the glass.",),
}


@pytest.mark.parametrize("key", SMALLEST_SAYS)
def test_what_is_done_where_it_can_hurt_stands_whole_in_the_smallest_window(key: str) -> None:
    """The steps of the pressure and the screen, the ring's way in, and every word of the dies."""
    desk = at(key).desk
    assert desk.step is not None
    page = " ".join(" ".join(page_text(desk, 40, 12)).split())
    for text in (*SMALLEST_SAYS[key], *(choice.text for _, choice in shown_choices(desk, desk.step))):
        assert text in page, text


def test_the_caution_of_the_press_stands_whole_before_it() -> None:
    desk = at("fit_ready").desk
    for size in ((60, 20), (80, 24)):
        page = " ".join(" ".join(page_text(desk, *size)).split())
        assert "Fingers clear of the dies." in page and "never press on." in page
        assert "Start it square by thumb" in page.replace("▄", "")


def test_free_rows_hold_cautions_whole() -> None:
    """Raising pressure at 80 x 24: what is first to be known of it is read there, not behind a key."""
    page = " ".join(" ".join(page_text(at("cased_hold").desk, 80, 24)).split())
    assert "Screen closed until the pressure is let off." in page and "relief valve in place." in page
    assert "screen shut, wait until it has come down." in page

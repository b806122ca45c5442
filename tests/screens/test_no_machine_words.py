"""No page, list or plain line of any sample job shows a word that only the file needs.

What is quoted from a file that was changed by hand stands on the page of its findings alone, which is apart.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from bench.command import DONE
from bench.desk.desk import Desk
from bench.desk.effects import Open
from bench.desk.everything import chosen
from bench.desk.pages import over, show
from bench.stages.whole import walk
from ringwright import main
from screens.layout import text_of
from screens.look import Look
from screens.prompt import choices, prompt_line, said as said_in_lines
from screens.view import view
from tests.screens.keying import Keying, at_size
from tests.whole.make_samples import TARGET
from tests.whole.places import at, before_a_hold

NAMES = re.compile(r"[A-Za-z0-9]*[a-z0-9]_[a-z0-9]\w*|\bNone\b|\bTrue\b|\bFalse\b")
"""Identifiers; a mask such as __.__ is none."""
each_sample = pytest.mark.parametrize("sample", sorted(TARGET.glob("*.toml")), ids=lambda path: path.stem)


def opened(folder: Path, sample: Path) -> Desk:
    """The desk of a sample that was opened, all of it to be seen."""
    (folder / "jobs").mkdir(parents=True)
    shutil.copy(sample, folder / "jobs" / sample.name)
    keying = Keying(folder)
    keying.feed(*keying.bench.carry_out([Open(sample.name)]))
    keying.bench.close()
    desk = keying.desk
    assert desk.job is not None and desk.shop is not None
    return replace(desk, walk=walk(desk.job, desk.shop))


def pages(desk: Desk) -> Iterator[Desk]:
    """Where it stood, every step looked at again with its why, the lists and the sheet."""
    yield desk
    assert desk.walk is not None
    for step, _ in (*desk.walk.done, *((one, None) for one in desk.walk.optional)):
        shown, _ = show(desk, step.key)
        yield replace(shown, dealt=tuple(range(len(step.choices))))
        yield over(shown, "why")
    for word in ("usual", "replace", "spoiled", "undo", "keys", "sheet"):
        yield chosen(desk, word)[0]
    yield over(desk, "list")


def on_the_page(desk: Desk) -> list[str]:
    """The lines of a page that can show all it has."""
    wide = at_size(desk, 132, 60)
    return [text_of(one) for one in view(replace(wide, columns=200, rows=400), Look("ascii"))]


def in_lines(desk: Desk) -> list[str]:
    """The same as a person who is asked in plain lines reads it."""
    numbered = [f"{number} {text}" for number, _, text in choices(desk)]
    return [*said_in_lines(desk), *numbered, prompt_line(desk)]


def file_words(desk: Desk) -> set[str]:
    """What the file keeps of the choices of the step at hand, where that is not how they are said."""
    step = desk.step
    return set() if step is None else {one.word for one in step.choices if one.word not in one.text.lower()}


@each_sample
def test_no_page_of_a_sample_shows_one(sample: Path, tmp_path: Path) -> None:
    seen = 0
    for desk in pages(opened(tmp_path, sample)):
        for text in (*on_the_page(desk), *in_lines(desk)):
            seen += 1
            assert not NAMES.search(text), (desk.page, desk.at, text)
            answered = re.search(r"(?:answered|before): ([^;(]*)", text)
            assert not (answered and answered[1].strip() in file_words(desk)), (desk.at, text)
    assert seen > 1000


@each_sample
def test_the_lists_say_answers_as_they_were_offered(sample: Path, tmp_path: Path) -> None:
    """In the list of earlier answers, and where the job stood, an answer reads as its choice did."""
    desk = opened(tmp_path, sample)
    assert desk.walk is not None
    met = 0
    for step, answer in desk.walk.done:
        wanted = next((one.text for one in step.choices if one.word == answer.word), "")
        if step.kind == "safety":
            met += 1
            assert step.in_words(answer.word) == "as it should be", step.key
        elif wanted:
            assert step.in_words(answer.word) == wanted
    assert met or len(desk.walk.done) < 12


@each_sample
def test_no_sheet_for_the_workshop_shows_one(sample: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", str(sample), "--shop"]) == DONE
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) > 10 and not [text for text in lines if NAMES.search(text)]


def test_what_is_taken_back_is_said_as_it_was_asked(tmp_path: Path) -> None:
    desk = opened(tmp_path, TARGET / "00208-ferry-captain.toml")
    last = desk.walk.done[-1][0] if desk.walk else None
    said = " ".join(" ".join(on_the_page(chosen(desk, "undo")[0])).split())
    assert last is not None and f"What is taken back: {last.title} {last.choices[0].text}" in said


def test_a_check_that_was_answered_is_not_said_by_its_word() -> None:
    repairer = at("lathe_bar")
    for _ in range(3):
        repairer.key("previous")
    said = " ".join(on_the_page(repairer.desk))
    assert "answered: as it should be" in said and "right;" not in said


def test_where_no_check_was_answered_none_is_asked_again() -> None:
    """A new job left alone for long: nothing is said of checks, nor of a clock that nobody set."""
    early, late = at("seat_depth"), before_a_hold()
    for repairer, told in ((early, False), (late, True)):
        repairer.wait(16 * 60.0)
        repairer.key("1")
        assert ("asked again" in repairer.desk.message) == told, repairer.desk.message
    late.sleep(-600.0)
    late.key("1")
    assert "was set" not in late.desk.message

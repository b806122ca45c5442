"""The manual says what is so: what has a home elsewhere stands as it stands there, on screen and on paper."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest
from platformdirs.macos import MacOS
from platformdirs.unix import Unix
from pypdf import PdfReader

from bench.command import BAD_INPUT, DONE
from bench.desk.away import AWAY_S
from bench.desk.desk import SMALLEST
from bench.desk.entries import PAGES
from bench.desk.pace import QUIET_S
from bench.manual.chapters import PICTURES, chapter_named, chapters
from bench.manual.lines import lines_of
from bench.paper.manual import HALVES, STROKES
from ringwright import main
from tests.house.checks import TOP
from tests.make_manual import CHAPTERS, WINDOW, written

FILES = sorted(CHAPTERS.glob("*.md"))
TEXT = "\n".join(path.read_text(encoding="utf-8") for path in FILES)
COUNTS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
FACTS = {
    "setting-up": (
        f"at least {SMALLEST[0]} x {SMALLEST[1]} characters",
        f"{COUNTS[len(list((TOP / 'sample_sessions').glob('*.toml')))]} sample jobs",
        "Python 3.11 or newer"
        if 'requires-python = ">=3.11"' in (TOP / "pyproject.toml").read_text()
        else "other",
    ),
    "first-job": (f"a window of {WINDOW[0]} x {WINDOW[1]} characters",),
    "stages": ("after a quarter of an hour without a key" if AWAY_S == 15 * 60 else "another time",),
    "trouble": ("Wait half a second" if QUIET_S == 0.5 else "another time",),
    "keeping": (
        Unix("ringwright").user_data_dir.replace(str(Path.home()), "~"),
        MacOS("ringwright").user_data_dir.replace(str(Path.home()), "~"),
    ),
}
"""What a chapter says of figures that have a home, put together from there."""


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_what_is_made_is_as_the_program_has_it(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert written(text) == text, "python -m tests.make_manual"


@pytest.mark.parametrize("name", FACTS)
def test_figures_stand_as_their_home_has_them(name: str) -> None:
    chapter = chapter_named(name)
    assert chapter is not None
    said = " ".join(block.text for block in chapter.blocks)
    assert [fact for fact in FACTS[name] if fact not in said] == []


def strings() -> str:
    """Every text of the product, its blanks left open."""
    found = []
    for folder in ("rules", "bench", "screens"):
        for path in (TOP / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Constant) and isinstance(node.value, str):
                    found.append(node.value)
    return "\n".join(found)


def test_what_is_said_to_be_seen_is_said_by_the_program() -> None:
    trouble = (CHAPTERS / "7-trouble.md").read_text(encoding="utf-8")
    seen = re.findall(r"^\| `([^`]+)`", trouble, re.M)
    said = strings()
    assert len(seen) > 25 and [words for words in seen if words not in said] == []


def test_entries_of_the_list_are_called_as_they_are_called_there() -> None:
    entries = [text for one in PAGES for _, text in one]
    called = re.findall(r"`\*`, then \*([^*]+)\*", TEXT + (TOP / "README.md").read_text(encoding="utf-8"))
    assert len(called) > 8
    assert [one for one in called if not any(text.startswith(one) for text in entries)] == []


def test_every_chapter_that_is_led_to_is_there() -> None:
    led = set(re.findall(r"\]\(([^)]+)\)", TEXT))
    assert led and led <= {path.name for path in FILES}
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    linked = set(re.findall(r"\]\(([^)]+)\)", readme))
    assert {f"bench/data/manual/{path.name}" for path in FILES} < linked
    assert [link for link in linked if not (TOP / link).exists()] == []
    assert [one.number for one in chapters()] == list(range(1, len(FILES) + 1)) and len(FILES) <= 9


def test_no_block_of_a_chapter_is_lost_and_no_line_is_too_wide() -> None:
    for one in chapters():
        for columns in (37, 57, 90):
            lines = lines_of(one, columns, on_screen=False)
            assert max(len(text) for text, _ in lines) <= columns
            said = re.sub(r"\s+", "", "".join(text for text, _ in lines))
            lost = [
                block.text
                for block in one.blocks
                if block.kind not in PICTURES and re.sub(r"\s+", "", block.text) not in said
            ]
            assert lost == []
    pictures = [block for one in chapters() for block in one.blocks if block.kind in PICTURES]
    assert len(pictures) > 8 and {block.kind for block in pictures} == set(PICTURES)


def test_the_terminal_prints_the_whole_a_chapter_by_number_or_name_and_refuses_another(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["manual"]) == DONE
    whole = capsys.readouterr().out
    assert all(f"\n{one.number}  {one.title}\n=" in whole for one in chapters())
    assert main(["manual", "7"]) == main(["manual", "trou"]) == DONE
    twice = capsys.readouterr().out
    half = len(twice) // 2
    assert twice[:half] == twice[half:] and twice.startswith("7  When something is wrong\n=")
    assert main(["manual", "cooking"]) == main(["manual", "7", "--pdf", "x.pdf"]) == BAD_INPUT
    refused = capsys.readouterr().err
    assert "chapter cooking: there is no such chapter; there are 1 setting-up, 2 your-shop" in refused


def test_on_paper_every_chapter_begins_where_the_contents_say(tmp_path: Path) -> None:
    assert main(["manual", "--pdf", str(tmp_path / "manual.pdf")]) == DONE
    pages = [page.extract_text() for page in PdfReader(tmp_path / "manual.pdf").pages]
    for one in chapters():
        found = re.search(rf"{one.number}\s+{re.escape(one.title)}\s+(\d+)", pages[0])
        assert found and f"{one.number}  {one.title}" in pages[int(found[1]) - 1].splitlines()[0]
    printed = {letter for one in chapters() for block in one.blocks for letter in block.text}
    assert {letter for letter in printed if ord(letter) > 126} <= {*HALVES, *STROKES}

"""Hostile text in every place that shows text of a user or a file: it is seen, and does nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from rich.style import Style

from bench.command import DONE
from bench.desk.desk import Desk
from bench.desk.typed import AnswerLine
from ringwright import main
from screens import cells as cells_module, page as page_module
from screens.layout import text_of
from screens.look import Look
from screens.theme import styles
from screens.view import view
from tests.screens.hostile import HOSTILE, MARKUP, cells, desks, hostile_job, typed, unsafe_in
from tests.screens.keying import at_size
from tests.screens.painting import Row, rows_of, text_of_row
from tests.whole.hands import lines
from tests.whole.scripts import straight

pytestmark = pytest.mark.xdist_group("hostile text")

SIZES = ((80, 24), (40, 12), (60, 20))
TABLE = styles()


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[Desk]]:
    """The desks of every kind of hostile text."""
    folder = tmp_path_factory.mktemp("hostile")
    return {kind: list(desks(folder / kind, text)) for kind, text in HOSTILE.items()}


def faults(rows: list[Row], columns: int) -> Iterator[str]:
    """What is wrong with painted rows: characters that act, width,
    styles that are no role's, links and clicks.
    """
    for number, row in enumerate(rows):
        text = text_of_row(row)
        if bad := unsafe_in(text):
            yield f"row {number} holds {[f'U+{ord(letter):04X}' for letter in sorted(bad)]}"
        if cells(text) > columns:
            yield f"row {number} is {cells(text)} wide"
        for segment in row:
            style = segment.style or Style()
            if segment.control or style.link or style.meta:
                yield f"row {number} acts: {segment}"
            if style not in TABLE.values() and style != Style():
                yield f"row {number} is styled {style}"


@pytest.mark.parametrize("kind", HOSTILE)
def test_every_page_is_harmless(pages: dict[str, list[Desk]], kind: str) -> None:
    painted = 0
    for number, desk in enumerate(pages[kind]):
        for size in SIZES[:1] if 3 < number < 40 else SIZES:
            for ascii_only in (False, True) if size == SIZES[0] else (False,):
                rows = rows_of(desk, size, TABLE, ascii_only=ascii_only)
                found = list(faults(rows, size[0]))
                assert not found, (desk.page, size, found[:3])
                assert len(rows) == size[1]
                assert not ascii_only or "".join(map(text_of_row, rows)).isascii()
                painted += 1
    assert painted > 200


def test_the_text_does_reach_every_kind_of_page(pages: dict[str, list[Desk]]) -> None:
    """The markup is seen letter for letter, so the pages above did hold it."""
    seen = set()
    for desk in pages["markup"]:
        text = re.sub(r"\s+", " ", "\n".join(map(text_of_row, rows_of(desk, (200, 60), TABLE))))
        if "[red]x[/red] [/] [bold" in text:
            seen.add(desk.page)
    assert seen >= {"step", "sheet", "jobs", "account", "damage", "text", "pick"}, seen


@pytest.mark.parametrize("kind", ["wide", "long"])
def test_nothing_is_cut_off_by_the_widget(pages: dict[str, list[Desk]], kind: str) -> None:
    """Pages fold or shorten by cells, so that the widget has nothing to cut."""
    for desk in pages[kind]:
        for size in SIZES:
            for line in view(at_size(desk, *size), Look("half")):
                assert cells(text_of(line)) <= size[0], (desk.page, size)


@pytest.mark.parametrize("kind", ["escapes", "controls", "C1", "bidi", "zero width", "private", "separators"])
def test_pages_that_do_not_clean_are_found(
    pages: dict[str, list[Desk]], kind: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A planted fault: the widget paints text as it comes."""
    monkeypatch.setattr(cells_module, "clean", lambda text: text)
    caught = sum(any(faults(rows_of(desk, (80, 24), TABLE), 80)) for desk in pages[kind])
    assert caught >= 10, caught


def test_a_widget_that_reads_markup_is_found(
    monkeypatch: pytest.MonkeyPatch, pages: dict[str, list[Desk]]
) -> None:
    """A planted fault: the widget takes markup for styles."""
    from rich.text import Text
    from textual.strip import Strip

    def marked(self: Any, line: Any, columns: int) -> Strip:
        from rich.console import Console

        text = Text.from_markup("".join(part for part, _ in line).replace("[/]", ""))
        return Strip(list(text.render(Console(width=columns))))

    monkeypatch.setattr(page_module.Page, "_strip", marked)
    found = 0
    for desk in pages["markup"]:
        try:
            found += any(faults(rows_of(desk, (200, 60), TABLE), 200))
        except Exception:
            found += 1
    assert found >= 10


@pytest.mark.parametrize("kind", HOSTILE)
def test_commands_and_plain_lines_are_harmless(
    kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = HOSTILE[kind]
    keying = hostile_job(tmp_path, text)
    keying.run(straight(until="lathe_key"))
    path = Path(keying.desk.file)
    keying.bench.close()
    folder = ["--folder", str(tmp_path)]
    for words in (
        ["sheet", "1"],
        ["sheet", "1", "--shop"],
        ["plan", "1"],
        ["jobs"],
        ["check", str(path)],
        ["shop"],
    ):
        assert main([*words, *folder]) == DONE, words
        said = capsys.readouterr()
        assert said.out and not unsafe_in((said.out + said.err).replace("\n", "")), words
    _, told = lines(tmp_path, ["1", "1", "2", straight(until="drill")])
    assert not unsafe_in(told.replace("\n", ""))


@pytest.mark.parametrize("words", [["sheet"], ["plan"], ["jobs"], ["shop"], ["--plain"], []], ids=str)
def test_refusals_are_harmless(words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for kind in ("escapes", "C1", "bidi"):
        assert main([*words, HOSTILE[kind], "--folder", str(tmp_path)]) != DONE
        assert not unsafe_in(capsys.readouterr().err.replace("\n", "")), kind


def test_commands_that_do_not_clean_are_found(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A planted fault in the sheet."""
    keying = hostile_job(tmp_path, HOSTILE["escapes"])
    keying.bench.close()
    monkeypatch.setattr("bench.sheet.text.clean", lambda text: text)
    main(["sheet", "1", "--folder", str(tmp_path)])
    assert unsafe_in(capsys.readouterr().out.replace("\n", ""))


@pytest.mark.parametrize("kind", HOSTILE)
def test_text_keyed_as_watch_is_kept_without_what_acts(kind: str, pages: dict[str, list[Desk]]) -> None:
    desk = next(desk for desk in pages["markup"] if desk.page == "text")
    keyed = typed(replace(desk, line=AnswerLine(), pending=None), HOSTILE[kind][:300])
    assert not unsafe_in(keyed.line.text)
    assert len(keyed.line.text) <= 200
    assert MARKUP.startswith("[red]") and (kind != "markup" or keyed.line.text == MARKUP)

"""The title of the window, and colours as the terminal says whether it is light or dark."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bench.desk.arrivals import opened
from bench.desk.desk import Desk
from bench.desk.everything import chosen
from bench.shop.shop import built_in
from screens.app import Shell
from screens.look import Look, look
from screens.title import KEEP, title_of
from tests.bench.test_moments_at_the_desk import opened as session
from tests.screens.test_shell import lines_face

TITLED = Look(titles=True)


def test_no_letter_of_a_title_acts_and_a_terminal_without_titles_gets_none() -> None:
    hostile = title_of("7  a\x07\x1b]0;b\x9c\nDrüben", TITLED)
    assert hostile.count("\x1b") == 1 and hostile.count("\x07") == 1 and "\x9c" not in hostile
    assert title_of("7  Drüben", replace(TITLED, style="ascii")).isascii()
    assert title_of("7", Look()) == ""
    assert not look({"TERM": "linux"}, "utf-8").titles and look({"TERM": "tmux-256color"}, "utf-8").titles


async def test_the_title_is_written_once_for_a_job_and_the_one_before_is_kept(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    said: list[str] = []
    face = replace(
        lines_face([], TITLED), title=lambda desk: f"job {desk}", update=lambda desk, _: (desk, ())
    )
    shell = Shell(face)
    monkeypatch.setattr(shell.bench, "written", said.append)
    async with shell.run_test() as pilot:
        await pilot.press("5", "6")
        shell.bench._desk = 7
        await pilot.press("5")
    assert said == [KEEP + title_of("job 0", TITLED), title_of("job 7", TITLED)]


@pytest.mark.parametrize(
    ("words", "name"),
    [("15;0", "night"), ("15;default;0", "night"), ("0;15", "day"), ("12;8", "night"), ("0;7", "day")]
    + [("", "day"), ("default;default", "day"), ("0;", "day"), ("x", "day")],
)
def test_colours_follow_what_the_terminal_says_of_itself(words: str, name: str) -> None:
    """As rxvt sets COLORFGBG (rxvt(1), ENVIRONMENT): ink and paper as numbers of the 16, or default."""
    assert look({"TERM": "xterm", "COLORFGBG": words}, "utf-8").name == name


@pytest.mark.parametrize(
    ("theme", "terminal", "switched", "night"),
    [
        ("terminal", True, False, True),
        ("terminal", False, False, False),
        ("day", True, False, False),
        ("night", False, False, True),
        ("day", True, True, False),
        ("night", True, True, False),
    ],
)
def test_a_shop_may_say_otherwise_and_what_is_chosen_stays(
    theme: str, terminal: bool, switched: bool, night: bool
) -> None:
    desk = Desk(night=terminal)
    if switched:
        desk, _ = chosen(desk, "night")
    after, _ = opened(desk, session(shop=replace(built_in(), theme=theme)))
    assert after.night is night

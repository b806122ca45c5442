"""The shell without a terminal: one queue, no focus, nothing painted that a terminal could act on."""

from __future__ import annotations

import sys
import threading
import time
import unicodedata
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from textual import events
from textual.pilot import Pilot

from bench.clocks import since_boot
from bench.desk.token import Leave, Token
from bench.wire.heard import Heard
from screens.app import Shell
from screens.face import Face, pasted
from screens.look import Look
from screens.page import Page
from screens.theme import styles
from tests.screens.demonstration import Table, face_for

HOSTILE = [
    "[red]x[/red] [/] [link=file:///etc/passwd]y[/link] [@click=app.bell]z[/]",
    "\x1b[2J\x1b]0;title\x07\x1b]52;c;eA==\x1b\\",
    "a\u202eb\u2066c\u200bd\ufeffe",
    "\x00\x07\x08\x0b\x0c\r\n\t\x7f\x85\x9b",
    "\ud800\ue000\U000e0001\u2028\u2029",
    "0.05 mm \u00a0 \u00b5 \u4e2d\u6587 e\u0301",
]
UNSAFE = ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")


def painted(page: Page) -> list[str]:
    """The text of every painted row."""
    return ["".join(segment.text for segment in row) for row in page.render_lines(page.size.region)]


async def until(pilot: Pilot[None], ready: Callable[[], bool]) -> None:
    """Let the program run until something is so, for a bounded number of turns."""
    for _ in range(500):
        if ready():
            return
        await pilot.pause()
    raise AssertionError("never happened")


async def test_nothing_takes_focus_and_nothing_but_the_desk_quits(tmp_path: Path) -> None:
    shell = Shell(face_for(tmp_path / "kept"))
    async with shell.run_test(size=(80, 24)) as pilot:
        await pilot.press("3", "ctrl+q", "tab", "shift+tab", "escape", "ctrl+c", "f1", "ctrl+p", "enter")
        await pilot.press("3", "6", ".", "4", "2", "enter")
        assert shell.screen.focused is None
        assert shell.is_running and shell.bench.left is None
        assert (tmp_path / "kept").read_text() == "36.42 mm\n"
        await pilot.press("*")
    assert shell.bench.left == Leave(0, "1 readings saved")


async def test_two_hundred_readings_posted_at_once_are_two_hundred_readings(tmp_path: Path) -> None:
    shell = Shell(face_for(tmp_path / "kept"))
    wanted = [f"{3000 + number}"[:2] + "." + f"{3000 + number}"[2:] for number in range(200)]
    async with shell.run_test() as pilot:
        for letter in "".join(f"{text}\r" for text in wanted):
            shell.post_message(events.Key("enter" if letter == "\r" else letter, letter))
        await until(pilot, lambda: len(shell.bench.desk.readings) >= 200)
    assert (tmp_path / "kept").read_text().split(" mm\n")[:-1] == wanted


async def test_only_rows_that_changed_are_painted_again(tmp_path: Path) -> None:
    shell = Shell(face_for(tmp_path / "kept"))
    async with shell.run_test(size=(80, 24)) as pilot:
        page = shell.bench.query_one(Page)
        before = list(page._strips)
        await pilot.press("3")
        changed = [row for row, strip in enumerate(page._strips) if strip is not before[row]]
    assert 0 < len(changed) < 12


def lines_face(lines: Sequence[Sequence[tuple[str, str]]], look: Look) -> Face[Any]:
    """A face that shows the same lines for ever."""
    return Face(0, lambda desk, _token: (desk, ()), lambda _effects: (), lambda _desk: lines, look=look)


@pytest.mark.parametrize("raster", ["braille", "ascii"])
async def test_hostile_text_is_shown_and_does_nothing(raster: str) -> None:
    look = Look(raster)  # type: ignore[arg-type]
    lines = [[(text, "ink"), (text, "alarm")] for text in HOSTILE]
    shell = Shell(lines_face(lines, look))
    async with shell.run_test(size=(200, 10)) as pilot:
        await pilot.pause()
        rows = painted(shell.bench.query_one(Page))
    text = "".join(rows)
    assert not {letter for letter in text if unicodedata.category(letter) in UNSAFE}
    assert "[red]x[/red]" in rows[0] and "[@click=app.bell]z[/]" in rows[0]
    assert text.isascii() == (raster == "ascii")


async def test_lines_are_cut_and_filled_to_the_window() -> None:
    lines = [[("x" * 300, "ink")], [], [("中" * 41, "ink")], *[[(str(n), "ink")] for n in range(50)]]
    shell = Shell(lines_face(lines, Look()))
    async with shell.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        page = shell.bench.query_one(Page)
        assert [row.cell_length for row in page.render_lines(page.size.region)] == [80] * 24
        await pilot.resize_terminal(41, 13)
        await pilot.pause()
        assert [row.cell_length for row in page.render_lines(page.size.region)] == [41] * 13


async def test_the_theme_follows_the_desk() -> None:
    def update(desk: str, token: Token) -> tuple[str, tuple[()]]:
        return ("night" if token.text == "5" else desk), ()

    face = Face("day", update, lambda _effects: (), lambda _desk: [[("x", "ink")]], theme=lambda desk: desk)
    shell = Shell(face)
    async with shell.run_test() as pilot:
        await pilot.pause()
        page = shell.bench.query_one(Page)
        assert (
            page.render_lines(page.size.region)[0]._segments[0].style
            == styles(name="day", depth="full")["ink"]
        )
        await pilot.press("5")
        assert (
            page.render_lines(page.size.region)[0]._segments[0].style
            == styles(name="night", depth="full")["ink"]
        )


async def test_what_comes_of_an_effect_reaches_the_desk_before_the_next_key() -> None:
    seen: list[str] = []

    def update(desk: int, token: Token) -> tuple[int, tuple[str, ...]]:
        if token.kind in ("key", "saved"):
            seen.append(token.kind + token.text)
        return desk, ("save",) if token.kind == "key" else ()

    face = Face(0, update, lambda effects: [Token("saved") for _ in effects], lambda _desk: [])
    shell = Shell(face)
    async with shell.run_test() as pilot:
        for letter in "12":
            shell.post_message(events.Key(letter, letter))
        await until(pilot, lambda: len(seen) >= 4)
    assert seen == ["key1", "saved", "key2", "saved"]


async def test_every_key_carries_the_time_since_the_start_of_the_computer() -> None:
    seen: list[Token] = []

    def update(desk: int, token: Token) -> tuple[int, tuple[()]]:
        seen.append(token)
        return desk, ()

    face = Face(0, update, lambda _effects: (), lambda _desk: [], boot=lambda: 77.5)
    async with Shell(face).run_test() as pilot:
        await pilot.press("5", "enter")
    keys = [token for token in seen if token.kind == "key"]
    assert [token.boot for token in keys] == [77.5, 77.5] and all(token.wall for token in keys)


def test_the_time_since_the_start_counts_sleep_where_the_system_tells(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    now = since_boot()
    if hasattr(time, "CLOCK_BOOTTIME"):
        assert now is not None and 0 <= time.clock_gettime(time.CLOCK_BOOTTIME) - now < 60
    monkeypatch.delattr(time, "CLOCK_BOOTTIME", raising=False)
    assert since_boot() is None


async def test_a_token_that_never_ends_is_a_fault_not_a_hang() -> None:
    face = Face(
        0,
        lambda desk, token: (desk, ("again",) if token.kind in ("key", "again") else ()),
        lambda _effects: [Token("again")],
        lambda _desk: [],
    )
    shell = Shell(face)
    with pytest.raises(RuntimeError, match="never came to an end"):
        async with shell.run_test() as pilot:
            await pilot.press("5")
    assert isinstance(shell.fault, RuntimeError)


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("36.42", "paste:36.42"),
        ("36.42\n", "paste:36.42"),
        ("36.42\n36.44\n", "refused:several lines"),
        ("x" * 41, "refused:a long text"),
        ("", "refused:an empty paste"),
        ("\n", "refused:an empty paste"),
    ],
)
def test_pastes(text: str, means: str) -> None:
    assert pasted(text).startswith(means)


def test_the_shell_is_only_loaded_by_the_full_screen() -> None:
    """Keys, numbers, drawings and looks load no toolkit."""
    import subprocess

    names = (
        "bench.desk.keys, bench.desk.bounce, bench.desk.typed, screens.raster, screens.pictures, "
        "screens.figures"
    )
    program = f"import sys, {names}, screens.look, screens.keys_seen; sys.exit('textual' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0


async def test_what_another_thread_posts_reaches_the_desk(tmp_path: Path) -> None:
    """As a gauge on a line does, once the screen stands."""
    face, came = face_for(tmp_path / "kept"), list[Heard]()

    def update(desk: Table, token: Any) -> tuple[Table, Sequence[Any]]:
        if isinstance(token, Heard):
            came.append(token)
            return desk, ()
        return face.update(desk, token)

    def listen(post: Callable[[Any], Any]) -> None:
        threading.Thread(target=post, args=(Heard("gauge", number="36.42"),)).start()

    shell = Shell(replace(face, update=update, listen=listen))
    async with shell.run_test() as pilot:
        await until(pilot, lambda: bool(came))
    assert came == [Heard("gauge", number="36.42")]


def test_face_defaults_want_nothing() -> None:
    face: Face[Table] = lines_face([], Look())
    assert not face.ticking(Table()) and face.settle_ms(Table()) == 0 and face.theme(Table()) == "day"

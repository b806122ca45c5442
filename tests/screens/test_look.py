"""What a terminal can do is read from its environment; hopeless ones are refused in one line."""

from __future__ import annotations

import io
import os
import sys

import pytest
from rich.console import Console

from screens import system
from screens.look import drop_overrides, look, plain, refusal


@pytest.mark.parametrize(
    ("environ", "depth"),
    [
        ({"TERM": "xterm-256color", "COLORTERM": "truecolor"}, "full"),
        ({"TERM": "xterm-256color"}, "256"),
        ({"TERM": "xterm-kitty"}, "256"),
        ({"TERM": "xterm"}, "16"),
        ({"TERM": "linux"}, "16"),
        ({"TERM": "vt220"}, "none"),
        ({"TERM": "xterm-mono"}, "none"),
        ({"TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "1"}, "none"),
        ({"TERM": "xterm-256color", "NO_COLOR": ""}, "256"),
    ],
)
def test_colours(environ: dict[str, str], depth: str) -> None:
    assert look(environ, "utf-8").depth == depth


@pytest.mark.parametrize(
    "terminal", ["xterm", "xterm-256color", "xterm-kitty", "alacritty", "foot", "linux", "tmux"]
)
@pytest.mark.parametrize("colorterm", ["", "truecolor", "24bit"])
def test_no_more_colours_are_asked_for_than_will_be_written(terminal: str, colorterm: str) -> None:
    """The toolkit rounds further what its console thinks too much, to colours nobody has checked."""
    environ = {"TERM": terminal, "COLORTERM": colorterm}
    console = Console(file=io.StringIO(), force_terminal=True, _environ=environ, color_system="auto")
    order = {None: 0, "standard": 1, "256": 2, "truecolor": 3}
    wanted = {"none": 0, "16": 1, "256": 2, "full": 3}[look(environ, "utf-8").depth]
    assert wanted == order[console.color_system]


@pytest.mark.parametrize(
    ("terminal", "encoding", "raster"),
    [
        ("xterm", "utf-8", "braille"),
        ("xterm", "UTF8", "braille"),
        ("linux", "utf-8", "half"),
        ("xterm", "ascii", "ascii"),
        ("xterm", "iso-8859-1", "ascii"),
        ("xterm", None, "ascii"),
    ],
)
def test_raster(terminal: str, encoding: str | None, raster: str) -> None:
    seen = look({"TERM": terminal}, encoding)
    assert seen.style == raster and seen.ascii == (raster == "ascii")


@pytest.mark.parametrize(
    ("terminal", "stdin", "stderr", "words"),
    [
        ("xterm", True, True, ""),
        ("xterm", False, True, "standard input"),
        ("xterm", True, False, "standard error"),
        ("dumb", True, True, "dumb"),
        ("unknown", True, True, "unknown"),
        ("", True, True, "not set"),
    ],
)
def test_refusals(terminal: str, stdin: bool, stderr: bool, words: str) -> None:
    why = refusal({"TERM": terminal}, stdin_is_terminal=stdin, drawn_is_terminal=stderr)
    assert (words in why) if words else why == ""
    assert "\n" not in why


@pytest.mark.parametrize(
    ("environ", "style", "why"),
    [
        ({}, "half", ""),
        ({"TERM": "xterm", "COLORTERM": "truecolor"}, "half", ""),
        ({"WT_SESSION": "0"}, "braille", ""),
        ({"TERM": "dumb"}, "braille", "TERM is dumb"),
    ],
)
def test_a_console_without_posix_needs_no_term_and_has_256_colours(
    environ: dict[str, str], style: str, why: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(system, "POSIX_TERMINAL", False)
    monkeypatch.setattr(os, "environ", environ)
    said = system.said_of_itself()
    assert look(said, "utf-8").style == style
    assert look(said, "utf-8").depth == ("16" if why else "256")
    assert refusal(said, stdin_is_terminal=True, drawn_is_terminal=True).startswith(why)
    assert "standard output" in refusal(said, stdin_is_terminal=True, drawn_is_terminal=False, drawn="output")
    assert system.drawn_on() is sys.__stdout__ and system.settings_now() is None


def test_exported_sizes_and_switches_are_dropped() -> None:
    environ = {"COLUMNS": "40", "LINES": "10", "TEXTUAL_ALLOW_SIGNALS": "1", "TERM": "xterm", "HOME": "/"}
    drop_overrides(environ)
    assert environ == {"TERM": "xterm", "HOME": "/"}


def test_plain_text_keeps_its_length() -> None:
    text = "┌─┐ 0.05 ± 2 µm × 3 ½ ▲ → ° “x” Ø33,2 ﷽ ж"
    assert plain(text).isascii() and len(plain(text)) == len(text)
    assert plain("┌─┐│░█ µ") == "+-+|.# u"

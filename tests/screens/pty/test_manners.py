"""Signals, a lost line, suspending, odd sizes and odd terminals: nothing is lost, nothing is left raw."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.screens.pty.harness import PATIENCE_S, ROOT, Terminal, clean_environment

DEMONSTRATION = ["-m", "tests.screens.demonstration"]


def opened(path: Path, **more: object) -> Terminal:
    """The demonstration, ready for keys."""
    terminal = Terminal([*DEMONSTRATION, str(path)], **more)  # type: ignore[arg-type]
    terminal.wait_for("ready")
    return terminal


def key_in(terminal: Terminal, path: Path, text: str) -> None:
    """One reading, and wait until it is kept."""
    terminal.send(text.encode() + b"\r")
    terminal.wait(lambda: path.exists() and text in path.read_text(), f"{text} to be kept")


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP], ids=["SIGTERM", "SIGHUP"])
def test_a_signal_leaves_with_0_and_gives_the_terminal_back(tmp_path: Path, number: int) -> None:
    path = tmp_path / "kept"
    with opened(path) as terminal:
        assert not terminal.given_back()
        key_in(terminal, path, "36.42")
        terminal.send(b"36.")
        terminal.process.send_signal(number)
        assert terminal.wait_exit() == 0
        assert terminal.given_back()
        if number == signal.SIGTERM:
            assert b"1 readings saved" in terminal.output
    assert path.read_text() == "36.42 mm\n"


@pytest.mark.parametrize("ignored", [False, True], ids=["SIGHUP taken", "SIGHUP ignored"])
def test_a_lost_line_ends_the_program_at_once(tmp_path: Path, ignored: bool) -> None:
    path = tmp_path / "kept"
    with opened(path, ignore_hangup=ignored) as terminal:
        key_in(terminal, path, "36.42")
        started = time.monotonic()
        terminal.close_line()
        assert terminal.wait_exit() == 0
        assert time.monotonic() - started < 5
    assert path.read_text() == "36.42 mm\n"


def test_sigterm_leaves_also_when_the_terminal_has_stopped_reading(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    with opened(path) as terminal:
        assert any(stuck(terminal, path, number) for number in range(500))
        started = time.monotonic()
        terminal.process.send_signal(signal.SIGTERM)
        assert terminal.process.wait(PATIENCE_S) == 0
        assert time.monotonic() - started < 4


def stuck(terminal: Terminal, path: Path, number: int) -> bool:
    """Repaint everything and key a reading, reading nothing back; whether the reading is no longer taken."""
    kept = path.stat().st_size if path.exists() else 0
    terminal.resize(80 + number % 2, 24)
    os.write(terminal.master, b"36.42\r")
    end = time.monotonic() + 0.5
    while (path.stat().st_size if path.exists() else 0) == kept:
        if time.monotonic() > end:
            return True
    return False


def stopped(terminal: Terminal) -> bool:
    """Whether the program has been stopped by job control."""
    pid, status = os.waitpid(terminal.process.pid, os.WUNTRACED | os.WNOHANG)
    return pid != 0 and os.WIFSTOPPED(status)


def test_ctrl_z_suspends_and_a_half_typed_number_survives(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    with opened(path) as terminal:
        terminal.send(b"36.4")
        terminal.wait_for("typed [36.4]")
        terminal.send(b"\x1a")
        terminal.wait(lambda: stopped(terminal), "the program to stop")
        while terminal.drain(0.05):
            pass
        assert terminal.given_back()
        terminal.screen.reset()
        terminal.process.send_signal(signal.SIGCONT)
        terminal.wait_for("typed [36.4]")
        terminal.send(b"2\r")
        terminal.wait_for("last 36.42 mm")
        terminal.send(b"*")
        assert terminal.wait_exit() == 0
        assert terminal.given_back()


def threads(terminal: Terminal) -> int:
    """How many threads the program has."""
    return len(list(Path(f"/proc/{terminal.process.pid}/task").iterdir()))


@pytest.mark.skipif(sys.platform != "linux", reason="counts threads in /proc")
def test_being_stopped_unasked_leaves_one_reader_of_keys(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    with opened(path) as terminal:
        terminal.send(b"36.4")
        terminal.wait_for("typed [36.4]")
        before = threads(terminal)
        for _ in range(3):
            terminal.process.send_signal(signal.SIGSTOP)
            terminal.wait(lambda: stopped(terminal), "the program to stop")
            terminal.screen.reset()
            terminal.process.send_signal(signal.SIGCONT)
            terminal.wait_for("typed [36.4]")
        assert threads(terminal) == before
        terminal.send(b"2\r" + b"".join(b"36.%02d\r" % number for number in range(50)))
        terminal.wait_for("51 kept")
        assert terminal.process.poll() is None
    assert path.read_text().split() == [word for n in [42, *range(50)] for word in (f"36.{n:02d}", "mm")]


def test_a_storm_of_sizes(tmp_path: Path) -> None:
    chance = random.Random(3)
    path = tmp_path / "kept"
    with opened(path) as terminal:
        for number in range(300):
            terminal.resize(chance.randint(1, 400), chance.randint(1, 120))
            if number % 60 == 0:
                terminal.send(b"36.42\r")
            terminal.drain(0)
        for columns, rows in ((1, 1), (40, 12), (400, 120), (0, 0), (39, 12), (80, 24)):
            terminal.resize(columns, rows)
            terminal.drain(0.05)
        terminal.wait_for("5 kept")
        terminal.wait(lambda: "* more" in terminal.screen.display[-1], "the key line on the last row")
        terminal.resize(39, 11)
        terminal.wait_for("40 x 12 needed")
        terminal.send(b"*")
        assert terminal.wait_exit() == 0


def test_an_exported_size_is_not_believed(tmp_path: Path) -> None:
    environment = clean_environment(COLUMNS="33", LINES="9")
    with opened(tmp_path / "kept", environment=environment) as terminal:
        terminal.wait(lambda: "* more" in terminal.screen.display[-1], "the key line on the last row")


def test_only_ascii_is_written_where_the_locale_is_not_utf8(tmp_path: Path) -> None:
    environment = clean_environment(PYTHONIOENCODING="ascii")
    with opened(tmp_path / "kept", environment=environment) as terminal:
        terminal.send(b"36.42")
        terminal.wait_for("typed [36.42]")
        terminal.send(b"*")
        assert terminal.wait_exit() == 0
        assert max(terminal.output) < 128
        assert b"\\u" not in terminal.output


@pytest.mark.parametrize("variable", ["NO_COLOR", "16 colours"])
def test_fewer_colours_are_respected(tmp_path: Path, variable: str) -> None:
    more = {"NO_COLOR": "1"} if variable == "NO_COLOR" else {"COLORTERM": "", "TERM": "xterm"}
    with opened(tmp_path / "kept", environment=clean_environment(**more)) as terminal:
        assert b"38;2;" not in terminal.output and b"48;2;" not in terminal.output
        coloured = any(
            cell.fg != "default" for row in terminal.screen.buffer.values() for cell in row.values()
        )
        assert coloured == (variable != "NO_COLOR")


def test_a_fault_of_ours_is_one_line_and_status_4(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    with opened(path) as terminal:
        key_in(terminal, path, "36.42")
        terminal.send(b"88.88\r")
        assert terminal.wait_exit() == 4
        assert terminal.given_back()
        after = terminal.output[terminal.output.rfind(b"\x1b[?1049l") :]
        assert b"Traceback" not in after and b"planted fault" in after
        assert after.count(b"\n") == 1
    assert path.read_text() == "36.42 mm\n"


def test_the_bell_and_a_timer_and_then_silence(tmp_path: Path) -> None:
    with opened(tmp_path / "kept") as terminal:
        terminal.send(b"99.99\r")
        terminal.wait(lambda: b"\x07" in terminal.output, "the bell")
        terminal.output.clear()
        terminal.send(b"77.77\r")
        for left in ("3 s left", "2 s left", "1 s left"):
            terminal.wait_for(left)
        terminal.wait(lambda: "s left" not in terminal.text(), "the end of the timer")
        terminal.wait(lambda: b"\x07" in terminal.output, "the bell at the end")
        while terminal.drain(0.2):
            pass
        assert not terminal.drain(1.2)


@pytest.mark.parametrize(
    ("more", "words"),
    [({"TERM": "dumb"}, "dumb"), ({"TERM": "<unset>"}, "TERM is not set")],
    ids=["dumb", "unset"],
)
def test_a_hopeless_terminal_is_refused(tmp_path: Path, more: dict[str, str], words: str) -> None:
    environment = clean_environment(**more)
    with Terminal([*DEMONSTRATION, str(tmp_path / "kept")], environment=environment) as terminal:
        assert terminal.wait_exit() == 2
        assert words.encode() in terminal.output
        assert b"\x1b" not in terminal.output


@pytest.mark.parametrize("stream", ["stdin", "stderr"])
def test_no_terminal_is_refused_with_status_2(tmp_path: Path, stream: str) -> None:
    with (tmp_path / "elsewhere").open("w+b") as elsewhere:
        with Terminal(
            [*DEMONSTRATION, str(tmp_path / "kept")],
            stdin=elsewhere.fileno() if stream == "stdin" else None,
            stderr=elsewhere.fileno() if stream == "stderr" else None,
        ) as terminal:
            assert terminal.wait_exit() == 2
            said = bytes(terminal.output)
        elsewhere.seek(0)
        said += elsewhere.read()
    assert said.count(b"\n") == 1 and b"no terminal" in said and b"\x1b" not in said


def test_no_terminal_at_all(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, *DEMONSTRATION, str(tmp_path / "kept")],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        env=clean_environment(),
        cwd=ROOT,
        timeout=PATIENCE_S,
        check=False,
    )
    assert done.returncode == 2 and done.stdout == b""
    assert done.stderr.count(b"\n") == 1


def test_a_paste_that_never_ends_holds_only_keys(tmp_path: Path) -> None:
    path = tmp_path / "kept"
    with opened(path) as terminal:
        terminal.send(b"\x1b[200~36.42\r\r*")
        terminal.process.send_signal(signal.SIGTERM)
        assert terminal.wait_exit() == 0
        assert terminal.given_back()
    assert not path.exists()


def test_the_keys_screen_shows_what_arrives() -> None:
    with Terminal(["-m", "ringwright", "keys"]) as terminal:
        terminal.wait_for("Keys as they arrive")
        terminal.send(b"36.42\r\n")
        terminal.wait_for("a machine: 36.42")
        assert "ended by CR LF" in terminal.text()
        terminal.send(b"\x1b[H")
        terminal.wait_for("NumLock is off")
        terminal.send(b"\xb5")
        terminal.send(b"***")
        assert terminal.wait_exit() == 0

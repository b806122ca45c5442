"""The program itself under a real pseudo-terminal:
a gauge faster than the disk, signals, a lost line, a stop.
"""

from __future__ import annotations

import os
import re
import signal
from pathlib import Path

from screens.title import BACK
from tests.screens.pty.harness import Terminal, clean_environment

CHOICES = (("0", "paint"), ("1", "seat"), ("1", "held"), ("1", "Glass seat"))
MOUSE = re.compile(rb"\x1b\[\?(?:9|100[0-35-7]|1015|1016)h")
"""Asking for clicks (xterm, control sequences, mouse tracking); 1004 asks whether the window is in front."""
READINGS = ("33.20", "33.22", "32.14", "32.16")


def opened(folder: Path) -> Terminal:
    """The program on an empty list of jobs."""
    terminal = Terminal(["-m", "ringwright", "--folder", str(folder)])
    terminal.wait_for("number of a job")
    return terminal


def to_the_first_reading(terminal: Terminal) -> None:
    """Key the choices by hand, each when its question stands there."""
    for digit, following in CHOICES:
        terminal.pace([(0.12, digit.encode())])
        terminal.wait_for(f"{digit}")
        terminal.pace([(0.12, b"\r")])
        terminal.wait(lambda words=following: words.lower() in terminal.text().lower(), following)  # type: ignore[misc]


def kept(folder: Path) -> list[str]:
    """The readings in the session file, in the order of the file."""
    files = list((folder / "jobs").glob("*.toml"))
    assert len(files) == 1
    return re.findall(r'"(\d\d\.\d\d) mm"', files[0].read_text(encoding="utf-8"))


def test_a_second_reading_in_one_write_is_shown_and_waits_for_enter(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_reading(terminal)
        terminal.send(b"33.20\r\n33.22\r\n")
        terminal.wait_for("Enter takes it")
        assert kept(tmp_path) == ["33.20"]
        terminal.pace([(0.2, b"\r")])
        terminal.wait(lambda: kept(tmp_path) == ["33.20", "33.22"], "the second in the file")


def test_readings_of_an_announced_series_are_all_in_the_file(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_reading(terminal)
        announce_a_series(terminal)
        terminal.send("".join(f"{reading}\r\n" for reading in READINGS).encode())
        terminal.wait(lambda: len(kept(tmp_path)) >= len(READINGS), "four readings in the file")
        assert tuple(kept(tmp_path)) == READINGS
        terminal.process.send_signal(signal.SIGTERM)
        assert terminal.wait_exit() == 0
        assert terminal.given_back()
        assert str(next((tmp_path / "jobs").glob("*.toml"))).encode() in terminal.output


def announce_a_series(terminal: Terminal) -> None:
    """Choose it from the list."""
    terminal.pace([(0.15, b"*")])
    terminal.wait_for("everything else")
    while not (found := re.search(r"(\d)(\d)  a gauge sends a stored series", terminal.text())):
        before = terminal.text()
        terminal.pace([(0.15, b"+")])
        terminal.wait(lambda before=before: terminal.text() != before, "the next entries")  # type: ignore[misc]
    terminal.pace([*((0.15, digit.encode()) for digit in found.groups()), (0.15, b"\r")])
    terminal.wait_for("Send the stored readings now")


def test_what_was_accepted_survives_a_lost_line_and_the_job_resumes(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_reading(terminal)
        terminal.send(b"33.20\r")
        terminal.wait(lambda: kept(tmp_path) == ["33.20"], "the reading in the file")
        terminal.close_line()
        assert terminal.wait_exit() == 0
    with Terminal(["-m", "ringwright", "--folder", str(tmp_path), "1"]) as terminal:
        terminal.wait_for("where it stood")
        terminal.wait_for("33.20")
        terminal.wait(lambda: terminal.screen.title == "1 - ringwright", "the title of the window")
        terminal.process.send_signal(signal.SIGHUP)
        assert terminal.wait_exit() == 0
        assert terminal.given_back() and BACK.encode() in terminal.output
        assert not MOUSE.search(terminal.output), "the mouse selects text, as the terminal has it"


def test_a_half_typed_number_survives_the_background(tmp_path: Path) -> None:
    with opened(tmp_path) as terminal:
        to_the_first_reading(terminal)
        terminal.send(b"33.2")
        terminal.wait(lambda: not terminal.drain(0.1), "the paint to end")
        before = terminal.text()
        terminal.send(b"\x1a")
        terminal.wait(lambda: stopped(terminal), "the program to stop")
        assert terminal.given_back()
        terminal.screen.reset()
        terminal.process.send_signal(signal.SIGCONT)
        terminal.wait(lambda: terminal.text() == before, "the same screen again")


def stopped(terminal: Terminal) -> bool:
    """Whether job control has stopped the program; what it wrote before is taken first."""
    while terminal.drain(0):
        pass
    pid, status = os.waitpid(terminal.process.pid, os.WUNTRACED | os.WNOHANG)
    return pid != 0 and os.WIFSTOPPED(status)


def test_saved_is_not_said_of_a_job_whose_folder_is_gone(tmp_path: Path) -> None:
    folder, home = tmp_path / "here", tmp_path / "home"
    home.mkdir()
    environment = clean_environment(HOME=str(home))
    with Terminal(["-m", "ringwright", "--folder", str(folder)], environment=environment) as terminal:
        terminal.wait_for("number of a job")
        to_the_first_reading(terminal)
        (folder / "jobs").rename(tmp_path / "elsewhere")
        terminal.send(b"*")
        terminal.wait_for("leave; the job is kept")
        (line,) = (line for line in terminal.text().splitlines() if "leave; the job is kept" in line)
        terminal.pace([(0.1, line.split()[0].encode()), (0.12, b"\r")])
        assert terminal.wait_exit() == 3
        said = terminal.output[terminal.output.rfind(b"\x1b[?25h") :].decode()
        assert "Not saved: " in said and "no longer where it was" in said
        assert len(list(home.glob("*-copy-*.toml"))) == 1

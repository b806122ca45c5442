"""What the world refuses ends with status 2 or 3 and one line of plain words;
4 is for faults of ours alone.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from bench.file.new_job import create
from bench.refusal import BAD_INPUT, COULD_NOT_WRITE, DONE, OUR_FAULT
from ringwright import main
from tests.bench.file.texts import AT

ROOT = Path(__file__).resolve().parents[2]
LONG = "a" * 300
DIGITS = "9" * 4301
HUGE = "9" * 400


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    with create(tmp_path / "here", made_by="ringwright") as session:
        session.append(kind="note", value="kept", at=AT)
    return tmp_path / "here"


def shell(folder: Path, line: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """A line of the shell in which RINGWRIGHT stands for the program on a folder."""
    command = f"{sys.executable} -m ringwright --folder {folder}"
    return subprocess.run(
        ["bash", "-c", line.replace("RINGWRIGHT", command)],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
        timeout=60,
        check=False,
    )


def in_plain_words(said: str) -> bool:
    """One line that names no error of Python's and no call."""
    return (
        said.startswith("ringwright: ")
        and said.count("\n") == 1
        and "Error" not in said
        and "[Err" not in said
    )


@pytest.mark.parametrize(
    ("line", "status"),
    [
        ("RINGWRIGHT --plain <&-", BAD_INPUT),
        ("RINGWRIGHT --plain 1 <&-", BAD_INPUT),
        ("RINGWRIGHT <&-", BAD_INPUT),
        *(
            (f"echo 1 | RINGWRIGHT {words} >/dev/full", COULD_NOT_WRITE)
            for words in (
                "jobs",
                "jobs --json",
                "shop",
                "sheet 1",
                "sheet 1 --json",
                "check jobs/00001.toml",
                "size --case-bore 28.40 --glass 27.36",
                "--plain",
                "--plain 1",
                "--help",
                "--version",
                "-V",
                "man",
                "help leak",
                "size --help",
            )
        ),
    ],
)
def test_nothing_to_read_from_and_nowhere_to_print(folder: Path, line: str, status: int) -> None:
    done = shell(folder, line.replace("jobs/", f"{folder}/jobs/"))
    assert done.returncode == status
    assert in_plain_words(done.stderr)


def test_a_reader_that_goes_away_is_no_fault(folder: Path) -> None:
    done = shell(folder, "RINGWRIGHT shop | true; exit ${PIPESTATUS[0]}")
    assert (done.returncode, done.stderr) == (DONE, "")


@pytest.mark.parametrize(
    "zone", ["Mars/Olympus", ":/etc/passwd", "UTC+99", "AAA-24:59:59", "XXX+167", "\\x01"]
)
def test_an_odd_time_zone_changes_nothing(folder: Path, tmp_path: Path, zone: str) -> None:
    done = shell(folder, "echo 0 | RINGWRIGHT --plain", TZ=zone)
    assert done.returncode == DONE
    assert "saved: " in done.stdout
    assert shell(folder, f"RINGWRIGHT sheet 1 --pdf {tmp_path}/x.pdf", TZ=zone).returncode == DONE


FOLDERS: dict[str, Callable[[Path], object]] = {
    "file": lambda path: path.write_text("x"),
    "pipe": os.mkfifo,
    "below a file": lambda path: None,
    "link to itself": lambda path: path.symlink_to(path),
    "long name": lambda path: None,
}


@pytest.mark.parametrize("kind", FOLDERS)
@pytest.mark.parametrize(
    "words", [["jobs"], ["--plain"], ["shop"], ["shop", "--write"], ["export", "."], ["sheet", "1"], ["1"]]
)
def test_a_folder_that_is_none(
    tmp_path: Path, kind: str, words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    path = {"below a file": Path(__file__) / "x", "long name": tmp_path / LONG}.get(kind, tmp_path / "x")
    FOLDERS[kind](path)
    assert main(["--folder", str(path), *words]) == BAD_INPUT
    assert in_plain_words(capsys.readouterr().err)


@pytest.mark.parametrize("words", [[], ["--plain"], ["sheet"], ["plan"]])
@pytest.mark.parametrize(
    "job", [LONG, f"{LONG}/{LONG}", "\u00b2", "1\u00b2", "\u0661", DIGITS, "0" * 5000, "x\0y"]
)
def test_a_job_that_cannot_be(
    folder: Path, words: list[str], job: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--folder", str(folder), *words, job]) == BAD_INPUT
    assert in_plain_words(capsys.readouterr().err)


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (["check", LONG], BAD_INPUT),
        (["import", LONG], BAD_INPUT),
        (["export", LONG], COULD_NOT_WRITE),
        (["export", ".", "--job", DIGITS], BAD_INPUT),
        (["export", ".", "--job", "\u00b2"], BAD_INPUT),
        (["sheet", "1", "--pdf", LONG], COULD_NOT_WRITE),
        (["sheet", "1", "--pdf", LONG, "--slip", f"b{LONG}"], COULD_NOT_WRITE),
        (["leak", LONG, "--volume", "2", "--volume-u", "1", "--overpressure", "2", "--step", "1"], BAD_INPUT),
    ],
)
def test_long_names_and_long_numbers(
    folder: Path, words: list[str], status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--folder", str(folder), *words]) == status
    assert in_plain_words(capsys.readouterr().err)


SHOPS = {
    "bounce": f"bounce_ms = {HUGE}",
    "spread": f"turning_spread_mm = -{HUGE}",
    "tester": f"[tester]\nlargest_bar = {HUGE}",
    "speeds": f'[[lathe]]\nname = "x"\nlargest_rpm = 900\nspeeds_rpm = [400, {HUGE}]\n'
    '[lathe.cross]\nshows = "diameter"\n[lathe.carriage]\nshows = "length"',
    "own": "[plastic.mine]\nname = 'x'\n"
    f"youngs_modulus_mpa = {{ value = {HUGE}, unit = 'MPa', source = 's', basis = 'published' }}",
    "longer still": f"bounce_ms = {'9' * 5000}",
}


@pytest.mark.parametrize("name", SHOPS)
def test_a_number_of_four_hundred_digits_in_the_shop_file(
    folder: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    (folder / "shop.toml").write_text(SHOPS[name])
    assert main(["--folder", str(folder), "shop"]) == BAD_INPUT
    said = capsys.readouterr().err
    assert in_plain_words(said) and "shop.toml line" in said


def test_a_fault_of_ours_is_still_told_as_one(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("bench.commands.jobs.listed", lambda *_, **__: 1 / 0)
    assert main(["--folder", str(folder), "jobs"]) == OUR_FAULT
    assert "a fault of ours" in capsys.readouterr().err


def test_the_statuses_are_the_numbers_that_were_promised() -> None:
    assert (DONE, BAD_INPUT, COULD_NOT_WRITE, OUR_FAULT) == (0, 2, 3, 4)

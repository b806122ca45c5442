"""Words of the command line as a script gets them wrong, and streams that are closed."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from bench.refusal import BAD_INPUT, COULD_NOT_WRITE, DONE
from ringwright import main

SAMPLE = str(Path(__file__).resolve().parents[2] / "sample_sessions" / "00208-ferry-captain.toml")
LEAK = ("--volume", "1", "--volume-u", "0.5", "--overpressure", "2", "--step", "0.1")


@pytest.mark.parametrize(
    "words", [["export", ""], ["sheet", SAMPLE, "--pdf", ""], ["check", ""], [""], ["leak", "", *LEAK]]
)
def test_an_empty_word_is_refused_and_never_means_the_folder_one_is_in(
    words: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(words) == BAD_INPUT
    assert "an empty word" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_the_version_is_said_whatever_stands_behind_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["-V", "jobs"]) == DONE == main(["--version", "--plain"])
    assert capsys.readouterr().out == "ringwright 0.1.0\n" * 2


def test_a_pdf_for_a_folder_that_is_not_there_names_the_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["sheet", SAMPLE, "--pdf", str(tmp_path / "papers" / "a.pdf")]) == COULD_NOT_WRITE
    assert f"no such folder: {tmp_path / 'papers'}" in capsys.readouterr().err


def test_a_pdf_for_a_closed_standard_output_is_not_written(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdout", None)
    assert main(["sheet", SAMPLE, "--pdf", "-"]) == COULD_NOT_WRITE
    assert "standard output is closed" in capsys.readouterr().err


def test_readings_from_a_closed_standard_input_are_bad_input(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    assert main(["leak", "-", *LEAK]) == BAD_INPUT
    assert "standard input is closed" in capsys.readouterr().err


def test_the_manual_page_for_a_closed_standard_output_is_no_fault_of_ours(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(sys, "stdout", None)
    assert main(["man"]) == DONE

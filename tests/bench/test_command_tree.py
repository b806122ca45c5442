"""One tree of commands for help, dispatch, completion and the man page; files named -."""

from __future__ import annotations

import io
import json
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from bench.command import BAD_INPUT, DONE
from bench.commands.about import ABOUT
from bench.commands.tree import SHELLS, commands, man_page, tree
from ringwright import main

TOP = Path(__file__).resolve().parents[2]
SAMPLES = TOP / "sample_sessions"
FERRY = str(SAMPLES / "00208-ferry-captain.toml")
READINGS = "time_s,signal\n" + "".join(f"{60 * n},{9.0 - 0.05 * n}\n" for n in range(11))
LEAK = ("--volume", "1", "--volume-u", "0.5", "--overpressure", "2", "--step", "0.1")


def said(capsys: pytest.CaptureFixture[str], *words: str, status: int = DONE) -> str:
    """What a command prints."""
    capsys.readouterr()
    assert main(list(words)) == status, words
    return capsys.readouterr().out


@pytest.mark.parametrize("name", ABOUT)
def test_every_help_says_what_it_does_and_gives_an_example(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    own = said(capsys, name, "--help")
    assert ABOUT[name].line[1:30] in " ".join(own.split()) and f"ringwright {ABOUT[name].examples[0]}" in own
    assert said(capsys, "help", name) == own
    assert f" {name} " in said(capsys, "--help")


def test_units_are_said_where_a_number_is_taken() -> None:
    for name in ("size", "fit", "plug", "leak"):
        assert re.search(r"\bmm\b|cm3", ABOUT[name].more), name


def test_every_example_is_understood_by_the_tree() -> None:
    for name, about in ABOUT.items():
        for line in about.examples:
            words = shlex.split(re.split(r" [<>] ", line)[0])
            given = words if words[0] in ABOUT else ["open", *words]
            assert tree(name).parse_args(given).command == name, line


def test_the_version_and_help_are_said(capsys: pytest.CaptureFixture[str]) -> None:
    assert said(capsys, "-V") == said(capsys, "--version") == "ringwright 0.1.0\n"
    assert said(capsys, "help") == said(capsys, "--help") == said(capsys, "-h")


@pytest.mark.parametrize("shell", SHELLS)
def test_completion_knows_every_command_and_option(shell: str, capsys: pytest.CaptureFixture[str]) -> None:
    script = said(capsys, "completion", shell)
    assert all(name in script for name in ABOUT)
    assert "overpressure" in script and "slip" in script
    if shell == "bash":
        assert subprocess.run(["bash", "-n"], input=script, text=True, check=False).returncode == 0


def test_the_man_page_holds_every_command_option_and_example() -> None:
    page = man_page()
    plain = page.replace("\\-", "-")
    for name, parser in commands(tree()).items():
        assert f".SS {name}\n" in page
        for action in parser._actions:
            assert all(option in plain for option in action.option_strings), (name, action.option_strings)
        assert all(f"ringwright {line}" in plain for line in ABOUT[name].examples)
    assert not re.search(r"^\.(?!TH|SH|SS|B|br|TP|PP|RS|RE|nf|fi)", page, re.M)


def test_readings_come_from_standard_input(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "readings.csv"
    file.write_text(READINGS, encoding="utf-8")
    from_file = said(capsys, "leak", str(file), *LEAK, "--json")
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(READINGS.encode())))
    assert said(capsys, "leak", "-", *LEAK, "--json") == from_file
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(b"time_s,signal\n0,x\n")))
    assert main(["leak", "-", *LEAK]) == BAD_INPUT
    assert capsys.readouterr().err.startswith("ringwright: standard input: ")


@pytest.mark.parametrize(
    "words", [["sheet", FERRY, "--pdf", "-"], ["sheet", FERRY, "--slip", "-"], ["plan", FERRY, "--pdf", "-"]]
)
def test_a_pdf_goes_to_standard_output_and_nothing_else_does(
    words: list[str], capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    assert main(words) == DONE
    out = capfdbinary.readouterr().out
    assert out.startswith(b"%PDF-") and out.rstrip().endswith(b"%%EOF")


def test_no_such_folder_is_bad_input_and_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    nowhere = str(tmp_path / "nowhere")
    for words in (["export", nowhere], ["jobs", "--folder", nowhere], ["shop", "--folder", nowhere]):
        said(capsys, *words, status=BAD_INPUT)
        assert main(words) == BAD_INPUT
        assert f"no such folder: {nowhere}" in capsys.readouterr().err
    assert not Path(nowhere).exists()


def test_a_backup_says_what_it_holds_and_an_empty_list_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    place = ["--folder", str(tmp_path)]
    assert said(capsys, "jobs", *place) == f"no jobs in {tmp_path}\n"
    assert json.loads(said(capsys, "jobs", "--json", *place)) == []
    (tmp_path / "jobs").mkdir()
    (tmp_path / "out").mkdir()
    assert said(capsys, "export", str(tmp_path / "out"), *place).splitlines()[1] == "0 jobs"
    samples = list(SAMPLES.glob("*.toml"))
    for sample in samples:
        (tmp_path / "jobs" / sample.name).write_bytes(sample.read_bytes())
    said(capsys, "shop", "--write", *place)
    held = f"{len(samples)} jobs and shop.toml"
    assert said(capsys, "export", str(tmp_path / "out"), *place).splitlines()[1] == held
    one = said(capsys, "export", str(tmp_path / "out"), "--job", "208", *place)
    assert one.splitlines()[1] == "1 job"

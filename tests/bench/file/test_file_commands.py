"""check, export and import as commands: words, status, JSON; check never writes."""

from __future__ import annotations

import argparse
import json
import os
from pathlib import Path

import pytest

from bench.command import BAD_INPUT, DONE, FOUND_SOMETHING, report
from bench.commands import backup, check
from tests.bench.file.odd_files import ODD_FILES
from tests.bench.file.texts import file_of, job, with_crc_of


def _run(*words: object, folder: Path | None = None) -> int:
    parser = argparse.ArgumentParser()
    subparsers = parser.add_subparsers(required=True)
    check.add(subparsers)
    backup.add(subparsers)
    arguments = parser.parse_args([str(word) for word in words], argparse.Namespace(folder=folder))
    return report(arguments.run, arguments)


STATES = {
    "fine": (job(), DONE, 5, 5, []),
    "unfinished": (job()[:-12], DONE, 4, 4, []),
    "changed": (job().replace(b"29.48", b"28.49"), FOUND_SOMETHING, 5, 0, [29]),
    "by_hand": (with_crc_of(job().replace(b"29.48", b"28.49"), 3, "hand"), FOUND_SOMETHING, 5, 0, [29]),
    "damaged": (job().replace(b"n = 3", b"n = x"), FOUND_SOMETHING, 4, 0, [24]),
    "gap": (
        job()[: job().index(b"\n[[entry]]\nn = 2")] + job()[job().index(b"\n[[entry]]\nn = 4") :],
        1,
        3,
        0,
        [16],
    ),
    "newer": (job().replace(b"format = 1", b"format = 2"), FOUND_SOMETHING, 0, 0, [1]),
    "foreign": (b"Dear customer\n", FOUND_SOMETHING, 0, 0, [1]),
}


@pytest.mark.parametrize("state", STATES)
def test_check_as_json_has_its_keys_and_status(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], state: str
) -> None:
    data, status, entries, used, lines = STATES[state]
    path = tmp_path / "x.toml"
    path.write_bytes(data)
    assert _run("check", path, "--json") == status
    found = json.loads(capsys.readouterr().out)
    keys = ["file", "state", "format", "entries", "used", "lines", "message", "accepted"]
    assert list(found) == ["json_format", *keys]
    assert found["file"] == str(path)
    assert found["state"] == state
    assert found["format"] == {"newer": 2, "foreign": None}.get(state, 1)
    assert (found["entries"], found["used"], found["lines"]) == (entries, used, lines)


@pytest.mark.parametrize(
    ("state", "words"),
    [
        ("fine", "fine"),
        ("unfinished", "set aside"),
        ("changed", "line 29"),
        ("by_hand", "corrected by hand"),
        ("damaged", "damaged"),
        ("gap", "missing"),
        ("newer", "read only"),
        ("foreign", "not a session file"),
    ],
)
def test_check_speaks_plainly(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], state: str, words: str
) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(STATES[state][0])
    _run("check", path)
    said = capsys.readouterr().out
    assert words in said.lower()
    assert not {"crc32", "checksum mismatch", "exception", "traceback", "offset"} & set(said.lower().split())


def test_check_names_every_line_when_there_are_several(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(
        with_crc_of(job().replace(b"29.48", b"28.49"), 3, "hand").replace(b"1.20 mm", b"1.30 mm")
    )
    _run("check", path)
    said = capsys.readouterr().out
    assert "line 21" in said.lower() and "line 29" in said.lower()
    assert len(said.splitlines()) == 3


@pytest.mark.parametrize("name", ODD_FILES)
def test_check_never_writes(tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(ODD_FILES[name][0])
    os.utime(path, ns=(7, 7))
    assert _run("check", path, "--json") in (DONE, FOUND_SOMETHING)
    assert json.loads(capsys.readouterr().out)["state"] == ODD_FILES[name][1]
    assert path.read_bytes() == ODD_FILES[name][0]
    assert path.stat().st_mtime_ns == 7
    assert [other.name for other in tmp_path.iterdir()] == ["x.toml"]


def test_check_of_nothing_is_bad_input(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("nowhere.toml", "a\0b", "x" * 300, "a\x1b[2J"):
        assert _run("check", tmp_path / name) == BAD_INPUT
        said = capsys.readouterr().err
        assert said.startswith("ringwright: no such file") and "\x1b" not in said and "\0" not in said


def test_check_of_a_folder_a_pipe_and_a_device(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path in (tmp_path, tmp_path / "pipe", Path("/dev/zero")):
        assert _run("check", path, "--json") == FOUND_SOMETHING
        assert json.loads(capsys.readouterr().out)["state"] == "foreign"


def test_check_shows_a_hostile_name_harmlessly(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "a\x1b[2J\u202e.toml"
    path.write_bytes(job())
    _run("check", path)
    said = capsys.readouterr().out
    assert "\x1b" not in said and "\u202e" not in said


def test_export_and_import_there_and_back(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    here, there = tmp_path / "here", tmp_path / "there"
    (here / "jobs").mkdir(parents=True)
    (here / "jobs" / "00042-diver.toml").write_bytes(job())
    (here / "jobs" / "00043.toml").write_bytes(file_of())
    assert _run("export", tmp_path, folder=here) == DONE
    told = capsys.readouterr().out.splitlines()
    made = Path(told[0])
    assert made == tmp_path / "ringwright-backup-1.zip" and told[1:] == ["2 jobs"]
    assert _run("import", made, folder=there) == DONE
    assert "imported: 00042-diver.toml" in capsys.readouterr().out
    assert (there / "jobs" / "00042-diver.toml").read_bytes() == job()
    assert _run("export", tmp_path, "--job", 42, folder=here) == DONE
    assert capsys.readouterr().out.splitlines()[0].endswith("ringwright-job-00042-diver-1.zip")


def test_export_and_import_refuse_in_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert _run("export", tmp_path / "nowhere", folder=tmp_path) == BAD_INPUT
    assert _run("export", tmp_path, "--job", 7, folder=tmp_path) == BAD_INPUT
    assert _run("import", tmp_path / "nowhere.zip", folder=tmp_path) == BAD_INPUT
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 3
    assert all(line.startswith("ringwright: ") for line in lines)

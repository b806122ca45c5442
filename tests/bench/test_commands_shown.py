"""Every command that the README and the manual show is carried out: those of the program here, those that
install it by `python -m tests.installs`, which knows each of them.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest
from markdown_it import MarkdownIt

from bench.command import DONE
from bench.commands.about import ABOUT
from ringwright import main
from screens.face import Face
from tests.bench.test_command_tree import FERRY, LEAK, READINGS, SAMPLES, TOP
from tests.installs import SHOWN
from tests.whole.copies import noted

README = (TOP / "README.md").read_text(encoding="utf-8")
PUT_IN = {
    "JOB": "208",
    "[JOB]": "208",
    "FOLDER": "backups",
    "FILE": "readings.csv",
    "[CHAPTER]": "7",
    "SHELL": "bash",
    "COMMAND": "leak",
    "[COMMAND]": "leak",
    "A": "jobs/00214-harbour-clerk.toml",
    "B": "jobs/00214-bench.toml",
}
"""What stands where a document leaves a name open."""
MORE = {
    "fit": "--case-bore 28.40 --glass 27.36 --height 1 --wall 0.57",
    "plug": "--seat 28.40",
    "leak": " ".join(LEAK),
}
"""What stands where it leaves out the rest."""


PROGRAMS = [["ringwright"], ["pipx"], ["uv"], ["python"], ["python3"]]
"""What a command begins with."""
RUN_BY = {
    "python -m tests.make_pictures": "tests/screens/test_readme_pictures.py",
    "python -m tests.make_gallery": "tests/screens/test_gallery.py",
    "python -m tests.installs": "tests/installs.py",
}
"""Commands for developers, and the tests that do the same."""


def spans(text: str) -> Iterator[str]:
    """Commands in a Markdown text: each line of a block that is typed, and each code within a sentence."""
    for token in MarkdownIt("commonmark").enable("table").parse(text):
        if token.type == "fence" and token.info in ("", "sh"):
            yield from token.content.splitlines()
        for one in token.children or ():
            if one.type == "code_inline" and one.content.split()[:1] in PROGRAMS:
                yield one.content


def shown() -> dict[str, None]:
    """Every command of README and manual, once."""
    manual = [
        path.read_text(encoding="utf-8") for path in sorted((TOP / "bench" / "data" / "manual").glob("*.md"))
    ]
    return dict.fromkeys(span for text in (README, *manual) for span in spans(text))


COMMANDS = [span for span in shown() if span.split()[0] == "ringwright"]
OTHERS = [span for span in shown() if span.split()[0] != "ringwright"]


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the sample jobs, readings, a place for a backup, and one of those."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "jobs").mkdir()
    (tmp_path / "backups").mkdir()
    for sample in SAMPLES.glob("*.toml"):
        (tmp_path / "jobs" / sample.name).write_bytes(sample.read_bytes())
    (tmp_path / "readings.csv").write_text(READINGS, encoding="utf-8")
    return tmp_path


def words_of(span: str) -> list[str]:
    """The words of a command, with names put in for what it leaves open; what its output goes to left out."""
    words = [PUT_IN.get(word, word) for word in shlex.split(span.partition(" > ")[0])[1:] if word != "..."]
    if words[:1] == ["leak"] or (len(words) == 1 and words[0] in MORE):
        words += [word for word in MORE[words[0]].split() if "--volume" not in words]
    if words[:1] == ["check"]:
        words[1] = FERRY
    if words == ["import", "ZIP"] or words[:1] == ["import"]:
        words[1] = str(next(Path("backups").glob("*.zip")))
    return words


@pytest.mark.parametrize("span", COMMANDS)
def test_a_command_of_the_program_runs(
    span: str, folder: Path, monkeypatch: pytest.MonkeyPatch, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    """In lines from an empty input; on the full screen up to the shell, whose first page holds something."""
    faces: list[Face[Any]] = []

    def opened(face: Face[Any], _taken: object = None) -> int:
        faces.append(face)
        return DONE

    if " import" in span:
        assert main(["export", "backups", "--folder", str(folder)]) == DONE
        capfdbinary.readouterr()
    if " join" in span:
        noted(folder / PUT_IN["A"], "seen again", into=folder / PUT_IN["B"])
        noted(folder / PUT_IN["A"], "the strap is worn")
    monkeypatch.setattr("screens.app.run_face", opened)
    monkeypatch.setattr("sys.stdin", (folder / "nothing").open("w+"))
    with (
        patch("screens.full.refusal_here", return_value=""),
        patch("screens.look.refusal_here", return_value=""),
    ):
        status = main([*words_of(span), "--folder", str(folder)])
    said = capfdbinary.readouterr()
    assert status == DONE, (span, said.err)
    assert said.out or any(text for face in faces for line in face.view(face.desk) for text, _ in line), span


def test_every_command_there_is_is_shown() -> None:
    first = {word for span in COMMANDS for word in span.split()[1:2]}
    assert set(ABOUT) - {"open"} <= first
    assert {"ringwright [JOB]", "ringwright --plain"} <= set(COMMANDS)


def test_what_installs_the_program_is_known_to_the_proof_of_it() -> None:
    assert set(OTHERS) == {*SHOWN, *RUN_BY}
    assert all((TOP / path).exists() for path in RUN_BY.values())

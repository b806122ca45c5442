"""The list of jobs from names, rows on demand, and an index that may vanish or lie at any moment."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from bench.file.listing import UNREADABLE, Index, names, rows
from bench.file.load import load
from tests.bench.file.texts import answer, file_of, job


class Summary:
    """Counts how often a file was really looked into."""

    def __init__(self) -> None:
        self.calls = 0

    def __call__(self, data: bytes) -> tuple[str, str, dict[str, str]]:
        self.calls += 1
        loaded = load(data)
        said = {"job": loaded.head.job if loaded.head else "", "count": str(len(loaded.usable))}
        return loaded.state, loaded.message, {**said, "x": "\x1b[2J"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    for number in (1, 2, 10, 9999, 100000):
        (jobs / f"{number:05d}-a.toml").write_bytes(job())
    for other in ("00003.toml.new", "00002-a.toml.torn-1", "00002-a.toml.open", "notes.txt"):
        (jobs / other).write_bytes(b"x")
    return tmp_path


def test_newest_first_by_number_not_by_letters(folder: Path) -> None:
    (folder / "jobs" / "diver.toml").write_bytes(job())
    found = [path.name for path in names(folder)]
    assert found == [
        "100000-a.toml",
        "09999-a.toml",
        "00010-a.toml",
        "00002-a.toml",
        "00001-a.toml",
        "diver.toml",
    ]


def test_no_folder_is_an_empty_list(tmp_path: Path) -> None:
    assert names(tmp_path / "nowhere") == []


def test_rows_say_what_the_caller_wants_in_clean_text(folder: Path) -> None:
    found = rows(names(folder)[:2], summarise=Summary())
    assert [row.number for row in found] == [100000, 9999]
    assert found[0].state == "fine"
    assert dict(found[0].summary) == {"job": "A-1042", "count": "5", "x": "\ufffd[2J"}


def test_only_changed_files_are_looked_into_again(folder: Path) -> None:
    index_path = folder / "index.json"
    for expected in (5, 0, 1):
        if expected == 1:
            (folder / "jobs" / "00002-a.toml").write_bytes(
                job() + file_of(answer(6, "1.00 mm"))[len(file_of()) :]
            )
        summary, index = Summary(), Index(index_path)
        found = rows(names(folder), summarise=summary, index=index)
        index.save()
        assert summary.calls == expected
        assert len(found) == 5
    assert next(row for row in found if row.number == 2).summary["count"] == "6"


def test_a_file_of_the_same_size_with_another_time_is_looked_into(folder: Path) -> None:
    index = Index(folder / "index.json")
    rows(names(folder), summarise=Summary(), index=index)
    path = folder / "jobs" / "00002-a.toml"
    path.write_bytes(job().replace(b"29.46", b"29.64"))
    os.utime(path, ns=(5, 5))
    summary = Summary()
    found = rows([path], summarise=summary, index=index)
    assert (summary.calls, found[0].state) == (1, "changed")


BAD_INDEXES: dict[str, Callable[[str], bytes | None]] = {
    "deleted": lambda _: None,
    "empty": lambda _: b"",
    "noise": lambda _: bytes(range(256)),
    "half": lambda text: text[: len(text) // 2].encode(),
    "list": lambda _: b"[]",
    "null": lambda _: b"null",
    "nested": lambda _: b"[" * 100_000,
    "other format": lambda text: text.replace('"format": 2', '"format": 1').encode(),
    "rows of another shape": lambda text: json.dumps(
        {**json.loads(text), "rows": {name: [1, 2] for name in json.loads(text)["rows"]}}
    ).encode(),
    "rows is a number": lambda text: json.dumps({**json.loads(text), "rows": 5}).encode(),
    "summaries of numbers": lambda text: text.replace('"count": "5"', '"count": 5').encode(),
}


@pytest.mark.parametrize("name", BAD_INDEXES)
def test_a_bad_index_is_ignored_and_built_again(folder: Path, name: str) -> None:
    path = folder / "index.json"
    index = Index(path)
    expected = rows(names(folder), summarise=Summary(), index=index)
    index.save()
    bad = BAD_INDEXES[name](path.read_text())
    if bad is None:
        path.unlink()
    else:
        path.write_bytes(bad)
    index, summary = Index(path), Summary()
    assert rows(names(folder), summarise=summary, index=index) == expected
    assert summary.calls == 5
    index.save()
    again = Summary()
    rows(names(folder), summarise=again, index=Index(path))
    assert again.calls == 0


def test_an_index_of_another_version_is_built_again(folder: Path) -> None:
    path = folder / "index.json"
    index = Index(path, version="1")
    rows(names(folder), summarise=Summary(), index=index)
    index.save()
    summary = Summary()
    rows(names(folder), summarise=summary, index=Index(path, version="2"))
    assert summary.calls == 5


def test_an_index_that_cannot_be_written_does_not_matter(folder: Path) -> None:
    index = Index(folder / "no" / "such" / "index.json")
    assert len(rows(names(folder), summarise=Summary(), index=index)) == 5
    index.save()


def test_files_that_are_gone_are_forgotten(folder: Path) -> None:
    path = folder / "index.json"
    index = Index(path)
    rows(names(folder), summarise=Summary(), index=index)
    (folder / "jobs" / "00002-a.toml").unlink()
    index.keep_only(names(folder))
    index.save()
    assert "00002-a.toml" not in json.loads(path.read_text())["rows"]


def test_odd_things_in_the_folder_get_a_row_in_words(folder: Path) -> None:
    jobs = folder / "jobs"
    (jobs / "00020.toml").mkdir()
    (jobs / "00021.toml").symlink_to("00001-a.toml")
    os.mkfifo(jobs / "00022.toml")
    (jobs / "00023.toml").write_bytes(b"hello")
    found = {row.number: row for row in rows(names(folder), summarise=Summary())}
    assert {found[number].state for number in (20, 21, 22, 23)} == {"foreign"}
    gone = rows([jobs / "00099.toml"], summarise=Summary())[0]
    assert (gone.state, gone.summary) == (UNREADABLE, {})
    assert "no such file" in gone.message


def test_the_list_needs_no_rules_and_no_screen() -> None:
    code = (
        "import sys, bench.file.listing;"
        "print([n for n in sys.modules if n.split('.')[0] in ('rules', 'textual', 'rich', 'screens')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"

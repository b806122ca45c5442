"""Odd things in a folder of jobs and in an archive: each is named, none stands in the way of the others."""

from __future__ import annotations

import os
import socket
from collections.abc import Callable
from pathlib import Path

import pytest

from bench.file.archive import Archive
from bench.file.backup import export_all, export_job
from bench.file.new_job import create
from bench.file.plain import CannotOpen, NotSaved
from bench.file.restore import import_all
from bench.file.slug import number_of
from ringwright import main
from tests.bench.file.texts import AT
from tests.campaigns import hostile_archives
from tests.campaigns.common import Counts
from tests.campaigns.hostile_archives import HEAD, SAMPLE, job, whole


def socket_at(path: Path) -> None:
    """A socket under a short name, since a socket takes no long one."""
    here = Path.cwd()
    os.chdir(path.parent)
    try:
        with socket.socket(socket.AF_UNIX) as made:
            made.bind(path.name)
    finally:
        os.chdir(here)


STRAYS: dict[str, Callable[[Path], object]] = {
    "folder": Path.mkdir,
    "link": lambda path: path.symlink_to("00001-diver.toml"),
    "link to nothing": lambda path: path.symlink_to("nowhere"),
    "device": lambda path: path.symlink_to("/dev/zero"),
    "pipe": os.mkfifo,
    "socket": socket_at,
    "too large": lambda path: path.write_bytes(bytes(8 * 2**20 + 1)),
}


@pytest.fixture
def here(tmp_path: Path) -> Path:
    folder = tmp_path / "here"
    with create(folder, job="diver", made_by="ringwright", slug="diver") as session:
        session.append(kind="note", value="kept", at=AT)
    (tmp_path / "stick").mkdir()
    return folder


@pytest.mark.parametrize("name", STRAYS)
@pytest.mark.parametrize("place", ["jobs/00002.toml", "jobs/00001-diver.toml.torn-1", "shop.toml"])
def test_one_stray_thing_does_not_stop_a_backup(here: Path, tmp_path: Path, name: str, place: str) -> None:
    STRAYS[name](here / place)
    made, left_out = export_all(here, tmp_path / "stick")
    with Archive(made) as archive:
        assert archive.names[0] == "jobs/00001-diver.toml"
    if place == "shop.toml" and name == "link to nothing":
        assert [one for one, _ in left_out] == ["shop.toml"]
    elif not (place == "shop.toml" and name == "link"):
        assert [one for one, _ in left_out] == [place.rpartition("/")[2]]


def test_what_is_not_in_the_backup_is_said(
    here: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (here / "jobs" / "00002.toml").mkdir()
    assert main(["--folder", str(here), "export", str(tmp_path / "stick")]) == 1
    assert "NOT in the backup: 00002.toml: it is a folder" in capsys.readouterr().out


def test_a_job_that_is_no_file_is_no_backup(here: Path, tmp_path: Path) -> None:
    (here / "jobs" / "00002.toml").mkdir()
    with pytest.raises(CannotOpen, match="it is a folder"):
        export_job(here / "jobs" / "00002.toml", tmp_path / "stick")


@pytest.mark.parametrize("name", STRAYS)
def test_one_stray_thing_does_not_stop_an_import(here: Path, tmp_path: Path, name: str) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    there = tmp_path / "there" / "jobs"
    there.mkdir(parents=True)
    STRAYS[name](there / "00001.toml")
    STRAYS[name](there / "00002-diver.toml.torn-1")
    assert import_all(made, tmp_path / "there").renamed == [("00001-diver.toml", "00002-diver.toml")]


def test_nothing_and_broken_files_are_named_and_not_imported(tmp_path: Path) -> None:
    whole((job(1), b""), (job(2), b"hello"), (job(3), HEAD[:50]), (job(4), SAMPLE), ("shop.toml", b"= "))(
        tmp_path / "x.zip"
    )
    report = import_all(tmp_path / "x.zip", tmp_path / "there")
    assert report.added == ["00004.toml"]
    assert [name for name, _ in report.refused] == [job(1), job(2), job(3), "shop.toml"]
    assert all(why for _, why in report.refused)
    assert [path.name for path in (tmp_path / "there" / "jobs").iterdir()] == ["00004.toml"]


def test_a_job_that_needs_a_look_is_imported_and_named(tmp_path: Path) -> None:
    changed = SAMPLE.replace(b'value = ["', b'value = ["9', 1)
    assert changed != SAMPLE
    whole((job(1), changed))(tmp_path / "x.zip")
    report = import_all(tmp_path / "x.zip", tmp_path / "there")
    assert (report.added, [name for name, _ in report.look]) == (["00001.toml"], ["00001.toml"])
    assert any("needs a look: 00001.toml" in line for line in report.lines())


def test_digits_are_those_of_the_keypad() -> None:
    assert number_of("\u0661\u0662.toml") is None
    assert number_of("0001\u00b2.toml") is None


@pytest.mark.parametrize("last", [999_999_999, 999_999_998])
def test_the_last_number_of_all_does_not_end_the_numbering(tmp_path: Path, last: int) -> None:
    for number in (None, None, last, None, None):
        create(tmp_path, made_by="x", number=number).close()
    found = sorted(number_of(path.name) or 0 for path in (tmp_path / "jobs").glob("*.toml"))
    assert found[:3] == [1, 2, 3]
    assert len(found) == 5


def test_an_import_beside_the_last_number_of_all_finds_a_free_one(here: Path, tmp_path: Path) -> None:
    create(here, made_by="x", number=999_999_999).close()
    made, _ = export_all(here, tmp_path / "stick")
    for _ in range(2):
        report = import_all(made, tmp_path / "there")
        for path in (tmp_path / "there" / "jobs").iterdir():
            path.write_bytes(
                HEAD.replace(b"id = ", b"# other\nid = ") + path.name.encode().join([b"# ", b"\n"])
            )
    assert [new for _, new in report.renamed] == ["00002-diver.toml", "00003.toml"]


def test_a_name_that_is_none_beside_the_last_number(here: Path, tmp_path: Path) -> None:
    jobs = here / "jobs"
    (jobs / "999999999-\u00dc.toml").write_bytes(SAMPLE)
    (jobs / "999999999-\u00dc2.toml").write_bytes(HEAD)
    (jobs / "999999999.toml").write_bytes(SAMPLE + b"\n")
    made, left_out = export_all(here, tmp_path / "stick")
    with Archive(made) as archive:
        assert len(archive.names) == 4
    assert left_out == []


def test_a_backup_that_could_not_be_read_back_is_refused(
    here: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bench.file.backup.WHOLE_LIMIT", 10)
    with pytest.raises(NotSaved, match="more than one backup may hold"):
        export_all(here, tmp_path / "stick")


def test_a_shop_file_left_in_the_making_is_passed_over(here: Path, tmp_path: Path) -> None:
    (here / "shop.toml").write_bytes(b'shop_name = "x"\n')
    made, _ = export_all(here, tmp_path / "stick")
    there = tmp_path / "there"
    there.mkdir()
    (there / "shop.toml.new").write_bytes(b"half")
    assert import_all(made, there).renamed == [("shop.toml", "shop-from-backup-1.toml")]


def test_hostile_archives() -> None:
    counts = hostile_archives.run()
    assert counts.clean, str(counts)
    assert counts.seen["status 2"] > 10
    assert counts.seen["files refused by name"] > 20


def test_an_import_without_limits_is_caught(tmp_path: Path) -> None:
    counts = Counts()
    hostile_archives.one(counts, "swollen file", tmp_path, hostile_archives.PLANTED)
    assert not counts.clean

"""Backup and moving a job: everything arrives, nothing is overwritten, nothing gets out of its folder."""

from __future__ import annotations

import hashlib
import io
import subprocess
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from bench.file.backup import export_all, export_job
from bench.file.new_job import create
from bench.file.plain import CannotOpen, NotSaved
from bench.file.restore import import_all
from bench.file.store import open_session
from tests.bench.file.texts import AT


@pytest.fixture
def here(tmp_path: Path) -> Path:
    folder = tmp_path / "here"
    for name in ("diver", "chronograph", ""):
        with create(folder, job=name, made_by="ringwright", slug=name) as session:
            session.append(kind="answer", key="case_bore_1", value=f"{name} 29.46 mm", at=AT)
    (folder / "jobs" / "00002-chronograph.toml.torn-1").write_bytes(b"\n[[ent")
    (folder / "shop.toml").write_bytes(b'name = "bench"\n')
    (tmp_path / "stick").mkdir()
    return folder


def _files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_everything_arrives_byte_for_byte_on_another_computer(here: Path, tmp_path: Path) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    assert made.name == "ringwright-backup-1.zip"
    report = import_all(made, tmp_path / "there")
    assert _files(tmp_path / "there") == _files(here)
    assert len(report.added) == 4
    assert not report.refused
    with open_session(tmp_path / "there" / "jobs" / "00001-diver.toml") as session:
        assert session.writable


def test_the_checksums_can_be_checked_without_us(here: Path, tmp_path: Path) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    with zipfile.ZipFile(made) as archive:
        archive.extractall(tmp_path / "unpacked")
    done = subprocess.run(
        ["sha256sum", "-c", "checksums.sha256"],
        cwd=tmp_path / "unpacked",
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0
    assert done.stdout.count(": OK") == 5


def test_a_second_backup_does_not_replace_the_first(here: Path, tmp_path: Path) -> None:
    first, _ = export_all(here, tmp_path / "stick")
    before = first.read_bytes()
    assert export_all(here, tmp_path / "stick")[0].name == "ringwright-backup-2.zip"
    assert first.read_bytes() == before


def test_taking_in_twice_changes_nothing(here: Path, tmp_path: Path) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    import_all(made, tmp_path / "there")
    before = _files(tmp_path / "there")
    report = import_all(made, tmp_path / "there")
    assert _files(tmp_path / "there") == before
    assert (report.added, report.renamed, len(report.same)) == ([], [], 4)


def test_another_job_with_the_same_number_gets_a_new_one(here: Path, tmp_path: Path) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    there = tmp_path / "there"
    create(there, job="other", made_by="x", slug="other").close()
    (there / "shop.toml").write_bytes(b"mine")
    before = _files(there)
    report = import_all(made, there)
    assert report.renamed == [
        ("00001-diver.toml", "00004-diver.toml"),
        ("shop.toml", "shop-from-backup-1.toml"),
    ]
    after = _files(there)
    assert {name: after[name] for name in before} == before
    assert after["jobs/00004-diver.toml"] == _files(here)["jobs/00001-diver.toml"]


def test_a_job_that_went_on_elsewhere_comes_back_beside_the_old_one_and_says_so(
    here: Path, tmp_path: Path
) -> None:
    path = here / "jobs" / "00002-chronograph.toml"
    old = path.read_bytes()
    moved, _ = export_job(path, tmp_path / "stick")
    import_all(moved, tmp_path / "there")
    with open_session(tmp_path / "there" / "jobs" / path.name) as session:
        session.append(kind="answer", key="case_bore_1", value="29.48 mm", at=AT)
    back, _ = export_job(session.path, tmp_path / "stick")
    report = import_all(back, here)
    assert path.read_bytes() == old
    assert report.continues == [("00004-chronograph.toml", path.name)]
    assert "goes on from it" in "\n".join(report.lines())
    older = import_all(moved, tmp_path / "there")
    assert (older.same, older.added, older.renamed) == ([path.name], [], [])


def test_one_job_takes_its_set_aside_pieces_along(here: Path, tmp_path: Path) -> None:
    moved, _ = export_job(here / "jobs" / "00002-chronograph.toml", tmp_path / "stick")
    assert moved.name == "ringwright-job-00002-chronograph-1.zip"
    import_all(moved, tmp_path / "there")
    assert set(_files(tmp_path / "there")) == {
        "jobs/00002-chronograph.toml",
        "jobs/00002-chronograph.toml.torn-1",
    }


def test_files_that_a_person_renamed_are_in_the_backup_too(here: Path, tmp_path: Path) -> None:
    jobs = here / "jobs"
    (jobs / "00001-diver.toml").rename(jobs / "Müller Diver (alt).toml")
    (jobs / "00003.toml").rename(jobs / "other.toml")
    contents = sorted(_files(here).values())
    import_all(export_all(here, tmp_path / "stick")[0], tmp_path / "there")
    assert sorted(_files(tmp_path / "there").values()) == contents


def test_no_folder_for_the_zip_is_told(here: Path, tmp_path: Path) -> None:
    with pytest.raises(NotSaved, match="no such file or folder"):
        export_all(here, tmp_path / "nowhere")


def test_an_empty_folder_makes_an_empty_backup(tmp_path: Path) -> None:
    made, _ = export_all(tmp_path / "nowhere", tmp_path)
    assert import_all(made, tmp_path / "there").lines() == []


def _repacked(change: Callable[[dict[str, bytes]], object], source: Path, *, again: bool = False) -> bytes:
    with zipfile.ZipFile(source) as archive:
        members = {name: archive.read(name) for name in archive.namelist()}
    change(members)
    if again:
        sums = (
            f"{hashlib.sha256(data).hexdigest()}  {name}\n"
            for name, data in members.items()
            if "check" not in name
        )
        members["checksums.sha256"] = "".join(sums).encode()
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in members.items():
            archive.writestr(name, data)
    return made.getvalue()


ESCAPES = (
    "../escaped.toml",
    "jobs/../../escaped.toml",
    "/tmp/ringwright-escaped.toml",
    "jobs/../shop.toml",
    "jobs\\00009.toml",
    "jobs/00009-\u202ex.toml",
    "jobs/00009.toml/x",
    "C:/00009.toml",
    "jobs/00009-a b.toml",
    "jobs/.toml",
    "checksums.sha256/x",
)


@pytest.mark.parametrize("name", ESCAPES, ids=ascii)
def test_no_name_in_an_archive_leaves_the_folder(here: Path, tmp_path: Path, name: str) -> None:
    source, _ = export_all(here, tmp_path / "stick")
    bad = tmp_path / "bad.zip"
    bad.write_bytes(_repacked(lambda members: members.update({name: b"x"}), source, again=True))
    before = {path for path in tmp_path.rglob("*") if "there" not in path.parts}
    report = import_all(bad, tmp_path / "there")
    assert [why for _, why in report.refused if "name" in why or "missing" in why]
    assert {path for path in tmp_path.rglob("*") if "there" not in path.parts} == before
    assert set(_files(tmp_path / "there")) == set(_files(here))
    assert not Path("/tmp/ringwright-escaped.toml").exists()


def test_a_file_with_a_wrong_checksum_is_not_taken_in_and_the_others_are(here: Path, tmp_path: Path) -> None:
    source, _ = export_all(here, tmp_path / "stick")
    bad = tmp_path / "bad.zip"

    def change(members: dict[str, bytes]) -> None:
        members["jobs/00001-diver.toml"] = members["jobs/00001-diver.toml"].replace(b"29.46", b"29.64")

    bad.write_bytes(_repacked(change, source))
    report = import_all(bad, tmp_path / "there")
    assert report.refused == [("jobs/00001-diver.toml", "its checksum is wrong")]
    assert len(report.added) == 3


def test_a_missing_file_is_told(here: Path, tmp_path: Path) -> None:
    source, _ = export_all(here, tmp_path / "stick")
    bad = tmp_path / "bad.zip"
    bad.write_bytes(_repacked(lambda members: members.pop("jobs/00003.toml"), source))
    assert import_all(bad, tmp_path / "there").refused == [
        ("jobs/00003.toml", "it is missing from the archive")
    ]


def test_every_cut_and_every_flipped_byte_of_a_backup_is_noticed(here: Path, tmp_path: Path) -> None:
    source, _ = export_all(here, tmp_path / "stick")
    whole = source.read_bytes()
    good = _files(here)
    bad = tmp_path / "bad.zip"
    refused = 0
    for at in range(0, len(whole), 7):
        for garbled in (whole[:at], whole[:at] + bytes([whole[at] ^ 0x41]) + whole[at + 1 :]):
            bad.write_bytes(garbled)
            there = tmp_path / f"there-{at}-{len(garbled)}"
            try:
                report = import_all(bad, there)
            except CannotOpen:
                refused += 1
                continue
            refused += bool(report.refused)
            for name, data in _files(there).items():
                assert data == good[name]
    assert refused > len(whole) / 7


@pytest.mark.parametrize("data", [b"", b"hello", b"PK\x03\x04" + bytes(100), bytes(5000)])
def test_what_is_not_a_backup_is_refused_in_words(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "x.zip").write_bytes(data)
    with pytest.raises(CannotOpen, match="not a backup of ringwright"):
        import_all(tmp_path / "x.zip", tmp_path / "there")
    with pytest.raises(CannotOpen, match="no such file"):
        import_all(tmp_path / "nowhere.zip", tmp_path / "there")


def test_a_file_that_would_swell_beyond_reason_is_refused(here: Path, tmp_path: Path) -> None:
    source, _ = export_all(here, tmp_path / "stick")
    bad = tmp_path / "bad.zip"
    swollen = bytes(64 * 2**20)
    bad.write_bytes(
        _repacked(lambda members: members.update({"jobs/00001-diver.toml": swollen}), source, again=True)
    )
    assert import_all(bad, tmp_path / "there").refused == [
        ("jobs/00001-diver.toml", "it is larger than a session file can be (8 MiB)")
    ]

"""Where an archive is taken and where not: names, counts, sizes, kinds, sums, pieces and shop files."""

from __future__ import annotations

import stat
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest

from bench.file import archive, backup
from bench.file.archive import CHECKSUMS, MEMBER, Archive, digest
from bench.file.backup import export_all, pieces_by_job, text_of
from bench.file.plain import CannotOpen, NotSaved
from bench.file.restore import import_all
from tests.bench.file.texts import job

ONE = "jobs/00001-diver.toml"


def packed(path: Path, members: Mapping[str, bytes], *, kind: int = 0, sums: str | None = None) -> Path:
    """An archive with these files and their checksums; the last of them of a kind."""
    plain = "".join(f"{digest(data)}  {name}\n" for name, data in members.items())
    with zipfile.ZipFile(path, "w") as made:
        for name, data in {**members, CHECKSUMS: (plain if sums is None else sums).encode()}.items():
            item = zipfile.ZipInfo(name)
            if kind and name == list(members)[-1]:
                item.external_attr = kind << 16
            made.writestr(item, data)
    return path


@pytest.mark.parametrize(
    ("name", "ours"),
    [
        ("jobs/1.toml", True),
        ("jobs/123456789-a-b.toml", True),
        ("jobs/1234567890.toml", False),
        ("jobs/00001-diver.toml.torn-12345", True),
        ("jobs/00001-diver.toml.torn-123456", False),
        ("jobs/00001-Diver.toml", False),
        ("jobs/00001-" + "a" * 60 + ".toml", True),
        ("jobs/00001-" + "a" * 61 + ".toml", False),
        ("jobs/00001-.toml", False),
        ("jobs/../00001.toml", False),
        ("00001.toml", False),
        ("shop.toml", True),
        ("shop.toml.torn-1", False),
        ("xshop.toml", False),
    ],
)
def test_names_that_a_backup_holds(name: str, ours: bool) -> None:
    assert bool(MEMBER.fullmatch(name)) == ours


def test_what_is_not_taken_out_is_named_with_its_reason(tmp_path: Path) -> None:
    members = {ONE: job(), "readme.txt": b"x", "jobs/00002.toml": job()}
    sums = f"{digest(job())}  {ONE}\n{digest(b'y')}  jobs/00009.toml\n"
    with Archive(packed(tmp_path / "a.zip", members, sums=sums)) as found:
        assert found.names == [ONE] and found.content(ONE) == job()
        assert found.refused == [
            ("readme.txt", "its name is not that of a job"),
            ("jobs/00002.toml", "it has no checksum"),
            ("jobs/00009.toml", "it is missing from the archive"),
        ]


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (stat.S_IFLNK, "a link"),
        (stat.S_IFIFO, "a pipe"),
        (stat.S_IFSOCK, "a socket"),
        (stat.S_IFCHR, "a device"),
        (stat.S_IFBLK, "a device"),
        (stat.S_IFDIR, "a folder"),
    ],
)
def test_what_is_no_ordinary_file_is_not_taken_out(tmp_path: Path, kind: int, words: str) -> None:
    with Archive(packed(tmp_path / "a.zip", {ONE: job()}, kind=kind)) as found:
        assert found.names == [] and found.refused == [(ONE, f"it is {words}, not an ordinary file")]


def test_sums_and_sizes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    wrong = packed(tmp_path / "a.zip", {ONE: job()}, sums=f"{digest(b'x')}  {ONE}\n")
    with Archive(wrong) as found, pytest.raises(archive.Spoiled, match="its checksum is wrong"):
        found.content(ONE)
    good = packed(tmp_path / "b.zip", {ONE: job()})
    monkeypatch.setattr(archive, "FILE_LIMIT", len(job()))
    with Archive(good) as found:
        assert found.content(ONE) == job()
    monkeypatch.setattr(archive, "FILE_LIMIT", len(job()) - 1)
    with Archive(good) as found:
        assert found.refused == [(ONE, "it is larger than a session file can be (8 MiB)")]


def test_how_many_files_and_how_much_of_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = packed(tmp_path / "a.zip", {ONE: job(), "jobs/00002.toml": job()})
    whole = 2 * len(job()) + 2 * len(f"{digest(job())}  {ONE}\n") - len("-diver")
    for name, enough, words in (
        ("FILES_LIMIT", 3, "holds too many files"),
        ("WHOLE_LIMIT", whole, "unpacks to more than a backup of ringwright may hold"),
    ):
        with monkeypatch.context() as patch:
            patch.setattr(archive, name, enough)
            with Archive(made) as found:
                assert len(found.names) == 2
            patch.setattr(archive, name, enough - 1)
            with pytest.raises(CannotOpen, match=words):
                Archive(made)
    assert (archive.WHOLE_LIMIT, archive.FILES_LIMIT) == (1024**3, 100_000)


@pytest.fixture
def here(tmp_path: Path) -> Path:
    """A folder with a job, a set-aside piece and a shop file."""
    folder = tmp_path / "here"
    (folder / "jobs").mkdir(parents=True)
    (folder / "jobs" / "00001-diver.toml").write_bytes(job())
    (folder / "jobs" / "00001-diver.toml.torn-3").write_bytes(b"half")
    (folder / "shop.toml").write_text("bell = true\n", encoding="utf-8")
    (tmp_path / "stick").mkdir()
    return folder


def test_a_backup_of_more_than_one_may_hold_is_refused(
    here: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = len(job()) + 4 + 12
    monkeypatch.setattr(backup, "WHOLE_LIMIT", whole)
    made, left_out = export_all(here, tmp_path / "stick")
    assert made.name == "ringwright-backup-1.zip" and left_out == []
    monkeypatch.setattr(backup, "WHOLE_LIMIT", whole - 1)
    with pytest.raises(NotSaved, match="more than one backup may hold"):
        export_all(here, tmp_path / "stick")
    monkeypatch.undo()
    assert export_all(here, tmp_path / "stick")[0].name == "ringwright-backup-2.zip"


def test_files_larger_than_a_session_file_stay_out(
    here: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup, "FILE_LIMIT", len(job()))
    assert export_all(here, tmp_path / "stick")[1] == []
    monkeypatch.setattr(backup, "FILE_LIMIT", len(job()) - 1)
    left_out = export_all(here, tmp_path / "stick")[1]
    assert left_out == [("00001-diver.toml", "it is larger than a session file can be (8 MiB)")]


def test_pieces_and_names() -> None:
    names = [
        "1.toml",
        "1.toml.torn-1",
        "1.toml.torn-x",
        "1.toml.torn-",
        "2.toml.torn-12",
        "1.toml.torn-\u0664",
    ]
    assert pieces_by_job(names) == {"1.toml": ["1.toml.torn-1"], "2.toml": ["2.toml.torn-12"]}
    assert [text_of(one) for one in ("00001-diver.toml", "diver.toml", "12.toml")] == ["-diver", "diver", ""]


def test_a_piece_comes_back_once_and_beside_others(here: Path, tmp_path: Path) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    there = tmp_path / "there"
    for _ in range(2):
        import_all(made, there)
        torn = sorted(path.name for path in (there / "jobs").glob("*.torn-*"))
        assert torn == ["00001-diver.toml.torn-1"]
        assert (there / "jobs" / torn[0]).read_bytes() == b"half"
    (there / "jobs" / torn[0]).write_bytes(b"another")
    import_all(made, there)
    torn = sorted(path.name for path in (there / "jobs").glob("*.torn-*"))
    assert torn == ["00001-diver.toml.torn-1", "00001-diver.toml.torn-2"]


def test_a_shop_file_is_put_beside_the_one_that_is_there(here: Path, tmp_path: Path) -> None:
    made, _ = export_all(here, tmp_path / "stick")
    there = tmp_path / "there"
    assert import_all(made, there).added == ["00001-diver.toml", "shop.toml"]
    again = import_all(made, there)
    assert "shop.toml" in again.same and again.added == [] and again.renamed == []
    (there / "shop.toml").write_text("bell = false\n", encoding="utf-8")
    assert import_all(made, there).renamed == [("shop.toml", "shop-from-backup-1.toml")]
    (there / "shop-from-backup-1.toml").write_text("bell = 1\n", encoding="utf-8")
    assert import_all(made, there).renamed == [("shop.toml", "shop-from-backup-2.toml")]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (b" \n", "it is empty"),
        (b"bell = ", "it cannot be read as a shop file"),
        (b"\xff", "it cannot be read as a shop file"),
    ],
)
def test_a_shop_file_that_says_nothing_is_named(tmp_path: Path, text: bytes, why: str) -> None:
    made = packed(tmp_path / "a.zip", {ONE: job(), "shop.toml": text})
    found = import_all(made, tmp_path / "there")
    assert found.refused == [("shop.toml", why)] and found.added == ["00001-diver.toml"]

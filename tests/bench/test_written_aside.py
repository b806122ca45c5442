"""Files for people: whole or not at all, with the rights of their folder; copies where they can be put."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from bench.desk.effects import SaveCopy, WriteSheet
from bench.desk.token import Leave, Token
from bench.file.aside import write_aside
from bench.file.disk import Disk
from bench.file.plain import NotSaved
from bench.file.store import open_session
from bench.refusal import COULD_NOT_WRITE, DONE
from bench.workbench import Workbench
from ringwright import main
from tests.bench.file.texts import AT
from tests.whole.hands import lines
from tests.whole.scripts import straight


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    lines(tmp_path / "here", [straight(until="bench")])
    return tmp_path / "here"


def opened(folder: Path) -> Workbench:
    bench = Workbench(folder)
    bench.session = open_session(next((folder / "jobs").glob("*.toml")))
    return bench


def written(folder: Path, place: Path, name: str) -> Path:
    """A file for people of each kind, written into a place."""
    if name == "shop":
        assert main(["--folder", str(place), "shop", "--write"]) == DONE
        return place / "shop.toml"
    if name == "sheet":
        bench = opened(folder)
        bench.carry_out([WriteSheet()])
        bench.close()
        return next(place.glob("*.sheet.txt"))
    assert main(["--folder", str(folder), "sheet", "1", f"--{name}", str(place / "x.pdf")]) == DONE
    return place / "x.pdf"


@pytest.mark.parametrize("name", ["shop", "pdf", "slip", "sheet"])
@pytest.mark.parametrize(
    ("rights", "expected"), [(0o700, 0o600), (0o755, 0o644), (0o2770, 0o660), (0o777, 0o664), (0o1777, 0o644)]
)
def test_the_rights_are_those_of_the_folder(folder: Path, name: str, rights: int, expected: int) -> None:
    place = folder / "jobs" if name == "sheet" else folder
    place.chmod(rights)
    old = os.umask(0o077)
    try:
        path = written(folder, place, name)
    finally:
        os.umask(old)
    assert path.stat().st_mode & 0o7777 == expected
    assert not list(place.glob(".ringwright-*"))


@pytest.mark.parametrize("name", ["pdf", "sheet"])
def test_a_write_that_fails_leaves_the_old_file(
    folder: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = folder / "jobs"
    path = written(folder, place, name)
    before = path.read_bytes()
    bench = opened(folder)
    count = Disk.write

    def full(self: Disk, fd: int, data: bytes) -> int:
        if len(data) < 200:
            raise OSError(errno.ENOSPC, "full")
        return count(self, fd, data[:100])

    monkeypatch.setattr(Disk, "write", full)
    if name == "sheet":
        (said,) = bench.carry_out([WriteSheet()])
        assert isinstance(said, Token) and said.kind == "refused"
    else:
        assert main(["--folder", str(folder), "sheet", "1", "--pdf", str(path)]) == COULD_NOT_WRITE
    assert path.read_bytes() == before
    assert not list(place.glob(".ringwright-*"))


def test_a_link_is_written_through(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "x.txt").symlink_to("real/x.txt")
    write_aside(tmp_path / "x.txt", b"new")
    assert (tmp_path / "x.txt").is_symlink() and (tmp_path / "real" / "x.txt").read_bytes() == b"new"


def test_the_shop_file_is_never_written_over(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "shop.toml").write_bytes(b"# mine")
    assert main(["--folder", str(folder), "shop", "--write"]) == COULD_NOT_WRITE
    assert (folder / "shop.toml").read_bytes() == b"# mine"
    assert "is there already" in capsys.readouterr().err


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/full", "pipe"])
def test_paper_is_not_written_to_a_device(
    folder: Path, device: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = Path(device)
    if device == "pipe":
        path = folder / "pipe"
        os.mkfifo(path)
    assert main(["--folder", str(folder), "sheet", "1", "--pdf", str(path)]) == COULD_NOT_WRITE
    assert "not an ordinary file" in capsys.readouterr().err


@pytest.mark.parametrize("home", [None, "", "/nowhere/at/all", "/dev/null"])
def test_a_copy_is_saved_without_a_home(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, home: str | None
) -> None:
    """Without HOME the account is looked up; an account that is not known has none."""
    (tmp_path / "work").mkdir()
    monkeypatch.chdir(tmp_path / "work")
    if home is None:
        monkeypatch.setattr(Path, "home", no_home)
    else:
        monkeypatch.setenv("HOME", home)
    bench = opened(folder)
    (first,) = bench.carry_out([SaveCopy()])
    assert isinstance(first, Token) and "once more to write it" in first.text
    (said,) = bench.carry_out([SaveCopy()])
    bench.close()
    (copy,) = (tmp_path / "work").glob("*-copy-*.toml")
    assert isinstance(said, Token) and said.kind == "said" and str(copy) in said.text
    assert copy.read_bytes() == next((folder / "jobs").glob("*.toml")).read_bytes()


def no_home() -> Path:
    """As `Path.home` ends for an account that nobody knows."""
    raise RuntimeError("Could not determine home directory.")


def test_a_copy_that_can_be_put_nowhere_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("bench.file.copies.places", lambda: iter([Path("/dev/null/x"), Path("/dev/null/y")]))
    bench = opened(folder)
    (first,) = bench.carry_out([SaveCopy()])
    assert isinstance(first, Token) and "once more to write it" in first.text
    (said,) = bench.carry_out([SaveCopy()])
    assert isinstance(said, Token) and said.kind == "refused" and "The copy was not saved" in said.text
    bench.close()


@pytest.mark.parametrize("how", ["folder gone", "file gone", "another file", "stopped"])
def test_saved_is_said_only_where_it_is_so(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, how: str
) -> None:
    (tmp_path / "home").mkdir()
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    bench = opened(folder)
    path = next((folder / "jobs").glob("*.toml"))
    whole = path.read_bytes()
    leave = Leave(0, f"saved: {path}")
    assert bench.farewell(leave) == leave
    if how == "folder gone":
        (folder / "jobs").rename(tmp_path / "elsewhere")
    elif how == "file gone":
        path.unlink()
    elif how == "another file":
        path.rename(tmp_path / "elsewhere")
        path.write_bytes(whole)
    else:
        monkeypatch.setattr(Disk, "flush", fails)
        with pytest.raises(NotSaved):
            assert bench.session is not None
            bench.session.append(kind="note", value="x", at=AT)
    said = bench.farewell(leave)
    assert said.status == COULD_NOT_WRITE
    assert not said.words.startswith("saved") and "Save a complete copy" not in said.words
    bench.close()
    if how != "stopped":
        (copy,) = (tmp_path / "home").iterdir()
        assert str(copy) in said.words and copy.read_bytes() == whole


def fails(disk: Disk, fd: int) -> None:
    """A disk that does not confirm."""
    raise OSError(errno.EIO, "planned")

"""One session file open for work: what is told when something is wrong with it, and what stays as it was."""

from __future__ import annotations

import errno
import os
import socket
from collections.abc import Callable
from pathlib import Path

import pytest

from bench.file.disk import REAL, Disk
from bench.file.entry import FILE_LIMIT
from bench.file.load import load
from bench.file.new_job import create
from bench.file.plain import NO_LOCK, CannotOpen, NotSaved
from bench.file.store import Session, open_session
from tests.bench.file.texts import AT, ENTRIES, block, job
from tests.campaigns.simulated_disk import FaultyDisk, Plan


def _new(folder: Path) -> Session:
    session = create(folder, job="A-1042", made_by="ringwright 0.1", slug="A-1042")
    _answer(session, "29.46 mm")
    return session


def _answer(session: Session, value: str) -> None:
    session.append(kind="answer", key="case_bore_1", value=value, at=AT)


def _failing(call: str, error: int, times: int = 10**6) -> Plan:
    left = times

    def plan(_: int, name: str) -> OSError | None:
        nonlocal left
        if name != call or left <= 0:
            return None
        left -= 1
        return OSError(error, "planned")

    return plan


def test_a_new_job_is_numbered_named_and_readable_by_its_owner_only(tmp_path: Path) -> None:
    with _new(tmp_path / "bench") as first, _new(tmp_path / "bench") as second:
        assert first.path == tmp_path / "bench" / "jobs" / "00001-a-1042.toml"
        assert second.path.name == "00002-a-1042.toml"
        assert first.path.stat().st_mode & 0o777 == 0o600
        assert first.head is not None and second.head is not None
        assert first.head.id != second.head.id
    assert {path.name for path in first.path.parent.iterdir()} == {first.path.name, second.path.name}


def test_a_name_left_by_a_crash_is_passed_over(tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "00007.toml.new").write_bytes(b"# Plain te")
    with _new(tmp_path) as session:
        assert session.path.name == "00008-a-1042.toml"


def test_a_given_number_is_taken_once(tmp_path: Path) -> None:
    create(tmp_path, number=42, made_by="x", slug="a").close()
    with pytest.raises(NotSaved, match="job 42 already"):
        create(tmp_path, number=42, made_by="x", slug="b")
    with pytest.raises(NotSaved, match="not between"):
        create(tmp_path, number=0, made_by="x")


def test_a_job_text_that_cannot_be_kept_is_refused_and_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(NotSaved, match="shorten it"):
        create(tmp_path, job="x" * 20_000, made_by="x")
    assert list((tmp_path / "jobs").iterdir()) == []


def test_an_entry_comes_back_as_it_will_be_read(tmp_path: Path) -> None:
    with _new(tmp_path) as session:
        note = session.append(kind="note", value="a\ud800b\x1b[2J\nc", at=AT)
        assert session.entries[-1] == note
    assert load(session.path.read_bytes()).usable == session.entries


def test_after_closing_nothing_is_written_and_closing_twice_is_fine(tmp_path: Path) -> None:
    session = _new(tmp_path)
    session.close()
    session.close()
    with pytest.raises(NotSaved, match="closed"):
        _answer(session, "1.00 mm")


def test_a_value_that_cannot_be_kept_is_refused_and_the_job_goes_on(tmp_path: Path) -> None:
    with _new(tmp_path) as session:
        before = session.path.read_bytes()
        with pytest.raises(NotSaved, match="shorten it") as told:
            session.append(kind="note", value="x" * 20_000, at=AT)
        assert told.value.certain
        assert session.path.read_bytes() == before
        _answer(session, "29.48 mm")


def test_the_largest_size_is_refused_in_words(tmp_path: Path) -> None:
    path = tmp_path / "00001.toml"
    comment = b"# " + b"x" * 998 + b"\n"
    path.write_bytes(job() + comment * ((FILE_LIMIT - len(job())) // len(comment)))
    with open_session(path) as session:
        with pytest.raises(NotSaved, match="8 MiB"):
            for _ in range(20):
                _answer(session, "29.46 mm")
        assert path.stat().st_size <= FILE_LIMIT


def _append_text(path: Path) -> None:
    path.write_bytes(path.read_bytes() + b"# seen\n")


def _same_length(path: Path) -> None:
    data = path.read_bytes()
    with path.open("r+b") as file:
        file.write(data.replace(b"29.46", b"29.64"))
    os.utime(path, ns=(1, 1))


def _replace_by_editor(path: Path) -> None:
    other = path.with_name("other")
    other.write_bytes(path.read_bytes())
    other.replace(path)


def _swap_for_link(path: Path) -> None:
    other = path.with_name("other")
    path.rename(other)
    path.symlink_to(other)


MEANWHILE: dict[str, tuple[Callable[[Path], object], str]] = {
    "deleted": (Path.unlink, "no longer where it was"),
    "renamed": (lambda path: path.rename(path.with_name("gone")), "no longer where it was"),
    "replaced by an editor": (_replace_by_editor, "another file stands in the place"),
    "replaced by a link": (_swap_for_link, "another file stands in the place"),
    "appended to": (_append_text, "another program changed"),
    "cut": (lambda path: os.truncate(path, 100), "another program changed"),
    "rewritten at the same length": (_same_length, "another program changed"),
}


@pytest.mark.parametrize("name", MEANWHILE)
def test_a_file_changed_while_open_is_not_written_to_and_a_copy_can_be_saved(
    tmp_path: Path, name: str
) -> None:
    change, words = MEANWHILE[name]
    with _new(tmp_path) as session:
        entries = session.entries
        change(session.path)
        after = session.path.read_bytes() if session.path.exists() else None
        for _ in range(2):
            with pytest.raises(NotSaved, match=words) as told:
                _answer(session, "1.00 mm")
            assert told.value.certain
        assert not session.writable
        assert (session.path.read_bytes() if session.path.exists() else None) == after
        copy = session.save_copy(tmp_path / "copy.toml")
    with open_session(copy) as again:
        assert again.entries == entries


def test_a_file_that_was_only_touched_is_written_to(tmp_path: Path) -> None:
    with _new(tmp_path) as session:
        os.utime(session.path, ns=(1, 1))
        _answer(session, "29.48 mm")
        assert len(session.entries) == 2


def test_a_copy_never_replaces_a_file_and_leaves_nothing_behind(tmp_path: Path) -> None:
    (tmp_path / "there.toml").write_bytes(b"mine")
    with _new(tmp_path / "bench") as session, pytest.raises(NotSaved, match="already there"):
        session.save_copy(tmp_path / "there.toml")
    assert (tmp_path / "there.toml").read_bytes() == b"mine"
    assert {path.name for path in tmp_path.iterdir()} == {"there.toml", "bench"}
    with pytest.raises(NotSaved, match="no such"):
        session.save_copy(tmp_path / "nowhere" / "copy.toml")


def test_a_failed_write_is_taken_back_and_the_same_answer_goes_through_later(tmp_path: Path) -> None:
    with _new(tmp_path) as session:
        path = session.path
    disk = FaultyDisk(REAL, lambda _n, _name: None)
    with open_session(path, disk=disk) as session:
        before = path.read_bytes()
        disk.plan = _failing("write", errno.ENOSPC, times=1)
        with pytest.raises(NotSaved, match="the disk is full") as told:
            _answer(session, "29.48 mm")
        assert told.value.certain
        assert path.read_bytes() == before
        _answer(session, "29.48 mm")
    assert [entry.value for entry in load(path.read_bytes()).usable] == ["29.46 mm", "29.48 mm"]


def test_after_a_failed_flush_nothing_more_is_written(tmp_path: Path) -> None:
    with _new(tmp_path) as session:
        path, entries = session.path, session.entries
    disk = FaultyDisk(REAL, lambda _n, _name: None)
    with open_session(path, disk=disk) as session:
        disk.plan = _failing("flush", errno.EIO, times=1)
        with pytest.raises(NotSaved, match="may or may not be saved") as told:
            _answer(session, "29.48 mm")
        assert not told.value.certain
        written = path.read_bytes()
        with pytest.raises(NotSaved, match="may or may not be saved"):
            _answer(session, "29.48 mm")
        assert path.read_bytes() == written
        copy = session.save_copy(tmp_path / "copy.toml")
    with open_session(copy) as again:
        assert again.entries == entries


@pytest.mark.parametrize(
    ("error", "words"),
    [(errno.EACCES, "no permission"), (errno.EROFS, "can be read only"), (errno.EPERM, "no permission")],
)
def test_a_file_that_cannot_be_written_opens_to_read_only_with_the_reason(
    tmp_path: Path, error: int, words: str
) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(job())
    with open_session(path, disk=FaultyDisk(REAL, _failing("open", error, times=1))) as session:
        assert not session.writable
        assert words in session.why_read_only
        assert session.entries == ENTRIES
    assert path.read_bytes() == job()


class LockedByAnybody(Disk):
    """A folder that gives its lock to everybody who asks."""

    def lock(self, fd: int) -> bool:
        return True


@pytest.mark.parametrize("disk", [FaultyDisk(REAL, _failing("lock", errno.ENOLCK)), LockedByAnybody()])
def test_a_folder_without_locks_says_so_and_is_worked_in(tmp_path: Path, disk: Disk) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(job())
    with open_session(path, disk=disk) as session:
        assert session.writable and session.warning == NO_LOCK
        session.append(kind="answer", key="watch", value="ferry", at="now")
    with open_session(path) as again:
        assert again.entries[-1].value == "ferry" and not again.warning


@pytest.mark.parametrize("disk", [REAL, LockedByAnybody()])
def test_a_note_that_another_computer_left_is_said(tmp_path: Path, disk: Disk) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(job())
    (tmp_path / "00001.toml.open").write_text(
        "on the computer lathe-corner, since 2026-03-04 09:10, window 1"
    )
    with open_session(path, disk=disk) as session:
        assert session.writable and "lathe-corner, since 2026-03-04 09:10" in session.warning
        assert ("cannot keep a second computer out" in session.warning) == (disk is not REAL)


def test_a_second_window_reads_and_is_told_where_the_first_is(tmp_path: Path) -> None:
    with _new(tmp_path) as first, open_session(first.path) as second:
        assert (first.writable, second.writable) == (True, False)
        assert f"on the computer {socket.gethostname()}, since 20" in second.why_read_only
        assert second.entries == first.entries
        with pytest.raises(NotSaved, match="already open"):
            _answer(second, "1.00 mm")
    with open_session(first.path) as third:
        assert third.writable
    assert [path.name for path in first.path.parent.iterdir()] == [first.path.name]


def test_closing_once_more_takes_no_note_of_another_window_away(tmp_path: Path) -> None:
    with _new(tmp_path) as first:
        pass
    with open_session(first.path):
        first.close()
        assert first.path.with_name(f"{first.path.name}.open").exists()


def test_an_unfinished_tail_is_kept_beside_the_file_and_once_only(tmp_path: Path) -> None:
    path = tmp_path / "00001.toml"
    torn = block('n = 6\nat = "20')
    for name in (".torn-1", ".torn-1", ".torn-2"):
        if name == ".torn-2":
            torn = b"\0" * 40
        path.write_bytes(job() + torn)
        with open_session(path) as session:
            assert session.set_aside == torn
            assert session.set_aside_in == path.with_name(path.name + name)
            assert session.loaded.state == "fine"
            assert session.entries == ENTRIES
        assert path.read_bytes() == job()
        assert path.with_name(path.name + name).read_bytes() == torn
    assert len(list(tmp_path.iterdir())) == 3


@pytest.mark.parametrize("call", ["open", "write", "flush", "flush_folder", "truncate"])
def test_a_recovery_that_fails_leaves_everything_and_opens_to_read_only(tmp_path: Path, call: str) -> None:
    path = tmp_path / "00001.toml"
    data = job() + block('n = 6\nat = "20')
    path.write_bytes(data)
    disk = FaultyDisk(REAL, lambda _n, _name: None)
    fail = _failing(call, errno.ENOSPC)
    opened = 0

    def plan(number: int, name: str) -> BaseException | str | None:
        nonlocal opened
        opened += name == "open"
        return fail(number, name) if not (name == "open" and opened == 1) else None

    disk.plan = plan
    with open_session(path, disk=disk) as session:
        assert not session.writable
        assert "the disk is full" in session.why_read_only
        assert session.entries == ENTRIES
    assert path.read_bytes() == data


@pytest.mark.parametrize(
    "data",
    [
        job().replace(b"format = 1", b"format = 2"),
        job().replace(b"A-1042", b"A-1043"),
        job() + block("n = 6\n") + block("n = 7\n"),
        b"hello\n",
        b"",
    ],
    ids=["newer", "head", "two unfinished", "foreign", "empty"],
)
def test_a_file_that_is_not_understood_opens_to_read_only_and_stays_as_it_is(
    tmp_path: Path, data: bytes
) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(data)
    with open_session(path) as session:
        assert not session.writable
        assert session.why_read_only == session.loaded.message
        assert session.entries == ()
        with pytest.raises(NotSaved):
            _answer(session, "1.00 mm")
    assert path.read_bytes() == data
    assert [other.name for other in tmp_path.iterdir()] == ["00001.toml"]


def test_an_editor_that_drops_the_last_newline_costs_nothing(tmp_path: Path) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(job().rstrip(b"\n"))
    with open_session(path) as session:
        assert session.set_aside == b""
        _answer(session, "29.50 mm")
    loaded = load(path.read_bytes())
    assert (loaded.state, len(loaded.usable)) == ("fine", 6)


def test_a_hard_link_is_warned_of(tmp_path: Path) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(job())
    os.link(path, tmp_path / "second")
    with open_session(path) as session:
        assert "second name" in session.warning


def test_a_disk_without_hard_links_still_makes_and_copies_jobs(tmp_path: Path) -> None:
    disk = FaultyDisk(REAL, _failing("link", errno.EPERM))
    with create(tmp_path, job="A", made_by="x", disk=disk) as session:
        _answer(session, "29.46 mm")
        copy = session.save_copy(tmp_path / "copy.toml")
    assert load(copy.read_bytes()).usable == session.entries
    assert [path.name for path in (tmp_path / "jobs").iterdir()] == ["00001.toml"]


def _fifo(path: Path) -> None:
    os.mkfifo(path)


def _sparse(path: Path) -> None:
    with path.open("wb") as file:
        file.truncate(5 * 2**30)


def _socket(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as made:
        made.bind(str(path))


def _link(path: Path) -> None:
    path.with_name("job").write_bytes(job())
    path.symlink_to("job")


ODD_PATHS: dict[str, tuple[Callable[[Path], object], str]] = {
    "nothing there": (lambda _: None, "no such file"),
    "folder": (Path.mkdir, "not an ordinary file"),
    "pipe": (_fifo, "not an ordinary file"),
    "socket": (_socket, "not an ordinary file"),
    "link to a job": (_link, "a link to another place"),
    "link to nothing": (lambda path: path.symlink_to("nowhere"), "a link to another place"),
    "link to itself": (lambda path: path.symlink_to(path.name), "a link to another place"),
    "device that is full": (lambda path: path.symlink_to("/dev/full"), "a link to another place"),
    "five gigabytes": (_sparse, "larger than a session file can be"),
}


@pytest.mark.parametrize("name", ODD_PATHS)
def test_odd_paths_are_refused_in_words(tmp_path: Path, name: str) -> None:
    make, words = ODD_PATHS[name]
    path = tmp_path / "x.toml"
    make(path)
    with pytest.raises(CannotOpen, match=words) as told:
        open_session(path)
    assert "Errno" not in told.value.why


@pytest.mark.parametrize(
    "path",
    [
        Path("/dev/null"),
        Path("/dev/zero"),
        Path("/dev/full"),
        Path("/"),
        Path("x" * 300),
        Path("/dev/null/x.toml"),
        Path("no/such/folder/x.toml"),
        Path("a\x1b[2J.toml"),
    ],
    ids=ascii,
)
def test_odd_places_are_refused_in_words(path: Path) -> None:
    with pytest.raises(CannotOpen) as told:
        open_session(path)
    assert "Errno" not in told.value.why
    assert "\x1b" not in told.value.why


def test_a_name_with_a_zero_byte_is_refused_in_words() -> None:
    with pytest.raises(CannotOpen, match="cannot be opened"):
        open_session(Path("a\0b.toml"))

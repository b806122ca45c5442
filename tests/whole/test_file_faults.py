"""Faults of the file as they are seen from the desk:
changed by hand, not saved, open elsewhere, copied away.
"""

from __future__ import annotations

import errno
import os
from pathlib import Path
from socket import gethostname

import pytest

from bench.command import COULD_NOT_WRITE, FOUND_SOMETHING
from bench.desk.effects import Append, Open
from bench.desk.entries import items
from bench.file.disk import Disk
from bench.workbench import Workbench
from ringwright import main
from screens.look import Look
from screens.view import view
from tests.whole.hands import Clock, bench_in, lines
from tests.whole.on_file import OnFile
from tests.whole.repairer import Repairer
from tests.whole.scripts import straight

EDITING = {"replace", "usual", "note", "spoiled", "undo"}


class Failing(Disk):
    """A disk that refuses writing or flushing while it is told to."""

    def __init__(self) -> None:
        self.full = False
        self.flush_fails = False

    def write(self, fd: int, data: bytes) -> int:
        """Write, or say that there is no room."""
        if self.full:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return super().write(fd, data)

    def flush(self, fd: int) -> None:
        """Flush, or fail."""
        if self.flush_fails:
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        super().flush(fd)


def begun(folder: Path, until: str = "ring") -> Path:
    """The straight job until a step is asked."""
    lines(folder, [straight(until=until)])
    return next((folder / "jobs").glob("*.toml"))


def opened(bench: Workbench, path: Path) -> Repairer:
    """A repairer who has opened a file on a workbench."""
    repairer = Repairer(OnFile(bench))
    for arrival in bench.carry_out([Open(str(path))]):
        repairer.feed(arrival)
    return repairer


def screen(repairer: Repairer) -> str:
    """Everything that stands on the screen, as one line."""
    return " ".join(
        "".join(text for text, _ in spans).strip() for spans in view(repairer.desk, Look("ascii"))
    )


def changed_by_hand(path: Path) -> bytes:
    """A reading in the middle of the file changed in an editor, its checksum left as it was."""
    text = path.read_text(encoding="utf-8")
    assert text.count("36.42 mm") == 1
    path.write_text(text.replace("36.42 mm", "36.45 mm"), encoding="utf-8")
    return path.read_bytes()


def test_a_changed_file_is_used_only_once_it_was_looked_at(tmp_path: Path) -> None:
    path = begun(tmp_path)
    before = changed_by_hand(path)
    bench = bench_in(tmp_path)
    repairer = opened(bench, path)
    assert repairer.desk.page == "damage"
    assert repairer.desk.job is None and repairer.desk.walk is None and repairer.desk.step is None
    assert "36.45 mm" in screen(repairer) and "case_bore_1" in screen(repairer)
    repairer.type("3")
    assert repairer.desk.page == "damage" and "no choice 3" in repairer.desk.message
    assert path.read_bytes() == before
    repairer.type("1")
    assert repairer.desk.page == "account" and repairer.desk.job is not None
    assert [one.word for one in repairer.desk.job.answers if one.key == "case_bore_1"] == ["36.45 mm"]
    assert path.read_bytes().startswith(before), "settling rewrote something"
    bench.close()
    again = bench_in(tmp_path)
    assert opened(again, path).desk.page == "account", "the same finding was asked about twice"
    again.close()


def test_a_changed_file_can_be_left_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = begun(tmp_path)
    before = changed_by_hand(path)
    bench = bench_in(tmp_path)
    repairer = opened(bench, path)
    repairer.type("2")
    assert repairer.desk.page == "jobs" and path.read_bytes() == before
    bench.close()
    assert main(["check", str(path)]) == FOUND_SOMETHING
    assert main(["sheet", str(path)]) == 2
    assert "settle it first" in capsys.readouterr().err.lower()


def test_plain_lines_ask_the_same_about_a_changed_file(tmp_path: Path) -> None:
    path = begun(tmp_path)
    changed_by_hand(path)
    _, said = lines(tmp_path, ["1"], file=str(path))
    assert "[damage] Which one:" in said
    assert said.index("[damage]") < said.index("[ring]")


def test_an_answer_that_was_not_saved_stays_in_the_line(tmp_path: Path) -> None:
    """The disk is full, then it is not: said at once, nothing lost, one Enter more saves it."""
    disk = Failing()
    path = begun(tmp_path, "case_bore_2")
    bench = Workbench(tmp_path, disk=disk, wall=Clock())
    repairer = opened(bench, path)
    repairer.type("1")
    assert repairer.asked == "case_bore_2"
    before = path.read_bytes()
    disk.full = True
    repairer.type("3644")
    assert repairer.desk.line.text == "3644" and repairer.asked == "case_bore_2"
    assert repairer.desk.alarm and "disk is full" in repairer.desk.message, repairer.desk.message
    assert path.read_bytes() == before
    disk.full = False
    repairer.key("enter")
    assert repairer.asked == "glass_1" and b"36.44 mm" in path.read_bytes()
    bench.close()


def test_a_sitting_that_could_not_be_marked_has_not_begun(tmp_path: Path) -> None:
    """The mark fails at the account: no step comes on the screen, so no check can be passed by."""
    disk = Failing()
    path = begun(tmp_path, "outside_reading")
    bench = Workbench(tmp_path, disk=disk, wall=Clock())
    repairer = opened(bench, path)
    disk.full = True
    for item in ("1", "replace"):
        repairer.type("1") if item == "1" else repairer.pick(item)
        if item == "replace":
            repairer.type("1")
        assert repairer.desk.page == "account" and repairer.desk.alarm, item
    disk.full = False
    repairer.type("1")
    assert repairer.asked == "lathe_hands"
    bench.close()


def test_after_a_failed_flush_nothing_more_is_taken_and_a_copy_can_be_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    disk, home = Failing(), tmp_path / "home"
    home.mkdir()
    monkeypatch.setattr(Path, "home", lambda: home)
    path = begun(tmp_path, "case_bore_2")
    bench = Workbench(tmp_path, disk=disk, wall=Clock())
    repairer = opened(bench, path)
    repairer.type("1")
    disk.flush_fails = True
    repairer.type("3644")
    assert repairer.desk.jammed and repairer.desk.line.text == "3644"
    disk.flush_fails = False
    repairer.key("enter")
    assert repairer.asked == "case_bore_2", "an answer was taken after a failed flush"
    for _ in "3644":
        repairer.key("back")
    repairer.pick("copy")
    copies = list(home.glob("*-copy-*.toml"))
    assert len(copies) == 1 and str(copies[0]) in repairer.desk.message
    assert b"36.42 mm" in copies[0].read_bytes()
    assert main(["check", str(copies[0])]) == 0
    bench.close()


def test_a_second_window_reads_only(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = begun(tmp_path, "outside_reading")
    first, second = bench_in(tmp_path), bench_in(tmp_path)
    opened(first, path)
    size = path.stat().st_size
    repairer = opened(second, path)
    assert not repairer.desk.writable and "to read only" in screen(repairer)
    assert f"on the computer {gethostname()}, since " in repairer.desk.why_read_only
    repairer.key("list")
    assert not EDITING & {one.word for one in items(repairer.desk) if one.now}
    repairer.key("previous")
    repairer.type("1")
    assert repairer.desk.page == "customer" and path.stat().st_size == size
    for key in ("previous", "next", "list", "1", "enter", "previous"):
        repairer.key(key)
    assert not [effect for effect in repairer.effects if isinstance(effect, Append)]
    assert main(["--plain", str(path)]) == COULD_NOT_WRITE
    assert "read only" in capsys.readouterr().out
    first.close()
    second.close()

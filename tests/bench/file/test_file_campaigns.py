"""The short form of every campaign against the session file, and the planted faults that each must find."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bench.file import load as load_module, pieces, recover, store
from bench.file.disk import READ_WRITE, Disk, write_all
from bench.file.load import Loaded
from bench.file.pieces import Piece
from tests.campaigns import (
    cuts,
    failing_calls,
    full_disks,
    garbles,
    kills,
    page_kills,
    powercuts,
    terminal_kills,
    writers,
)
from tests.campaigns.common import Counts


def _is_clean(counts: Counts, *reached: str) -> None:
    assert counts.clean, str(counts)
    for what in reached:
        assert counts.seen[what] > 0, f"never reached: {what}\n{counts}"


def test_cut_files_lose_and_invent_nothing() -> None:
    _is_clean(cuts.run(), "answers all there", "ask", "tail set aside")


def test_garbled_files_are_never_used_silently() -> None:
    _is_clean(garbles.run(), "asks", "read only", "says the same", "tail set aside", "known splice, used")


def test_power_cuts_lose_nothing() -> None:
    _is_clean(
        powercuts.run(),
        "torn tail",
        "cut while writing",
        "cut while recovering",
        "in flight turned up whole",
        "flush failed",
        "second try refused",
        "copy complete",
    )


def test_failing_calls_lose_nothing_and_are_told() -> None:
    _is_clean(
        failing_calls.run(),
        "refused",
        "may or may not be saved",
        "recovered",
        "recovery refused, read only",
        "sitting ended in words",
    )


def test_killed_writers_lose_nothing() -> None:
    _is_clean(kills.run(), "entries told as saved", "in flight turned up whole")


def test_a_repairer_killed_on_every_page_loses_nothing() -> None:
    reached = [f"reached {page}" for page in page_kills.TARGETS]
    _is_clean(page_kills.run(), "entries told as saved", "in flight turned up whole", *reached)


def test_a_disk_that_drops_a_note_is_caught() -> None:
    counts = page_kills.run(most=8, planted=True)
    assert counts.lost > 0, counts


def test_a_program_killed_in_a_terminal_loses_nothing_that_was_shown() -> None:
    _is_clean(terminal_kills.run(), "entries told as saved", "killed on hold", "killed on second ring")


def test_an_entry_lost_behind_the_screen_is_caught() -> None:
    counts = terminal_kills.run(pages=("note",), planted=True)
    assert counts.lost > 0, counts


def test_four_writers_take_turns() -> None:
    _is_clean(writers.run(), "turns refused", "entries saved")


def test_a_second_window_is_told_where_the_first_is_and_a_kill_frees_the_job(tmp_path: Path) -> None:
    why, writable_after = writers.killed_holder(tmp_path)
    assert "already open in another window" in why
    assert "(on the computer " in why
    assert writable_after


def test_a_file_size_limit_is_told_and_loses_nothing() -> None:
    counts = Counts()
    full_disks.limits(counts, step=300)
    _is_clean(counts, "refused by the size limit", "job not made")


def test_a_full_disk_is_told_and_the_job_goes_on_with_room() -> None:
    why = full_disks.can_mount()
    if why:
        pytest.skip(f"no small disk can be mounted here: {why}")
    counts = Counts()
    full_disks.full_disk(counts, spare=100)
    _is_clean(counts, "disk filled", "refused by the full disk")


# Planted faults: each must be found by the campaign that guards against it, on its own.


def test_checksum_ignored_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    true_read = pieces.read_block

    def trusting(*args: object, **words: object) -> Piece:
        piece: Piece = true_read(*args, **words)  # type: ignore[arg-type]
        return replace(piece, found=pieces.OK) if piece.found == pieces.EDITED else piece

    monkeypatch.setattr(load_module, "read_block", trusting)
    counts = garbles.run()
    assert counts.seen["WRONG: silent"] > 0, str(counts)


def test_flush_left_out_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    def unflushed(self: store.Session, block: bytes) -> None:
        write_all(self._disk, self._fd, block)

    monkeypatch.setattr(store.Session, "_write", unflushed)
    assert powercuts.run().lost > 0


def test_tail_cut_before_it_is_copied_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    true_keep = recover._keep

    def too_late(path: Path, torn: bytes, disk: Disk) -> Path:
        fd = disk.open(path, READ_WRITE)
        disk.truncate(fd, disk.look_at(fd).size - len(torn))
        disk.flush(fd)
        disk.close(fd)
        return true_keep(path, torn, disk)

    monkeypatch.setattr(recover, "_keep", too_late)
    assert powercuts.run().seen["WRONG: bytes"] > 0


def test_gate_skipped_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    true_judge = load_module._judge

    def ungated(*args: object) -> Loaded:
        loaded: Loaded = true_judge(*args)  # type: ignore[arg-type]
        usable = tuple(read.entry for read in loaded.entries if read.found == "ok")
        return replace(loaded, gated=False, usable=usable)

    monkeypatch.setattr(load_module, "_judge", ungated)
    counts = garbles.run()
    assert counts.seen["WRONG: silent"] > 0, str(counts)


def test_retry_after_a_failed_flush_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    def stubborn(self: store.Session, block: bytes) -> None:
        write_all(self._disk, self._fd, block)
        for _ in range(3):
            try:
                self._disk.flush(self._fd)
                return
            except OSError:
                continue

    monkeypatch.setattr(store.Session, "_write", stubborn)
    assert powercuts.run().lost > 0


def test_a_tail_left_in_place_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(recover, "_recover", lambda _path, opened, _disk: opened)
    assert cuts.run().lost > 0


def _leave_it(_self: store.Session, _before: int, _error: OSError) -> None:
    """A failed write is not taken back."""


def test_a_failed_write_that_is_not_taken_back_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store.Session, "_take_back", _leave_it)
    assert failing_calls.run().lost > 0


def test_a_write_cut_short_by_a_limit_and_not_taken_back_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store.Session, "_take_back", _leave_it)
    counts = Counts()
    full_disks.limits(counts, step=300)
    assert counts.lost > 0


def test_an_answer_told_before_it_is_written_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    true_write = store.Session._write
    waiting: list[bytes] = []

    def later(self: store.Session, block: bytes) -> None:
        waiting.append(block)
        if len(waiting) == 3:
            true_write(self, b"".join(waiting))
            waiting.clear()

    monkeypatch.setattr(store.Session, "_write", later)
    monkeypatch.setattr(store.Session, "_check_unchanged", lambda _self: None)
    assert kills.run().lost > 0


def test_a_lock_that_keeps_nobody_out_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Disk, "lock", lambda _self, _fd: True)
    assert not writers.run().clean

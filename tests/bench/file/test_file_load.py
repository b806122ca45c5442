"""What a file says after it was changed outside the program, and what a confirm settles."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bench.file.entry import Entry
from bench.file.load import Loaded, load
from bench.file.plain import NotSaved
from bench.file.store import open_session
from tests.bench.file.texts import AT, ENTRIES, HEAD, answer, block, file_of, job, sealed, with_crc_of


def test_a_file_as_written_is_fine() -> None:
    loaded = load(job())
    assert (loaded.state, loaded.gated, loaded.read_only) == ("fine", False, False)
    assert loaded.usable == ENTRIES
    assert loaded.next_n == 6
    assert loaded.trusted_end == len(job())


def _line(data: bytes, text: bytes) -> int:
    return data[: data.index(text)].count(b"\n") + 1


def test_a_changed_value_is_asked_about_and_nothing_is_used_meanwhile() -> None:
    data = job().replace(b"29.48", b"28.49")
    loaded = load(data)
    assert (loaded.state, loaded.gated, loaded.usable) == ("changed", True, ())
    [finding] = loaded.findings
    assert (finding.of, finding.line) == (3, _line(data, b"28.49"))
    assert finding.entry == answer(3, "28.49 mm")
    assert "28.49 mm" in finding.words
    assert f"ine {finding.line}" in loaded.message


def test_a_correction_by_hand_is_asked_about() -> None:
    loaded = load(with_crc_of(job().replace(b"29.48", b"28.49"), 3, "hand"))
    assert (loaded.state, loaded.gated, loaded.usable) == ("by_hand", True, ())
    assert loaded.findings[0].entry == answer(3, "28.49 mm")


def test_a_missing_entry_is_asked_about() -> None:
    data = file_of(*ENTRIES[:2], *ENTRIES[3:])
    loaded = load(data)
    assert (loaded.state, loaded.gated, loaded.usable) == ("gap", True, ())
    [finding] = loaded.findings
    assert (finding.of, finding.entry) == (3, None)
    assert loaded.next_n == 6


def test_several_missing_entries_are_one_gap() -> None:
    loaded = load(file_of(ENTRIES[0], ENTRIES[4]))
    [finding] = loaded.findings
    assert finding.of == 2
    assert "2 to 4" in finding.words


DAMAGES = {
    "no crc line": job()
    .replace(b"\n\n[[entry]]\nn = 4", b"\n[[entry]]\nn = 4")
    .replace(job()[job().index(b"crc", job().index(b"n = 3")) :].split(b"\n")[0] + b"\n", b"", 1),
    "quote gone": job().replace(b'"29.48 mm"', b'"29.48 mm'),
    "number as a word": job().replace(b"n = 3", b"n = x"),
    "zeros": job().replace(b"29.48", bytes(5)),
    "bad text": job().replace(b"29.48", b"29.\xff8"),
    "kind unknown, checksum wrong": job()
    .replace(b'n = 3\nat = "2026', b'n = 3\nat = "2026')
    .replace(
        b'kind = "answer"\nkey = "case_bore_1"\nvalue = "29.48',
        b'kind = "anwser"\nkey = "case_bore_1"\nvalue = "29.48',
    ),
    "date instead of text": job().replace(
        b'n = 3\nat = "2026-01-01T10:01:51+01:00"', b"n = 3\nat = 2026-01-01"
    ),
}


@pytest.mark.parametrize("data", DAMAGES.values(), ids=DAMAGES.keys())
def test_a_damaged_entry_is_asked_about_and_keeps_its_place(data: bytes) -> None:
    loaded = load(data)
    assert (loaded.state, loaded.gated, loaded.usable) == ("damaged", True, ()), loaded.message
    assert [finding.of for finding in loaded.findings] == [3]
    assert loaded.next_n == 6
    assert not loaded.read_only


def test_two_different_entries_with_one_number_are_asked_about_and_none_counts(tmp_path: Path) -> None:
    data = file_of(*ENTRIES, answer(3, "31.00 mm"))
    loaded = load(data)
    assert (loaded.state, loaded.usable, loaded.next_n) == ("damaged", (), 6)
    assert "number 3" in loaded.message
    settled = _settled(tmp_path, data, [3])
    assert [entry.n for entry in settled.usable] == [1, 2, 4, 5, 6]


def test_a_changed_duplicate_at_the_end_never_counts_and_the_first_one_stays(tmp_path: Path) -> None:
    again = file_of(ENTRIES[4])[len(file_of()) :].replace(b"30.10", b"30.11")
    loaded = _settled(tmp_path, job() + again, [6])
    assert loaded.usable[:5] == ENTRIES
    assert all(entry.value != "30.11 mm" for entry in loaded.usable)
    twice = job().replace(b"30.10", b"30.11") + again
    assert [finding.of for finding in load(twice).findings] == [5]


def test_text_between_entries_is_asked_about(tmp_path: Path) -> None:
    data = job().replace(b"\n[[entry]]\nn = 4", b"\nringwall is thin\n\n[[entry]]\nn = 4")
    loaded = load(data)
    assert (loaded.state, [finding.of for finding in loaded.findings]) == ("damaged", [3])
    assert loaded.findings[0].line == _line(data, b"ringwall")
    assert [entry.n for entry in _settled(tmp_path, data, [3]).usable] == [1, 2, 3, 4, 5, 6]


def _settled(folder: Path, data: bytes, numbers: list[int]) -> Loaded:
    path = folder / "00001.toml"
    path.write_bytes(data)
    with open_session(path) as session:
        for of in numbers:
            assert session.loaded.gated
            assert session.entries == ()
            with pytest.raises(NotSaved, match="accept it first"):
                session.append(kind="answer", key="case_bore_1", value="1.00 mm", at=AT)
            session.append(kind="confirm", of=of, at=AT)
        assert not session.loaded.gated
        assert session.entries == session.loaded.usable
    path_again = load(path.read_bytes())
    assert path_again.usable == session.entries
    assert path_again.state == "fine"
    assert path.read_bytes().startswith(data)
    return path_again


def test_accepting_a_changed_value_makes_it_count(tmp_path: Path) -> None:
    loaded = _settled(tmp_path, job().replace(b"29.48", b"28.49"), [3])
    assert loaded.usable[2] == answer(3, "28.49 mm")
    assert "1 change" in loaded.message


def test_accepting_a_damaged_entry_leaves_it_out(tmp_path: Path) -> None:
    loaded = _settled(tmp_path, job().replace(b"n = 3", b"n = x"), [3])
    assert [entry.n for entry in loaded.usable] == [1, 2, 4, 5, 6]


def test_accepting_a_gap_goes_on_without_it(tmp_path: Path) -> None:
    loaded = _settled(tmp_path, file_of(ENTRIES[0], ENTRIES[4]), [2])
    assert [entry.n for entry in loaded.usable] == [1, 5, 6]


def test_several_findings_are_settled_one_by_one(tmp_path: Path) -> None:
    data = with_crc_of(job().replace(b"29.48", b"28.49"), 3, "hand").replace(b"1.20 mm", b"1.30 mm")
    loaded = _settled(tmp_path, data, [2, 3])
    assert loaded.usable[:3] == (
        answer(1, "29.46 mm"),
        answer(2, "1.30 mm", "ring_wall"),
        answer(3, "28.49 mm"),
    )


def test_a_confirm_is_for_what_was_seen_and_nothing_later(tmp_path: Path) -> None:
    _settled(tmp_path, job().replace(b"29.48", b"28.49"), [3])
    path = tmp_path / "00001.toml"
    path.write_bytes(path.read_bytes().replace(b"28.49", b"27.00"))
    loaded = load(path.read_bytes())
    assert (loaded.gated, loaded.usable, [finding.of for finding in loaded.findings]) == (True, (), [3])
    assert "again" in loaded.message


def test_putting_the_first_value_back_after_accepting_another_is_asked_about(tmp_path: Path) -> None:
    _settled(tmp_path, job().replace(b"29.48", b"28.49"), [3])
    path = tmp_path / "00001.toml"
    path.write_bytes(path.read_bytes().replace(b"28.49", b"29.48"))
    loaded = load(path.read_bytes())
    assert (loaded.state, loaded.gated, loaded.usable) == ("changed", True, ())
    assert _settled(tmp_path, path.read_bytes(), [3]).usable[2] == answer(3, "29.48 mm")


def test_a_missing_entry_that_comes_back_after_it_was_accepted_as_missing_is_asked_about(
    tmp_path: Path,
) -> None:
    _settled(tmp_path, file_of(*ENTRIES[:2], *ENTRIES[3:]), [3])
    path = tmp_path / "00001.toml"
    path.write_bytes(path.read_bytes() + file_of(ENTRIES[2])[len(file_of()) :])
    loaded = load(path.read_bytes())
    assert (loaded.gated, [finding.of for finding in loaded.findings]) == (True, [3])


def test_a_confirm_written_by_hand_settles_nothing() -> None:
    data = job().replace(b"29.48", b"28.49")
    mark = load(data).findings[0].mark
    forged = block(f'n = 6\nat = "{AT}"\nkind = "confirm"\nof = 3\nvalue = "{mark}"\ncrc = "hand"\n')
    loaded = load(data + forged)
    assert (loaded.gated, [finding.of for finding in loaded.findings]) == (True, [3, 6])


def test_a_confirm_of_nothing_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "00001.toml"
    path.write_bytes(job())
    with open_session(path) as session, pytest.raises(NotSaved, match="nothing to accept"):
        session.append(kind="confirm", of=3, at=AT)


def test_a_head_corrected_by_hand_is_asked_about(tmp_path: Path) -> None:
    data = job().replace(b'job = "A-1042"', b'job = "A-1043"')
    at = data.index(b'\ncrc = "') + 1
    by_hand = data[:at] + b'crc = "hand"' + data[data.index(b"\n", at) :]
    loaded = load(by_hand)
    assert (loaded.state, loaded.read_only, [finding.of for finding in loaded.findings]) == (
        "by_hand",
        False,
        [0],
    )
    assert _settled(tmp_path, by_hand, [0]).head == replace(HEAD, job="A-1043")


@pytest.mark.parametrize(
    ("old", "new", "state"),
    [
        (b"A-1042", b"A-1043", "changed"),
        (b"2265b1f5", b"2265b1f6", "changed"),
        (b"format = 1", b"format = x", "damaged"),
        (b'made_by = "ringwright 0.1"\n', b"", "damaged"),
    ],
)
def test_a_head_that_is_not_as_written_is_read_only_and_nothing_is_used(
    old: bytes, new: bytes, state: str
) -> None:
    loaded = load(job().replace(old, new))
    assert (loaded.state, loaded.read_only, loaded.gated, loaded.usable) == (state, True, True, ())
    assert "first lines" in loaded.message


def test_a_newer_format_is_read_only() -> None:
    loaded = load(job().replace(b"format = 1", b"format = 2"))
    assert (loaded.state, loaded.read_only, loaded.usable) == ("newer", True, ())
    assert "newer version" in loaded.message
    assert "format 2" in loaded.message


@pytest.mark.parametrize(
    "fields",
    [
        {"n": 6, "at": AT, "kind": "picture", "key": "a", "value": "b"},
        {"n": 6, "at": AT, "kind": "answer", "key": "a", "value": "b", "unit": "mm"},
    ],
    ids=["unknown kind", "unknown field"],
)
def test_what_a_newer_version_added_is_read_only(fields: dict[str, object]) -> None:
    loaded = load(job() + sealed(fields))
    assert (loaded.state, loaded.read_only, loaded.gated, loaded.usable) == ("newer", True, True, ())


def test_an_unfinished_last_answer_is_not_used_and_needs_no_asking() -> None:
    data = job()[:-12]
    loaded = load(data)
    assert (loaded.state, loaded.gated, loaded.read_only) == ("unfinished", False, False)
    assert loaded.usable == ENTRIES[:4]
    assert data[: loaded.trusted_end] + loaded.torn == data


def test_two_unfinished_entries_are_read_only() -> None:
    half = block('n = 7\nat = "x"\n')
    loaded = load(job() + half + half)
    assert (loaded.state, loaded.read_only, loaded.gated) == ("damaged", True, True)


def test_a_wrong_number_cannot_open_a_hole_of_a_billion() -> None:
    loaded = load(job().replace(b"n = 3", b"n = 999999999"))
    assert [finding.of for finding in loaded.findings] == [3]
    assert loaded.next_n == 6
    huge = load(job() + sealed({"n": 10**9, "at": AT, "kind": "answer", "key": "a", "value": "b"}))
    assert (huge.state, huge.findings[0].of) == ("gap", 6)


def test_order_is_by_number_whatever_the_clock_said() -> None:
    times = ["2031-01-01T00:00:00+14:00", "1970-01-01T00:00:00Z", "9999-12-31", "yesterday", ""]
    entries = [Entry(n=n, at=at, kind="answer", key="a", value=str(n)) for n, at in enumerate(times, start=1)]
    assert load(file_of(*reversed(entries))).usable == tuple(entries)


def test_findings_never_carry_terminal_codes() -> None:
    data = job().replace(b"29.48 mm", b"\\u001b[2J\\u202e" + "\u202e\u200b".encode())
    [finding] = load(data).findings
    assert not {"\x1b", "\u202e", "\u200b"} & set(finding.words + load(data).message)

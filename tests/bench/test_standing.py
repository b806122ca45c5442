"""Where a job stands, as the list of jobs says it, against the route:
after every entry of jobs of every kind.
"""

from __future__ import annotations

import os
import re
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from bench.file.codec import render_entry, render_head
from bench.file.entry import Entry, Head
from bench.file.load import load
from bench.file.pieces import OK, read_block
from bench.file.scan import scan
from bench.job import keys, standing
from bench.job.job import replay
from bench.job.standing import BEGINS, STAGES, Standing, last_said, said_in, standing_of
from bench.job_list import glanced
from bench.shop.shop import built_in, load as load_shop
from bench.stages.whole import walk
from bench.summary import cut, glance, summary
from tests.whole.hands import lines
from tests.whole.random_bench import Bench
from tests.whole.repairer import fresh

FIRST, MOST_JOBS = 9206, 16
"""Jobs that soon reach every stage."""
LEAST = 3
"""How often each stage must have come up."""
SAMPLES = sorted((Path(__file__).resolve().parents[2] / "sample_sessions").glob("*.toml"))


def prefixes(data: bytes) -> list[bytes]:
    """The file as it was after each of its entries."""
    return [data[: found.end()] for found in re.finditer(rb'^crc = "[0-9a-f]{8}"\n', data, re.MULTILINE)][1:]


def disagreements(data: bytes, seen: Counter[str], *, most: int | None = None) -> list[str]:
    """Entries after which the list says another stage than the route; `most`: of so many at the beginning."""
    wrong, whole, shop = [], load(data), built_in()
    assert whole.head is not None
    for n, part in enumerate(prefixes(data)[:most], 1):
        said = glance(part)
        route = standing_of(walk(replay(whole.head, whole.usable[:n]), shop))
        assert said is not None
        seen[route.stage] += 1
        stage = standing.OVER if said["finished"] else said["stage"]
        if (stage, said["waiting_for"]) != (route.stage, route.waits_for):
            wrong.append(f"{said} against {route} after {whole.usable[n - 1]}")
    return wrong


def test_the_list_agrees_with_the_route_after_every_entry(tmp_path: Path) -> None:
    seen: Counter[str] = Counter()
    for seed in range(FIRST, FIRST + MOST_JOBS):
        bench = Bench(tmp_path / str(seed), seed)
        bench.run()
        bench.workbench.close()
        for path in (tmp_path / str(seed) / "jobs").glob("*.toml"):
            assert disagreements(path.read_bytes(), seen) == []
        if set(seen) == {*STAGES, standing.OVER} and min(seen.values()) >= LEAST:
            break
    assert set(seen) == {*STAGES, standing.OVER}, seen
    assert min(seen.values()) >= LEAST, seen


def test_a_program_that_says_it_wrong_is_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        "bench.desk.foreseen.standing_of", lambda walk: Standing("size", "a ring to be chosen")
    )
    bench = Bench(tmp_path, 9200)
    bench.run()
    bench.workbench.close()
    (path,) = (tmp_path / "jobs").glob("*.toml")
    assert disagreements(path.read_bytes(), Counter(), most=40)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_a_file_that_says_nothing_has_its_route_walked(path: Path, tmp_path: Path) -> None:
    """Words for where a job stands taken out, as an earlier version wrote it: the same row."""
    (tmp_path / "jobs").mkdir()
    whole = load(path.read_bytes())
    assert whole.head is not None
    silent = [without_word(entry) for entry in whole.usable]
    assert last_said(silent) is None

    data = render_head(whole.head) + b"".join(render_entry(one, salt=whole.head.id) for one in silent)
    (tmp_path / "jobs" / path.name).write_bytes(data)
    assert glance(data) is None
    (row,) = glanced(tmp_path, [path.name])
    said = summary(load(data), built_in())
    assert (row.stage, row.waiting_for, row.finished) == (
        said["stage"],
        said["waiting_for"],
        bool(said["finished"]),
    )
    assert row.watch


def without_word(entry: Entry) -> Entry:
    """An entry without the word that says where the job stands."""
    if said_in(entry) is None or not isinstance(entry.value, tuple):
        return entry
    words = tuple(word for word in entry.value if not str(word).startswith(BEGINS))
    return replace(entry, value=words[0] if len(words) == 1 else words)


def test_the_last_of_several_words_stays_the_last() -> None:
    from bench.desk.foreseen import with_word

    assert with_word("1.35 mm", "stands size") == ("1.35 mm", "stands size")
    assert with_word(("done", "go to 29.20"), "stands cut") == ("done", "go to 29.20", "stands cut")
    started = with_word(("start", "2026-01-01T10:00:00+00:00", "10 min"), "stands verify: testing")
    assert started == ("start", "2026-01-01T10:00:00+00:00", "stands verify: testing", "10 min")


def row_of(folder: Path, name: str) -> tuple[str, str, bool]:
    """Stage, what is waited for and whether it is finished, as the list says it."""
    (row,) = glanced(folder, [name])
    return row.stage, row.waiting_for, row.finished


def copied(folder: Path, data: bytes) -> str:
    """A session file in a folder of its own."""
    (folder / "jobs").mkdir()
    (folder / "jobs" / SAMPLES[0].name).write_bytes(data)
    return SAMPLES[0].name


def test_a_correction_by_hand_does_not_leave_the_list_behind(tmp_path: Path) -> None:
    """The last answer of a finished job is corrected by hand and accepted: then the route is walked."""
    data = SAMPLES[0].read_bytes()
    whole, _, tail = data.rpartition(b'crc = "')
    name = copied(tmp_path, whole + b'crc = "hand"\n')
    assert row_of(tmp_path, name)[1:] == ("a look at its file", False)
    lines(tmp_path, ["1"], file=str(tmp_path / "jobs" / name))
    assert row_of(tmp_path, name) == ("verify", "", True)
    assert tail


def test_the_word_of_a_version_that_writes_none_is_not_believed_for_it(tmp_path: Path) -> None:
    """A sitting of an earlier version, whose mark says nothing, came after the last word."""
    data = SAMPLES[0].read_bytes()
    loaded = load(data)
    assert loaded.head is not None
    last = loaded.usable[-1]
    begun = replace(last, n=last.n + 1, kind="mark", key=keys.SITTING, value="work")
    stale = replace(last, n=last.n + 2, kind="answer", key=keys.HAND_BACK, value="later")
    salt = loaded.head.id
    name = copied(tmp_path, data + render_entry(begun, salt=salt) + render_entry(stale, salt=salt))
    assert glance((tmp_path / "jobs" / name).read_bytes()) is None
    said = summary(load((tmp_path / "jobs" / name).read_bytes()), built_in())
    assert row_of(tmp_path, name) == (said["stage"], said["waiting_for"], bool(said["finished"]))


def test_every_sitting_says_where_the_job_stands(tmp_path: Path) -> None:
    for path in SAMPLES:
        marks = [entry for entry in load(path.read_bytes()).usable if entry.key == keys.SITTING]
        assert marks and all(said_in(mark) is not None for mark in marks)


def test_a_shop_that_was_mended_is_seen_on_the_list(tmp_path: Path) -> None:
    """A bar too thin is written with the job; a thicker one in the shop file afterwards counts."""
    data = next(path for path in SAMPLES if "221" in path.name).read_bytes()
    name = copied(tmp_path, data)
    job = tmp_path / "jobs" / name
    assert row_of(tmp_path, name)[:2] == ("cut", "turning")
    os.utime(job, (1_000_000, 1_000_000))
    (tmp_path / "shop.toml").write_text('[[bar]]\nplastic = "acetal"\ndiameter_mm = 8.0\nlength_mm = 100.0\n')
    said = summary(load(data), load_shop(tmp_path))
    assert row_of(tmp_path, name)[:2] == (said["stage"], said["waiting_for"])


def test_a_spoiled_ring_taken_back_is_no_further_ring(tmp_path: Path) -> None:
    repairer = fresh().on_to("rough_outside")
    repairer.pick("spoiled")
    repairer.on_to("lathe_hands")
    entries = repairer.bench.entries
    begun = [entry for entry in entries if entry.kind == "mark" and entry.key == keys.ATTEMPT]
    assert len(begun) == 1
    salt = "00000000"
    head = Head(format=1, id=salt, job="1", made_by="test")
    undone = [
        Entry(n=entries[-1].n + n, at="", kind="undo", key=one.key, value="", of=one.n)
        for n, one in enumerate((begun[0],), 1)
    ]
    data = render_head(head) + b"".join(render_entry(one, salt=salt) for one in (*entries, *undone))
    said = glance(data)
    assert said is not None and said["attempt"] == "1"
    assert summary(load(data), built_in())["attempt"] == "1"


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name)
def test_blocks_are_cut_as_the_whole_reading_cuts_them(path: Path) -> None:
    """At every length, and with headers and ends of lines as an editor may leave them."""
    data = path.read_bytes()
    edits = [
        (b"\n[[entry]]\n", b"\n [[entry]]\n"),
        (b"\n[[entry]]\n", b"\n[[ entry ]] # why\n"),
        (b"\n", b"\r\n"),
        (b"\ncrc = ", b"\ncrc=x\ncrc = "),
        (b'\ncrc = "', b"\ncrc = '"),
        (b"\nkind", b"\n[[x]]\nkind"),
    ]
    kinds = [data[:end] for end in range(len(data), 0, -211)]
    kinds += [data.replace(*edit, count) for edit in edits for count in (1, -1)]
    for one in kinds:
        starts, block_at = cut(one)
        scanned = scan(one)
        salt = "" if not scanned.blocks else re.findall(rb'^id = "(\w+)"', one, re.MULTILINE)[0].decode()
        good = [read_block(one, block, salt=salt) for block in scanned.blocks]
        found = [
            read_block(one, block_at(n), salt=salt) for n in range(1, len(starts) - (starts[-1] == len(one)))
        ]
        assert [piece.content for piece in found if piece.found == OK] == [
            piece.content for piece in good if piece.found == OK
        ]

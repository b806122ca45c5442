"""Where a job stands, as the list of jobs says it, against the route:
after every entry of jobs of every kind.
"""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from bench.file.entry import Entry
from bench.file.load import load
from bench.job import standing
from bench.job.job import replay
from bench.job.standing import BEGINS, STAGES, Standing, last_said, said_in, standing_of
from bench.job_list import glanced
from bench.shop.shop import built_in
from bench.stages.whole import walk
from bench.summary import glance, summary
from tests.campaigns.lathe_walks import remembered
from tests.whole.random_bench import Bench

MOST_JOBS = 16
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
    with remembered():
        for seed in range(9200, 9200 + MOST_JOBS):
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
    with remembered():
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
    from bench.file.codec import render_entry, render_head

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
    from dataclasses import replace

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

"""A year of the shop beside a recount from the raw files: over New Year, with clocks that jump, on paper."""

from __future__ import annotations

import csv
import io
import json
import tomllib
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from pypdf import PdfReader

from bench.file.codec import render_entry, render_head
from bench.file.load import load
from bench.file.slug import JOBS
from bench.job_list import listed
from bench.refusal import BAD_INPUT, DONE
from bench.shop.shop import built_in
from bench.year.counted import Counted, due, year_of
from bench.year.facts import JobFacts, facts_of
from bench.year.look import KNOWN_NAME, facts_in
from ringwright import main
from tests.bench.test_standing import SAMPLES
from tests.independent.year_recount import next_test, recounted

WHOLE_NUMBERS = ("made", "first_tries", "first_home", "passed", "failed", "sittings")
At = Callable[[int, datetime], datetime]
"""The time of an entry from its number and the time it has."""


def folder_of(tmp_path: Path, at: At) -> Path:
    """The samples in a folder, every entry at another time."""
    (tmp_path / JOBS).mkdir()
    for path in SAMPLES:
        loaded = load(path.read_bytes())
        assert loaded.head is not None
        moved = (
            replace(one, at=at(one.n, datetime.fromisoformat(one.at)).isoformat()) for one in loaded.usable
        )
        blocks = (render_entry(one, salt=loaded.head.id) for one in moved)
        (tmp_path / JOBS / path.name).write_bytes(b"".join([render_head(loaded.head), *blocks]))
    return tmp_path


def as_it_was(_n: int, at: datetime) -> datetime:
    return at


def over_new_year(_n: int, at: datetime) -> datetime:
    """The first day of the samples becomes New Year's Eve, a while before midnight."""
    return at + (datetime(2026, 12, 31, 23, 20) - datetime(2026, 3, 2, 9, 0))


def by_month(folder: Path) -> dict[str, Counted]:
    """The program's own counts of both years, month by month."""
    facts, unused = facts_in(folder, built_in())
    assert unused == 0
    years = {year: year_of(facts, year) for year in (2026, 2027)}
    for one in years.values():
        assert one.whole.minutes == pytest.approx(sum(month.minutes for month in one.months))
        assert one.whole.bar_mm == pytest.approx(sum(length for _, length in one.bars), abs=0.01)
    return {f"{year}-{at:02d}": one for year in years for at, one in enumerate(years[year].months, 1)}


@pytest.mark.parametrize("at", [as_it_was, over_new_year])
def test_every_figure_is_that_of_a_recount_from_the_raw_files(tmp_path: Path, at: At) -> None:
    folder = folder_of(tmp_path, at)
    counts, months = recounted((folder / JOBS).iterdir()), by_month(folder)
    worked_in = {month for month, _ in counts}
    assert worked_in == ({"2026-03"} if at is as_it_was else {"2026-12", "2027-01"})
    for month, counted in months.items():
        for name in WHOLE_NUMBERS:
            assert getattr(counted, name) == counts[month, name], (month, name)
        assert counted.minutes == pytest.approx(counts[month, "seconds"] / 60.0, abs=0.06)
        tenths = 0.05 * counts[month, "set_ups"] + 0.001  # what is left is written to a tenth
        assert counted.bar_mm == pytest.approx(counts[month, "bar_um"] / 1000.0, abs=tenths)
    assert sum(one.made for one in months.values()) == 10 and sum(one.failed for one in months.values()) == 4


@pytest.mark.parametrize("wrong", [datetime(2031, 5, 1), datetime(1970, 1, 1)])
def test_a_clock_that_jumped_and_came_back_moves_nothing_to_another_year(
    tmp_path: Path, wrong: datetime
) -> None:
    def jumped(n: int, at: datetime) -> datetime:
        return at + (wrong - datetime(2026, 3, 2)) if 12 <= n < 22 else at

    folder = folder_of(tmp_path, jumped)
    facts, _ = facts_in(folder, built_in())
    year, straight = year_of(facts, 2026), recounted(SAMPLES)
    assert year.others == ()
    for name in WHOLE_NUMBERS:
        assert getattr(year.whole, name) == straight["2026-03", name], name
    assert 0.7 < year.whole.minutes * 60.0 / straight["2026-03", "seconds"] <= 1.0


def test_spares_of_a_set_up_count_apart_and_take_their_bar(tmp_path: Path) -> None:
    """Two spares take twice a height of 1.10, a blade of 1.0, what is dressed off, 0.1, and a face, 0.2."""
    folder = folder_of(tmp_path, as_it_was)
    path = folder / JOBS / SAMPLES[0].name
    loaded = load(path.read_bytes())
    assert loaded.head is not None
    before = facts_of(built_in(), path.read_bytes())
    order = next(one for one in loaded.usable if "order {" in str(one.value))
    words = tuple(str(one).replace('"spares":0', '"spares":2') for one in order.value)  # type: ignore[union-attr]
    entries = (replace(one, value=words) if one is order else one for one in loaded.usable)
    after = facts_of(
        built_in(),
        b"".join([render_head(loaded.head), *(render_entry(one, salt=loaded.head.id) for one in entries)]),
    )
    assert before is not None and after is not None
    old, new = (year_of([one], 2026).whole for one in (before, after))
    assert (old.made, old.spares, new.made, new.spares) == (1, 0, 1, 2)
    assert new.bar_mm - old.bar_mm == pytest.approx(2 * (1.10 + 1.0 + 0.1 + 0.2), abs=0.011)


def test_the_next_test_is_due_on_the_day_of_the_sheet_and_of_the_list(tmp_path: Path) -> None:
    folder = folder_of(tmp_path, as_it_was)
    facts, _ = facts_in(folder, built_in())
    raw = {
        path.name[2:5]: next_test(tomllib.loads(path.read_text(encoding="utf-8"))["entry"])
        for path in SAMPLES
    }
    assert {one.job: one.retest for one in facts} == raw
    assert {row.number: row.retest for row in listed(folder)} == raw
    assert sum(map(bool, raw.values())) == 7


def test_what_is_due_is_told_until_it_did_not_come_back() -> None:
    days = ("2027-03-03", "2027-04-30", "2026-02-01", "")
    facts = [JobFacts(str(n), "", (), day) for n, day in enumerate(days)]
    told, longer = due(facts, "2027-03-20T09:00:00+01:00")
    assert [(one.job, one.day) for one in told] == [("0", "2027-03-03")] and longer == 1
    assert [one.job for one in due(facts, "2027-03-31")[0]] == ["0", "1"]
    assert due(facts, "no day") == ((), 0)


def test_what_is_known_of_a_file_holds_only_while_it_is_as_it_was(tmp_path: Path) -> None:
    folder = folder_of(tmp_path, as_it_was)
    first, _ = facts_in(folder, built_in())
    assert facts_in(folder, built_in())[0] == first
    (folder / JOBS / SAMPLES[0].name).unlink()
    damaged = folder / JOBS / SAMPLES[1].name
    damaged.write_bytes(damaged.read_bytes().replace(b"pass", b"puss"))
    after, unused = facts_in(folder, built_in())
    assert len(after) == len(first) - 2 and unused == 1
    (folder / KNOWN_NAME).write_text("rubbish", encoding="utf-8")
    assert facts_in(folder, built_in()) == (after, unused)


def test_the_command_says_the_same_in_words_table_json_and_on_paper(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = folder_of(tmp_path, as_it_was)

    def said(*words: str) -> str:
        assert main(["--folder", str(folder), "shop", "--year", "2026", *words]) == DONE
        return capsys.readouterr().out

    text, tree = said(), json.loads(said("--json"))
    *months, whole = csv.DictReader(io.StringIO(said("--csv", "-")))
    assert {name: float(whole[name]) for name in tree["whole"]} == tree["whole"]
    assert [float(one["made"]) for one in months] == [one["made"] for one in tree["months"]]
    first = f"home at the first try: {tree['whole']['first_home']} of {tree['whole']['first_tries']}"
    assert first in text and "221  Net mender" in text.partition("waiting: 1 job")[2]
    said("--pdf", str(tmp_path / "year.pdf"))
    (page,) = PdfReader(tmp_path / "year.pdf").pages
    words = " ".join(page.extract_text().split())
    assert "The year 2026" in words and first[1:] in words and "14 of 18" in words
    assert main(["--folder", str(folder), "shop", "--csv", "-"]) == BAD_INPUT
    assert main(["--folder", str(folder), "shop", "--year", "31"]) == BAD_INPUT

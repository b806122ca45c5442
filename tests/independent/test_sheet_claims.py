"""No sheet claims more than its session file holds:
sample sessions, random jobs, and faults planted one by one.
"""

from __future__ import annotations

import copy
import json
import tomllib
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import bench.job.corrections
import bench.seals.ring.sheet
import bench.sheet.data
import bench.sheet.one_seal
import bench.sheet.proofs
import bench.sheet.workshop
from bench.file.codec import render_entry
from bench.file.entry import Entry
from tests.campaigns.sheet_claims import MOST, Case, lacking, run, sheet_of, shop_of
from tests.independent.claims_over import shop_complaints
from tests.independent.sheet_claims import complaints

pytestmark = pytest.mark.xdist_group("sheet claims")

EVERY_SAMPLE = sorted((Path(__file__).resolve().parents[2] / "sample_sessions").glob("*.toml"))
SAMPLES = [one for one in EVERY_SAMPLE if 'key = "seal"' not in one.read_text(encoding="utf-8")]
"""Those of the straight ring."""
Jobs = tuple[Counter[str], list[str], list[Case]]
"""States reached, complaints and cases of the random jobs."""
FIRST = 3046


@pytest.fixture(scope="module")
def jobs() -> Jobs:
    """The random jobs with their sheets."""
    return run(MOST, first=FIRST, until_enough=True)


def test_random_jobs_claim_what_their_entries_hold(
    jobs: Jobs,
) -> None:
    reached, found, cases = jobs
    print(f"{len(cases)} jobs; {dict(reached)}")
    assert found == []
    assert not lacking(reached), f"too seldom reached in {len(cases)} jobs: {lacking(reached)}"


@pytest.mark.parametrize("sample", SAMPLES or [None], ids=lambda path: path.stem if path else "none")
def test_samples_claim_what_their_entries_hold(sample: Path | None, tmp_path: Path) -> None:
    if sample is None:
        pytest.skip("there are no sample sessions yet")
    sheet, text = sheet_of(sample, tmp_path)
    assert complaints(sheet, text, sample) == []
    assert shop_complaints(shop_of(sample, tmp_path), sample) == []


def and_then(raw: str, *answers: tuple[str, tuple[str, ...]]) -> str:
    """A session file with further answers appended, as the program writes them."""
    held = tomllib.loads(raw)
    n = max(one["n"] for one in held["entry"])
    at = held["entry"][-1]["at"]
    for more, (key, words) in enumerate(answers, 1):
        value = words if len(words) > 1 else words[0]
        entry = Entry(n=n + more, at=at, kind="answer", key=key, value=value)
        raw += render_entry(entry, salt=held["id"]).decode("utf-8")
    return raw


def test_a_page_that_hides_a_corrected_fail_is_caught(jobs: Jobs, tmp_path: Path) -> None:
    """Sentence by sentence, in every job that has one: left out, without its moment, with another word."""
    path, planted = tmp_path / "job.toml", 0
    for sheet, _, raw in jobs[2]:
        path.write_text(raw, encoding="utf-8")
        page = " ".join(shop_of(path, tmp_path).split())
        assert shop_complaints(page, path) == []
        for one in sheet["corrections"]:
            at = one["first_at"][:16].replace("T", " ")
            if one["first"] != "fail" or f"first given as FAIL, {at} UTC" not in page:
                continue
            for wrong in (
                page.replace(f"first given as FAIL, {at} UTC", "given"),
                page.replace(f"first given as FAIL, {at} UTC", "first given as FAIL"),
                page.replace(f"first given as FAIL, {at} UTC", f"first given as NOT JUDGED, {at} UTC"),
            ):
                assert shop_complaints(wrong, path), wrong
            planted += 1
    assert planted >= 2


def proved(jobs: Jobs) -> Case:
    """A finished job that reached its marking, cased, with a ring turned in it."""
    ended = (case for case in jobs[2] if case[0]["finished"] and case[0]["marking_tested"])
    return next(case for case in ended if "wall_1" in case[2] and "at_hand" not in case[2])


def changed(jobs: Jobs) -> dict[str, str]:
    """The session file of a proved job, with one answer changed afterwards, in several ways."""
    sheet, _, raw = proved(jobs)
    entries = tomllib.loads(raw)["entry"][::-1]
    result = next(one for one in entries if one.get("key") == "cased_result")
    decided = [word for word in result["value"][1:] if not word.startswith("leak")]
    home = next(one for one in entries if one.get("key") == "fit_outcome")
    return {
        "pressure": and_then(raw, ("cased_pressure", ("0.5 bar",))),
        "reading": and_then(raw, ("glass_1", (f"{sheet['measured']['glass']['mean_mm'] - 0.05:.2f} mm",))),
        "result": and_then(raw, ("cased_result", ("not_judged", *decided))),
        "ring": and_then(raw, ("fit_outcome", ("chipped", *home["value"][2:]))),
        "wall": and_then(raw, ("wall_1", ("0.700 mm",))),
    }


@pytest.mark.parametrize("what", ["pressure", "reading", "result", "ring", "wall"])
def test_what_was_changed_afterwards_is_claimed_no_more(what: str, jobs: Jobs, tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(changed(jobs)[what], encoding="utf-8")
    sheet, text = sheet_of(path, tmp_path)
    assert complaints(sheet, text, path) == []
    assert not sheet["finished"]
    if what in ("pressure", "result", "ring"):
        assert not sheet["marking_tested"] and sheet["retest"] is None
    if what == "reading":
        assert sheet["measured"]["glass"]["mean_mm"] is None
        assert "Readings were changed after the ring was decided" in text
    if what in ("reading", "wall"):
        assert sheet["made"]["squeeze_pct"] is None


Fault = Callable[[dict[str, Any]], None]


def marking_claimed(sheet: dict[str, Any]) -> None:
    sheet["marking_tested"] = not sheet["marking_tested"]


def pressure_raised(sheet: dict[str, Any]) -> None:
    sheet["tests"][-1]["overpressure_bar"] = (sheet["tests"][-1]["overpressure_bar"] or 0.0) + 0.5


def longer_hold(sheet: dict[str, Any]) -> None:
    timed = next(one for one in sheet["tests"] if one["timed"] == "program")
    timed["minutes"] += 1


def timed_by_us(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["tests"] if one["timed"] == "tester")["timed"] = "program"


def never_left(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["tests"] if one["timed"] == "asked")["timed"] = "program"


def short_enough(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["tests"] if one["needed_minutes"] is not None)["needed_minutes"] = None


def short_and_passed(sheet: dict[str, Any]) -> None:
    short = next(one for one in sheet["tests"] if one["needed_minutes"] is not None)
    short["result"] = "pass"


def never_early(sheet: dict[str, Any]) -> None:
    sheet["tests"][0]["early"] = not sheet["tests"][0]["early"]


def fail_passed(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["tests"] if one["result"] == "fail")["result"] = "pass"


def fail_left_out(sheet: dict[str, Any]) -> None:
    sheet["tests"] = [one for one in sheet["tests"] if one["result"] != "fail"]
    sheet["not_tested"] = [one for one in sheet["not_tested"] if "a fail" not in one]


def taken_away_stands(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["tests"] if one["result"] == "pass" and not one["stands"])["stands"] = True


def stop_unsaid(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["tests"] if one["stopped_after_min"] is not None)["stopped_after_min"] = None


def leak_smaller(sheet: dict[str, Any]) -> None:
    leak = next(one["leak"] for one in sheet["tests"] if one["leak"])
    less = max(0.3, 0.01 * abs(leak["rate_ug_min"]))
    leak["rate_ug_min"] -= less
    leak["low_ug_min"] -= less


def struck_reading_used(sheet: dict[str, Any]) -> None:
    seat = sheet["measured"]["case_bore"]
    seat["n"], seat["mean_mm"] = seat["n"] + 1, seat["mean_mm"] + 0.15


def earlier_ring_shown(sheet: dict[str, Any]) -> None:
    before = next(
        one for one in sheet["attempts"][:-1] if one["bore_mm"] not in (None, sheet["ring"]["bore_mm"])
    )
    sheet["ring"]["bore_mm"] = before["bore_mm"]


def wall_invented(sheet: dict[str, Any]) -> None:
    sheet["made"]["wall_mm"][0] += 0.002


def squeeze_better(sheet: dict[str, Any]) -> None:
    sheet["made"]["squeeze_pct"] += 0.3


def finished_claimed(sheet: dict[str, Any]) -> None:
    sheet["finished"] = not sheet["finished"]


def warning_left_out(sheet: dict[str, Any]) -> None:
    sheet["not_tested"] = [one for one in sheet["not_tested"] if "in water" not in one]


def retest_later(sheet: dict[str, Any]) -> None:
    sheet["retest"] = str(int(sheet["retest"][:4]) + 1) + sheet["retest"][4:]


def correction_hidden(sheet: dict[str, Any]) -> None:
    sheet["corrections"] = [one for one in sheet["corrections"] if one["first"] != "fail"]


def correction_softened(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["corrections"] if one["first"] == "fail")["first"] = "not_judged"


def correction_settled(sheet: dict[str, Any]) -> None:
    next(one for one in sheet["corrections"] if one["how"] != "keyed_wrong")["how"] = "keyed_wrong"


def correction_earlier(sheet: dict[str, Any]) -> None:
    sheet["corrections"][0]["first_at"] = sheet["corrections"][0]["then_at"]


def reading_hidden(sheet: dict[str, Any]) -> None:
    sheet["readings_changed"] = sheet["readings_changed"][1:]


FAULTS: tuple[Fault, ...] = (
    marking_claimed,
    pressure_raised,
    longer_hold,
    timed_by_us,
    never_left,
    short_enough,
    short_and_passed,
    never_early,
    fail_passed,
    fail_left_out,
    taken_away_stands,
    stop_unsaid,
    leak_smaller,
    struck_reading_used,
    earlier_ring_shown,
    wall_invented,
    squeeze_better,
    finished_claimed,
    warning_left_out,
    retest_later,
    correction_hidden,
    correction_softened,
    correction_settled,
    correction_earlier,
    reading_hidden,
)


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: fault.__name__)
def test_a_fault_in_the_data_is_caught_wherever_it_can_be_planted(
    fault: Fault, jobs: Jobs, tmp_path: Path
) -> None:
    """Alone, in every job in which it changes the sheet."""
    planted = 0
    for sheet, text, raw in jobs[2]:
        wrong = copy.deepcopy(sheet)
        try:
            fault(wrong)
        except (StopIteration, IndexError, TypeError, KeyError):
            continue
        if wrong == sheet:
            continue
        path = tmp_path / "job.toml"
        path.write_text(raw, encoding="utf-8")
        assert complaints(wrong, text, path), f"{fault.__name__} was not caught: {json.dumps(wrong)[:300]}"
        planted += 1
    assert planted > 0


@pytest.mark.parametrize(
    "sentence",
    [
        "This watch is waterproof.",
        "It conforms to the standard.",
        "We guarantee it.",
        "Safe to 30 bar.",
        "Cased watch: PASS.",
    ],
)
def test_a_sentence_too_many_is_caught(sentence: str, jobs: Jobs, tmp_path: Path) -> None:
    sheet, text, raw = next(case for case in jobs[2] if case[0]["finished"] and case[0]["tests"])
    path = tmp_path / "job.toml"
    path.write_text(raw, encoding="utf-8")
    assert complaints(sheet, text, path) == []
    assert complaints(sheet, text.replace("To know", f"{sentence}\nTo know"), path)


def planted_in_program(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """One fault in the program itself."""
    if name == "ring of any attempt":
        monkeypatch.setattr(bench.seals.ring.sheet, "newest_of", first_or_last)
    elif name == "a fail takes nothing away":
        plain_tests = bench.sheet.proofs.tests_of

        def all_stand(answers: Any, since: int = 0) -> Any:
            made = plain_tests(answers, since)
            return [{**one, "stands": one["result"] == "pass"} for one in made]

        monkeypatch.setattr(bench.sheet.one_seal, "tests_of", all_stand)
    elif name == "corrected results stay":
        every = ("empty_result", "cased_result")
        monkeypatch.setattr(
            bench.sheet.proofs, "results", lambda answers: [one for one in answers if one.key in every]
        )
    elif name == "the last word holds":
        monkeypatch.setattr(bench.job.corrections.Kind, "bad", lambda kind, answer: False)
    elif name == "corrections are hidden":
        monkeypatch.setattr(bench.sheet.data, "corrections_of", lambda spans, fitting: [])
    elif name == "corrections are left off the page":
        monkeypatch.setattr(bench.sheet.workshop, "correction_lines", lambda data: ())
    elif name == "a fail is called keyed wrong at once":
        monkeypatch.setitem(bench.sheet.workshop.HOW, "again", bench.sheet.workshop.HOW["keyed_wrong"])
    elif name == "changed pressures stay":
        monkeypatch.setattr(bench.sheet.proofs, "replaced", lambda result, answers: False)
    elif name == "changed readings stay":
        monkeypatch.setattr(bench.seals.ring.sheet, "changed", lambda job, since, keys: False)


def first_or_last(answers: Any, key: str) -> Any:
    """The first answer to the accepting of a ring, the newest of everything else."""
    found = [answer for answer in answers if answer.key == key]
    return (found[0] if key in ("ring", "fit_outcome") else found[-1]) if found else None


@pytest.mark.parametrize(
    "name",
    [
        "ring of any attempt",
        "a fail takes nothing away",
        "changed readings stay",
        "changed pressures stay",
        "corrected results stay",
        "the last word holds",
        "corrections are hidden",
        "corrections are left off the page",
        "a fail is called keyed wrong at once",
    ],
)
def test_a_fault_in_the_program_is_caught(
    name: str,
    jobs: Jobs,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    planted_in_program(monkeypatch, name)
    path = tmp_path / "job.toml"
    for raw in (*changed(jobs).values(), *(raw for _, _, raw in jobs[2])):
        path.write_text(raw, encoding="utf-8")
        if complaints(*sheet_of(path, tmp_path), path) or shop_complaints(shop_of(path, tmp_path), path):
            return
    pytest.fail(f"{name} was not caught")

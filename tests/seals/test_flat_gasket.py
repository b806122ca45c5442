"""A second kind of seal, known to the tests alone: a whole job, no word of the ring on its way."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.command import BAD_INPUT, DONE
from bench.paper.page import Paper
from bench.seals import SEALS
from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from bench.sheet.workshop import correction_lines
from ringwright import main
from tests.independent.promised import published
from tests.seals.flat_gasket.seal import GASKET
from tests.whole.hands import bench_in, lines
from tests.whole.places import SHORTEST
from tests.whole.repairer import Repairer, fresh
from tests.whole.script import Hand
from tests.whole.seen import read

GROOVE = {"gasket_outside": "34.20", "gasket_inside": "31.60", "gasket_depth": "0.55"}
CHOSEN_ALONE = {"seal": "gasket"}
CHOSEN = {**CHOSEN_ALONE, **GROOVE}
A_RING = re.compile(r"\brings?\b", re.I)
OF_A_RING = ("measured", "ring", "turned", "made", "fitting")
"""Keys of JSON that stay for whatever is made."""


@pytest.fixture(autouse=True)
def _guest(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(SEALS, GASKET.word, GASKET)


def begun() -> Repairer:
    """A repairer who has said that a gasket is made."""
    repairer = fresh()
    repairer.answer()
    repairer.pick("usual")
    repairer.pick_key("seal")
    repairer.give("gasket")
    return repairer


def shown(repairer: Repairer, name: str = "step") -> str:
    """A page in a window in which it stands whole."""
    return read(replace(repairer.desk, page=name, rows=200, columns=140))


def values(data: Any) -> Iterator[str]:
    """Every text that stands as a value in JSON."""
    if isinstance(data, dict):
        for one in data.values():
            yield from values(one)
    elif isinstance(data, list):
        for one in data:
            yield from values(one)
    elif isinstance(data, str):
        yield data


def sheet(repairer: Repairer) -> dict[str, Any]:
    """The sheet of the job as it stands, through JSON."""
    job, walk = repairer.desk.job, repairer.desk.walk
    assert job is not None and walk is not None
    data: dict[str, Any] = json.loads(json.dumps(sheet_data(job, finished=walk.open is None)))
    return data


def test_a_whole_job_and_no_word_of_the_ring() -> None:
    repairer = begun()
    stages = []
    given = dict(GROOVE)
    while repairer.asked:
        for name in ("step", "why", "list", "account", "sheet"):
            assert not A_RING.search(shown(repairer, name)), (repairer.asked, name, shown(repairer, name))
        stages.append(repairer.step.stage)
        repairer.answer(given)
    assert list(dict.fromkeys(stages)) == ["measure", "size", "cut", "verify"]
    data = sheet(repairer)
    assert data["seal"] == "gasket" and data["finished"]
    assert data["gasket"]["thickness_mm"] == pytest.approx(0.55 / 0.91, abs=0.005)
    assert 5.0 <= data["laid"]["squeeze_pct"] <= 13.0 and data["laid"]["outcome"] == "home"
    assert [test["result"] for test in data["tests"]] == ["pass", "pass"]
    assert all(test["stands"] for test in data["tests"]) and data["retest"]
    assert "Gasket made in this workshop, not an original part." in data["cautions"]
    text = "\n".join(sheet_lines(data))
    assert "Flat gasket, 0.60 mm thick." in text and "Laid in: level all round" in text
    assert not A_RING.search(text) and not [one for one in values(data) if A_RING.search(one)]


def test_what_a_ring_would_say_stays_and_is_empty() -> None:
    ring, gasket = sheet(fresh().on_to("hand_back")), sheet(begun().on_to("hand_back", GROOVE))
    assert set(ring) < set(gasket) and set(ring["attempts"][0]) <= set(gasket["attempts"][0])
    for name in OF_A_RING:
        assert set(gasket[name]) == set(ring[name])
        assert not list(values(gasket[name])) and ring[name] != gasket[name]


def test_a_whole_job_in_plain_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    lines(tmp_path, [Hand(CHOSEN_ALONE, until="gasket_outside")])
    file = str(next((tmp_path / "jobs").glob("00001*.toml")))
    sizing = lines(tmp_path, [Hand(GROOVE, until="gasket_accepted")], file=file)[1]
    assert main(["jobs", "--json", "--folder", str(tmp_path)]) == DONE
    rows = json.loads(capsys.readouterr().out)
    assert (rows[0]["stage"], rows[0]["step"]) == ("size", "gasket_accepted")
    assert published("jobs").is_valid(rows)
    desk, later = lines(tmp_path, [Hand()], file=file)
    assert desk.walk is not None and desk.walk.open is None
    assert main(["sheet", "1", "--json", "--folder", str(tmp_path)]) == DONE
    assert list(published("sheet").iter_errors(json.loads(capsys.readouterr().out))) == []
    assert "Gasket 0.60 mm thick" in sizing and not A_RING.search(sizing + later)
    printed: list[str] = []
    plain = Paper.plain

    def remembered(paper: Paper, text: str) -> str:
        printed.append(text)
        return plain(paper, text)

    monkeypatch.setattr(Paper, "plain", remembered)
    words = ["sheet", "1", "--pdf", str(tmp_path / "a.pdf"), "--slip", str(tmp_path / "b.pdf")]
    assert main([*words, "--folder", str(tmp_path)]) == DONE
    capsys.readouterr()
    paper = "\n".join(printed)
    assert "section of the gasket" in paper and "thickness 0.60" in paper
    assert "Flat gasket 1 of this job" in paper and not A_RING.search(paper)
    assert main(["plan", "1", "--folder", str(tmp_path)]) == BAD_INPUT
    refused = capsys.readouterr().err
    assert "a flat gasket is cut from sheet: there is no turning plan" in refused


@pytest.mark.parametrize(
    ("until", "stage", "waits"),
    [
        ("gasket_depth", "measure", "readings"),
        ("gasket_accepted", "size", "a gasket to be chosen"),
        ("gasket_cut", "cut", "a gasket to be cut"),
        ("gasket_laid", "verify", "testing"),
        ("empty_check", "verify", "testing"),
        ("renewed", "verify", "service and casing"),
    ],
)
def test_the_list_of_jobs_says_where_it_stands(tmp_path: Path, until: str, stage: str, waits: str) -> None:
    lines(tmp_path, [Hand(CHOSEN, until=until)])
    desk, _ = lines(tmp_path, [])
    bench = bench_in(tmp_path)
    row = next(iter(desk.known.values()))
    assert (row.stage, row.waiting_for) == (stage, waits)
    bench.close()


def test_one_that_is_spoiled_is_followed_by_another() -> None:
    repairer = begun().on_to("gasket_cut", GROOVE)
    assert "start another gasket" in shown(repairer, "list")
    repairer.pick("spoiled")
    assert repairer.asked == "gasket_accepted" and "gasket 2 size" in shown(repairer)
    said = [entry.value for entry in repairer.bench.entries if entry.key in ("spoiled", "attempt")]
    assert [one[0] if isinstance(one, tuple) else one for one in said] == ["gasket 1", "gasket 2"]
    repairer.on_to("")
    assert "Gasket 1 before it: not laid in." in "\n".join(sheet_lines(sheet(repairer)))


def test_it_is_not_offered_as_spoiled_before_one_is_accepted() -> None:
    assert "not now: the piece is spoiled" in shown(begun().on_to("gasket_accepted", GROOVE), "list")


def test_one_that_does_not_lie_is_followed_by_another() -> None:
    repairer = begun().on_to("gasket_after", {**GROOVE, "gasket_laid": "torn"})
    repairer.on_to("gasket_accepted", {"gasket_after": "gasket"}).on_to("")
    data = sheet(repairer)
    assert [one["outcome"] for one in data["attempts"]] == ["torn", "home"]


def test_a_bad_one_keyed_over_holds_until_it_is_said() -> None:
    repairer = begun().on_to("gasket_after", {**GROOVE, "gasket_laid": "torn"})
    repairer.pick("replace")
    repairer.pick_key("gasket_laid")
    repairer.give("home")
    assert repairer.asked == "gasket_corrected" and "another gasket was laid in" in shown(repairer)
    assert sheet(repairer)["laid"]["outcome"] == "torn"
    repairer.give("again")
    repairer.on_to("hand_back")
    said = correction_lines(sheet(repairer))[0]
    assert (
        said.startswith("Gasket 1, fitting: first given as gasket tore")
        and "another gasket was laid in" in said
    )


@pytest.mark.parametrize("sitting", ["empty", "cased"])
@pytest.mark.parametrize("way", ["ring", "measure"])
def test_a_test_that_fails_leads_back_to_another_gasket(sitting: str, way: str) -> None:
    repairer = begun().on_to(f"{sitting}_result", GROOVE)
    repairer.give("fail")
    while repairer.asked != f"{sitting}_found":
        assert not A_RING.search(shown(repairer)), shown(repairer)
        repairer.answer(SHORTEST)
    page = shown(repairer)
    assert "make a new gasket" in page and "make another gasket" in page and not A_RING.search(page)
    assert "measure the groove again, then another gasket" in page
    repairer.give(way)
    if way == "measure":
        assert "The groove is measured again" in shown(repairer)
        repairer.answer()
        assert repairer.asked == "gasket_outside"
        repairer.on_to("gasket_accepted", GROOVE)
    assert repairer.asked == "gasket_accepted"
    repairer.on_to("")
    assert sheet(repairer)["attempt"] == 2 and sheet(repairer)["retest"]


def test_a_groove_too_narrow_ends_the_job() -> None:
    repairer = begun().on_to("gasket_none", {**GROOVE, "gasket_inside": "33.60"})
    repairer.give("closed")
    data = sheet(repairer)
    assert data["finished"] and data["ended"] == "gasket_none: closed"
    assert "Closed: no gasket fits this groove." in "\n".join(sheet_lines(data))

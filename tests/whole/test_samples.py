"""The sample sessions: exactly what their answers write, and what their sheets say,
worked out here by hand.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from bench.command import DONE
from ringwright import main
from tests.whole.make_samples import TARGET, written
from tests.whole.sample_answers import SAMPLES


def sheet(name: str, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    """The sheet of a sample as data."""
    capsys.readouterr()
    assert main(["sheet", str(TARGET / name), "--json"]) == DONE
    data: dict[str, Any] = json.loads(capsys.readouterr().out)
    return data


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_is_what_its_answers_write(name: str, tmp_path: Path) -> None:
    """To the byte; `python -m tests.whole.make_samples` writes them anew."""
    assert (TARGET / name).read_bytes() == written(SAMPLES[name], tmp_path)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_is_fine(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(TARGET / name)]) == DONE
    assert "fine" in capsys.readouterr().out


def test_the_first_is_finished_at_the_first_attempt(capsys: pytest.CaptureFixture[str]) -> None:
    said = sheet("00208-ferry-captain.toml", capsys)
    assert (said["finished"], said["attempt"]) == (True, 1)
    seat, glass = (34.18 + 34.20) / 2, (33.04 + 33.03) / 2
    wall = (0.628 + 0.631 + 0.633 + 0.630) / 4
    assert said["made"]["squeeze_pct"] == pytest.approx(100 * (1 - (seat - glass) / 2 / wall), abs=0.01)
    # keyed 3 bar marked, the tester reaches 3: tested to the marking, a day and an hour after fitting
    assert said["marking_bar"] == 3 and said["marking_tested"] is True
    assert [test["early"] for test in said["tests"]] == [True, False]
    assert said["renewed"] == "back_crown"


def test_the_second_is_remade_tighter(capsys: pytest.CaptureFixture[str]) -> None:
    said = sheet("00214-harbour-clerk.toml", capsys)
    assert (said["finished"], said["attempt"]) == (True, 2)
    first, second = said["attempts"]
    assert (first["outcome"], second["outcome"]) == ("too_easy", "home")
    assert second["bore_mm"] < first["bore_mm"]
    assert said["made"]["wall_mm"] == [0.489, 0.491, 0.490, 0.488]
    gap = said["gap_believed_mm"]
    measured = ((28.37 + 28.38) / 2 - (27.49 + 27.50) / 2) / 2
    assert measured + 0.005 < gap < measured + 0.020, "the ring that went in too easily widened the gap"
    assert said["made"]["squeeze_pct"] == pytest.approx(100 * (1 - gap / 0.4895), abs=0.01)


def test_the_third_resumes_at_the_lathe(capsys: pytest.CaptureFixture[str]) -> None:
    said = sheet("00221-net-mender.toml", capsys)
    assert said["finished"] is False and said["tests"] == []
    main(["sheet", str(TARGET / "00221-net-mender.toml")])
    assert capsys.readouterr().out.startswith("NOT FINISHED")


def test_the_fourth_fails_and_is_tested_again(capsys: pytest.CaptureFixture[str]) -> None:
    said = sheet("00226-lighthouse-keeper.toml", capsys)
    cased = [test for test in said["tests"] if test["sitting"] == "cased"]
    assert [test["result"] for test in cased] == ["fail", "pass"]
    assert said["marking_bar"] == 5 and said["marking_tested"] is False
    assert "The marking 5 bar was not tested." in said["not_tested"]

"""A whole job by keypad on the full screen, the same in plain lines, and what its sheet then says."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest

from bench.command import DONE
from ringwright import main
from tests.whole.hands import lines, press, session_text, without_times
from tests.whole.scripts import straight

MOST_BEFORE_PROPOSAL = 8
MOST_ANSWERS = 51
"""One of them is what the bar measures, on 1 Enter."""
MOST_PRESSES = 260


async def test_the_straight_job_by_keypad_alone_and_the_same_in_plain_lines(tmp_path: Path) -> None:
    """Only keys of a bare keypad, from the list of jobs to the sheet;
    plain lines then write the same file.
    """
    desk, pressed = await press(tmp_path / "screen", [straight()])
    assert set(pressed) <= set("0123456789.-/+*E")
    assert len(pressed) <= MOST_PRESSES
    assert desk.page == "sheet"
    assert desk.walk is not None and desk.walk.open is None
    lines(tmp_path / "plain", [straight()])
    by_screen, by_lines = session_text(tmp_path / "screen"), session_text(tmp_path / "plain")
    assert by_screen.count("[[entry]]") > MOST_ANSWERS
    assert without_times(by_screen) == without_times(by_lines)


def test_the_short_path_is_short(tmp_path: Path) -> None:
    """At most 8 answers before a ring is proposed, at most 51 in all (0 Enter starts the job and is none)."""
    desk, _ = lines(tmp_path, [straight()])
    assert desk.job is not None
    keyed = [answer.key for answer in desk.job.answers]
    assert keyed.index("ring") <= MOST_BEFORE_PROPOSAL
    assert len(keyed) <= MOST_ANSWERS


def test_the_sheet_says_what_was_measured_made_and_proved(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Figures worked out here by hand from the readings keyed, not by the program."""
    lines(tmp_path, [straight()])
    capsys.readouterr()
    assert main(["sheet", "1", "--json", "--folder", str(tmp_path)]) == DONE
    sheet = json.loads(capsys.readouterr().out)
    seat, glass = (36.42 + 36.44) / 2, (35.31 + 35.30) / 2
    gap = (seat - glass) / 2
    walls = [0.602, 0.605, 0.607, 0.604]
    wall = sum(walls) / 4
    assert sheet["measured"]["case_bore"]["mean_mm"] == pytest.approx(seat, abs=0.0005)
    assert sheet["measured"]["case_bore"]["ovality_mm"] == pytest.approx(0.02)
    assert sheet["measured"]["glass"]["mean_mm"] == pytest.approx(glass, abs=0.0005)
    assert sheet["measured"]["glass"]["n"] == 2
    assert sheet["made"]["wall_mm"] == walls
    assert sheet["made"]["squeeze_pct"] == pytest.approx(100 * (wall - gap) / wall, abs=0.01)
    assert sheet["made"]["height_mm"] == 1.21
    # 9 % of the wall: interference 0.09 gap / 0.91; bore = outside - 2 (gap + interference)
    bore = 36.43 - 2 * (gap + 0.09 * gap / 0.91)
    assert sheet["ring"]["outside_diameter_mm"] == pytest.approx(36.43)
    assert sheet["ring"]["bore_mm"] == pytest.approx(bore, abs=0.006)
    # height: (1.45 - 0.10) less the growth of the squeezed wall, down to 0.05
    squeeze = 1 - gap / ((36.43 - sheet["ring"]["bore_mm"]) / 2)
    assert sheet["ring"]["height_mm"] == pytest.approx(math.floor(1.35 * (1 - squeeze) / 0.05) * 0.05)
    assert sheet["finished"] is True and sheet["attempt"] == 1


def test_a_test_below_the_marking_never_claims_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Marked 5 bar, the built-in tester reaches 3: the sheet says so, as data and in words."""
    lines(tmp_path, [straight()])
    capsys.readouterr()
    main(["sheet", "1", "--json", "--folder", str(tmp_path)])
    sheet = json.loads(capsys.readouterr().out)
    assert sheet["marking_bar"] == 5
    assert [test["overpressure_bar"] for test in sheet["tests"]] == [3, 3]
    assert [test["sitting"] for test in sheet["tests"]] == ["empty", "cased"]
    assert all(test["result"] == "pass" and test["timed"] == "tester" for test in sheet["tests"])
    assert sheet["marking_tested"] is False
    assert "The marking 5 bar was not tested." in sheet["not_tested"]
    main(["sheet", "1", "--folder", str(tmp_path)])
    text = capsys.readouterr().out
    assert "The case is marked for 5 bar. No test of the finished watch reached that." in text
    assert "NOT FINISHED" not in text

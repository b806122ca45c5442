"""What others script: JSON keys, statuses, where the folder is, how plain lines begin and end."""

from __future__ import annotations

import io
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from bench.command import BAD_INPUT, COULD_NOT_WRITE, DONE, FOUND_SOMETHING, OUR_FAULT
from bench.desk.desk import Desk
from ringwright import main
from screens.plain import Plain
from tests.whole.hands import bench_in, lines
from tests.whole.lathe_judge import SAYS_TURNING
from tests.whole.scripts import straight

SHEET = {
    "job": (str,),
    "finished": (bool,),
    "attempt": (int,),
    "measured": (dict,),
    "ring": (dict,),
    "made": (dict,),
    "on_the_ring": (dict,),
    "fitting": (dict,),
    "tests": (list,),
    "marking_bar": (float, int, type(None)),
    "marking_tested": (bool,),
    "not_tested": (list,),
    "cautions": (list,),
    "attempts": (list,),
}
"""Keys of the sheet that others read, and what stands under them."""
WITHIN = {
    "measured": {"case_bore", "glass"},
    "ring": {"outside_diameter_mm", "bore_mm", "height_mm", "wall_mm", "chamfer_mm", "lower_chamfer_mm"},
    "on_the_ring": {"wall_mean_mm", "outside_on_bar_mm", "outside_final"},
    "made": {"wall_mm", "height_mm", "squeeze_pct", "squeeze_u_pct", "decision"},
}
DIAMETER = {"mean_mm", "u_mm", "ovality_mm", "n"}
TEST = {"sitting", "method", "overpressure_bar", "minutes", "timed", "temperature_c", "result", "leak"}
JOB = {"job", "file", "watch", "stage", "step", "waiting_for", "since", "attempt", "finished"}
PLACES = (
    *("paint", "bench", "glass_1", "lathe_hands", "lathe_eyes", "lathe_key", "tool_turning", "chamfer"),
    *("marking", "cased_pressure", "cased_result", ""),
)
"""Before these steps of the straight job the sheet and the list are looked at, and at its end."""


def run(capsys: pytest.CaptureFixture[str], *words: object) -> tuple[int, str, str]:
    """Status, standard output and standard error of a command."""
    capsys.readouterr()
    status = main([str(word) for word in words])
    said = capsys.readouterr()
    return status, said.out, said.err


def data(capsys: pytest.CaptureFixture[str], *words: object) -> Any:
    """What a command says as JSON, its status being 0 and its error output empty."""
    status, out, err = run(capsys, *words)
    assert (status, err) == (DONE, "")
    return json.loads(out)


@pytest.mark.parametrize("until", PLACES)
def test_every_key_of_sheet_and_jobs_is_there_at_every_place_of_a_job(
    until: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines(tmp_path, [straight(until=until)])
    sheet = data(capsys, "sheet", "1", "--json", "--folder", tmp_path)
    for key, kinds in SHEET.items():
        assert isinstance(sheet[key], kinds), key
    for key, names in WITHIN.items():
        assert names <= sheet[key].keys(), key
    assert all(sheet["measured"][name].keys() >= DIAMETER for name in ("case_bore", "glass"))
    assert all(test.keys() >= TEST for test in sheet["tests"])
    assert sheet["finished"] is (until == "")
    text = run(capsys, "sheet", "1", "--folder", tmp_path)[1]
    assert text.startswith("NOT FINISHED") is not sheet["finished"]
    (row,) = data(capsys, "jobs", "--json", "--folder", tmp_path)
    assert row.keys() >= JOB
    assert row["job"] == "1" and Path(row["file"]).is_file()
    assert row["finished"] is sheet["finished"] and row["attempt"] == 1
    assert row["stage"] in ("measure", "size", "cut", "verify")


def test_the_list_is_newest_first_and_says_what_is_waited_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for number, until in (("7", "lathe_key"), ("12", "bench"), ("9", "")):
        lines(tmp_path, [number, straight(until=until)])
    rows = data(capsys, "jobs", "--json", "--folder", tmp_path)
    assert [row["job"] for row in rows] == ["12", "9", "7"]
    assert [row["finished"] for row in rows] == [False, True, False]
    assert [row["step"] for row in rows] == ["bench", "", "lathe_key"]
    assert all(row["waiting_for"] for row in rows if not row["finished"])
    assert all(row["since"] for row in rows)


def test_the_list_does_not_say_how_to_turn(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Whoever reads the list has not answered the checks."""
    lines(tmp_path, [straight(until="drill")])
    (row,) = data(capsys, "jobs", "--json", "--folder", tmp_path)
    assert row["step"] == "drill" and row["waiting_for"] == "turning"
    status, out, _ = run(capsys, "jobs", "--folder", tmp_path)
    assert status == DONE and "turning" in out and not SAYS_TURNING.search(out)


def test_no_jobs_is_an_empty_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert data(capsys, "jobs", "--json", "--folder", tmp_path) == []
    assert not (tmp_path / "jobs").exists()


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (["sheet", "99"], BAD_INPUT),
        (["sheet", "nothing.toml"], BAD_INPUT),
        (["sheet"], BAD_INPUT),
        (["plan", "99"], BAD_INPUT),
        (["check", "nothing.toml"], BAD_INPUT),
        (["check"], BAD_INPUT),
        (["size", "--case-bore", "33.20"], BAD_INPUT),
        (["size", "--case-bore", "99", "--glass", "32.14"], BAD_INPUT),
        (["fit", "--case-bore", "33.20", "--glass", "32.14"], BAD_INPUT),
        (
            ["leak", "nothing.csv", "--volume", "2", "--volume-u", "1", "--overpressure", "2", "--step", "1"],
            BAD_INPUT,
        ),
        (["jobs", "--wrong"], BAD_INPUT),
        (["--plain", "99"], BAD_INPUT),
        (["99"], BAD_INPUT),
        (["--wrong"], BAD_INPUT),
        (["1", "2"], BAD_INPUT),
        (["--folder"], BAD_INPUT),
    ],
)
def test_bad_input_is_one_line_and_status_2(
    words: Sequence[str], status: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = [] if words == ["--folder"] else ["--folder", tmp_path]
    found, out, err = run(capsys, *words, *folder)
    assert (found, out) == (status, "")
    assert err.startswith("ringwright: ") and err.count("\n") == 1 and "Traceback" not in err


def test_check_says_1_only_when_it_found_something(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines(tmp_path, [straight(until="seat_depth")])
    path = next((tmp_path / "jobs").glob("*.toml"))
    whole = path.read_bytes()
    assert run(capsys, "check", path)[0] == DONE
    path.write_bytes(whole[:-20])
    assert run(capsys, "check", path)[0] == DONE, "an unfinished last answer is set aside at the next opening"
    path.write_bytes(whole.replace(b"36.42", b"36.52"))
    status, out, err = run(capsys, "check", path)
    assert status == FOUND_SOMETHING and "case_bore_1" in out and err == ""
    assert path.read_bytes() == whole.replace(b"36.42", b"36.52")


def test_what_cannot_be_written_is_status_3(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lines(tmp_path, [straight(until="seat_depth")])
    path = next((tmp_path / "jobs").glob("*.toml"))
    status, _, err = run(capsys, "sheet", path, "--pdf", tmp_path / "missing" / "sheet.pdf")
    assert status == COULD_NOT_WRITE and err.count("\n") == 1


def test_a_fault_of_ours_is_status_4(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*_: object) -> int:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("bench.commands.jobs.listed", broken)
    status, out, err = run(capsys, "jobs")
    assert (status, out) == (OUR_FAULT, "") and err.count("\n") == 1 and "Traceback" not in err


def test_the_folder_stands_before_or_after_and_beats_the_environment(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    lines(one, ["4", straight(until="hold")])
    lines(two, ["5", straight(until="hold")])
    monkeypatch.setenv("RINGWRIGHT_HOME", str(one))

    def numbers(*words: object) -> list[str]:
        return [row["job"] for row in data(capsys, *words)]

    assert numbers("jobs", "--json") == ["4"]
    assert numbers("--folder", two, "jobs", "--json") == ["5"]
    assert numbers("jobs", "--folder", two, "--json") == ["5"]
    assert numbers("jobs", f"--folder={two}", "--json") == ["5"]


def plain(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], text: str, *words: object
) -> tuple[int, list[str], str]:
    """`ringwright --plain` with some input: status, lines said, errors."""
    monkeypatch.setattr(sys, "stdin", io.StringIO(text))
    status, out, err = run(capsys, "--plain", *words)
    return status, out.splitlines(), err


def test_plain_lines_begin_with_the_job_and_end_with_where_it_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    status, said, err = plain(monkeypatch, capsys, "0\n1\n1\n1\n\n364\n3642\n", "--folder", tmp_path)
    path = next((tmp_path / "jobs").glob("*.toml"))
    assert (status, err) == (DONE, "")
    assert said[0].startswith("[job]")
    assert said[-1] == f"saved: {path}"
    prompt = "[case_bore_1] Glass seat, inside, at 12 o'clock (mm, __.__):"
    assert said.count(prompt) == 3, "asked, again after an empty line, again after a refusal"
    assert any(line.startswith("! ") for line in said)
    assert "  1 none - none, or made after about 1980" in said
    again, said, _ = plain(monkeypatch, capsys, "", "1", "--folder", tmp_path)
    assert again == DONE and said[-1] == f"saved: {path}"
    assert any(line.startswith("[case_bore_2]") for line in said)


def test_plain_lines_without_any_input(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    status, said, err = plain(monkeypatch, capsys, "", "--folder", tmp_path)
    assert (status, err) == (DONE, "") and len(said) == 1 and said[0].startswith("[job]")


def test_plain_lines_at_a_terminal_can_pass_a_check(tmp_path: Path) -> None:
    """With a terminal the rule of one second holds: too quick is refused, two seconds later it counts."""
    lines(tmp_path, [straight(until="lathe_eyes")])
    moment = [0.0]
    out = io.StringIO()
    seen = Plain(Desk(hasty=False, bounce_ms=0), bench_in(tmp_path), out=out, now=lambda: moment[0])
    seen.start(str(next((tmp_path / "jobs").glob("*.toml"))))

    def keyed() -> Any:
        yield "0\n"
        moment[0] += 2.0
        yield "0\n"

    seen.run(keyed())
    said = out.getvalue()
    assert "! too quick" in said
    assert "Eye protection: where is it?" in said.split("! too quick")[1]

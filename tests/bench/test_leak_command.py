"""The leak command from the outside: words in, lines and status out."""

from __future__ import annotations

import argparse
import json
import math
from pathlib import Path

import pytest

from bench.command import Parser, Refused, report
from bench.commands import leak

OPTIONS = ("--volume", "2.0", "--volume-u", "0.3", "--overpressure", "2", "--step", "0.1")


def command(*words: str) -> int:
    """Run it as the program does: bad words and bad files are one line and a status."""
    parser: argparse.ArgumentParser = Parser(prog="ringwright")
    leak.add(parser.add_subparsers(required=True))
    try:
        arguments = parser.parse_args(["leak", *words])
    except Refused as refused:
        print(f"refused: {refused}")
        return refused.status
    return report(arguments.run, arguments)


def series(rate_ug_min: float, minutes: int = 10) -> str:
    """The check series: V 2 cm3, 5 um/bar at 2 bar, every 30 s, rounded to 0.1."""
    lines = ["time_s,signal"]
    for i in range(2 * minutes + 1):
        fall = rate_ug_min * 30.0 * i / 60.0 / (2.0 * 1188.4 * 2.0)
        lines.append(f"{30 * i},{10.0 * math.exp(-fall):.1f}")
    return "\n".join(lines) + "\n"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "readings.csv"
    path.write_text(series(20.0))
    return path


@pytest.mark.parametrize(
    ("rate", "read", "decision"),
    [(0.0, 0.0, "PASS"), (20.0, 20.8, "PASS"), (45.0, 46.2, "UNDECIDED"), (120.0, 118.4, "FAIL")],
)
def test_json_of_the_check_series(
    file: Path, capsys: pytest.CaptureFixture[str], rate: float, read: float, decision: str
) -> None:
    file.write_text(series(rate))
    assert command(str(file), *OPTIONS, "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert list(told) == ["json_format", "leak"]
    found = told["leak"]
    assert list(found) == [
        "rate_ug_min", "low_ug_min", "high_ug_min", "law", "decision", "hold_needed_s", "settled", "reason",
        "kind",
    ]  # fmt: skip
    assert found["rate_ug_min"] == pytest.approx(read, abs=0.1)
    assert (found["decision"], found["law"], found["settled"]) == (decision, "fixed", True)
    assert found["hold_needed_s"] == 600.0
    assert found["low_ug_min"] < found["rate_ug_min"] < found["high_ug_min"]


def test_not_judged_is_still_status_0_with_every_key(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file.write_text("time_s,signal\n" + "".join(f"{60 * i},0.0\n" for i in range(11)))
    assert command(str(file), *OPTIONS, "--json") == 0
    found = json.loads(capsys.readouterr().out)["leak"]
    assert found["decision"] == "NOT_JUDGED" and found["rate_ug_min"] is None
    assert len(found) == 9 and found["kind"] == "no_deflection"


def test_text_has_result_pressure_and_plot(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command(str(file), *OPTIONS) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("PASS: leak 20.8")
    assert "(95 %, at 2 bar overpressure; limit 50)" in " ".join(lines)
    assert max(map(len, lines)) <= 78
    assert "Pressure not raised above 2 bar." in lines
    drawn = [line for line in lines if "|" in line]
    assert len(drawn) == 13 and max(map(len, drawn)) <= 78
    ink = "".join(line.split("|")[1] for line in drawn)
    assert ink.count("o") >= 15 and "-" in ink and "x" in ink


def test_the_fit_leaves_the_limit_line_in_the_plot(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With a tight watch the last column has the reading at the top and the limit at the foot."""
    file.write_text(series(0.0))
    assert command(str(file), *OPTIONS) == 0
    drawn = [line for line in capsys.readouterr().out.splitlines() if "|" in line]
    assert drawn[0].endswith("o") and drawn[-1].endswith("x")


def test_a_hold_fixed_before_leaves_later_readings_out(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file.write_text(series(120.0, minutes=40))
    assert command(str(file), *OPTIONS, "--hold", "60", "--json") == 0
    assert json.loads(capsys.readouterr().out)["leak"]["decision"] == "UNDECIDED"
    assert command(str(file), *OPTIONS, "--hold", "10", "--json") == 0
    assert json.loads(capsys.readouterr().out)["leak"]["hold_needed_s"] == 600.0


def test_creep_after_venting_takes_a_pass_away(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command(str(file), *OPTIONS, "--after-venting", "1.5", "--json") == 0
    assert json.loads(capsys.readouterr().out)["leak"]["decision"] == "UNDECIDED"
    assert command(str(file), *OPTIONS, "--after-venting", "-0.4", "--json") == 0
    assert json.loads(capsys.readouterr().out)["leak"]["decision"] == "PASS"


def test_other_ways_of_writing_a_csv(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Byte-order mark, other column order, extra column, decimal commas: the same result."""
    assert command(str(file), *OPTIONS, "--json") == 0
    plain = capsys.readouterr().out
    rows = [line.split(",") for line in series(20.0).splitlines()]
    turned = "\ufeff" + "\r\n".join(
        ";".join([b.replace(".", ","), "x", a.replace(".", ",")]) for a, b in rows
    )
    file.write_bytes((turned + "\r\n\r\n").encode())
    assert command(str(file), *OPTIONS, "--json") == 0
    assert capsys.readouterr().out == plain


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "line 1"),
        ("seconds,signal\n0,1\n", "line 1: the header needs one column time_s"),
        ("time_s,signal\n0,10\n30,ten\n", "line 3: 'ten' is not a number"),
        ("time_s,signal\n0,10\n30,nan\n", "line 3"),
        ("time_s,signal\n0,10\n30,1e999\n", "line 3"),
        ("time_s,signal\n0,10\n30,1_0\n", "line 3"),
        ("time_s,signal\n0,10\n\n30\n", "line 4: 1 columns, 2 expected"),
        ("time_s,signal\n0,10\n30,10\n30,10\n", "line 4: time 30 s after 30 s; times must rise"),
        ("time_s,signal\n0,10\n30,10\n", "at least 5 needed"),
        ('time_s,signal\n0,"10\n30,10\n', "line"),
    ],
)
def test_a_bad_file_is_one_line_and_status_2(
    file: Path, capsys: pytest.CaptureFixture[str], text: str, said: str
) -> None:
    file.write_text(text)
    assert command(str(file), *OPTIONS) == 2
    told = capsys.readouterr()
    assert told.out == "" and told.err.count("\n") == 1
    assert said in told.err


def test_bytes_that_are_no_text_and_files_that_are_not_there(
    file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file.write_bytes(b"time_s,signal\n0,10\n\xff,3\n")
    assert command(str(file), *OPTIONS) == 2
    assert "line 3: not UTF-8" in capsys.readouterr().err
    for missing in (file.parent, file.parent / "none.csv"):
        assert command(str(missing), *OPTIONS) == 2
        assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.parametrize(
    ("option", "value"),
    [("--volume", "0"), ("--volume", "nan"), ("--volume-u", "2.5"), ("--overpressure", "-1"), ("--step", "0"),
     ("--temperature", "80"), ("--volume", "2 cm3"), ("--hold", "1")],
)  # fmt: skip
def test_a_bad_option_is_refused_with_its_range(
    file: Path, capsys: pytest.CaptureFixture[str], option: str, value: str
) -> None:
    assert command(str(file), *OPTIONS, f"{option}={value}") == 2
    told = capsys.readouterr()
    assert (told.out + told.err).count("\n") == 1
    assert option[2:].replace("-u", "") in told.out + told.err


def test_a_missing_option_is_named(file: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert command(str(file), "--volume", "2") == 2
    assert "--volume-u" in capsys.readouterr().out

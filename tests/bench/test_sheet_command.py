"""`ringwright sheet`: PDF, slip, shop copy, refusals; and the time at the bench."""

from __future__ import annotations

import json
import re
import zlib
from pathlib import Path

import pytest

from bench.command import BAD_INPUT, COULD_NOT_WRITE, DONE
from bench.file.entry import Entry
from bench.sheet.bench_time import bench_minutes
from ringwright import main
from tests.whole.hands import Clock, lines
from tests.whole.scripts import straight

POINTS_IN_MM = 72 / 25.4


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with one finished job."""
    made = tmp_path_factory.mktemp("bench")
    lines(made, [straight()], clock=Clock(step_s=700.0))
    return made


def boxes(path: Path) -> list[tuple[float, float]]:
    """Width and height of the pages of a PDF, mm."""
    found = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", path.read_bytes())
    return [(float(wide) / POINTS_IN_MM, float(high) / POINTS_IN_MM) for wide, high in found]


def strokes(path: Path) -> int:
    """How many lines and areas are drawn in a PDF."""
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", path.read_bytes(), re.S)
    drawn = 0
    for stream in streams:
        try:
            drawn += len(re.findall(rb" l S|\nS\n| B\n", zlib.decompress(stream)))
        except zlib.error:
            continue
    return drawn


def test_sheet_and_slip_are_written_at_once(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    sheet, slip = tmp_path / "sheet.pdf", tmp_path / "slip.pdf"
    words = ["sheet", "1", "--pdf", str(sheet), "--slip", str(slip), "--folder", str(folder)]
    assert main(words) == DONE
    assert capsys.readouterr().out.splitlines() == [str(sheet), str(slip)]
    assert boxes(sheet)[0] == pytest.approx((148, 210), abs=0.1)
    assert boxes(slip) == [pytest.approx((60, 90), abs=0.1)]
    assert strokes(sheet) >= 10 and strokes(slip) >= 10


def test_the_shop_copy_adds_the_time_at_the_bench(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "1", "--shop", "--folder", str(folder)]) == DONE
    assert "Time at the bench: " in capsys.readouterr().out
    assert main(["sheet", "1", "--folder", str(folder)]) == DONE
    assert "Time at the bench" not in capsys.readouterr().out


def test_shop_name_and_tester_come_from_the_shop_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lines(tmp_path, [straight()])
    (tmp_path / "shop.toml").write_text(
        'shop_name = "At the landing"\ntester_number = "T 7"\n', encoding="utf-8"
    )
    capsys.readouterr()
    assert main(["sheet", "1", "--json", "--folder", str(tmp_path)]) == DONE
    sheet = json.loads(capsys.readouterr().out)
    assert (sheet["shop_name"], sheet["tester_number"]) == ("At the landing", "T 7")
    assert main(["sheet", "1", "--folder", str(tmp_path)]) == DONE
    text = capsys.readouterr().out
    assert "At the landing" in text and "Number of the tester: T 7." in text


@pytest.mark.parametrize(
    ("words", "status"),
    [
        (["9"], BAD_INPUT),
        (["1", "--json", "--pdf", "x.pdf"], BAD_INPUT),
        (["1", "--pdf", "{dir}/same.pdf", "--slip", "{dir}/same.pdf"], BAD_INPUT),
        (["1", "--pdf", "{dir}/missing/sheet.pdf"], COULD_NOT_WRITE),
        (["1", "--slip", "{dir}"], COULD_NOT_WRITE),
        (["1", "--pdf", "{dir}/letter.txt"], COULD_NOT_WRITE),
    ],
)
def test_refusals_are_one_line(
    words: list[str], status: int, folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "letter.txt").write_text("dear customer", encoding="utf-8")
    given = [word.replace("{dir}", str(tmp_path)) for word in words]
    assert main(["sheet", *given, "--folder", str(folder)]) == status
    said = capsys.readouterr()
    assert said.err.startswith("ringwright: ") and said.err.count("\n") == 1
    assert (tmp_path / "letter.txt").read_text(encoding="utf-8") == "dear customer"


def test_text_the_font_lacks_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "shop.toml").write_text('shop_name = "\u4e00 lane"\n', encoding="utf-8")
    lines(tmp_path, [straight(until="tool_turning")])
    capsys.readouterr()
    target = tmp_path / "sheet.pdf"
    assert main(["sheet", "1", "--pdf", str(target), "--folder", str(tmp_path)]) == DONE
    assert "the font lacks U+4E00: printed as ?" in capsys.readouterr().out


def entry(n: int, at: str, kind: str = "answer") -> Entry:
    """An entry made at a moment."""
    return Entry(n=n, at=at, kind=kind, key="wall_1", value="0.6 mm", of=1 if kind == "undo" else None)


def test_time_at_the_bench_leaves_out_what_was_parked() -> None:
    """20 min, then 31 parked, then 30; a clock set back counts nothing,
    a time that is none is passed over.
    """
    at = "2026-03-02T{}+01:00"
    made = [
        entry(1, at.format("09:00:00")),
        entry(2, at.format("09:20:00"), "undo"),
        entry(3, at.format("09:51:00")),
        entry(4, "no time"),
        entry(5, at.format("10:21:00")),
        entry(6, at.format("09:00:00")),
        entry(7, "2026-03-02T08:10:00+00:00"),
    ]
    assert bench_minutes(made) == pytest.approx((20 + 30 + 10, 31))
    assert bench_minutes([]) == (0.0, 0.0)

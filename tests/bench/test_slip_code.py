"""The slip for the bag: its code, read back by a decoder of its own, opens the job; the page is true."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import segno
from pypdf import PdfReader

from bench.command import BAD_INPUT, COULD_NOT_WRITE, DONE
from bench.desk.desk import Desk
from bench.desk.effects import Effect, Open
from bench.desk.token import Token
from bench.desk.update import update
from bench.file.slug import own_number
from ringwright import main
from tests.independent.qr_read import MM, places, printed, syndromes, text_of

SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
FERRY = SAMPLES / "00208-ferry-captain.toml"
MODULE_MM = 0.5


def slip(tmp_path: Path, *words: object) -> Path:
    """The slip that a command writes."""
    path = tmp_path / "slip.pdf"
    assert main(["sheet", *map(str, words), "--slip", str(path)]) == DONE
    return path


def scanned(names: tuple[str, ...], text: str) -> Any:
    """What the list of jobs does when a scanner types, a key every two milliseconds."""
    desk, at = Desk(names=names), 100.0
    effects: tuple[Effect, ...] = ()
    for key in (*text, "enter"):
        at += 0.002
        desk, effects = update(desk, Token("key", key, at=at))
    return effects


@pytest.mark.parametrize("sample", sorted(SAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_the_code_opens_the_job(sample: Path, tmp_path: Path) -> None:
    text = text_of(printed(slip(tmp_path, sample), MODULE_MM))
    assert text == str(int(sample.stem[:5]))
    names = tuple(sorted((one.name for one in SAMPLES.glob("*.toml")), reverse=True))
    assert scanned(names, text)[0] == Open(sample.name)


def test_a_job_named_with_letters_has_a_number_of_its_own(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "jobs").mkdir()
    names = ("00208-ferry.toml", "lantern.toml", "9.toml")
    for name in names:
        (tmp_path / "jobs" / name).write_bytes(FERRY.read_bytes())
    path = slip(tmp_path, tmp_path / "jobs" / "lantern.toml")
    text = text_of(printed(path, MODULE_MM))
    assert len(text) == 9 and text == str(own_number("lantern.toml"))
    assert text in PdfReader(path).pages[0].extract_text()
    assert scanned(names, text)[0] == Open("lantern.toml") and scanned(names, "9")[0] == Open("9.toml")
    capsys.readouterr()
    assert main(["sheet", text, "--folder", str(tmp_path)]) == DONE
    assert "job 208" in capsys.readouterr().out


@pytest.mark.parametrize(("wide", "high"), [(60, 90), (62, 29), (29, 90), (101.6, 50.8)])
def test_a_label_is_a_page_of_its_true_size_with_every_sentence(
    wide: float, high: float, tmp_path: Path
) -> None:
    path = slip(tmp_path, FERRY, "--size", f"{wide}x{high}")
    (page,) = PdfReader(path).pages
    assert (float(page.mediabox.width) / MM, float(page.mediabox.height) / MM) == pytest.approx(
        (wide, high), abs=0.01
    )
    words = " ".join(page.extract_text().split())
    for said in (
        "208",
        "Handed back 3 March 2026, 10:36",
        "held at 3 bar",
        "marked for 3 bar",
        "Test again by 3 March",
    ):
        assert said in words, said
    assert text_of(printed(path, MODULE_MM)) == "208"
    side, starts = 29 * MODULE_MM, []
    page.extract_text(
        visitor_text=lambda text, _cm, tm, *_: starts.append((text, tm[4] / MM, high - tm[5] / MM))
    )
    left = 0.0 if wide < 45 else wide - side
    beside = [text for text, x, y in starts if text.strip() and y < side and left <= x < left + side]
    assert not beside


@pytest.mark.parametrize(
    ("size", "status", "said"),
    [
        ("25x20", COULD_NOT_WRITE, "does not fit 25 x 20 mm"),
        ("62", BAD_INPUT, "--size 62: give width x height in mm, such as 62x40"),
        ("24x90", BAD_INPUT, "25 to 210 wide, 20 to 297 high"),
        ("62x298", BAD_INPUT, "allowed"),
    ],
)
def test_a_size_that_will_not_do_is_refused(
    size: str, status: int, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "slip.pdf"
    assert main(["sheet", str(FERRY), "--slip", str(path), "--size", size]) == status
    assert said in capsys.readouterr().err and not path.exists()


def test_a_size_without_a_slip_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", str(FERRY), "--size", "62x40"]) == BAD_INPUT
    assert "give --slip too" in capsys.readouterr().err


@pytest.mark.parametrize("level", "LMQH")
def test_the_decoder_reads_every_mask_level_and_mode_and_refuses_a_module_turned(level: str) -> None:
    for mask in range(8):
        for text, mode in (("90210", "numeric"), ("Bag 7", "byte")):
            made = segno.make(text, version=1, error=level, mask=mask, mode=mode, boost_error=False)
            matrix = [list(row) for row in made.matrix]
            assert text_of(matrix) == text
    for row, column in ((0, 0), (6, 10), (8, 2), (13, 8), *list(places())[::60]):
        matrix[row][column] ^= 1
        with pytest.raises(ValueError, match=r"broken|light|agree"):
            text_of(matrix)
        matrix[row][column] ^= 1


def test_the_decoder_agrees_with_the_worked_example_of_the_standard() -> None:
    """01234567 as 1-M, ISO/IEC 18004 annex I, codewords from memory."""
    data = "10 20 0C 56 61 80 EC 11 EC 11 EC 11 EC 11 EC 11"
    correction = "A5 24 D4 C1 ED 36 C7 87 2C 55"
    assert not any(syndromes(list(bytes.fromhex(data + correction)), 10))

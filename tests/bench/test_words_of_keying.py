"""Why a number or a key is not taken, to the letter, and how far a line may run; and a file that grows."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.desk import gauges
from bench.desk.desk import Desk
from bench.desk.pace import Pace
from bench.desk.typed import AnswerLine, type_key
from bench.file import listing
from bench.job.mask import Mask
from bench.job.number import Refusal, TypedNumber, read_number

BORE = Mask(2, 2, "mm", 5.0, 80.0)
WALL = Mask(1, 3, "mm", 0.0, 3.0)
INCH = Mask(1, 4, "in", 0.2, 3.0)
WHOLE = Mask(3, 0, "rpm", 10.0, 500.0)
NOUGHT = replace(Mask(2, 1, "mm", 0.0, 60.0), nought=True)


@pytest.mark.parametrize(
    ("text", "mask", "said"),
    [
        ("36x42", BORE, "not understood as one number: key __.__ mm"),
        ("-36.42", BORE, "below zero: set the gauge to zero and measure again"),
        ("36.42 mm", WHOLE, "mm typed where rpm is asked"),
        ("1.434 in", BORE, "inch typed, but this shop works in mm: set the gauge to mm and measure again"),
        ("36.4", BORE, "36.4? key 36.40 if that is meant"),
        ("4.4", BORE, "2 decimals are asked: key __.__ mm"),
        ("36.423", BORE, "2 decimals are asked: key __.__ mm"),
        (".42", BORE, "2 decimals are asked: key __.__ mm"),
        ("36.", BORE, "2 decimals are asked: key __.__ mm"),
        ("136.42", BORE, "too large: key __.__ mm"),
        ("364", BORE, "3 digits where 4 are asked: key __.__ mm, or the point as well"),
        ("3", BORE, "1 digit where 4 are asked: key __.__ mm, or the point as well"),
        ("12.5", WHOLE, "a whole number of at most 3 digits: ___ rpm"),
        ("1234", WHOLE, "a whole number of at most 3 digits: ___ rpm"),
        ("9", WHOLE, "9 rpm cannot be: below 10 rpm; measure again"),
        ("501", WHOLE, "501 rpm cannot be: above 500 rpm; measure again"),
        ("04.99", BORE, "4.99 mm cannot be: below 5 mm; measure again"),
        ("80.01", BORE, "80.01 mm cannot be: above 80 mm; measure again"),
        ("36.4 mm", INCH, "a reading in mm needs a point and 2 to 3 decimals"),
        ("36.4234 mm", INCH, "a reading in mm needs a point and 2 to 3 decimals"),
        ("1.43 in", INCH, "a reading in inch needs a point and 3 to 5 decimals"),
        ("0.1999", INCH, "0.1999 in cannot be: below 0.2 in; measure again"),
        ("2.54 mm", INCH, "2.54 mm cannot be: below 0.2 in; measure again"),
        ("0", BORE, "1 digit where 4 are asked: key __.__ mm, or the point as well"),
    ],
)
def test_why_a_number_is_refused(text: str, mask: Mask, said: str) -> None:
    assert read_number(text, mask) == Refusal(said)


@pytest.mark.parametrize(
    ("text", "mask", "inch", "value", "as_text", "converted"),
    [
        ("3642", BORE, False, 36.42, "36.42 mm", ""),
        ("5.00", BORE, False, 5.0, "5.00 mm", ""),
        ("8000", BORE, False, 80.0, "80.00 mm", ""),
        ("\x02+036,42 mm\r\n", BORE, False, 36.42, "036.42 mm".lstrip("0"), ""),
        ("-0.000", WALL, False, 0.0, "0.000 mm", ""),
        ("010", WHOLE, False, 10.0, "10 rpm", ""),
        ("500", WHOLE, False, 500.0, "500 rpm", ""),
        ("1.434 in", BORE, True, 36.4236, "1.434 in", "1.434 in = 36.424 mm"),
        ('1.43400"', BORE, True, 36.4236, "1.43400 in", "1.43400 in = 36.424 mm"),
        ("36.42 mm", INCH, False, 36.42 / 25.4, "36.42 mm", "36.42 mm = 1.4339 in"),
        ("14339", INCH, False, 1.4339, "1.4339 in", ""),
        ("0", NOUGHT, False, 0.0, "0.0 mm", ""),
    ],
)
def test_what_a_number_is_taken_as(
    text: str, mask: Mask, inch: bool, value: float, as_text: str, converted: str
) -> None:
    found = read_number(text, mask, inch=inch)
    assert isinstance(found, TypedNumber) and found.value == pytest.approx(value)
    assert found == TypedNumber(as_text, found.value, converted)


def test_masks() -> None:
    laid = {
        "": "__.__",
        "3": "3_.__",
        "36": "36.__",
        "364": "36.4_",
        "3642": "36.42",
        "36421": "36421",
        "7.5": "7.5_",
        "7.": "7.__",
    }
    assert {text: BORE.over(text) for text in laid} == laid
    assert (WHOLE.shown, WHOLE.over("12"), BORE.over("+3"), BORE.pointed("364"), BORE.pointed("36.4")) == (
        "___", "12", "+3", "364", "36.4",
    )  # fmt: skip
    inch = BORE.in_inch()
    assert (inch.before, inch.decimals, inch.unit) == (1, 4, "in") and BORE.in_inch(3).decimals == 3
    assert (inch.low, inch.high) == pytest.approx((5.0 / 25.4, 80.0 / 25.4))


@pytest.mark.parametrize(
    ("keys", "mask", "void"),
    [
        (["navigation"], BORE, "NumLock is off: press NumLock, then key it again"),
        (["refused:why"], BORE, "why"),
        (["unknown"], BORE, "a key that is not a digit; if it was one, NumLock is off"),
        (["char:a"], None, "key the number of a choice, not a"),
        (["1", "2"], None, "two digits where one is asked"),
        (["3", ".", "."], BORE, "a second point"),
        (["3", "."], WHOLE, "no point here: whole numbers only"),
        (["char:&"], BORE, "& is a digit key of the French keyboard layout: hold Shift or use the keypad"),
        (["char:%"], BORE, "% does not belong in a number"),
        (["3", "char:+"], BORE, "+ does not belong in a number"),
        (["char:m"], BORE, "m does not belong in a number"),
        (["3", "char:m", "char:n"], BORE, "n does not belong in a number"),
        (["3", "6", "4", "2", "1"], BORE, "too long: __.__ mm"),
        (["3", "6", ".", "4", "2", "1"], BORE, "too many decimals: __.__ mm"),
        (["1", "2", "3", "4"], WHOLE, "too long: ___ rpm"),
    ],
)
def test_why_a_line_is_thrown_away(keys: list[str], mask: Mask | None, void: str) -> None:
    line = AnswerLine()
    for key in keys:
        assert not line.void
        line = type_key(line, key, mask=mask)
    assert (line.text, line.void) == ("", void)
    assert type_key(line, "5", mask=mask) == line and type_key(line, "back", mask=mask) == AnswerLine()


def test_what_a_line_takes() -> None:
    def typed(text: str, **more: Any) -> AnswerLine:
        line = AnswerLine()
        for letter in text:
            line = type_key(line, letter if letter in "0123456789." else f"char:{letter}", **more)
        return line

    taken = ["+36.42 mm", "-3.4", "000003642", "36.42mm", " 3"]
    assert [typed(text, mask=BORE).text for text in taken] == taken
    assert typed("1.43400 in", mask=BORE, inch=True).text == "1.43400 in"
    assert typed("1.434001", mask=BORE, inch=True).void == "too many decimals: __.__ mm"
    assert typed("36.423", mask=BORE, others=(Mask(2, 3),)).text == "36.423"
    assert (
        typed("36.42", mask=INCH).text == "36.42" and typed("136.42", mask=INCH).void == "too long: _.____ in"
    )
    assert (
        typed("123", most=3).text == "123"
        and typed("1234", most=3).void == "too long: no entry has such a number"
    )
    assert type_key(AnswerLine("36"), "back", mask=BORE) == AnswerLine("3")
    assert type_key(AnswerLine("3"), "paste:4", mask=BORE).void == "a paste into an answer begun by hand"
    assert type_key(AnswerLine(), "paste: 36,42 ", mask=BORE).text == "36.42"
    for quiet in ("enter", "previous", "next", "list", "", "tab", "arrow:up"):
        assert type_key(AnswerLine("36"), quiet, mask=BORE) == AnswerLine("36")


@pytest.mark.parametrize(
    ("key", "at", "unseen"),
    [("char:-", 4.99, True), ("char:+", 4.99, True), ("char:-", 5.0, False), ("3", 4.99, False)],
)
def test_a_sign_held_back_while_the_question_was_painted(key: str, at: float, unseen: bool) -> None:
    after, _ = gauges.built(Desk(painted_at=5.0), key, at, lambda desk, text: (desk, ()))
    assert after.pace.unseen is unseen and after.pace.last_at == at


def test_two_streams_in_one_answer_void_it() -> None:
    held = Desk(line=AnswerLine("12"), pace=Pace(last_at=5.0, held=True), message="old")

    def act(desk: Desk, text: str) -> Any:
        return replace(desk, line=AnswerLine(desk.line.text + text)), ()

    jammed, _ = gauges.built(held, "3", 5.09, act)
    assert jammed.line.void == "two streams of keys met in this answer" and jammed.pace.jammed
    assert jammed.message.startswith(
        "Not taken: two streams of keys met in this answer. Nothing is taken until"
    )
    fresh, _ = gauges.built(held, "3", 5.11, act)
    assert (fresh.line.text, fresh.message, fresh.pace.jammed) == ("3", "", False)
    still, _ = gauges.built(replace(held, pace=Pace(last_at=5.0, jammed=True)), "3", 5.3, act)
    assert still.pace.jammed and still.line.text == "12" and still.message == gauges.WAIT
    quiet, _ = gauges.watched(replace(held, pace=Pace(last_at=5.0, jammed=True)), "3", 5.5, act)
    assert (quiet.line.text, quiet.pace.jammed) == ("3", False)
    for at, text in ((5.49, "12"), (5.51, "3")):
        assert (
            gauges.watched(replace(held, pace=Pace(last_at=5.0, jammed=True)), "3", at, act)[0].line.text
            == text
        )
    cleared, _ = gauges.taken_back(held, "back", 6.0, act)
    assert (cleared.line.text, cleared.pace.held, cleared.message) == ("", False, "")


def test_a_file_that_grows_while_it_is_read_is_not_kept_in_the_index(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "00001-a.toml"
    path.write_bytes(b"12345")
    index = listing.Index(tmp_path / "index")

    def say(data: bytes) -> tuple[str, str, dict[str, str]]:
        return "fine", str(len(data)), {}

    monkeypatch.setattr(listing, "read_file", lambda *_: b"123456")
    assert listing.rows([path], summarise=say, index=index)[0].message == "6"
    monkeypatch.undo()
    found = path.stat()
    assert index.get(path, size=5, mtime_ns=found.st_mtime_ns) is None
    assert listing.rows([path], summarise=say, index=index)[0].message == "5"
    row = index.get(path, size=5, mtime_ns=found.st_mtime_ns)
    assert row is not None and (row.message, row.state, row.number) == ("5", "fine", 1)
    assert index.get(path, size=6, mtime_ns=found.st_mtime_ns) is None
    assert index.get(path, size=5, mtime_ns=found.st_mtime_ns + 1) is None

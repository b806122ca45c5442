"""Typed numbers: what is understood, what is refused, and what a single slip of the hand can do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest

from bench.desk.suspicion import suspect
from bench.desk.typed import AnswerLine, type_key
from bench.job.mask import Mask
from bench.job.number import Refusal, TypedNumber, read_number

DIAMETER = Mask(2, 2, "mm", 4.0, 80.0)
SPEED = Mask(4, 0, "rpm", 1.0, 9999.0)


def read(text: str, mask: Mask = DIAMETER, *, inch: bool = False) -> TypedNumber | Refusal:
    """A number in the range of a glass, or of a speed."""
    return read_number(text, mask, inch=inch)


UNDERSTOOD = [
    ("36.42", 36.42, "36.42 mm"),
    ("3642", 36.42, "36.42 mm"),
    ("36,42", 36.42, "36.42 mm"),
    ("07.50", 7.5, "7.50 mm"),
    ("7.50", 7.5, "7.50 mm"),
    ("0750", 7.5, "7.50 mm"),
    ("+36.42", 36.42, "36.42 mm"),
    ("+0036.42", 36.42, "36.42 mm"),
    ("0036.42mm", 36.42, "36.42 mm"),
    ("36.42 mm", 36.42, "36.42 mm"),
    ("36.42MM", 36.42, "36.42 mm"),
    ("+ 36.42 mm", 36.42, "36.42 mm"),
    (" 36.42\r", 36.42, "36.42 mm"),
    ("36.42\r\n", 36.42, "36.42 mm"),
    ("\x0236.42\x03", 36.42, "36.42 mm"),
    ("\u00a036,42\u00a0mm", 36.42, "36.42 mm"),
]
REFUSED = [
    "",
    " ",
    ".",
    "36",
    "364",
    "36.4",
    "36.",
    ".42",
    "36.420",
    "36420",
    "036420",
    "136.42",
    "-36.42",
    "\u221236.42",
    "3.642e1",
    "nan",
    "inf",
    "36.42 36.44",
    "36.4236.44",
    "1.234,5",
    "1,234.5",
    "36.42kg",
    "36.42 in",
    '1.434"',
    "mm",
    "\u0663\u0666.\u0664\u0662",  # Arabic-Indic digits
    "\uff13\uff16.\uff14\uff12",  # full-width digits
    "36 42",
    "36_42",
    "0x24",
    "3.99",
    "80.01",
]


@pytest.mark.parametrize(("text", "value", "shown"), UNDERSTOOD)
def test_understood(text: str, value: float, shown: str) -> None:
    assert read(text) == TypedNumber(shown, value)


@pytest.mark.parametrize("text", REFUSED)
def test_refused_in_one_line_of_plain_words(text: str) -> None:
    refused = read(text)
    assert isinstance(refused, Refusal)
    assert 10 < len(refused.why) < 110 and "\n" not in refused.why


@pytest.mark.parametrize(
    ("text", "length_mm"),
    [("1.161in", "29.4894"), ('1.161"', "29.4894"), ("1.1610 in", "29.4894"), ("+01.2345IN", "31.3563")],
)
def test_inch_is_converted_exactly_and_said(text: str, length_mm: str) -> None:
    """25.4 mm to the inch, exactly (international yard and pound agreement, 1959)."""
    found = read(text, inch=True)
    assert isinstance(found, TypedNumber)
    assert found.value == float(Decimal(length_mm))
    assert found.converted.endswith(f"= {Decimal(length_mm):.3f} mm")
    assert found.value_text.endswith(" in")


def test_inch_only_where_the_shop_works_in_inch() -> None:
    refused = read("1.161in")
    assert isinstance(refused, Refusal) and "inch" in refused.why
    assert isinstance(read("1161in", inch=True), Refusal)
    assert isinstance(read("1.16in", inch=True), Refusal)


def test_whole_numbers_may_be_shorter_and_take_no_length_unit() -> None:
    assert read("630", SPEED) == TypedNumber("630 rpm", 630.0)
    assert read("0630", SPEED) == TypedNumber("630 rpm", 630.0)
    for text in ("6.30", "63000", "630 mm"):
        assert isinstance(read(text, SPEED), Refusal)


def test_the_range_counts_its_ends_and_names_the_limit() -> None:
    assert isinstance(read("04.00"), TypedNumber) and isinstance(read("80.00"), TypedNumber)
    refused = read("3.99")
    assert isinstance(refused, Refusal) and "4 mm" in refused.why


@pytest.mark.parametrize(
    ("text", "shown"),
    [("", "__.__"), ("3", "3_.__"), ("36", "36.__"), ("364", "36.4_"), ("7.", "7.__"), ("7.5", "7.5_")],
)
def test_the_mask_shows_what_is_still_to_come(text: str, shown: str) -> None:
    assert DIAMETER.over(text) == shown


def keyed(*tokens: str, mask: Mask | None = DIAMETER, inch: bool = False) -> AnswerLine:
    """The answer line after some keys."""
    line = AnswerLine()
    for token in tokens:
        line = type_key(line, token, mask=mask, inch=inch)
    return line


@pytest.mark.parametrize(
    ("tokens", "words"),
    [
        (("3", ".", "."), "second point"),
        (("3", "navigation"), "NumLock"),
        (("3", "unknown"), "NumLock"),
        (("3", "6", "4", "2", "1"), "too long"),
        (("3", "6", ".", "4", "2", "1"), "too many decimals"),
        (("3", "char:x"), "does not belong"),
        (("char:&",), "French"),
        (("char:š",), "Czech"),
        (("refused:several lines pasted",), "several lines"),
    ],
)
def test_a_voided_entry_says_why_and_ignores_digits_until_enter_or_take_back(
    tokens: tuple[str, ...], words: str
) -> None:
    line = keyed(*tokens)
    assert line.text == "" and words in line.void
    assert type_key(line, "5", mask=DIAMETER) == line
    assert type_key(line, "enter", mask=DIAMETER) == AnswerLine()
    assert type_key(line, "back", mask=DIAMETER) == AnswerLine()


def test_a_choice_is_one_digit() -> None:
    assert keyed("2", mask=None) == AnswerLine("2")
    assert "two digits" in keyed("2", "2", mask=None).void
    for token in (".", "char:a", "navigation"):
        assert keyed(token, mask=None).void


def test_take_back_and_moves_leave_the_rest_alone() -> None:
    assert keyed("3", "6", "back") == AnswerLine("3")
    assert keyed("back") == AnswerLine()
    assert keyed("3", "enter", "previous", "next", "list", "arrow:next", "") == AnswerLine("3")


@pytest.mark.parametrize("text", ["+0036.42", "36.42mm", "36.42 mm", "36.42"])
def test_a_gauge_may_type_sign_zeros_and_unit(text: str) -> None:
    tokens = [c if c.isdigit() or c == "." else f"char:{c}" for c in text]
    assert keyed(*tokens) == AnswerLine(text)


def test_a_paste_is_typed_into_an_empty_line_only() -> None:
    assert keyed("paste:36,42 mm") == AnswerLine("36.42 mm")
    assert keyed("3", "paste:36.42").void
    assert keyed("paste:36.42\u202e").void


@pytest.mark.parametrize("text", ["1.161in", '1.161"', "1.1610inch"])
def test_inch_letters_are_taken_after_digits_only(text: str) -> None:
    tokens = [c if c.isdigit() or c == "." else f"char:{c}" for c in text]
    assert keyed(*tokens, inch=True) == AnswerLine(text)
    assert keyed("char:i").void and keyed("char:m").void and keyed("3", "char:i", "char:m").void


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (33.62, ""),
        (33.80, ""),
        (3.36, "a tenth"),
        (336.20, "ten times"),
        (1.32, "inch"),
        (36.32, "swapped"),
        (33.26, "swapped"),
        (41.55, ""),
    ],
)
def test_the_suspicion_is_named(value: float, words: str) -> None:
    said = suspect(value, [33.62, 33.60], 4, 80)
    assert (words in said) if words else said == ""


def test_without_an_earlier_reading_only_the_impossible_is_suspected() -> None:
    assert suspect(33.62, [], 4, 80) == ""
    assert "ten times" in suspect(336.2, [], 4, 80)
    assert "inch" in suspect(1.32, [], 4, 80)


def slips(text: str) -> Iterator[str]:
    """Every single slip of the hand: a key left out, doubled, wrong, swapped or one too many."""
    keys = "0123456789.,-+"
    for place in range(len(text)):
        yield text[:place] + text[place + 1 :]
        yield text[:place] + text[place] + text[place:]
        yield from (text[:place] + key + text[place + 1 :] for key in keys)
        if place + 1 < len(text):
            yield text[:place] + text[place + 1] + text[place] + text[place + 2 :]
    for place in range(len(text) + 1):
        yield from (text[:place] + key + text[place:] for key in keys)


def loosely(text: str) -> float | None:
    """What a plain conversion would make of it: the fault this reader is there to stop."""
    try:
        return float(text.replace(",", "."))
    except ValueError:
        return None


def test_how_many_single_slips_of_the_hand_get_through_each_guard() -> None:
    """Plain conversion, fixed places, the range, the window round an earlier reading:
    each lets fewer through.
    """
    counts = dict.fromkeys(("tried", "plain", "places", "range", "window"), 0)
    for meant in ("36.42", "3642", "30.55", "3055", "09.99", "7.50", "0750", "33.33"):
        true = read(meant)
        assert isinstance(true, TypedNumber)
        for slip in set(slips(meant)) - {meant}:
            counts["tried"] += 1
            counts["plain"] += loosely(slip) is not None
            loose = read_number(slip, replace(DIAMETER, low=-1000.0, high=1000.0))
            counts["places"] += isinstance(loose, TypedNumber) and loose.value != true.value
            found = read(slip)
            if isinstance(found, TypedNumber) and found.value != true.value:
                counts["range"] += 1
                counts["window"] += abs(found.value - true.value) <= 0.20
    share = {guard: count / counts["tried"] for guard, count in counts.items()}
    assert counts["tried"] > 800
    assert share["plain"] > 0.6 > 0.35 > share["places"] >= share["range"] > share["window"]
    assert share["window"] < 0.10

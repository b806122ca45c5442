"""What every name means under which a terminal may send a key, and how keys build a line."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from bench.desk.desk import Desk
from bench.desk.gauges import WAIT, ended, jam
from bench.desk.keys import meaning, resolve
from bench.desk.pace import Pace
from bench.desk.token import Leave, Token
from bench.desk.typed import AnswerLine, type_key
from bench.desk.update import update
from bench.file.codec import BadShape, crc_of, read_fields
from bench.file.slug import file_name, next_number, number_of
from bench.file.words import message
from bench.job.mask import Mask

MEANS = {
    "enter": "enter return ctrl+m ctrl+j kp_enter keypad_enter newline",
    "back": "minus backspace ctrl+h subtract kp_subtract",
    "previous": "slash divide kp_divide escape",
    "next": "plus add kp_add",
    "list": "asterisk multiply kp_multiply question_mark",
    "arrow:previous": "left up shift+tab",
    "arrow:next": "right down",
    "tab": "tab",
    "navigation": """home end pageup pagedown page_up page_down insert delete begin clear kp_home kp_end
        kp_page_up kp_page_down kp_insert kp_delete kp_begin center ctrl+home shift+kp_end""",
    "": """shift left_shift right_shift control left_control right_control alt left_alt right_alt super
        left_super right_super hyper left_hyper right_hyper meta left_meta right_meta num_lock caps_lock
        scroll_lock iso_level3_shift iso_level5_shift ignore""",
    "unknown": "decimal kp_decimal separator kp_separator full_stop comma f1 kp_7 digit",
}
"""What a key without a character means: the names by which terminals and toolkits call it."""


@pytest.mark.parametrize(
    ("name", "means"), [(name, m) for m, names in MEANS.items() for name in names.split()]
)
def test_a_key_by_its_name(name: str, means: str) -> None:
    assert meaning(name, None) == means and meaning(name.upper(), None) == means


@pytest.mark.parametrize(
    ("character", "means"),
    [
        *((digit, digit) for digit in "0123456789"),
        *((".", "."), (",", "."), ("\r", "enter"), ("\n", "enter"), ("\t", "tab"), ("\b", "back")),
        *(("\x7f", "back"), ("\x1b", "previous"), ("-", "back"), ("\u2212", "back"), ("/", "previous")),
        *(("+", "next"), ("*", "list"), ("?", "list"), ("\x02", ""), ("\x03", ""), ("m", "char:m")),
        *(("\x01", "unknown"), ("\u200b", "unknown"), ("\u00a0", "unknown"), ("\u0664", "char:\u0664")),
    ],
)
def test_a_key_by_its_character(character: str, means: str) -> None:
    assert meaning("whatever", character) == means


def test_a_character_of_no_meaning_leaves_it_to_the_name() -> None:
    assert meaning("enter", "\x01") == "enter" and meaning("left", "ab") == "arrow:previous"


def test_what_depends_on_whether_something_is_typed() -> None:
    assert [resolve("tab", typing=typing) for typing in (True, False)] == ["enter", "next"]
    assert [resolve("arrow:next", typing=typing) for typing in (True, False)] == ["navigation", "next"]
    assert resolve("arrow:previous", typing=False) == "previous" and resolve("5", typing=True) == "5"


MM = Mask(2, 2, "mm", 4.0, 80.0)


def typed(*marks: str, mask: Mask | None = MM, inch: bool = False) -> AnswerLine:
    """The line after some keys."""
    line = AnswerLine()
    for mark in marks:
        line = type_key(line, mark, mask=mask, inch=inch)
    return line


@pytest.mark.parametrize(
    ("marks", "text", "void"),
    [
        (["3", "6", ".", "4", "2"], "36.42", ""),
        (["3", "6", ".", "."], "", "a second point"),
        (["3", "6", ".", "4", "2", "1"], "", "too many decimals: __.__ mm"),
        (["3", "6", "4", "2", "1"], "", "too long: __.__ mm"),
        (["0"] * 3 + ["3", "6", ".", "4"], "00036.4", ""),
        (["0"] * 10 + ["1"], "", "too long: __.__ mm"),
        (["char:+", "3"], "+3", ""),
        (["3", "char:+"], "", "+ does not belong in a number"),
        (["char:m"], "", "m does not belong in a number"),
        (["3", "6", "char:m", "char:m"], "36mm", ""),
        (["3", "6", "char:i", "char:n"], "36in", ""),
        (["3", "6", "char:m", "char:n"], "", "n does not belong in a number"),
        (["char:&"], "", "& is a digit key of the French keyboard layout: hold Shift or use the keypad"),
        (["char:š"], "", "š is a digit key of the Czech keyboard layout: hold Shift or use the keypad"),
        (["navigation"], "", "NumLock is off: press NumLock, then key it again"),
        (["unknown"], "", "a key that is not a digit; if it was one, NumLock is off"),
        (["refused:two keys at once"], "", "two keys at once"),
        (["3", "back", "back"], "", ""),
        (["3", "enter", "previous", "tab", "arrow:next", ""], "3", ""),
        (["paste:36,42 mm\n"], "36.42 mm", ""),
        (["paste:36.42.1"], "", "a second point"),
        (["3", "paste:6"], "", "a paste into an answer begun by hand"),
        (["navigation", "7"], "", "NumLock is off: press NumLock, then key it again"),
        (["navigation", "back"], "", ""),
        (["navigation", "enter"], "", ""),
    ],
)
def test_how_keys_build_a_number(marks: list[str], text: str, void: str) -> None:
    assert typed(*marks) == AnswerLine(text, void)


def test_other_masks_and_choices() -> None:
    whole = Mask(3, 0, "rpm")
    assert typed("5", ".", mask=whole).void == "no point here: whole numbers only"
    assert typed("5", "0", "0", mask=whole).text == "500"
    assert typed("5", "0", "0", "0", mask=whole).void == "too long: ___ rpm"
    assert typed("1", mask=None).text == "1"
    assert typed("1", "2", mask=None).void == "two digits where one is asked"
    assert typed("char:y", mask=None).void == "key the number of a choice, not y"
    assert typed(".", mask=None).void == "key the number of a choice, not ."
    assert typed(*"1.16145", inch=True).text == "1.16145"
    assert typed(*"1.161451", inch=True).void.startswith("too many decimals")


def test_while_streams_have_met_the_line_stays_until_it_is_thrown_away() -> None:
    desk = Desk(
        line=AnswerLine("36"), pace=Pace(series_until=99.0), message="other", alarm=True, conversion="x"
    )
    kept = jam(desk, 5.0)[0]
    assert (kept.line, kept.message, kept.alarm, kept.conversion) == (AnswerLine("36"), WAIT, False, "")
    assert kept.pace.jammed and kept.pace.series_until < 0 and kept.pace.last_at == kept.pace.broken_at == 5.0
    void = jam(desk, 5.0, "two streams")[0]
    assert void.line == AnswerLine(void="two streams") and void.message == f"Not taken: two streams. {WAIT}"
    assert jam(void, 6.0)[0].message == void.message


def test_a_reading_with_a_pause_in_it_is_of_two_streams() -> None:
    met = Desk(line=AnswerLine("361"), pace=Pace(last_at=0.0, steps=(0.01, 0.01)))
    after, effects = ended(met, 0.06, lambda desk, text: (desk, ("taken",)))
    assert effects == () and after.line == AnswerLine() and after.pace.jammed
    assert after.message.startswith("Not taken: two streams of keys met in this answer.")
    assert ended(met, 0.03, lambda desk, text: (desk, ("taken",)))[1] == ("taken",)


@pytest.mark.parametrize(("at", "by_hand"), [(0.0999, False), (0.1, True)])
def test_an_enter_a_tenth_of_a_second_later_is_of_a_hand(at: float, by_hand: bool) -> None:
    """Where two streams have met it is not taken sooner."""
    met = Desk(line=AnswerLine("36"), pace=Pace(last_at=0.0, jammed=True))
    taken: list[str] = []

    def act(desk: Desk, text: str) -> tuple[Desk, tuple[object, ...]]:
        taken.append(text)
        return desk, ()

    after = ended(met, at, act)[0]
    assert taken == (["enter"] if by_hand else [])
    assert after.line.text == ("36" if by_hand else "")


def test_a_key_held_down_is_one_character() -> None:
    """A pause, then repeats: the first of them is taken back, and its step with it."""
    desk = Desk()
    for at in (1.0, 1.5, 1.53, 1.56):
        desk, _ = update(desk, Token("key", "5", at=at))
        if at == 1.5:
            assert desk.line.text == "55" and desk.pace.steps == (0.5,)
    assert desk.line.text == "5" and desk.pace.steps == ()


def test_a_terminal_that_goes_away_leaves_what_was_accepted() -> None:
    desk = replace(Desk(), page="step", file="/jobs/00001.toml")
    left, effects = update(desk, Token("leave"))
    assert left.page == "left" and effects == (Leave(0, "saved: /jobs/00001.toml"),)


@pytest.mark.parametrize(
    "value", ["text", True, 0, -5, 2**53, Decimal("1.20"), ["a", 1], [], Decimal("1E+3"), [Decimal("0.1")]]
)
def test_what_a_checksum_is_made_over(value: object) -> None:
    """Eight hexadecimal digits that change with salt, name and value."""
    crc = crc_of("salt", {"value": value, "crc": "whatever"})
    assert len(crc) == 8 and int(crc, 16) >= 0 and crc == crc_of("salt", {"value": value})
    others = (
        crc_of("other", {"value": value}),
        crc_of("salt", {"values": value}),
        crc_of("salt", {"value": "-"}),
    )
    assert crc not in others


@pytest.mark.parametrize(
    ("value", "words"),
    [
        (10**100, "a number beyond all measure"),
        ({}, "a table"),
        ([["a"]], "a list in a list"),
        (None, "a date"),
    ],
)
def test_what_does_not_belong_in_a_file(value: object, words: str) -> None:
    with pytest.raises(BadShape, match=f"{words} does not belong in a session file"):
        crc_of("salt", {"value": value})


def test_what_is_said_of_a_file() -> None:
    def said(state: str, *findings: str, **more: bool | int) -> str:
        usual: dict[str, bool | int] = {"torn": 0, "accepted": 0, "many_torn": False}
        return message(state, findings, **(usual | more))  # type: ignore[arg-type]

    assert said("fine") == "The file is fine."
    one, two = said("fine", accepted=1), said("fine", accepted=2)
    assert one.endswith("1 change outside the program had been accepted.") and "2 changes outside" in two
    assert "their 7 bytes" in said("unfinished", torn=7)
    assert said("changed", "line 3: a").startswith(
        "Line 3: a. No value of the job is used until this is looked"
    )
    assert said("changed", "a", "b").startswith("A; b. No value of the job is used until each is looked")
    assert said("damaged", "a", "b", "c", "d", "e").startswith("A; b; c; and 2 more. ")
    assert said("damaged", "a", "b", "c").startswith("A; b; c. ")
    assert said("newer", "a") == "A. It is opened to read only; open it with the newer version."
    assert "opened to read only and nothing in it is used" in said("damaged", "a", many_torn=True)
    assert said("changed", "a", refused=True).endswith("until it is corrected in an editor.")


def test_how_long_a_line_and_a_block_of_a_file_may_be() -> None:
    """16 KiB a line and 64 KiB a block."""
    longest = b'value = "' + b"x" * (16 * 1024 - 10) + b'"'
    assert len(longest) == 16 * 1024 and read_fields(longest + b"\n")["value"]
    with pytest.raises(BadShape, match="it is longer than a block"):
        read_fields(b" " + longest + b"\n")
    lines = b"# a comment of a line\n" * 4000
    assert read_fields(lines[: 64 * 1024 - 11] + b"\nkey = 'x'\n") == {"key": "x"}
    with pytest.raises(BadShape, match="it is longer than a block"):
        read_fields(lines[: 64 * 1024 - 10] + b"\nkey = 'x'\n")


def test_names_of_files_and_their_numbers() -> None:
    assert file_name(number=1) == "00001.toml" and file_name(number=10**9 - 1) == "999999999.toml"
    for number in (0, -1, 10**9):
        with pytest.raises(ValueError, match="start a new folder"):
            file_name(number=number)
    assert file_name(number=7, text="Hafenlotse, Stahl") == "00007-hafenlotse-stahl.toml"
    assert [number_of(name) for name in ("7.toml", "00007-a.toml", "a.toml", "7.toml.torn-1")] == [
        7,
        7,
        None,
        None,
    ]
    assert [next_number(taken) for taken in ([], [1], [3, 9], [10**9 - 1], [10**9 - 2, 4])] == [
        1,
        2,
        10,
        1,
        10**9 - 1,
    ]


def test_an_empty_bench_stands_on_the_list_of_jobs() -> None:
    """No job, no sample, nothing typed, everything to be written, the bell on, the day's colours."""
    desk = Desk()
    assert (desk.page, desk.columns, desk.rows, desk.line) == ("jobs", 80, 24, AnswerLine())
    assert (desk.sample, desk.sitting, desk.by_lines, desk.hasty, desk.night, desk.alarm) == (False,) * 6
    assert (desk.writable, desk.bell, desk.set_aside, desk.offset, desk.scroll) == (True, True, 0, 0, 0)
    assert not desk.too_small and desk.step is None and not desk.looking_back
    assert replace(desk, columns=39).too_small != replace(desk, columns=40, rows=12).too_small

"""A gauge on a serial line: its bytes, its readings, and how they land in the open question."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bench.desk.desk import Desk
from bench.desk.token import Token
from bench.file.slug import SHOP
from bench.shop.serial_line import FIRST_NUMBER, SerialLine
from bench.shop.shop import built_in, load, shop_of
from bench.wire.heard import Heard, heard_in
from bench.wire.port import lines_in
from bench.wire.stream import LONGEST, PAUSE_S, Stream, took
from screens.keys_seen import KeysSeen, update as keys_update, verdict, view as keys_view
from screens.layout import text_of
from screens.look import Look
from screens.view import view
from tests.house.checks import TOP
from tests.whole.places import at
from tests.whole.repairer import Pretended, Repairer

GAUGE = SerialLine(port="/dev/ttyUSB0")
INCH = SerialLine(port="COM3", unit="inch")


@pytest.mark.parametrize(
    ("sent", "lines", "half"),
    [
        ([(1.0, b"36.42\r\n")], [b"36.42"], False),
        ([(1.0, b"36."), (1.01, b"42\r"), (1.02, b"\n36.44\r\n")], [b"36.42", b"36.44"], False),
        ([(0.1, b"6.42\r\n36.44\r\n")], [b"36.44"], True),
        ([(1.0, b"36."), (3.0, b"42\r\n36.44\r\n")], [b"36.44"], True),
        ([(1.0, b"3"), (9.0, b"36.42\r"), (20.0, b"36.44\r")], [b"36.44"], True),
        ([(1.0, b"\r\n\r\n"), (2.0, b"36.42\n")], [b"36.42"], False),
        ([(1.0, b"9" * (LONGEST + 1)), (1.1, b"99\r36.42\r")], [b"36.42"], True),
        ([(1.0, b"36.42")], [], False),
    ],
    ids=[
        "whole",
        "in parts",
        "begun before",
        "half, then its tail",
        "noise first",
        "empty",
        "endless",
        "no end",
    ],
)
def test_bytes_become_whole_lines_alone(
    sent: list[tuple[float, bytes]], lines: list[bytes], half: bool
) -> None:
    """The port is opened at 0; what may have lost its beginning is no line."""
    stream, found, broken = Stream(0.0), list[bytes](), False
    for when, data in sent:
        stream, more, left_out = took(stream, data, when)
        found += more
        broken = broken or left_out
    assert (found, broken) == (lines, half)
    assert 0.1 < PAUSE_S < 1.0


@pytest.mark.parametrize(
    ("line", "number", "unit"),
    [
        (b"36.42", "36.42", "mm"),
        (b"\x02+036,42 mm\x03", "36.42", "mm"),
        (b"D1: 1.4339 in", "1", "mm"),
        (b"-00.02", "-0.02", "mm"),
        (b".50", ".50", "mm"),
        (b"1.4339IN", "1.4339", "in"),
        (b"ERROR", "", ""),
        (b"36.\xff42", "", ""),
        (b"36.\x0042", "", ""),
    ],
)
def test_a_line_is_read_by_the_pattern_or_not_at_all(line: bytes, number: str, unit: str) -> None:
    found = heard_in(line, GAUGE, at=1.0, wall="")
    assert (found.number, found.unit) == (number, unit)
    assert bool(found.words) != bool(number)


def test_a_pattern_of_the_shop_passes_what_stands_before_the_number() -> None:
    named = replace(GAUGE, pattern=r"D[0-9]: *([0-9.]+) *(in|mm|um)")
    assert heard_in(b"D1: 1.4339 in", named, at=0.0, wall="").reading == "1.4339 in"
    assert heard_in(b"D1: 1433 um", named, at=0.0, wall="").number == ""
    loose = replace(GAUGE, pattern="(.*)")
    assert "no number in it" in heard_in(b"ready", loose, at=0.0, wall="").words


def sends(repairer: Repairer, text: str, setup: SerialLine = GAUGE, *, looked: bool = True) -> Desk:
    """A line comes from the gauge, and is looked at."""
    repairer.feed(heard_in(text.encode(), setup, at=repairer.seconds, wall=repairer.wall()))
    desk = repairer.desk
    if looked:
        repairer.look()
    return desk


def enter_after(repairer: Repairer, seconds: float) -> None:
    """Enter so long after now."""
    repairer.feed(
        Token("key", "enter", at=repairer.seconds + seconds, wall=repairer.wall(), boot=repairer.boot)
    )


def measuring(works_in: str = "mm") -> Repairer:
    """A repairer before the first reading of the seat."""
    if works_in == "mm":
        return at("case_bore_1").copy()
    repairer = Repairer(Pretended(shop=built_in("inch")))
    repairer.feed(repairer.bench.opened())
    return repairer.on_to("case_bore_1")


def test_a_reading_lands_in_the_open_question_and_waits_for_enter() -> None:
    repairer = measuring()
    before = len(repairer.bench.entries)
    desk = sends(repairer, "36.42")
    assert desk.line.text == "36.42" and "from the gauge" in desk.message and "Enter takes it" in desk.message
    shown = "\n".join(text_of(one) for one in view(desk, Look("ascii")))
    assert "36.42 from the gauge" in shown
    assert len(repairer.bench.entries) == before and repairer.asked == "case_bore_1"
    repairer.key("enter")
    assert repairer.bench.entries[-1].value == "36.42 mm" and repairer.asked == "case_bore_2"


def test_an_enter_that_comes_with_the_reading_does_not_take_it() -> None:
    repairer = measuring()
    desk = sends(repairer, "36.42", looked=False)
    enter_after(repairer, PAUSE_S / 2)
    assert repairer.asked == "case_bore_1" and repairer.desk.line == desk.line
    assert "look at it" in repairer.desk.message
    enter_after(repairer, PAUSE_S)
    assert repairer.asked == "case_bore_2"


def test_a_second_reading_takes_the_place_of_one_that_waits_and_is_looked_at_again() -> None:
    repairer = measuring()
    sends(repairer, "36.42")
    assert sends(repairer, "36.44", looked=False).line.text == "36.44"
    enter_after(repairer, 0.2)
    assert repairer.asked == "case_bore_1"
    repairer.key("back")
    assert repairer.desk.line.text == ""


def test_hands_and_gauge_do_not_mix() -> None:
    repairer = measuring()
    repairer.key("3")
    repairer.wait(1.0)
    desk = sends(repairer, "36.42")
    assert desk.line.text == "3" and "something is typed here" in desk.message
    repairer.key("back")
    sends(repairer, "36.42")
    repairer.wait(1.0)
    repairer.key("3")
    assert repairer.desk.line.text == "3"


def test_where_no_length_is_asked_nothing_is_taken() -> None:
    for key in ("paint", "empty_pressure"):
        repairer = at(key).copy()
        before = repairer.desk.line
        desk = sends(repairer, "36.42")
        assert desk.line == before and "no length is asked here" in desk.message and repairer.asked == key


def test_units_are_converted_and_the_wrong_one_is_caught_as_if_it_were_keyed() -> None:
    in_mm = measuring()
    sends(in_mm, "1.4339 in")
    in_mm.key("enter")
    assert in_mm.asked == "case_bore_1" and "set the gauge to mm" in in_mm.desk.message
    bare = measuring()
    sends(bare, "1.4339")
    bare.key("enter")
    assert bare.asked == "case_bore_1" and bare.desk.message
    in_inch = measuring("inch")
    sends(in_inch, "36.42 mm")
    in_inch.key("enter")
    assert "36.42 mm = 1.4339 in" in in_inch.desk.message and in_inch.asked == "case_bore_1"
    in_inch.key("enter")
    assert in_inch.bench.entries[-1].value == "36.42 mm"
    unsaid = measuring("inch")
    assert sends(unsaid, "36.42").line.text == "36.42mm"
    assert sends(unsaid, "1.4340", INCH).line.text == "1.4340"


def test_word_of_the_port_is_shown_and_loses_nothing() -> None:
    repairer = measuring()
    repairer.key("3")
    gone = Heard("gauge", words="gauge on COM3: the line is gone (unplugged).", gone=True)
    repairer.feed(gone)
    assert (repairer.desk.message, repairer.desk.alarm, repairer.desk.line.text) == (gone.words, True, "3")
    sends(repairer, "noise")
    assert "no number in it" in repairer.desk.message and repairer.desk.line.text == "3"


def test_the_keys_screen_shows_a_line_as_it_came_and_what_is_read() -> None:
    desk, _ = keys_update(KeysSeen(), heard_in(b"+036.42 mm", GAUGE, at=1.0, wall=""))
    desk, _ = keys_update(desk, heard_in(b"\xff?", GAUGE, at=1.5, wall=""))
    shown = "\n".join(text_of(one) for one in keys_view(desk))
    assert "+036.42 mm  is read as 36.42 mm" in shown and "no number in it" in shown
    assert "waits for your Enter" in verdict(desk.keys)


def test_what_the_manual_and_the_starter_write_is_what_is_read(tmp_path: Path) -> None:
    manual = (TOP / "bench" / "data" / "manual" / "2-your-shop.md").read_text(encoding="utf-8")
    written = manual.partition("```toml\n")[2].partition("```")[0]
    (one,) = shop_of(written.encode(), SHOP).lines
    assert one == SerialLine(port="/dev/ttyUSB0", pattern=FIRST_NUMBER)
    assert lines_in(tmp_path) == ()
    (tmp_path / SHOP).write_text(f'works_in = "inch"\n{written}', encoding="utf-8")
    assert lines_in(tmp_path) == (one,) == load(tmp_path).lines
    (tmp_path / SHOP).write_text(f"[[line]\n{written}", encoding="utf-8")
    assert lines_in(tmp_path) == ()

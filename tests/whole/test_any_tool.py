"""Any measuring tool: a finer one than is asked, a reading cut short, a calliper alone, four walls in place
of their mean, glasses that cannot be.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from bench.job.job import words_of
from bench.job.kept import Misfit
from bench.job.reading_back import read_back
from bench.shop.shop import load
from rules.instrument import INSTRUMENT_KINDS, Instrument
from rules.lengths import good_to, speaking
from rules.measuring.instruments import CAN_MEASURE, SEAT, landing_spread_mm, that_measure, together
from tests.whole.hands import lines
from tests.whole.places import at
from tests.whole.repairer import Pretended, Repairer
from tests.whole.script import Hand

CALLIPER = """
[[instrument]]
name = "calliper"
kind = "calliper"
resolution_mm = 0.01
limit_of_error_mm = 0.03
"""
MICROMETER = """
[[instrument]]
name = "outside micrometer"
kind = "micrometer"
resolution_mm = 0.001
limit_of_error_mm = 0.004
"""
INSIDE = """
[[instrument]]
name = "inside micrometer"
kind = "inside_micrometer"
resolution_mm = 0.001
limit_of_error_mm = 0.004
"""
BY_CALLIPER = (
    ("case_bore_1", "3642"),
    ("case_bore_2", "3644"),
    ("glass_1", "3531"),
    ("glass_2", "3530"),
    ("seat_depth", "1.45"),
    ("marking", "bar_5"),
)


def said(repairer: Repairer) -> str:
    """The message and what follows on the page."""
    step = repairer.desk.step
    return "\n".join(
        (repairer.desk.message, *(step.say if step else ()), *(step.consequence if step else ()))
    )


def test_a_micrometer_is_offered_at_the_glass_and_its_error_counts() -> None:
    repairer = at("glass_1").copy()
    before = len(repairer.bench.entries)
    repairer.type("35.304")
    assert len(repairer.bench.entries) == before
    assert "35.304: read by micrometer? 1 Enter takes 35.304 mm" in repairer.desk.message
    repairer.type("1")
    assert words_of(repairer.desk.entries[-1])[:2] == ("35.304 mm", "by micrometer")
    assert repairer.step.mask is not None and repairer.step.mask.decimals == 3  # it is still in the hand
    repairer.type("35306")
    assert repairer.asked == "seat_depth"
    assert "good to 0.01, oval 0.00" in said(repairer)
    assert "good to 0.04" in said(at("seat_depth"))


def test_the_reading_of_another_instrument_is_not_taken_unasked() -> None:
    """A digit that bounced is a reading of the micrometer: shown, and gone once something else is keyed."""
    repairer = at("glass_1").copy()
    before = len(repairer.bench.entries)
    for text in ("35.311", "35311"):
        repairer.type(text)
        assert len(repairer.bench.entries) == before and repairer.desk.offered is not None
        repairer.type("3531")
        assert len(repairer.bench.entries) == before + 1
        assert words_of(repairer.desk.entries[-1])[0] == "35.31 mm"
        repairer = at("glass_1").copy()


def test_an_outside_micrometer_is_not_offered_at_the_seat() -> None:
    repairer = at("case_bore_1").copy()
    repairer.type("36.424")
    assert repairer.desk.offered is None and "read by" not in repairer.desk.message


def test_an_inside_micrometer_is_offered_at_the_seat(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(CALLIPER + INSIDE, encoding="utf-8")
    repairer = Repairer(Pretended(shop=load(tmp_path))).open().on_to("case_bore_1")
    repairer.type("36.434")
    assert repairer.desk.message.startswith("36.434: read by inside micrometer?")
    repairer.type("1")
    assert words_of(repairer.desk.entries[-1])[:2] == ("36.434 mm", "by inside micrometer")


def test_a_reading_cut_short_is_asked_for_its_last_digit() -> None:
    repairer = at("outside_reading").copy()
    repairer.type("36.67")
    assert repairer.desk.message.startswith("36.67? key 36.670 if that is meant")
    assert "36.67: read by calliper? 1 Enter takes 36.67 mm" in repairer.desk.message


def test_four_walls_are_keyed_as_four_readings_and_the_mean_is_taken() -> None:
    one, four = at("wall_reading").copy(), at("wall_reading").copy()
    one.type("0.723")
    four.type("1")
    for wall in ("0.720", "0.722", "0.726", "0.724"):
        assert four.asked.startswith("wall_reading_each_")
        four.type(wall)
    assert one.asked == four.asked == "last_bore"
    assert one.step.say == four.step.say


def test_a_wall_apart_is_asked_about_among_the_four() -> None:
    four = at("wall_reading").copy()
    four.type("1")
    for wall in ("0.720", "0.782", "0.722", "0.726", "0.724"):
        four.type(wall)
    assert four.asked == "odd_wall_reading"
    four.give("mean")
    assert four.asked == "last_bore"


@pytest.mark.parametrize("tools", [CALLIPER, CALLIPER + MICROMETER, MICROMETER])
def test_a_ring_is_finished_with_a_calliper_alone(tmp_path: Path, tools: str) -> None:
    (tmp_path / "shop.toml").write_text(tools, encoding="utf-8")
    glass = (("glass_1", "35310"), ("glass_2", "35300")) if tools == MICROMETER else BY_CALLIPER[2:4]
    desk, out = lines(tmp_path, [Hand((*BY_CALLIPER[:2], *glass, *BY_CALLIPER[4:]))])
    assert desk.walk is not None and desk.walk.open is None
    assert "Wall read with the calliper: chance" in out and "with a ball micrometer" in out
    assert "ball micrometer, at four places" not in out


def test_a_calliper_on_the_wall_costs_chance() -> None:
    """Wall within 0.02 is 0.0115 standard, twice that on the diameter: with 0.010, 0.0252 (by hand)."""
    calliper = Instrument(name="c", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03)
    ball = Instrument(name="b", kind="ball_micrometer", resolution_mm=0.001, limit_of_error_mm=0.004)
    assert landing_spread_mm(0.010, [calliper]) == pytest.approx(0.0252, abs=0.0001)
    assert landing_spread_mm(0.010, [calliper, ball]) == 0.010


def test_only_what_can_measure_a_seat_is_listed() -> None:
    repairer = at("case_bore_1").copy()
    assert repairer.desk.walk is not None
    step = next(one for one in repairer.desk.walk.optional if one.key == "seat_way")
    assert [one.word for one in step.choices] == ["calliper", "calliper, compared", "stepped plug"]
    for kind in set(INSTRUMENT_KINDS) - set(CAN_MEASURE[SEAT]):
        tool = Instrument(name="it", kind=kind, resolution_mm=0.001, limit_of_error_mm=0.004)
        assert [one.name for one in that_measure(SEAT, [tool])] == ["calliper"]


def test_readings_of_two_instruments_count_by_both() -> None:
    calliper = Instrument(name="c", kind="calliper", resolution_mm=0.01, limit_of_error_mm=0.03)
    micrometer = Instrument(name="m", kind="micrometer", resolution_mm=0.001, limit_of_error_mm=0.004)
    assert together([micrometer, micrometer]) == micrometer
    assert together([calliper, micrometer]).limit_of_error_mm == pytest.approx(0.017)


@pytest.mark.parametrize(
    ("value", "words"),
    [(0.0027, "0.003"), (0.0041, "0.005"), (0.013, "0.01"), (0.00004, "0.00004"), (0.0, "0.00")],
)
def test_good_to_nothing_never_stands(value: float, words: str) -> None:
    assert good_to(value) == words
    with speaking("inch"):
        assert value == 0.0 or float(good_to(value)) > 0.0


@pytest.mark.parametrize(
    ("glass", "words"),
    [
        ("2000", "A glass of 20.00 mm leaves a gap of 8.22 mm, where a ring's wall is 0.40 to 0.65"),
        ("3700", "A glass of 37.00 mm does not go into a seat of 36.43 mm"),
        ("3620", "A glass of 36.20 mm leaves 0.12 mm for the ring: too thin to turn"),
    ],
)
def test_a_glass_that_cannot_be_is_said_and_not_offered(glass: str, words: str) -> None:
    repairer = at("glass_1").copy()
    repairer.type("1")
    repairer.type("1.45")
    repairer.give("other")
    repairer.type(glass)
    assert repairer.asked == "glass_order" and words in said(repairer)
    assert not any(f"{glass[:2]}.{glass[2:]}" in one.text for one in repairer.step.choices)


def test_a_reading_changed_by_hand_keeps_its_instrument() -> None:
    """The places are those of the instrument that is named behind it."""
    step = at("glass_1").step
    assert read_back(step, ("35,314", "By micrometer")) == ("35.314 mm", "by micrometer")
    assert read_back(step, ("35.31 mm",)) == ("35.31 mm",)
    for words in (("35.314 mm",), ("35.31 mm", "by micrometer"), ("35.31 mm", "by ruler")):
        with pytest.raises(Misfit):
            read_back(step, words)

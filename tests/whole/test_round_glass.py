"""A glass is ground round, acrylic gives to the jaws, a seat may be oval: what the readings are taken for."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from bench.shop.shop import built_in
from rules.measuring.instruments import ground_agree_mm
from rules.measuring.reading import summarise
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

SEATS = {"case_bore_1": "32.52", "case_bore_2": "32.52"}


def after_glass(first: str, second: str, *, acrylic: bool = False) -> Repairer:
    """A repairer who has keyed two readings of a glass."""
    repairer = fresh().on_to("glass_1", SEATS)
    if acrylic:
        repairer.pick("usual")
        repairer.pick_key("glass_material")
        repairer.give("acrylic")
    repairer.give(first)
    repairer.give(second)
    return repairer


def said(repairer: Repairer) -> str:
    """Everything the page says."""
    return "\n".join((*repairer.step.say, *repairer.step.consequence, *repairer.step.how))


def test_two_readings_of_a_ground_glass_far_apart_are_asked_again() -> None:
    repairer = after_glass("31.46", "31.64")
    assert repairer.asked == "glass_3" and repairer.step.blind
    assert "differs by 0.18 mm" in said(repairer) and "chipped edge" in said(repairer)
    repairer.give("31.47")
    assert repairer.asked == "seat_depth"
    assert "glass 31.47 mm, good to 0.04" in said(repairer)


@pytest.mark.parametrize(("second", "asked"), [("31.49", "seat_depth"), ("31.50", "glass_3")])
def test_how_far_apart_depends_on_the_gauge(second: str, asked: str) -> None:
    """A calliper within 0.03 has a standard deviation of 0.0173, a micrometer one of 0.0023."""
    calliper, micrometer, _ = built_in().instruments
    assert ground_agree_mm(calliper) == pytest.approx(0.0346, abs=0.0001)
    assert ground_agree_mm(micrometer) == 0.03
    assert after_glass("31.46", second).asked == asked


def test_good_to_grows_with_what_the_readings_say() -> None:
    alike, apart = (
        summarise(
            (31.46, other), limit_of_error_mm=0.03, resolution_mm=0.01, positions=("12", "3"), ground=True
        )
        for other in (31.46, 31.49)
    )
    assert apart.expanded_mm > alike.expanded_mm + 0.002
    assert apart.range_mm == pytest.approx(0.03)


def test_acrylic_is_taken_as_oval_with_a_light_touch() -> None:
    repairer = fresh().on_to("glass_1", SEATS)
    assert "light touch" not in said(repairer)
    repairer = after_glass("31.50", "31.52", acrylic=True)
    assert repairer.asked == "seat_depth" and "oval 0.02" in said(repairer)
    assert "gap 0.505 mm, 0.500 to 0.510 round the oval" in said(repairer)
    wide = after_glass("31.46", "31.54", acrylic=True)
    assert wide.asked == "glass_3" and not wide.step.blind and "the two between" in said(wide)
    assert "light touch" in said(wide)
    wide.on_to("seat_depth", {"glass_3": "31.50", "glass_4": "31.50"})
    assert "glass 31.50 mm, good to 0.03, oval 0.08" in said(wide)


def test_the_oval_of_an_acrylic_glass_is_counted() -> None:
    bores = []
    for second in ("31.50", "31.53"):
        repairer = after_glass("31.50", second, acrylic=True)
        repairer.on_to("ring", {"acrylic_anyway": "anyway"})
        found = re.search(r"\((\d+\.?\d*) to (\d+\.?\d*) works\)", said(repairer))
        assert found is not None
        bores.append((float(found[1]), float(found[2])))
    assert bores[0][0] < bores[1][0] and bores[0][1] > bores[1][1], "an oval narrows the band"


def test_the_gap_is_not_said_to_be_the_same_all_round_beside_an_oval() -> None:
    repairer = fresh().on_to("case_bore_3", {"case_bore_1": "32.48", "case_bore_2": "32.56"})
    assert "the two between" in said(repairer) and not repairer.step.blind
    repairer.on_to(
        "seat_depth", {"case_bore_3": "32.52", "case_bore_4": "32.52", "glass_1": "31.50", "glass_2": "31.50"}
    )
    assert "gap 0.510 mm, 0.490 to 0.530 round the oval" in said(repairer) and "all round" not in said(
        repairer
    )


def test_what_was_enough_for_an_accepted_ring_stays_enough() -> None:
    """A file with readings of a glass 0.06 apart whose ring is decided opens where it stood; read anew, the
    glass is asked as now.
    """
    repairer = at("rough_outside")
    job = repairer.desk.job
    assert job is not None
    entries = repairer.bench.entries
    place = next(n for n, one in enumerate(entries) if one.key == "glass_2")
    entries[place] = replace(entries[place], value="35.36 mm")
    older = Repairer(repairer.bench)
    older.now, older.seconds = repairer.now, repairer.seconds
    older.open()
    assert older.desk.job is not None and older.keyed.count("glass_3") == 0
    assert not older.asked.startswith("glass")
    older.pick("replace")
    older.pick_key("glass_2")
    older.give("35.37")
    assert older.asked == "glass_3"


def test_a_reading_that_was_struck_stays_struck_for_the_next_ring() -> None:
    """Two of three agree; what was left out before the first ring is not mixed in again for the second."""
    repairer = fresh().on_to("glass_1")
    for reading in ("35.30", "35.34", "35.31"):
        repairer.type(reading)
    repairer.on_to("ring")
    first = " ".join(repairer.step.consequence)
    repairer.on_to("fit_outcome")
    repairer.give("too_easy")
    repairer.on_to("ring")
    assert "glass 35.31 good to" in first
    assert first.partition(", gap")[0] == " ".join(repairer.step.consequence).partition(", gap")[0]

"""Gasket, foot and O-ring at the edges: limits just met and just missed, figures worked out by hand.

By hand: with pencil and the formula of the docstring, never with the function itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from rules.checks import OutOfRange
from rules.foot.bearing import Bearing, FootLaw
from rules.foot.sizing import FootQuestion, bore, foot_sizing, thickness
from rules.gasket import needs as of_gasket
from rules.gasket.drive import Drive, by_screws, by_thread, stress_area_mm2
from rules.gasket.law import MOST, PlasticLaw, RubberLaw
from rules.gasket.materials import CUT, READY, TURNED, gasket_material
from rules.gasket.needs import OneOfMany, Squeezed, between
from rules.gasket.room import GasketQuestion, GasketRoom, GasketSizes, laid_in
from rules.gasket.sizing import gasket_sizing, judged, rounded, sized, thicknesses, usual_width, window
from rules.oring import judging, needs as of_oring, remedies, sizing as oring_sizing, stock
from rules.oring.fitted import Ageing, InGroove, as_expected, at_worst, free_cord_mm, in_groove
from rules.oring.housing import FACE, FEMALE, MALE, Housing, Length, Oring
from rules.oring.judging import OringQuestion
from rules.tables import plastics, rubbers


def refused(what: Callable[..., object], match: str = ":", **given: Any) -> None:
    """It raises OutOfRange, in these words."""
    with pytest.raises(OutOfRange, match=match):
        what(**given)


def drive(low: float = 400.0, high: float = 800.0) -> Drive:
    """What presses the lid."""
    return Drive(low, high, "a thread")


ROOM = GasketRoom(outside_mm=30.0, inside_mm=27.0, height_mm=0.45, stopped=True)
"""1.5 wide."""
OPEN = replace(ROOM, stopped=False)


def asked(material: str = "nbr", room: GasketRoom = ROOM, **more: Any) -> GasketQuestion:
    """A question of a gasket."""
    one = gasket_material(material)
    given = {"room": room, "drive": drive(), "material": one, "way": one.ways[0], **more}
    return GasketQuestion(**given)


def test_what_presses_the_lid() -> None:
    """T / (K d) with K 0.25 and 0.12; stress areas of small screws as ISO 898-1 and its like print them."""
    thread = by_thread(diameter_mm=32.5, torque_nm=3.0)
    assert (thread.low_n, thread.high_n) == pytest.approx((369.23, 769.23), abs=0.01)
    assert thread.mid_n == pytest.approx(569.23, abs=0.01) and thread.sd_n == pytest.approx(115.47, abs=0.01)
    assert thread.words == "a thread of 32.5 mm, turned home with 3 N m"
    areas = {1.0: (0.25, 0.460), 1.2: (0.25, 0.732), 1.4: (0.3, 0.983), 1.6: (0.35, 1.27), 2.0: (0.4, 2.07)}
    for size, (pitch, area) in areas.items():
        assert stress_area_mm2(diameter_mm=size, pitch_mm=pitch) == pytest.approx(area, abs=0.006)
        found = by_screws(count=6, diameter_mm=size)
        assert (found.low_n, found.high_n) == pytest.approx((600 * area, 1200 * area), rel=0.006)
    assert by_screws(count=2, diameter_mm=0.8).low_n == pytest.approx(2 * 29.45, abs=0.1)
    assert by_screws(count=16, diameter_mm=0.9).low_n == pytest.approx(16 * 37.27, abs=0.2)
    assert by_screws(count=6, diameter_mm=1.2).words == "6 screws of 1.2 mm"


def test_what_cannot_press_a_lid_is_refused() -> None:
    for diameter, torque in ((5.0, 0.2), (80.0, 15.0)):
        by_thread(diameter_mm=diameter, torque_nm=torque)
    for diameter, torque, name in ((4.99, 3.0, "thread"), (80.1, 3.0, "thread")):
        refused(by_thread, f"^{name}", diameter_mm=diameter, torque_nm=torque)
    for torque in (0.19, 15.1):
        refused(by_thread, "^torque", diameter_mm=30.0, torque_nm=torque)
    for count in (1, 17):
        refused(by_screws, "^screws", count=count, diameter_mm=1.2)


def test_rubber_as_wide_as_two_thicknesses_at_a_fifth() -> None:
    """l = 0.8: (l^-3 - l)/3 = 0.384375; held E (4/3 0.2 + k 0.384375) / 0.8, free E 0.384375."""
    sizes = {"width_mm": 1.2, "thick_mm": 0.6}
    for part, held in ((1.0, 2.441406), (0.5, 1.720703)):
        law = RubberLaw(3.0, part)
        assert law.held_mpa(0.2, **sizes) == pytest.approx(held, abs=1e-6)
        assert law.free_mpa(0.2, **sizes) == pytest.approx(1.153125)
        assert law.squeeze_at(held, **sizes) == pytest.approx(0.2, abs=1e-6)
    assert RubberLaw(3.0).squeeze_at(0.0, **sizes) == 0.0
    assert RubberLaw(3.0).squeeze_at(1e6, **sizes) == MOST
    wide = RubberLaw(3.0).held_mpa(0.2, width_mm=2.4, thick_mm=0.6)
    assert wide == pytest.approx(3.0 * (0.8 / 3.0 + 4.0 * 0.384375) / 0.8), "S is 2"


def test_hard_plastic_is_elastic_first_and_flows_last() -> None:
    """E e / (1 - nu^2) greased; under 2/sqrt 3 of its cap, hill of friction on top, it flows."""
    law, sizes = PlasticLaw(2800.0, 115.0, 0.2, 0.36), {"width_mm": 1.0, "thick_mm": 0.5}
    assert law.free_mpa(0.001, **sizes) == pytest.approx(2.8 / (1 - 0.36**2), rel=0.02)
    assert law.held_mpa(0.001, **sizes) == pytest.approx(law.free_mpa(0.001, **sizes) * 1.2, rel=0.01)
    for squeeze in (0.004, 0.02, 0.1):
        assert law.squeeze_at(law.held_mpa(squeeze, **sizes), **sizes) == pytest.approx(squeeze, rel=1e-4)
    flows = 2.0 / math.sqrt(3.0) * 115.0 * (1.0 + 0.2)
    assert law.squeeze_at(flows * 1.001, **sizes) == MOST
    assert law.squeeze_at(0.99 * flows, **sizes) < 0.3 and law.squeeze_at(0.0, **sizes) == 0.0
    assert law.squeeze_at(20.0 * flows, **sizes) == MOST


def test_what_gaskets_are_made_of() -> None:
    rubber, plastic = gasket_material("vmq"), gasket_material("acetal")
    assert (rubber.least_squeeze, rubber.most_squeeze, rubber.seating_mpa) == (0.15, 0.30, 0.0)
    assert (plastic.least_squeeze, plastic.most_squeeze, plastic.seating_mpa) == (0.0, 0.13, 10.0)
    assert (rubber.sheet_spread, plastic.sheet_spread) == (0.05, 0.03)
    assert rubber.sheets_mm == (0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.5) and rubber.ways == (CUT, READY)
    assert plastic.sheets_mm == (0.2, 0.25, 0.3, 0.4, 0.5, 0.75, 1.0) and plastic.ways == (TURNED, CUT)
    assert rubber.warmth_c == (-55.0, 200.0) and not rubber.silicone_grease and plastic.warmth_c is None
    left = plastics()["acetal"].relaxation_10y
    assert left is not None and plastic.set_part == pytest.approx(1.0 - left)
    assert gasket_material("pa6").set_part is None


@pytest.mark.parametrize(
    ("name", "low", "high"), [("outside_mm", 4.0, 80.0), ("inside_mm", 1.0, 29.8), ("height_mm", 0.1, 5.0)]
)
def test_rooms_that_there_can_be(name: str, low: float, high: float) -> None:
    given: dict[str, Any] = {"outside_mm": 30.0, "inside_mm": 3.0, "height_mm": 0.45, "stopped": True}
    for fits in (low, high):
        GasketRoom(**{**given, name: fits})
    for wrong in (low - 0.01, high + 0.01):
        refused(GasketRoom, **{**given, name: wrong})


def test_how_what_is_made_spreads() -> None:
    turned, cut = asked("acetal"), asked("acetal", way=CUT)
    assert (turned.width_u_mm, cut.width_u_mm) == (0.01, 0.05)
    assert (turned.thick_u_mm(0.5), cut.thick_u_mm(0.5)) == pytest.approx((0.01, 0.015))
    assert replace(cut, measured=True).thick_u_mm(0.5) == 0.005
    assert asked("nbr").thick_u_mm(0.6) == pytest.approx(0.03)
    sizes = GasketSizes(30.0, 28.0, 0.5)
    assert sizes.width_mm == 1.0 and sizes.middle_mm == pytest.approx(29.0 * math.pi)


def across(one: GasketSizes) -> tuple[float, float, float]:
    """Its sizes."""
    return one.outside_mm, one.inside_mm, one.thick_mm


def test_where_a_gasket_lies_and_what_does_not_go_in() -> None:
    assert across(laid_in(ROOM, 1.0, 0.6)) == pytest.approx((29.1, 27.1, 0.6))
    ledge = replace(ROOM, walled=False)
    assert across(laid_in(ledge, 1.0, 0.6)) == pytest.approx((29.9, 27.9, 0.6))
    assert laid_in(ROOM, 1.4, 0.6).width_mm == pytest.approx(1.4)
    refused(laid_in, "1.41 mm does not go into 1.50 mm; at most 1.40", room=ROOM, width_mm=1.41, thick_mm=0.6)


def resting(
    squeeze: float = 0.2, pressure: float = 20.0, force: float = 300.0, fill: float = 0.8
) -> Squeezed:
    """A gasket at rest, 0.45 high."""
    return Squeezed(squeeze, pressure, force, fill, 0.45)


@pytest.mark.parametrize(
    ("material", "met", "missed", "what"),
    [
        ("nbr", resting(0.15), resting(0.1499), of_gasket.GRIPPED),
        ("nbr", resting(0.30), resting(0.3001), of_gasket.SPOILED),
        ("acetal", resting(0.13), resting(0.1301), of_gasket.SPOILED),
        ("acetal", resting(0.0, pressure=10.0), resting(0.0, pressure=9.99), of_gasket.UNSEATED),
        ("nbr", resting(fill=0.95), resting(fill=0.9501), of_gasket.FILLED),
        ("nbr", resting(force=600.0), resting(force=600.1), of_gasket.UNDRIVEN),
    ],
)
def test_needs_of_a_gasket_just_met_and_just_missed(
    material: str, met: Squeezed, missed: Squeezed, what: str
) -> None:
    question = asked(material, replace(ROOM, height_mm=0.45))
    assert of_gasket.broken(question, met, force_n=600.0) == ()
    assert of_gasket.broken(question, missed, force_n=600.0) == (what,)


def test_a_lid_without_a_stop_may_stand_a_twentieth_off() -> None:
    for off, what in ((0.049, ()), (0.051, (of_gasket.PROUD,)), (-0.049, ()), (-0.051, (of_gasket.LOW,))):
        found = replace(resting(force=9999.0), height_mm=0.45 + off)
        assert of_gasket.broken(asked(room=OPEN), found, force_n=600.0) == what
        assert of_gasket.broken(asked(), replace(found, force_n=1.0), force_n=600.0) == ()


def test_at_rest_on_a_stop_and_under_the_force() -> None:
    """0.6 on 0.45: a quarter; width 1.2 of 1.5 fills 1.2 / (0.75 1.5). Thinner than the room: nothing."""
    sizes = GasketSizes(29.4, 27.0, 0.6)
    found = of_gasket.squeezed(asked(), sizes, height_mm=0.45, force_n=600.0)
    assert found.squeeze == pytest.approx(0.25) and found.fill == pytest.approx(1.2 / 1.125)
    assert found.height_mm == pytest.approx(0.45)
    assert found.force_n == pytest.approx(found.pressure_mpa * 1.2 * 28.2 * math.pi)
    thin = of_gasket.squeezed(asked(), replace(sizes, thick_mm=0.4), height_mm=0.45, force_n=600.0)
    assert (thin.squeeze, thin.pressure_mpa, thin.force_n, thin.height_mm) == (0.0, 0.0, 0.0, 0.4)
    free = of_gasket.squeezed(asked(room=OPEN), sizes, height_mm=0.45, force_n=600.0)
    assert free.force_n == pytest.approx(600.0, rel=1e-6) and free.height_mm < 0.6


ONE = OneOfMany(thick_mm=0.6, width_mm=1.0, wide_mm=1.5, force_n=600.0, round_mm=90.0)


def test_squeezes_between_which_one_of_many_seals() -> None:
    assert of_gasket.least_squeeze(asked(), ONE) == 0.15
    law = gasket_material("acetal").law
    least = of_gasket.least_squeeze(asked("acetal"), ONE)
    assert law.held_mpa(least, width_mm=1.0, thick_mm=0.6) == pytest.approx(10.0, rel=1e-4)
    assert of_gasket.most_squeeze(asked(), ONE) == pytest.approx(1 - 1 / 1.425), "the room is full first"
    assert of_gasket.most_squeeze(asked(), ONE._replace(wide_mm=2.0)) == 0.30
    assert of_gasket.force_at(asked(), ONE, 0.0) == of_gasket.force_at(asked(), ONE, -0.1) == 0.0
    held = gasket_material("nbr").law.held_mpa(0.2, width_mm=1.0, thick_mm=0.6)
    assert of_gasket.force_at(asked(), ONE, 0.2) == pytest.approx(90.0 * held)


def test_the_chance_of_one_of_many() -> None:
    """Over the height, sd 0.015: from 0.6 (1 - 0.2982) to 0.6 (1 - 0.15); over the force between its ends."""
    assert between(-1.96, 1.96, mean=0.0, sd=1.0) == pytest.approx(0.95, abs=1e-4)
    assert between(1.0, 3.0, mean=1.0, sd=1.0) == pytest.approx(0.4772, abs=1e-4)
    assert between(1.0, 1.0, mean=1.0, sd=1.0) == between(2.0, 1.0, mean=1.0, sd=1.0) == 0.0
    ends = {"low": 0.6 / 1.425, "high": 0.51}
    assert of_gasket.on_a_stop(asked(), ONE._replace(force_n=2000.0)) == pytest.approx(
        between(**ends, mean=0.45, sd=0.015)
    )
    assert of_gasket.on_a_stop(asked(), ONE._replace(force_n=-1.0)) == 0.0
    weak = of_gasket.on_a_stop(asked(), ONE._replace(force_n=90.0))
    reach = gasket_material("nbr").law.squeeze_at(1.0, width_mm=1.0, thick_mm=0.6)
    known = between(0.6 * (1 - reach), 0.51, mean=0.45, sd=0.015)
    assert weak == pytest.approx(known)
    free = asked(room=replace(OPEN, height_mm=0.50))
    low, high = (of_gasket.force_at(free, ONE, squeeze) for squeeze in (0.15, 0.25))
    sd = 400.0 / math.sqrt(12.0)
    assert of_gasket.by_force(free, ONE) == pytest.approx(between(low, high, mean=600.0, sd=sd))
    plastic = asked("acetal", replace(OPEN, height_mm=0.58))
    lid = of_gasket.force_at(plastic, ONE, 1 - 0.53 / 0.6)
    assert of_gasket.by_force(plastic, ONE) == pytest.approx(between(900.0, lid, mean=600.0, sd=sd))


def test_widths_and_thicknesses_that_are_tried() -> None:
    """Rubber fills 0.85 of 1.5 times what is left of 0.6; plastic: 400 N over 12.5 MPa on 28.5 pi."""
    assert usual_width(asked(), 0.6) == 0.95 and usual_width(asked(), 0.4) == 1.25
    assert usual_width(asked(room=OPEN), 0.6) == 0.95, "0.85 x 1.5 x (1 - 0.225), in steps of 0.05"
    assert usual_width(asked("acetal"), 0.5) == 0.5
    strong = asked("acetal", drive=drive(1100.0, 2000.0))
    assert usual_width(strong, 0.5) == 0.95, "1100 / (89.54 12.5) = 0.983"
    assert usual_width(replace(strong, drive=drive(9000.0, 9999.0)), 0.5) == 1.2, "0.87 of 1.4"
    narrow = replace(ROOM, inside_mm=28.8)
    assert usual_width(asked(room=narrow), 0.6) == 0.5
    refused(
        usual_width,
        "a room of 0.59 mm leaves 0.49 mm",
        question=asked(room=replace(ROOM, inside_mm=28.82)),
        thick_mm=0.6,
    )
    assert thicknesses(asked(thick_mm=0.7)) == (0.7,) and thicknesses(asked()) == (0.6, 0.5, 0.4)
    assert thicknesses(asked("acetal")) == (0.45, 0.46, 0.47, 0.48, 0.49, 0.50, 0.51)
    assert thicknesses(asked("acetal", replace(ROOM, height_mm=0.1))) == (0.10, 0.11, 0.12)
    refused(sized, "width", question=asked(width_mm=0.49), thick_mm=0.6)
    assert sized(asked(width_mm=0.5), 0.6).width_mm == pytest.approx(0.5)


def test_punches_are_set_in_steps_where_there_is_room() -> None:
    groove = replace(ROOM, inside_mm=27.02)
    assert rounded(asked(room=groove), laid_in(groove, 1.0, 0.6)) == GasketSizes(29.15, 27.15, 0.6)
    ledge = replace(ROOM, outside_mm=30.03, walled=False)
    assert rounded(asked(room=ledge), laid_in(ledge, 1.0, 0.6)) == GasketSizes(29.90, 27.90, 0.6)
    full = laid_in(groove, 1.385, 0.6)
    assert rounded(asked(room=groove), full) == GasketSizes(29.92, 27.15, 0.6)
    assert rounded(asked(room=replace(groove, outside_mm=29.96)), full).inside_mm == 27.12
    turned = asked("acetal", groove)
    assert rounded(turned, laid_in(groove, 1.0, 0.5)) == GasketSizes(29.12, 27.12, 0.5)


def test_from_which_thickness_to_which() -> None:
    """0.45 at 15 % is 0.5294, at 30 % 0.6429; under a force nothing is spoiled before the lid sinks."""
    sizes = GasketSizes(28.8, 27.1, 0.6)
    found = window(asked(), sizes)
    assert found is not None
    assert (found.low_mm, found.high_mm) == (0.53, 0.64)
    assert (found.binds_low, found.binds_high) == (of_gasket.GRIPPED, of_gasket.SPOILED)
    assert window(asked(drive=drive(1.0, 2.0)), sizes) is None
    wide = window(asked(), GasketSizes(29.8, 27.1, 0.6))
    assert wide is None or wide.binds_high == of_gasket.FILLED


def test_what_a_sized_gasket_says_of_itself() -> None:
    sizes = GasketSizes(28.9, 27.1, 0.6)
    found = judged(asked(), sizes)
    law = gasket_material("nbr").law
    free, held = (of(0.25, width_mm=0.9, thick_mm=0.6) for of in (law.free_mpa, law.held_mpa))
    assert found.pressures_mpa == pytest.approx((free, held))
    assert found.forces_n == pytest.approx(tuple(one * 0.9 * 28.0 * math.pi for one in (free, held)))
    assert found.later_mpa == pytest.approx((0.75 * free, 0.75 * held))
    assert found.warnings == ()
    narrow = judged(asked(), GasketSizes(28.6, 27.1, 0.6))
    assert narrow.sizes.width_mm == pytest.approx(0.75) and narrow.warnings == ()
    tips = judged(asked(), GasketSizes(28.5, 27.1, 0.6))
    assert [text[:38] for text in tips.warnings] == ["narrower than 1.25 times its thickness"]
    thin = judged(asked(), GasketSizes(28.1, 27.1, 0.65))
    assert thin.pressures_mpa[0] < thin.pressures_mpa[1], "a range, the lower first"
    alone = judged(asked("pa6", OPEN), GasketSizes(28.1, 27.1, 0.45))
    assert alone.later_mpa is None and alone.pressures_mpa[0] == alone.pressures_mpa[1]
    assert not judged(asked("acetal"), GasketSizes(27.8, 27.1, 0.65)).warnings[2:]


def test_help_comes_with_the_most_first() -> None:
    found = gasket_sizing(asked(room=replace(ROOM, height_u_mm=0.02)))
    brought = [int(text.rpartition("chance ")[2].rstrip(" %")) for text in found.help]
    assert brought == sorted(brought, reverse=True) and brought[-1] >= round(100 * found.chance) + 4
    sure = gasket_sizing(
        asked(room=replace(ROOM, height_u_mm=0.005), thick_mm=0.6, measured=True, drive=drive(700, 1400))
    )
    assert sure.chance >= 0.95 and sure.help == ()


FOOT = FootQuestion(
    seat_depth_mm=1.60, ledge_mm=28.40, glass_mm=29.50, edge_mm=1.28, bevel_mm=0.20, over_mm=0.0
)


def test_how_thick_a_foot_is_and_when_there_is_none() -> None:
    """Seat and height over the rim less the edge of the glass."""
    assert thickness(FOOT) == 0.32 and thickness(replace(FOOT, over_mm=-0.12)) == 0.20
    assert thickness(replace(FOOT, over_mm=1.18)) == 1.50
    refused(thickness, "it would have to be 0.19 mm thick", question=replace(FOOT, over_mm=-0.13))
    refused(thickness, "it would have to be 1.51 mm thick", question=replace(FOOT, over_mm=1.19))
    hangs = replace(FOOT, home=False)
    assert thickness(hangs) == 0.27 and thickness(replace(hangs, over_mm=0.5)) == 0.40
    for wanted in (0.20, 1.50):
        assert thickness(replace(FOOT, thick_mm=wanted)) == wanted
    for wanted in (0.19, 1.51):
        refused(thickness, question=replace(FOOT, thick_mm=wanted))


def test_how_wide_the_hole_of_a_foot_is() -> None:
    """Level with the ledge, up to the next 0.05; 0.20 clear on the radius of what turns within it."""
    assert [bore(replace(FOOT, ledge_mm=ledge)) for ledge in (28.40, 28.41, 28.45)] == [28.40, 28.45, 28.45]
    assert [bore(replace(FOOT, through_mm=one)) for one in (28.00, 28.01, 28.10)] == [28.40, 28.45, 28.50]
    assert bore(replace(FOOT, inside_mm=28.13, through_mm=28.1)) == 28.13


def test_what_is_to_be_looked_at_on_a_foot() -> None:
    """29.50 less two bevels of 0.20 stands on 28.40: 0.35 wide; 0.20 is the least."""
    assert foot_sizing(FOOT).warnings == () and foot_sizing(FOOT).bearing.width_mm == pytest.approx(0.35)
    assert foot_sizing(replace(FOOT, inside_mm=28.70)).bearing.width_mm == pytest.approx(0.20)
    refused(foot_sizing, "would stand on 0.19 mm", question=replace(FOOT, inside_mm=28.72))
    refused(foot_sizing, "would stand on 0.00 mm", question=replace(FOOT, inside_mm=29.40))
    said = {
        (0.25, 28.40): 0, (0.24, 28.40): 1, (0.60, 28.40): 0, (0.61, 28.40): 1, (0.3, 28.39): 1,
    }  # fmt: skip
    for (thick, inside), count in said.items():
        found = foot_sizing(replace(FOOT, thick_mm=thick, inside_mm=inside))
        assert len(found.warnings) == count, (thick, inside)
    near = replace(FOOT, ledge_mm=28.0, inside_mm=28.40)
    assert foot_sizing(replace(near, through_mm=28.00)).warnings == ()
    assert "0.20 mm clear" in foot_sizing(replace(near, through_mm=28.01)).warnings[0]
    assert "hangs in the wall" in foot_sizing(replace(FOOT, home=False)).warnings[0]
    assert foot_sizing(replace(FOOT, over_mm=0.15)).stands_over_mm == 0.15


def test_what_the_water_does_to_a_foot() -> None:
    """1 MPa on pi/4 29.5^2 is 683.5 N; over pi/4 (29.1^2 - 28.4^2) 21.6 MPa; E = 2800, nu = 0.363."""
    found = foot_sizing(replace(FOOT, plastic=plastics()["acetal"]))
    assert found.load_n == pytest.approx(683.5, abs=0.1) and found.stress_mpa == pytest.approx(
        21.62, abs=0.01
    )
    assert found.sinks_mm == pytest.approx(
        0.32 * 21.62 * (1 - 0.363**2) / 2800 / (1 + 0.22 * 0.32 / 0.35), rel=0.09
    )
    assert found.sinks_mm is not None and found.years_mm is not None
    assert found.years_mm > 3.0 * found.sinks_mm and found.gives_way == ""
    assert found.warnings == (), "under 0.02 mm in ten years"
    deep = foot_sizing(replace(FOOT, pressure_bar=20.0, plastic=plastics()["acetal"]))
    assert deep.years_mm is not None and "go down 0.03 mm in ten years" in deep.warnings[0]
    years = foot_sizing(replace(FOOT, pressure_bar=30.0, plastic=plastics()["acetal"]))
    assert years.gives_way == "in years of 30 bar" and years.years_mm is None
    soft = foot_sizing(replace(FOOT, pressure_bar=30.0, plastic=plastics()["ptfe"]))
    assert soft.gives_way == "at 30 bar" and soft.sinks_mm is None and "gives way" in soft.warnings[0]
    unknown = foot_sizing(replace(FOOT, plastic=plastics()["pvdf"]))
    assert unknown.years_mm is None and unknown.sinks_mm is not None and unknown.gives_way == ""
    assert foot_sizing(FOOT).sinks_mm is None


def test_a_foot_flows_where_its_cap_is_reached() -> None:
    """2/sqrt 3 of the cap, times what it spreads by: 1 + 0.22 0.5 / 0.5."""
    law, bearing = FootLaw(2000.0, 100.0, 0.3), Bearing(30.0, 29.0, 0.5)
    cap = 2.0 / math.sqrt(3.0) * 100.0
    half = law.sinks_mm(bearing, 0.5 * 1.22 * cap)
    assert half == pytest.approx(math.log(2.0) * cap * (1 - 0.09) / 2000.0 * 0.5)
    assert law.sinks_mm(bearing, 0.25 * 1.22 * cap, left=0.5) == pytest.approx(half)
    assert law.sinks_mm(bearing, 1.2201 * cap) is None and law.sinks_mm(bearing, 1.2199 * cap) is not None


def known(mm: float, limit_mm: float = 0.0) -> Length:
    """A length."""
    return Length(mm=mm, limit_mm=limit_mm)


def groove(
    lies: str = FACE, inner: float = 26.5, outer: float = 28.6, other: float = 0.6, **more: Any
) -> Housing:
    """A groove that is known for certain."""
    return Housing(lies=lies, inner=known(inner), outer=known(outer), other=known(other), **more)


def lying(stretch: float = 0.02, squeeze: float = 0.2, fill: float = 0.7, cold: float = 0.1) -> InGroove:
    """An O-ring in its groove."""
    return InGroove(stretch, 0.75, squeeze, fill, cold, cold)


@pytest.mark.parametrize(
    ("housing", "met", "missed", "what"),
    [
        (groove(), lying(0.0), lying(-0.001), of_oring.SLACK),
        (groove(), lying(0.05), lying(0.0501), of_oring.STRAINED),
        (groove(MALE), lying(0.08), lying(0.0801), of_oring.STRAINED),
        (groove(FEMALE), lying(-0.03), lying(-0.0301), of_oring.BUCKLED),
        (groove(FEMALE), lying(0.0), lying(0.001), of_oring.SHORT),
        (groove(), lying(squeeze=0.15), lying(squeeze=0.1499), of_oring.GRIPPED),
        (groove(), lying(squeeze=0.32), lying(squeeze=0.3201), of_oring.CRUSHED),
        (groove(MALE), lying(squeeze=0.12), lying(squeeze=0.1199), of_oring.GRIPPED),
        (groove(MALE), lying(squeeze=0.30), lying(squeeze=0.3001), of_oring.CRUSHED),
        (groove(FEMALE), lying(0.0, squeeze=0.30), lying(0.0, squeeze=0.3001), of_oring.CRUSHED),
        (groove(moving=True), lying(squeeze=0.08), lying(squeeze=0.0799), of_oring.GRIPPED),
        (groove(moving=True), lying(squeeze=0.25), lying(squeeze=0.2501), of_oring.CRUSHED),
        (groove(), lying(cold=0.05), lying(cold=0.0499), of_oring.SPENT),
        (groove(), lying(fill=0.85), lying(fill=0.8501), of_oring.FILLED),
    ],
)
def test_needs_of_an_oring_just_met_and_just_missed(
    housing: Housing, met: InGroove, missed: InGroove, what: str
) -> None:
    assert of_oring.broken(housing, met) == () and of_oring.broken(housing, missed) == (what,)


def test_worst_tolerances_fill_the_groove() -> None:
    assert of_oring.broken(groove(), lying(fill=0.9), most_fill=0.85) == ()
    assert of_oring.broken(groove(), lying(), most_fill=0.86) == (of_oring.FILLED,)


@pytest.mark.parametrize(
    ("name", "low", "high"), [("inner", 0.4, 28.4), ("outer", 26.7, 62.0), ("other", 0.1, 4.0)]
)
def test_grooves_that_there_can_be(name: str, low: float, high: float) -> None:
    given: dict[str, Any] = {"inner": 26.5, "outer": 28.6, "other": 0.6, "corner_mm": 0.0}
    for fits in (low, high):
        groove(**{**given, name: fits})
    for wrong in (low - 0.01, high + 0.01):
        refused(groove, **{**given, name: wrong})
    groove(corner_mm=0.525)
    for wrong in (-0.01, 0.53):
        refused(groove, "corner", corner_mm=wrong)


def test_depth_and_width_of_each_kind_of_groove() -> None:
    across = {
        one: (groove(one).depth_mm, groove(one).width_mm, groove(one).rests_on_mm)
        for one in (FACE, MALE, FEMALE)
    }
    assert across[FACE] == pytest.approx((0.6, 1.05, 26.5))
    assert across[MALE] == pytest.approx((1.05, 0.6, 26.5))
    assert across[FEMALE] == pytest.approx((1.05, 0.6, 28.6))


def test_years_and_cold_by_hand() -> None:
    """1e-4 per K: the cord shrinks by (3e-4 - 16e-6)/2 30 = 0.00426, the depth by 0.00048."""
    ageing = Ageing(0.25, 1e-4)
    assert ageing.cold_part == pytest.approx(0.99574 / 0.99952)
    found = in_groove(
        inside_mm=26.5, cord_mm=0.8, housing=groove(corner_mm=0.1), at=(26.5, 28.6, 0.6), ageing=ageing
    )
    assert (found.stretch, found.cord_mm, found.squeeze) == pytest.approx((0.0, 0.8, 0.25))
    assert found.later == pytest.approx(1 - 0.6 / 0.75)
    assert found.later_cold == pytest.approx(1 - 0.6 / (0.75 * 0.99574 / 0.99952))
    assert found.fill == pytest.approx(0.50265 / (0.63 - 2 * 0.2146 * 0.01), rel=1e-4)
    loose = in_groove(inside_mm=26.5, cord_mm=0.5, housing=groove(), at=(26.5, 28.6, 0.6), ageing=ageing)
    assert (loose.squeeze, loose.later) == pytest.approx((-0.2, 0.0)), "nothing to set"


def test_cords_that_work_end_where_a_need_is_missed() -> None:
    """In a face 0.6 deep a certain ring of 26.5: 0.6 / 0.85 is 15 %; of 0.63 mm2 85 % are full."""
    for housing, inside in ((groove(corner_mm=0.0), 26.5), (groove(MALE, 2.1, 3.0, 0.75), 2.05)):
        question = OringQuestion(housing=housing, rubber="nbr")
        found = judging.window(question, Oring(inside=known(inside), cord=known(0.6)))
        assert found is not None
        assert (found.binds_low, found.binds_high) == (of_oring.GRIPPED, of_oring.FILLED)
        ageing = of_oring.ageing_of(question.of)
        for cord, what in ((found.low_mm - 1e-4, 1), (found.low_mm + 1e-4, 0), (found.high_mm - 1e-4, 0)):
            ring = Oring(inside=known(inside), cord=known(cord))
            assert len(of_oring.broken(housing, as_expected(ring, housing, ageing))) == what
    face = judging.window(
        OringQuestion(housing=groove(corner_mm=0.0), rubber="nbr"), stock.as_sold(26.5, 0.75)
    )
    assert face is not None
    assert face.low_mm == pytest.approx(0.6 / 0.85) and face.high_mm == pytest.approx(
        math.sqrt(0.5355 * 4 / math.pi)
    )
    wide = OringQuestion(housing=groove(outer=30.0), rubber="nbr")
    crushed = judging.window(wide, stock.as_sold(26.5, 0.75))
    assert crushed is not None and crushed.binds_high == of_oring.CRUSHED
    assert crushed.high_mm == pytest.approx(0.6 / 0.68)
    assert judging.window(wide, stock.as_sold(26.6, 0.75)) is None, "slack, whatever its cord"
    outer = OringQuestion(housing=groove(FEMALE, 2.0, 3.0, 0.9), rubber="nbr")
    stem = judging.window(outer, stock.as_sold(1.85, 0.6))
    assert stem is not None
    assert (stem.low_mm, stem.high_mm) == pytest.approx((0.575, 0.6214), abs=1e-4), (
        "3.00 and 3.00/0.97, halved"
    )


def test_the_chance_of_what_is_certain() -> None:
    """With no limits but the set, in its range: all or nothing; half where its cord stands at its end."""
    rubber = rubbers()["nbr"]
    for cord, likely in ((0.75, 1.0), (0.69, 0.0), (0.95, 0.0)):
        ring = Oring(inside=known(26.2), cord=known(cord))
        assert of_oring.chance(groove(), ring, rubber, 64) == pytest.approx(likely)
    wide = Oring(inside=known(26.2), cord=known(0.75, 0.2))
    low, high = of_oring.cord_ends(
        groove(), of_oring.OneGroove(26.2, (26.5, 28.6, 0.6), of_oring.ageing_of(rubber))
    )
    sd = 0.2 / math.sqrt(3.0)
    part = (math.erf((high - 0.75) / sd / math.sqrt(2)) - math.erf((low - 0.75) / sd / math.sqrt(2))) / 2
    assert of_oring.chance(groove(), wide, rubber, 64) == pytest.approx(part, abs=0.02)
    assert of_oring.set_range(rubber) == (0.15, 0.4)
    assert of_oring.cord_ends(groove(), of_oring.OneGroove(26.2, (26.5, 28.6, 0.0), Ageing(0.2, 1e-4))) == (
        1.0,
        0.0,
    )
    old = of_oring.cord_ends(
        groove(moving=True), of_oring.OneGroove(26.5, (26.5, 29.5, 0.6), Ageing(0.8, 1e-4))
    )
    kept = 1.0 / (0.99574 / 0.99952 * 0.95) - 1.0
    assert old[0] == pytest.approx(0.6 * (1.0 + kept / 0.2)), (
        "what is left after years binds, not the squeeze"
    )


def test_worst_tolerances_by_hand() -> None:
    """Thin cord, large groove; thick cord, small groove: 0.70 in 0.62, 0.80 in 0.58."""
    housing = Housing(lies=FACE, inner=known(26.5, 0.1), outer=known(28.6, 0.1), other=known(0.6, 0.02))
    ring = Oring(inside=known(26.3, 0.2), cord=known(0.75, 0.05))
    worst = at_worst(ring, housing, Ageing(0.25, 1e-4))
    thin = 0.70 * math.sqrt((26.1 + 0.70) / (26.4 + 0.70))
    thick = 0.80 * math.sqrt((26.5 + 0.80) / (26.6 + 0.80))
    assert (worst.least_squeeze, worst.most_squeeze) == pytest.approx((1 - 0.62 / thin, 1 - 0.58 / thick))
    room = 0.58 * 0.95 - 2 * (1 - math.pi / 4) * 0.05**2
    assert worst.most_fill == pytest.approx(math.pi / 4 * thick**2 / room)
    assert worst.least_later_cold < 1 - 0.62 / thin


def test_stock_and_what_its_limits_go_by() -> None:
    """0.009 d^0.95 + 0.11: 10 mm 0.1902, 26 mm 0.3088."""
    assert stock.CORDS_MM[0] == 0.30 and stock.CORDS_MM[-1] == 1.00 and len(stock.CORDS_MM) == 15
    assert [round(stock.inside_limit_mm(one), 4) for one in (10.0, 26.0)] == [0.1902, 0.3088]
    assert stock.cord_limit_mm(0.80) == (0.08, "standard") and stock.cord_limit_mm(0.79) == (
        0.05,
        "judgement",
    )
    assert list(stock.insides_near(26.1)) == [26.0, 26.5, 25.5, 27.0, 25.0, 27.5]
    assert list(stock.insides_near(10.0))[:3] == [10.0, 9.9, 10.1]
    assert list(stock.insides_near(10.05))[:2] == [10.0, 10.5]
    assert list(stock.insides_near(0.5)) == [0.5, 0.4, 0.6, 0.7, 0.8][: len(list(stock.insides_near(0.5)))]
    assert list(stock.insides_near(70.0, each_way=0)) == [70.0, 70.5]
    held = stock.in_hand(25.9, 0.752, tool_limit_mm=0.004)
    assert (held.inside.limit_mm, held.cord.limit_mm, held.inside_by) == (0.03, 0.01, "reading")


def test_which_sizes_are_tried() -> None:
    """0.6 deep: 15 % less a third of it to 32 % and a third more: 0.66 to 1.06."""
    question = OringQuestion(housing=groove(), rubber="nbr")
    assert list(oring_sizing.cords(question)) == [0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00]
    assert list(oring_sizing.cords(replace(question, cord_step_mm=0.10))) == [0.70, 0.80, 0.90, 1.00]
    assert judging.wanted_inside_mm(groove(), 0.75) == pytest.approx(26.5 / 1.025)
    assert judging.wanted_inside_mm(groove(MALE), 0.75) == pytest.approx(26.5 / 1.025), "1 to 5 %, not 8"
    assert judging.wanted_inside_mm(groove(FEMALE), 0.75) == pytest.approx(28.6 / 0.985 - 1.5)
    deep = OringQuestion(housing=groove(other=1.2), rubber="nbr")
    said = "cord: a depth of 1.20 mm wants a cord of 1.41 to 1.76 mm; 0.30 to 1.00 mm are to be had"
    assert oring_sizing.no_size(deep) == said
    refused(oring_sizing.oring_sizing, question=deep)
    assert oring_sizing.oring_sizing(replace(deep, in_hand=stock.in_hand(26.0, 1.5))).others == ()


def test_the_better_of_two_sizes() -> None:
    """By chance in whole points, then fewer needs missed, then a squeeze nearer the middle, 23.5 %."""
    question = OringQuestion(housing=groove(), rubber="nbr")
    one = judging.judged(question, stock.as_sold(26.0, 0.75), 16)
    better = replace(one, chance=0.804, state=replace(one.state, squeeze=0.22))
    same = replace(one, chance=0.796, state=replace(one.state, squeeze=0.24))
    assert oring_sizing.preferred(better)[0] == oring_sizing.preferred(same)[0] == -0.8
    assert oring_sizing.preferred(same) < oring_sizing.preferred(better), (
        "half a point off, not one and a half"
    )
    assert oring_sizing.preferred(same)[2] == pytest.approx(0.005)
    assert oring_sizing.preferred(replace(better, broken=())) < oring_sizing.preferred(
        replace(same, broken=("x",))
    )


def test_what_is_said_of_an_oring_before_it_is_taken() -> None:
    question = OringQuestion(housing=groove(MALE, 2.1, 3.0, 0.75), rubber="nbr")
    five = judging.judged(question, stock.in_hand(2.0, 0.55), 16)
    assert five.state.stretch == pytest.approx(0.05) and five.warnings == (), "5 % is most of what lasts"
    more = judging.judged(question, stock.in_hand(1.99, 0.55), 16)
    assert more.warnings == ("stretched by 6 %: such a ring ages sooner",)
    spent = replace(five, worst=replace(five.worst, least_later_cold=0.0))
    assert spent.warnings == ("at worst tolerances no squeeze is left after years, in the cold",)
    assert replace(spent, broken=(of_oring.SPENT,)).warnings == (of_oring.SPENT,)
    full = replace(five, broken=(of_oring.FILLED,))
    assert full.warnings == ("the groove is too full at worst tolerances",)
    assert replace(full, state=replace(five.state, fill=0.85)).warnings == full.warnings
    assert replace(full, state=replace(five.state, fill=0.851)).warnings == (of_oring.FILLED,)
    refused(lambda: OringQuestion(housing=groove(), rubber="cork").of, "choose another")


def test_what_would_help_an_oring() -> None:
    assert [remedies.nearest(one, known(26.0, 0.3)) for one in (25.0, 25.9, 27.0)] == [25.7, 25.9, 26.3]
    limits: dict[str, Any] = {
        name: known(getattr(groove(), name).mm, 0.03) for name in ("inner", "outer", "other")
    }
    coarse = replace(groove(), **limits)
    sold = stock.as_sold(26.0, 0.75)
    found = judging.judged(OringQuestion(housing=coarse, rubber="nbr"), sold, 16)
    ways = {words: (question, ring) for words, question, ring in remedies.other_ways(found)}
    finer, ring = ways["measure the groove with pins or a micrometer"]
    assert finer.housing.other.limit_mm == 0.005 and ring == found.ring
    assert {one.rubber for one, _ in ways.values()} == {"nbr", "fkm", "epdm", "vmq"}
    fine: dict[str, Any] = {name: replace(one, limit_mm=0.005) for name, one in limits.items()}
    exact = replace(coarse, **fine)
    sized_ = judging.judged(OringQuestion(housing=exact, rubber="nbr"), sold, 16)
    assert not any("pins" in words for words, *_ in remedies.other_ways(sized_))
    held = oring_sizing.oring_sizing(
        OringQuestion(housing=coarse, rubber="nbr", in_hand=stock.in_hand(26.0, 0.9))
    )
    first, *_ = remedies.other_ways(held)
    assert first[0] == "a new one from stock, as proposed" and first[1].in_hand is None
    brought = [float(text.rpartition("chance ")[2].rstrip(" %")) for text in held.help]
    assert brought == sorted(brought, reverse=True) and min(brought) >= 100 * held.chance + 4
    best = remedies.best_of(found)
    assert best is not None and abs(best.cord.mm - found.ring.cord.mm) <= found.ring.cord.limit_mm + 1e-9
    assert list(remedies.helped(replace(found, chance=0.95))) == []


@pytest.mark.parametrize(
    ("lies", "rests", "inside"), [(MALE, 2.1, 2.0), (FACE, 26.5, 26.0), (FEMALE, 3.0, 1.9)]
)
def test_a_free_cord_is_found_to_the_tenth_of_a_micrometre(lies: str, rests: float, inside: float) -> None:
    found = free_cord_mm(0.55, lies=lies, rests_on_mm=rests, inside_mm=inside)
    middle = rests - found if lies == FEMALE else rests + found
    assert found * math.sqrt((inside + found) / middle) == pytest.approx(0.55, abs=1e-4)

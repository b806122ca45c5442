"""The flat gasket sized: its needs one by one, what binds, what helps, and what is refused."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules.checks import OutOfRange
from rules.gasket.drive import by_screws, by_thread
from rules.gasket.law import RubberLaw
from rules.gasket.materials import CUT, READY, TURNED, gasket_material, gasket_materials
from rules.gasket.needs import FILLED, GRIPPED, LOW, PROUD, SPOILED, UNDRIVEN, UNSEATED, broken, squeezed
from rules.gasket.room import CLEARANCE_MM, GasketQuestion, GasketRoom, GasketSizes
from rules.gasket.sizing import LEAST_WIDTH_MM, gasket_sizing, sized
from rules.tables import plastics, rubbers

THREAD = by_thread(diameter_mm=31.0, torque_nm=3.0)
GROOVE = GasketRoom(outside_mm=30.2, inside_mm=27.6, height_mm=0.45, stopped=True)
OPEN = replace(GROOVE, stopped=False)
WEAK = by_thread(diameter_mm=31.0, torque_nm=2.0)


def question(material: str, room: GasketRoom = GROOVE, **more: object) -> GasketQuestion:
    """A question with a thread."""
    one = gasket_material(material)
    given = {"room": room, "drive": THREAD, "material": one, "way": one.ways[0], **more}
    return GasketQuestion(**given)  # type: ignore[arg-type]


def missed(asked: GasketQuestion, *, width: float, thick: float) -> tuple[str, ...]:
    """What a gasket of a width and a thickness breaks."""
    sizes = GasketSizes(28.9 + width, 28.9 - width, thick)
    force = asked.drive.mid_n
    found = squeezed(asked, sizes, height_mm=asked.room.height_mm, force_n=force)
    return broken(asked, found, force_n=force)


@pytest.mark.parametrize(
    ("material", "room", "width", "thick", "what"),
    [
        ("nbr", GROOVE, 0.8, 0.60, ()),
        ("nbr", GROOVE, 0.8, 0.52, (GRIPPED,)),
        ("nbr", GROOVE, 0.7, 0.65, (SPOILED,)),
        ("nbr", GROOVE, 1.0, 0.60, (FILLED,)),
        ("acetal", GROOVE, 0.5, 0.46, (UNDRIVEN,)),
        ("acetal", GROOVE, 0.5, 0.45, (UNSEATED,)),
        ("acetal", OPEN, 0.5, 0.46, ()),
        ("acetal", OPEN, 0.8, 0.46, (UNSEATED,)),
        ("acetal", OPEN, 0.5, 0.51, (PROUD,)),
        ("acetal", OPEN, 0.5, 0.39, (LOW,)),
    ],
)
def test_each_need(
    material: str, room: GasketRoom, width: float, thick: float, what: tuple[str, ...]
) -> None:
    assert missed(question(material, room), width=width, thick=thick) == what


def test_rubber_keeps_its_volume() -> None:
    """As much wider as it is thinner."""
    asked = question("nbr")
    sizes = GasketSizes(29.3, 27.7, 0.6)
    found = squeezed(asked, sizes, height_mm=0.45, force_n=500.0)
    assert found.fill * asked.room.width_mm * found.height_mm == pytest.approx(sizes.width_mm * 0.6)


def test_a_small_squeeze_is_that_of_a_rubber_ring_as_published() -> None:
    """K = 4/3 E pi Dm b/t (1 + k S^2), S = (D - d)/(4 t)."""
    law, outside, inside, thick = RubberLaw(5.72, 0.54), 30.0, 28.0, 0.8
    sizes = GasketSizes(outside, inside, thick)
    pressure = law.held_mpa(1e-7, width_mm=sizes.width_mm, thick_mm=thick)
    stiffness = pressure * sizes.width_mm * sizes.middle_mm / (1e-7 * thick)
    shape = (outside - inside) / (4.0 * thick)
    mean, wide = (outside + inside) / 2.0, (outside - inside) / 2.0
    printed = 4.0 / 3.0 * 5.72 * math.pi * mean * wide / thick * (1.0 + 0.54 * shape**2)
    assert stiffness == pytest.approx(printed, rel=1e-6)


def test_a_stop_wants_rubber_and_without_one_hard_plastic_takes_the_force() -> None:
    rubber, plastic = gasket_sizing(question("nbr")), gasket_sizing(question("acetal"))
    assert rubber.chance > 0.8 > 0.1 > plastic.chance
    assert any(text.startswith("nitrile rubber") for text in plastic.help)
    rubber, plastic = gasket_sizing(question("nbr", OPEN)), gasket_sizing(question("acetal", OPEN))
    assert plastic.chance > 0.8 > 0.2 > rubber.chance
    assert any(text.startswith("acetal") for text in rubber.help)


def test_the_window_says_what_binds() -> None:
    found = gasket_sizing(question("nbr"))
    assert found.window is not None
    assert (found.window.low_mm, found.window.binds_low) == (0.53, GRIPPED)
    assert (found.window.high_mm, found.window.binds_high) == (0.64, SPOILED)
    assert found.window.low_mm <= found.sizes.thick_mm <= found.window.high_mm


@pytest.mark.parametrize("key", list(gasket_materials()))
@pytest.mark.parametrize("room", [GROOVE, OPEN, replace(GROOVE, walled=False)])
def test_what_is_proposed_goes_in_and_rests_where_the_water_presses_it(key: str, room: GasketRoom) -> None:
    one = gasket_material(key)
    for way in one.ways:
        found = sized(question(key, room, way=way), 0.5)
        assert room.inside_mm <= found.inside_mm < found.outside_mm <= room.outside_mm
        assert found.width_mm >= LEAST_WIDTH_MM - 1e-9
        near = found.inside_mm - room.inside_mm if room.walled else room.outside_mm - found.outside_mm
        assert 2.0 * CLEARANCE_MM - 1e-9 <= near < 0.2


def test_each_remedy_brings_what_is_said() -> None:
    """Measured, the sheet is known; a depth micrometer knows the room."""
    first = gasket_sizing(question("nbr"))
    said = dict(text.split(": chance ") for text in first.help)
    assert {"measure the sheet", "measure the depth with a depth micrometer"} <= set(said)
    measured = gasket_sizing(question("nbr", thick_mm=first.sizes.thick_mm, measured=True))
    finer = gasket_sizing(question("nbr", replace(GROOVE, height_u_mm=0.005)))
    assert f"{100 * measured.chance:.0f} %" == said["measure the sheet"]
    assert f"{100 * finer.chance:.0f} %" == said["measure the depth with a depth micrometer"]
    weak = gasket_sizing(question("acetal", OPEN, drive=WEAK))
    assert any(text.startswith("a third more force") for text in weak.help)


def test_force_is_a_range_and_presses_what_is_between() -> None:
    assert THREAD.low_n < THREAD.mid_n < THREAD.high_n
    assert by_screws(count=4, diameter_mm=1.2).low_n == pytest.approx(4 * 73.2, abs=0.2)
    found = gasket_sizing(question("nbr"))
    assert found.forces_n[0] < found.forces_n[1] < THREAD.low_n
    assert found.later_mpa is not None and max(found.later_mpa) < max(found.pressures_mpa)


def test_what_cannot_be_is_refused() -> None:
    narrow = replace(GROOVE, inside_mm=29.2)
    with pytest.raises(OutOfRange, match="tears"):
        gasket_sizing(question("nbr", narrow))
    with pytest.raises(OutOfRange, match="does not go into"):
        gasket_sizing(question("nbr", width_mm=1.3))
    with pytest.raises(OutOfRange, match="inside of the room"):
        replace(GROOVE, inside_mm=30.1)
    with pytest.raises(OutOfRange, match="size of screw"):
        by_screws(count=4, diameter_mm=3.0)
    with pytest.raises(OutOfRange, match="choose another"):
        gasket_material("cork")


def test_materials_are_those_of_the_tables() -> None:
    found = gasket_materials()
    known = [one.key for one in plastics().values() if one.youngs_modulus_mpa and one.stress_cap_mpa]
    assert list(found) == [*rubbers(), *known]
    assert all(one.ways == ((CUT, READY) if one.rubber else (TURNED, CUT)) for one in found.values())
    assert [one.key for one in found.values() if not one.silicone_grease] == ["vmq"]

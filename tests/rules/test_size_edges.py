"""Where a word of the sizing begins and ends: press, glass, budget, warnings and stock, figures by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rules import tables
from rules.ring import RingSizes
from rules.sizing import glass, pressing
from rules.sizing.climate import swelling_um
from rules.sizing.glass_order import StockGlass, edge_mm, glasses_to_order, thickness_mm
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from rules.sizing.thumb import entry_chamfer_mm, free_height_mm, propose, usual_interference_mm

CASED = SizingQuestion(
    case_bore_mm=31.46,
    glass_mm=30.44,
    height_mm=1.3,
    case_metal="titanium2",
    case_wall_mm=2.5,
    case_height_mm=3.5,
    glass_material="sapphire",
    glass_thickness_mm=1.4,
)
GIVEN = replace(CASED, outside_mm=31.46, bore_mm=30.34)
"""Gap 0.51, wall 0.56."""


def said(answer: Sizing, words: str) -> bool:
    """Whether a warning says so."""
    return any(words in one for one in answer.warnings)


def test_words_for_a_force_begin_where_they_say() -> None:
    """By thumb to 100 N, a light press to 500, a firm one to 2000 (own judgement)."""
    edges = ((100.0, "by thumb"), (500.0, "light press"), (2000.0, "firm press"))
    for force, words in edges:
        assert pressing.force_words(force) == words != pressing.force_words(force + 0.1)
    assert pressing.force_words(2000.1) == "screw press and full support"


@pytest.mark.parametrize(("times", "warned"), [(0.99, True), (1.01, False), (1.4, False)])
def test_a_press_is_warned_of_from_what_it_gives(times: float, warned: bool) -> None:
    force = size(GIVEN).fit.seating_force_n.mid
    assert force is not None
    answer = size(replace(GIVEN, press_force_n=times * force))
    assert said(answer, "more than the press gives") == warned
    assert not said(size(replace(GIVEN, press_force_n=times * force, rigid=True)), "more than the press")


def test_the_temperature_has_its_line_in_the_budget() -> None:
    """1 K on (31.46 a_titanium - 30.44 a_sapphire)/2."""
    lines = {one.name: one for one in size(CASED).resolved.budget.components}
    metal, pane = tables.metals()["titanium2"].cte_per_k, tables.glasses()["sapphire"].cte_per_k
    assert metal is not None and pane is not None
    moves = abs(31.46 * metal - 30.44 * pane) / 2
    assert lines["temperature"].u_mm == pytest.approx(moves) and moves > 2e-5
    assert lines["case bore"].u_mm == pytest.approx(0.04 / 2 / 2)
    assert lines["glass"].u_mm == pytest.approx(0.02 / 2 / 2)
    assert lines["turning"].u_mm == pytest.approx(0.010 / 2)
    total = math.fsum(one.u_mm**2 for one in lines.values())
    assert all(one.share == pytest.approx(one.u_mm**2 / total) for one in lines.values())
    without = {
        one.name: one.u_mm for one in size(replace(CASED, glass_material=None)).resolved.budget.components
    }
    assert without["temperature"] == 0.0


@pytest.mark.parametrize(
    ("squeeze_pct", "words"),
    [
        (-1.0, "loose: it holds nothing"),
        (0.0, "loose: it holds nothing"),
        (4.9, "under 5 %: it may leak"),
        (13.1, "over 13 %: may shave"),
    ],
)
def test_what_is_said_of_a_squeeze(squeeze_pct: float, words: str) -> None:
    wall = 0.51 / (1 - squeeze_pct / 100)
    answer = size(replace(CASED, outside_mm=31.46, bore_mm=31.46 - 2 * wall))
    assert said(answer, words)


@pytest.mark.parametrize("squeeze_pct", [5.0, 9.0, 13.0])
def test_nothing_is_said_of_a_squeeze_inside_the_band(squeeze_pct: float) -> None:
    plain = SizingQuestion(case_bore_mm=31.46, glass_mm=30.44, outside_mm=31.46)
    answer = size(replace(plain, bore_mm=31.46 - 2 * 0.51 / (1 - squeeze_pct / 100)))
    assert answer.warnings == ()


@pytest.mark.parametrize(
    ("inside", "outside", "words"),
    [
        (
            {"outside_mm": 31.51, "bore_mm": 30.39},
            {"outside_mm": 31.52, "bore_mm": 30.40},
            "larger than the seat",
        ),
        (
            {"outside_mm": 31.41, "bore_mm": 30.29},
            {"outside_mm": 31.40, "bore_mm": 30.28},
            "smaller than the seat",
        ),
        ({"glass_mm": 29.06}, {"glass_mm": 29.05}, "gap over 1.2 mm"),
        ({"glass_edge_mm": 0.6}, {"glass_edge_mm": 0.59}, "under 0.6 mm: little for the ring"),
        ({"ovality_mm": 0.08}, {"ovality_mm": 0.081}, "out of round"),
        ({"old_glass": "same"}, {"old_glass": "other"}, "new glass thinner than the old one"),
        ({"material": "acetal"}, {"material": "pa66"}, "swells in water"),
        ({"material": "acetal"}, {"material": "ptfe"}, "not advised for this ring"),
    ],
)
def test_a_warning_begins_where_it_says(
    inside: dict[str, float], outside: dict[str, float], words: str
) -> None:
    plain = replace(CASED, height_mm=None)
    assert not said(size(replace(plain, **inside)), words)  # type: ignore[arg-type]
    assert said(size(replace(plain, **outside)), words)  # type: ignore[arg-type]


def test_a_slight_wall_and_a_low_ring_are_said() -> None:
    thin = SizingQuestion(case_bore_mm=31.0, glass_mm=30.46, outside_mm=31.0)
    assert said(size(replace(thin, bore_mm=30.41)), "wall under 0.30 mm")
    assert not said(size(replace(thin, bore_mm=30.39)), "wall under 0.30 mm")
    shallow = SizingQuestion(case_bore_mm=31.46, glass_mm=30.44, seat_depth_mm=0.4)
    assert size(shallow).ring.height_mm == 0.25 and said(size(shallow), "ring under 0.3 mm high")
    assert not said(size(replace(shallow, seat_depth_mm=0.5)), "ring under 0.3 mm high")


def test_room_left_and_a_ring_that_stands_proud() -> None:
    """The room less the height and what the pressed ring grows by."""
    answer = size(replace(GIVEN, seat_depth_mm=1.5, glass_edge_mm=2.0))
    grown = answer.fit.axial_growth_mm
    assert grown is not None and answer.consequences.room_left_mm == pytest.approx(1.5 - 1.3 - grown)
    just = 1.3 + grown
    assert not said(size(replace(GIVEN, seat_depth_mm=just + 1e-6)), "stands proud")
    assert said(size(replace(GIVEN, seat_depth_mm=just - 1e-6)), "stands proud")
    assert size(GIVEN).consequences.room_left_mm is None


def test_a_chamfer_for_a_glass_that_starts_askew() -> None:
    """Askew by a degree a disc reaches (1.4 sin 1 - 6 (1 - cos 1))/2 further out, less half a 0.10 bevel."""
    lean = (1.4 * math.sin(math.radians(1)) - 6.0 * (1 - math.cos(math.radians(1)))) / 2
    found = pressing.entry_chamfer_mm(interference_mm=0.05, glass_mm=6.0, edge_mm=1.4)
    assert found == pytest.approx(0.05 + lean - 0.05) and lean > 0.01
    unknown = pressing.entry_chamfer_mm(interference_mm=0.2, glass_mm=6.0, edge_mm=None)
    assert unknown == pressing.entry_chamfer_mm(interference_mm=0.2, glass_mm=6.0, edge_mm=1.0)
    assert pressing.entry_chamfer_mm(interference_mm=0.0, glass_mm=40.0, edge_mm=0.3) == 0.0
    assert pressing.entry_chamfer_mm(interference_mm=0.2, glass_mm=75.0, edge_mm=0.3) == pytest.approx(0.15)


@pytest.mark.parametrize(
    ("yields", "brittle", "unknown", "words"),
    [
        (None, True, False, "does not stretch: it may crack"),
        (None, False, True, "not known"),
        (False, False, False, "springs back"),
        (None, False, False, "may stay stretched"),
        (True, False, False, "will stay stretched"),
    ],
)
def test_what_the_bezel_does(yields: bool | None, brittle: bool, unknown: bool, words: str) -> None:
    assert pressing.stretch_words(yields, brittle=brittle, unknown=unknown) == words


def test_chamfer_and_height_by_hand() -> None:
    """Twice the interference up to the next 0.05, 0.10 at least; room less 0.10 less the squeeze, down."""
    assert [entry_chamfer_mm(one) for one in (0.0, 0.05, 0.051, 0.075, 0.08)] == [0.1, 0.1, 0.15, 0.15, 0.2]
    assert free_height_mm(None, 0.1) is None
    assert free_height_mm(1.60, 0.10) == 1.35
    assert free_height_mm(1.60, -0.5) == 1.50
    assert free_height_mm(1.5999, 0.0) == 1.45


def test_the_usual_interference_changes_over_at_the_usual_gaps() -> None:
    def nine(gap: float) -> float:
        return gap / 0.91 - gap

    for gap in (0.40, 0.55, 0.70):
        assert usual_interference_mm(gap) == pytest.approx(nine(gap))
    for gap in (0.39, 0.71):
        assert usual_interference_mm(gap) == pytest.approx((nine(gap) + 0.05) / 2)


def test_an_oval_seat_by_hand() -> None:
    """Gap 0.40 and a quarter of 0.12, 5 % on the long axis: wall 0.43/0.95, the bore down to a hundredth."""
    ring = propose(case_bore_mm=30.80, glass_mm=30.00, ovality_mm=0.12)
    assert ring.bore_mm == math.floor(100 * (30.80 - 2 * 0.43 / 0.95)) / 100
    assert propose(case_bore_mm=30.80, glass_mm=30.00, ovality_mm=0.001) == propose(
        case_bore_mm=30.80, glass_mm=30.00
    )
    assert propose(case_bore_mm=30.80, glass_mm=30.00, learned_mm=0.03).wall_mm == pytest.approx(
        propose(case_bore_mm=30.86, glass_mm=30.00).wall_mm, abs=0.0051
    )


def mineral(**changed: float | None) -> glass.Pane:
    """A pane of mineral glass, 1.5 thick, seat 31."""
    known = {"glass_mm": 31.0, "thickness_mm": 1.5, "overpressure_bar": 3.0} | changed
    return glass.pane(glass=tables.glasses()["mineral"], **known)  # type: ignore[arg-type]


def test_a_pane_by_hand() -> None:
    """Timoshenko's plate on a circle of 30 mm; the pressure at the design stress, in bar."""
    pane, own = mineral(), tables.glasses()["mineral"]
    modulus, nu, design = own.youngs_modulus_mpa, own.poisson_ratio, own.design_stress_mpa
    assert modulus is not None and nu is not None and design is not None
    stress = 3 * (3 + nu) / 8 * 0.3 * (15.0 / 1.5) ** 2
    stiff = modulus * 1.5**3 / 12 / (1 - nu**2)
    bend = (5 + nu) / (1 + nu) * 0.3 * 15.0**4 / 64 / stiff
    assert pane.stress_supported_mpa == pytest.approx(stress)
    assert pane.stress_clamped_mpa == pytest.approx(0.75 * 0.3 * 100)
    assert pane.deflection_supported_um == pytest.approx(1000 * bend)
    assert pane.pressure_at_design_bar == pytest.approx(3.0 * design / stress)
    assert f"about {stress:.0f} MPa, above" in pane.words and "reached at" in pane.words
    assert mineral(support_mm=28.0).stress_supported_mpa == pytest.approx(stress * (14 / 15) ** 2)
    below = mineral(overpressure_bar=3.0 * design / stress - 0.01)
    assert f"below the published design stress of {design:g} MPa, reached at" in below.words


def test_a_pane_ends_where_it_bends_half_its_thickness() -> None:
    """Plain theory holds to w/t 0.5: the pressure at which it is reached is the last that is answered."""
    one = mineral(overpressure_bar=1.0).deflection_supported_um
    assert one is not None
    last = 1000 * 0.5 * 1.5 / one
    assert mineral(overpressure_bar=last - 0.01).stress_supported_mpa is not None
    beyond = mineral(overpressure_bar=last + 0.01)
    assert beyond.stress_supported_mpa is None and "beyond the formula" in beyond.words


def test_a_design_stress_past_the_formula_is_not_promised() -> None:
    """A thin wide pane of a strong glass bends half its thickness before it gets there."""
    strong = replace(tables.glasses()["mineral"], design_stress_mpa=400.0)
    known = {"glass": strong, "glass_mm": 41.0, "thickness_mm": 0.8}
    assert glass.pane(**known, overpressure_bar=0.2).pressure_at_design_bar is None  # type: ignore[arg-type]
    weak = replace(strong, design_stress_mpa=20.0)
    found = glass.pane(**known | {"glass": weak}, overpressure_bar=None)  # type: ignore[arg-type]
    assert found.pressure_at_design_bar is not None
    assert f"20 MPa is reached at {found.pressure_at_design_bar:.1f} bar" in found.words


def test_a_thick_pane_is_said_and_what_is_missing() -> None:
    assert "thick plate" in mineral(thickness_mm=3.01).words
    assert "thick plate" not in mineral(thickness_mm=2.99).words
    assert mineral(thickness_mm=None).words.startswith("glass thickness or material not known")
    assert mineral(thickness_mm=None).design_stress_mpa == tables.glasses()["mineral"].design_stress_mpa
    bare = replace(tables.glasses()["mineral"], design_stress_mpa=None)
    found = glass.pane(glass=bare, glass_mm=31.0, thickness_mm=1.5, overpressure_bar=None)
    assert found.words == "test pressure not known: stress not computed"
    said_of_it = glass.pane(glass=bare, glass_mm=31.0, thickness_mm=1.5, overpressure_bar=3.0).words
    assert said_of_it.endswith("MPa; no published design stress")


def test_swelling_by_hand() -> None:
    """The wall grows by what the plastic does, and by Poisson's share of what the held round cannot."""
    nylon = replace(tables.plastics()["pa66"], water_growth=0.02, poisson_ratio=0.4)
    assert swelling_um(plastic=nylon, wall_mm=0.5) == pytest.approx(1000 * 0.5 * 0.02 * 1.4)
    assert swelling_um(plastic=replace(nylon, water_growth=None), wall_mm=0.5) is None


def test_a_glass_to_order_stands_nearest_to_the_middle_of_the_usual_walls() -> None:
    """Seat 30.00: walls from 0.40 to 0.65 are usual, 0.525 their middle, so 30 - 2 x 0.525 x 0.91 suits."""
    sizes = glasses_to_order(lambda mm: (30.0 - mm) / 2 / 0.91, case_bore_mm=30.0)
    assert [one.glass_mm for one in sizes] == [29.0, 29.1, 28.9]
    assert all(one.usual and one.wall_mm == pytest.approx((30 - one.glass_mm) / 2 / 0.91) for one in sizes)
    old = glasses_to_order(lambda mm: (30.0 - mm) / 2 / 0.91, case_bore_mm=30.0, old_wall_mm=0.90)
    assert [one.glass_mm for one in old] == [28.4, 28.3, 28.5]
    few = glasses_to_order(lambda mm: (30.0 - mm) / 2 / 0.91, case_bore_mm=30.0, step_mm=0.5)
    assert [one.glass_mm for one in few] == [29.0, 29.5]
    assert [StockGlass(28.0, wall).usual for wall in (0.39, 0.40, 0.65, 0.66)] == [False, True, True, False]


def test_a_glass_to_order_is_one_that_can_be_had() -> None:
    """None outside 4 to 80 mm, none as large as the seat, none for which no ring is proposed."""
    assert all(one.glass_mm <= 80.0 for one in glasses_to_order(lambda mm: 0.5, case_bore_mm=80.9))
    assert all(one.glass_mm >= 4.0 for one in glasses_to_order(lambda mm: 0.5, case_bore_mm=5.0))
    small = glasses_to_order(lambda mm: 0.1, case_bore_mm=30.0, old_wall_mm=0.05)
    assert small and all(one.glass_mm < 30.0 for one in small)
    assert glasses_to_order(lambda mm: None, case_bore_mm=30.0) == ()


def test_edge_and_thickness_to_ask_for() -> None:
    assert edge_mm(seat_depth_mm=1.42) == 1.5
    assert edge_mm(seat_depth_mm=1.42, old_height_mm=1.0) == 1.1
    assert edge_mm(seat_depth_mm=1.42, old_height_mm=1.6) == 1.5
    assert edge_mm(seat_depth_mm=0.4) == 0.6
    own = tables.glasses()["mineral"]
    nu, design = own.poisson_ratio, own.design_stress_mpa
    assert nu is not None and design is not None
    least = math.sqrt(3 * (3 + nu) / 8 * 0.5 * 14.5**2 / design)
    assert thickness_mm(own, glass_mm=30.0, overpressure_bar=5.0) == round(math.ceil(10 * least) / 10, 1)
    assert thickness_mm(replace(own, design_stress_mpa=None), glass_mm=30.0, overpressure_bar=5.0) is None
    assert thickness_mm(tables.glasses()["acrylic"], glass_mm=30.0, overpressure_bar=5.0) is None


def test_a_ring_knows_its_wall() -> None:
    ring = RingSizes(outside_diameter_mm=31.0, bore_mm=30.0, height_mm=None)
    assert (ring.wall_mm, ring.chamfer_mm, ring.lower_chamfer_mm) == (0.5, 0.10, 0.10)

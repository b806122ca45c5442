"""What went into a figure is what was asked and what the tables say, name by name."""

from __future__ import annotations

import pytest

from rules import tables
from rules.sizing import why
from rules.sizing.learned import RingTried
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from rules.sizing.squeeze import Band
from rules.sizing.why_inputs import INPUTS

ASKED = SizingQuestion(
    case_bore_mm=31.46,
    glass_mm=30.44,
    outside_mm=31.44,
    bore_mm=30.34,
    height_mm=1.2,
    seat_depth_mm=1.4,
    glass_edge_mm=1.6,
    material="acetal",
    case_metal="316L",
    case_wall_mm=0.9,
    case_height_mm=2.6,
    ring_offset_mm=0.3,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
    friction=0.17,
    case_bore_u_mm=0.014,
    glass_u_mm=0.008,
    ovality_mm=0.02,
    turning_spread_mm=0.012,
    height_spread_mm=0.03,
    overpressure_bar=4.0,
    lathe_step_mm=0.02,
    hand_scale_pct=0.9,
    tried=(RingTried(number=2, outcome="too_easy", wall_mm=0.541, band=Band(5.0, 13.0)),),
)
PLASTIC, METAL, GLASS = tables.plastics()["acetal"], tables.metals()["316L"], tables.glasses()["sapphire"]
EXPECTED: dict[str, tuple[object, str]] = {
    "case_bore": (31.46, "mm"),
    "glass": (30.44, "mm"),
    "ovality": (0.02, "mm"),
    "seat_depth": (1.4, "mm"),
    "glass_edge": (1.6, "mm"),
    "case_bore_u": (0.014, "mm"),
    "glass_u": (0.008, "mm"),
    "turning_spread": (0.012, "mm"),
    "height_spread": (0.03, "mm"),
    "lathe_step": (0.02, "mm"),
    "friction": (0.17, "1"),
    "case_wall": (0.9, "mm"),
    "case_height": (2.6, "mm"),
    "ring_offset": (0.3, "mm"),
    "glass_thickness": (1.5, "mm"),
    "support": (14.72, "mm"),
    "overpressure": (4.0, "bar"),
    "hand_scale": (0.9, "points of squeeze"),
    "rings_tried": ("ring 2, wall 0.541 mm, too easy", "words"),
    "modulus": (PLASTIC.youngs_modulus_mpa, "MPa"),
    "stress_cap": (PLASTIC.stress_cap_mpa, "MPa"),
    "relaxation_1h": (PLASTIC.relaxation_1h, "1"),
    "relaxation_1000h": (PLASTIC.relaxation_1000h, "1"),
    "relaxation_10y": (PLASTIC.relaxation_10y, "1"),
    "ring_cte": (PLASTIC.cte_per_k, "1/K"),
    "case_modulus": (METAL.youngs_modulus_mpa, "MPa"),
    "case_poisson": (METAL.poisson_ratio, "1"),
    "case_cte": (METAL.cte_per_k, "1/K"),
    "yield_soft": (METAL.yield_soft_mpa, "MPa"),
    "yield_hard": (METAL.yield_hard_mpa, "MPa"),
    "glass_name": (GLASS.name, "words"),
    "glass_cte": (GLASS.cte_per_k, "1/K"),
    "glass_modulus": (GLASS.youngs_modulus_mpa, "MPa"),
    "glass_poisson": (GLASS.poisson_ratio, "1"),
    "design_stress": (GLASS.design_stress_mpa, "MPa"),
}
"""Name of an input: its value as asked or as the table has it, and its unit."""


@pytest.fixture(scope="module")
def answer() -> Sizing:
    """The answer to what was asked."""
    return size(ASKED)


@pytest.mark.parametrize("name", EXPECTED)
def test_an_input_is_what_was_asked(answer: Sizing, name: str) -> None:
    one, (value, unit) = INPUTS[name], EXPECTED[name]
    found = one.take(answer)
    assert one.unit == unit and one.words
    assert found == (pytest.approx(value) if isinstance(value, float) else value)


def test_inputs_that_are_worked_out(answer: Sizing) -> None:
    """The compliances by Lame, in um for each N/mm; what is seen elsewhere in the answer."""
    ri, ro = 31.46 / 2, 31.46 / 2 + 0.9
    modulus, nu = METAL.youngs_modulus_mpa, METAL.poisson_ratio
    assert modulus is not None and nu is not None
    hoop = (ro**2 + ri**2) / (ro**2 - ri**2) + nu
    twist = 1 + 12 * (0.3 / 2.6) ** 2
    take = {name: one.take(answer) for name, one in INPUTS.items()}
    assert take["case_compliance"] == pytest.approx(1000 * ri * hoop / modulus / 2.6 * twist)
    modulus, nu = GLASS.youngs_modulus_mpa, GLASS.poisson_ratio
    assert modulus is not None and nu is not None
    assert take["glass_compliance"] == pytest.approx(1000 * 15.22 * (1 - nu) / modulus / 1.5)
    assert take["interference"] == answer.fit.interference_mm
    assert take["interference_u"] == answer.resolved.budget.u_mm
    assert take["chamfer_needed"] == answer.consequences.chamfer_needed_mm
    assert take["squeezed_wall"] == answer.fit.squeezed_wall_mm
    assert take["landing"] == answer.window.landing_sigma_mm
    assert take["yield_taken"] == (answer.fit.yielded and answer.fit.yielded.yield_mpa)
    assert set(EXPECTED) | set(take) == set(take)


def test_what_is_not_known_is_none() -> None:
    plain = size(SizingQuestion(case_bore_mm=31.46, glass_mm=30.44))
    for name in (
        "case_compliance",
        "glass_compliance",
        "yield_soft",
        "case_modulus",
        "glass_name",
        "rings_tried",
    ):
        assert INPUTS[name].take(plain) is None
    assert INPUTS["ring_offset"].take(plain) == 0.0
    keyed = size(SizingQuestion(case_bore_mm=31.46, glass_mm=30.44, case_metal="316L", case_yield_mpa=333.0))
    assert INPUTS["yield_soft"].take(keyed) == INPUTS["yield_hard"].take(keyed) == 333.0
    given = size(SizingQuestion(case_bore_mm=31.46, glass_mm=30.44, support_mm=28.0))
    assert INPUTS["support"].take(given) == 14.0


@pytest.mark.parametrize("key", [key for key, one in tables.plastics().items() if one.stress_cap_mpa])
def test_the_cap_of_every_plastic_says_where_it_is_from(key: str) -> None:
    """Its own source, or that of the stress at ten per cent from which it is taken."""
    known = {"case_metal": "316L", "case_wall_mm": 2.0, "case_height_mm": 3.0, "height_mm": 1.2}
    asked = SizingQuestion(case_bore_mm=31.46, glass_mm=30.44, material=key, **known)  # type: ignore[arg-type]
    opened = why.opened(size(asked), "fit.contact_pressure_mpa")
    cited = tables.plastics()[key].cited
    expected = cited.get("stress_cap_mpa") or cited["compressive_stress_10pct_mpa"]
    source = next(source for words, _, _, source in opened.inputs if words == "stress cap of the plastic")
    assert source.startswith(expected.words) and expected.words

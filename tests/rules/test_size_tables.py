"""The tables: complete, cited, and open to a shop's own materials."""

from __future__ import annotations

import copy
from dataclasses import replace
from typing import Any

import pytest

from rules import tables
from rules.checks import OutOfRange
from rules.sizing.advice import what_is_missing
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size

PLASTICS = ["acetal", "pa6", "pa66", "pa12", "ptfe", "peek", "uhmwpe", "pvdf", "pvc"]
METALS = [
    *["316L", "304", "titanium2", "titanium5", "brass", "brass_plated", "bronze"],
    *["gold9", "gold14", "gold18", "silver", "aluminium", "ceramic", "plastic"],
]
GLASSES = ["sapphire", "mineral", "toughened", "acrylic"]


def test_all_are_there() -> None:
    """In this order; what a table gains later stands behind them."""
    assert list(tables.plastics())[: len(PLASTICS)] == PLASTICS
    assert list(tables.metals())[: len(METALS)] == METALS
    assert list(tables.glasses())[: len(GLASSES)] == GLASSES


def _numbers() -> list[tuple[str, str, dict[str, Any]]]:
    found = []
    for name in ("plastics", "metals", "glasses", "rubbers"):
        for key, entry in tables.raw_table(name).items():
            found += [
                (f"{name}.{key}", part, value) for part, value in entry.items() if isinstance(value, dict)
            ]
    return found


def test_every_number_is_cited() -> None:
    """Value, unit, a source that is listed, and a basis; memory is never called published."""
    numbers, listed = _numbers(), tables.raw_table("sources")
    assert len(numbers) > 120
    for where, part, number in numbers:
        assert {"value", "unit", "source", "basis"} <= set(number), (where, part)
        assert number["source"] in listed, (where, part)
        assert number["basis"] in tables.BASES, (where, part)
        if number["source"] == "memory":
            assert number["basis"] == "memory", (where, part)
        if number["source"] == "worked":
            assert number["of"] and set(number["of"]) <= set(listed), (where, part)
        if number["basis"] == "published":
            read = number.get("of") or [number["source"]]
            assert all(listed[one]["opened"] for one in read), (where, part)
        if "low" in number:
            assert number["low"] <= number["value"] <= number["high"], (where, part)


def test_every_source_is_cited_and_can_be_found() -> None:
    """Each is cited by a number or a reason, and one that was opened says where it lies."""
    cited = {one for _, _, number in _numbers() for one in (number["source"], *number.get("of", ()))}
    cited |= {one["source"] for one in tables.raw_table("why").values()}
    for key, entry in tables.raw_table("sources").items():
        assert key in cited, key
        assert not entry["opened"] or "without address" not in entry["where"], key


def test_nylon_is_taken_at_the_humidity_of_a_room() -> None:
    """A ring in a watch is not dry: half the stiffness of dry bar, which stands as the upper end."""
    for key, dry in {"pa6": 2900, "pa66": 3000}.items():
        modulus = tables.plastics()[key].cited["youngs_modulus_mpa"]
        assert (modulus.value, modulus.high) == (1500, dry)


def test_half_hard_brass_bar_is_not_soft_brass() -> None:
    metals = tables.metals()
    bar, soft = metals["brass_half_hard"], metals["brass"]
    assert bar.yield_usual_mpa == 310 and soft.yield_usual_mpa == 124
    assert all(number.basis == "published" for number in bar.cited.values())


def test_no_plain_number_hides_in_a_table() -> None:
    for name in ("plastics", "metals", "glasses", "rubbers"):
        for entry in tables.raw_table(name).values():
            assert not [v for v in entry.values() if isinstance(v, int | float) and not isinstance(v, bool)]


@pytest.mark.parametrize("lost", ["value", "unit", "source", "basis"])
def test_a_number_without_its_papers_is_refused(lost: str) -> None:
    raw = copy.deepcopy(tables.raw_table("plastics"))
    del raw["acetal"]["cte_per_k"][lost]
    with pytest.raises(OutOfRange, match=f"acetal.cte_per_k: {lost} missing"):
        tables.read(tables.Plastic, raw)


def test_unknown_is_none() -> None:
    pvc, plastic = tables.plastics()["pvc"], tables.metals()["plastic"]
    assert pvc.relaxation_10y is None
    assert plastic.youngs_modulus_mpa is None
    assert tables.metals()["ceramic"].yield_hard_mpa is None


def test_cap_comes_from_the_ten_per_cent_stress() -> None:
    assert tables.plastics()["pa66"].stress_cap_mpa == pytest.approx(1.075 * 60)
    assert tables.plastics()["acetal"].stress_cap_mpa == 115


def test_a_plastic_without_a_curve_says_so() -> None:
    """One of a shop's own, say."""
    known = SizingQuestion(
        case_bore_mm=33.2,
        glass_mm=32.14,
        height_mm=1.1,
        case_metal="316L",
        case_wall_mm=3.5,
        case_height_mm=4.0,
        material=replace(tables.plastics()["pvc"], name="grey rod", stress_cap_mpa=None),
    )
    answer = size(known)
    assert answer.fit.contact_pressure_mpa is None
    missing = what_is_missing(answer.resolved, answer.ring)
    assert missing == "how grey rod takes a squeeze is not known"


def test_rigid_pvc_presses_and_its_years_are_not_known() -> None:
    known: dict[str, Any] = {"case_bore_mm": 33.2, "glass_mm": 32.14, "height_mm": 1.1, "case_metal": "316L"}
    asked = SizingQuestion(**known, case_wall_mm=3.5, case_height_mm=4.0, material="pvc")
    fit = size(asked).fit
    assert fit.contact_pressure_mpa is not None and 60.0 < fit.contact_pressure_mpa < 120.0
    assert fit.contact_pressure_10y_mpa is None


def test_own_material() -> None:
    own = {
        "blue_acetal": {
            "name": "blue acetal rod",
            "youngs_modulus_mpa": {
                "value": 2700,
                "unit": "MPa",
                "source": "maker's sheet",
                "basis": "published",
            },
        }
    }
    mine = tables.plastics(own)
    assert mine["blue_acetal"].youngs_modulus_mpa == 2700
    assert mine["blue_acetal"].cte_per_k is None
    assert "acetal" in mine
    assert "blue_acetal" not in tables.plastics()


@pytest.mark.parametrize(
    ("entry", "why"),
    [
        ({"x": {"advice": "no name"}}, "at least a name"),
        ({"x": {"name": "x", "youngs_modulus": 3}}, "unknown; properties are"),
        ({"x": {"name": "x", "cte_per_k": 1e-4}}, "give it as"),
        (
            {
                "x": {
                    "name": "x",
                    "cte_per_k": {"value": float("nan"), "unit": "1/K", "source": "s", "basis": "memory"},
                }
            },
            "not a finite number",
        ),
        (
            {
                "x": {
                    "name": "x",
                    "cte_per_k": {"value": 1e-4, "unit": "1/K", "source": "s", "basis": "hearsay"},
                }
            },
            "hearsay",
        ),
    ],
)
def test_own_material_is_checked(entry: dict[str, Any], why: str) -> None:
    with pytest.raises(OutOfRange, match=why):
        tables.plastics(entry)


SOUND: dict[str, Any] = {"value": 1e-4, "unit": "1/K", "source": "sheet", "basis": "memory"}
GIVE = 'x.cte_per_k: give it as { value = {0}, unit = "MPa", source = "...", basis = "memory" }'


@pytest.mark.parametrize(
    ("entry", "said"),
    [
        (3, GIVE.replace("{0}", "3")),
        ("3", GIVE.replace("{0}", "1")),
        (
            {"value": 3},
            "x.cte_per_k: unit, source, basis missing; every number needs value, unit, source and basis",
        ),
        (
            {**SOUND, "basis": "hearsay"},
            "x.cte_per_k: basis 'hearsay' is not one of published, memory, common practice",
        ),
        ({**SOUND, "value": True}, "x.cte_per_k: value True is not a finite number"),
        ({**SOUND, "value": "3"}, "x.cte_per_k: value '3' is not a finite number"),
        ({**SOUND, "low": float("inf")}, "x.cte_per_k: low inf is not a finite number"),
        ({**SOUND, "high": -float("inf")}, "x.cte_per_k: high -inf is not a finite number"),
        ({**SOUND, "value": 10**400}, f"x.cte_per_k: value {10**400} is not a finite number"),
    ],
)
def test_what_a_number_lacks_is_said(entry: Any, said: str) -> None:
    with pytest.raises(OutOfRange) as why:
        tables.read(tables.Metal, {"x": {"name": "x", "cte_per_k": entry}})
    assert str(why.value) == said


def test_a_sound_number_keeps_its_papers() -> None:
    full = {**SOUND, "low": 1, "high": 3e-4, "note": "dry", "of": ["a", "b"]}
    metal = tables.read(tables.Metal, {"x": {"name": "x", "cte_per_k": full, "brittle": True}})["x"]
    cited = metal.cited["cte_per_k"]
    assert (cited.value, cited.low, cited.high, cited.note, cited.of) == (1e-4, 1, 3e-4, "dry", ("a", "b"))
    assert (metal.key, metal.brittle, metal.gentle) == ("x", True, "") and metal.cte_per_k == 1e-4
    assert metal.advice == "added by the shop; check its figures"
    assert tables.Cited(1.0, "1", "my sheet", "memory").words == "memory: my sheet"
    for largest in (tables.LARGEST, -tables.LARGEST):
        assert tables.read(tables.Glass, {"x": {"name": "x", "cte_per_k": {**SOUND, "value": largest}}})
    plastic = tables.read(
        tables.Plastic, {"x": {"name": "x", "compressive_stress_10pct_mpa": {**SOUND, "value": 40}}}
    )
    assert plastic["x"].stress_cap_mpa == pytest.approx(43.0) and plastic["x"].advised
    both = {
        "name": "x",
        "compressive_stress_10pct_mpa": {**SOUND, "value": 40},
        "stress_cap_mpa": {**SOUND, "value": 50},
    }
    assert tables.read(tables.Plastic, {"x": both})["x"].stress_cap_mpa == 50
    with pytest.raises(OutOfRange, match=r"^x: a material needs at least a name$"):
        tables.read(tables.Glass, {"x": {"name": 3}})
    with pytest.raises(
        OutOfRange, match=r"^x: gloss, haze unknown; properties are cte_per_k, design_stress_mpa, "
    ):
        tables.read(tables.Glass, {"x": {"name": "x", "haze": 1, "gloss": 2}})

"""Every shown figure can be opened, and what is opened is complete."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from rules.checks import OutOfRange
from rules.lengths import speaking
from rules.sizing import why
from rules.sizing.figures import flat, tree
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing, size
from rules.sizing.why_inputs import INPUTS, FigureValue
from rules.sizing.why_words import opened, said, sentences
from rules.tables import BASES, sources

ASKED = SizingQuestion(
    case_bore_mm=33.20,
    glass_mm=32.14,
    seat_depth_mm=1.4,
    glass_edge_mm=1.5,
    case_metal="316L",
    case_wall_mm=1.0,
    case_height_mm=2.5,
    glass_material="sapphire",
    glass_thickness_mm=1.5,
    overpressure_bar=3.0,
)


def gaps(answer: Sizing) -> set[str]:
    """Figures without a reason and reasons with a hole: empty when all is well."""
    known, listed = why.reasons(), sources()
    missing = {
        figure for figure in flat(answer) if not figure.startswith("fit.yielded") and figure not in known
    }
    for figure, one in known.items():
        holes = (
            not (one.name and one.unit and one.formula)
            or one.source not in {*listed, why.FROM_TABLE}
            or one.basis not in BASES
        )
        if holes or any(name not in INPUTS and name not in known for name in one.inputs):
            missing.add(figure)
    return missing


@pytest.mark.parametrize(
    "asked", [ASKED, SizingQuestion(case_bore_mm=33.20, glass_mm=32.14)], ids=["full", "plain"]
)
def test_no_gap(asked: SizingQuestion) -> None:
    answer = size(asked)
    assert gaps(answer) == set()
    for figure in flat(answer):
        opened = why.opened(answer, figure)
        assert opened.reason.formula and opened.reason.unit and opened.grounds
        assert opened.reason.basis in ("published", "memory", "common practice")
        assert all(unit for _, _, unit, _ in opened.inputs)


def test_a_gap_is_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    less = {name: one for name, one in why.reasons().items() if name != "fit.axial_growth_mm"}
    less["ring.wall_mm"] = replace(less["ring.wall_mm"], source="hearsay")
    less["window.chance"] = replace(less["window.chance"], inputs=("nothing",))
    monkeypatch.setattr(why, "reasons", lambda: less)
    assert gaps(size(ASKED)) == {"fit.axial_growth_mm", "ring.wall_mm", "window.chance"}


def test_inputs_give_the_figure() -> None:
    """The opened inputs of the seating force multiply to it."""
    answer = size(ASKED)
    opened = why.opened(answer, "fit.seating_force_n.mid")
    load, friction, glass = (value for _, value, _, _ in opened.inputs)
    assert isinstance(load, float) and isinstance(friction, float) and isinstance(glass, float)
    assert load * friction * glass * 3.14159265 == pytest.approx(opened.value, rel=1e-6)


def test_table_values_carry_their_source() -> None:
    opened = why.opened(size(ASKED), "fit.contact_pressure_cold_mpa")
    cited = {words: source for words, _, _, source in opened.inputs}
    assert cited["expansion of the case"].startswith("published: Annealed and cold finished 316L")
    assert cited["expansion of the plastic"].startswith("published: HOSTAFORM")


@pytest.mark.parametrize(
    ("glass", "grounds"),
    [
        ("sapphire", "published: Vacuum windows thickness"),
        ("mineral", "published: Pilkington"),
        ("acrylic", "not in the tables"),
    ],
)
def test_a_glass_stress_has_the_source_of_its_own_glass(glass: str, grounds: str) -> None:
    opened = why.opened(size(replace(ASKED, glass_material=glass)), "glass.design_stress_mpa")
    assert opened.grounds.startswith(grounds)


@pytest.mark.parametrize("hours", ["1h", "1000h", "10y"])
def test_what_is_left_has_the_source_of_its_own_plastic(hours: str) -> None:
    """No plastic but acetal is known by an acetal sheet."""
    for plastic in ("ptfe", "pvc", "acetal"):
        opened = why.opened(size(replace(ASKED, material=plastic)), f"fit.contact_pressure_{hours}_mpa")
        said = " ".join((opened.grounds, *(source for _, _, _, source in opened.inputs)))
        assert ("HOSTAFORM" in said) == (plastic == "acetal")


def test_what_is_worked_out_says_from_which() -> None:
    opened = why.opened(size(ASKED), "fit.contact_pressure_mpa")
    modulus = next(source for words, _, _, source in opened.inputs if words == "modulus of the plastic")
    assert modulus.startswith("worked out from Property listing of an acetal homopolymer")
    assert "published" not in modulus.partition("(middle")[0]


def test_a_yield_as_keyed_has_no_source_of_the_table() -> None:
    tabled = why.opened(size(ASKED), "fit.case_yields")
    keyed = why.opened(size(replace(ASKED, case_yield_mpa=240.0)), "fit.case_yields")
    assert [source[:9] for *_, source in tabled.inputs] == ["", "published", "memory: F"]
    assert [source for *_, source in keyed.inputs] == ["", "", ""]


def test_unknown_figure_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"ring\.bore_mm"):
        why.opened(size(ASKED), "fit.luck")


def test_tree_always_has_every_name() -> None:
    full, plain = tree(size(ASKED)), tree(size(SizingQuestion(case_bore_mm=33.20, glass_mm=32.14)))
    for part in ("ring", "fit", "window", "glass"):
        assert list(full[part]) == list(plain[part])
    assert full["fit"]["yielded"]["yield_mpa"] == 205
    assert plain["fit"]["seating_force_n"] == {"low": None, "mid": None, "high": None}


def test_a_stretched_bezel_s_elastic_figures_say_so() -> None:
    """Of thin soft brass: those that have a figure with the bezel stretched beside them, and no other."""
    soft = replace(ASKED, case_metal="brass", case_wall_mm=0.5, case_yield_mpa=60.0, glass_material=None)
    answer = size(soft)
    assert answer.fit.stretched is not None
    elastic = ", as if the bezel did not yield"
    assert why.opened(answer, "fit.contact_pressure_mpa").reason.name.endswith(elastic)
    assert not why.opened(answer, "window.chance").reason.name.endswith(elastic)
    assert not why.opened(size(ASKED), "fit.contact_pressure_mpa").reason.name.endswith(elastic)


@pytest.mark.parametrize(
    ("value", "unit", "words"),
    [
        (2.004, "mm", "2.00 mm"),
        (2.3456, "mm", "2.35 mm"),
        (1.9996, "mm", "2.00 mm"),
        (1.2345, "mm", "1.235 mm"),
        (0.0012345, "mm", "0.0012 mm"),
        (0.123456, "1", "0.1235"),
        (123456.0, "kg", "123500 kg"),
        (4731.2, "N", "4700 N"),
        (8.76, "%", "8.8 %"),
        (0.00011, "1/K", "110 millionths per K"),
        (True, "yes or no", "yes"),
        (False, "yes or no", "no"),
        ("as it is", "words", "as it is"),
        (None, "mm", "not known"),
        (0.0, "N", "0 N"),
    ],
)
def test_a_figure_has_the_digits_that_it_is_good_for(value: FigureValue, unit: str, words: str) -> None:
    assert said(value, unit) == words


def test_a_ring_that_presses_nothing_is_said_to_seal_nothing() -> None:
    loose = size(replace(ASKED, outside_mm=33.20, bore_mm=32.20))
    text = sentences(loose)[1]
    assert text.endswith("no thicker: nothing is pressed together, and nothing seals.")
    assert "pressed together by so much it seals" in sentences(size(ASKED))[1]


def test_every_length_in_a_formula_has_its_unit_also_in_inch() -> None:
    answer = size(ASKED)
    told = {}
    for unit in ("mm", "inch"):
        with speaking(unit):
            given = (opened(answer, figure) for figure in flat(answer))
            told[unit] = " ".join(one[1] for one in given if one is not None)
    assert "less 0.10 mm" in told["mm"] and "rounded down to 0.05 mm" in told["mm"]
    assert "less 0.0039 in" in told["inch"] and "rounded down to 0.0020 in" in told["inch"]
    assert not re.search(r"\b0\.(05|10|40|70)\b(?! mm| to)", told["mm"].replace("friction 0.10", ""))
    assert " mm" not in told["inch"]

"""A bezel that stays stretched, from the page of the ring to the sheet."""

from __future__ import annotations

import re

from bench.sheet.data import sheet_data
from bench.sheet.text import sheet_lines
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from tests.whole.places import at
from tests.whole.repairer import Repairer

THIN = {"case_wall": "0.5", "case_height": "1.0"}
"""A bezel of 316L that no temper holds."""


def in_316l(section: dict[str, str]) -> Repairer:
    """A straight job with this metal round the seat, before its ring is accepted."""
    repairer = at("ring")
    repairer.give("metal")
    repairer.give("316L")
    return repairer.on_to("ring", section)


def years(repairer: Repairer) -> str:
    """What the page says of the years."""
    found = re.search(r"after ten years: presses with ([\d to]+) MPa", "\n".join(repairer.step.consequence))
    assert found is not None
    return found[1]


def own(wall_mm: float, height_mm: float, ring: tuple[float, float, float]) -> tuple[float, float]:
    """Ten-year pressure, elastic and stretched, of this ring asked by itself."""
    outside, bore, high = ring
    fit = size(
        SizingQuestion(
            case_bore_mm=36.43,
            glass_mm=35.305,
            outside_mm=outside,
            bore_mm=bore,
            height_mm=high,
            case_metal="316L",
            case_wall_mm=wall_mm,
            case_height_mm=height_mm,
        )
    ).fit
    assert fit.yielded is not None and fit.contact_pressure_10y_mpa and fit.yielded.contact_pressure_10y_mpa
    return fit.contact_pressure_10y_mpa, fit.yielded.contact_pressure_10y_mpa


def planned(repairer: Repairer) -> tuple[float, float, float]:
    """Outside, bore and height on the page."""
    found = re.findall(r"[\d.]+", repairer.step.say[0])
    return float(found[0]), float(found[1]), float(found[2])


def test_page_why_and_sheet_say_the_stretched_figure() -> None:
    repairer = in_316l(THIN)
    elastic, stretched = own(0.5, 1.0, planned(repairer))
    assert round(elastic) > round(stretched) + 5, "the two have to differ"
    page = "\n".join(repairer.step.consequence)
    assert "bezel: will stay stretched" in page and years(repairer) == f"{stretched:.0f}"
    opened = [one.figure for one in repairer.step.figures if "after ten years" in one.figure]
    assert opened[0].startswith(f"contact pressure after ten years, bezel stretched {stretched:.2g} MPa")
    assert opened[1].startswith(
        f"contact pressure after ten years, as if the bezel did not yield {elastic:.2g} MPa"
    )
    repairer.on_to("")
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=True)
    text = "\n".join(sheet_lines(data, columns=200))
    assert f"presses with about {stretched:.0f} MPa after ten years" in text
    assert "the bezel will stay stretched by 0.0" in text
    assert data["expected"]["ten_years_low_mpa"] == data["expected"]["ten_years_high_mpa"]


def test_where_it_is_open_page_and_sheet_give_both_ends() -> None:
    repairer = in_316l({"case_wall": "1.0", "case_height": "2.5"})
    elastic, stretched = own(1.0, 2.5, planned(repairer))
    assert years(repairer) == f"{stretched:.0f} to {elastic:.0f}"
    repairer.on_to("")
    assert repairer.desk.job is not None
    text = "\n".join(sheet_lines(sheet_data(repairer.desk.job, finished=True), columns=200))
    assert f"about {stretched:.0f} to {elastic:.0f} MPa after ten years" in text
    assert "the bezel may stay stretched by" in text


def test_what_is_not_known_is_not_expected() -> None:
    repairer = at("ring").on_to("")
    assert repairer.desk.job is not None
    data = sheet_data(repairer.desk.job, finished=True)
    assert set(data["expected"].values()) == {None}
    assert "Expected" not in "\n".join(sheet_lines(data))

"""Every stroke and every word on paper at its place, in mm, as it was looked at once and kept.

python -m tests.bench.test_drawn_on_paper writes `drawn_on_paper.md` anew; look at the PDFs first.
"""

from __future__ import annotations

import math
import re
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any
from unittest.mock import patch

import pytest

from bench.edits.stored import read
from bench.seals.ring.drawing import plan_drawing
from bench.seals.seal import Section
from bench.sheet.data import sheet_data
from bench.shop.shop import built_in
from rules.bars import Bar
from tests.grooving import CORING
from tests.rules.test_turning import SHOP, planned

fpdf = pytest.importorskip("fpdf", reason="the PDF library is an extra")
TOP = Path(__file__).resolve().parents[2]
KEPT = Path(__file__).with_suffix(".md").with_name("drawn_on_paper.md")
TUBE = Bar(plastic="acetal", diameter_mm=36.0, length_mm=80.0, kind="tube", bore_mm=28.0)


def numbers(values: Any) -> str:
    """Figures to a hundredth of a millimetre."""
    return " ".join(f"{float(value):.2f}".replace("-0.00", "0.00") for value in values)


class Noted(fpdf.FPDF):  # type: ignore[misc, name-defined]
    """A document that notes what is drawn."""

    def __init__(self, **settings: Any) -> None:
        self.noted: list[str] = []
        self.foot = 0.0
        """Where the last paragraph ended: one more before a paragraph does not move it."""
        super().__init__(**settings)
        ALL.append(self)

    def add_page(self, *args: Any, **more: Any) -> None:
        super().add_page(*args, **more)
        self.noted.append(f"page {numbers((self.w, self.h, self.l_margin, self.b_margin))}")

    def text(self, x: float, y: float, text: str = "") -> None:
        right = x + self.get_string_width(text)
        self.noted.append(f"at {numbers((x, y, right, y))} size {self.font_size_pt:g}: {text}")
        super().text(x, y, text)

    def line(self, *ends: float) -> None:
        self.noted.append(f"line {numbers(ends)} wide {self.line_width:g}")
        super().line(*ends)

    def polygon(self, points: Any, **more: Any) -> None:
        grey = f"{self.fill_color.g:.2f}"
        self.noted.append(
            f"area {numbers(one for point in points for one in point)} grey {grey} {more['style']}"
        )
        super().polygon(points, **more)

    def circle(self, **more: Any) -> None:
        self.noted.append(f"circle {numbers((more['x'], more['y'], more['radius']))} {more['style']}")
        super().circle(**more)

    def multi_cell(self, w: float, h: float, text: str = "", **more: Any) -> None:
        gap = f"{self.y - self.foot:.2f}" if self.foot <= self.y else "new"
        where = f"{self.x:.2f} by {gap} high {h:g} size {self.font_size_pt:g} {more['align']}"
        self.noted.append(f"below {where}: {text}")
        super().multi_cell(w, h, text, **more)
        self.foot = self.y


ALL: list[Noted] = []


def of_job(number: str, **changed: Any) -> dict[str, Any]:
    """What the sheet of a sample job says, with single words changed."""
    path = next((TOP / "sample_sessions").glob(f"{number}-*.toml"))
    job, _ = read(path, built_in())
    data = sheet_data(job, finished=True, shop_name="Quay Street Watches", tester_number="T 4")
    return {**data, **changed}


def plan_with_core(path: Path) -> None:
    from bench.paper.plan import write_plan

    made = planned(tools=(*SHOP.tools, CORING), spares=1)
    write_plan(made, plan_drawing(made), title="job 7", path=path)


def plan_of_a_tube(path: Path) -> None:
    from bench.paper.plan import write_plan

    made = planned(bar=replace(TUBE, bore_deep_mm=20.0), height_mm=3.0)
    write_plan(made, plan_drawing(made), title="job 8", path=path)


def sheet_for_the_customer(path: Path) -> None:
    from bench.paper.customer import write_customers

    write_customers(of_job("00208"), path)


def unfinished_for_the_customer(path: Path) -> None:
    from bench.paper.customer import write_customers

    write_customers(of_job("00226", finished=False, shop_name="", tester_number="", watch=""), path)


def sheet_with_curves(path: Path) -> None:
    """Two tests with readings, of one of which the volume is not known; a third does not count."""
    from bench.paper.sheet import write_workshops

    times = [60.0 * minute for minute in range(11)]
    signals = [round(10.0 * math.exp(-at / 9000.0), 1) for at in times]
    read = {"times_s": times, "signals_um": signals, "step_um": 0.1, "volume_cm3": 2.0, "volume_u_cm3": 0.3}
    test = {**of_job("00208")["tests"][1], "overpressure_bar": 2.0, "minutes": 10.0, "readings": read}
    unknown = {**test, "sitting": "empty", "readings": {**read, "volume_cm3": None}}
    write_workshops(of_job("00208", tests=[test, unknown, {**test, "counts": False}]), path, ())


def sheet_of_the_workshop(path: Path) -> None:
    from bench.paper.sheet import write_workshops

    more = (Section("For the shop", ("Minutes at the bench: 42.", "Set aside for 7 minutes.")),)
    write_workshops(
        of_job("00214", shop_name="", tester_number="", watch="", finished=False), path, more=more
    )


def slip_of_a_job(path: Path) -> None:
    from bench.paper.slip import write_slip

    write_slip(
        of_job("00221", watch="a diver's watch \u767d with a name of more than sixty characters on its back"),
        path,
    )


def slip_unfinished(path: Path) -> None:
    from bench.paper.slip import write_slip

    write_slip(of_job("00226", finished=False, retest="", shop_name="", tester_number="", watch=""), path)


PAPERS: tuple[Callable[[Path], None], ...] = (
    plan_with_core,
    plan_of_a_tube,
    sheet_for_the_customer,
    unfinished_for_the_customer,
    sheet_with_curves,
    sheet_of_the_workshop,
    slip_of_a_job,
    slip_unfinished,
)


def drawn(write: Callable[[Path], None], folder: Path) -> str:
    """What one paper draws, a line each."""
    ALL.clear()
    with patch("fpdf.FPDF", Noted):
        write(folder / "paper.pdf")
    return "\n".join(line for document in ALL for line in document.noted)


def kept() -> dict[str, str]:
    """The papers as they were kept, by name."""
    parts = KEPT.read_text(encoding="utf-8").split("\n## ")[1:]
    return {name: text.strip("\n`") for name, _, text in (part.partition("\n") for part in parts)}


@pytest.mark.parametrize("write", PAPERS, ids=lambda one: one.__name__)
def test_every_stroke_and_word_stands_where_it_was_kept(
    write: Callable[[Path], None], tmp_path: Path
) -> None:
    assert drawn(write, tmp_path).splitlines() == kept()[write.__name__].splitlines()


@pytest.mark.parametrize("name", [one.__name__ for one in PAPERS])
def test_nothing_is_drawn_over_the_edge(name: str) -> None:
    wide = high = 0.0
    for line in kept()[name].splitlines():
        kind, _, rest = line.partition(" ")
        if kind == "below":
            continue
        figures = [float(word) for word in re.split(" size | wide | grey | D", rest)[0].split()]
        if kind == "page":
            wide, high = figures[:2]
        elif kind in ("at", "line", "area"):
            assert all(0.0 <= x <= wide for x in figures[0::2]), line
            assert all(0.0 <= y <= high for y in figures[1::2]), line


def main() -> None:
    """Writes it anew."""
    with tempfile.TemporaryDirectory() as folder:
        parts = [f"## {write.__name__}\n\n```\n{drawn(write, Path(folder))}\n```\n" for write in PAPERS]
    KEPT.write_text("# What is drawn on paper\n\n" + "\n".join(parts), encoding="utf-8")


if __name__ == "__main__":
    main()

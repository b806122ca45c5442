"""Papers laid out on a page that only notes what is asked of it: every place, size and page break, as it was
looked at once.

python -m tests.bench.test_paper_laid_out writes `paper_laid_out.md` anew; look at the papers first.
"""

from __future__ import annotations

import math
import sys
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path
from types import SimpleNamespace
from typing import Any
from unittest.mock import patch

import pytest

from bench.job.statement import Statement
from bench.languages import LANGUAGES
from bench.manual.chapters import ManualPiece
from bench.paper import bar, code, customer, leak_chart, manual, page, plan, section, sheet, slip, year
from bench.paper.page import NotOnPaper, Paper
from bench.seals.ring.drawing import plan_drawing
from bench.seals.seal import Drawing, Leader, Section
from bench.sheet.data import sheet_data
from bench.sheet.tongue import Tongue
from bench.year.counted import Counted, Year
from rules.testing.leak_curve import LeakCurve
from tests.seals.test_ring_cut import CORE, DECIDED, TUBE, made_of
from tests.seals.test_ring_made import FILE, WALLS
from tests.seals.test_ring_measured import SHOP, Kept, job_of
from tests.seals.test_ring_sized import pressed

KEPT = Kept(__file__)
POINT_MM = 25.4 / 72.0
FRENCH = Tongue(LANGUAGES["fr"])


def rounded(value: Any) -> str:
    """A figure to a hundredth, points as pairs of them."""
    if isinstance(value, list | tuple):
        return "(" + " ".join(map(rounded, value)) + ")"
    return f"{value:.2f}".replace("-0.00", "0.00") if isinstance(value, float) else str(value)


class Page:
    """A document that notes what is asked of it; a letter is half as wide as its type is high."""

    def __init__(self, *, unit: str, format: tuple[float, float]) -> None:
        self.w, self.h = format
        self.noted = [f"{unit} {rounded(format)}"]
        self.c_margin, self.l_margin, self.r_margin, self.b_margin = 1.0, 0.0, 0.0, 0.0
        self.size, self.x, self.y, self.page, self.pages_count = 0.0, 0.0, 0.0, 0, 0
        self.fonts = {"dejavu": SimpleNamespace(cmap=dict.fromkeys(range(0x20, 0x2400)))}
        self.breaks = True
        self.pen = {"line": "-", "fill": "-"}

    @property
    def pages(self) -> range:
        """As many as there are pages."""
        return range(self.pages_count)

    def __getattr__(self, name: str) -> Callable[..., None]:
        """Everything else is noted."""

        def asked(*args: Any, **more: Any) -> None:
            said = (*map(rounded, args), *(f"{key}={rounded(value)}" for key, value in more.items()))
            if name.startswith("set_") and name != "set_creator":
                self.pen[name[4:8]] = said[0]
                return
            how = f"line {self.pen['line']}" + (
                "" if name in ("line", "circle") else f" fill {self.pen['fill']}"
            )
            self.noted.append(f"{name} {' '.join(said)}, {how}")

        return asked

    def add_font(self, family: str, *, fname: str) -> None:
        self.noted.append(f"font {family} {Path(fname).name}")

    def set_margin(self, margin: float) -> None:
        self.l_margin = self.r_margin = margin
        self.noted.append(f"margin {margin:g}")

    def set_auto_page_break(self, on: bool, *, margin: float) -> None:
        self.b_margin, self.breaks = margin, on
        self.noted.append(f"page break {on} {margin:g}")

    def set_right_margin(self, margin: float) -> None:
        self.r_margin = margin

    def set_font(self, family: str, *, size: float) -> None:
        self.size, self.family = size, family

    def add_page(self) -> None:
        self.pages_count += 1
        self.page, self.y = self.pages_count, self.l_margin
        self.noted.append(f"page {self.page}")

    def get_string_width(self, text: str) -> float:
        return len(text) * 0.5 * self.size * POINT_MM

    def get_y(self) -> float:
        return self.y

    def set_y(self, y: float) -> None:
        self.y, self.x = y, self.l_margin

    def set_x(self, x: float) -> None:
        self.x = x

    def multi_cell(self, w: float, h: float, text: str = "", **more: Any) -> None:
        room = (w or self.w - self.r_margin - self.x) - 2.0 * self.c_margin
        for at, start in enumerate(range(0, len(text), max(1, int(room / self.get_string_width("x"))))):
            if self.breaks and self.y + h > self.h - self.b_margin:
                self.add_page()
            if at == 0:
                how = " ".join(more.values())
                where = f"({self.x:.2f} {self.y:.2f}) high {h:g} room {room:.2f} {how}"
                self.noted.append(f"below {where} {self.family} {self.size:g}: {text}")
            del start
            self.y += h
        self.x = self.l_margin

    def text(self, x: float, y: float, text: str) -> None:
        self.noted.append(f"at ({x:.2f} {y:.2f}) {self.family} {self.size:g}: {text}")

    def output(self) -> bytes:
        return b"%PDF-" + f"{self.pages_count}".encode()


def drawn(work: Callable[[Paper], object], **settings: Any) -> Iterator[str]:
    """What is asked of a paper."""
    with patch("fpdf.FPDF", Page):
        paper = Paper(**settings)
        begun = len(paper.pdf.noted)  # type: ignore[attr-defined]
        found = work(paper)
    yield from paper.pdf.noted[begun:]  # type: ignore[attr-defined]
    yield f"= {rounded(found)}; at {paper.pdf.y:.2f}; {paper.notes()}"


def written(write: Callable[[Path], object]) -> Iterator[str]:
    """What a whole paper draws on its last document, and what is said of it."""
    made: list[Page] = []

    def begin(**more: Any) -> Page:
        made.append(Page(**more))
        return made[-1]

    with patch("fpdf.FPDF", begin), tempfile.TemporaryDirectory() as folder:
        said = write(Path(folder) / "paper.pdf")
    yield f"{len(made)} documents"
    dots = [line for line in made[-1].noted if line.startswith("rect ")]
    yield from (line for line in made[-1].noted if line not in dots[1:-1])
    yield f"{len(dots)} rectangles"
    yield f"= {said}"


# a page


@KEPT.case
def lines_and_words() -> Iterator[object]:
    def work(paper: Paper) -> None:
        paper.line("a line", size=12.0, indent_mm=3.0, gap_mm=2.0)
        paper.line("")
        paper.line("x" * 400, size=10.0)
        paper.at(50.0, 60.0, "left")
        paper.at(50.0, 60.0, "middle", align="middle", size=10.0)
        paper.at(50.0, 60.0, "right", align="right", size=10.0)
        paper.at(2.0, 60.0, "too far to the left", align="right")
        paper.blank("Workshop")
        paper.caption(5.0, 70.0, "a caption near the left edge", size=9.0)
        paper.caption(205.0, 70.0, "a caption near the right edge", size=9.0)
        paper.caption(100.0, 70.0, "w" * 200, size=9.0)
        paper.caption(100.0, 70.0, "", size=9.0)

    yield from drawn(work)


@KEPT.case
def strokes_and_arrows() -> Iterator[object]:
    def work(paper: Paper) -> None:
        paper.stroke([(1.0, 2.0), (3.0, 4.0), (5.0, 2.0)])
        paper.stroke([(1.0, 2.0)], width_mm=0.1)
        paper.area([(1.0, 2.0), (3.0, 4.0), (5.0, 2.0)])
        paper.arrow((10.0, 10.0), (20.0, 10.0))
        paper.arrow((10.0, 10.0), (10.0, 0.0))
        paper.arrow((10.0, 10.0), (13.0, 14.0))
        paper.arrow((10.0, 10.0), (10.0, 10.0))

    yield from drawn(work)


@KEPT.case
def room_and_two_lines() -> Iterator[object]:
    def work(paper: Paper) -> tuple[object, ...]:
        paper.pdf.set_y(200.0)
        held = [paper.room(high) for high in (81.9, 82.0, 82.1)]
        width = paper.pdf.get_string_width("three short words")
        paper.pdf.set_font("DejaVu", size=9.0)
        width = paper.pdf.get_string_width("three short words")
        two = [paper.lines("three short words", room, size=9.0) for room in (width, width - 0.1)]
        return (*held, *two, paper.lines("oneword", 1.0, size=9.0))

    yield from drawn(work)
    for size in ({}, {"width_mm": 60.0, "height_mm": 90.0, "margin_mm": 4.0}):
        with patch("fpdf.FPDF", Page):
            paper = Paper(**size)
        yield from paper.pdf.noted  # type: ignore[attr-defined]


@KEPT.case
def what_the_font_lacks() -> Iterator[object]:
    def work(paper: Paper) -> None:
        paper.line("a watch \u9999, \u9999 and \ufffd \u767d\x07")
        paper.at(10.0, 10.0, "\u9999")

    yield from drawn(work)
    with patch("fpdf.FPDF", Page):
        paper = Paper()
        paper.line("\u9999\u767d")
        yield paper.notes(), paper.notes(FRENCH)
        with tempfile.TemporaryDirectory() as folder:
            yield paper.save(Path(folder) / "a.pdf", FRENCH)
        yield paper.pdf.noted[-1]  # type: ignore[attr-defined]


@KEPT.case
def where_it_is_written() -> Iterator[object]:
    with patch("fpdf.FPDF", Page), tempfile.TemporaryDirectory() as folder:
        where = Path(folder)

        def tried(path: Path) -> str:
            try:
                return str(Paper().save(path))
            except NotOnPaper as why:
                return str(why).replace(folder, "FOLDER")

        (where / "text.pdf").write_text("some text", encoding="utf-8")
        (where / "old.pdf").write_bytes(b"%PDF-9 old")
        (where / "folder.pdf").mkdir()
        for name in ("new.pdf", "text.pdf", "old.pdf", "folder.pdf", "none/a.pdf"):
            yield name, tried(where / name)
        yield (where / "old.pdf").read_bytes().decode(), (where / "text.pdf").read_text(encoding="utf-8")


def test_given_to_standard_output(capfd: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    with patch("fpdf.FPDF", Page):
        assert Paper().save(Path("-")) == ()
    assert capfd.readouterr() == ("%PDF-1", "")
    page.said_of(Path("-"), ("a note",))
    page.said_of(tmp_path / "a.pdf", ("a note",))
    out, err = capfd.readouterr()
    assert (out, err) == (f"{tmp_path / 'a.pdf'}\na note\n", "a note\n")
    with patch.object(sys, "stdout", None), pytest.raises(NotOnPaper, match="standard output is closed"):
        page.give(b"x")
    terminal = SimpleNamespace(isatty=lambda: True)
    with (
        patch.object(sys, "stdout", terminal),
        pytest.raises(NotOnPaper, match="nothing to read on a terminal"),
    ):
        page.give(b"x")


# drawings

SQUARE = Drawing(
    of=Statement("drawn", "section of the wall"),
    outline=((0.0, 0.0), (0.6, 0.0), (0.6, 1.4), (0.0, 1.4)),
    across="wall 0.600",
    upright="height 1.40",
    leaders=(
        Leader((0.6, 1.0), (3.0, 0.3), "outside"),
        Leader((0.0, 0.8), (-2.0, 0.0), "bore, a long word for it"),
    ),
    above="glass side",
)


@KEPT.case
def a_section_with_its_dimensions() -> Iterator[object]:
    for box, middle in (((24.0, 20.0), 40.0), ((15.0, 14.0), 12.0)):
        yield from drawn(
            lambda paper, box=box, middle=middle: section.draw_section(  # type: ignore[misc]
                paper, SQUARE, middle=middle, top=30.0, box=box, size=8.0
            ),
            width_mm=80.0,
        )
    yield [
        section.scale_for(SQUARE, wide, high)
        for wide, high in ((48.0, 112.0), (47.9, 112.0), (48.0, 111.9), (0.1, 0.1), (6.0, 14.0))
    ]


@KEPT.case
def words_beside_a_drawing() -> Iterator[object]:
    def work(paper: Paper) -> None:
        section.across(paper, 10.0, 20.0, 30.0, "wall", 8.0)
        section.upright(paper, 10.0, 20.0, 30.0, "height", 8.0)
        section.leader(paper, (10.0, 10.0), (20.0, 15.0), "to the right", 8.0)
        section.leader(paper, (10.0, 10.0), (5.0, 15.0), "to the left", 8.0, to="left")
        section.place(paper, (70.0, 10.0), "no room here", 8.0)
        section.place(paper, (9.0, 10.0), "no room here", 8.0, to="left")

    yield from drawn(work, width_mm=80.0)


@KEPT.case
def a_bar_in_section() -> Iterator[object]:
    shops = (SHOP, replace(SHOP, bars=(TUBE, *SHOP.bars)), replace(SHOP, tools=(*SHOP.tools, CORE)))
    for shop in shops:
        made = made_of(DECIDED, shop)
        yield bar.section(made, 1.55), bar.hollow(made)
        yield from drawn(lambda paper, made=made: bar.draw_bar(paper, made, left=30.0, top=60.0))  # type: ignore[misc]
    made = made_of(DECIDED, shops[1])
    short = replace(made.order.bar, bore_deep_mm=2.0)
    yield bar.hollow(replace(made, order=replace(made.order, bar=short)))
    ring = replace(made.order.ring, foot_mm=0.3, foot_bore_mm=34.0, corner_mm=0.1)
    footed = replace(made, order=replace(made.order, ring=ring))
    yield bar.section(footed, 1.75), bar.hollow(footed)
    yield [bar.scale_for(largest, 80.0) for largest in (4.0, 4.1, 10.0, 53.4, 79.0, 81.0, 200.0)]


@KEPT.case
def a_leak_drawn() -> Iterator[object]:
    readings = ((0.0, 10.0), (5.0, 8.0), (10.0, 6.0))
    fitted, limit = ((0.0, 10.0), (10.0, 6.0)), ((0.0, 10.0), (2.0, 9.9), (4.0, 9.8), (6.0, 9.7))
    place = {"left": 20.0, "top": 30.0, "wide": 100.0, "high": 22.0}
    for curve in (
        LeakCurve(readings=readings, unit="um", fitted=fitted, limit=limit),
        LeakCurve(readings=readings, unit="um", fitted=(), limit=()),
        LeakCurve(readings=((0.0, 5.0), (4.0, 5.0)), unit="mV", fitted=(), limit=()),
    ):
        yield from drawn(lambda paper, curve=curve: leak_chart.draw_leak(paper, curve, **place))  # type: ignore[misc]


READ_BY = {
    "times_s": [60.0 * minute for minute in range(11)],
    "signals_um": [round(10.0 * math.exp(-minute / 150.0), 1) for minute in range(11)],
    "step_um": 0.1,
    "volume_cm3": 2.0,
    "volume_u_cm3": 0.3,
}
TEST: dict[str, Any] = {
    "sitting": "empty",
    "counts": True,
    "overpressure_bar": 2.0,
    "temperature_c": None,
    "readings": READ_BY,
}


@KEPT.case
def a_leak_fitted() -> Iterator[object]:
    yield leak_chart.fitted(TEST)
    yield leak_chart.fitted({**TEST, "temperature_c": 30.0})
    for changed in (
        {"overpressure_bar": 0.0},
        {"overpressure_bar": None},
        {"readings": {**READ_BY, "volume_cm3": None}},
        {"readings": {**READ_BY, "volume_cm3": -1.0}},
    ):
        yield leak_chart.fitted({**TEST, **changed})
    curve = leak_chart.curve_of(TEST)
    yield curve.unit, len(curve.readings), len(curve.fitted), len(curve.limit)


@KEPT.case
def a_code() -> Iterator[object]:
    rows = code.modules(214)
    yield from ("".join(map(str, row)) for row in rows)
    yield from list(drawn(lambda paper: code.draw_code(paper, 214, left=10.0, top=20.0)))[:14]


# whole papers


def data(**changed: Any) -> dict[str, Any]:
    """The sheet of a ring that was made and pressed in."""
    job = job_of(*FILE, *WALLS, ("ring_height", "1.44 mm"), pressed("home"))
    return {**sheet_data(job, finished=True, shop_name="Quay", tester_number="T 4"), **changed}


@KEPT.case
def a_slip() -> Iterator[object]:
    for opens_by, size, changed in (
        (7001, (60.0, 90.0), {}),
        (214, (60.0, 90.0), {"watch": "a diver"}),
        (214, (44.9, 120.0), {"shop_name": "", "tester_number": "", "finished": False}),
        (214, (45.0, 120.0), {}),
        (None, (45.0, 80.0), {"job": "a job with a very long name"}),
    ):
        yield opens_by, size
        write = partial(slip.write_slip, data(**changed), opens_by=opens_by, size_mm=size)
        yield from written(lambda path, write=write: write(path=path))  # type: ignore[misc]
    yield from (f"{slip.short(text, 6)}" for text in ("sixsix", "sevense", "five5"))
    for size in ((60.0, 30.0), (25.0, 20.0)):
        with patch("fpdf.FPDF", Page):
            try:
                slip.write_slip(data(), Path("none"), opens_by=214, size_mm=size)
            except NotOnPaper as why:
                yield size, str(why)


@KEPT.case
def the_ways_of_a_slip() -> Iterator[object]:
    for drawn_too, scale in slip.WAYS:
        with patch("fpdf.FPDF", Page):
            paper = slip.laid_out(data(), 214, (60.0, 90.0), FRENCH, drawn=drawn_too, scale=scale)
        yield drawn_too, scale, paper.pdf.page, paper.pdf.y
        yield paper.pdf.noted[-1]  # type: ignore[attr-defined]


@KEPT.case
def the_sheet_of_the_customer() -> Iterator[object]:
    for changed in ({}, {"shop_name": "", "watch": "a diver", "finished": False}):
        yield from written(lambda path, c=changed: customer.write_customers(data(**c), path))  # type: ignore[misc]
    for setting in customer.SETTINGS:
        with patch("fpdf.FPDF", Page):
            paper = customer.set_page(data(), FRENCH, setting)
        yield setting, paper.pdf.page, paper.pdf.y
    long = data(remark="w" * 6000)
    yield from list(written(lambda path: customer.write_customers(long, path)))[:2]


@KEPT.case
def the_sheet_of_the_workshop() -> Iterator[object]:
    more = (Section("For the shop", ("Minutes at the bench: 42.",)),)
    tests = [TEST, {**TEST, "counts": False}, {**TEST, "readings": None}]
    yield from written(lambda path: sheet.write_workshops(data(tests=[]), path, more))
    unnamed = data(shop_name="", watch="a diver", finished=False, tester_number="")
    yield from list(written(lambda path: sheet.write_workshops(unnamed, path, more)))[:14]
    for filled in (0, 15, 16, 20):
        rest = (Section("Filled", ("x",) * filled), Section("Drawn", ("below",), drawn=True))
        noted = list(written(lambda path, rest=rest: sheet.write_workshops(data(tests=[]), path, rest)))  # type: ignore[misc]
        yield filled
        yield from (one for one in noted if one.startswith("page ") or one.endswith((": Drawn", ": below")))
    for y in (20.0, 230.0, 247.0, 248.0):

        def work(paper: Paper, y: float = y) -> None:
            paper.pdf.set_y(y)
            sheet.curves(paper, {"tests": tests})
            sheet.fresh_page(paper, 46.0)

        yield y
        yield from drawn(work)
    for has_tests in ([], [TEST]):
        yield from drawn(lambda paper, t=has_tests: sheet.title(paper, data(tester_number="", tests=t)))  # type: ignore[misc]


@KEPT.case
def a_plan() -> Iterator[object]:
    made = made_of()
    yield from written(
        lambda path: plan.write_plan(made, plan_drawing(made, DECIDED.gap), title="job 7", path=path)
    )


TOLD = {"made": 3, "spares": 1, "first_tries": 4, "first_home": 3, "passed": 5, "failed": 1}
MONTH = Counted(**TOLD, not_judged=1, minutes=125.0, sittings=6, bar_mm=12.35)
YEAR = Year(
    year=2026,
    whole=MONTH,
    months=(MONTH, *(Counted(),) * 5, replace(MONTH, made=1, first_home=0, passed=0), *(Counted(),) * 5),
    made=(("ring", 3),),
    bars=(("acetal white 36 mm", 12.35),),
    jobs=4,
    others=((2025, 1),),
)


@KEPT.case
def a_year() -> Iterator[object]:
    yield from written(lambda path: year.write_year(YEAR, "Quay", path))
    many = replace(YEAR, bars=tuple((f"bar {n}", float(n)) for n in range(10)))
    yield from list(written(lambda path: year.write_year(many, "", path)))[:24]
    nothing = replace(YEAR, months=(Counted(),) * 12)
    (first, *_) = year.plots()
    yield from drawn(
        lambda paper: year.draw(paper, first, nothing.months, left=20.0, top=40.0, wide=120.0, high=20.0)
    )
    yield [
        (plot.heading, plot.whole(MONTH), plot.part and plot.part(MONTH), plot.said(MONTH))
        for plot in year.plots()
    ]


@KEPT.case
def pieces_of_the_manual() -> Iterator[object]:
    for kind, text in (
        ("head", "A heading"),
        ("text", "Some text."),
        ("caution", "Mind the blade."),
        ("code", "ringwright\n  demo"),
        ("item", "An item"),
        ("page", "\u2588\u2580\u2584\u2500\n\u251cab\u2524"),
    ):
        for y in (30.0, 255.0, 275.0):

            def work(paper: Paper, kind: str = kind, text: str = text, y: float = y) -> None:
                paper.pdf.set_y(y)
                manual.put(paper, ManualPiece(kind, text, "-"), gap_mm=2.5)

            yield kind, y
            yield from drawn(work)


@KEPT.case
def the_manual() -> Iterator[object]:
    found = list(written(manual.write_manual))
    yield found[:8]
    yield from [line for line in found if line.startswith("at (") and " 11: " in line]
    yield from [
        line for line in found if " 17: " in line or line.startswith(("at (105", "at (104", "at (103"))
    ]
    yield found[-1]


@pytest.mark.parametrize("name", KEPT.cases)
def test_where_all_stands_on_paper(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()

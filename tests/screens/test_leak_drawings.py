"""One curve, three drawings: what screen, paper and command line draw of a series is the same curve.

Each drawing is read back through its own axis, and its readings,
its fit and its limit are laid over the curve.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence

import pytest

from bench.commands.leak import plot
from bench.paper.leak_chart import curve_of, draw_leak
from rules.testing.leak_curve import LeakCurve, Points
from screens import pictures
from screens.raster import Canvas, Outline
from tests.screens.golden import leak_of

RATES = (0.0, 20.0, 120.0)
Drawn = dict[str, Points]


def along(points: Sequence[tuple[float, float]], at: float) -> float:
    """The signal of a line at a time."""
    for (t0, y0), (t1, y1) in itertools.pairwise(points):
        if t0 - 1e-9 <= at <= t1 + 1e-9:
            return y0 + (y1 - y0) * (at - t0) / (t1 - t0)
    raise AssertionError(f"nothing is drawn at {at} min")


def on_screen(curve: LeakCurve, monkeypatch: pytest.MonkeyPatch) -> Drawn:
    """The picture, read from its shapes by the figures that stand at its axes."""
    kept: list[Canvas] = []
    render = Canvas.render

    def keep(canvas: Canvas, columns: int, rows: int, style: str = "ascii") -> list[str]:
        kept.append(canvas)
        return render(canvas, columns, rows, "ascii")

    with monkeypatch.context() as patch:
        patch.setattr(Canvas, "render", keep)
        text = "\n".join(pictures.leak_picture(curve))
    assert all(words in text for words in ("limit", "um", "10 min", *(f"{end:.3g}" for end in curve.signals)))
    lines = [shape for shape in kept[0].shapes if isinstance(shape, Outline)]
    axis, fit, limit, *ticks = lines
    (left, top), (_, foot), (right, _) = axis.points
    assert limit.dashed and not fit.dashed

    def back(points: Points) -> Points:
        low, high = curve.signals
        return tuple(
            (10 * (x - left) / (right - left), high - (high - low) * (y - top) / (foot - top))
            for x, y in points
        )

    crosses = tuple(((one.points[0][0] + one.points[1][0]) / 2, one.points[0][1]) for one in ticks[::2])
    return {"readings": back(crosses), "fitted": back(fit.points), "limit": back(limit.points)}


class Recorder:
    """Paper that keeps what is drawn on it."""

    def __init__(self) -> None:
        self.strokes: list[tuple[list[tuple[float, float]], float]] = []
        self.dots: list[tuple[float, float]] = []
        self.words: list[tuple[float, float, str]] = []
        self.pdf = self

    def stroke(self, points: list[tuple[float, float]], *, width_mm: float) -> None:
        """Keep a line."""
        self.strokes.append((points, width_mm))

    def at(self, x: float, y: float, text: str, **_: object) -> None:
        """Keep words."""
        self.words.append((x, y, text))

    def circle(self, *, x: float, y: float, **_: object) -> None:
        """Keep a dot."""
        self.dots.append((x, y))


def on_paper(curve: LeakCurve) -> Drawn:
    """The chart, read by its two figures and its three times."""
    paper = Recorder()
    draw_leak(paper, curve, left=20.0, top=10.0, wide=100.0, high=40.0)  # type: ignore[arg-type]
    low, up = (float(text) for _, _, text in paper.words[:2])
    least, most = curve.signals
    assert low == pytest.approx(least - 0.08 * (most - least), abs=0.051)
    assert up == pytest.approx(most + 0.08 * (most - least), abs=0.051)
    assert [text for _, _, text in paper.words[2:5]] == ["0 min", "5 min", "10 min"]
    low, up = least - 0.08 * (most - least), most + 0.08 * (most - least)

    def back(points: Sequence[tuple[float, float]]) -> Points:
        return tuple((10 * (x - 20.0) / 100.0, up - (up - low) * (y - 10.0) / 40.0) for x, y in points)

    fit = next(points for points, width in paper.strokes if width == 0.3)
    dashes = [points for points, width in paper.strokes if width == 0.15 and len(points) == 2][3:]
    assert "a leak at the limit, 50 ug/min at 2 bar" in paper.words[-1][2]
    return {
        "readings": back(paper.dots),
        "fitted": back(fit),
        "limit": back([one for dash in dashes for one in dash]),
    }


def on_the_line(curve: LeakCurve) -> Drawn:
    """The plain plot, read by its marks and the figures at its ends; a mark may hide another."""
    lines = plot(curve)
    rows = [line.partition("|") for line in lines if "|" in line]
    high, low = float(rows[0][0]), float(rows[-1][0])
    first, last = (float(word) for word in re.findall(r"[\d.]+", lines[len(rows) + 1]))
    found: Drawn = {}
    for name, mark in (("readings", "o"), ("fitted", "-"), ("limit", "x")):
        found[name] = tuple(
            (
                first + (last - first) * column / 59,
                high - (high - low) * row / (len(rows) - 1),
            )
            for column in range(60)
            for row, (_, _, drawn) in enumerate(rows)
            if drawn[column : column + 1] == mark
        )
    assert "x a leak at the limit, 50 ug/min at 2 bar" in lines[-1]
    return found


@pytest.mark.parametrize("rate", RATES)
def test_three_drawings_of_one_curve(rate: float, monkeypatch: pytest.MonkeyPatch) -> None:
    curve = leak_of(rate)
    low, high = curve.signals
    for name in ("readings", "fitted", "limit"):
        expected: Points = getattr(curve, name)
        assert len(expected) == (13 if name == "readings" else 60)
        for drawn in (on_screen(curve, monkeypatch), on_paper(curve)):
            assert len(drawn[name]) == len(expected)
            for (t0, y0), (t1, y1) in zip(drawn[name], expected, strict=True):
                assert t0 == pytest.approx(t1, abs=1e-6) and y0 == pytest.approx(y1, abs=1e-6)
        typed = on_the_line(curve)[name]
        assert len(typed) >= (2 if name == "fitted" else 10)
        for time, signal in typed:
            assert signal == pytest.approx(along(expected, time), abs=0.55 * (high - low) / 12 + 0.02)


@pytest.mark.parametrize("rate", RATES)
def test_the_limit_falls_by_the_law_of_a_leak_at_the_limit(rate: float) -> None:
    """By hand: 2 cm3 at 2 bar, 1188.4 ug per cm3 and bar, 50 ug/min: a tenth less after 10.02 minutes."""
    curve = leak_of(rate)
    assert curve.limit[-1][1] / curve.limit[0][1] == pytest.approx(0.9002, abs=5e-5)
    assert curve.limit[0] == curve.fitted[0]
    assert (curve.limit[-1][1] < curve.fitted[-1][1]) == (rate < 50.0)


def test_paper_fits_what_the_sheet_holds_as_the_screen_did() -> None:
    """Readings, volume and gauge of the sheet give the same curve again;
    without a volume no line is drawn.
    """
    curve = leak_of(20.0)
    taken = {
        "times_s": [60 * time for time, _ in curve.readings],
        "signals_um": [signal for _, signal in curve.readings],
        "step_um": 0.1,
        "volume_cm3": 2.0,
        "volume_u_cm3": 0.3,
    }
    test = {"readings": taken, "overpressure_bar": 2.0, "temperature_c": None}
    again = curve_of(test)
    for name in ("readings", "fitted", "limit"):
        for one, other in zip(getattr(again, name), getattr(curve, name), strict=True):
            assert one == pytest.approx(other)
    alone = curve_of({**test, "readings": {**taken, "volume_cm3": None, "volume_u_cm3": None}})
    assert len(alone.readings) == 13 and alone.fitted == alone.limit == ()
    assert pictures.leak_picture(alone)
    paper = Recorder()
    draw_leak(paper, alone, left=20.0, top=10.0, wide=100.0, high=40.0)  # type: ignore[arg-type]
    assert len(paper.dots) == 13 and "limit" not in paper.words[-1][2]

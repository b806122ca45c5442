"""The strict reader of typed lengths and pressures."""

from __future__ import annotations

import subprocess
import sys

import pytest
from hypothesis import given, strategies as st

from bench.units import length_mm, number, pressure_bar


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("33.20", 33.20),
        ("33,20", 33.20),
        (" 33.20 ", 33.20),
        ("33.20mm", 33.20),
        ("33.20 MM", 33.20),
        ("0033.2", 33.20),
        ("+33.2", 33.20),
        (".5", 0.5),
        ("5.", 5.0),
        ("33", 33.0),
        ("1,161", 1.161),
        ("1in", 25.4),
        ("1.161 in", 29.4894),
        ('1.161"', 29.4894),
        ("33.2000000000000001", 33.20),
    ],
)
def test_taken(text: str, mm: float) -> None:
    """An inch is 25.4 mm exactly (international inch, 1959)."""
    assert length_mm(text) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    [
        *["", "   ", "nan", "NaN", "inf", "-inf", "1e3", "1E3", "1.5e-2", "0x10", "1_000", "1'000"],
        *["1.234,5", "1,234.5", "1..2", "1.2.3", "12 13", "12;13", "1/2", "-5", "−5", "--5", "+-5", "5+"],
        *["٣٣", "３３", "33²", "½", "33.20cm", "33.20 m", "33.20 in mm", "in", "mm", "33 2", "$33", "33%"],
        *["33.2\n34.1", "33\t2", "33.20\x00", "1" * 41, "33.20 furlong", "meter", "2 * 3", "33.20 mm^2"],
    ],
)
def test_refused(text: str) -> None:
    with pytest.raises(ValueError) as refused:
        length_mm(text)
    assert "\n" not in str(refused.value).replace("\\n", "")
    assert len(str(refused.value)) > 15


@pytest.mark.parametrize(
    ("text", "bar"),
    [
        ("3", 3.0),
        ("3 bar", 3.0),
        ("30 m", 3.0),
        ("100ft", 3.048),
        ("1 atm", 1.01325),
        ("100 psi", 6.894757),
        ("0.5 MPa", 5.0),
        ("250 kPa", 2.5),
    ],
)
def test_pressures(text: str, bar: float) -> None:
    """psi after NIST SP 811 appendix B; 10 m = 1 bar is the trade's convention (common practice)."""
    assert pressure_bar(text) == pytest.approx(bar, rel=1e-6)


@pytest.mark.parametrize(("water", "bar"), [("fresh", 0.979), ("sea", 1.005), ("trade", 1.0)])
def test_depths_by_water(water: str, bar: float) -> None:
    """10 m of water at 998.2 and 1025 kg/m3 under 9.80665 m/s2."""
    assert pressure_bar("10 m", water=water) == pytest.approx(bar, abs=0.0005)


def test_a_pressure_is_no_length_and_a_number_has_no_unit() -> None:
    for read, text in ((length_mm, "3 bar"), (pressure_bar, "3 mm"), (number, "0.2 N")):
        with pytest.raises(ValueError):
            read(text)
    with pytest.raises(ValueError, match="water"):
        pressure_bar("3 m", water="heavy")


@given(st.text(max_size=45))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        value = length_mm(text)
    except ValueError as refused:
        assert str(refused)
    else:
        assert 0.0 <= value < 1e42


@given(st.floats(0.0, 999.0), st.integers(0, 12), st.sampled_from([".", ","]))
def test_what_is_typed_is_what_is_read(value: float, places: int, point: str) -> None:
    text = f"{value:.{places}f}"
    assert length_mm(text.replace(".", point)) == float(text)


def test_millimetres_load_no_unit_library() -> None:
    script = (
        "import sys; from bench.units import length_mm; length_mm('33.20'); length_mm('33.20 mm');"
        "before = 'pint' in sys.modules; length_mm('1in'); print(before, 'pint' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["False", "True"]

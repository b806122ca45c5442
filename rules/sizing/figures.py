"""The answer of the sizing as plain data, every figure under its own name.

Invariant: every name is always there; None where a figure is not known.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields
from typing import Any

from rules.sizing.fit import Force, Pressed, Yielded
from rules.sizing.sizing import Sizing

RING = ("outside_diameter_mm", "bore_mm", "height_mm", "wall_mm", "chamfer_mm", "lower_chamfer_mm")
FIT = (
    "nominal_squeeze_pct",
    "real_squeeze_pct",
    "contact_pressure_mpa",
    "line_load_n_per_mm",
    "case_growth_um",
    "case_hoop_stress_mpa",
    "case_yields",
    "seating_force_n",
    "axial_growth_mm",
    "contact_pressure_1h_mpa",
    "contact_pressure_1000h_mpa",
    "contact_pressure_10y_mpa",
    "contact_pressure_cold_mpa",
    "contact_pressure_warm_mpa",
    "yielded",
)
YIELDED = ("yield_mpa", "set_um", *(one.name for one in fields(Pressed)))
WINDOW = (
    "bore_low_mm",
    "bore_high_mm",
    "target_bore_mm",
    "chance",
    "binds_low",
    "binds_high",
    "feasible",
    "squeeze_low_pct",
    "squeeze_high_pct",
    "outside_low_mm",
    "outside_high_mm",
    "ring_chance",
    "tenth_chance",
    "nine_chance",
    "chance_before",
    "not_judged",
    "help",
)
THUMB = ("tenth_bore_mm", "tenth_squeeze_pct", "nine_bore_mm", "nine_interference_mm")
GLASS = (
    "stress_supported_mpa",
    "stress_clamped_mpa",
    "deflection_supported_um",
    "design_stress_mpa",
    "pressure_at_design_bar",
)
_PLACES = 9


def _plain(value: Any) -> Any:
    """A value as data: numbers without the noise of their last places."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, int | float):
        return round(float(value), _PLACES)
    if isinstance(value, Force):
        return {"low": _plain(value.low), "mid": _plain(value.mid), "high": _plain(value.high)}
    if isinstance(value, Yielded):
        return _named(value, YIELDED)
    return [_plain(one) for one in value]


def _named(of: object, names: Sequence[str]) -> dict[str, Any]:
    """The figures of one part by name."""
    return {name: _plain(getattr(of, name)) for name in names}


def tree(sizing: Sizing) -> dict[str, Any]:
    """The whole answer as nested plain data."""
    measured, believed = sizing.resolved.measured, sizing.resolved.believed
    taught = believed if believed != measured else None
    return {
        "gap": {
            "measured_mm": _plain(measured.mean_mm),
            "measured_u_mm": _plain(measured.sd_mm),
            "believed_mm": _plain(taught and taught.mean_mm),
            "believed_u_mm": _plain(taught and taught.sd_mm),
        },
        "ring": _named(sizing.ring, RING),
        "fit": _named(sizing.fit, FIT),
        "window": _named(sizing.window, WINDOW),
        "thumb": _named(sizing.thumb, THUMB),
        "glass": _named(sizing.glass, GLASS),
        "budget": [
            {"name": one.name, "u_um": _plain(1000.0 * one.u_mm), "share": _plain(one.share)}
            for one in sizing.resolved.budget.components
        ],
        "assumed": list(sizing.resolved.assumed),
        "warnings": list(sizing.warnings),
    }


def flat(sizing: Sizing) -> dict[str, Any]:
    """Every single figure by its dotted name; the yielding figures only where the case yields."""
    return dict(_walk("", tree(sizing)))


def _walk(prefix: str, node: Any) -> Iterator[tuple[str, Any]]:
    if isinstance(node, dict):
        for name, below in node.items():
            yield from _walk(f"{prefix}.{name}" if prefix else name, below)
    else:
        yield prefix, node

"""The commented starter of shop.toml: the built-in shop in the words the file itself uses.

Invariant: what is written here loads again to an equal shop.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from pathlib import Path
from typing import Any

from bench.file.aside import write_aside
from bench.file.disk import REAL, make_folders
from bench.file.slug import SHOP
from bench.shop.shop import Shop, built_in
from rules.equipment import Axis, Lathe

TOP = (
    "What stands in this workshop. Change it in any editor; ringwright says which line it cannot use.",
    "Lengths in mm, speeds in rpm, forces in N, pressures in bar. A section that is left out is built in.",
    "hand_scale_pct: how softly the hand tells a loose ring and a tight one from one that fits, in points",
    "of squeeze.",
    "glass_step_mm: from one stock size of a glass to the next, on the diameter.",
)
TOP_KEYS = (
    "shop_name",
    "tester_number",
    "works_in",
    "theme",
    "bell",
    "bounce_ms",
    "divers_equipped",
    "turning_spread_mm",
    "hand_scale_pct",
    "glass_step_mm",
)
LATHE = (
    "One [[lathe]] for each lathe. speeds_rpm: the list; or slowest and fastest with stepless = true.",
    'A belt: speed_names = ["inner step", "outer step"], one for each speed; names a step as you do.',
    "shows_speed = false where nothing on it says the speed; numbered_tools = false without numbers.",
    "shows: the cross slide shows diameter or radius, the carriage shows length.",
    "step_mm: smallest step that can be set, as the display counts. With dials add division_mm (one",
    "division) and divisions_per_turn. backlash_mm: of its screw. direction: which way the figures grow",
    (
        "(cross: outward or inward; carriage: to_chuck or from_chuck). Marked in inch: "
        'unit = "inch", and step_in,'
    ),
    "division_in, backlash_in in place of step_mm ... [[lathe.grip]]: what it holds, and over what length.",
)
TOOL = (
    "Tools by the number on their holder. kind: turning, boring, chamfer, parting. A second set of tools:",
    'add  set = "name"  to each of its tools.',
)
BAR = ("Bars in stock: length_mm is what is left.",)
INSTRUMENT = (
    "kind: calliper, micrometer, ball_micrometer, bore_gauge, depth_gauge, plug.",
    "limit_of_error_mm: largest error the last calibration allows, either way.",
)
PRESS = ("The glass press. Add  largest_force_n = 1500  when it is known; unknown limits nothing.",)
TESTER = ("The air tester: largest overpressure and one step of its gauge.",)
MATERIAL = (
    "A material of your own, every number with unit, source and basis (published, memory, common practice):",
    "[plastic.mine]",
    'name = "plastic from the drawer"',
    'youngs_modulus_mpa = { value = 2500, unit = "MPa", source = "maker\'s sheet", basis = "published" }',
    "What is known of a plastic in the cold and the warmth (both are needed; a curve in tension counts too):",
    'youngs_modulus_at = { value = 2500, at = [[-20, 3000], [60, 1500]], unit = "MPa", source = "...", '
    'basis = "published" }',
    'stress_cap_at = { value = 62, at = [[-20, 80], [60, 42]], unit = "MPa", source = "...", '
    'basis = "published" }',
    "[metal.mine] and [glass.mine] in the same way.",
)


def write(folder: Path) -> Path:
    """Write the commented starter of shop.toml from the built-in shop; never over a file that is there.

    Raises FileExistsError, OSError.
    """
    make_folders(REAL, folder)
    path = folder / SHOP
    write_aside(path, starter_text(built_in()).encode(), over=False)
    return path


def starter_text(shop: Shop) -> str:
    """The whole file as text."""
    import tomli_w

    parts = [_comment(TOP) + tomli_w.dumps({key: getattr(shop, key) for key in TOP_KEYS})]
    groups: list[tuple[tuple[str, ...], dict[str, Any]]] = [
        (LATHE, {"lathe": [_lathe(lathe) for lathe in shop.lathes]}),
        (TOOL, {"tool": [_tool(tool) for tool in shop.tools]}),
        (BAR, {"bar": [_plain(bar) for bar in shop.bars]}),
        (INSTRUMENT, {"instrument": [_plain(instrument) for instrument in shop.instruments]}),
        (PRESS, {"press": _plain(shop.press)}),
        (TESTER, {"tester": _plain(shop.tester)}),
    ]
    for words, table in groups:
        parts.append(_comment(words) + _as_sections(table))
    parts.append(_comment(MATERIAL))
    return "\n".join(parts)


def _comment(words: tuple[str, ...]) -> str:
    return "".join(f"# {line}\n" for line in words)


def _as_sections(table: Mapping[str, Any]) -> str:
    """Lists of tables as [[...]] sections; the writer on its own would put short ones on one line."""
    import tomli_w

    text = ""
    for key, value in table.items():
        for one in value if isinstance(value, list) else [value]:
            head = f"[[{key}]]" if isinstance(value, list) else f"[{key}]"
            inner = {name: item for name, item in one.items() if not _is_nested(item)}
            text += f"{head}\n{tomli_w.dumps(inner)}"
            nested = {f"{key}.{name}": item for name, item in one.items() if _is_nested(item)}
            text += _as_sections(nested)
    return text


def _is_nested(item: object) -> bool:
    return isinstance(item, dict) or (isinstance(item, list) and bool(item) and isinstance(item[0], dict))


def _plain(thing: Any) -> dict[str, Any]:
    pairs = {field.name: getattr(thing, field.name) for field in fields(thing)}
    return {
        key: list(value) if isinstance(value, tuple) else value
        for key, value in pairs.items()
        if value is not None
    }


def _lathe(lathe: Lathe) -> dict[str, Any]:
    table = _plain(lathe)
    table["cross"], table["carriage"] = _axis(lathe.cross), _axis(lathe.carriage)
    table["grip"] = [_plain(grip) for grip in table.pop("grips")]
    return table


def _axis(axis: Axis) -> dict[str, Any]:
    table = _plain(axis)
    if not axis.is_dial:
        table.pop("division_mm")
        table.pop("divisions_per_turn")
    return table


def _tool(tool: Any) -> dict[str, Any]:
    table = _plain(tool)
    name = table.pop("tool_set")
    if name != "bench":
        table["set"] = name
    return {key: value for key, value in table.items() if value != 0.0}

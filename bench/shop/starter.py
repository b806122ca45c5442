"""The commented starter of shop.toml: the built-in shop in the words the file itself uses.

Invariant: what is written here loads again to an equal shop.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any

from bench.file.aside import write_aside
from bench.file.disk import REAL, make_folders
from bench.file.slug import SHOP
from bench.languages import language_words
from bench.shop.groups import BARS, GROUPS, INSTRUMENTS, LATHE, PRESS, TESTER, TOOLS
from bench.shop.shop import Shop, built_in
from bench.shop.tables import is_list, table, things

TOP = (
    "What stands in this workshop. Change it in any editor; ringwright says which line it cannot use.",
    "Lengths in mm, speeds in rpm, forces in N, pressures in bar. A section that is left out is built in.",
    'works_in = "inch": pages, papers and keyed numbers in inch. Every word that ends in _mm may end in _in.',
    f"papers_in: language of the customer's sheet and slip ({', '.join(language_words())});",
    "a job may have its own. Until a speaker has read it through, papers say that the English text holds.",
    "hand_scale_pct: how softly the hand tells a loose ring and a tight one from one that fits, in points",
    "of squeeze.",
    "theme: day, night, or terminal: as the terminal itself says whether it is light or dark (COLORFGBG).",
    "glass_step_mm: from one stock size of a glass to the next, on the diameter.",
    "learn_from_jobs = false: a ring is sized by what is assumed, not by how those finished here came out.",
)
TOP_KEYS = (
    "shop_name",
    "tester_number",
    "works_in",
    "papers_in",
    "theme",
    "bell",
    "bounce_ms",
    "divers_equipped",
    "turning_spread_mm",
    "hand_scale_pct",
    "glass_step_mm",
    "learn_from_jobs",
)
OF_LATHE = (
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
    "division_in, backlash_in in place of step_mm ...",
    "largest_drill_mm: what the tailstock takes; drills_mm = [8, 10, 13]: the drills there are, else every",
    "half millimetre. spindle_hole_mm: a thicker bar is sawn, as it does not go through.",
    "[[lathe.grip]]: what it holds, and over what length. kind: three_jaw, soft_jaws, collet, step_collet,",
    "arbor (the piece is stuck on by its face).",
)
OF_TOOLS = (
    "Tools by the number on their holder. kind: turning, boring, chamfer, parting. A second set of tools:",
    'add  set = "name"  to each of its tools. kind = "face_grooving" cuts a core out of the bar: blade_mm,',
    "smallest_groove_mm and largest_groove_mm (outer diameters of a first groove), depth_mm.",
)
OF_BARS = (
    "Bars in stock: length_mm is what is left. kind: bar, blank (turned before), tube, left_over.",
    "outside_mm: what it measures; bore_mm: its own hole, bore_deep_mm: how deep, else right through.",
)
OF_INSTRUMENTS = (
    "kind: calliper, micrometer, ball_micrometer, bore_gauge, inside_micrometer, depth_gauge, plug.",
    "limit_of_error_mm: largest error the last calibration allows, either way. One that shows inch:",
    "resolution_in and limit_of_error_in in their place.",
)
OF_PRESS = ("The glass press. Add  largest_force_n = 1500  when it is known; unknown limits nothing.",)
OF_TESTER = (
    "The air tester: largest overpressure and one step of its gauge. gives: verdict (pass or fail by",
    "itself), deflection (of the watch, to be read) or water (bubbles alone).",
)
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
    "A gauge that sends its readings over a serial port (needs the extra serial); its name, speed_baud,",
    "data_bits, parity, unit and pattern may stand under it. ringwright keys shows what comes:",
    "[[line]]",
    'port = "/dev/ttyUSB0"',
)
ABOVE = {
    LATHE: OF_LATHE,
    TOOLS: OF_TOOLS,
    BARS: OF_BARS,
    INSTRUMENTS: OF_INSTRUMENTS,
    PRESS: OF_PRESS,
    TESTER: OF_TESTER,
}
"""What stands above the sections of each group."""


def write(folder: Path) -> Path:
    """Write the commented starter of shop.toml from the built-in shop; never over a file that is there.

    Raises FileExistsError, OSError.
    """
    make_folders(REAL, folder)
    path = folder / SHOP
    write_aside(path, starter_text(built_in()).encode(), over=False)
    return path


def starter_text(shop: Shop, said: Collection[str] = GROUPS) -> str:
    """The whole file as text, of the groups that are said."""
    import tomli_w

    top = tomli_w.dumps({key: getattr(shop, key) for key in TOP_KEYS})
    return "\n".join(
        [
            _comment(TOP) + top,
            _comment(MATERIAL),
            *(sections_text(shop, group) for group in GROUPS if group in said),
        ]
    )


def sections_text(shop: Shop, group: str) -> str:
    """The sections of a group with the words above them."""
    tables = [table(thing) for thing in things(shop, group)]
    return _comment(ABOVE[group]) + sections_of({group: tables if is_list(group) else tables[0]})


def _comment(words: tuple[str, ...]) -> str:
    return "".join(f"# {line}\n" for line in words)


def sections_of(table: Mapping[str, Any]) -> str:
    """Lists of tables as [[...]] sections; the writer on its own would put short ones on one line."""
    import tomli_w

    text = ""
    for key, value in table.items():
        for one in value if isinstance(value, list) else [value]:
            head = f"[[{key}]]" if isinstance(value, list) else f"[{key}]"
            inner = {name: item for name, item in one.items() if not _is_nested(item)}
            text += f"{head}\n{tomli_w.dumps(inner)}"
            nested = {f"{key}.{name}": item for name, item in one.items() if _is_nested(item)}
            text += sections_of(nested)
    return text


def _is_nested(item: object) -> bool:
    return isinstance(item, dict) or (isinstance(item, list) and bool(item) and isinstance(item[0], dict))

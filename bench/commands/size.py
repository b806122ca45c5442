"""`ringwright size` proposes a ring, `ringwright fit` assesses a given one; both say what follows.

Invariant: the figures printed and those under --json come from the same answer.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from bench import units
from bench.command import DONE, Refused
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.commands.shop import loaded
from bench.commands.size_text import lines, why_lines
from bench.shop.shop import Shop, built_in
from rules import limits, tables
from rules.checks import OutOfRange, hundredth, known, plain
from rules.sizing import figures
from rules.sizing.decision import USED_RING
from rules.sizing.question import RANGE_OF, SizingQuestion
from rules.sizing.sizing import size


@dataclass(frozen=True, slots=True)
class Option:
    """One option that takes a number."""

    flag: str
    asks: str
    """Name of the question's field."""
    read: Callable[[str], float]
    help: str


def _signed(text: str) -> float:
    """A plain number that may be below zero, such as a temperature."""
    bare = text.strip(" ")
    return -units.number(bare[1:]) if bare.startswith("-") else units.number(bare)


OPTIONS = (
    Option("--case-bore", "case_bore_mm", units.length_mm, "glass seat, inside diameter"),
    Option("--glass", "glass_mm", units.length_mm, "glass, diameter on the straight edge"),
    Option("--height", "height_mm", units.length_mm, "height of the ring"),
    Option("--seat-depth", "seat_depth_mm", units.length_mm, "depth of the seat"),
    Option("--glass-edge", "glass_edge_mm", units.length_mm, "straight edge of the glass"),
    Option("--case-wall", "case_wall_mm", units.length_mm, "metal outside the seat"),
    Option("--case-height", "case_height_mm", units.length_mm, "height of that metal"),
    Option("--glass-thickness", "glass_thickness_mm", units.length_mm, "thickness of the glass"),
    Option("--friction", "friction", units.number, "friction between ring and glass, usual 0.2"),
    Option("--case-bore-u", "case_bore_u_mm", units.length_mm, "case bore good to (95 %%)"),
    Option("--glass-u", "glass_u_mm", units.length_mm, "glass good to (95 %%)"),
    Option("--ovality", "ovality_mm", units.length_mm, "largest less smallest seat diameter"),
    Option("--overpressure", "overpressure_bar", units.pressure_bar, "test pressure, bar"),
    Option("--press-force", "press_force_n", units.number, "what the press gives, N"),
    Option(
        "--turning-spread", "turning_spread_mm", units.length_mm, "spread of what is turned, on the diameter"
    ),
    Option("--ring-offset", "ring_offset_mm", units.length_mm, "ring off the middle of the metal"),
    Option("--temperature", "temperature_c", _signed, "where it was measured, C"),
    Option("--case-yield", "case_yield_mpa", units.number, "yield of this very case, MPa"),
    Option("--support", "support_mm", units.length_mm, "diameter the glass rests on"),
)
GIVEN = (
    Option("--outside", "outside_mm", units.length_mm, "outside diameter of the ring"),
    Option("--bore", "bore_mm", units.length_mm, "bore of the ring"),
)
NEEDED = {
    "size": ("--case-bore", "--glass"),
    "fit": ("--case-bore", "--glass", "--height"),
}
MOST_WALL_MM = 3.0


def add(subparsers: Subparsers) -> None:
    """Register `size` and `fit`."""
    for name in NEEDED:
        parser = new(subparsers, name)
        options = OPTIONS + (GIVEN if name == "fit" else ())
        for option in options:
            parser.add_argument(
                option.flag,
                dest=option.asks,
                metavar=option.flag.lstrip("-").upper(),
                help=option.help,
                required=option.flag in NEEDED[name],
            )
        if name == "fit":
            parser.add_argument(
                "--wall", metavar="WALL", help="wall of a ring that is there, for --outside and --bore"
            )
            parser.add_argument("--used", action="store_true", help="the ring was pressed before")
        parser.add_argument("--material", help="gasket plastic, usual acetal")
        parser.add_argument("--case-metal", help="what the case is made of")
        parser.add_argument("--glass-material", help="what the glass is made of")
        parser.add_argument("--domed", action="store_true", help="the glass is domed: no stress is computed")
        parser.add_argument(
            "--old-glass", choices=("same", "other"), help="the new glass against the old one"
        )
        parser.add_argument("--rigid", action="store_true", help="walls and glass rigid: an upper bound")
        parser.add_argument("--json", action="store_true", help="the same for a program")
        parser.add_argument(
            "--why",
            nargs="?",
            const="",
            metavar="FIGURE",
            help="open every figure, or one by its name, as it stands there: formula, inputs, source",
        )
        parser.set_defaults(run=partial(run, options=options))


def _number(option: Option, text: str | None) -> float | None:
    """The number of one option; Refused names option, value, range and unit."""
    if text is None:
        return None
    low, high, unit = limits.RANGES[RANGE_OF[option.asks]]
    span = f"{plain(low)} to {plain(high)} {unit}".strip()
    try:
        value = option.read(text)
    except ValueError as why:
        raise Refused(f"{option.flag} {text}: {why} (allowed: {span})") from why
    if not low - 1e-12 <= value <= high + 1e-12:
        raise Refused(f"{option.flag} {text}: {plain(value)} {unit} is outside {span}; check what was keyed")
    return value


def _shop(arguments: argparse.Namespace) -> Shop:
    """The shop of the folder, or the built-in one where no folder was named."""
    return loaded(arguments) if getattr(arguments, "folder", None) is not None else built_in()


def asked(arguments: argparse.Namespace, options: tuple[Option, ...]) -> SizingQuestion:
    """The question of a command line; Refused in one line."""
    shop = _shop(arguments)
    numbers: dict[str, Any] = {
        option.asks: _number(option, getattr(arguments, option.asks)) for option in options
    }
    own = shop.materials
    try:
        plastic = arguments.material and known(
            "--material", arguments.material, tables.plastics(own.get("plastics"))
        )
        metal = arguments.case_metal and known(
            "--case-metal", arguments.case_metal, tables.metals(own.get("metals"))
        )
        glass = arguments.glass_material and known(
            "--glass-material", arguments.glass_material, tables.glasses(own.get("glasses"))
        )
    except OutOfRange as why:
        raise Refused(str(why)) from why
    if numbers["turning_spread_mm"] is None and not shop.is_built_in:
        numbers["turning_spread_mm"] = shop.turning_spread_mm
    if numbers["press_force_n"] is None:
        numbers["press_force_n"] = shop.press.largest_force_n
    if "bore_mm" in numbers:
        _by_wall(numbers, arguments)
    _between(numbers, arguments)
    return SizingQuestion(
        material=plastic or None,
        case_metal=metal or None,
        glass_material=glass or None,
        glass_domed=arguments.domed,
        old_glass=arguments.old_glass,
        rigid=arguments.rigid,
        **numbers,
    )


def _by_wall(numbers: dict[str, Any], typed: argparse.Namespace) -> None:
    """Outside and bore of a ring of which the wall is known: its outside is taken as the seat's."""
    sizes = numbers["outside_mm"], numbers["bore_mm"]
    if typed.wall is None and None not in sizes:
        return
    if typed.wall is None or sizes != (None, None):
        raise Refused("fit: give --outside and --bore, or --wall alone")
    low, high = limits.LEAST_WALL_MM, MOST_WALL_MM
    try:
        wall = units.length_mm(typed.wall)
    except ValueError as why:
        raise Refused(f"--wall {typed.wall}: {why} (allowed: {plain(low)} to {plain(high)} mm)") from why
    if not low <= wall <= high:
        raise Refused(f"--wall {typed.wall}: outside {plain(low)} to {plain(high)} mm; measure it again")
    numbers["outside_mm"] = hundredth(numbers["case_bore_mm"])
    numbers["bore_mm"] = numbers["outside_mm"] - 2.0 * wall


def _between(numbers: dict[str, Any], typed: argparse.Namespace) -> None:
    """Refuse sizes that do not go together, by the option that has to change."""
    case_bore, glass = numbers["case_bore_mm"], numbers["glass_mm"]
    if not glass < case_bore:
        raise Refused(
            f"--glass {typed.glass_mm}: {plain(glass)} mm is not under the case bore "
            f"(allowed: 4 to under {plain(case_bore)} mm); check both"
        )
    if "bore_mm" in numbers:
        bore, most = numbers["bore_mm"], numbers["outside_mm"] - 2.0 * limits.LEAST_WALL_MM
        if bore > most + 1e-9:
            raise Refused(
                f"--bore {typed.bore_mm}: {plain(bore)} mm leaves a wall under "
                f"{limits.LEAST_WALL_MM:.2f} mm (allowed: 0.1 to {plain(most)} mm); check both"
            )


def run(arguments: argparse.Namespace, *, options: tuple[Option, ...]) -> int:
    """Size or assess, and print it."""
    try:
        sizing = size(asked(arguments, options))
        opened = [] if arguments.why is None else why_lines(sizing, arguments.why)
    except OutOfRange as why:
        named = f"--glass {arguments.glass_mm}: " if str(why).startswith("wall") else ""
        raise Refused(f"{named}{why}") from why
    used = getattr(arguments, "used", False)
    if arguments.json:
        give(figures.tree(sizing) | ({"used": True} if used else {}))
    else:
        said = lines(sizing) + ([USED_RING] if used else [])
        print("\n".join(opened if arguments.why else said + opened))
    return DONE

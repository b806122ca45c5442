"""`ringwright shop`: what stands in this workshop, and the starter of shop.toml on request.

Invariant: reading the shop changes nothing; `--write` never writes over a file that is there.
"""

from __future__ import annotations

import argparse

from bench.asking.lately import kept_words, lately_words
from bench.clocks import wall_now
from bench.command import COULD_NOT_WRITE, DONE, Refused
from bench.commands import year
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.commands.shop_data import shop_data
from bench.file.plain import cause
from bench.file.slug import SHOP
from bench.languages import LANGUAGES
from bench.past.learning import lately_in
from bench.shop.groups import GROUPS, assumed_words
from bench.shop.serial_line import SerialLine
from bench.shop.shop import Shop, ShopWrong, load
from bench.shop.starter import write
from rules.bars import Grip
from rules.equipment import Axis, Lathe, Tool
from rules.instrument import Instrument
from rules.lengths import plainly, speaking, translated
from rules.turning.cutting_words import speed_words


def add(subparsers: Subparsers) -> None:
    """Register `shop`."""
    parser = new(subparsers, "shop")
    parser.add_argument(
        "--write", action="store_true", help=f"write a commented {SHOP} to change in an editor"
    )
    parser.add_argument("--json", action="store_true", help="the same for a program, lengths in mm")
    year.options(parser)
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Show the shop, or write its starter."""
    if arguments.write and arguments.json:
        raise Refused("give --write or --json, not both")
    if arguments.write:
        return _write(arguments)
    if arguments.year is not None:
        return year.run(arguments, loaded(arguments))
    if arguments.csv is not None or arguments.pdf is not None:
        raise Refused("--csv and --pdf are of a year: give --year, or --year 2026")
    shop = lately_in(arguments.folder, loaded(arguments), wall_now)
    if arguments.json:
        give(shop_data(shop))
        return DONE
    with speaking(shop.works_in):
        print("\n".join(shop_lines(shop)))
    return DONE


def loaded(arguments: argparse.Namespace) -> Shop:
    """The shop of the folder; a wrong file is refused in one line."""
    try:
        return load(arguments.folder)
    except ShopWrong as why:
        raise Refused(str(why)) from why


def _write(arguments: argparse.Namespace) -> int:
    try:
        path = write(arguments.folder)
    except FileExistsError as why:
        raise Refused(
            f"{arguments.folder / SHOP} is there already; it is left as it is", COULD_NOT_WRITE
        ) from why
    except OSError as why:
        raise Refused(
            f"{arguments.folder / SHOP} could not be written: {cause(why)}", COULD_NOT_WRITE
        ) from why
    print(path)
    return DONE


def shop_lines(shop: Shop) -> list[str]:
    """The shop in words, a line each."""
    where = "built-in shop; ringwright shop --write makes a file to change" if shop.is_built_in else SHOP
    lines = [f"{shop.shop_name or 'workshop'} ({where})"]
    lines += [assumed] if (assumed := assumed_words(GROUPS, shop.said)) else []
    for lathe in shop.lathes:
        lines += _lathe_lines(lathe)
    for name in shop.tool_sets:
        lines.append(f"tools, set {name}")
        lines += [f"  {_tool_words(tool)}" for tool in shop.tools_of(name)]
    lines.append("bars")
    lines += [
        f"  {bar.plastic}, {bar.colour}: {plainly(bar.diameter_mm)} thick, {plainly(bar.length_mm)} left"
        for bar in shop.bars
    ]
    lines += ["instruments", *map(_instrument_words, shop.instruments)]
    force = (
        "largest force not known"
        if shop.press.largest_force_n is None
        else f"to {shop.press.largest_force_n:g} N"
    )
    lines += [
        f"press: {shop.press.name}, {force}",
        f"tester: {shop.tester.name}, to {shop.tester.largest_bar:g} bar over, gauge step "
        f"{shop.tester.gauge_step_bar:g} bar"
        + (f", number {shop.tester_number}" if shop.tester_number else ""),
        f"turning spread {plainly(shop.turning_spread_mm)} on the diameter; glasses in steps of "
        f"{plainly(shop.glass_step_mm)}; works in {shop.works_in}; "
        f"divers' watches: {'equipped' if shop.divers_equipped else 'not equipped'}",
        *lately_lines(shop),
        f"customer's papers: {LANGUAGES[shop.papers_in].name}",
        f"screen: {'as the terminal' if shop.theme == 'terminal' else shop.theme}, "
        f"bell {'on' if shop.bell else 'off'}, key bounce {shop.bounce_ms} ms",
    ]
    lines += map(_line_words, shop.lines)
    own = [key for table in shop.materials.values() for key in table]
    return lines + ([f"own materials: {', '.join(own)}"] if own else [])


def _instrument_words(one: Instrument) -> str:
    """An instrument in its own unit."""
    shows, good_to = _own(one, one.resolution_mm), _own(one, one.limit_of_error_mm)
    return f"  {one.name} ({one.kind.replace('_', ' ')}): shows {shows}, good to {good_to}"


def lately_lines(shop: Shop) -> list[str]:
    """What the finished rings say of the shop."""
    off = () if shop.learn_from_jobs else ("rings are sized by what is assumed, not by those finished here",)
    tenths = (f"  {kept_words(kept)}" for kept in shop.lately.tenths)
    return [*off, *lately_words(shop.lately), *(tenths if len(shop.lately.tenths) > 1 else ())]


def _line_words(one: SerialLine) -> str:
    bits = f"{one.speed_baud} baud, {one.data_bits} data bits, parity {one.parity}"
    return f"{one.name} on a line: {one.port}, {bits}, {one.unit} where it does not say"


def _lathe_lines(lathe: Lathe) -> list[str]:
    speeds = " ".join(speed_words(lathe, speed).replace(" rpm", "") for speed in lathe.speeds_rpm)
    range_words = (
        f"any from {lathe.speeds_rpm[0]:g} to {lathe.speeds_rpm[-1]:g}" if lathe.stepless else speeds
    )
    return [
        f"lathe: {lathe.name}",
        f"  cross slide: {_axis_words(lathe.cross)}",
        f"  carriage: {_axis_words(lathe.carriage)}",
        f"  speeds, rpm: {range_words}; never above {lathe.largest_rpm:g}",
        *(f"  {grip.name}: {span(grip)}, holds over {plainly(grip.length_mm)}" for grip in lathe.grips),
    ]


def span(grip: Grip) -> str:
    """From the thinnest to the thickest bar that a grip holds."""
    return translated(f"{grip.smallest_mm:g} to {grip.largest_mm:g} mm")


def _own(shown: Axis | Instrument, value_mm: float) -> str:
    """A length in the unit that a slide or an instrument shows."""
    with speaking(shown.unit):
        return plainly(value_mm)


def _axis_words(axis: Axis) -> str:
    kind = "read-out"
    if axis.is_dial:
        turn = f", {axis.divisions_per_turn} to a turn" if axis.divisions_per_turn else ""
        kind = f"dial, {_own(axis, axis.division_mm)} a division{turn}"
    way = axis.direction.replace("_", " ")
    return (
        f"{kind}, shows {axis.shows}, set to {_own(axis, axis.step_mm)}, grows {way}, backlash "
        f"{_own(axis, axis.backlash_mm)}"
    )


def _tool_words(tool: Tool) -> str:
    more = f", nose {plainly(tool.nose_radius_mm)}"
    if tool.kind == "parting":
        more = f", blade {plainly(tool.blade_mm)}"
    if tool.kind == "boring":
        reach = plainly(tool.longest_reach_mm)
        more = f", into {plainly(tool.smallest_bore_mm)} and up, reach {reach}{more}"
    return f"{tool.number}  {tool.kind}{': ' + tool.name if tool.name else ''}{more}"

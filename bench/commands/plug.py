"""`ringwright plug`: plan a stepped go and no-go plug, or turn its answer into the seat diameter.

Invariant: one of the two is asked for, never both; the seat diameter carries its limits.
"""

from __future__ import annotations

import argparse
from dataclasses import asdict, replace
from typing import Any

from bench.command import DONE, Refused
from bench.commands.about import Subparsers, new
from bench.commands.for_programs import give
from bench.commands.shop import loaded
from bench.sheet.turning import caution_lines, wrap
from bench.shop.groups import AT_THE_LATHE, SAY_IT, assumed_words
from bench.shop.shop import Shop
from bench.units import length_mm
from rules.checks import OutOfRange
from rules.lengths import MM, bare, speaking, translated
from rules.measuring.seat_by_plug import PLUG_LIMIT_MM, SeatByPlug, seat_from_plug
from rules.turning.plug import STEPS, PlugPlan, PlugWanted, plan_plug


def add(subparsers: Subparsers) -> None:
    """Register `plug`."""
    parser = new(subparsers, "plug")
    option = parser.add_argument
    option("--seat", metavar="MM", help="expected seat diameter, 5 to 80 mm")
    option("--steps", metavar="N", type=int, default=STEPS, help=f"3 to 15 (usual {STEPS})")
    option("--material", metavar="KEY", default="acetal", help="plastic of the bar (usual acetal)")
    option("--enters", metavar="MM", help="largest step that enters, as measured")
    option("--not", dest="stays_out", metavar="MM", help="smallest step that does not, as measured")
    option(
        "--plug-limit",
        metavar="MM",
        default=str(PLUG_LIMIT_MM),
        help="how far the steps may be off (usual 0.004)",
    )
    parser.add_argument("--json", action="store_true", help="as one JSON object")
    parser.set_defaults(run=run)


def run(arguments: argparse.Namespace) -> int:
    """Print the plug's plan or the seat diameter."""
    planned = arguments.seat is not None
    answered = [arguments.enters is not None, arguments.stays_out is not None]
    if planned == any(answered) or (any(answered) and not all(answered)):
        raise Refused("give either --seat MM to plan a plug, or both --enters MM and --not MM to use one")
    try:
        if planned:
            shop = loaded(arguments)
            with speaking(MM if arguments.json else shop.works_in):
                made = _plan(arguments, shop)
                _said(arguments, made)
        else:
            seat = seat_from_plug(
                enters_mm=_mm("--enters", arguments.enters),
                stays_out_mm=_mm("--not", arguments.stays_out),
                plug_limit_mm=_mm("--plug-limit", arguments.plug_limit),
            )
            _said(arguments, seat)
    except OutOfRange as why:
        raise Refused(str(why)) from why
    return DONE


def _said(arguments: argparse.Namespace, found: PlugPlan | SeatByPlug) -> None:
    """The plan of a plug or the seat that it gave, as it was asked for."""
    if isinstance(found, PlugPlan):
        give(_plan_data(found), indent=1) if arguments.json else print(_plan_text(found))
    else:
        give(_seat_data(found)) if arguments.json else print(_seat_text(found))


def _plan(arguments: argparse.Namespace, shop: Shop) -> PlugPlan:
    wanted = PlugWanted(
        seat_mm=_mm("--seat", arguments.seat), plastic=arguments.material, steps=arguments.steps
    )
    tools = shop.tools_of(shop.tool_sets[0])
    made = plan_plug(wanted, lathe=shop.lathes[0], tools=tools, bars=shop.bars)
    assumed = assumed_words(AT_THE_LATHE, shop.said)
    return replace(made, words=(*made.words, f"{assumed}: {SAY_IT}")) if assumed else made


def _plan_text(made: PlugPlan) -> str:
    lines = ["STEPPED PLUG", *(f"  - {translated(word)}" for word in made.words), ""]
    for one in made.passes:
        deep = f"({bare(one.cut_depth_mm, 3)} deep, {one.rpm:.0f} rpm)"
        lines.append(f"{one.n:>4}  {translated(one.reading_text)}  {deep}")
    aimed = "  ".join(bare(step, 3) for step in made.steps_mm)
    lines += ["", f"steps as aimed at, from the free end: {aimed}"]
    lines += ["then: ringwright plug --enters MM --not MM, each as measured", ""]
    lines += [row for line in caution_lines(made.cautions) for row in wrap(line)]
    return "\n".join(lines)


def _plan_data(made: PlugPlan) -> dict[str, Any]:
    return {
        "steps_mm": list(made.steps_mm),
        "bar_diameter_mm": made.bar.diameter_mm,
        "stick_out_mm": made.stick_out_mm,
        "words": list(made.words),
        "cautions": list(made.cautions),
        "passes": [asdict(one) for one in made.passes],
    }


def _seat_text(seat: SeatByPlug) -> str:
    return (
        f"glass seat {seat.diameter_mm:.3f} mm, good to {seat.half_width_mm:.3f} mm: "
        f"between {seat.low_mm:.3f} and {seat.high_mm:.3f} mm"
    )


def _seat_data(seat: SeatByPlug) -> dict[str, Any]:
    return {**asdict(seat), "standard_uncertainty_mm": round(seat.standard_uncertainty_mm, 6)}


def _mm(option: str, text: str) -> float:
    try:
        return length_mm(text)
    except ValueError as why:
        raise Refused(f"{option}: {why}") from why

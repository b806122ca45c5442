"""A drawn shop as the text of its shop.toml. Imports nothing of the program."""

from __future__ import annotations

from collections.abc import Iterator

from tests.independent.page_lathe import SlideFacts
from tests.independent.page_shops import IN, PageShop, Piece

CROSS = {1: "inward", -1: "outward"}
CARRIAGE = {1: "to_chuck", -1: "from_chuck"}


def shop_text(shop: PageShop) -> str:
    """The whole file."""
    return "\n".join(lines(shop))


def lines(shop: PageShop) -> Iterator[str]:
    """Its lines."""
    yield f'works_in = "{"inch" if shop.speaks == "in" else "mm"}"'
    yield "[[lathe]]"
    yield 'name = "lathe"'
    yield f"speeds_rpm = {list(shop.speeds)}"
    yield f"largest_rpm = {max(shop.speeds)}"
    yield f"stepless = {str(shop.stepless).lower()}"
    if shop.step_names:
        yield f"speed_names = {list(shop.step_names)}"
    yield f"shows_speed = {str(shop.shows_speed).lower()}"
    yield f"numbered_tools = {str(shop.numbered).lower()}"
    yield f"drills_mm = {list(shop.drills)}"
    yield f"largest_drill_mm = {max(shop.drills)}"
    yield 'drill_unit = "mm"'
    yield f"spindle_hole_mm = {shop.spindle_hole}"
    yield from slide("cross", shop.cross, CROSS)
    yield from slide("carriage", shop.carriage, CARRIAGE)
    for name, kind, largest, length in shop.grips:
        yield from ("[[lathe.grip]]", f'name = "{name}"', f'kind = "{kind}"', "smallest_mm = 3.0")
        yield from (f"largest_mm = {largest}", f"length_mm = {length}")
    yield from tools(shop)
    for piece in shop.pieces:
        yield from bar(piece)
    for one in shop.gauges:
        yield from ("[[instrument]]", f'name = "{one.name}"', f'kind = "{one.kind}"')
        yield f"limit_of_error_mm = {one.limit}"
        yield f"resolution_in = {one.step / IN:.6f}" if one.unit == "in" else f"resolution_mm = {one.step}"
    yield from ("[press]", 'name = "hand press"', "[tester]", 'name = "air tester"', "largest_bar = 3.0")


def slide(name: str, facts: SlideFacts, directions: dict[int, str]) -> Iterator[str]:
    """A slide in its own unit."""
    unit, per = facts.unit, IN if facts.unit == "in" else 1.0
    yield f"[lathe.{name}]"
    yield f'shows = "{facts.shows}"'
    yield f"step_{unit} = {facts.step / per:.6f}"
    yield f"backlash_{unit} = {facts.stated_lost / per:.6f}"
    yield f'direction = "{directions[facts.grows]}"'
    if facts.division:
        yield f"division_{unit} = {facts.division / per:.6f}"
        yield f"divisions_per_turn = {facts.per_turn}"


def tools(shop: PageShop) -> Iterator[str]:
    """The tools."""
    for number, kind in shop.tools.items():
        yield from ("[[tool]]", f"number = {number}", f'kind = "{kind}"')
        if kind == "boring":
            yield from ("smallest_bore_mm = 8.0", "longest_reach_mm = 20.0", "shank_mm = 6.0")
        if kind == "parting":
            yield f"blade_mm = {shop.blade}"
        if kind == "face_grooving" and shop.groover:
            blade, smallest, largest, deep = shop.groover
            yield from (f"blade_mm = {blade}", f"smallest_groove_mm = {smallest}")
            yield from (f"largest_groove_mm = {largest}", f"depth_mm = {deep}")


def bar(piece: Piece) -> Iterator[str]:
    """A piece in stock."""
    yield from ("[[bar]]", 'plastic = "acetal"', f'colour = "{piece.colour}"', f'kind = "{piece.kind}"')
    yield from (f"diameter_mm = {piece.called}", f"length_mm = {piece.length:.1f}")
    if piece.said:
        yield f"outside_mm = {piece.outside:.2f}"
    if piece.bore:
        yield from (f"bore_mm = {piece.bore}", f"bore_deep_mm = {piece.bore_deep}")

"""Ways through a job that are seldom gone, as scripts.

A script is lines "key answer" parted by semicolons; what stands between is answered as usual, an optional
step is taken from the list. `/key value way` keys an earlier answer anew and takes a way on where the page
asks; `again` opens the job in a new sitting, `* word` takes an entry of the list of everything; a key alone
is gone to and not answered.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from bench.shop.shop import Shop, built_in
from rules.bars import Bar
from tests.whole.lathe_presses import WIDER, core, dials, stepless, tube
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

AWAY = "glass_1 usual; seat_depth 1.45"
"""The glass is not here."""
ORDERED = f"{AWAY}; glass_order 35.40 mm; glass_comes come"


@dataclass(frozen=True, slots=True)
class Rare:
    """Where a way begins, in which shop, and what is done."""

    start: str
    script: str
    shop: Callable[[], Shop] | None = None

    def repairer(self) -> Repairer:
        """A repairer who stands where it begins."""
        return fresh(shop=self.shop()).on_to(self.start) if self.shop else at(self.start)

    def acts(self) -> list[tuple[str, str]]:
        """Keys and answers."""
        return [
            (key, answer)
            for key, _, answer in (line.strip().partition(" ") for line in self.script.split(";"))
        ]


def there(what: str, wall: str, height: str = "1.20", lies: str = "") -> str:
    """A ring that is there, measured."""
    walls = "; ".join(f"hand_wall_{place} {wall}" for place in range(1, 5))
    return f"at_hand {what}; {walls}; hand_height {height}" + (f"; hand_seat {lies}" if lies else "")


def walls(wall: str) -> str:
    """The four walls of a ring that was made."""
    return "; ".join(f"wall_{place} {wall}" for place in range(1, 5))


def scraps() -> Shop:
    """Glasses in steps of a quarter, one short thin bar."""
    bar = Bar(plastic="ptfe", diameter_mm=32.0, length_mm=60.0, colour="white")
    return replace(built_in(), glass_step_mm=0.25, bars=(bar,))


def of(plastic: str) -> Callable[[], Shop]:
    """The built-in shop with one bar, of another plastic."""
    bar = Bar(plastic=plastic, diameter_mm=40.0, length_mm=300.0, colour="black")
    return lambda: replace(built_in(), bars=(bar,))


WAYS: dict[str, Rare] = {
    "a glass is ordered after an old ring, and sent back": Rare(
        "glass_1",
        f"{AWAY}; old_wall 0.705; old_height 1.05; glass_wanted 3700; glass_wanted 3000; glass_wanted 3630;"
        "glass_wanted 3525; glass_order 35.25 mm; glass_comes come; glass_1 3511; glass_2 3512;"
        "glass_differs back; glass_comes come; glass_1 3631; glass_2 3631; glass_differs use; "
        "no_ring closed",
    ),
    "a glass as large as its seat": Rare("glass_1", f"{AWAY}; glass_wanted 3643; glass_order"),
    "a glass of another stock, as ordered": Rare(
        "glass_1",
        f"{AWAY}; glass_order 35.25 mm; glass_comes come; glass_1 3535; glass_2 3534; ring accept;"
        "cannot_turn closed",
        scraps,
    ),
    "a glass half a step off": Rare("glass_1", f"{ORDERED}; glass_1 3545; glass_2 3545; ring"),
    "a glass a little more than half a step off": Rare(
        "glass_1", f"{ORDERED}; glass_1 3546; glass_2 3546; glass_differs use; ring"
    ),
    "a glass in inch": Rare("glass_1", "glass_1 usual; glass_order; old_wall", lambda: built_in("inch")),
    "a bought ring that is too high": Rare(
        "ring",
        f"{there('new', '0.618', '1.40', 'slack')}; ring accept; dress_lower done; ring_height 1.19; "
        "empty_check",
    ),
    "a bought ring too large": Rare("ring", f"{there('new', '0.618', '1.20', 'buckles')}; ring"),
    "a bought ring hardly too high": Rare("ring", f"{there('new', '0.618', '1.23', 'lies')}; ring"),
    "a bought ring likely too loose, pressed all the same": Rare(
        "ring",
        f"{there('new', '0.590', '1.20', 'lies')}; ring accept; fit_outcome too_easy; remake hand_back",
    ),
    "a bought ring too tight": Rare("ring", f"plastic pa66; {there('new', '0.700', '1.20', 'lies')}; ring"),
    "a lower used ring as a pattern": Rare(
        "ring", f"{there('used', '0.612', '1.10', 'lies')}; ring pattern; bar_measured"
    ),
    "a higher used ring as a pattern": Rare(
        "ring", f"{there('used', '0.612', '1.40', 'lies')}; ring pattern; bar_measured"
    ),
    "a used ring that is no pattern": Rare(
        "ring", f"{there('used', '0.500', '1.20', 'lies')}; ring accept; bar_measured"
    ),
    "a bought ring where no bore works": Rare(
        "case_bore_1",
        "case_bore_1 3635; case_bore_2 3651; case_bore_3 3643; case_bore_4 3643; ring; "
        f"{there('new', '0.610', '1.20', 'lies')}; ring",
    ),
    "a seat corrected late, twice": Rare(
        "fit_ready",
        "/seat_depth 1.30 instead; dress_lower done; ring_height 1.05; /seat_depth 1.40 instead;"
        "/seat_depth 1.20 instead; dress_lower done; ring_height 0.96; /seat_depth 0.30 leave; empty_check",
    ),
    "a height corrected from the list": Rare("fit_ready", "height_wanted_late 1.10; dress_lower"),
    "an edge corrected from the list": Rare("wall_1", "glass_edge_late 1.20; dress_lower"),
    "a glass corrected late": Rare(
        "fit_ready",
        "/glass_2 35.33 instead; hand_wall_1 0.604; hand_wall_2 0.604; hand_wall_3 0.603; "
        "hand_wall_4 0.604;"
        "hand_height 1.20; ring accept; fit_ready right; fit_outcome",
    ),
    "rested less": Rare("rest", "rest shorter; tool_turning"),
    "it has moved as it rested": Rare("rest", "rest moved; fresh_ring done; bar_measured"),
    "a plastic that nothing is known of the cooling of": Rare(
        "ring", "plastic pvdf; ring accept; rest", of("pvdf")
    ),
    "each pass by itself": Rare(
        "rough_outside", "rough_outside some; rough_outside_from_2 done; drill some; drill_from_2; rest"
    ),
    "an outside past its size, with a smaller bore": Rare(
        "outside_reading",
        "outside_reading 36280; outside_reading_2 36280; past_outside smaller_bore; wall_reading",
    ),
    "an outside past its size, given up": Rare(
        "outside_reading",
        "outside_reading 36080; outside_reading_2 36080; past_outside fresh; fresh_ring done; bar_measured",
    ),
    "a bore past its size, kept for a larger glass": Rare(
        "wall_reading",
        "wall_reading 0.560; wall_reading_2 0.560; past_bore larger_glass; measure_again done; "
        "glass_1 3540;"
        "glass_2 3540; hand_wall_1 0.560; hand_wall_2 0.561; hand_wall_3 0.560; hand_wall_4 0.561; "
        "hand_height 1.20; ring",
    ),
    "a bore past every glass": Rare("wall_reading", "wall_reading 0.300; wall_reading_2 0.300; past_bore"),
    "much is left before the last pass": Rare(
        "outside_reading", "outside_reading 37100; outside_reading_2 37100; more_outside_1"
    ),
    "two spares, the first ring shaved": Rare(
        "ring",
        "spares 2; ring accept; spare_2; spare_3; dress; fit_outcome shaved; fit_cause chamfer; "
        "remake spare; ring",
    ),
    "a ring that would not start, then shaved for no other cause": Rare(
        "fit_outcome",
        "fit_outcome would_not_start; remake ring; ring accept; fit_outcome shaved; fit_cause none; remake",
    ),
    "a glass that chipped": Rare(
        "fit_outcome",
        "fit_outcome chipped; fit_cause die; remake measure; measure_again done; glass_1 3529; ring",
    ),
    "a bezel that moved": Rare("fit_outcome", "fit_outcome bezel_moved; remake ring; ring"),
    "keyed over: home after all": Rare(
        "fit_outcome", "fit_outcome too_easy; /fit_outcome home; fit_correction again; ring"
    ),
    "keyed over: it was keyed wrong": Rare(
        "fit_outcome",
        "fit_outcome too_easy; /fit_outcome home; fit_correction keyed_wrong; fit_outcome home; empty_check",
    ),
    "all walls loose, another made": Rare("wall_1", f"{walls('0.565')}; off_band another; bar_measured"),
    "all walls loose, pressed": Rare("wall_1", f"{walls('0.565')}; off_band press; fit_ready"),
    "another bore, outside and height": Rare(
        "ring",
        "outside_wanted 36.45; bore_wanted 35.24; height_wanted 1.10; case_metal 316L; case_wall 1.2; "
        "case_height 2.0;"
        "glass_material mineral; glass_thickness 1.20; friction 0.12; ring_offset 0.5; temperature 26; "
        "ring accept; bar_measured",
    ),
    "an acrylic glass, given up": Rare("ring", "glass_material acrylic; acrylic_anyway no"),
    "an acrylic glass all the same": Rare(
        "glass_1",
        "glass_material acrylic; glass_1 3531; glass_2 3528; seat_depth 1.45; acrylic_anyway anyway; ring",
    ),
    "an acrylic glass that is oval": Rare(
        "glass_1", "glass_material acrylic; glass_1 3531; glass_2 3510; glass_3"
    ),
    "glued in": Rare("hold", "hold glued; not_this_ring closed"),
    "held by its own spring, a ring all the same": Rare(
        "hold", "hold spring; not_this_ring anyway; case_bore_1"
    ),
    "a pit in the seat": Rare("bench", "bench pit; not_this_ring closed"),
    "a seat by a stepped plug": Rare(
        "case_bore_1", "seat_way stepped plug; plug_enters 36425; plug_stays_out 36445; glass_1"
    ),
    "a seat by a plug that says nothing": Rare(
        "case_bore_1", "seat_way stepped plug; plug_enters 36445; plug_stays_out 36425; plug_stays_out_again"
    ),
    "a seat out of round": Rare(
        "case_bore_1", "case_bore_1 3630; case_bore_2 3650; case_bore_3 3640; case_bore_4 3640; glass_1"
    ),
    "a deep seat": Rare("seat_depth", "seat_depth 4.50; seat_depth_again 4.52; ring"),
    "a deep seat that was a slip": Rare(
        "seat_depth", "seat_depth 4.50; seat_depth_again 1.45; seat_depth_again_2"
    ),
    "turning broken off before the last pass": Rare(
        "last_bore", "again; lathe_speed; tool_again; touch_off done; last_bore"
    ),
    "turning broken off, the bar moved": Rare(
        "finish_outside", "again; touch_off moved; fresh_ring done; bar_measured"
    ),
    "what was answered, as a list": Rare("chamfer", "* replace"),
    "what may be changed, as a list": Rare("chamfer", "* usual"),
    "a spoiled piece": Rare("part", "* spoiled; bar_measured; lathe_key"),
    "a bar of another size": Rare("bar_measured", "bar_measured 44.60; lathe_bar"),
    "hand dials": Rare("lathe_hands", "rough_outside; tool_boring; finish_outside; chamfer", dials),
    "a stepless lathe": Rare("lathe_hands", "lathe_speed; rough_outside; last_outside", stepless),
    "a core cut out": Rare("lathe_hands", "tool_core; core; dress", core),
    "a tube": Rare("bar_measured", "bar_bore; rough_bore; dress", tube),
    "inch and no speed shown": Rare(
        "lathe_bar", "rough_outside; wall_reading; last_bore", WIDER["inch, no speed shown"]
    ),
    "all in inch": Rare(
        "ring",
        "ring accept; bar_measured; lathe_bar; rough_outside; outside_reading; ring_height; fit_ready",
        WIDER["all in inch"],
    ),
}

"""Ways through the jobs of the younger seals, common and rare: all that is asked on them, what is kept, and
what the papers say after, as it was read once and found true.

python -m tests.seals.test_ways_of_seals writes `ways_of_seals.md`; read the difference before you keep it.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from pathlib import Path
from typing import Any

import pytest

from bench.seals import seal_of
from bench.sheet.customer_text import customer_lines
from bench.sheet.data import sheet_data
from bench.sheet.slip import slip
from bench.sheet.text import sheet_lines
from bench.sheet.tongue import ENGLISH
from bench.sheet.workshop import correction_lines
from bench.shop.shop import Shop, built_in
from rules.lengths import speaking
from tests.whole.lathe_presses import dials, stepless
from tests.whole.rare_ways import of
from tests.whole.repairer import Repairer, fresh
from tests.whole.test_every_step import figures
from tests.whole.test_rare_ways import Book, Way


def parted(script: str) -> list[tuple[str, str]]:
    """Keys and answers of a script."""
    lines = (line.strip().partition(" ") for line in script.split(";"))
    return [(key, answer) for key, _, answer in lines if key]


def twice(key: str, value: str, times: int = 2) -> str:
    """A dimension that reads the same at every place."""
    return "; ".join(f"{key}_{n} {value}" for n in range(1, times + 1))


class Walked:
    """One who makes such a seal as usual but for what is given, and all places that he came by."""

    def __init__(self, seal: str, given: str, shop: Callable[[], Shop] | None) -> None:
        self._on = fresh(shop=shop()) if shop else fresh()
        self._given = dict(parted(given))
        self._places: dict[str, Repairer] = {}
        self._on.answer()
        self._on.pick("usual")
        self._on.pick_key("seal")
        self._on.give(seal)

    def at(self, key: str) -> Repairer:
        """One who stands before a step."""
        while key not in self._places:
            asked = self._on.asked
            assert asked not in self._places and asked, f"{key} is never asked"
            self._places[asked] = self._on.copy()
            self._on.answer(self._given)
        return self._places[key].copy()


walked = lru_cache(maxsize=32)(Walked)
"""Each walked once, as far as is asked."""


@dataclass(frozen=True, slots=True)
class OfSeal:
    """Where a way begins, in which shop, what is answered up to there besides the usual, and what is done."""

    seal: str
    start: str
    script: str
    given: str = ""
    shop: Callable[[], Shop] | None = None
    papers: bool = False
    """Whether its papers are kept."""

    def repairer(self) -> Repairer:
        """A repairer who stands where it begins."""
        return walked(self.seal, self.given, self.shop).at(self.start)

    def acts(self) -> list[tuple[str, str]]:
        """Keys and answers."""
        return parted(self.script)


gasket, oring, foot = (partial(OfSeal, seal) for seal in ("gasket", "oring", "foot"))


def known(value: Any) -> Any:
    """Data without what is not known."""
    if isinstance(value, dict):
        return {key: kept for key, one in value.items() if (kept := known(one)) not in (None, {}, [])}
    return [known(one) for one in value] if isinstance(value, list) else value


def papers(way: Way) -> Iterator[str]:
    """The workshop's sheet with its readings and corrections, the customer's, the slip; then what they are
    made from: the seal's own data and its drawing.
    """
    desk, shop = way.repairer.desk, way.repairer.bench.shop
    assert desk.job is not None and desk.walk is not None
    seal, job = seal_of(desk.job), desk.job
    with speaking(shop.works_in):
        data = sheet_data(job, finished=desk.walk.open is None, shop_name="Quay")
        yield from filter(None, sheet_lines(data, seal.recorded(data)))
        yield from correction_lines(data)
        yield from filter(None, customer_lines(data))
        yield from (f"slip: {ENGLISH.sentence(one)}" for one in slip(data))
        for key, value in seal.data(job).items():
            if not key.endswith("readings") and (kept := known(value)):
                yield f"{key} = {json.dumps(kept)}"
        drawn = seal.drawing(data)
        yield f"drawing = {figures(drawn and replace(drawn, outline=drawn.outline[:8]))}"
        made, why = seal.plan(job, shop)
        yield f"plan: {why or figures(made and made[1])}"


def with_calliper() -> Shop:
    """A shop that has nothing finer than a calliper."""
    return replace(built_in(), instruments=built_in().instruments[:1])


def in_inch() -> Shop:
    """A shop that works in inch."""
    return built_in("inch")


def thin_bar() -> Shop:
    """A shop whose one bar is too thin."""
    return replace(built_in(), bars=(replace(built_in().bars[0], diameter_mm=25.0),))


def measured_bar() -> Shop:
    """A shop that has said what its bar measures outside."""
    return replace(built_in(), bars=(replace(built_in().bars[0], outside_mm=30.4),))


ROOM = "gasket_accepted"
ALL = "gasket_meets all"
GASKETS: dict[str, OfSeal] = {
    "a room measured in part": gasket("gasket_inside_1", "", papers=True),
    "a gasket accepted": gasket("gasket_cut_out", "", papers=True),
    "a gasket measured, not laid in yet": gasket("gasket_laid", "", papers=True),
    "nitrile under a back that screws in": gasket(
        "gasket_joint",
        "gasket_old_one 30.2 x 27.6, hard; gasket_joint back_thread; gasket_state clean; hand_back done",
        papers=True,
    ),
    "under a back with screws, on a ledge, under a hollow": gasket(
        "gasket_joint",
        "gasket_joint back_screws; gasket_state dressed; gasket_shape ledge; gasket_stands_over hollow; "
        "gasket_stands_by 0.05; gasket_screws 8; gasket_screw 1.4; gasket_accepted accept; gasket_laid home; "
        "marking",
    ),
    "under a bezel that screws in, held": gasket(
        "gasket_joint",
        "gasket_joint glass_thread; gasket_thread 32.5; gasket_torque 5.0; gasket_accepted accept; "
        "gasket_lid_drags held; gasket_laid home; marking",
        papers=True,
    ),
    "under a bezel with screws, against a rib": gasket(
        "gasket_joint",
        f"gasket_joint glass_screws; {twice('gasket_depth', '0.75')}; gasket_stands_over rib; "
        "gasket_stands_by 0.30; gasket_screws 6; gasket_accepted accept; gasket_laid home; marking",
    ),
    "silicone, with a loose washer": gasket(
        ROOM,
        "gasket_material vmq; gasket_accepted accept; gasket_lid_drags washer; gasket_laid home; marking",
        papers=True,
    ),
    "fluorine rubber": gasket(ROOM, "gasket_material fkm; gasket_accepted"),
    "EPDM rubber taken from stock": gasket(
        ROOM,
        "gasket_material epdm; gasket_way ready; gasket_accepted accept; gasket_taken done; "
        "gasket_laid home; marking",
        papers=True,
    ),
    "another thickness from stock": gasket(
        ROOM,
        "gasket_way ready; gasket_accepted accept; gasket_taken other; gasket_sheet 0.580; gasket_accepted",
    ),
    "a sheet that was measured": gasket(
        ROOM, "gasket_accepted thickness; gasket_sheet 0.560; gasket_accepted accept; gasket_cut_out"
    ),
    "another width": gasket(ROOM, "gasket_accepted width; gasket_width_wanted 0.60; gasket_accepted"),
    "a width that does not go in": gasket(
        ROOM, "gasket_width_wanted 1.30; gasket_none_fits width; gasket_width_wanted 1.20; gasket_accepted"
    ),
    "hard plastic against a stop, turned": gasket(
        ROOM,
        "gasket_accepted material; gasket_material acetal; gasket_accepted thickness; "
        "gasket_thickness_wanted 0.46; gasket_accepted",
    ),
    "hard plastic cut from sheet": gasket(
        ROOM,
        "gasket_material ptfe; gasket_accepted way; gasket_way cut; gasket_accepted accept; gasket_cut_out",
    ),
    "rubber that takes all the force": gasket(ROOM, "gasket_material nbr; gasket_accepted", ALL),
    "PTFE that takes all the force": gasket(ROOM, "gasket_material ptfe; gasket_accepted", ALL),
    "a scratched face": gasket("gasket_joint", "gasket_state scratched; gasket_not_here closed", papers=True),
    "a bent lid": gasket("gasket_joint", "gasket_state bent; gasket_not_here closed"),
    "a worn thread": gasket("gasket_joint", "gasket_state thread; gasket_not_here closed"),
    "a room too narrow for any gasket": gasket(
        "gasket_joint", f"{twice('gasket_inside', '29.30')}; gasket_none_fits closed"
    ),
    "readings of the room that disagree": gasket(
        "gasket_outside_1",
        "gasket_outside_1 30.20; gasket_outside_2 30.32; gasket_outside_3 30.22; gasket_inside_1 27.60; "
        "gasket_inside_2 27.80; gasket_inside_3; gasket_inside_3 27.60; gasket_depth_1 0.45; "
        "gasket_depth_2 0.52; gasket_depth_3 0.46; gasket_accepted",
    ),
    "no bar that is thick enough": gasket(
        ROOM, "gasket_accepted accept; gasket_cannot_turn way; gasket_way cut; gasket_accepted", ALL, thin_bar
    ),
    "no bar of the plastic": gasket(
        ROOM,
        "gasket_accepted accept; gasket_cannot_turn closed",
        ALL,
        of("pom_c"),
        papers=True,
    ),
    "turned from a bar that was measured": gasket("gasket_bar_is", "lathe_bar", ALL, measured_bar),
    "turned": gasket(
        ROOM,
        "gasket_accepted accept; gasket_bar_is; lathe_hands; gasket_laid home; marking",
        ALL,
        papers=True,
    ),
    "turned with hand dials": gasket("lathe_hands", "gasket_dress done", ALL, dials),
    "turned without steps of speed": gasket("lathe_hands", "gasket_dress done", ALL, stepless),
    "turned in inch": gasket(ROOM, "gasket_accepted accept; gasket_thickness_1", ALL, in_inch),
    "cut in inch": gasket(
        "gasket_joint",
        "gasket_accepted accept; gasket_width; gasket_laid home; marking",
        shop=in_inch,
        papers=True,
    ),
    "measured with a calliper alone": gasket(
        "gasket_joint",
        f"gasket_accepted accept; gasket_cut_out; {twice('gasket_thickness', '0.60', 4)}; "
        "gasket_laid home; marking",
        shop=with_calliper,
    ),
    "checks of the lathe answered wrong": gasket(
        "lathe_hands",
        "lathe_hands wrong; lathe_hands right; lathe_eyes wrong; lathe_eyes right; lathe_key wrong; "
        "lathe_key right; lathe_bar wrong; lathe_bar right; lathe_speed wrong; lathe_speed right; "
        "gasket_tool_rough_bore wrong; gasket_tool_rough_bore right; gasket_rough_bore",
        ALL,
    ),
    "turning broken off, the bar still tight": gasket(
        "gasket_rough_bore", "again; gasket_bar_stands still; gasket_dress", ALL
    ),
    "turning broken off, the bar moved": gasket(
        "gasket_finish_bore", "again; gasket_bar_stands moved; gasket_accepted accept; lathe_bar", ALL
    ),
    "spoiled at the lathe": gasket("gasket_part", "* spoiled; gasket_accepted accept; lathe_bar", ALL),
    "spoiled, then another": gasket(
        "gasket_cut_out",
        "* spoiled; gasket_accepted accept; gasket_laid home; marking",
        papers=True,
    ),
    "too thick off the lathe, dressed further": gasket(
        "gasket_thickness_1",
        f"{twice('gasket_thickness', '0.560', 4)}; gasket_off_its_band lower; gasket_thickness_1 0.470; "
        f"gasket_laid",
        ALL,
    ),
    "too thick from the sheet": gasket(
        "gasket_thickness_1",
        f"{twice('gasket_thickness', '0.700', 4)}; gasket_off_its_band another; gasket_accepted",
    ),
    "too thin, laid in all the same": gasket(
        "gasket_thickness_1",
        f"{twice('gasket_thickness', '0.500', 4)}; gasket_off_its_band use; gasket_laid home; marking",
        papers=True,
    ),
    "too wide, the room measured again": gasket(
        "gasket_thickness_1",
        f"{twice('gasket_thickness', '0.600', 4)}; gasket_width 1.29; "
        "gasket_width_2 1.29; "
        "gasket_off_its_band measure; gasket_measure_again done; gasket_meets",
    ),
    "thicknesses that disagree, a width read again": gasket(
        "gasket_thickness_1",
        "gasket_thickness_1 0.600; gasket_thickness_2 0.660; gasket_thickness_3 0.601; "
        "gasket_thickness_4 0.602; gasket_width 1.20; gasket_width_2 0.85; gasket_faces",
    ),
    "the lid stood proud": gasket("gasket_laid", "gasket_laid proud; gasket_after gasket; gasket_accepted"),
    "the lid closed without resistance": gasket(
        "gasket_laid", "gasket_laid loose; gasket_after measure; gasket_measure_again done; gasket_meets"
    ),
    "dragged, handed back": gasket("gasket_laid", "gasket_laid dragged; gasket_after hand_back", papers=True),
    "torn, left for now": gasket("gasket_laid", "gasket_laid torn; gasket_after"),
    "keyed over: another was laid in": gasket(
        "gasket_laid",
        "gasket_laid torn; /gasket_laid home; gasket_corrected again; gasket_accepted accept; "
        "gasket_laid home; marking",
    ),
    "keyed over: it was keyed wrong": gasket(
        "gasket_laid",
        "gasket_laid proud; /gasket_laid home; gasket_corrected keyed_wrong; gasket_laid home; marking",
        papers=True,
    ),
    "the depth corrected late": gasket(
        "gasket_laid", "gasket_laid home; /gasket_depth_2 0.47; gasket_accepted"
    ),
    "a leak at the back, dirt": gasket(
        "empty_pressure",
        "empty_pressure 2.0; empty_result fail; hunt_kind rate; hunt_opened_beside none; "
        "hunt_own_joint dirt; "
        "empty_found ring; gasket_leak_cause dirt; gasket_accepted accept; gasket_laid home; empty_check",
    ),
    "a leak at the back, nothing found, measured again": gasket(
        "empty_pressure",
        "empty_pressure 2.0; empty_result fail; hunt_kind rate; hunt_opened_beside none; "
        "hunt_own_joint dirt; "
        "empty_found measure; gasket_measure_again done; gasket_accepted",
    ),
    "a leak at the glass": gasket(
        "empty_pressure",
        "empty_pressure 2.0; empty_result fail; hunt_kind loose; hunt_glass_lifts; "
        "hunt_glass_lifts yes; empty_found ring; "
        "gasket_leak_cause none; gasket_accepted",
        "gasket_joint glass_screws",
    ),
}
OF_A_CROWN = (
    f"{twice('oring_inner', '1.990')}; {twice('oring_outer', '3.01')}; "
    f"{twice('oring_other', '0.90')}; oring_beside 2.030"
)
AT_A_CROWN = f"oring_place crown; {OF_A_CROWN}"
AT_A_TUBE = (
    f"oring_place tube; {twice('oring_inner', '2.100')}; {twice('oring_outer', '3.00')}; "
    f"{twice('oring_other', '0.75')}"
)
GROOVE = "oring_accepted"
ORINGS: dict[str, OfSeal] = {
    "a groove measured in part": oring("oring_outer_1", "", papers=True),
    "an O-ring accepted": oring("oring_taken", "", papers=True),
    "an O-ring measured, not put in yet": oring("oring_greased", "", papers=True),
    "an O-ring under the back": oring(
        "oring_place",
        "oring_place back; oring_lies flat; oring_corner 0.10; oring_greased dry; hand_back done",
        papers=True,
    ),
    "an O-ring between crown and tube": oring(
        "oring_place",
        f"{AT_A_CROWN}; oring_accepted accept; {twice('oring_cord', '0.602')}; oring_inside 1.84; "
        "oring_laid home; marking",
    ),
    "an O-ring between tube and case": oring(
        "oring_place",
        f"{AT_A_TUBE}; oring_accepted accept; {twice('oring_cord', '0.552')}; "
        "oring_inside 2.00; oring_laid home; marking",
        papers=True,
    ),
    "an O-ring at a pusher": oring(
        "oring_place",
        f"{AT_A_TUBE.replace('tube', 'pusher')}; oring_beside 2.98; oring_accepted accept; oring_taken",
    ),
    "a crown that is not turned, on the stem": oring(
        "oring_place",
        f"oring_place crown; oring_lies male; oring_moves still; {twice('oring_inner', '2.100')}; "
        f"{twice('oring_outer', '3.00')}; {twice('oring_other', '0.75')}; oring_accepted",
    ),
    "a back that is turned on it, male": oring(
        "oring_place",
        f"oring_place back; oring_lies male; oring_moves moves; {twice('oring_inner', '26.500')}; "
        f"{twice('oring_outer', '27.60')}; {twice('oring_other', '0.90')}; oring_beside 27.58; "
        f"oring_accepted",
    ),
    "a back with its groove in the case, female": oring(
        "oring_place",
        f"oring_place back; oring_lies female; {twice('oring_inner', '26.500')}; "
        f"{twice('oring_outer', '27.70')}; {twice('oring_other', '0.95')}; oring_accepted",
    ),
    "under a washer": oring(
        "oring_place", "oring_place crown; oring_held washer; oring_not_here closed", papers=True
    ),
    "moulded in": oring("oring_place", "oring_place pusher; oring_held moulded; oring_not_here closed"),
    "a scratch across its face": oring("oring_place", "oring_state scratched; oring_not_here closed"),
    "a worn tube": oring("oring_place", "oring_place crown; oring_state worn; oring_not_here closed"),
    "a worn pusher": oring("oring_place", "oring_place pusher; oring_state worn; oring_not_here closed"),
    "a worn bore of a tube": oring("oring_place", "oring_place tube; oring_state worn; oring_not_here"),
    "an eaten groove": oring("oring_place", "oring_state eaten; oring_not_here closed"),
    "only the old ring": oring("oring_place", "oring_goes_by old; oring_clue closed"),
    "the old ring, then the groove": oring(
        "oring_place",
        "oring_state dressed; oring_goes_by old; oring_old_high 0.70; oring_old_wide 0.71; "
        "oring_clue groove; oring_goes_by groove; "
        "oring_inner_1",
    ),
    "a groove too deep for any cord": oring(
        "oring_place",
        f"{twice('oring_other', '1.20')}; oring_none_fits closed",
        papers=True,
    ),
    "a groove too deep, a ring there all the same": oring(
        "oring_place",
        f"{twice('oring_other', '1.20')}; oring_none_fits there; oring_hand_cord 1.500; "
        "oring_hand_inside 26.00; oring_accepted",
    ),
    "a groove too shallow for any cord": oring(
        "oring_place", f"{twice('oring_other', '0.12')}; oring_none_fits"
    ),
    "readings of the groove that disagree": oring(
        "oring_inner_1",
        "oring_inner_1 26.500; oring_inner_2 26.590; oring_inner_3 26.510; oring_outer_1 28.60; "
        "oring_outer_2 28.69; oring_outer_3 28.60; oring_other_1 0.60; oring_other_2 0.70; "
        "oring_other_3 0.60; oring_accepted",
    ),
    "fluorine rubber, in tenths": oring(
        GROOVE,
        "oring_accepted material; oring_material fkm; oring_accepted step; oring_cord_step 0.10; "
        "oring_accepted accept; oring_laid",
    ),
    "silicone": oring(GROOVE, "oring_material vmq; oring_accepted accept; oring_laid home; marking"),
    "EPDM rubber": oring(GROOVE, "oring_material epdm; oring_accepted accept; oring_greased"),
    "a ring that is there": oring(
        GROOVE,
        "oring_accepted there; oring_hand_cord 0.752; oring_hand_inside 25.90; oring_accepted accept; "
        f"oring_taken; {twice('oring_cord', '0.752')}; oring_inside 25.90; oring_laid home; marking",
        papers=True,
    ),
    "a ring that is there, too thick": oring(
        GROOVE, "oring_hand_cord 0.950; oring_hand_inside 25.90; oring_accepted"
    ),
    "a ring that is there, far stretched": oring(
        GROOVE, "oring_hand_cord 0.560; oring_hand_inside 1.96; oring_accepted", AT_A_TUBE
    ),
    "another size in the bag": oring("oring_taken", "oring_taken other; oring_hand_cord 0.781"),
    "too thin a cord, another": oring(
        "oring_cord_1",
        f"{twice('oring_cord', '0.690')}; oring_inside 26.00; oring_off_its_band another; oring_accepted",
    ),
    "too thin a cord, put in all the same": oring(
        "oring_cord_1",
        f"{twice('oring_cord', '0.690')}; oring_inside 26.00; oring_off_its_band use; "
        "oring_laid home; marking",
        papers=True,
    ),
    "too wide a ring, the groove measured again": oring(
        "oring_cord_1",
        f"{twice('oring_cord', '0.752')}; oring_inside 26.90; oring_off_its_band measure; "
        "oring_measure_again done; oring_lies",
    ),
    "cords that disagree": oring(
        "oring_cord_1", "oring_cord_1 0.752; oring_cord_2 0.790; oring_cord_3 0.752; oring_inside"
    ),
    "the parts do not close": oring("oring_laid", "oring_laid proud; oring_after another; oring_accepted"),
    "it lies slack": oring(
        "oring_laid", "oring_laid slack; oring_after measure; oring_measure_again done; oring_lies"
    ),
    "it is twisted, handed back": oring(
        "oring_laid", "oring_laid rolled; oring_after hand_back", papers=True
    ),
    "it was cut, left for now": oring("oring_laid", "oring_laid cut; oring_after"),
    "keyed over: another was put in": oring(
        "oring_laid",
        "oring_laid cut; /oring_laid home; oring_corrected again; oring_accepted accept; oring_laid home; "
        "marking",
    ),
    "put in after all: keyed wrong": oring(
        "oring_laid",
        "oring_laid cut; /oring_laid home; oring_corrected keyed_wrong; oring_laid home; marking",
        papers=True,
    ),
    "a ring given up, then another": oring(
        "oring_cord_1", "* spoiled; oring_accepted accept; oring_laid home; marking"
    ),
    "the groove corrected late": oring("oring_laid", "oring_laid home; /oring_outer_2 28.66; oring_accepted"),
    "a leak at the back, nicked": oring(
        "empty_pressure",
        "empty_pressure 2.0; empty_result fail; hunt_kind rate; hunt_opened_beside none; "
        "hunt_own_oring dirt; "
        "empty_found ring; oring_leak_cause cut; oring_accepted accept; oring_laid home; empty_check",
        papers=True,
    ),
    "a leak at the crown, measured again": oring(
        "empty_pressure",
        "empty_pressure 2.0; empty_result fail; hunt_kind rate; hunt_opened_beside_stem none; "
        "hunt_own_stem scratch; empty_found measure; oring_measure_again done; "
        f"{OF_A_CROWN}; oring_accepted",
        f"{AT_A_CROWN}; {twice('oring_cord', '0.602')}; oring_inside 1.84",
    ),
    "an O-ring in inch": oring(
        "oring_place",
        "oring_accepted accept; oring_taken; oring_laid home; marking",
        shop=in_inch,
        papers=True,
    ),
    "an O-ring with a calliper alone": oring(
        "oring_place",
        f"{twice('oring_inner', '26.50')}; oring_accepted accept; {twice('oring_cord', '0.75')}; "
        "oring_laid home; marking",
        shop=with_calliper,
    ),
    "an O-ring, left and gone on with": oring("oring_inside", "again; oring_inside; oring_laid"),
}
FOOT = "foot_accepted"
FEET: dict[str, OfSeal] = {
    "a ledge measured in part": foot("foot_edge_1", "", papers=True),
    "a foot measured, not pressed in yet": foot("foot_wall_3", "", papers=True),
    "a ring with a foot, level with the rim": foot(
        "foot_bench",
        "foot_bench clean; foot_stands level; foot_home foot; foot_accepted accept; foot_bar_measured",
    ),
    "a ring with a foot, turned": foot("lathe_hands", "foot_thickness_1"),
    "a ring with a foot, pressed in": foot("foot_thickness_3", "foot_laid home; hand_back done", papers=True),
    "the glass over the rim": foot(
        "foot_stands",
        "foot_stands over; foot_stands_by 0.15; foot_accepted",
    ),
    "the glass under the rim": foot(
        "foot_stands",
        "foot_stands under; foot_stands_by 0.05; foot_accepted",
    ),
    "the wall alone holds the glass": foot(
        "foot_stands",
        "foot_stands over; foot_stands_by 0.20; foot_home wall; foot_accepted accept; foot_bar_measured",
        papers=True,
    ),
    "clamped by a bezel that screws in": foot(
        "foot_stands",
        "foot_clamped glass_thread; foot_gasket_thread 31.0; foot_gasket_torque 2.0; "
        "foot_accepted accept; foot_bar_measured",
        papers=True,
    ),
    "clamped by a bezel with screws": foot(
        "foot_stands",
        "foot_clamped glass_screws; foot_gasket_screws 6; foot_gasket_screw 1.0; foot_accepted",
    ),
    "a dial ring within the foot, deep water": foot(
        FOOT,
        "foot_through 28.10; foot_pressure 30.0; foot_accepted",
    ),
    "another thickness of the foot": foot(
        FOOT,
        "foot_accepted thick; foot_thick_wanted 0.62; foot_accepted",
    ),
    "another inside of the foot, out over the ledge": foot(
        FOOT,
        "foot_accepted inside; foot_inside_wanted 28.20; foot_through 28.00; foot_accepted",
    ),
    "a foot in PTFE that gives way": foot(
        FOOT,
        "foot_plastic ptfe; foot_pressure 30.0; foot_accepted",
    ),
    "a foot in nylon": foot(FOOT, "foot_plastic pa66; foot_accepted"),
    "a foot of which nothing is known": foot(FOOT, "foot_plastic pvdf; foot_accepted", shop=of("pvdf")),
    "a bevel that leaves nothing to stand on": foot(
        "foot_bevel",
        "foot_bevel 0.45; foot_none_fits inside; foot_inside_wanted 28.00; foot_none_fits closed",
        papers=True,
    ),
    "no room for a foot": foot(
        "foot_edge_1",
        f"{twice('foot_edge', '1.55')}; foot_none_fits thick; foot_thick_wanted 0.30; foot_accepted",
        papers=True,
    ),
    "a ledge read again": foot(
        "foot_ledge_1",
        "foot_ledge_1 28.40; foot_ledge_2 28.60; foot_ledge_3 28.42; foot_edge_1 1.28; "
        "foot_edge_2 1.35; foot_edge_3 1.28; foot_accepted",
    ),
    "a pit in a seat with a ledge": foot(
        "foot_bench", "foot_bench pit; foot_not_this_ring closed", papers=True
    ),
    "the height of the wall and its bore as wanted": foot(
        FOOT,
        "foot_height_wanted 0.90; foot_bore_wanted 29.44; foot_outside_wanted 30.60; foot_accepted",
    ),
    "a bore past its size": foot(
        "foot_wall_reading",
        "foot_wall_reading 0.400; foot_wall_reading_2 0.400; foot_past_bore",
    ),
    "an outside past its size": foot(
        "foot_outside_reading",
        "foot_outside_reading 30500; foot_outside_reading_2 30500; foot_past_outside",
    ),
    "a foot too thick, dressed": foot(
        "foot_thickness_1",
        f"{twice('foot_thickness', '0.370', 4)}; foot_off lower; foot_thickness_1 0.322; foot_thickness_2",
    ),
    "a foot too thick, used": foot(
        "foot_thickness_1",
        f"{twice('foot_thickness', '0.370', 4)}; foot_off use; foot_laid home; marking",
        papers=True,
    ),
    "a foot too thin, another": foot(
        "foot_thickness_1",
        f"{twice('foot_thickness', '0.290', 4)}; foot_off another; foot_accepted",
    ),
    "a foot too thin, measured again": foot(
        "foot_thickness_1",
        f"{twice('foot_thickness', '0.290', 4)}; foot_off measure; foot_measure_again done; foot_case_bore_1",
    ),
    "a foot just thick enough": foot(
        "foot_thickness_1",
        f"{twice('foot_thickness', '0.340', 4)}; foot_wall_1",
    ),
    "walls off their band, another": foot(
        "foot_wall_1",
        f"{twice('foot_wall', '0.480', 4)}; foot_off_band another; foot_accepted",
    ),
    "too easy, made again": foot(
        "foot_laid",
        "foot_laid too_easy; foot_remake ring; foot_accepted",
    ),
    "shaved, handed back": foot(
        "foot_laid",
        "foot_laid shaved; foot_fit_cause none; foot_remake hand_back",
        papers=True,
    ),
    "a glass that chipped on its foot": foot(
        "foot_laid",
        "foot_laid chipped; foot_fit_cause edge; foot_remake measure; foot_measure_again done; "
        "foot_case_bore_1",
    ),
    "pressed in after all: another ring": foot(
        "foot_laid",
        "foot_laid too_easy; /foot_laid home; foot_fit_correction again; foot_accepted",
    ),
    "pressed in after all: keyed wrong": foot(
        "foot_laid",
        "foot_laid too_easy; /foot_laid home; foot_fit_correction keyed_wrong; foot_laid home; marking",
    ),
    "a ring with a foot spoiled": foot(
        "foot_rough_bore", "* spoiled; foot_accepted accept; lathe_bar", papers=True
    ),
    "a foot broken off at the lathe": foot(
        "foot_last_bore", "again; foot_tool_again; foot_touch_off done; foot_last_bore"
    ),
    "the bar of a foot moved": foot("foot_rough_bore", "again; foot_touch_off moved; foot_accepted"),
    "a foot with hand dials": foot("foot_rough_foot", "foot_dress", shop=dials),
    "a foot in inch": foot(
        "foot_bench",
        "foot_accepted accept; foot_bar_measured; lathe_bar; foot_rough_bore",
        shop=in_inch,
    ),
    "a foot with a calliper alone": foot(
        "foot_bench",
        "foot_accepted",
        shop=with_calliper,
    ),
    "a foot read with a calliper": foot(
        "foot_outside_reading",
        "foot_wall_reading; foot_thickness_1",
        shop=with_calliper,
    ),
    "a ledge corrected late": foot(
        "foot_laid",
        "foot_laid home; /foot_ledge_2 28.44; foot_accepted",
        papers=True,
    ),
    "an edge corrected late": foot(
        "foot_fit_ready",
        "/foot_glass_edge 0.90; foot_accepted",
    ),
    "a glass corrected late on its foot": foot(
        "foot_fit_ready",
        "/foot_glass_2 29.53; foot_accepted",
    ),
    "a leak at the foot": foot(
        "empty_pressure",
        "empty_pressure 2.0; empty_result fail; hunt_kind loose; hunt_glass_lifts yes; empty_found ring; "
        "foot_leak_cause pit; foot_accepted",
        papers=True,
    ),
}
WAYS = {
    **{f"gasket: {name}": way for name, way in GASKETS.items()},
    **{f"oring: {name}": way for name, way in ORINGS.items()},
    **{f"foot: {name}": way for name, way in FEET.items()},
}
WITH_PAPERS = tuple(name for name, way in WAYS.items() if way.papers)
BOOK = Book(
    "Ways of the younger seals",
    Path(__file__).with_name("ways_of_seals.md"),
    WAYS,
    papers,
    WITH_PAPERS,
    left_out=("key", "decided"),
    each=True,
    summed=True,
    keys=re.compile("gasket|oring|foot|seal|lathe|hunt"),
    optional=True,
)


@pytest.mark.parametrize("name", WAYS)
def test_every_way_is_as_it_was_kept(name: str) -> None:
    BOOK.compare(name)


if __name__ == "__main__":
    BOOK.write()

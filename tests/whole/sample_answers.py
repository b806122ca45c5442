"""The sample jobs as scripts.

The scenario is invented: a small workshop on an island ferry landing, its bags numbered by hand.
The numbers that checks are dealt come from the seed 1.
"""

from __future__ import annotations

from dataclasses import dataclass

from tests.whole.script import Pair

FIRST_ATTEMPT: tuple[Pair, ...] = (
    ("job", "208"),
    ("watch", "Ferry captain, steel diver"),
    ("remark", "Crown turns stiffly; owner told."),
    ("case_bore_1", "3418"),
    ("case_bore_2", "3420"),
    ("glass_1", "3304"),
    ("glass_2", "3303"),
    ("seat_depth", "1.35"),
    ("outside_reading", "34.402"),
    ("wall_reading", "0.741"),
    ("wall_1", "0.628"),
    ("wall_2", "0.631"),
    ("wall_3", "0.633"),
    ("wall_4", "0.630"),
    ("ring_height", "1.11"),
    ("marking", "bar_3"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1500"),
    ("renewed", "back_crown"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""Finished at the first attempt."""

REMADE: tuple[Pair, ...] = (
    ("job", "214"),
    ("watch", "Harbour clerk, dress watch"),
    ("remark", "Old ring yellow and in crumbs."),
    ("case_bore_1", "2837"),
    ("case_bore_2", "2838"),
    ("glass_1", "2749"),
    ("glass_2", "2750"),
    ("seat_depth", "1.10"),
    ("outside_reading", "28.590"),
    ("wall_reading", "0.585"),
    ("wall_1", "0.468"),
    ("wall_2", "0.470"),
    ("wall_3", "0.467"),
    ("wall_4", "0.466"),
    ("ring_height", "0.91"),
    ("fit_outcome", "too_easy"),
    ("remake", "ring"),
    ("ring", "bore"),
    ("bore_wanted", "27.37"),
    ("outside_reading", "28.581"),
    ("wall_reading", "0.588"),
    ("wall_1", "0.489"),
    ("wall_2", "0.491"),
    ("wall_3", "0.490"),
    ("wall_4", "0.488"),
    ("ring_height", "0.90"),
    ("marking", "words_only"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1440"),
    ("renewed", "back"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""The first ring went in too easily; the second, with a smaller bore keyed, is home."""

HALF_WAY: tuple[Pair, ...] = (
    ("job", "221"),
    ("watch", "Net mender, day and date"),
    ("remark", "Glass is new, the old one chipped."),
    ("case_bore_1", "3066"),
    ("case_bore_2", "3068"),
    ("glass_1", "2951"),
    ("glass_2", "2951"),
    ("seat_depth", "1.60"),
    ("ring", "bore"),
    ("bore_wanted", "29.40"),
    ("outside_reading", "30.870"),
    ("last_outside", "done"),
)
"""Left at the lathe, before the boring bar goes in again."""

CROWN_LEAKS: tuple[Pair, ...] = (
    ("job", "226"),
    ("watch", "Lighthouse keeper, plated"),
    ("remark", "Back seal looks newer than the crown's."),
    ("case_bore_1", "3241"),
    ("case_bore_2", "3243"),
    ("glass_1", "3132"),
    ("glass_2", "3133"),
    ("seat_depth", "1.25"),
    ("outside_reading", "32.618"),
    ("wall_reading", "0.713"),
    ("wall_1", "0.601"),
    ("wall_2", "0.604"),
    ("wall_3", "0.606"),
    ("wall_4", "0.603"),
    ("ring_height", "1.03"),
    ("marking", "bar_5"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1500"),
    ("renewed", "back"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "fail"),
    ("hunt_kind", "rate"),
    ("hunt_opened", "crown"),
    ("hunt_crown_positions", "changes"),
    ("hunt_crown_seal", "tight"),
    ("cased_found", "test"),
    ("renewed", "back_crown"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""The cased test fails, the search finds the crown's seal, and it is tested again."""

THICK = tuple(
    (f"gasket_thickness_{n}", value) for n, value in enumerate(("0.612", "0.615", "0.610", "0.613"), 1)
)
GASKET_DRAGGED: tuple[Pair, ...] = (
    ("job", "231"),
    ("watch", "Tide gauger, steel, back screws in"),
    ("remark", "Mist under the glass after a swim."),
    ("seal", "gasket"),
    ("gasket_outside_1", "2914"),
    ("gasket_outside_2", "2916"),
    ("gasket_inside_1", "2652"),
    ("gasket_inside_2", "2654"),
    ("gasket_depth_1", "0.48"),
    ("gasket_depth_2", "0.47"),
    ("gasket_accepted", "thickness"),
    ("gasket_sheet", "0.612"),
    *THICK,
    ("gasket_width", "0.83"),
    ("gasket_lid_drags", "held"),
    ("gasket_laid", "dragged"),
    ("gasket_after", "gasket"),
    ("gasket_accepted", "thickness"),
    ("gasket_sheet", "0.612"),
    *THICK,
    ("gasket_width", "0.86"),
    ("gasket_lid_drags", "greased"),
    ("marking", "bar_5"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "fail"),
    ("hunt_kind", "rate"),
    ("hunt_opened_beside", "none"),
    ("hunt_own_joint", "dirt"),
    ("empty_found", "ring"),
    ("gasket_leak_cause", "dirt"),
    ("gasket_accepted", "thickness"),
    ("gasket_sheet", "0.612"),
    *THICK,
    ("gasket_width", "0.84"),
    ("gasket_lid_drags", "greased"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1440"),
    ("renewed", "crown"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""A flat gasket under the back: the lid drags the first, the second leaks for dirt, the third holds."""


def placed(key: str, *values: str) -> tuple[Pair, ...]:
    """Readings at one place after the other."""
    return tuple((f"{key}_{n}", value) for n, value in enumerate(values, 1))


FOOT_LEAKED: tuple[Pair, ...] = (
    ("job", "236"),
    ("watch", "Reef pilot, steel, glass on a foot"),
    ("remark", "Glass moves under the thumb."),
    ("seal", "foot"),
    ("foot_case_bore_1", "3176"),
    ("foot_case_bore_2", "3178"),
    ("foot_glass_1", "3062"),
    ("foot_glass_2", "3063"),
    ("foot_seat_depth", "1.90"),
    ("foot_glass_edge", "1.10"),
    ("foot_ledge_1", "2934"),
    ("foot_ledge_2", "2936"),
    ("foot_edge_1", "1.58"),
    ("foot_edge_2", "1.58"),
    ("foot_bevel", "0.22"),
    ("foot_stands", "over"),
    ("foot_stands_by", "0.08"),
    ("foot_outside_reading", "31.990"),
    ("foot_wall_reading", "0.735"),
    *placed("foot_thickness", "0.412", "0.415", "0.410", "0.411"),
    *placed("foot_wall", "0.631", "0.634", "0.632", "0.629"),
    ("foot_ring_height", "1.51"),
    ("marking", "bar_10"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "fail"),
    ("hunt_kind", "loose"),
    ("hunt_glass_lifts", "yes"),
    ("empty_found", "ring"),
    ("foot_leak_cause", "dirt"),
    ("foot_outside_reading", "31.986"),
    ("foot_wall_reading", "0.737"),
    *placed("foot_thickness", "0.398", "0.402", "0.399", "0.401"),
    *placed("foot_wall", "0.633", "0.635", "0.634", "0.632"),
    ("foot_ring_height", "1.50"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1440"),
    ("renewed", "back_crown"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""A ring with a foot under the glass: the first leaks for dirt, the second holds."""

OF_GROOVE: tuple[Pair, ...] = (
    ("oring_inner_1", "1.992"),
    ("oring_inner_2", "1.994"),
    ("oring_outer_1", "3.02"),
    ("oring_outer_2", "3.03"),
    ("oring_other_1", "0.92"),
    ("oring_other_2", "0.91"),
    ("oring_beside", "1.998"),
)
GOOD_CORD: tuple[Pair, ...] = (
    ("oring_cord_1", "0.606"),
    ("oring_cord_2", "0.604"),
    ("oring_inside", "1.84"),
)
ORING_LEAKED: tuple[Pair, ...] = (
    ("job", "238"),
    ("watch", "Weir warden, steel, crown pulls"),
    ("remark", "Crown turns dry; mist after rain."),
    ("seal", "oring"),
    ("oring_place", "crown"),
    *OF_GROOVE,
    ("oring_cord_1", "0.702"),
    ("oring_cord_2", "0.698"),
    ("oring_inside", "1.80"),
    ("oring_off_its_band", "another"),
    ("oring_accepted", "there"),
    ("oring_hand_cord", "0.605"),
    ("oring_hand_inside", "1.84"),
    *GOOD_CORD,
    ("marking", "bar_3"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "fail"),
    ("hunt_kind", "rate"),
    ("hunt_opened_beside_stem", "none"),
    ("hunt_own_stem", "dirt"),
    ("empty_found", "ring"),
    ("oring_leak_cause", "cut"),
    ("oring_accepted", "there"),
    ("oring_hand_cord", "0.605"),
    ("oring_hand_inside", "1.84"),
    *GOOD_CORD,
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1440"),
    ("renewed", "back"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""An O-ring at the crown: the first is of another size, the second leaks for a nick, the third holds."""


def besides(number: int, *pairs: Pair) -> tuple[Pair, ...]:
    """Answers about a further seal of the job."""
    return tuple((f"seal_{number}_{key}", answer) for key, answer in pairs)


THREE_SEALS: tuple[Pair, ...] = (
    ("job", "243"),
    ("watch", "Buoy tender, steel, crown pulls"),
    ("remark", "Whole case gone through."),
    ("seal", "gasket"),
    ("gasket_joint", "back_screws"),
    ("gasket_outside_1", "2714"),
    ("gasket_outside_2", "2716"),
    ("gasket_inside_1", "2452"),
    ("gasket_inside_2", "2454"),
    ("gasket_depth_1", "0.46"),
    ("gasket_depth_2", "0.46"),
    *besides(2, ("seal", "oring"), ("oring_place", "crown"), *OF_GROOVE, *GOOD_CORD),
    *besides(3, ("seal", "oring"), ("oring_place", "tube"), ("oring_state", "eaten")),
    *besides(3, ("oring_not_here", "closed")),
    ("marking", "bar_3"),
    ("empty_hold", "start"),
    ("@", "11"),
    ("empty_result", "pass"),
    ("@", "1440"),
    ("renewed", "each"),
    ("besides_glass", "new"),
    ("besides_tube", "left"),
    ("besides_pushers", "has_none"),
    ("cased_hold", "start"),
    ("@", "11"),
    ("cased_result", "pass"),
)
"""A gasket under the back and an O-ring at the crown in one job; the tube's O-ring is not to be renewed."""


@dataclass(frozen=True)
class Sample:
    """One sample session: who it is, and its script."""

    id: str
    """The id in the head of its file."""
    script: tuple[Pair, ...]
    until: str = ""
    """The step at which it is left; empty = it comes to its end."""


SAMPLES = {
    "00208-ferry-captain.toml": Sample("2aa2e6c8", FIRST_ATTEMPT),
    "00214-harbour-clerk.toml": Sample("4561db47", REMADE),
    "00221-net-mender.toml": Sample("760f686f", HALF_WAY, until="tool_boring_again"),
    "00226-lighthouse-keeper.toml": Sample("4eef9298", CROWN_LEAKS),
    "00231-tide-gauger.toml": Sample("7c0ab15e", GASKET_DRAGGED),
    "00236-reef-pilot.toml": Sample("5e91d0c4", FOOT_LEAKED),
    "00238-weir-warden.toml": Sample("5b1f0c92", ORING_LEAKED),
    "00243-buoy-tender.toml": Sample("83c4e17a", THREE_SEALS),
}
"""File name of each sample."""

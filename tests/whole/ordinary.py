"""The ordinary answers of the invented watch: what is answered where a script or a test says nothing.

Only what has no usual value, no target and no first choice needs a line here.
"""

from __future__ import annotations

ORDINARY = {
    "case_bore_1": "36.42",
    "case_bore_2": "36.44",
    "glass_1": "35.31",
    "glass_2": "35.30",
    "seat_depth": "1.45",
    "gasket_outside_1": "30.20",
    "gasket_outside_2": "30.22",
    "gasket_inside_1": "27.60",
    "gasket_inside_2": "27.62",
    "gasket_depth_1": "0.45",
    "gasket_depth_2": "0.45",
    "gasket_closed": "0.45",
    "gasket_screws": "4",
    "oring_inner_1": "26.52",
    "oring_inner_2": "26.54",
    "oring_outer_1": "28.60",
    "oring_outer_2": "28.62",
    "oring_other_1": "0.60",
    "oring_other_2": "0.60",
    "oring_beside": "2.00",
    "oring_old_inside": "2.60",
    "oring_old_high": "0.45",
    "oring_old_wide": "0.62",
    "oring_hand_inside": "26.00",
    "oring_cord_1": "0.756",
    "oring_cord_2": "0.758",
    "oring_inside": "26.00",
    "foot_case_bore_1": "30.56",
    "foot_case_bore_2": "30.58",
    "foot_glass_1": "29.50",
    "foot_glass_2": "29.51",
    "foot_seat_depth": "1.60",
    "foot_glass_edge": "1.00",
    "foot_ledge_1": "28.40",
    "foot_ledge_2": "28.40",
    "foot_edge_1": "1.28",
    "foot_edge_2": "1.28",
    "foot_bevel": "0.20",
    "foot_gasket_screws": "4",
}
"""Key of a step and its answer, as scripts give it."""
AMID = ("bar_measured", "bar_measured_2", "gasket_bar_is", "foot_bar_measured", "foot_bar_measured_2")
"""Answered by the middle of what may be keyed: of a bar half a millimetre over its size, as bars run."""

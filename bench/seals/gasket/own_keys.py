"""The keys of the flat gasket in the session file, every one written here and nowhere else.

Invariant: each begins with the name of the seal, so that no answer about a gasket is ever read as one about
another seal; none is ever renamed.
"""

from __future__ import annotations

# measure
JOINT = "gasket_joint"
STATE = "gasket_state"
NOT_HERE = "gasket_not_here"
MEETS = "gasket_meets"
SHAPE = "gasket_shape"
OUTSIDE = "gasket_outside"
INSIDE = "gasket_inside"
DEPTH = "gasket_depth"
STANDS_OVER = "gasket_stands_over"
STANDS_BY = "gasket_stands_by"
CLOSED = "gasket_closed"
THREAD = "gasket_thread"
TORQUE = "gasket_torque"
SCREWS = "gasket_screws"
SCREW = "gasket_screw"
OLD_ONE = "gasket_old_one"
# size
MATERIAL = "gasket_material"
WAY = "gasket_way"
SHEET = "gasket_sheet"
THICKNESS_WANTED = "gasket_thickness_wanted"
WIDTH_WANTED = "gasket_width_wanted"
NONE_FITS = "gasket_none_fits"
ACCEPTED = "gasket_accepted"
# cut
CUT_OUT = "gasket_cut_out"
TAKEN = "gasket_taken"
BAR_IS = "gasket_bar_is"
CANNOT_TURN = "gasket_cannot_turn"
BAR_STANDS = "gasket_bar_stands"
# verify
THICKNESS = "gasket_thickness"
WIDTH = "gasket_width"
OFF_ITS_BAND = "gasket_off_its_band"
FACES = "gasket_faces"
LID_DRAGS = "gasket_lid_drags"
LAID = "gasket_laid"
CORRECTED = "gasket_corrected"
AFTER = "gasket_after"
LEAK_CAUSE = "gasket_leak_cause"


def turned(operation: str) -> str:
    """Key of an act at the lathe, by its operation."""
    return f"gasket_{operation}"


def tool_for(operation: str) -> str:
    """Key of the look at the tool that it is done with."""
    return f"gasket_tool_{operation}"

"""The keys of the O-ring in the session file, every one written here and nowhere else.

Invariant: each begins with the name of the seal, so that no answer about an O-ring is ever read as one about
another seal; none is ever renamed.
"""

from __future__ import annotations

# measure
PLACE = "oring_place"
HELD = "oring_held"
STATE = "oring_state"
NOT_HERE = "oring_not_here"
LIES = "oring_lies"
MOVES = "oring_moves"
GOES_BY = "oring_goes_by"
OLD_INSIDE = "oring_old_inside"
OLD_HIGH = "oring_old_high"
OLD_WIDE = "oring_old_wide"
CLUE = "oring_clue"
INNER = "oring_inner"
OUTER = "oring_outer"
OTHER = "oring_other"
BESIDE = "oring_beside"
CORNER = "oring_corner"
# size
MATERIAL = "oring_material"
STEP = "oring_cord_step"
HAND_INSIDE = "oring_hand_inside"
HAND_CORD = "oring_hand_cord"
NONE_FITS = "oring_none_fits"
ACCEPTED = "oring_accepted"
# cut
TAKEN = "oring_taken"
# verify
CORD = "oring_cord"
INSIDE = "oring_inside"
OFF_ITS_BAND = "oring_off_its_band"
CLEANED = "oring_cleaned"
GREASED = "oring_greased"
FITTED = "oring_laid"
CORRECTED = "oring_corrected"
AFTER = "oring_after"
LEAK_CAUSE = "oring_leak_cause"

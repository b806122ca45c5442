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
}
"""Key of a step and its answer, as scripts give it."""

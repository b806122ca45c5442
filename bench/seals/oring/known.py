"""What the rules work out for an O-ring, remembered: the route asks it again at every answer."""

from __future__ import annotations

from bench.job.remembered import remembered
from rules.oring.sizing import judged, oring_sizing, window

sized = remembered(oring_sizing)
looked_at = remembered(judged)
windowed = remembered(window)

"""What the rules work out for an O-ring, remembered: the route asks it again at every answer."""

from __future__ import annotations

from bench.job.remembered import remembered
from rules.oring.judging import judged, window
from rules.oring.sizing import oring_sizing

sized = remembered(oring_sizing)
looked_at = remembered(judged)
windowed = remembered(window)

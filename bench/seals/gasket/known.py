"""What the rules work out for a gasket, remembered: the route asks it again at every answer."""

from __future__ import annotations

from bench.job.remembered import remembered
from rules.gasket.sizing import gasket_sizing, window

sized = remembered(gasket_sizing)
windowed = remembered(window)

"""What the rules work out for a foot, remembered: the route asks it again at every answer."""

from __future__ import annotations

from bench.job.remembered import remembered
from rules.foot.sizing import foot_sizing

footed = remembered(foot_sizing)

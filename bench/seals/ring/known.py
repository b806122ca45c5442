"""What the rules work out for a ring, remembered: the route asks it again at every answer."""

from __future__ import annotations

from bench.job.remembered import remembered
from rules.sizing.sizing import size
from rules.turning import correction, planning, savings

sized = remembered(size)
plan = remembered(planning.plan)
plan_of = remembered(planning.plan_of)
replan = remembered(correction.replan)
saving_words = remembered(savings.saving_words)

"""What is looked up in the jobs of a folder for a ring, by the mark under which it is kept."""

from __future__ import annotations

from bench.job import keys
from bench.past.drawer import looked_in
from bench.past.learning import looked_up_in

LOOKS = {keys.LEARNED: looked_up_in, keys.LOOKED_IN: looked_in}

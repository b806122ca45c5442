"""Sheets of jobs whose answers are corrected, whose clock jumps and which are opened again and again,
against the independent checker: `python -m tests.campaigns.restless_claims [--long]`.
"""

from __future__ import annotations

import sys
from functools import partial

from tests.campaigns import sheet_claims
from tests.whole.restless_bench import Restless

MOST, LONG = 60, 500
"""Jobs at most in the short form, which ends once every state was reached; jobs of the long form."""
LEAST = {
    "clock jumped": 10,
    "resumed": 10,
    "keyed over": 10,
    "gone back": 5,
    "finished": 2,
    "unfinished": 1,
    "test passed": 2,
    "test failed": 1,
    "left during a hold": 2,
    "result changed": 1,
    "answers changed": 1,
}
"""How often each must come up in the short form."""


run = partial(sheet_claims.run, at=Restless, least=LEAST, edits=False)
"""As the sheets of random jobs are judged."""


if __name__ == "__main__":
    sys.exit(sheet_claims.main(run, most=MOST, long=LONG, about=__doc__))

"""What the ring with a foot takes from another kind of seal: its stages, asked under keys of its own.

Invariant: such a stage sees the answers of the ring with a foot alone, under the keys it knows, and what it
asks goes into the file under other keys; what every kind shares keeps its key.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.renaming import Renaming, of_every_seal
from bench.seals.foot import own_keys
from bench.stages.guard import LATHE_CHECKS

SHARED = frozenset((keys.SEAL, keys.LATHE_SLIP, *LATHE_CHECKS))
"""Keys that every kind of seal has alike, besides those of every seal of a watch."""
NAMED = {keys.RING: own_keys.ACCEPTED, keys.FIT_OUTCOME: own_keys.LAID}
"""Keys that have a name of their own here: what is accepted, and how it is put in, are found by them."""
BACK = {own: key for key, own in NAMED.items()}


def own(key: str) -> str:
    """The key under which it is kept; one of this seal is kept as it is."""
    if key in SHARED or of_every_seal(key) or own_keys.without(key):
        return key
    return NAMED.get(key) or own_keys.of(key)


def theirs(key: str) -> str:
    """The key that a stage of another kind knows it by; empty where it may not see it."""
    if key in SHARED or of_every_seal(key):
        return key
    return BACK.get(key) or own_keys.without(key)


_NAMES = Renaming(own, theirs)
seen, own_step, as_own = _NAMES.seen, _NAMES.step, _NAMES.asked

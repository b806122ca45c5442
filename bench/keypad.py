"""How long a key is held back to tell a bounce from a press: a setting of the shop, used by the desk.

Invariant: 0 ms is no filter.
"""

from __future__ import annotations

WINDOW_MS = 80
"""Usual window: the same key within it is held back until another follows or does not (own judgement)."""
MOST_WINDOW_MS = 500
"""The longest window a shop may ask for."""

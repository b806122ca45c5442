"""The answers of whole jobs, literally as they are keyed; one answer a line, in the order of the screen.

The scenario is invented: a small workshop on an island ferry landing, its bags numbered by hand. The numbers that
checks are dealt come from the seed 1.
"""

from __future__ import annotations

STRAIGHT = """
0
1
1
1
3642
3644
3531
3530
1.45
1
0
3
2
6
420
1
1
2
1
1
1
1
36672
1
2
1
0.723
1
3
1
4
1
1
0.602
0.605
0.607
0.604
1.21
1
1
4
1
1
1
1
1
1
3
1
1
1
"""
"""A job from 0 Enter to handing back, on the built-in shop, everything usual taken: home at the first ring."""


def answers(script: str) -> list[str]:
    """The answers of a script, the start of the job included."""
    return script.split()


def keys(script: str) -> list[str]:
    """The same as presses on the keypad: every character, and E for Enter after each answer."""
    return [key for answer in answers(script) for key in (*answer, "E")]

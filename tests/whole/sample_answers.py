"""The sample jobs, literally as they are keyed in plain lines: one answer a line.

The scenario is invented: a small workshop on an island ferry landing, its bags numbered by hand. A line @11 lets
eleven minutes go by before the next answer. The numbers that checks are dealt come from the seed 1.
"""

from __future__ import annotations

FIRST_ATTEMPT = """
208
0
*
2
1
Ferry captain, steel diver
*
2
2
Crown turns stiffly; owner told.
1
1
1
3418
3420
3304
3303
1.35
1
0
3
2
6
720
1
1
2
1
1
1
1
34.402
1
2
1
0.741
1
3
1
4
1
1
0.628
0.631
0.633
0.630
1.11
1
1
3
1
1
1
@11
1
@1500
3
1
3
1
@11
1
1
"""
"""Finished at the first attempt."""

REMADE = """
214
0
*
2
1
Harbour clerk, dress watch
*
2
2
Old ring yellow and in crumbs.
1
1
1
2837
2838
2749
2750
1.10
1
0
3
2
5
1000
1
1
2
1
1
1
1
28.590
1
2
1
0.585
1
3
1
4
1
1
0.468
0.470
0.467
0.466
0.91
1
2
1
2
27.37
1
0
1
3
5
1000
1
1
2
1
1
1
1
28.581
1
2
1
0.588
1
3
1
4
1
1
0.489
0.491
0.490
0.488
0.90
2
1
2
1
1
1
@11
1
@1440
2
1
2
1
@11
1
1
"""
"""The first ring went in too easily; the second, with a smaller bore keyed, is home."""

HALF_WAY = """
221
0
*
2
1
Net mender, day and date
*
2
2
Glass is new, the old one chipped.
1
1
1
3066
3068
2951
2951
1.60
2
29.40
1
0
3
2
6
720
1
1
2
1
1
1
1
30.870
1
"""
"""Left at the lathe, before the boring bar goes in again."""

CROWN_LEAKS = """
226
0
*
2
1
Lighthouse keeper, plated
*
2
2
Back seal looks newer than the crown's.
1
1
1
3241
3243
3132
3133
1.25
1
0
3
2
5
720
1
1
2
1
1
1
1
32.618
1
2
1
0.713
1
3
1
4
1
1
0.601
0.604
0.606
0.603
1.03
1
1
4
1
1
1
@11
1
@1500
2
1
3
1
@11
2
3
2
4
2
1
1
1
3
1
2
1
@11
1
1
"""
"""The cased test fails, the search finds the crown's seal, and it is tested again."""

SAMPLES = {
    "00208-ferry-captain.toml": FIRST_ATTEMPT,
    "00214-harbour-clerk.toml": REMADE,
    "00221-net-mender.toml": HALF_WAY,
    "00226-lighthouse-keeper.toml": CROWN_LEAKS,
}
"""File name of each sample and its answers."""

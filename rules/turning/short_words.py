"""The sentences that set a slide as short as a narrow page needs them.

Invariant: surface, size, figure and way stay; what a sentence explains besides is left to its long form.
"""

from __future__ import annotations

import re

TOUCH = r"touch off on the (?P<on>outside|bore)(?P<where>.*?)"
SIZE = r"\((?P<size>[^)]*)\)"
SHORTER = (
    (
        rf"{TOUCH} {SIZE}, moving (?P<way>in|out): "
        r"(?P<dial>dial to [\d.]+), counted as (?P<turns>\d+ turns?(?= [\d.]+ di\w+;)|[^;]*).*; turned .*",
        "touch {on}{where} {size}: {dial} ({turns})",
    ),
    (
        rf"{TOUCH} {SIZE}, moving (?P<way>in|out): "
        r"(?P<dial>dial to .*); turned .*",
        "touch {on}{where} {size}: {dial}",
    ),
    (
        rf"{TOUCH} {SIZE}: set the read-out to (?P<to>.*), diameter",
        "touch {on}{where}: set {to}",
    ),
    (
        rf"{TOUCH} {SIZE}: set the read-out to (?P<to>.*)",
        "touch {on}{where} {size}: set {to}",
    ),
    (
        rf"{TOUCH} {SIZE}: the read-out must show (?P<to>.*); "
        "if not, set it",
        "touch {on}{where} {size}: must show {to}; if not, set it",
    ),
    (
        r"touch off on the face with the side of the blade nearer the chuck: (?P<to>.*)",
        "touch face, blade's chuck side: {to}",
    ),
    (r"Touch off on the finished face: set the carriage to 0\.", "Stopped: touch face, carriage to 0."),
    (r"nothing is recorded yet: (?P<touch>.*), as measured", "{touch}."),
    (r"CHECK  passes made before the break and not keyed .*", "CHECK  not keyed? Touch at last made"),
    (
        r"(?P<name>outside|bore): touch off, set the (?P<to>dial to [\d.]+), counted as "
        r"(?P<turns>\d+ turns?) .*",
        "{name}: touch, {to} ({turns})",
    ),
    (r"(?P<name>outside|bore): touch off, (?P<to>.*); last cut .*", "{name}: touch, {to}"),
    (r"smooth rod in the tailstock, .*; nothing is held by hand", "rod in the tailstock; no hand near"),
    (r"the core catches the ring; nothing is held by hand", "the core catches it; no hand near"),
    (r"touch off on the bore's open edge: (?P<to>.*)", "touch bore's edge: {to}"),
    (r"touch off on the face: (?P<to>.*)", "touch face: {to}"),
    (
        r"come to every figure moving (?P<way>in|out)(?P<dial>(?:, the dial counting \w+)?); "
        r"past it, back (?:in|out) by (?:over )?(?P<over>.*) and .*",
        "{way}{dial}; past it {over} back",
    ),
    (
        r"(?P<tool>.*) cuts .* do not set it again, unless .*: then (?P<touch>touch off .*)",
        "{tool}, if another was set since: {touch}",
    ),
    (r"(?P<face>face: .*) off; carriage to zero", "{face} off; carriage 0"),
    (r"(?P<off>Then burrs off both edges)\b.*", "{off}."),
)
"""Patterns of long forms, each with its short form."""
LEFT_OUT = (
    ("(0 turns ", "("),
    ("outside behind the ring", "behind ring"),
    (", where the blade will cut", ""),
    (" with the blade's side nearer the middle", ", blade's inner side,"),
    ("dial to ", "dial "),
    (", the dial counting up", ""),
    (", the dial counting down", ", dial down"),
    (", diameter", ""),
    (", radius", ""),
    ("the backlash", "backlash"),
)
"""Words of the short forms that still have a shorter one."""


def shortened(text: str) -> str:
    """The sentence in its short form; the sentence itself where it has none.

    >>> shortened("touch off on the outside (45.50), moving in: dial to 0; turned in it counts up")
    'touch outside 45.50: dial 0'
    >>> shortened("touch off on the bore (8.50): set the read-out to 8.50, diameter")
    'touch bore: set 8.50'
    >>> shortened("come to every figure moving in; past it, back out by over 0.08 mm and come again")
    'in; past it 0.08 mm back'
    >>> shortened("face: 0.30 (0 turns 6 div) off; carriage to zero")
    'face: 0.30 (6 div) off; carriage 0'
    """
    for pattern, short in SHORTER:
        if found := re.fullmatch(pattern, text):
            parts = {
                name: part if name != "touch" else shortened(part) for name, part in found.groupdict().items()
            }
            said = short.format(**parts)
            for long, instead in LEFT_OUT:
                said = said.replace(long, instead)
            return said
    return text

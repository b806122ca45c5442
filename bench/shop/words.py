"""The words of shop.toml: under which section each stands, and what may be written there.

Invariant: a word that a section knows is found under that section; an example loads.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from bench.shop.serial_line import SerialLine
from rules.bars import Bar, Grip
from rules.equipment import Axis, Lathe, Tool
from rules.instrument import Instrument
from rules.press_and_tester import Press, Tester

SECTIONS: Mapping[str, type] = {
    "[lathe.cross]": Axis,
    "[[lathe.grip]]": Grip,
    "[[lathe]]": Lathe,
    "[[tool]]": Tool,
    "[[bar]]": Bar,
    "[[instrument]]": Instrument,
    "[press]": Press,
    "[tester]": Tester,
    "[[line]]": SerialLine,
}
"""Each section and what is made of it."""
EXAMPLES = {
    "name": '"small lathe"',
    "speeds_rpm": "[400, 800]",
    "largest_rpm": "2000",
    "smallest_mm": "3",
    "largest_mm": "80",
    "number": "1",
    "kind": '"turning"',
    "blade_mm": "1.0",
    "smallest_bore_mm": "8",
    "longest_reach_mm": "20",
    "plastic": '"acetal"',
    "diameter_mm": "36",
    "length_mm": "200",
    "resolution_mm": "0.01",
    "limit_of_error_mm": "0.03",
    "largest_bar": "3",
    "largest_force_n": "1500",
    "port": '"/dev/ttyUSB0"',
}
"""What may stand under a word without which its section cannot be used."""


def section_of(word: str) -> str:
    """The section under which a word stands, empty where it stands under none."""
    return next((head for head, kind in SECTIONS.items() if word in {one.name for one in fields(kind)}), "")


def example(word: str) -> str:
    """How a word may be written."""
    return f"{word} = {EXAMPLES[word]}" if word in EXAMPLES else word

"""`python -m tests.whole.shop_presses`: presses and minutes from an empty folder to the first cut.

By a keystroke-level model: 0.28 s a key for somebody who types a little, 1.35 s to get ready for a page or a
line (S. K. Card, T. P. Moran, A. Newell, Commun. ACM 23 (1980) 396, its times read in a table at
asi-www.informatik.uni-hamburg.de, SE_Evaluation/html/pages/goms.htm). Reading a page and measuring are not in
it, and are the same on both ways.
"""

from __future__ import annotations

import difflib
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from bench.desk.desk import Desk
from bench.shop.shop import built_in
from bench.shop.starter import starter_text
from tests.whole.hands import lines, presses
from tests.whole.script import Hand, Pair
from tests.whole.stated import stated

KEY_S, READY_S = 0.28, 1.35
FIRST_CUT = "rough_outside"
COMMANDS = ("ringwright shop --write", "nano shop.toml")
"""What is typed to edit the file, beside the editing itself."""
SAVED = 4
"""Keys that save and leave an editor."""

OWN: tuple[Pair, ...] = (
    ("your_shop", "ask"),
    ("works_in", "mm"),
    ("cross_shown_by", "dial"),
    ("cross_marked_in", "mm"),
    ("cross_counts", "radius"),
    ("cross_division", "0.025"),
    ("cross_turn", "80"),
    ("cross_backlash", "0.15"),
    ("cross_figures", "inward"),
    ("carriage_shown_by", "dial"),
    ("carriage_division", "0.100"),
    ("carriage_turn", "50"),
    ("carriage_backlash", "0.20"),
    ("speeds_by", "belt"),
    ("speeds_are", "keyed"),
    ("speed_1", "310"),
    ("speed_2", "620"),
    ("speed_3", "1150"),
    ("speed_4", "usual"),
    ("holds_1", "65.0"),
    ("holds_2", "0.0"),
    ("holds_more_1", "step collet"),
    ("holds_to_1", "38.0"),
    ("drills_to", "10.0"),
    ("numbered", "no"),
    ("goes_into_2", "6.5"),
    ("reaches_2", "18.0"),
    ("blade_4", "1.20"),
    ("tool_more_5", "no"),
    ("reads_to_1", "0.02"),
    ("reads_to_2", "0.01"),
    ("reads_to_3", "none"),
    ("reads_more_4", "no"),
    ("bars_are", "others"),
    ("bar_plastic_1", "acetal"),
    ("bar_across_1", "41.5"),
    ("bar_length_1", "320"),
    ("bar_colour_1", "black"),
    ("bar_more_2", "no"),
)
"""A shop of one's own: hand dials on the radius, a belt of three steps, tools without numbers."""


@dataclass(frozen=True, slots=True)
class Effort:
    """Presses, and how often somebody gets ready: for a page, or for a line of a file."""

    presses: int
    ready: int

    @property
    def minutes(self) -> float:
        """Time by the model."""
        return (self.presses * KEY_S + self.ready * READY_S) / 60.0


class Counting:
    """Counts what a hand types."""

    def __init__(self, hand: Hand) -> None:
        self._hand = hand
        self.all, self.shop = Effort(0, 0), Effort(0, 0)

    def line(self, desk: Desk) -> str | None:
        """The next line of the hand."""
        text = self._hand.line(desk)
        if text is not None:
            keys = len(presses(text))
            self.all = Effort(self.all.presses + keys, self.all.ready + 1)
            if desk.asked_shop is not None:
                self.shop = Effort(self.shop.presses + keys, self.shop.ready + 1)
        return text


def by_keypad(folder: Path, script: Sequence[Pair]) -> tuple[Effort, Effort]:
    """From an empty folder to the first cut; and what of it is about the shop."""
    counting = Counting(Hand(tuple(script), until=FIRST_CUT))
    lines(folder, [counting])
    return counting.all, counting.shop


def by_editing(wanted: str) -> Effort:
    """The starter written and made into a file: up and down by line, characters taken out and typed."""
    typed, ready, at = sum(len(one) + 1 for one in COMMANDS) + SAVED, len(COMMANDS), 0
    before, after = starter_text(built_in()).splitlines(), wanted.splitlines()
    changes = difflib.SequenceMatcher(None, before, after, autojunk=False).get_opcodes()
    for tag, low, high, first, last in changes:
        if tag == "equal":
            continue
        old, new = before[low:high], after[first:last]
        typed += low - at + max(high - low - 1, 0)  # from line to line
        for was, now in zip(old, new, strict=False):
            same = difflib.SequenceMatcher(None, was, now, autojunk=False).get_matching_blocks()
            kept = sum(block.size for block in same)
            typed += len(was) - kept + len(now) - kept
        typed += sum(len(one) + 1 for one in new[len(old) :]) + len(old[len(new) :])
        ready, at = ready + max(len(old), len(new)), high
    return Effort(typed, ready)


def table() -> dict[str, Effort]:
    """Every way and what it takes."""
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        known, _ = by_keypad(stated(folder / "known"), ())
        assumed, asked = by_keypad(folder / "assumed", ())
        own, said = by_keypad(folder / "own", OWN)
        second, _ = by_keypad(folder / "own", ())
        edited = by_editing((folder / "own" / "shop.toml").read_text(encoding="utf-8"))
        return {
            "a known shop, to the first cut": known,
            "as assumed, to the first cut": assumed,
            "  of it about a shop as assumed": asked,
            "own shop by keypad, to the first cut": own,
            "  of it about a shop of one's own": said,
            "its second job, to the first cut": second,
            "own shop by editing the file alone": edited,
            "own shop by editing, to the first cut": Effort(
                edited.presses + second.presses, edited.ready + second.ready
            ),
        }


def main() -> None:
    """Print it."""
    for what, effort in table().items():
        print(
            f"{what:<40}{effort.presses:>6} presses{effort.ready:>5} pages or lines{effort.minutes:>6.1f} min"
        )


if __name__ == "__main__":
    main()

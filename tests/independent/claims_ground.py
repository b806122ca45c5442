"""The ground of the checkers of a sheet: the entries of the raw file by rings, and the list of complaints."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import Any

from tests.independent.raw_session import Kept, figure, has_gaps, kept_entries, newest

RESTED_ON = re.compile(
    r"(case_bore|glass)_\d+|(seat|glass)_way|plug_enters|plug_stays_out(_again)?|temperature|measure_again"
)
"""Keys of the answers that the measured diameters rest on."""


class Ground:
    """One sheet and its file."""

    def __init__(self, sheet: dict[str, Any], text: str, path: Path) -> None:
        self.sheet, self.text, self.path = sheet, text, path
        self.head, self.all = kept_entries(path)
        self.answers = [one for one in self.all if one.kind == "answer"]
        self.loose = has_gaps(path) or any(one.number and not one.accepted for one in self.answers)
        """An entry is missing, or was changed after the end: what was decided from it stays as it was."""
        borders = [one.n for one in self.all if one.kind == "mark" and one.key == "attempt"]
        edges = [0, *borders, 10**9]
        self.spans = [[one for one in self.answers if low < one.n < high] for low, high in pairwise(edges)]
        self.now = self.spans[-1]
        self.found: list[str] = []

    def must(self, holds: bool, what: str) -> None:
        """Keep a complaint."""
        if not holds:
            self.found.append(what)

    def same(self, name: str, shown: object, own: object, within: float = 0.0) -> None:
        """A figure shown must be the one worked out."""
        if isinstance(shown, (int, float)) and isinstance(own, (int, float)):
            self.must(abs(shown - own) <= within + 1e-9, f"{name}: sheet says {shown}, entries give {own}")
        else:
            self.must(shown == own, f"{name}: sheet says {shown!r}, entries give {own!r}")

    def ring_sizes(self, span: list[Kept]) -> tuple[float | None, float | None, Kept | None]:
        """Outside and bore of a span's ring, the smaller bore included."""
        ring = newest(span, "ring")
        if ring is None:
            return None, None, None
        sizes = {
            word.split()[0]: figure(word.split(" ", 1)[1])
            for word in ring.words
            if re.match(r"(outside|bore) ", word)
        }
        outside, bore = sizes["outside"], sizes["bore"]
        past = newest(span, "past_outside", after=ring.n)
        if past and past.word == "smaller_bore":
            read = [
                one for one in span if one.key.endswith(("outside_reading",)) or "outside_reading_" in one.key
            ]
            outside = figure([one for one in read if one.n < past.n][-1].word)
            bore = figure(past.words[1].split(" ", 1)[1])
        return outside, bore, ring

    def sizes_known(self, span: list[Kept]) -> tuple[float | None, float | None]:
        """Outside and bore that were planned: none of a ring that was bought, whose walls alone were read."""
        outside, bore, ring = self.ring_sizes(span)
        return (None, None) if ring and "at_hand new" in ring.words else (outside, bore)

    def pressed(self, span: list[Kept]) -> Kept | None:
        """What became of a span's ring under the press, as far as it holds."""
        held = [one for one, _ in in_turn(span, "fit_outcome", "fit_correction", "part") if one]
        return held[-1] if held else None


Trace = tuple[Kept, Kept, str]
"""A result, the one keyed over it, and what was said of it:
keyed_wrong, again, open, or corrected (never asked).
"""


def in_turn(span: list[Kept], result: str, asked: str, border: str) -> list[tuple[Kept | None, list[Trace]]]:
    """The result that holds between two borders, and what was keyed over it;
    a bad one yields to no better word.
    """
    parts: list[list[Kept]] = [[]]
    for one in span:
        if one.key == border:
            parts.append([])
        if one.key in (result, asked):
            parts[-1].append(one)
    return [one_turn(part, result) for part in parts]


def one_turn(part: list[Kept], result: str) -> tuple[Kept | None, list[Trace]]:
    """The same within one part: results, each with what was said before it."""
    holds: Kept | None = None
    traces: list[Trace] = []
    doubted: Kept | None = None
    for place, one in enumerate(part):
        if one.key != result:
            continue
        word = part[place - 1].word if place and part[place - 1].key != result and doubted else ""
        failed = holds is not None and (
            holds.word == "fail" or (result == "fit_outcome" and holds.word != "home")
        )
        better = one.word != "fail" and (result != "fit_outcome" or one.word == "home")
        if failed and better and word != "keyed_wrong":
            doubted = one
            continue
        if holds is not None and holds.word != one.word:
            traces.append((holds, one, word or "corrected"))
        holds, doubted = one, None
    if holds is not None and doubted is not None:
        words = [one.word for one in part if one.key != result and one.n > doubted.n]
        traces.append((holds, doubted, words[-1] if words else "open"))
    return holds, traces

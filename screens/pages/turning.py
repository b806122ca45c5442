"""The page of an act at the lathe: where to go to now, large; the next two; what is set first; the bar.

Invariant: tool, length, the figure to go to and the next two, the choices and every sentence that says
that the spindle stands or the chuck key is out are on it at every size; a line holds one target, no figure is
split. What does not fit is left out sentence by sentence, and the page then says where the whole stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from bench.desk.desk import Desk
from bench.job.steps import Step, Target
from screens import pictures
from screens.figures import figures, height, scale_for, width
from screens.layout import Line, Part, beside, line, page, wrapped
from screens.look import Look
from screens.pages.frame import bottom, top
from screens.pages.parts import caution_sizes, choice_lines, old_value

NEVER_LEFT_OUT = re.compile(r"spindle (stopped|off)|chuck key|^CHECK")
PIECE = re.compile(r"(-?[\d.]+) ?([a-z%]*)")
LARGE = 2
"""Rank of the large figure: behind what is set before it, before all else."""
NEXT = 2
"""So many targets after the first have a line of their own."""
OLD_VALUE = 2 * NEXT + 1
"""Left out before any target is."""
WIDE = 76
"""From this width on the picture stands beside the words."""
SIZES = ((110, 48, 16), (0, 32, 12))
"""From which width on the picture has how many columns and rows."""
LEAST_PICTURE = 8


@dataclass
class Passage:
    """Some lines of the page, and what may stand there instead where there is more room."""

    lines: list[Line]
    larger: tuple[tuple[int, list[Line]], ...] = ()
    """(rank, lines) in the order in which they are tried, the lowest rank of the page first."""
    missed: bool = True
    """Whether the page lacks something without the first of them."""
    tight: list[Line] | None = None
    """What stands there where not even the least of the page fits."""
    dropped: int = 0
    """Where it does not fit even so: all of the highest are left out first, 0 never."""


def turning_page(desk: Desk, step: Step, look: Look, columns: int) -> list[Line]:
    """The whole page. A free line for a message is used where room is short."""
    head, foot = top(desk), bottom(desk)
    rows = desk.rows - len(head) - len(foot)
    side = picture_of(desk, step, look, rows)
    narrow = columns - len(side[0]) - 1 if side else columns
    least = taken(passages_of(desk, step, look, narrow))
    passages, left_out = as_fits(desk, step, look, (narrow, rows))
    if not (desk.message or desk.jammed) and (least > rows or not has_large(passages)):
        foot = foot[1:]
        passages, left_out = as_fits(desk, step, look, (narrow, rows + 1))
    if left_out and (len(foot) > 1 or taken(passages) <= rows):
        foot = bottom(desk, more=True)
    elif left_out:
        more = caution_sizes(step, columns, more=True)[0] or bottom(desk, more=True)[:1]
        passages[-1].lines = more
        if taken(passages) > rows + 1:
            head, passages[-1].lines = more, []
    text = [one for passage in passages for one in passage.lines]
    if side:
        text = beside(text, side[: max(rows, 0)], at=columns + 1 - len(side[0]), role="picture")
    return page(head, [Part(text)], foot, rows=desk.rows)


def as_fits(desk: Desk, step: Step, look: Look, size: tuple[int, int]) -> tuple[list[Passage], bool]:
    """The passages of the page, as large as columns and rows let them be, and whether one is left out."""
    passages = passages_of(desk, step, look, size[0])
    return passages, enlarge(passages, size[1])


def has_large(passages: Sequence[Passage]) -> bool:
    """Whether the figure to go to stands there large, or there is none that could."""
    large_ones = [one for one in passages if any(rank == LARGE and lines for rank, lines in one.larger)]
    return all(one.lines for one in large_ones)


def passages_of(desk: Desk, step: Step, look: Look, columns: int) -> list[Passage]:
    """What stands on the page, in its order."""
    return [
        Passage(wrapped(f"  {step.title}", columns, "strong", hang="  ")),
        Passage(old_value(desk, step, columns), dropped=OLD_VALUE),
        *(sentence(text, columns) for text in step.say),
        *target_passages(step.targets, look, columns, tall=4 if desk.rows < 30 else 8),
        Passage([], ((7, [line("")]),), missed=False),
        Passage(choice_lines(desk, step, columns)),
        *(sentence(text, columns, rank=4) for text in step.consequence),
        cautions(step, columns),
    ]


def taken(passages: Sequence[Passage]) -> int:
    """Rows that the passages take."""
    return sum(len(one.lines) for one in passages)


def enlarge(passages: Sequence[Passage], rows: int) -> bool:
    """Give the passages the room there is, by rank; says whether something had to be left out."""
    left_out = tightened(passages, rows)
    ranked = sorted(
        ((rank, at, lines) for at, passage in enumerate(passages) for rank, lines in passage.larger),
        key=lambda item: item[:2],
    )
    for _, at, lines in ranked:
        passage = passages[at]
        if taken(passages) - len(passage.lines) + len(lines) <= rows:
            passage.lines = lines
        else:
            left_out = left_out or (passage.missed and lines is passage.larger[0][1])
    return left_out


def tightened(passages: Sequence[Passage], rows: int) -> bool:
    """Shorten the least of the page, then leave out what may be, until it fits; says whether that was so."""
    left_out = False
    for passage in passages:
        if taken(passages) > rows and passage.tight is not None and len(passage.tight) < len(passage.lines):
            passage.lines, left_out = passage.tight, True
    for rank in sorted({one.dropped for one in passages if one.dropped}, reverse=True):
        if taken(passages) > rows:
            left_out = True
            for passage in (one for one in passages if one.dropped == rank):
                passage.lines, passage.larger = [], ()
    return left_out


def sentence(text: str, columns: int, *, rank: int = 1) -> Passage:
    """A sentence, whole or not at all."""
    role = "caution" if text.startswith("CHECK") else "ink"
    lines = wrapped(f"  {text}", columns, role, hang="    ")
    if " along: go to " in text:
        return Passage(in_a_line(text, columns, role, least=1), ((3, lines),), missed=False)
    return Passage(lines) if NEVER_LEFT_OUT.search(text) else Passage([], ((rank, lines),))


def target_passages(targets: Sequence[Target], look: Look, columns: int, *, tall: int) -> Iterator[Passage]:
    """The first targets, each with what is set before it, the first figure large; the rest as a list."""
    first = next((at for at, one in enumerate(targets) if one.figure), 0)
    shown, rest = targets[: first + 1 + NEXT], targets[first + 1 + NEXT :]
    least = 1 if len({one.words.partition(":")[0] for one in shown if one.figure}) > 1 else 2
    for at, one in enumerate(shown):
        dropped = 0 if at <= first else at - first + (0 if one.before else NEXT)
        for text in one.before:
            rank = 1 if at <= first else LARGE + 1
            yield replace(sentence(text, columns, rank=rank), dropped=dropped)
        role = "strong" if at <= first else "ink"
        whole = wrapped(f"  {one.words}", columns, role, hang="    ")
        yield Passage(
            in_a_line(one.words, columns, role, least=least),
            ((2 * least - 1, whole),),
            tight=in_a_line(one.words, columns, role, least=1),
            dropped=dropped,
        )
        if at == first:
            yield Passage([], ((LARGE, large(one.figure, look, columns, tall=tall)),), missed=False)
    if any(one.before for one in rest):
        yield from (sentence(text, columns) for one in rest for text in (*one.before, one.words))
    elif rest:
        yield Passage([], ((5, in_columns([in_list(one) for one in rest], columns)),))


def in_a_line(words: str, columns: int, role: str, *, least: int) -> list[Line]:
    """A target in one line: with fewer clauses, but so many, or without its name, where it has to be."""
    name, goes, rest = words.partition(": go to ")
    if not goes:
        return wrapped(f"  {words}", columns, role, hang="    ")
    clauses = rest.split(", ")
    shorter = [f"{name}: go to {', '.join(clauses[:many])}" for many in range(len(clauses), least - 1, -1)]
    fitting = (text for text in (words, *shorter) if len(text) + 2 <= columns)
    return wrapped(f"  {next(fitting, short(words))}", columns, role, hang="    ")


def short(words: str) -> str:
    """A target without its name: the figure, and which it is or what it makes."""
    _, goes, rest = words.partition(": go to ")
    return f"go to {', '.join(rest.split(', ')[:2])}" if goes else words


def in_list(one: Target) -> str:
    """A target among others: its figure, and what that makes where it is not the size itself."""
    makes = re.search(r"makes [^,]+", one.words)
    return f"{one.figure} {makes[0]}" if makes else one.figure


def in_columns(texts: Sequence[str], columns: int) -> list[Line]:
    """Short texts in as many columns as fit, read downwards, each whole."""
    wide = max(map(len, texts)) + 2
    across = max((columns - 7) // wide, 1)
    down = -(-len(texts) // across)
    rows = ["".join(text.ljust(wide) for text in texts[at::down]) for at in range(down)]
    return [line(f"  {'' if at else 'then':5}{row}".rstrip(), "note") for at, row in enumerate(rows)]


def large(figure: str, look: Look, columns: int, *, tall: int) -> list[Line]:
    """A figure as it is read, its numbers large and its words beside them; nothing where it does not fit."""
    pieces = PIECE.findall(figure)
    words = sum(len(word) + 3 for _, word in pieces)
    scale = min((scale_for(number, columns, tall) for number, _ in pieces), default=0)
    while scale and sum(width(number, scale=scale) for number, _ in pieces) + words > columns - 2:
        scale -= 1
    if not scale:
        return []
    rows: list[Line] = [[("  ", "entry")] for _ in range(height(scale=scale))]
    for number, word in pieces:
        drawn = figures(number, columns, height(scale=scale), look.figures)
        for at, row in enumerate(rows):
            row.append((drawn[at] if at < len(drawn) else " " * len(drawn[0]), "entry"))
            beside_it = word if at == len(drawn) - 1 else " " * len(word)
            row.append((f" {beside_it}  " if word else "  ", "note"))
    return rows


def cautions(step: Step, columns: int) -> Passage:
    """The cautions of the place: one line, all their names, or with their details where there is room."""
    least, names, full = caution_sizes(step, columns)
    return Passage(least, ((6, names), (8, full)) if least else (), missed=False)


def picture_of(desk: Desk, step: Step, look: Look, rows: int) -> list[str]:
    """The bar at the right of the words; nothing in a small window."""
    if step.picture is None or desk.columns < WIDE or rows < LEAST_PICTURE + 2:
        return []
    columns, most = next((wide, high) for least, wide, high in SIZES if desk.columns >= least)
    return pictures.drawn(step.picture, columns=columns, rows=min(most, rows - 1), style=look.style)

"""The page of an act at the lathe: where to go to now, large; the next two; what is set first; the bar.

Invariant: tool, length, the figure to go to and the next two, the choices and every sentence that says
that the spindle stands or the chuck key is out are on it at every size; a line holds one target, no figure is
split. What does not fit is left out sentence by sentence, and the page then says where the whole stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from bench.desk.desk import Desk
from bench.job.steps import Step, Target
from bench.shop.groups import assumed_words
from rules.turning.short_words import shortened
from screens import pictures
from screens.figures import figures, height, scale_for, width
from screens.layout import Line, Part, beside, line, page, wrapped
from screens.look import Look
from screens.pages.act import act_lines, rule_under
from screens.pages.frame import bottom, top
from screens.pages.further import counted, cuts, in_columns, in_list, waiting_of
from screens.pages.parts import caution_sizes, choice_lines, old_value
from screens.pages.passages import Passage, cut_short, enlarge, taken

NEVER_LEFT_OUT = re.compile(r"spindle (stopped|off)|chuck key|^CHECK")
PIECE = re.compile(r"(-?[\d.]+) ?([a-z%]*)")
LARGE = 2
"""Rank of the large figure: behind what is set before it, before all else."""
NEXT = 2
"""So many targets after the first have a line of their own."""
OLD_VALUE = 2 * NEXT + 1
RULE = OLD_VALUE + 1
"""Left out before any target is: an answer given before; which way one comes, but to a dial."""
RULE_OF_A_DIAL, LAST = -50, -100
"""Left out only where not even a page without further targets fits: from which side one comes to a dial, then
what is set first, its end first.
"""
NOW = re.compile(
    r"^(touch off|point at the face|come to every figure|Then burrs off|smooth rod|the core catches)"
    "|do not set it again"
)
"""Begins what is done now: shortened where room is short, never left out before a figure is."""
FEED = re.compile(r", [\d.]+ \w+ a turn$")
LATER = re.compile(f"{NOW.pattern}|^feed ")
"""What gives way to the large figure, in its short form or altogether."""
WIDE = 76
"""From this width on the picture stands beside the words."""
SIZES = ((100, 40, 48, 16), (110, 0, 48, 16), (0, 0, 32, 12))
"""From which width and height on the picture has how many columns and rows. Beside the column of a wide
window a page is narrower and has height to spare; in a low one of that width the cautions need the room.
"""
LEAST_PICTURE = 8


def turning_page(desk: Desk, step: Step, look: Look, columns: int) -> list[Line]:
    """The whole page. The line of a message that is free, then that of job and stage, give way to targets."""
    head, foot = rooms_for(desk, step)[0]
    side = picture_of(desk, step, look, desk.rows - len(head) - len(foot))
    lines, lacking = laid_out(desk, step, look, columns, side)
    if side and any(lacking) and (alone := laid_out(desk, step, look, columns, []))[1] < lacking:
        return alone[0]
    return lines


def laid_out(
    desk: Desk, step: Step, look: Look, columns: int, side: Sequence[str]
) -> tuple[list[Line], tuple[int, int]]:
    """The page beside a picture or without one; how many figures it lacks, and sentences it cuts short."""
    rooms = rooms_for(desk, step)
    narrow = columns - len(side[0]) - 1 if side else columns
    for head, foot in rooms:
        rows = desk.rows - len(head) - len(foot)
        passages, left_out = as_fits(desk, step, look, (narrow, rows))
        if least_of(passages_of(desk, step, look, narrow)) <= rows and (has_large(passages) or len(foot) < 2):
            break
    waiting = waiting_of(step, passages)
    if left_out and len(foot) > 1:
        foot = [counted(one, waiting) for one in bottom(desk, more=True)]
    elif left_out:
        told = caution_sizes(step, columns, more=f"; {waiting} {cuts(waiting)}" if waiting else " and more")[
            0
        ]
        more = told or [counted(one, waiting) for one in bottom(desk, more=True)[:1]]
        passages[-1].lines = more
        if taken(passages) > rows:
            head, passages[-1].lines = more, []
    text = [one for passage in passages for one in passage.lines]
    if side:
        text = beside(text, side[: max(rows, 0)], at=columns + 1 - len(side[0]), role="picture")
    return page(head, [Part(text)], foot, rows=desk.rows), (waiting, cut_short(passages))


def rooms_for(desk: Desk, step: Step) -> list[tuple[list[Line], list[Line]]]:
    """What stands above and below the page: with all, without a free message, without job and stage too
    where they warn of nothing that is assumed.
    """
    head, foot = top(desk), bottom(desk)
    if desk.message or desk.jammed:
        return [(head, foot)]
    assumed = desk.shop is not None and assumed_words(step.goes_by, desk.shop.said)
    rooms = [(head, foot), (head, foot[1:])]
    return rooms if assumed or desk.looking_back else [*rooms, ([], foot[1:])]


def least_of(passages: Sequence[Passage]) -> int:
    """Rows that the page needs for every target that it names, each as short as it can be."""
    stay = (one for one in passages if one.dropped < OLD_VALUE)
    return sum(min(len(one.lines), len(one.lines if one.tight is None else one.tight)) for one in stay)


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
    rule = rule_under(desk, act_lines(step.title, columns))
    return [
        titled(step.title, columns),
        Passage([], ((9, rule),) if rule else (), missed=False),
        Passage(old_value(desk, step, columns), dropped=OLD_VALUE),
        *(sentence(text, columns) for text in step.say),
        *target_passages(step.targets, look, columns, tall=4 if desk.rows < 30 else 8),
        Passage([], ((7, [line("")]),), missed=False),
        Passage(choice_lines(desk, step, columns)),
        *(sentence(text, columns, rank=4) for text in step.consequence),
        cautions(step, columns),
    ]


def titled(title: str, columns: int) -> Passage:
    """Operation, tool and speed; with the feed where there is room beside the large figure."""
    least, whole = (act_lines(text, columns) for text in (FEED.sub("", title), title))
    grows = ((LARGE + 1, whole),) if len(least) < len(whole) else ()
    return Passage(least if grows else whole, grows, missed=False)


def sentence(text: str, columns: int, *, rank: int = 1) -> Passage:
    """A sentence, whole or not at all."""
    role = "caution" if text.startswith("CHECK") else "ink"
    lines = wrapped(f"  {text}", columns, role, hang="    ")
    if " along: go to " in text:
        return Passage(in_a_line(text, columns, role, least=1), ((3, lines),), missed=False, told=True)
    if NEVER_LEFT_OUT.search(text):
        return Passage(lines)
    if not NOW.search(text):
        return Passage([], ((rank, lines),))
    least = wrapped(f"  {shortened(text)}", columns, role, hang="    ")
    return Passage(least, ((rank, lines),) if least != lines else (), told=True)


def target_passages(targets: Sequence[Target], look: Look, columns: int, *, tall: int) -> Iterator[Passage]:
    """The first targets, each with what is set before it, the first figure large; the rest as a list."""
    first = next((at for at, one in enumerate(targets) if one.figure), 0)
    shown, rest = targets[: first + 1 + NEXT], targets[first + 1 + NEXT :]
    least = 1 if len({one.words.partition(":")[0] for one in shown if one.figure}) > 1 else 2
    for at, one in enumerate(shown):
        dropped = 0 if at <= first else at - first + (0 if one.before else NEXT)
        for nth, text in enumerate(one.before):
            rank = 1 if at <= first and not LATER.search(text) else LARGE + 1
            yield replace(sentence(text, columns, rank=rank), dropped=dropped or goes_first(text, nth))
        role = "strong" if at <= first else "ink"
        whole = wrapped(f"  {one.words}", columns, role, hang="    ")
        yield Passage(
            in_a_line(one.words, columns, role, least=least),
            ((2 * least - 1, whole),),
            tight=in_a_line(shortened(one.words), columns, role, least=1),
            dropped=dropped,
        )
        if at == first:
            yield Passage([], ((LARGE, large(one, look, columns, tall=tall)),), missed=False)
    if any(one.before for one in rest):
        yield from (sentence(text, columns) for one in rest for text in (*one.before, one.words))
    elif rest:
        listed = in_columns([in_list(one) for one in rest], columns)
        yield from (Passage([], ((5, [one]),)) for one in listed)


def goes_first(text: str, nth: int) -> int:
    """When what is set before the first target is left out, where the page cannot hold it."""
    if text.startswith("come to every figure"):
        return RULE_OF_A_DIAL if "dial" in text else RULE
    return LAST + nth if NOW.search(text) and not NEVER_LEFT_OUT.search(text) else 0


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


def large(one: Target, look: Look, columns: int, *, tall: int) -> list[Line]:
    """What stands at the slide, its numbers large, its words and the slide beside them; nothing where it
    does not fit.
    """
    pieces = PIECE.findall(one.figure)
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
    if sum(len(text) for text, _ in rows[0]) + len(one.on) <= columns:
        rows[0].append((one.on, "note"))
    return rows


def cautions(step: Step, columns: int) -> Passage:
    """The cautions of the place: one line, all their names, or with their details where there is room."""
    least, names, full = caution_sizes(step, columns)
    return Passage(least, ((6, names), (8, full)) if least else (), missed=False)


def picture_of(desk: Desk, step: Step, look: Look, rows: int) -> list[str]:
    """The bar at the right of the words; nothing in a small window."""
    if step.picture is None or desk.columns < WIDE or rows < LEAST_PICTURE + 2:
        return []
    columns, most = next(size[2:] for size in SIZES if desk.columns >= size[0] and desk.rows >= size[1])
    return pictures.drawn(step.picture, columns=columns, rows=min(most, rows - 1), style=look.style)

"""The page before an answer is replaced, or a piece given up: what comes of it, and the ways on.

Invariant: how many, and the ways on, are in sight in every window; which they are follows, + moves on.
"""

from __future__ import annotations

from bench.desk.desk import Desk
from bench.desk.replacing import PAGE, Replacing, Sure, answers
from bench.job.stopping import counted
from screens.layout import Line, Part, clipped, line, page, scrolled, wrapped
from screens.look import Look
from screens.pages.frame import bottom, top

INDENT = "    "


def replacing(desk: Desk, look: Look) -> list[Line]:
    """What stops counting, and what to choose from."""
    about = desk.replacing
    assert about is not None
    below = bottom(desk)
    ways = [
        piece
        for number, way in enumerate(about.ways, 1)
        for piece in wrapped(
            f"  {number}  {way.text}",
            desk.columns,
            "chosen" if desk.line.text == str(number) else "ink",
            hang="     ",
        )
    ]
    tail = [*ways, line(f"  {desk.line.text or '_'}   Enter", "entry")]
    body = said(about, desk)
    heading = about.heading if isinstance(about, Sure) else "replace an answer"
    room = max(desk.rows - 1 - len(below) - len(tail), 1)
    shown, more = scrolled(body, desk.scroll, room)
    if more:
        shown[-1] = line("  ... + for more", "note")
    return page(top(desk, heading), [Part(shown), Part(tail)], below, rows=desk.rows)


KEEPS = "that is, with 2; with 1 what was made stays, and is judged by the new reading"
"""Where something would do instead of doing it all again."""


def said(about: Replacing | Sure, desk: Desk) -> list[Line]:
    """What is replaced and what stops counting: the number first, then by stage, then one by one."""
    columns = desk.columns
    if isinstance(about, Sure):
        first, *rest = about.said
        return [
            *wrapped(f"  {first}", columns, "caution"),
            *(piece for text in rest for piece in wrapped(f"  {text}", columns, hang=INDENT)),
        ]
    step = about.step
    was, new = step.in_words(about.was), step.in_words(about.new)
    verb = "stops" if len(about.lost) == 1 else "stop"
    return [
        *wrapped(f"  CHECK  {answers(len(about.lost))} {verb} counting", columns, "caution"),
        *(wrapped(f"  {KEEPS}", columns, "strong") if about.ways[0].word == "instead" else ()),
        *wrapped(f"  {new} in place of {was}:", columns, "strong", hang=INDENT),
        *wrapped(f"  {step.title}", columns, "ink", hang=INDENT),
        *(piece for text in counted(about.lost) for piece in wrapped(f"  {text}", columns, hang=INDENT)),
        line("  They are, in order:", "note"),
        *(line(clipped(f"{INDENT}{one.title}", columns), "note") for one in about.named),
        *([line(f"{INDENT}and what stands behind checks", "note")] if about.named != about.lost else []),
    ]


PAGES = {PAGE: replacing}

"""Pages that are read: why, keys, sheet, the account of where a job stood, and the findings of the gate.

Invariant: + and / move through what does not fit; nothing is cut off silently.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bench.asking.questions import STAGE as SHOP
from bench.desk.desk import Desk
from bench.desk.everything import said_of
from bench.desk.keys import KEYS, help_table
from bench.job.keys import NOTE, SHOP_NOTE
from bench.moments import to_the_minute
from rules.cautions import for_place
from rules.glossary import bench_words
from screens.layout import Line, Part, clipped, line, page, scrolled, wrapped
from screens.look import Look
from screens.pages.frame import bottom, message, top

if TYPE_CHECKING:
    from bench.job.job import Answer
    from bench.job.steps import Step, Why

LEAVING = ("Enter or / goes back   + reads on   * more", "Enter or / goes back   + reads on")
"""The keys of a page that is only read, as many as there is room for."""


def read(desk: Desk, heading: str, body: list[Line], choices: tuple[str, ...] = ()) -> list[Line]:
    """A page of text, from the line scrolled to, with what can be chosen below it, always in sight."""
    tail = chosen_from(choices, desk) if choices else []
    below = bottom(desk) if choices else leaving(desk)
    if tail and len(body) + len(tail) + 2 <= desk.rows - len(below):
        body, tail = [line(""), *body], [line(""), *tail]
    room = max(desk.rows - 1 - len(below) - len(tail), 1)
    shown, more = scrolled(body, desk.scroll, room)
    if more:
        shown[-1] = line("  ... + for more", "note")
    return page(top(desk, heading), [Part(shown), Part(tail)], below, rows=desk.rows)


def leaving(desk: Desk) -> list[Line]:
    """Message and the keys of a page that is only read."""
    keys = next(text for text in LEAVING if len(text) < desk.columns)
    return [*message(desk), line(f" {keys}".ljust(desk.columns), "key")]


def chosen_from(choices: tuple[str, ...], desk: Desk) -> list[Line]:
    """Numbered choices and the answer line."""
    lines = [
        line(
            clipped(f"  {number}  {text}", desk.columns), "chosen" if desk.line.text == str(number) else "ink"
        )
        for number, text in enumerate(choices, 1)
    ]
    return [*lines, line(f"  {desk.line.text or '_'}   Enter", "entry")]


def paragraph(text: str, desk: Desk, role: str = "ink", indent: int = 2) -> list[Line]:
    """A wrapped and indented text."""
    pad = " " * indent
    return [[(pad + spans[0][0], role)] for spans in wrapped(text, desk.columns - indent - 1, role)]


UNSAID_WHY = "It is asked because later figures rest on it."
SHOP_WHY = "Plans, pages and papers go by what stands in the shop: what is said here is written there."


def why(desk: Desk, look: Look) -> list[Line]:
    """Why a step is asked, the figures that made it, how it is done, and its cautions."""
    step = desk.step
    if step is None:
        return read(desk, "why", [line("  nothing is asked here")])
    body = [*paragraph(step.title, desk, "strong"), line("")]
    body += paragraph(step.why or (SHOP_WHY if step.stage == SHOP else UNSAID_WHY), desk)
    body += [piece for one in figures_first(step) for piece in figure_lines(one, desk)]
    page_texts = (("What to do", step.to_do), ("What follows", step.consequence), ("How", step.how))
    for heading, texts in page_texts:
        if texts:
            body += [line(""), line(f"  {heading}", "strong")]
            body += [piece for text in texts for piece in paragraph(text, desk)]
    for place in step.cautions:
        for item in for_place(place):
            body += [line(""), *paragraph(f"CAUTION  {item.title}", desk, "caution")]
            body += [piece for text in item.lines for piece in paragraph(text, desk)]
            body += paragraph(f"source: {item.source}", desk, "note")
    return read(desk, "why", body)


def figures_first(step: Step) -> tuple[Why | None, ...]:
    """The figures with a heading before them, which is None; nothing where there is none."""
    return (None, *step.figures) if step.figures else ()


def figure_lines(one: Why | None, desk: Desk) -> list[Line]:
    """A figure with how it is made, of what, and its source; or the heading of all."""
    if one is None:
        return [line(""), line("  The figures, and where each comes from", "strong")]
    return [
        line(""),
        *paragraph(one.figure, desk, "strong"),
        *paragraph(one.formula, desk, indent=4),
        *paragraph(f"from {one.inputs}", desk, "note", indent=4),
        *paragraph(f"source: {one.source}", desk, "note", indent=4),
    ]


def keys(desk: Desk, look: Look) -> list[Line]:
    """The keys, and below them the words used on the screen."""
    body: list[Line] = []
    for keypad, does, nothing, full in help_table():
        body += paragraph(f"{keypad}   {does}", desk, "strong")
        body += paragraph(f"does nothing when {nothing}; full keyboard: {full}", desk, "note", indent=10)
    body += [line(""), line("  Words", "strong")]
    body += [piece for word, means in bench_words().items() for piece in paragraph(f"{word}: {means}", desk)]
    return read(desk, "keys and words", body)


def sheet(desk: Desk, look: Look) -> list[Line]:
    """The sheet as it stands."""
    body = [piece for text in sheet_of(desk) for piece in wrapped(f" {text}", desk.columns, hang="   ")]
    return read(desk, "sheet", body)


def customer(desk: Desk, look: Look) -> list[Line]:
    """The customer's sheet, in English."""
    told = sheet_of(desk, customers=True)
    body = [piece for text in told for piece in wrapped(f" {text}", desk.columns, hang="   ")]
    return read(desk, "the customer's sheet", body)


def sheet_of(desk: Desk, *, customers: bool = False) -> tuple[str, ...]:
    """The lines of a sheet at this width."""
    from bench.sheet.customer_text import customer_lines
    from bench.sheet.data import sheet_data
    from bench.sheet.text import sheet_lines

    if desk.job is None or desk.shop is None:
        return ("There is no sheet yet.",)
    finished = desk.walk is not None and desk.walk.open is None
    shop = desk.shop
    data = sheet_data(desk.job, finished=finished, shop_name=shop.shop_name, tester_number=shop.tester_number)
    lines = customer_lines if customers else sheet_lines
    return lines(data, columns=max(desk.columns - 2, 30))


def account(desk: Desk, look: Look) -> list[Line]:
    """Where the job stood when it was left, and the ways on."""
    goes_on = desk.walk is not None and desk.walk.open is not None and desk.writable
    work = "go on" if goes_on else "the customer's sheet"
    choices = (work, "the workshop's sheet" + " as it stands" * goes_on, "the list of jobs")
    return read(desk, "where it stood", account_lines(desk), choices)


def account_lines(desk: Desk) -> list[Line]:
    """Where the job stood: what comes next, the last answer, how many are kept."""
    body: list[Line] = []
    if desk.why_read_only:
        body += [*paragraph(f"CHECK  {desk.why_read_only}", desk, "caution"), line("")]
    if desk.set_aside:
        words = f"CHECK  An unfinished last answer was set aside ({desk.set_aside} bytes)."
        body += [*paragraph(words, desk, "caution"), line("")]
    walk = desk.walk
    if walk is None or desk.job is None:
        return body
    body += [*next_lines(desk), line("")]
    last = desk.job.answers[-1] if desk.job.answers else None
    if last is not None:
        given = said_of(walk, last) if walk.asked_by(last) else unseen(desk, last)
        body += paragraph(f"Last answer, {to_the_minute(last.at)}: {given}", desk)
    kept = len(desk.job.answers)
    answers = f"{kept} answer kept" if kept == 1 else f"{kept} answers kept"
    return [
        *body,
        *paragraph(f"{answers}; {walk.seal} {walk.piece}; notes: {len(desk.job.notes)}.", desk),
    ]


def unseen(desk: Desk, answer: Answer) -> str:
    """An answer behind checks not given yet, by its stage alone; or one that does not count now."""
    from bench.stages.whole import walk

    assert desk.job is not None and desk.shop is not None
    counted = walk(desk.job, desk.shop).done
    stage = next((step.stage for step, given in counted if given is answer), "")
    return f"in the stage {stage}" if stage else "one that does not count now"


def next_lines(desk: Desk) -> list[Line]:
    """What comes next, and what is asked again."""
    walk = desk.walk
    if walk is None or walk.open is None:
        return paragraph("The job is finished.", desk, "strong")
    first = (text for text in walk.open.consequence if text.startswith("CHECK first"))
    lines = [piece for text in first for piece in paragraph(text, desk, "caution")]
    lines += paragraph(f"Next: {walk.open.title}", desk, "strong")
    if walk.open.waits_for:
        lines += paragraph(f"It waits for {walk.open.waits_for}.", desk)
    if walk.open.stage in ("cut", "verify"):
        lines += paragraph("Checks at lathe and tester are asked again in this sitting.", desk, "note")
    return lines


def damage(desk: Desk, look: Look) -> list[Line]:
    """What has to be looked at before any value is used."""
    words = (
        "This file was changed or damaged outside the program. "
        "Nothing in it is used until each point is settled. "
        "Accepting adds a line to the file; nothing in it is rewritten."
    )
    if any(finding.refused for finding in desk.findings):
        words = (
            "This file was changed outside the program, and not everything in it can be used. Leave it, "
            "correct it in an editor, and open the job again. Nothing was lost."
        )
    body = paragraph(words, desk)
    for finding in desk.findings:
        body += [line(""), *paragraph(f"CHECK  {finding.words}", desk, "caution")]
    return read(desk, "look at this", body, ("use it as it stands now", "leave it; back to the list of jobs"))


NOTES = {NOTE: "A note for the sheet", SHOP_NOTE: "A note for the workshop"}
HOW_TO_LEAVE = "Enter keeps it; Enter with nothing typed leaves it, Escape does too."


def writing(desk: Desk, look: Look) -> list[Line]:
    """Free text on a full keyboard."""
    step = desk.step if desk.at not in NOTES else None
    title = step.title if step else NOTES[desk.at]
    body = [line(""), *paragraph(title, desk, "strong"), line("")]
    body += paragraph(f"{desk.line.text}_", desk, "entry")
    body += [line(""), *paragraph(HOW_TO_LEAVE, desk, "note")]
    only_enter = frozenset(key.meaning for key in KEYS) - {"enter"}
    return page(top(desk, "in your words"), [Part(body)], bottom(desk, dead=only_enter), rows=desk.rows)


PAGES = {
    "why": why,
    "keys": keys,
    "sheet": sheet,
    "customer": customer,
    "account": account,
    "damage": damage,
    "text": writing,
}

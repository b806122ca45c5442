"""The list of jobs: digits filter by number, a size or letters by what stands in the files, Enter opens
when one job fits, 0 Enter starts a job.

Invariant: no rules are needed here.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk import copies
from bench.desk.copy_effects import CopiesFound, FindCopies
from bench.desk.desk import Desk
from bench.desk.effects import Arrival, Effect, Glance, Glanced, JobRow, Listed, OfTheList, Open, Start
from bench.desk.finding import MONTH, begins_with, by_number, is_picked, narrowed, searches, typed
from bench.desk.pages import Outcome, say
from bench.desk.sought import is_date
from bench.desk.typed import AnswerLine
from bench.file.slug import NUMBER_LIMIT, own_number

LONGEST_NUMBER = len(str(NUMBER_LIMIT - 1))
LONGEST_SEARCH = 40
AT_ONCE = 1000
"""Jobs asked for at once when the list depends on what stands in the files."""
HOW_LIKE = "Key 0 and the number of the old job, such as 0214, then Enter."
"""How a new job like an old one is begun."""
SOON_S = 0.01
"""After this the next of them are looked into."""


def type_number(line: AnswerLine, text: str) -> AnswerLine:
    """The answer line after one key on the list of jobs: a number, a size with its point, or words."""
    if line.void:
        return AnswerLine() if text in ("enter", "back") else line
    if text == "back":
        return AnswerLine(line.text[:-1])
    if text == "navigation":
        return AnswerLine(void="NumLock is off: press NumLock, then key it again")
    if text in ("enter", "previous", "next", "list"):
        return line
    letter = text.removeprefix("char:")
    if len(letter) != 1 or not (letter.isalpha() or letter in "0123456789. "):
        return AnswerLine(void="a job is found by its number, a size or words of its watch")
    if letter == "." and "." in line.text and not MONTH.fullmatch(line.text):
        return AnswerLine(void="a second point")
    typed = (line.text + letter).lstrip()
    if typed.isdecimal() and len(typed.lstrip("0")) > LONGEST_NUMBER:
        return AnswerLine(void="the number is too long")
    return AnswerLine(typed) if len(typed) <= LONGEST_SEARCH else line


def listed(desk: Desk, token: Listed) -> Desk:
    """No job is open any more: the list of jobs."""
    return replace(
        desk,
        page="jobs",
        trail=(),
        names=token.names,
        known={row.file: row for row in token.rows},
        line=AnswerLine(),
        like="",
        scroll=0,
        job=None,
        walk=None,
        head=None,
        entries=(),
        file="",
        findings=(),
        sample=False,
        at="",
        pending=None,
        then=(),
        jammed="",
        asked_shop=None,
        below=None,
    )


def first(token: Listed) -> Desk:
    """The list of jobs as it first stands."""
    before = Desk()
    return fitted(listed(before, token), before)


def number_in(name: str) -> str:
    """The job number in the name of a session file, without leading zeros."""
    digits = name.partition("-")[0].partition(".")[0]
    return digits.lstrip("0") or digits


def fitting(desk: Desk, before: Desk) -> tuple[str, ...]:
    """Names of the jobs that fit what is typed and picked, newest first.

    `before` is the desk before the last change: what fitted less of it is not gone through again.
    """
    text, shorter = sought(desk.line.text), sought(before.line.text)
    alike = (searches(text), is_date(text)) == (searches(shorter), is_date(shorter))
    same = picked(desk) == picked(before) and desk.known is before.known and alike
    narrower = same and desk.names is before.names and bool(shorter) and text.startswith(shorter)
    names = before.fits if narrower else desk.names
    if not text and not narrowed(desk):
        return desk.names
    if text.isdecimal() and not narrowed(desk):
        return by_number(names, text)
    if any(picked(desk)):
        names = tuple(name for name in names if is_picked(desk, name))
    return typed(desk, names, text) if text else tuple(names)


def sought(typed: str) -> str:
    """What is looked for: after a 0, which begins a new job, the number of one that it is like.

    >>> sought("0"), sought("0214"), sought("214"), sought("30.6")
    ('', '214', '214', '30.6')
    """
    return typed.lstrip("0") if typed.isdecimal() else typed


def picked(desk: Desk) -> tuple[str, str, str]:
    """What is picked from the list of everything."""
    return desk.stage_only, desk.result_only, desk.watch_only


def fitted(desk: Desk, before: Desk) -> Desk:
    """The desk with the names that fit brought up to date."""
    other = desk.line.text != before.line.text
    changed = (
        desk.names is not before.names
        or other
        or picked(desk) != picked(before)
        or (narrowed(desk) and desk.known is not before.known)
    )
    if not changed and before.page == "jobs":
        return desk
    return replace(desk, fits=fitting(desk, before), scroll=0 if other else desk.scroll)


def room(desk: Desk) -> int:
    """How many jobs the page can show."""
    return max(desk.rows - 7, 1)


def unknown(desk: Desk) -> tuple[Effect, ...]:
    """The effect that looks into the files that are to be shown and not known yet."""
    if desk.page != "jobs":
        return ()
    if narrowed(desk):
        wanted = [name for name in desk.names if name not in desk.known][:AT_ONCE]
    else:
        shown = desk.fits[desk.scroll : desk.scroll + room(desk)]
        wanted = [name for name in shown if name not in desk.known]
    return (Glance(tuple(wanted)),) if wanted else ()


def wanted(desk: Desk, token: Arrival) -> tuple[Effect, ...]:
    """What is looked into next on the list; nothing of what has just come again."""
    if isinstance(token, Glanced | CopiesFound):
        return ()
    return (*unknown(desk), *((FindCopies(),) if copies.looking(desk) else ()))


def came(desk: Desk, token: OfTheList) -> Outcome:
    """The list, or what was found in some of its files."""
    if isinstance(token, Listed):
        return listed(desk, token), ()
    if isinstance(token, Glanced):
        return glanced(desk, token.rows)
    return copies.found(desk, token) if isinstance(token, CopiesFound) else copies.asks(desk, token)


def looked_into(desk: Desk) -> int:
    """How many of the jobs listed are known."""
    return sum(name in desk.known for name in desk.names)


def still_looking(desk: Desk) -> bool:
    """Whether jobs are still being looked for in their files."""
    return desk.page == "jobs" and narrowed(desk) and looked_into(desk) < len(desk.names)


def glanced(desk: Desk, rows: tuple[JobRow, ...]) -> Outcome:
    """Some more jobs are known."""
    known = {**desk.known, **{row.file: row for row in rows}}
    return replace(desk, known=known), ()


def one_like(desk: Desk, number: str) -> Outcome:
    """A 0 and a number: the next 0 begins a job like that one."""
    if not number:
        return say(replace(desk, like=""), HOW_LIKE)
    begin = by_number(desk.names, number)
    found = [name for name in begin if number in (number_in(name), str(own_number(name)))]
    if len(found) != 1:
        return say(replace(desk, like=""), f"There is no job {number} that a new one could be like.")
    row = desk.known.get(found[0])
    watch = f", {row.watch}" if row is not None and row.watch else ""
    new = f"Job {desk.wanted}" if desk.wanted else "A new job"
    return say(replace(desk, like=found[0]), f"{new} like job {number}{watch}: 0 Enter starts it.")


def choose(desk: Desk) -> Outcome:
    """Enter on the list of jobs."""
    text = desk.line.text
    if text == "0":
        cleared = replace(desk, line=AnswerLine(), message="", wanted="", like="")
        return cleared, (Start(desk.wanted, desk.like),)
    if text.isdecimal() and text.startswith("0"):
        return one_like(desk, sought(text))
    desk = replace(desk, like="")
    fits, numbers = desk.fits, text.isdecimal()
    begin = [name for name in fits if begins_with(name, text)] if numbers else list(fits)
    exact = [name for name in begin if text in (number_in(name), str(own_number(name)))]
    if not exact and not numbers and still_looking(desk):
        return say(
            replace(desk, line=AnswerLine()), f"{text}: not all jobs are looked into yet; key it again"
        )
    if (opens := copies.chosen(desk, exact or begin)) is not None:
        return replace(desk, line=AnswerLine(), message="", wanted=""), (opens,)
    if len(exact or begin) == 1:
        return replace(desk, line=AnswerLine(), message="", wanted=""), (Open((exact or begin)[0]),)
    if begin:
        fit, more = ("begin with", "digits") if numbers else ("fit", "of it")
        return say(desk, f"{len(begin)} jobs {fit} {text}: key more {more}")
    if not numbers:
        return say(desk, f"No job fits {text}.")
    sized = f" {len(fits)} with that size: key it with its point." if fits else ""
    return say(replace(desk, wanted=text), f"There is no job {text}. 0 Enter starts it.{sized}")

"""Accepting an answer on a step: from the answer line to the entry that will be appended.

Invariant: nothing is accepted from an empty line; what is accepted is appended whole or stays in the line.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from bench.desk.desk import SEEN_S, Desk
from bench.desk.effects import Append
from bench.desk.hold import begun, countdown, is_shut, ran_words
from bench.desk.offering import by_another, is_taken, looks_like_mm, offered
from bench.desk.pages import PAGEFUL, Outcome, forward_question, goto, say
from bench.desk.replacing import asked_first
from bench.desk.suspicion import suspect
from bench.desk.typed import AnswerLine
from bench.job import keys
from bench.job.mask import LENGTHS, Mask
from bench.job.number import Refusal, read_number
from bench.moments import utc_text

if TYPE_CHECKING:
    from bench.job.steps import Choice, Step, Words


def mask_of(step: Step, *, hasty: bool = False) -> Mask | None:
    """The mask of the answer line on a step; None where one digit is asked.

    `hasty`: input is no terminal, so a hold may be answered by its minutes.
    """
    if step.mask is not None:
        return step.mask
    if step.readback is not None:
        return Mask(max(2, len(str(step.readback + step.readback_within))), 0, "")
    if step.kind == "timer" and step.keyed_minutes and hasty:
        return Mask(3, 0, "min")
    return None


def accept(desk: Desk) -> Outcome:
    """Enter on a step with something in the line."""
    step = desk.step
    if step is None or not desk.line.text:
        return desk, ()
    if step.kind == "number":
        return accept_number(desk, step)
    if step.kind == "safety":
        return accept_check(desk, step)
    return accept_choice(desk, step)


def keep(
    desk: Desk, step: Step, words: Words, *, message: str = "", follows: tuple[Append, ...] = ()
) -> Outcome:
    """Append an answer, then what `follows`; the line keeps what was typed until the file has it."""
    given = desk.in_force(step) if desk.looking_back else None
    if given is not None and not step.optional and given.word == words[0]:
        return forward_question(
            replace(desk, line=AnswerLine(), message="unchanged", alarm=False, conversion="")
        )
    value = words[0] if len(words) == 1 else words
    entry = Append(step.key, value)
    if (page := asked_first(desk, step, entry, message)) is not None:
        return page
    return replace(desk, pending=entry, then=follows, message=message, alarm=False, conversion=""), (entry,)


def accept_number(desk: Desk, step: Step) -> Outcome:
    """Accept a keyed number: fixed digits, physical range, conversion shown first, suspicion named."""
    mask = step.mask
    assert mask is not None
    text = desk.line.text
    if desk.offered is not None and is_taken(desk):
        return keep(replace(desk, offer=None), step, desk.offered.words)
    if step.usual and text == "1" and desk.offered is None:
        return keep(desk, step, (step.usual,))
    if soon := countdown(desk, step):
        return say(desk, soon)
    inch = desk.shop is not None and desk.shop.works_in == "inch"
    read = read_number(text, mask, inch=inch)
    earlier = earlier_in(step.asked_of, mask)
    if isinstance(read, Refusal):
        return refused(desk, step, mask, read, earlier, inch=inch)
    if (meant := looks_like_mm(text, mask, read.value)) and not step.asked_of:
        said = f"Large for a watch. {meant} mm without its point?"
        return offered(desk, (read.value_text,), said)
    first = read.converted or below_words(step, read.value)
    if first and desk.conversion != text:
        return replace(desk, conversion=text, message=f"{first}: Enter again takes it, - clears it"), ()
    doubt = suspicion(read.value, mask, earlier) if earlier else ""
    by = (step.by[0].said,) if step.by and step.by[0].name != step.read_with else ()
    return keep(desk, step, (read.value_text, *by), message=doubt)


def earlier_in(values: Words, mask: Mask) -> list[float]:
    """Earlier values in the unit of the mask."""
    from bench.job.values import number
    from rules.lengths import in_unit

    if mask.unit in LENGTHS:
        return [in_unit(number(one), mask.unit) for one in values if one.endswith(LENGTHS)]
    return [number(one) for one in values if one.endswith(f" {mask.unit}")]


def refused(
    desk: Desk, step: Step, mask: Mask, read: Refusal, earlier: list[float], *, inch: bool
) -> Outcome:
    """A number that does not fit: what it may be is said, and offered where another instrument reads so."""
    text = desk.line.text
    doubt = suspect_text(text, mask, earlier)
    why = f"{read.why}. {doubt}" if doubt else read.why
    if (other := by_another(text, step, inch=inch)) is None:
        return say(desk, why)
    by, found = other
    first = f"{read.why}. " if read.why.startswith(f"{text}? ") else ""
    return offered(desk, (found.value_text, by.said), f"{text}: read {by.said}?", first=first)


def suspicion(value: float, mask: Mask, earlier: list[float]) -> str:
    """What a number may have been meant to be, held against earlier ones in the unit of the mask."""
    if mask.unit not in LENGTHS:
        return suspect(value, earlier, mask.low, mask.high)
    from rules.lengths import in_unit
    from rules.measuring.reading import DIAMETERS_AGREE_MM

    agree = in_unit(DIAMETERS_AGREE_MM, mask.unit)
    return suspect(value, earlier, mask.low, mask.high, decimals=mask.decimals, agree=agree, unit=mask.unit)


def below_words(step: Step, value: float) -> str:
    """What a small number means, where that is said before it is taken; else empty."""
    return step.below[1] if step.below is not None and value < step.below[0] else ""


def suspect_text(text: str, mask: Mask, earlier: list[float]) -> str:
    """What a number that was refused may have been meant to be, in words; empty where nothing fits."""
    try:
        value = float(mask.pointed(text.replace(",", ".")))
    except ValueError:
        return ""
    return suspicion(value, mask, earlier)


def accept_choice(desk: Desk, step: Step) -> Outcome:
    """Accept a numbered choice."""
    text = desk.line.text
    if desk.hasty and step.kind == "timer" and step.keyed_minutes and text != "1":
        return accept_minutes(desk, step)
    index = int(text) - 1 if text.isdigit() else -1
    if not 0 <= index < PAGEFUL or desk.offset + index >= len(step.choices):
        return say(desk, f"there is no choice {text}")
    choice = step.choices[desk.offset + index]
    if is_shut(desk, step, index + desk.offset):
        return say(desk, f"the hold is still to run. {countdown(desk, step)}")
    if choice.goto:
        return goto(desk, choice.goto)
    given = choice_words(choice, desk.wall)
    if step.kind == "timer" and choice.stamp:
        desk = begun(desk, given[1])
    follows = tuple(Append(key, word) for key, word in choice.follows)
    return keep(desk, step, (*given, *ran_words(desk, step)), follows=follows)


def choice_words(choice: Choice, wall: str) -> Words:
    """What the file keeps of a choice: its word, its moment where that matters, what was decided with it."""
    stamp = (utc_text(wall),) if choice.stamp else ()
    return (choice.word, *stamp, *choice.with_it)


def accept_minutes(desk: Desk, step: Step) -> Outcome:
    """A hold answered by minutes keyed, where input is no terminal."""
    minutes = int(desk.line.text) if desk.line.text.isdigit() else 0
    if not 1 <= minutes <= 999:
        return say(desk, "key the minutes held, 2 to 999, or 1 to start the clock")
    return keep(desk, step, ("keyed", utc_text(desk.wall), f"{minutes} min"))


def accept_check(desk: Desk, step: Step) -> Outcome:
    """A check: the number read off, or the number dealt to the state that was found."""
    unseen = desk.painted != desk.asked or desk.now - desk.painted_at < SEEN_S
    if unseen and not desk.hasty:
        return say(desk, "too quick to have been read: look, then key it")
    text = desk.line.text
    if step.readback is not None:
        if text.isdigit() and abs(int(text) - step.readback) <= step.readback_within:
            return keep(desk, step, ("right", f"read {text}", *step.decided))
        large = text.isdigit() and int(text) > step.readback
        return slipped(desk, step, f"read {text}", said_wrong(step, text, large=large))
    index = int(text) - 1 if text.isdigit() else -1
    if not 0 <= index < len(desk.dealt):
        return say(desk, f"there is no choice {text}")
    place = desk.dealt[index]
    if place == 0:
        return keep(desk, step, ("right", step.choices[0].word, *step.decided))
    given = step.choices[place]
    return slipped(desk, step, given.word, said_wrong(step, given.text))


def said_wrong(step: Step, given: str, *, large: bool = False) -> str:
    """What is wrong with an answer to a check, in words."""
    if not step.wrong:
        return "That is not how it should be. Put it right; the checks start again."
    return step.wrong[-1 if large else 0].replace("{given}", given)


def slipped(desk: Desk, step: Step, what: str, words: str) -> Outcome:
    """A wrong answer to a check is kept, and the list of checks starts again with new numbers."""
    entry = Append(slip_key(step), ("wrong", step.key, what))
    return replace(desk, pending=entry, then=(), message=words, alarm=True, dealt=()), (entry,)


def slip_key(step: Step) -> str:
    """The key under which wrong answers of this list of checks are kept; the checks rest on it."""
    return next((key for key in step.rests_on if keys.is_slip(key)), keys.CHECK_SLIP)

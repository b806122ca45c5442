"""What a step reads of an answer that was changed in an editor: comma, capitals and a missing blank are taken
as they are meant, anything that is not certain is refused with what is expected.

Invariant: the step itself says what it reads: its mask, its choices, what is kept with them.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.job.kept import TOGETHER, Misfit, folded, named_word, one_of, parted, squashed, with_unit
from bench.job.mask import LENGTHS, Mask
from bench.job.number import INCH_UNITS, Refusal, read_number
from bench.job.standing import BEGINS
from bench.job.steps import Choice, Step, Words
from bench.moments import moment_of, utc_text

RIGHT = "right"
"""First word of a check that was answered as it should be."""
KEYED = "keyed"
"""First word of a hold that was answered by its minutes."""
OTHER_LENGTH = {"mm": "inches with the unit in", "in": "mm with the unit mm"}
DATE = "a time such as 2026-03-02T09:00:00+00:00"


def read_back(step: Step, words: Words, *, inch: bool = False) -> Words:
    """The words of an answer as the step reads them; raises Misfit with what is expected.

    `inch`: the shop works in inch, so a length without a unit is not certain.
    """
    if not words:
        raise Misfit("a value")
    if step.kind in ("text", "mark"):
        return words
    if step.kind == "number":
        return _read(step, words, inch=inch)
    if step.kind == "safety":
        beside = (*step.decided, *(choice.word for choice in step.choices[:1]))
        return (one_of(words[0], (RIGHT,)), *_kept(words[1:], beside, free=True))
    return _chosen(step, words)


def reads(step: Step, words: Words) -> bool:
    """Whether an answer says what the step asks, to the letter."""
    try:
        return read_back(step, words, inch=True) == words
    except Misfit:
        return False


def _read(step: Step, words: Words, *, inch: bool) -> Words:
    """A number, and the instrument that it was read with where that is named."""
    named = [one for one in step.by for word in words[1:] if folded(word) == folded(one.said)]
    rest = [word for word in words[1:] if not named or folded(word) != folded(named[0].said)]
    mask = named[0].mask if named else step.mask
    assert mask is not None
    return (_number(step, mask, words[0], inch=inch), *(one.said for one in named[:1]), *_only_standing(rest))


def _number(step: Step, mask: Mask, text: str, *, inch: bool) -> str:
    if step.usual and folded(text) == folded(step.usual):
        return step.usual
    expected = _expected(step, mask)
    found = parted(text)
    if found is None or (mask.decimals and "." not in found[0]):
        raise Misfit(expected)
    figure, unit = found
    own = mask.unit.casefold()
    other = "in" if unit.casefold() in INCH_UNITS else unit.casefold()
    if unit and other != own and not (own in LENGTHS and other in LENGTHS):
        raise Misfit(expected)
    if not unit and own in LENGTHS and (inch or own == "in"):
        raise Misfit(f"{expected}, or {OTHER_LENGTH[own]}")
    read = read_number(f"{figure} {other}" if other != own and unit else figure, mask, inch=inch)
    if isinstance(read, Refusal):
        raise Misfit(expected)
    return read.value_text


def _expected(step: Step, mask: Mask) -> str:
    """What a number step reads, such as __.__ mm from 10 to 60."""
    unit = f" {mask.unit}" if mask.unit else ""
    limits = f" from {mask.low:g} to {mask.high:g}" if mask.high < float("inf") else ""
    return f"{mask.shown}{unit}{limits}" + (f", or {step.usual}" if step.usual else "")


def _only_standing(words: Sequence[str]) -> Words:
    standing = [_standing(word) for word in words]
    if None in standing:
        raise Misfit("one value, with nothing behind it")
    return tuple(word for word in standing if word is not None)


def _standing(word: str) -> str | None:
    """The word that says where a job stands, blanks made plain; None for any other."""
    plain = " ".join(word.split())
    return plain if plain.startswith(BEGINS) else None


def _chosen(step: Step, words: Words) -> Words:
    offered = [choice for choice in step.choices if not choice.goto]
    if step.kind == "timer" and step.keyed_minutes:
        offered.append(Choice(KEYED, "", with_it=("1 min",), stamp=True))
    by_text = [choice.word for choice in offered if choice.text and folded(choice.text) == folded(words[0])]
    usual = (step.usual,) if step.usual and step.usual not in {one.word for one in offered} else ()
    word = by_text[0] if by_text else one_of(words[0], (*(choice.word for choice in offered), *usual))
    alike = [choice for choice in offered if choice.word == word] or [Choice(word, "")]
    for choice in alike[:-1]:
        try:
            return (word, *_behind(step, choice, words[1:]))
        except Misfit:
            continue  # two choices may be kept as one word: with readings, and without
    return (word, *_behind(step, alike[-1], words[1:]))


def _behind(step: Step, choice: Choice, words: Words) -> Words:
    """What is kept behind the word of a choice."""
    stamp: Words = ()
    if choice.stamp:
        stamp, words = (_moment(words[0] if words else ""),), words[1:]
    rest = _kept(words, choice.with_it, free=step.kind == "action")
    if step.kind == "choice" and not choice.stamp:
        _as_chosen(rest, choice)
    return (*stamp, *rest)


def _moment(text: str) -> str:
    plain = text.strip().upper().replace(" ", "T", 1)
    if moment_of(plain) is None:
        raise Misfit(DATE)
    try:
        return utc_text(plain)
    except (ValueError, OverflowError) as why:
        raise Misfit(DATE) from why


def _kept(words: Sequence[str], template: Words, *, free: bool) -> Words:
    """Further words against what is kept with the choice; `free`: an instruction may stand among them."""
    bare = [found[1] for one in template if (found := parted(one)) is not None]
    read: list[str] = []
    for word in words:
        same = next((one for one in template if squashed(one) == squashed(word)), None)
        if (plain := same or _standing(word)) is not None:
            read.append(plain)
        elif (named := named_word(word)) is not None:
            read.append(named)
        elif bare and parted(word) is not None:
            read.append(with_unit(word, bare[0]))
        elif (like := _of_that_name(word, template)) is not None:
            read.append(like)
        elif free:
            read.append(word)
        else:
            raise Misfit(f"nothing of the kind of {word!r} behind it")
    _complete(read, template, bare)
    return tuple(read)


def _of_that_name(word: str, template: Words) -> str | None:
    """A word whose name only its own step knows; None where the step keeps none of that name."""
    name, _, said = word.strip().partition(" ")
    like = next((one for one in template if " " in one and one.partition(" ")[0] == name.casefold()), None)
    if like is None:
        return None
    known = parted(like.partition(" ")[2])
    return word if known is None else f"{name.casefold()} {with_unit(said, known[1])}"


def _complete(read: Sequence[str], template: Words, bare: Sequence[str]) -> None:
    there, asked = ({word.partition(" ")[0] for word in words} for words in (read, template))
    needed = [name for first, names in TOGETHER.items() if first in asked | there for name in names]
    missing = [name for name in needed if name not in there]
    if missing:
        raise Misfit(f"{', '.join(missing)} behind it as well")
    if bare and not any(parted(word) is not None for word in read):
        raise Misfit(f"a number in {bare[0]} behind it as well")


def _as_chosen(read: Words, choice: Choice) -> None:
    """A bare figure kept with a choice is that of the choice."""
    figures = [one for one in choice.with_it if parted(one) is not None]
    said = [one for one in read if parted(one) is not None]
    if said != figures:
        raise Misfit(f"{choice.word} together with {', '.join(figures) or 'no figure'}")

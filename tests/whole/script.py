"""A script of a job, and the hand that types it:
by the key of the step, into the desk, plain lines or the pilot.

A script is pairs (key, answer) in the order of the job, or a mapping where the order says nothing. What it
does not name is answered as `ordinary` says, and an optional step keeps its usual value, so a new question
with a usual value changes no script. A pair whose key is never asked is an error.

An answer is the word of a choice; what is typed on a number, a timer or a text; "usual"; "right" or "wrong"
on a check. Three keys are no steps: ("job", number) on the list of jobs, ("@", minutes) lets time go by,
("replacing", way) on the page before an answer is replaced, "replace" where nothing is said.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Protocol

from bench.desk.desk import Desk
from bench.desk.entries import NUMBERS
from bench.desk.pages import PAGEFUL, number_at
from bench.job import further
from bench.job.steps import Step
from tests.whole.ordinary import AMID, ORDINARY

Pair = tuple[str, str]
Script = Sequence[Pair] | Mapping[str, str]
MOVES = ("*", "/", "+")
"""Lines that are a key alone, without Enter."""
MOST_LINES = 600


class Typist(Protocol):
    """Who says line by line what is typed next."""

    def line(self, desk: Desk) -> str | None:
        """The next line on this desk: text for Enter, a key of MOVES, or @ and minutes; None at the end."""


class Hand:
    """Types a script from wherever the desk stands until a step is asked, or until nothing is left to do."""

    def __init__(self, script: Script = (), *, until: str = "") -> None:
        self._ordered = not isinstance(script, Mapping)
        self._left: list[Pair] = list(script.items() if isinstance(script, Mapping) else script)
        self._until = until
        self._begun = False
        self._lines = 0
        self._said = ""
        self._on: tuple[object, ...] = ()

    def line(self, desk: Desk) -> str | None:
        """The next line."""
        assert not self._stands_still(desk), f"not taken: {self._said!r} on {self._on[0]}: {desk.message}"
        asked = desk.step.key if desk.page == "step" and desk.step is not None else ""
        if asked and asked == self._until and not self._wanted(desk):
            return None
        if self._is_over(desk):
            assert not self._until, f"{self._until} is never asked"
            assert not self._left, f"never asked: {', '.join(key for key, _ in self._left)}"
            return None
        self._lines += 1
        assert self._lines < MOST_LINES, f"no end of it: {self._said!r} on {self._on}"
        self._on = place_of(desk)
        self._said = self._next(desk)
        return self._said

    def _stands_still(self, desk: Desk) -> bool:
        """Whether the line before changed nothing, though it was one to be taken."""
        return bool(self._said) and not self._said.startswith("@") and self._on == place_of(desk)

    def _is_over(self, desk: Desk) -> bool:
        left = desk.page == "jobs" and self._begun and not self._job_is_next and not desk.wanted
        return left or desk.page in ("sheet", "left") or (desk.walk is not None and desk.walk.open is None)

    @property
    def _job_is_next(self) -> bool:
        return bool(self._left) and self._left[0][0] == "job"

    def _next(self, desk: Desk) -> str:
        if self._left and self._left[0][0] == "@":
            return f"@{self._left.pop(0)[1]}"
        if desk.page == "jobs":
            self._begun = True
            return self._left.pop(0)[1] if self._job_is_next else "0"
        if desk.page == "account":
            return "1"
        if desk.page == "list":
            return str(NUMBERS["usual"])
        if desk.page == "pick":
            return picked(desk, self._wanted(desk))
        if desk.page == "text":
            return self._left.pop(self._place(desk.at))[1]
        if desk.page == "replacing":
            return self._replacing(desk)
        assert desk.page == "step" and desk.step is not None, f"nothing is asked on the page {desk.page}"
        return self._on_step(desk, desk.step)

    def _replacing(self, desk: Desk) -> str:
        """Replaced all the same, where the script does not choose another way."""
        assert desk.replacing is not None
        place = self._place("replacing")
        wanted = self._left.pop(place)[1] if place >= 0 else "replace"
        return numbered([way.word for way in desk.replacing.ways], wanted)

    def _on_step(self, desk: Desk, step: Step) -> str:
        place = self._place(step.key)
        if place < 0:
            return "*" if self._wanted(desk) else ordinary(desk)
        text = typed(desk, self._left[place][1])
        if text not in MOVES:
            self._left.pop(place)
        return text

    def _place(self, key: str) -> int:
        """Where the pair for a key stands that is due now; -1 where none is."""
        due = self._left[:1] if self._ordered else self._left
        return next((place for place, pair in enumerate(due) if pair[0] == key), -1)

    def _wanted(self, desk: Desk) -> str:
        """The optional step that is due to be changed from the list; empty where none is."""
        offered = {step.key for step in desk.walk.optional} if desk.walk is not None else set()
        due = self._left[:1] if self._ordered else self._left
        return next((key for key, _ in due if key in offered), "")


def place_of(desk: Desk) -> tuple[object, ...]:
    """What changes on a desk when a line is taken."""
    step = desk.step.key if desk.page == "step" and desk.step is not None else desk.page
    return step, desk.at, len(desk.entries), desk.offset, desk.wanted, desk.picks, desk.job is None


class Back:
    """Goes back to an earlier step."""

    def __init__(self, key: str) -> None:
        self._key = key

    def line(self, desk: Desk) -> str | None:
        """The key that goes back, until the step stands there."""
        assert desk.step is not None
        return None if desk.step.key == self._key else "/"


class Recorder:
    """Writes down what another types."""

    def __init__(self, hand: Typist) -> None:
        self._hand = hand
        self.lines: list[str] = []

    def line(self, desk: Desk) -> str | None:
        """The next line of the other."""
        text = self._hand.line(desk)
        self.lines += [text] if text is not None else []
        return text


def each_line(typing: Iterable[Typist | str], desk: Callable[[], Desk]) -> Iterator[str]:
    """Lines and typists one after another as lines, each made from the desk
    as it stands when it is wanted.
    """
    for one in typing:
        if isinstance(one, str):
            yield one
            continue
        while (text := one.line(desk())) is not None:
            yield text


def numbered(words: Sequence[str], wanted: str, offset: int = 0) -> str:
    """The number of a word in a long list whose entries from `offset` are shown, or + for its next page."""
    assert wanted in words, f"{wanted} is not among {', '.join(words)}"
    place = words.index(wanted) - offset
    return str(place + 1) if 0 <= place < PAGEFUL else "+"


def picked(desk: Desk, key: str) -> str:
    """The number of what is to be picked on a list of any length."""
    keys = [one for one, _ in desk.picks]
    assert key in keys, f"{key} is not among {', '.join(keys)}"
    return str(number_at(keys.index(key)))


def typed(desk: Desk, answer: str) -> str:
    """What is typed for an answer to the step on the screen."""
    step = desk.step
    assert step is not None
    if answer == "usual" and step.usual and step.kind == "number":
        return "1"
    if step.kind == "safety":
        return check(desk, step, answer)
    if step.kind in ("number", "text") or (step.kind == "timer" and answer.isdigit()):
        return answer
    return numbered([choice.word for choice in step.choices], answer, desk.offset)


def check(desk: Desk, step: Step, answer: str) -> str:
    """What is typed on a check for "right" or "wrong"; another text as it stands."""
    if answer not in ("right", "wrong"):
        return answer
    if step.readback is not None:
        return str(step.readback if answer == "right" else step.readback + step.readback_within + 1)
    return str(desk.dealt.index(0 if answer == "right" else 1) + 1)


def as_shown(step: Step, text: str) -> str:
    """A length in mm as the instrument in hand shows it."""
    mask = step.mask
    assert mask is not None
    shown = float(text) / (25.4 if mask.unit == "in" else 1.0)
    return text if mask.unit == "mm" and mask.decimals == 2 else f"{shown:.{mask.decimals}f}"


def ordinary(desk: Desk) -> str:
    """What is typed where a script says nothing:
    the table, a right check, the target or usual value of a number, the first choice.

    A number that has none of these belongs into the table.
    """
    step = desk.step
    assert step is not None
    known = further.theirs(further.number_of(step.key), step.key)
    if known in ORDINARY:
        return as_shown(step, typed(desk, ORDINARY[known]))
    if step.kind == "safety":
        return typed(desk, "right")
    if known in AMID and not step.usual and (mask := step.mask) is not None:
        return f"{(mask.low + mask.high) / 2.0:.{mask.decimals}f}"
    target = step.gauge.target if step.gauge is not None else None
    if step.kind == "number" and not step.optional and (target is not None or not step.usual):
        assert step.mask is not None
        assert target is not None, f"no ordinary answer to {step.key}"
        return f"{target:.{step.mask.decimals}f}"
    return "1"

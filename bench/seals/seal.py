"""What a kind of seal brings: how it is measured, sized, made and put in, and what the papers say of it.

Invariant: route, sheet, slip and plan ask the seal and never which kind it is.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from bench.job import keys
from bench.job.as_keyed import in_a_line
from bench.job.asking import Stage
from bench.job.corrections import Kind, outcome
from bench.job.endings import Endings, Reasons
from bench.job.in_drawer import InDrawer, nothing_lies
from bench.job.in_words import RESULTS
from bench.job.job import Answer, Job, newest_of
from bench.job.past import PastRing
from bench.job.statement import Said, Statement
from bench.job.steps import Step, Words
from bench.job.stopping import Instead
from bench.stages.again import Again
from rules.turning import operations

if TYPE_CHECKING:
    from bench.shop.shop import Shop
    from rules.turning.passes import Plan

SheetData = dict[str, Any]
"""The sheet of a job as data, see `bench.sheet.data`."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """A seal that is in its place."""

    since: str
    """When it was put in, UTC text."""


@dataclass(frozen=True, slots=True)
class Section:
    """One heading of the sheet with its sentences."""

    heading: str
    sentences: tuple[str, ...]
    drawn: bool = False
    """The drawing of the seal belongs under the heading."""
    of: int = 1
    """Which seal of the job it is about."""


def readings_section(
    readings: Sequence[Mapping[str, Any]], names: Mapping[str, str], *, name: str, several: bool
) -> Section:
    """Every reading as it was keyed, with the seal it was of where there were several."""
    lines = []
    for one in readings:
        text = f"{names[one['what']]}: {in_a_line(one)}."
        lines.append(f"{name} {one['attempt']}, {text}" if several else f"{text[:1].upper()}{text[1:]}")
    return Section("Readings as they were keyed", tuple(lines))


REFUSED = "off_its_band"
"""Of one that was not put in, since it did not meet its needs as it was measured."""


def how_it_went(span: Sequence[Answer], fitting: Kind, *, spoiled: str, off: str, over: bool) -> str | None:
    """How one of a job went, by the keys of giving it up and of finding it off its band; `over`: another was
    begun after it. None where it was not put in.
    """
    if put := outcome(span, fitting):
        return put.word
    if over and newest_of(span, spoiled):
        return "spoiled"
    refused = newest_of(span, off)
    return REFUSED if over and refused and refused.word != "use" else None


def last_test(attempt: Mapping[str, Any]) -> str:
    """How the last test of one before the present one ended; empty where none was made."""
    if not attempt["tests"]:
        return ""
    test = attempt["tests"][-1]
    return (
        f"; last test, {keys.BY_NAME[test['sitting']].title}: {RESULTS.get(test['result'], test['result'])}"
    )


Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Leader:
    """Words with an arrow from them to a point of a drawing."""

    point: Point
    """Where the arrow points, mm."""
    away: Point
    """Where the words stand from there, in heights of their type; to the right where x is positive."""
    words: Said


@dataclass(frozen=True, slots=True)
class Drawing:
    """A section with its dimensions: mm from the upper left corner, y downwards."""

    of: Said
    """What is drawn, said beside the scale."""
    outline: tuple[Point, ...]
    across: Said
    """The dimension of its width, with what it is of."""
    upright: Said
    """The dimension of its height."""
    leaders: tuple[Leader, ...] = ()
    above: Said = ""
    """What lies above it."""
    made_for: tuple[str, ...] = ()
    """The sizes that it was made for, a sentence each."""

    @property
    def wide_mm(self) -> float:
        """Width of the outline."""
        return max(x for x, _ in self.outline)

    @property
    def high_mm(self) -> float:
        """Height of the outline."""
        return max(y for _, y in self.outline)


def nothing_else(_job: Job, _shop: Shop, _key: str, _value: str) -> tuple[Instead, ...]:
    """Where nothing would do instead."""
    return ()


NOT_PROVED = (
    "That it seals by its size alone is not proved, "
    "because measuring is not fine enough to tell: only a test can show it."
)
"""What the customer is told where sizes cannot decide."""


def glass_gasket(data: SheetData) -> Statement:
    """The title of a paper about a seal of the glass."""
    return Statement("job", "Glass gasket, job {job}", {"job": data["job"]})


def of_the_glass(_job: Job) -> str:
    """A seal between case and glass."""
    return "glass"


def nothing_recorded(_data: SheetData) -> tuple[Section, ...]:
    """Where nothing more is kept for the workshop."""
    return ()


def nothing_finished(_job: Job) -> tuple[PastRing, ...]:
    """Where nothing is learned from."""
    return ()


def agreed(_answer: Answer, _before: Sequence[Answer]) -> Iterator[str]:
    """Where nothing is held against each other."""
    return iter(())


def nothing_alike(_shop: Shop) -> tuple[Step, ...]:
    """Where nothing is taken over."""
    return ()


def made_here(_job: Job) -> bool:
    """Where every seal is made in this workshop."""
    return False


@dataclass(frozen=True, slots=True)
class Seal:
    """A kind of seal. A stage gives None where the job ends or begins another one."""

    word: str
    """What the file keeps."""
    name: str
    """What a person calls it."""
    short: str
    """The same in one word."""
    accepted: str
    """Key of the answer by which one is accepted; from then on it may be spoiled."""
    again: Again
    """How another one is begun, and what it goes by measured again."""
    endings: Endings
    """How its job may end without the watch handed back as tested."""
    measured: Callable[[Job, Shop], Stage[Any]]
    """Seat and counterpart measured."""
    sized: Callable[[Job, Shop, Any], Stage[Any]]
    """Proposed from that and accepted."""
    made: Callable[[Job, Shop, Any], Stage[Any]]
    """Turned, cut or taken from stock."""
    fitted: Callable[[Job, Shop, Any], Stage[Fitted | None]]
    """Measured as made and put in."""
    fitting: Kind
    """How it is put in: a result whose first word is `home` says so, its second word since when."""
    data: Callable[[Job], SheetData]
    """Its own keys of the sheet's data: `attempts` and `made_by`, and what its sections say."""
    sections: Callable[[SheetData], tuple[Section, ...]]
    """What the sheet says of it."""
    for_customer: Callable[[SheetData], tuple[Statement, ...]]
    """What the customer is told of it: made and fitted, measured sizes told apart from planned ones."""
    in_one_line: Callable[[SheetData], Statement | None]
    """What the slip says of it under the drawing; None while none is accepted."""
    drawing: Callable[[SheetData], Drawing | None]
    """Its section with dimensions; None while it is not decided."""
    outcomes: Mapping[str, str]
    """How putting it in went, by the word kept, for the sheet."""
    plan: Callable[[Job, Shop], tuple[tuple[Plan, Drawing] | None, str]]
    """Its turning plan and the section with its limits, or why there is none."""
    titled: Callable[[SheetData], Statement] = glass_gasket
    """What the customer's paper is about."""
    joint: Callable[[Job], str] = of_the_glass
    """Which joint of the watch it closes, a word of `rules.testing.hunt`."""
    closes: Callable[[Job], str] = of_the_glass
    """Which seal of the watch it is, as `bench.job.of_each_seal` names them."""
    place: str = ""
    """Key of the question where it lies; empty where it always closes the same."""
    lies: Mapping[str, str] = field(default_factory=lambda: {"": "glass"})
    """By the answer to that: which seal of the watch it then is."""
    leaked: Step | None = None
    """What is asked before another one is made because its joint leaked; None where nothing is."""
    reasons: Reasons = field(default_factory=dict)
    """What its job may be closed for."""
    recorded: Callable[[SheetData], tuple[Section, ...]] = nothing_recorded
    """What the workshop's sheet says besides of readings, tools and offsets."""
    instead: Callable[[Job, Shop, str, str], tuple[Instead, ...]] = nothing_else
    """What would do instead of replacing the answer with a key by another value."""
    past: Callable[[Job], tuple[PastRing, ...]] = nothing_finished
    """The ones of a job as they came out, for those that learn from them."""
    in_drawer: Callable[[Job], InDrawer] = nothing_lies
    """What a job leaves in the drawer of the shop, and what it took out."""
    expected: Callable[[Answer, Sequence[Answer]], Iterator[str]] = agreed
    """What is expected of a changed answer that contradicts itself or what stands before it."""
    made_by: Words = (operations.PART,)
    """Keys of the acts by which one is made in this workshop."""
    alike: Callable[[Shop], tuple[Step, ...]] = nothing_alike
    """What a job begun after another one takes over from it: steps with choices, never a reading."""
    bought: Callable[[Job], bool] = made_here
    """Whether the one in hand comes from elsewhere."""

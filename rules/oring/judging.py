"""One O-ring in its groove, judged: stretch, squeeze, fill, what it breaks, its chance, the cords that work.

Invariant: the same question and ring give the same judgement, whatever else is to be had.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from rules.checks import OutOfRange
from rules.oring.fitted import Extremes, InGroove, as_expected, at_worst
from rules.oring.housing import FEMALE, Housing, Length, Oring
from rules.oring.needs import (
    FILLED,
    LASTS_TO,
    MOST_FILL,
    SPENT,
    STRETCH,
    OneGroove,
    ageing_of,
    broken,
    chance,
    cord_ends,
)
from rules.tables import Rubber, rubbers


@dataclass(frozen=True, slots=True, kw_only=True)
class OringQuestion:
    """What is asked of the choosing."""

    housing: Housing
    rubber: str
    """Key of the table."""
    in_hand: Oring | None = None
    """A ring that is there, as it was measured; None: one from stock is proposed."""
    cord_step_mm: float = 0.05
    """Step in which cords are to be had, 0.05 or 0.10."""

    @property
    def of(self) -> Rubber:
        """Its rubber; raises OutOfRange where what is needed of it is not known."""
        found = rubbers().get(self.rubber)
        if found is None or found.set_part is None or found.cte_per_k is None:
            raise OutOfRange(f"material: {self.rubber} is no rubber known here; choose another from the list")
        return found


@dataclass(frozen=True, slots=True)
class CordWindow:
    """The cords that meet every need with this inside diameter, mm, and what binds at each end."""

    low_mm: float
    high_mm: float
    binds_low: str
    binds_high: str


@dataclass(frozen=True, slots=True)
class OtherSize:
    """Another size from stock."""

    ring: Oring
    chance: float


@dataclass(frozen=True, slots=True)
class OringSizing:
    """A chosen ring and what follows."""

    question: OringQuestion
    ring: Oring
    state: InGroove
    worst: Extremes
    broken: tuple[str, ...]
    chance: float
    window: CordWindow | None
    others: tuple[OtherSize, ...]
    """What to try where this one is not to be had, the most likely first."""
    help: tuple[str, ...]

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is to be looked at before it is taken."""
        long = self.state.stretch > LASTS_TO + 1e-9
        spent = self.worst.least_later_cold <= 0.0 and SPENT not in self.broken
        said = (
            (f"stretched by {100 * self.state.stretch:.0f} %: such a ring ages sooner", long),
            ("at worst tolerances no squeeze is left after years, in the cold", spent),
        )
        at_worst_only = FILLED in self.broken and self.state.fill <= MOST_FILL
        broken_ = (
            f"{name} at worst tolerances" if name == FILLED and at_worst_only else name
            for name in self.broken
        )
        return (*broken_, *(words for words, is_so in said if is_so))


def judged(question: OringQuestion, ring: Oring, among: int | None = None) -> OringSizing:
    """How one ring fares there; `among`: so few points where it is only compared."""
    housing, rubber = question.housing, question.of
    ageing = ageing_of(rubber)
    state, worst = as_expected(ring, housing, ageing), at_worst(ring, housing, ageing)
    missed = broken(housing, state, most_fill=worst.most_fill)
    given = (housing, ring, rubber)
    likely = chance(*given) if among is None else chance(*given, among)
    return OringSizing(question, ring, state, worst, missed, likely, None, (), ())


def window(question: OringQuestion, ring: Oring) -> CordWindow | None:
    """The cords that meet every need with this inside diameter, groove and set as they are expected."""
    housing, ageing = question.housing, ageing_of(question.of)
    at = (housing.inner.mm, housing.outer.mm, housing.other.mm)
    low, high = cord_ends(housing, OneGroove(ring.inside.mm, at, ageing))
    if low > high:
        return None

    def missed(cord_mm: float) -> str:
        other = replace(ring, cord=Length(mm=cord_mm))
        return (broken(housing, as_expected(other, housing, ageing)) or ("",))[0]

    return CordWindow(low, high, missed(low - 1e-4), missed(high + 1e-4))


def wanted_inside_mm(housing: Housing, cord_mm: float) -> float:
    """The inside diameter that lies in the middle of what its groove stretches it by."""
    short, long = STRETCH[housing.lies]
    fits = housing.rests_on_mm / (1.0 + (short + min(long, LASTS_TO)) / 2.0)
    return fits - 2.0 * cord_mm if housing.lies == FEMALE else fits

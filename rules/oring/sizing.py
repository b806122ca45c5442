"""An O-ring chosen for a groove: the stock size most likely to seal, what binds, what else would do.

Invariant: the same question gives the same ring; one that breaks a need is proposed all the same.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from rules.checks import OutOfRange, to_places
from rules.oring.fitted import Extremes, Fitted, as_expected, at_worst
from rules.oring.housing import FEMALE, Housing, Length, Oring
from rules.oring.needs import (
    FEW,
    FILLED,
    LASTS_TO,
    MOST_FILL,
    SPENT,
    STRETCH,
    Place,
    ageing_of,
    broken,
    chance,
    cord_ends,
    squeeze_ends,
)
from rules.oring.stock import CORDS_MM, as_sold, in_hand, insides_near
from rules.tables import Rubber, rubbers

OTHERS = 3
"""So many other sizes are named."""
NEAR = 0.35
"""A cord is tried where its squeeze is off by no more than this from one that works."""
LEAST_WORTH = 0.02
"""A size with a smaller chance is no way out."""
HELPS = 0.05
"""What adds less to the chance is not said."""
SURE = 0.95
"""Over this nothing more is looked for."""
FINER_MM = 0.005
"""Limit of error of pins and of a micrometer on metal (own judgement)."""
ENOUGH = 512
"""Points for what would help."""
COMMON = ("nbr", "fkm", "epdm", "vmq")
"""Rubbers tried in place of the one named, in this order."""


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
    state: Fitted
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
        long = self.state.stretch > LASTS_TO
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
    """What becomes of one ring; `among`: so few points where it is only compared."""
    housing, rubber = question.housing, question.of
    ageing = ageing_of(rubber)
    state, worst = as_expected(ring, housing, ageing), at_worst(ring, housing, ageing)
    missed = broken(housing, state, most_fill=worst.most_fill)
    given = (housing, ring, rubber)
    likely = chance(*given) if among is None else chance(*given, among)
    return OringSizing(question, ring, state, worst, missed, likely, None, (), ())


def oring_sizing(question: OringQuestion) -> OringSizing:
    """The ring in hand judged, or the most likely from stock, and what else would do; raises OutOfRange."""
    ranked = sorted(tried(question), key=preferred)
    if question.in_hand is None and not ranked:
        raise OutOfRange(no_size(question))
    ring = question.in_hand or ranked[0].ring
    found = judged(question, ring)
    others = tuple(
        OtherSize(one.ring, one.chance) for one in ranked if one.ring != ring and one.chance >= LEAST_WORTH
    )[:OTHERS]
    found = replace(found, window=window(question, ring), others=others)
    return replace(found, help=tuple(helped(found)))


def preferred(found: OringSizing) -> tuple[float, float, float]:
    """The better first: by its chance in whole points, fewer needs broken, then a squeeze in the middle."""
    least, most = squeeze_ends(found.question.housing)
    return (
        -round(found.chance, 2),
        len(found.broken),
        abs(found.state.squeeze - (least + most) / 2.0),
    )


def tried(question: OringQuestion) -> Iterator[OringSizing]:
    """Stock sizes that come near, each judged roughly."""
    for cord in cords(question):
        for inside in insides_near(wanted_inside_mm(question.housing, cord)):
            yield judged(question, as_sold(inside, cord), FEW)


def cords(question: OringQuestion) -> Iterator[float]:
    """The cords in stock that the groove squeezes at all and does not crush."""
    least, most = squeeze_ends(question.housing)
    depth = question.housing.depth_mm
    for cord in CORDS_MM:
        in_step = abs(cord / question.cord_step_mm - round(cord / question.cord_step_mm)) < 1e-6
        if in_step and (1.0 - NEAR) * least < 1.0 - depth / cord < (1.0 + NEAR) * most:
            yield cord


def wanted_inside_mm(housing: Housing, cord_mm: float) -> float:
    """The inside diameter that lies in the middle of what its groove stretches it by."""
    short, long = STRETCH[housing.lies]
    fits = housing.rests_on_mm / (1.0 + (short + min(long, LASTS_TO)) / 2.0)
    return fits - 2.0 * cord_mm if housing.lies == FEMALE else fits


def no_size(question: OringQuestion) -> str:
    """Why no cord is to be had, raised as a refusal."""
    least, most = squeeze_ends(question.housing)
    depth = question.housing.depth_mm
    low, high = depth / (1.0 - least), depth / (1.0 - most)
    return (
        f"cord: a depth of {depth:.2f} mm wants a cord of {low:.2f} to {high:.2f} mm; "
        f"{CORDS_MM[0]:.2f} to {CORDS_MM[-1]:.2f} mm are to be had"
    )


def window(question: OringQuestion, ring: Oring) -> CordWindow | None:
    """The cords that meet every need with this inside diameter, groove and set as they are expected."""
    housing, ageing = question.housing, ageing_of(question.of)
    at = (housing.inner.mm, housing.outer.mm, housing.other.mm)
    low, high = cord_ends(housing, Place(ring.inside.mm, at, ageing))
    if low > high:
        return None

    def missed(cord_mm: float) -> str:
        other = replace(ring, cord=Length(mm=cord_mm))
        return (broken(housing, as_expected(other, housing, ageing)) or ("",))[0]

    return CordWindow(low, high, missed(low - 1e-4), missed(high + 1e-4))


def helped(found: OringSizing) -> Iterator[str]:
    """What would raise the chance, the most first."""
    if found.chance >= SURE:
        return
    better = []
    for words, question, ring in other_ways(found):
        then = judged(question, ring, ENOUGH).chance
        if then >= found.chance + HELPS:
            better.append((then, words))
    for then, words in sorted(better, reverse=True):
        yield f"{words}: chance {100.0 * then:.0f} %"


def best_of(found: OringSizing) -> Oring | None:
    """The ring to look for among several of this size: in the middle of what works."""
    ring, housing = found.ring, found.question.housing
    inside = nearest(wanted_inside_mm(housing, ring.cord.mm), ring.inside)
    works = window(found.question, replace(ring, inside=Length(mm=inside)))
    if works is None:
        return None
    return in_hand(
        to_places(inside, 2), to_places(nearest((works.low_mm + works.high_mm) / 2.0, ring.cord), 2)
    )


def nearest(wanted_mm: float, within: Length) -> float:
    """What lies nearest to a wish within the limits of a length."""
    return min(max(wanted_mm, within.mm - within.limit_mm), within.mm + within.limit_mm)


def other_ways(found: OringSizing) -> Iterator[tuple[str, OringQuestion, Oring]]:
    """What could be done otherwise, in words, as a question and as a ring."""
    question, ring, housing = found.question, found.ring, found.question.housing
    if question.in_hand is None:
        best = best_of(found)
        if best is not None:
            sizes = f"{best.inside.mm:.2f} mm inside, cord {best.cord.mm:.2f} mm"
            yield f"measure several and take one that reads {sizes}", question, best
    elif found.others:
        yield "a new one from stock, as proposed", replace(question, in_hand=None), found.others[0].ring
    ends = {name: getattr(housing, name) for name in ("inner", "outer", "other")}
    if any(one.limit_mm > FINER_MM for one in ends.values()):
        finer = {name: replace(one, limit_mm=min(one.limit_mm, FINER_MM)) for name, one in ends.items()}
        words = "measure the groove with pins or a micrometer"
        yield words, replace(question, housing=replace(housing, **finer)), ring
    for key in COMMON:
        if key != question.rubber and key in rubbers():
            yield rubbers()[key].name, replace(question, rubber=key), ring

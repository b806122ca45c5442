"""A person who reads only the page and turns a ring with a foot: what such pages say besides, and the piece.

Imports nothing of the program.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from tests.independent.page_hands import Hands
from tests.independent.page_person import NEXT, Person
from tests.independent.page_reader import Said, mm
from tests.independent.page_text import Seen
from tests.independent.page_work import CELL_MM, Work

DRESSED_MM = 0.008
"""So near one comes to a thickness by dressing and measuring."""
STEP_MM = 0.2
"""A floor stands in by so much, on the diameter, at least."""


@dataclass(frozen=True)
class MadeFoot:
    """Wall and foot of a ring as they were parted off, mm."""

    wall_mm: float
    foot_mm: float
    inside_mm: float
    deep_mm: float
    """From the face to the floor."""
    flat: bool
    """No part of the floor stands over the rest."""


def made_foot(work: Work, side: float) -> MadeFoot | None:
    """What stands between the face and the blade's near side; None where nothing of it is a foot."""
    cells = work.part_of(side)
    bore, outside = work.bore[cells], work.outside[cells]
    fifth = bore.size // 5
    if fifth == 0:
        return None
    wide, narrow = float(bore[fifth]), float(bore[-2])
    if wide - narrow < STEP_MM:
        return None
    floor = int((bore < wide - STEP_MM / 2.0).argmax())
    inside = float(bore[bore.size - (bore.size - floor) // 2])
    wall = slice(floor // 5, 3 * floor // 5 + 1)
    return MadeFoot(
        wall_mm=float((outside[wall] - bore[wall]).mean()) / 2.0,
        foot_mm=(bore.size - floor) * CELL_MM,
        inside_mm=inside,
        deep_mm=floor * CELL_MM,
        flat=abs(float(bore[min(floor + 3, bore.size - 1)]) - inside) < STEP_MM / 2.0,
    )


@dataclass
class FootHands(Hands):
    """Hands that bore through, then down to a floor, and face that."""

    feet: list[MadeFoot | None] = field(default_factory=list)
    thick: float = 0.0
    """To what the foot is dressed."""
    inside: float = 0.0
    """Where the floor is begun, by the page."""

    def do(self, said: Said, surface: str) -> None:
        """One sentence."""
        if said.name == "from_foot":
            self.inside = mm(said.words["inner"])
        elif said.name == "dress" and "thick" in said.words:
            self.thick = mm(said.words["thick"])
        else:
            super().do(said, surface)

    def go(self, said: Said, what: str) -> None:
        """To a figure in the bore of the foot, or across the floor; everything else as of any ring."""
        if what not in ("foot bore", "floor"):
            super().go(said, what)
            return
        assert said.figure is not None
        if what == "floor" and not self.inside:
            self.lack("where the floor is begun is not said")
        self.with_tool("boring", what)
        far = self.far_of("floor" if what == "floor" else "bore")
        try:
            self.lathe.cross.go(self.screw_for(said.figure, "bore", -1), -1, self.rule.get(-1))
            self.cut("bore", self.lathe.along(far), -1)
        except KeyError:
            self.lack(f"{what}: nothing was set to count from")

    def along_only(self, what: str, at: float) -> None:
        """The foot is looked at before the ring is parted off."""
        if what == "part":
            self.feet.append(made_foot(self.lathe.work, at - self.shop.blade))
        super().along_only(what, at)


@dataclass
class FootPerson(Person):
    """The person, who dresses the foot and measures it."""

    hands_of = FootHands
    dressed: float = 0.0

    def pages(self) -> tuple[tuple[str, Callable[[Seen], None]], ...]:
        """Pages by words that stand on them."""
        return (
            ("Foot as made: thickness at place", self.foot),
            ("The foot is too", lambda page: self.choose(page, "use it all the same")),
            ("on size: no further pass", self.on_size),
            *super().pages(),
        )

    def on_size(self, page: Seen) -> None:
        """Nothing more is cut; the next tool is remembered."""
        named = NEXT.search(" ".join(page.choices.values()))
        self.next_tool = named[1] if named else self.next_tool
        self.window.type("1")

    def foot(self, page: Seen) -> None:
        """The foot at one place, dressed to what the page of dressing says, where it is thick enough."""
        hands = self.hands
        assert isinstance(hands, FootHands)
        made = hands.feet[-1] if hands.feet else None
        if made is None:
            self.end("no foot was parted")
            return
        if not self.dressed:
            aim = hands.thick + self.draw.uniform(-DRESSED_MM, DRESSED_MM)
            self.dressed = min(made.foot_mm, aim) if hands.thick else made.foot_mm
        fine = [one for one in self.shop.gauges if one.kind == "ball_micrometer"]
        self.key_mm(page, self.read((fine or list(self.shop.gauges))[0], self.dressed))

    def ring_wall(self, page: Seen) -> None:
        """A wall of the ring in the hand, over its foot."""
        made = self.hands.feet[-1] if isinstance(self.hands, FootHands) and self.hands.feet else None
        if made is not None and self.hands.rings:
            self.hands.rings[0] = replace(self.hands.rings[0], wall_mm=made.wall_mm)
        super().ring_wall(page)


MOST_TO_DRESS_MM = 0.30
INSIDE_MM = 0.20
"""Own judgement: what is dressed off by hand, and how far the bore of a foot may be off, errors of touch, of
the tool, of give and of warmth together.
"""


def faults(person: FootPerson) -> list[str]:
    """What must never happen with a foot, in words; empty when all is well."""
    hands = person.hands
    assert isinstance(hands, FootHands)
    found = [*hands.lathe.work.faults, *hands.lacks]
    for made in hands.feet:
        if made is None:
            found.append("the ring has no foot")
            continue
        if not hands.thick <= made.foot_mm <= hands.thick + MOST_TO_DRESS_MM:
            found.append(f"the foot is parted {made.foot_mm:.2f} thick, {hands.thick:.2f} is wanted")
        if abs(made.inside_mm - hands.inside) > INSIDE_MM:
            found.append(f"inside of the foot {made.inside_mm:.2f}, {hands.inside:.2f} is wanted")
        if not made.flat:
            found.append("the floor is not flat")
    if person.ended != "measured":
        found.append(person.ended)
    return found

"""A flat gasket proposed for a room: thickness, widths, what binds, the chance, and what would help.

Invariant: the same question gives the same gasket; one that breaks a need is proposed all the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from rules.checks import OutOfRange, hundredth, number
from rules.gasket.materials import CUT, TURNED, gasket_material
from rules.gasket.needs import FEW, Squeezed, broken, chance, squeezed
from rules.gasket.room import CLEARANCE_MM, GasketQuestion, GasketSizes, laid_in

LEAST_WIDTH_MM = 0.5
"""A narrower one tears while it is cut or parted (own judgement)."""
LEAST_WIDTHS = 1.25
"""Rubber narrower than so many thicknesses tips over instead of being squeezed (own judgement)."""
AIM_FILL = 0.85
"""Part of the room that rubber is made to fill."""
SEATED_WELL = 1.25
"""Hard plastic is made so narrow that the least force presses it so many times as hard as it needs."""
WIDTH_STEP_MM = 0.05
HELPS = 0.05
"""What adds less to the chance is not said."""
PAST_IT = 0.5
"""A thickness with so small a part of the best chance lies beyond it: none further away is tried."""
SURE = 0.95
"""Over this nothing more is looked for."""
FINER_DEPTH_MM = 0.005
"""Standard uncertainty of a height read with a depth micrometer (own judgement)."""
HARDER = 4.0 / 3.0
"""How much harder a key may be turned."""
OTHERS = ("nbr", "ptfe", "acetal")
"""Materials that are tried in place of the one named."""


@dataclass(frozen=True, slots=True)
class ThicknessWindow:
    """The thicknesses that meet every need at this width; None where none does."""

    low_mm: float
    high_mm: float
    binds_low: str
    binds_high: str


@dataclass(frozen=True, slots=True)
class GasketSizing:
    """A proposed gasket and what follows."""

    question: GasketQuestion
    sizes: GasketSizes
    state: Squeezed
    """With the room and the force as they are expected."""
    broken: tuple[str, ...]
    chance: float
    window: ThicknessWindow | None
    help: tuple[str, ...]

    @property
    def pressures_mpa(self) -> tuple[float, float]:
        """Contact pressure, greased and dry: of rubber narrower than the law was fitted to, which comes out a
        little softer held than free, the lower first.
        """
        law, wide, thick = self.question.material.law, self.sizes.width_mm, self.sizes.thick_mm
        free = law.free_mpa(self.state.squeeze, width_mm=wide, thick_mm=thick)
        held = self.state.pressure_mpa
        return (min(free, held), max(free, held)) if self.question.room.stopped else (held, held)

    @property
    def later_mpa(self) -> tuple[float, float] | None:
        """The same after years; None where it is not known how it sets."""
        gone = self.question.material.set_part
        low, high = self.pressures_mpa
        return None if gone is None else (low * (1.0 - gone), high * (1.0 - gone))

    @property
    def forces_n(self) -> tuple[float, float]:
        """What the thread or the screws must give, greased and dry."""
        per = self.sizes.width_mm * self.sizes.middle_mm
        low, high = self.pressures_mpa
        return low * per, high * per

    @property
    def warnings(self) -> tuple[str, ...]:
        """What is to be looked at before it is made."""
        narrow = self.question.material.rubber and self.sizes.width_mm < LEAST_WIDTHS * self.sizes.thick_mm
        tips = (
            f"narrower than {LEAST_WIDTHS:g} times its thickness: rubber tips over instead of being squeezed"
        )
        return (*self.broken, *((tips,) if narrow else ()))


def gasket_sizing(question: GasketQuestion) -> GasketSizing:
    """The gasket most likely to meet its needs; raises OutOfRange where the room is too narrow for any."""
    found = proposed(question)
    return replace(found, window=window(question, found.sizes), help=tuple(helped(found)))


def proposed(question: GasketQuestion) -> GasketSizing:
    """The same without window and help."""
    best, most = None, -1.0
    for thick in thicknesses(question):
        sizes = sized(question, thick)
        now = chance(question, sizes, FEW)
        if now > most + 1e-6:
            best, most = sizes, now
        elif now < PAST_IT * most:
            break
    assert best is not None, "there is always a thickness to try"
    return judged(question, best)


def judged(question: GasketQuestion, sizes: GasketSizes) -> GasketSizing:
    """A gasket of these sizes in its room."""
    force, height = question.drive.mid_n, question.room.height_mm
    state = squeezed(question, sizes, height_mm=height, force_n=force)
    missed = broken(question, state, force_n=force)
    return GasketSizing(question, sizes, state, missed, chance(question, sizes), None, ())


def sized(question: GasketQuestion, thick_mm: float) -> GasketSizes:
    """A gasket of a thickness with the width it is made to; raises OutOfRange."""
    width = usual_width(question, thick_mm) if question.width_mm is None else question.width_mm
    number("width", width, low=LEAST_WIDTH_MM - 1e-9, high=20.0, unit="mm", advice="a narrower one tears")
    return rounded(question, laid_in(question.room, width, thick_mm))


def rounded(question: GasketQuestion, found: GasketSizes) -> GasketSizes:
    """The same with diameters that a punch or a pair of compasses is set to, where there is room for it."""
    room, span = question.room, 2.0 * found.width_mm
    if room.walled:
        inside = math.ceil(found.inside_mm / WIDTH_STEP_MM - 1e-6) * WIDTH_STEP_MM
        set_to = (inside + span, inside)
    else:
        outside = math.floor(found.outside_mm / WIDTH_STEP_MM + 1e-6) * WIDTH_STEP_MM
        set_to = (outside, outside - span)
    fits = (
        question.way != TURNED and set_to[0] <= room.outside_mm - CLEARANCE_MM and set_to[1] >= room.inside_mm
    )
    outside, inside = set_to if fits else (found.outside_mm, found.inside_mm)
    return GasketSizes(hundredth(outside), hundredth(inside), found.thick_mm)


def usual_width(question: GasketQuestion, thick_mm: float) -> float:
    """Rubber as wide as the room leaves it to flow; hard plastic as narrow as the force asks. Never wider
    than goes in; raises OutOfRange where not even the narrowest does.
    """
    room, one = question.room, question.material
    most = room.width_mm - 2.0 * CLEARANCE_MM
    if most < LEAST_WIDTH_MM - 1e-9:
        raise OutOfRange(
            f"width: a room of {room.width_mm:.2f} mm leaves {most:.2f} mm; a gasket narrower than "
            f"{LEAST_WIDTH_MM:g} mm tears"
        )
    if one.rubber:
        left = (
            room.height_mm / thick_mm
            if room.stopped
            else 1.0 - sum((one.least_squeeze, one.most_squeeze)) / 2
        )
        wanted = AIM_FILL * room.width_mm * min(1.0, left)
    else:
        middle = math.pi * (room.outside_mm + room.inside_mm) / 2.0
        wanted = question.drive.low_n / (middle * SEATED_WELL * one.seating_mpa)
        most *= 1.0 - one.most_squeeze
    steps = math.floor(min(most, wanted) / WIDTH_STEP_MM + 1e-6)
    return max(LEAST_WIDTH_MM, round(steps * WIDTH_STEP_MM, 2))


def thicknesses(question: GasketQuestion) -> tuple[float, ...]:
    """The thicknesses to try: the one wanted, sheets that are squeezed at all, or what is turned."""
    if question.thick_mm is not None:
        return (question.thick_mm,)
    height = question.room.height_mm
    if question.way == TURNED:
        return tuple(hundredth(height + step / 100.0) for step in range(max(2, round(14.0 * height)) + 1))
    sheets = sorted(question.material.sheets_mm, key=lambda sheet: abs(sheet - height / 0.8))
    return tuple(sheets[:3])


def window(question: GasketQuestion, sizes: GasketSizes) -> ThicknessWindow | None:
    """From which to which thickness a gasket of this width meets every need, with what binds there."""
    height, force = question.room.height_mm, question.drive.mid_n

    def missed(step: int) -> tuple[str, ...]:
        other = replace(sizes, thick_mm=step / 100.0)
        return broken(question, squeezed(question, other, height_mm=height, force_n=force), force_n=force)

    tried = range(max(5, round(80.0 * height)), round(180.0 * height) + 1)
    good = [step for step in tried if not missed(step)]
    if not good:
        return None
    under, over = (missed(step) or ("",) for step in (good[0] - 1, good[-1] + 1))
    return ThicknessWindow(good[0] / 100.0, good[-1] / 100.0, under[0], over[0])


def helped(found: GasketSizing) -> Iterator[str]:
    """What would raise the chance, the most first."""
    if found.chance >= SURE:
        return
    better = []
    for words, question in other_ways(found):
        try:
            then = proposed(question).chance
        except OutOfRange:
            continue
        if then >= found.chance + HELPS:
            better.append((then, words))
    for then, words in sorted(better, reverse=True):
        yield f"{words}: chance {100.0 * then:.0f} %"


def other_ways(found: GasketSizing) -> Iterator[tuple[str, GasketQuestion]]:
    """What could be done otherwise, in words and as a question."""
    question, room = found.question, found.question.room
    if room.stopped and room.height_u_mm > FINER_DEPTH_MM:
        finer = replace(room, height_u_mm=FINER_DEPTH_MM)
        yield "measure the depth with a depth micrometer", replace(question, room=finer)
    if question.way == CUT and not question.measured:
        thick = found.sizes.thick_mm
        yield "measure the sheet", replace(question, thick_mm=thick, measured=True)
        if not question.material.rubber:
            yield "turn it instead", replace(question, way=TURNED, thick_mm=None)
    if question.thick_mm is not None:
        yield "another thickness, as proposed", replace(question, thick_mm=None, measured=False)
    if question.width_mm is not None:
        yield "another width, as proposed", replace(question, width_mm=None)
    yield from other_materials(question)
    drive = question.drive
    firm = replace(drive, low_n=drive.low_n * HARDER, high_n=drive.high_n * HARDER)
    yield "a third more force", replace(question, drive=firm)


def other_materials(question: GasketQuestion) -> Iterator[tuple[str, GasketQuestion]]:
    """The same in another material, in the way that it is made best."""
    for key in OTHERS:
        one = gasket_material(key)
        if one.rubber != question.material.rubber or (key == "ptfe" and question.material.key != key):
            yield one.name, replace(question, material=one, way=one.ways[0], thick_mm=None, width_mm=None)

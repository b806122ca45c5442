"""`python -m tests.whole.lathe_presses`: presses of the lathe part of a straight job, by kind of lathe.

Beside them the least possible: for a number its digits and Enter, for a choice or a check two; a check that
is read off is a number. Once more with every pass that may be recorded by itself recorded by itself.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from bench.shop.shop import Shop, built_in
from rules.bars import Bar
from rules.equipment import Axis, Lathe
from rules.limits import MM_PER_INCH
from tests.grooving import CORING
from tests.whole.repairer import Repairer, fresh

STAGE = "cut"
CORE_TOOL = replace(CORING, number=7, name="core tool", largest_groove_mm=40.0, depth_mm=9.0)


def lever() -> Shop:
    """Read-out of diameters, a lever for the speeds, numbered tools."""
    return built_in()


def with_lathe(change: Callable[[Lathe], Lathe]) -> Shop:
    """The built-in shop with another lathe."""
    own = built_in()
    return replace(own, lathes=(change(own.lathes[0]),))


def dials() -> Shop:
    """Hand dials, steps of a belt, tools without numbers, drills up to 8.5 mm."""
    cross = Axis(
        shows="radius",
        step_mm=0.0125,
        division_mm=0.025,
        divisions_per_turn=40,
        backlash_mm=0.08,
        direction="inward",
    )
    carriage = Axis(
        shows="length", step_mm=0.025, division_mm=0.05, divisions_per_turn=60, direction="to_chuck"
    )
    return with_lathe(
        lambda lathe: replace(
            lathe,
            cross=cross,
            carriage=carriage,
            speed_names=tuple(f"step {number}" for number, _ in enumerate(lathe.speeds_rpm, 1)),
            numbered_tools=False,
            largest_drill_mm=8.5,
        )
    )


def stepless() -> Shop:
    """Read-out of radii, any speed between two."""
    cross = Axis(shows="radius", step_mm=0.005, backlash_mm=0.05)
    return with_lathe(
        lambda lathe: replace(lathe, cross=cross, stepless=True, speeds_rpm=(100.0, 2500.0), speed_names=())
    )


def inch() -> Shop:
    """Read-out and carriage in inch, nothing on the lathe that shows its speed."""
    cross = Axis(step_mm=0.0005 * MM_PER_INCH, unit="inch", backlash_mm=0.05)
    carriage = Axis(shows="length", step_mm=0.001 * MM_PER_INCH, unit="inch", direction="to_chuck")
    return with_lathe(lambda lathe: replace(lathe, cross=cross, carriage=carriage, shows_speed=False))


SHOPS: dict[str, Callable[[], Shop]] = {
    "read-out, lever": lever,
    "hand dials, belt, tools without numbers": dials,
    "read-out of radii, stepless": stepless,
    "inch, no speed shown": inch,
}


def core() -> Shop:
    """Hand dials, and a core cut out."""
    own = dials()
    return replace(own, tools=(*own.tools, CORE_TOOL))


def tube() -> Shop:
    """A tube in the chuck."""
    bar = Bar(plastic="acetal", diameter_mm=40.0, length_mm=90.0, kind="tube", bore_mm=30.0)
    return replace(built_in(), bars=(bar,))


WIDER: dict[str, Callable[[], Shop]] = {
    **SHOPS,
    "all in inch": lambda: built_in("inch"),
    "hand dials, a core cut out": core,
    "a tube": tube,
}
"""As wide as what is read on the pages."""


@dataclass
class Pressed:
    """What was pressed at the lathe, and what is the least for the same answers."""

    answers: int = 0
    presses: int = 0
    least: int = 0


def at_the_lathe(shop: Shop, *, each_pass: bool = False) -> Pressed:
    """The lathe part of a straight job in this shop, answered as usual; numbers without their point."""
    repairer, pressed = fresh(shop=shop).on_to("lathe_hands"), Pressed()
    while repairer.desk.step is not None and repairer.desk.step.stage == STAGE:
        typed = answer_to(repairer, each_pass=each_pass)
        number = repairer.step.kind == "number" or repairer.step.readback is not None
        pressed.answers += 1
        pressed.presses += len(typed) + 1
        pressed.least += len(typed) + 1 if number else 2
        before = len(repairer.keyed)
        repairer.type(typed)
        assert len(repairer.keyed) == before + 1, repairer.desk.message
    return pressed


def answer_to(repairer: Repairer, *, each_pass: bool) -> str:
    """What is typed on the step that is asked."""
    only = len(repairer.step.choices) > 1 and repairer.step.choices[1].word == "some"
    return "2" if each_pass and only else repairer.usual().replace(".", "")


def main() -> None:
    """Print the table."""
    print(f"{'lathe':42}{'answers':>8}{'presses':>8}{'least':>8}{'each pass recorded':>20}")
    for name, shop in SHOPS.items():
        one, each = at_the_lathe(shop()), at_the_lathe(shop(), each_pass=True)
        print(f"{name:42}{one.answers:8}{one.presses:8}{one.least:8}{each.presses:20}")


if __name__ == "__main__":
    main()

"""A test that reads a gauge: volume, first reading, the hold worked out from it,
readings at fixed times, the leak.

Invariant: the length of the hold is fixed before it starts and only readings within it count;
the decision comes from the readings and is written with them.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.job import Job
from bench.job.kept import KEYED
from bench.job.keys import Sitting
from bench.job.mask import Mask
from bench.job.steps import Choice, Step, Words
from bench.job.values import number
from bench.stages.common import plain_choices
from bench.stages.holding import hold_step, on_the_clock, timing
from bench.stages.leak_outcome import LAST, outcome_step
from bench.stages.proving_steps import Setup
from rules.testing.air import ROOM_C
from rules.testing.leak_fit import fit_leak
from rules.testing.rig import READINGS, Rig
from rules.testing.volume import BY_SIZE_CM3, SIZES, Volume, by_size, measured

NOT_MOVED = (
    "CHECK the gauge has not moved: a gross leak, or the probe does not touch. Vent and look before you hold."
)


def with_readings(job: Job, setup: Setup, temperature: str, decided: Words, *, hurried: bool) -> Stage[str]:
    """The whole test with readings after its check; gives the word of its result."""
    sitting = setup.sitting
    free = yield from volume(sitting, setup.rests)
    step_um = yield from gauge_step(sitting)
    warmth = ROOM_C if temperature == "unknown" else number(temperature)
    rig = Rig(free.cm3, free.u_cm3, setup.pressure_bar, step_um, warmth)
    first_key = keys.nth(sitting.signal, 0)
    first = number((yield from word(first_reading(setup, step_um))))
    hold_s = rig.planned_hold_s(max(first, step_um))
    started = hold_step(setup, hold_s / 60, say=(), rests_on=first_key, hurried=hurried)
    if first < step_um:
        started = replace(started, consequence=(NOT_MOVED,))
    hold = yield from words(started)
    timed = yield from timing(job, setup, hold)
    written_s = 60 * number(hold[-1])  # fixed when it was started, whatever is changed afterwards
    hold_s = hold_s if timed == KEYED else written_s
    held_s = min(hold_s, written_s)
    times = [held_s * n / LAST for n in range(READINGS)]
    signals = yield from read_over(setup, hold, times, first, step_um)
    vented = yield from after_venting(setup)
    leak = fit_leak(times, signals, rig, fixed_hold_s=hold_s, after_venting_reading=vented)
    kept = (*decided, f"held {held_s / 60:.0f} min", f"timed {timed}")
    since = hold[1] if on_the_clock(hold) else ""
    return (yield from words(outcome_step(setup, leak, times, signals, kept, since)))[0]


def volume(sitting: Sitting, rests: Words) -> Stage[Volume]:
    """Free volume inside."""
    exact = yield from word(
        Step(
            key=sitting.volume_exact,
            stage="verify",
            kind="number",
            title=f"Free volume inside, measured, {sitting.title}",
            mask=Mask(2, 1, "cm3", 0.2, 50.0),
            usual="not measured",
            optional=True,
            why="Weigh the case filled with water and empty; or from the case's drawing.",
        )
    )
    if exact != "not measured":
        return measured(number(exact))
    sizes = BY_SIZE_CM3[sitting.name].items()
    chosen = yield from word(
        Step(
            key=sitting.volume,
            stage="verify",
            kind="choice",
            title="Free volume inside the case?",
            choices=tuple(
                Choice(size, f"{SIZES[size]}: {cm3:g} cm3, within half of it") for size, cm3 in sizes
            ),
            rests_on=rests,
            why=(
                "The same leak shows ten times faster in a small case. "
                "An uncertainty of half the volume is allowed for."
            ),
        )
    )
    return by_size(sitting.name, chosen)


def gauge_step(sitting: Sitting) -> Stage[float]:
    """Smallest step of the deflection gauge, micrometres."""
    chosen = yield from word(
        Step(
            key=sitting.gauge_step,
            stage="verify",
            kind="choice",
            title=f"Smallest step of the deflection gauge, {sitting.title}",
            choices=plain_choices(("0.1", "0.1 um"), ("1", "1 um")),
            usual="0.1",
            optional=True,
            why=(
                "A display that stands still does not prove that nothing leaks; "
                "its step decides how long to hold."
            ),
        )
    )
    return float(chosen)


def first_reading(setup: Setup, step_um: float) -> Step:
    """The deflection when the pressure is reached."""
    return Step(
        key=keys.nth(setup.sitting.signal, 0),
        stage="verify",
        kind="number",
        title=f"At {setup.pressure_bar:g} bar: how far has the glass or back gone in?",
        say=setup.raising,
        brief=setup.brief,
        mask=shown(step_um),
        rests_on=setup.rests,
        cautions=setup.method.cautions,
        why="The length of the hold is worked out from this reading, before the hold starts.",
        how=("Gauge set to zero before the pressure. Key 0 places too, such as 012.5.",),
    )


def shown(step_um: float) -> Mask:
    """How a deflection is keyed."""
    return Mask(3, 1 if step_um < 1 else 0, "um", 0.0, 999.0)


def minutes_and_seconds(time_s: float) -> str:
    """A moment of a hold.

    >>> minutes_and_seconds(250.0)
    '4:10'
    """
    return f"{time_s // 60:.0f}:{time_s % 60:02.0f}"


def read_over(
    setup: Setup, hold: Words, times_s: list[float], first_um: float, step_um: float
) -> Stage[list[float]]:
    """Readings at their times, the first one included."""
    sitting, signals = setup.sitting, [first_um]
    timed = on_the_clock(hold)
    for count, at_s in enumerate(times_s[1:], 1):
        since = max(0, count - 4)
        read = yield from word(
            Step(
                key=keys.nth(sitting.signal, count),
                stage="verify",
                kind="number",
                title=f"Reading {count} of {LAST}, at {minutes_and_seconds(at_s)}",
                say=setup.holding(times_s[-1] / 60),
                mask=shown(step_um),
                earlier=tuple(
                    (minutes_and_seconds(time), f"{value:g}")
                    for time, value in zip(times_s[since:], signals[since:], strict=False)
                ),
                opens_after=(hold[1], at_s) if timed else None,
                rests_on=(*setup.rests, sitting.hold, keys.nth(sitting.signal, 0)),
                cautions=setup.method.cautions,
                why="Readings at fixed times; what falls is the pressure difference, so air goes in.",
            )
        )
        signals.append(number(read))
    return signals


def after_venting(setup: Setup) -> Stage[float | None]:
    """The gauge once the pressure is off, inward positive; None where it was not read."""
    sitting, ending = setup.sitting, setup.method.ending
    where = yield from word(
        Step(
            key=sitting.vented,
            stage="verify",
            kind="choice",
            title="Vented slowly: where does the gauge stand, against the zero before the test?",
            say=setup.ending,
            choices=plain_choices(
                ("zero", "back to zero"),
                ("inward", "still inward"),
                ("outward", "outward of zero"),
                ("not_read", "not read"),
            ),
            rests_on=(*setup.rests, keys.nth(sitting.signal, LAST)),
            cautions=ending.cautions,
            why="Air that went in bulges the case outward; creep leaves it pressed inward.",
        )
    )
    if where in ("zero", "not_read"):
        return 0.0 if where == "zero" else None
    by = yield from word(
        Step(
            key=sitting.vented_by,
            stage="verify",
            kind="number",
            title=f"How far {where}?",
            mask=Mask(3, 1, "um", 0.0, 999.0),
            rests_on=(sitting.vented,),
            why="Less than one step of the gauge says nothing either way.",
        )
    )
    return number(by) * (1 if where == "inward" else -1)

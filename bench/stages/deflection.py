"""A test that reads a gauge: volume, first reading, the hold worked out from it, readings at fixed times, the leak.

Invariant: the length of the hold is fixed before it starts and only readings within it count; the decision comes from
the readings and is written with them.
"""

from __future__ import annotations

from bench.job import keys
from bench.job.asking import Stage, word, words
from bench.job.keys import Sitting
from bench.job.mask import Mask
from bench.job.steps import Choice, Picture, Step, Why, Words
from bench.job.values import number
from bench.stages.common import plain_choices
from bench.stages.proving_steps import Setup, hold_step
from rules.testing.air import LIMIT_UG_MIN, ROOM_C
from rules.testing.leak_curve import leak_curve
from rules.testing.leak_fit import fit_leak
from rules.testing.leak_result import Leak
from rules.testing.rig import READINGS, Rig
from rules.testing.volume import BY_SIZE_CM3, SIZES, Volume, by_size, measured

LAST = READINGS - 1
WORDS = {"PASS": "pass", "FAIL": "fail", "UNDECIDED": "not_judged", "NOT_JUDGED": "not_judged"}
LIMIT_SOURCE = "ISO 2281 clause 4.1 by a typed copy"


def with_readings(setup: Setup, temperature: str, decided: Words) -> Stage[str]:
    """The whole test with readings after its check; gives the word of its result."""
    sitting = setup.sitting
    free = yield from volume(sitting, setup.rests)
    step_um = yield from gauge_step(sitting)
    warmth = ROOM_C if temperature == "unknown" else number(temperature)
    rig = Rig(free.cm3, free.u_cm3, setup.pressure_bar, step_um, warmth)
    first_key = keys.nth(sitting.signal, 0)
    first = number((yield from word(first_reading(setup, step_um))))
    hold_s = rig.planned_hold_s(max(first, step_um))
    hold = yield from words(hold_step(setup, hold_s / 60, say=(), rests_on=first_key))
    timed = "program" if hold[0] == "start" else "keyed"
    written_s = 60 * number(hold[-1])  # fixed when it was started, whatever is changed afterwards
    hold_s = written_s if timed == "program" else hold_s
    held_s = min(hold_s, written_s)
    times = [held_s * n / LAST for n in range(READINGS)]
    signals = yield from read_over(setup, hold, times, first, step_um)
    vented = yield from after_venting(setup)
    leak = fit_leak(times, signals, rig, fixed_hold_s=hold_s, after_venting_reading=vented)
    kept = (*decided, f"held {held_s / 60:.0f} min", f"timed {timed}")
    since = hold[1] if timed == "program" and len(hold) > 1 else ""
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
            why="The same leak shows ten times faster in a small case. Half either way is allowed for.",
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
            why="Digits that stand still do not prove that nothing leaks; the step sets how long to hold.",
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
        mask=shown(step_um),
        rests_on=setup.rests,
        cautions=setup.method.cautions,
        why="The length of the hold is worked out from this reading, before the hold starts.",
        how=("Gauge set to zero before the pressure. Key 0 places too, such as 012.5.",),
    )


def shown(step_um: float) -> Mask:
    """How a deflection is keyed."""
    return Mask(3, 1 if step_um < 1 else 0, "um", 0.0, 999.0)


def read_over(
    setup: Setup, hold: Words, times_s: list[float], first_um: float, step_um: float
) -> Stage[list[float]]:
    """Readings at their times, the first one included."""
    sitting, signals = setup.sitting, [first_um]
    timed = hold[0] == "start" and len(hold) > 1
    for count, at_s in enumerate(times_s[1:], 1):
        since = max(0, count - 4)
        read = yield from word(
            Step(
                key=keys.nth(sitting.signal, count),
                stage="verify",
                kind="number",
                title=f"Reading {count} of {LAST}, at {at_s // 60:.0f}:{at_s % 60:02.0f}",
                mask=shown(step_um),
                earlier=tuple(
                    (f"{time // 60:.0f} min", f"{value:g}")
                    for time, value in zip(times_s[since:], signals[since:], strict=False)
                ),
                opens_after=(hold[1], at_s) if timed else None,
                rests_on=(*setup.rests, sitting.hold, keys.nth(sitting.signal, 0)),
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


def leak_words(leak: Leak) -> Words:
    """A judged leak as it is written with the result."""
    if leak.rate_ug_min is None:
        return (f"leak_decision {leak.decision}", f"leak_reason {leak.reason}")
    low = leak.low_ug_min if leak.low_ug_min is not None else leak.rate_ug_min
    high = "unknown" if leak.high_ug_min is None else f"{leak.high_ug_min:.1f} ug/min"
    return (
        f"leak {leak.rate_ug_min:.1f} ug/min",
        f"leak_low {low:.1f} ug/min",
        f"leak_high {high}",
        f"leak_decision {leak.decision}",
        f"leak_law {leak.law}",
        f"leak_reason {leak.reason}",
    )


def outcome_step(
    setup: Setup, leak: Leak, times_s: list[float], signals: list[float], decided: Words, since: str
) -> Step:
    """What the readings say, taken note of by 1 Enter; `since` is when a hold timed by the program began."""
    sitting, verdict = setup.sitting, leak.decision.replace("_", " ")
    rate, ends = "no rate", ""
    if leak.rate_ug_min is not None:
        rate = f"leak {leak.rate_ug_min:.0f} ug/min at 2 bar overpressure"
    if leak.low_ug_min is not None and leak.high_ug_min is not None:
        ends = f", 95 %: {leak.low_ug_min:.0f} to {leak.high_ug_min:.0f}; limit {LIMIT_UG_MIN:g}"
    held = (*decided, *leak_words(leak))
    return Step(
        key=sitting.result,
        stage="verify",
        kind="result",
        title=f"{verdict}: {rate}{ends}",
        say=(leak.reason,),
        choices=(
            Choice(WORDS[leak.decision], f"take note: {verdict}", with_it=held, stamp=True),
            Choice("not_judged", "something went wrong: it does not count", with_it=decided, stamp=True),
        ),
        rests_on=(
            *setup.rests,
            sitting.vented,
            sitting.vented_by,
            keys.nth(sitting.signal, LAST),
            sitting.correction,
        ),
        cautions=setup.method.ending.cautions,
        picture=Picture("leak", curve=leak_curve(times_s, signals, leak, unit="um")),
        ran_since=since,
        why=f"The limit is {LIMIT_UG_MIN:g} ug/min at 2 bar overpressure ({LIMIT_SOURCE}). "
        f"{setup.method.ending.why} {setup.method.claim.sentence}",
        figures=(
            Why(
                rate,
                "slope of the logarithm of the readings times volume, density of air and pressure, brought to "
                "2 bar overpressure by the law that gives more",
                f"{len(signals)} readings over {times_s[-1]:.0f} s",
                f"{LIMIT_SOURCE} (limit); exponential decay of a fixed conductance",
            ),
        ),
    )

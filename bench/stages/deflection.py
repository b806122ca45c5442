"""A dry test with readings: volume, first reading, the hold told from it, readings at fixed times, the leak.

Invariant: the hold is fixed before it starts and only readings inside it count; the decision comes from the
readings and is written with them.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bench.job.asking import Stage, word, words
from bench.job.corrections import TESTS
from bench.job.steps import Choice, Picture, Places, Step, Why, Words
from bench.stages.common import number, plain_choices
from rules.testing.leak_curve import leak_curve
from rules.testing.leak_fit import fit_leak
from rules.testing.leak_result import Leak
from rules.testing.rig import READINGS, Rig

VOLUMES = {
    "empty": {"small": 1.5, "middle": 3.0, "large": 6.0, "chronograph": 4.0},
    "cased": {"small": 0.5, "middle": 1.0, "large": 2.0, "chronograph": 1.2},
}
"""Free volume in cm3, each good to half of it (own judgement, no source)."""
NAMES = {
    "small": "small, a lady's watch",
    "middle": "middle",
    "large": "large, a divers' case",
    "chronograph": "chronograph",
}
WHOSE = {"empty": "empty case", "cased": "cased watch"}
"""Which sitting a usual value belongs to, for the list."""
WORDS = {"PASS": "pass", "FAIL": "fail", "UNDECIDED": "not_judged", "NOT_JUDGED": "not_judged"}


@dataclass(frozen=True, slots=True)
class Set:
    """How a test with readings is set up."""

    name: str
    """empty or cased."""
    pressure_bar: float
    temperature_c: float
    rests: Words
    raising: Words = ()  # how the pressure is raised, told with the first reading


def volume(name: str, rests: Words) -> Stage[tuple[float, float]]:
    """Free volume and its expanded uncertainty, cm3."""
    exact = yield from word(
        Step(
            key=f"{name}_volume_exact",
            stage="verify",
            kind="number",
            title=f"Free volume inside, measured, {WHOSE[name]}",
            places=Places(2, 1, "cm3", 0.2, 50.0),
            usual="not measured",
            optional=True,
            why="Weigh the case filled with water and empty; or from the case's drawing.",
        )
    )
    sizes = VOLUMES[name]
    if exact != "not measured":
        value = float(exact.split()[0])
        return value, 0.1 * value
    chosen = yield from word(
        Step(
            key=f"{name}_volume",
            stage="verify",
            kind="choice",
            title="Free volume inside the case?",
            choices=tuple(
                Choice(key, f"{NAMES[key]}: {cm3:g} cm3, within half of it") for key, cm3 in sizes.items()
            ),
            rests_on=rests,
            why="The same leak shows ten times faster in a small case. Half either way is allowed for.",
        )
    )
    return sizes[chosen], 0.5 * sizes[chosen]


def gauge_step(name: str) -> Stage[float]:
    """Smallest step of the deflection gauge, micrometres."""
    chosen = yield from word(
        Step(
            key=f"{name}_gauge_step",
            stage="verify",
            kind="choice",
            title=f"Smallest step of the deflection gauge, {WHOSE[name]}",
            choices=plain_choices(("0.1", "0.1 um"), ("1", "1 um")),
            usual="0.1",
            optional=True,
            why="Digits that stand still do not prove that nothing leaks; the step sets how long to hold.",
        )
    )
    return float(chosen)


def first_reading(setting: Set, volume_cm3: float, step_um: float) -> Stage[tuple[float, float]]:
    """The deflection when the pressure is reached, and the hold it asks for, seconds."""
    decimals = 1 if step_um < 1 else 0
    key = f"{setting.name}_signal_0"
    read = yield from word(
        Step(
            key=key,
            stage="verify",
            kind="number",
            title=f"At {setting.pressure_bar:g} bar: how far has the glass or back gone in?",
            say=setting.raising,
            places=Places(3, decimals, "um", 0.0, 999.0),
            rests_on=setting.rests,
            cautions=("pressure_air",),
            why="The hold the test needs follows from this reading and is fixed then.",
            how=("Gauge set to zero before the pressure. Key 0 places too, such as 012.5.",),
        )
    )
    signal = max(float(read.split()[0]), step_um)
    hold = Rig(volume_cm3, 0.0, setting.pressure_bar, step_um, setting.temperature_c).planned_hold_s(signal)
    return float(read.split()[0]), hold


def read_over(
    setting: Set, hold: Words, hold_s: float, first_um: float, step_um: float
) -> Stage[list[float]]:
    """Readings at the times told, the first one included."""
    decimals = 1 if step_um < 1 else 0
    signals = [first_um]
    timed = hold[0] == "start" and len(hold) > 1
    for count in range(1, READINGS):
        at_s = hold_s * count / (READINGS - 1)
        key = f"{setting.name}_signal_{count}"
        read = yield from word(
            Step(
                key=key,
                stage="verify",
                kind="number",
                title=f"Reading {count} of {READINGS - 1}, at {at_s // 60:.0f}:{at_s % 60:02.0f}",
                places=Places(3, decimals, "um", 0.0, 999.0),
                earlier=tuple(
                    (f"{hold_s * n / (READINGS - 1) // 60:.0f} min", f"{value:g}")
                    for n, value in enumerate(signals[-4:], max(0, len(signals) - 4))
                ),
                opens_after=(hold[1], at_s) if timed else None,
                rests_on=(*setting.rests, f"{setting.name}_hold", f"{setting.name}_signal_0"),
                why="Readings at fixed times; what falls is the pressure difference, so air goes in.",
            )
        )
        signals.append(float(read.split()[0]))
    return signals


def after_venting(setting: Set) -> Stage[float | None]:
    """The gauge once the pressure is off, inward positive; None where it was not read."""
    name = setting.name
    where = yield from word(
        Step(
            key=f"{name}_vented",
            stage="verify",
            kind="choice",
            title="Vented slowly: where does the gauge stand, against the zero before the test?",
            choices=plain_choices(
                ("zero", "back to zero"),
                ("inward", "still inward"),
                ("outward", "outward of zero"),
                ("not_read", "not read"),
            ),
            rests_on=(*setting.rests, f"{name}_signal_{READINGS - 1}"),
            cautions=("vent",),
            why="Air that went in bulges the case outward; creep leaves it pressed inward.",
        )
    )
    if where in ("zero", "not_read"):
        return 0.0 if where == "zero" else None
    by = yield from word(
        Step(
            key=f"{name}_vented_by",
            stage="verify",
            kind="number",
            title=f"How far {where}?",
            places=Places(3, 1, "um", 0.0, 999.0),
            rests_on=(f"{name}_vented",),
            why="Less than one step of the gauge says nothing either way.",
        )
    )
    return float(by.split()[0]) * (1 if where == "inward" else -1)


def judged(
    setting: Set,
    signals: list[float],
    holds_s: tuple[float, float],
    vented: float | None,
    free: tuple[float, float],
    step_um: float,
) -> Leak:
    """The leak that the readings give; `holds_s` is how long was held, and how long was told beforehand."""
    held_s, told_s = holds_s
    times = [held_s * count / (READINGS - 1) for count in range(READINGS)]
    return fit_leak(
        times,
        signals,
        Rig(free[0], free[1], setting.pressure_bar, step_um, setting.temperature_c),
        fixed_hold_s=told_s,
        after_venting_reading=vented,
    )


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


def outcome_step(setting: Set, leak: Leak, signals: list[float], hold_s: float, decided: Words) -> Step:
    """What the readings say, taken note of by 1 Enter."""
    name = setting.name
    held = (*decided, *leak_words(leak))
    times = [hold_s * n / (READINGS - 1) for n in range(READINGS)]
    rate = (
        "no rate" if leak.rate_ug_min is None else f"leak {leak.rate_ug_min:.0f} ug/min at 2 bar overpressure"
    )
    ends = ""
    if leak.low_ug_min is not None and leak.high_ug_min is not None:
        ends = f", 95 %: {leak.low_ug_min:.0f} to {leak.high_ug_min:.0f}; limit 50"
    return Step(
        key=f"{name}_result",
        stage="verify",
        kind="result",
        title=f"{leak.decision.replace('_', ' ')}: {rate}{ends}",
        say=(leak.reason,),
        choices=(
            Choice(
                WORDS[leak.decision],
                f"take note: {leak.decision.replace('_', ' ')}",
                with_it=held,
                stamp=True,
            ),
            Choice("not_judged", "something went wrong: it does not count", with_it=decided, stamp=True),
        ),
        rests_on=(
            *setting.rests,
            f"{name}_vented",
            f"{name}_vented_by",
            f"{name}_signal_{READINGS - 1}",
            TESTS[name].asks,
        ),
        cautions=("vent",),
        picture=Picture("leak", curve=leak_curve(times, signals, leak, unit="um")),
        why="The limit is 50 ug/min at 2 bar overpressure (ISO 2281 clause 4.1 by a typed copy).",
        figures=(
            Why(
                rate,
                "slope of the logarithm of the readings times volume, density of air and pressure, brought to "
                "2 bar overpressure by the law that gives more",
                f"{len(signals)} readings over {hold_s:.0f} s",
                "ISO 2281 clause 4.1 by a typed copy (limit); exponential decay of a fixed conductance",
            ),
        ),
    )


def with_readings(setting: Set, hold_step: Step, decided: Words) -> Stage[str]:
    """The whole test with readings after its check; gives the word of its result."""
    free = yield from volume(setting.name, setting.rests)
    step_um = yield from gauge_step(setting.name)
    first, hold_s = yield from first_reading(setting, free[0], step_um)
    minutes = hold_s / 60
    told = replace(
        hold_step,
        title=f"The hold is {minutes:.0f} min, fixed now. Start the clock?",
        choices=(Choice("start", f"start: {minutes:.0f} min", with_it=(f"{minutes:.0f} min",), stamp=True),),
        hold_s=hold_s,
        rests_on=(*setting.rests, f"{setting.name}_signal_0"),
    )
    hold = yield from words(told)
    timed = "program" if hold[0] == "start" else "keyed"
    written_s = 60 * number(hold[-1])  # fixed when it was started, whatever is changed afterwards
    hold_s = written_s if timed == "program" else hold_s
    held_s = min(hold_s, written_s)
    signals = yield from read_over(setting, hold, held_s, first, step_um)
    vented = yield from after_venting(setting)
    leak = judged(setting, signals, (held_s, hold_s), vented, free, step_um)
    kept = (*decided, f"held {held_s / 60:.0f} min", f"timed {timed}")
    return (yield from words(outcome_step(setting, leak, signals, held_s, kept)))[0]

"""Every figure of a seated ring, and both ends of its window, beside the same worked out forwards."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import replace

import pytest

from rules import tables
from rules.checks import OutOfRange
from rules.ring import RingSizes
from rules.sizing.proposal import asked_about
from rules.sizing.question import SizingQuestion
from rules.sizing.resolved import Resolved, resolve
from rules.sizing.seated import seat
from rules.sizing.window import Window
from tests.independent.drawn_rings import Drawn
from tests.independent.forwards import figures, flows_at, hoop_stress, margins, rest, stretched
from tests.independent.random_jobs import drawn, wide_job

CLOSE = 1e-6
Asked = tuple[SizingQuestion, Resolved, RingSizes, Window]


def as_drawn(question: SizingQuestion, ring: RingSizes) -> Drawn:
    """The job for the checker, its sizes brought to 20 C."""
    warmer = (question.temperature_c or 20.0) - 20.0
    metal = tables.metals()[str(question.case_metal)].cte_per_k if question.case_metal else None
    glass = tables.glasses()[str(question.glass_material)].cte_per_k if question.glass_material else None
    seat_mm, glass_mm = (
        size / (1 + (cte or 0.0) * warmer)
        for size, cte in ((question.case_bore_mm, metal), (question.glass_mm, glass))
    )
    job = drawn(question, ring, seat_mm=seat_mm, glass_mm=glass_mm)
    thousand = tables.plastics()[str(question.material)].relaxation_1000h
    return replace(job, plastic=job.plastic | {"left_1000h": thousand}, friction=question.friction or 0.2)


def asked(seeds: range) -> list[Asked]:
    """Drawn jobs with what the sizing makes of them, remedies left alone."""
    found: list[Asked] = []
    for seed in seeds:
        dice = random.Random(seed)
        question = wide_job(dice)
        if seed % 4 == 0:
            slippery = dice.choice((0.03, 0.04, 0.05, 0.06))
            question = replace(question, friction=slippery, material="acetal", overpressure_bar=None)
        if dice.random() < 0.5:
            question = replace(question, temperature_c=dice.choice((-5.0, 12.0, 28.0, 35.0)))
        try:
            resolved = resolve(question)
            found.append((question, resolved, *asked_about(resolved)))
        except OutOfRange:
            continue
    return found


def whole(job: Drawn) -> bool:
    """Whether all is known that the model needs."""
    known = job.metal is not None and None not in job.metal.values() and job.height is not None
    return known and job.plastic["cap"] is not None and job.plastic["modulus"] is not None


@pytest.mark.parametrize("first", range(0, 40, 8))
def test_figures_of_the_fit(first: int) -> None:
    compared = 0
    for question, resolved, ring, _ in asked(range(first, first + 8)):
        job = as_drawn(question, ring)
        if not whole(job) or ring.wall_mm <= (job.seat - job.glass) / 2:
            continue
        fit = seat(resolved.joint, wall_mm=ring.wall_mm, height_mm=ring.height_mm)
        force = fit.seating_force_n
        ours = {f"force_{name}": getattr(force, name) for name in ("low", "mid", "high")}
        for name, figure in figures(job).items():
            mine = ours[name] if name in ours else getattr(fit, name)
            assert mine == pytest.approx(figure, rel=CLOSE), (name, question)
        if job.plastic["cte"] is None:
            assert fit.contact_pressure_cold_mpa is None and fit.contact_pressure_warm_mpa is None
        compared += 1
    assert compared >= 2


@pytest.mark.parametrize("first", range(0, 48, 12))
def test_figures_of_a_stretched_bezel(first: int) -> None:
    """A keyed yield under the stress at the seat: what the metal bears, what stays, and the years after."""
    seen = Counter[str]()
    for question, resolved, ring, _ in asked(range(first, first + 12)):
        job = as_drawn(question, ring)
        bite = ring.wall_mm - (job.seat - job.glass) / 2
        metal = resolved.joint.metal
        if not whole(job) or bite <= 0.0 or metal is None or metal.brittle:
            continue
        load = rest(job, ring.wall_mm, bite).load
        for part in (0.5, 0.9, 0.98):
            yields = part * hoop_stress(job, load)
            joint = replace(resolved.joint, case_yield_mpa=yields)
            fit = seat(joint, wall_mm=ring.wall_mm, height_mm=ring.height_mm)
            assert fit.yielded is not None and fit.yielded.yield_mpa == yields
            force = fit.yielded.seating_force_n
            ours = {f"force_{name}": getattr(force, name) for name in ("low", "mid", "high")}
            for name, figure in stretched(job, yields).items():
                mine = ours[name] if name in ours else getattr(fit.yielded, name)
                assert mine == pytest.approx(figure, rel=CLOSE, abs=1e-9), (name, question)
            flows = load > flows_at(job, yields)
            assert fit.case_yields is (True if flows else None)
            seen["flows" if flows else "bears"] += 1
    assert min(seen["flows"], seen["bears"]) >= 3, seen


@pytest.mark.parametrize("first", range(0, 120, 20))
def test_what_binds_binds_and_nothing_else_is_broken(first: int) -> None:
    """At either end of an open window the limit that is named is just met and every other holds; where no
    bore works no wall meets every limit.
    """
    for question, _, ring, window in asked(range(first, first + 12)):
        job = as_drawn(question, ring)
        if window.feasible:
            for bore, binds in (
                (window.bore_low_mm, window.binds_low),
                (window.bore_high_mm, window.binds_high),
            ):
                assert bore is not None
                left = margins(replace(job, wall=(ring.outside_diameter_mm - bore) / 2.0))
                assert left[binds] == pytest.approx(0.0, abs=CLOSE), (binds, question)
                assert min(left.values()) >= -CLOSE, (left, question)
        else:
            gap = (job.seat - job.glass) / 2
            for pct in range(-2, 30):
                assert min(margins(replace(job, wall=gap / (1.0 - pct / 100.0))).values()) < 0.0, question


LOW = SizingQuestion(
    case_bore_mm=41.1,
    glass_mm=40.0,
    height_mm=0.7,
    material="acetal",
    case_metal="316L",
    case_wall_mm=3.0,
    case_height_mm=3.0,
    glass_material="sapphire",
    glass_thickness_mm=2.0,
    friction=0.15,
)


@pytest.mark.parametrize(
    ("change", "binds"),
    [
        *(({"friction": mu}, "hold against 0.7 bar of underpressure after ten years") for mu in (0.12, 0.3)),
        *(
            ({"overpressure_bar": bar, "friction": 0.25, "height_mm": 1.2}, f"hold against {bar:g} bar")
            for bar in (8.0, 10.0, 12.0)
        ),
    ],
)
def test_what_holds_the_glass_in_a_low_ring(change: dict[str, float], binds: str) -> None:
    """Ten years at low friction even where more was keyed; a test with what an hour has left."""
    question = replace(LOW, **change)  # type: ignore[arg-type]
    ring, window = asked_about(resolve(question))
    assert window.bore_high_mm is not None and window.binds_high.startswith(binds)
    left = margins(
        replace(as_drawn(question, ring), wall=(ring.outside_diameter_mm - window.bore_high_mm) / 2)
    )
    assert left[window.binds_high] == pytest.approx(0.0, abs=CLOSE) and min(left.values()) >= -CLOSE


def test_every_kind_of_limit_has_bound() -> None:
    """Jobs drawn like these meet each of them at one end of an open window at least."""
    seen = Counter(
        words.split(" ")[0] + " " + words.split(" ")[-1]
        for *_, window in asked(range(120))
        if window.feasible
        for words in (window.binds_low, window.binds_high)
    )
    for words in ("5 wall", "5 axis", "13 wall", "9 wall", "10 C", "hold C", "hold case"):
        assert seen[words], (words, seen)
    for words in ("the yield", "the C", "the hard", "the N", "the grow"):
        assert seen[words], (words, seen)

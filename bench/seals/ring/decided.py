"""The ring as it was decided upon, written into the answer and read back from it.

Invariant: everything later stages and the sheet need of the ring stands in the words of its answer, so that a
finished job is never computed again.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from bench.job import keys
from bench.job.job import Job
from bench.job.kept import UNKNOWN
from bench.job.steps import Words
from bench.job.values import named, named_text, several
from bench.seals.ring.measure import Measured
from bench.version import MADE_BY
from rules.checks import fixed, size_text
from rules.measuring.budget import COVERAGE
from rules.measuring.reading import Summary
from rules.ring import Ring
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import Sizing
from rules.sizing.squeeze import USUAL_BAND, Band, Gap, gap_mm


@dataclass(frozen=True, slots=True)
class Decided:
    """An accepted ring with what it was decided from."""

    ring: Ring
    gap: Gap
    """Seat and glass as they were measured, with what rings tried before had taught."""
    band: Band
    """Squeezes that work here; the usual ones where none were written."""
    plastic: str
    force_words: str = ""
    """How it has to be pressed, `unknown` or empty when unknown."""
    spares: int = 0
    question: SizingQuestion | None = None
    """What was asked for it, to ask again for the next ring; None where it is only read from the file."""
    at_hand: str = ""
    """Where the ring was there already: in which way. It is not turned."""
    walls_mm: tuple[float, ...] = ()
    """Its walls then, as they were measured before it was accepted."""
    highest_mm: float | None = None
    """The height there is room for, where the ring is higher."""
    lands_mm: float = 0.0
    """How much thicker than aimed at walls land in this shop: the lathe aims so much thinner."""
    shut: str = ""
    """The limits that cannot both be met, where no bore meets every requirement."""


def decided_words(measured: Measured, sizing: Sizing, spares: str) -> Words:
    """Everything that is decided with a ring, as it is written."""
    ring, force, band = sizing.ring, sizing.consequences.force_words, sizing.window.band
    return (
        f"outside {fixed(ring.outside_diameter_mm)} mm",
        f"bore {size_text(ring.bore_mm)} mm",
        f"height {fixed(ring.height_mm or 0.0)} mm",
        f"chamfer {fixed(ring.chamfer_mm)} mm",
        f"lower_chamfer {fixed(ring.lower_chamfer_mm)} mm",
        f"squeeze {sizing.fit.nominal_squeeze_pct:.1f} %",
        f"squeeze_low {band.low_pct:.3f} %",
        f"squeeze_high {band.high_pct:.3f} %",
        f"chance {100.0 * sizing.window.ring_chance:.1f} %",
        f"plastic {sizing.resolved.joint.plastic.key}",
        f"press {UNKNOWN if force == 'not known' else force}",
        *_diameter_words("seat", measured.seat),
        *_diameter_words("glass", measured.glass),
        *_gap_words(sizing),
        *(() if sizing.window.feasible else (f"shut {sizing.window.clash}",)),
        *_years_words(sizing),
        f"spares {spares}",
        f"by {MADE_BY}",
    )


def _gap_words(sizing: Sizing) -> Words:
    """The gap that was believed, where rings tried before had taught, as read at the bench, and what
    correcting it to 20 C adds, where that is something.
    """
    measured, believed = sizing.resolved.measured, sizing.resolved.believed
    question = sizing.resolved.question
    gap = gap_mm(case_bore_mm=question.case_bore_mm, glass_mm=question.glass_mm)
    to_20 = f"to_20 {measured.mean_mm - gap:.4f} mm"
    warm = () if float(to_20.split()[1]) == 0.0 else (to_20,)
    if believed == measured:
        return warm
    return (
        *warm,
        f"gap {gap + believed.mean_mm - measured.mean_mm:.4f} mm",
        f"gap_u {COVERAGE * believed.sd_mm:.4f} mm",
    )


def _years_words(sizing: Sizing) -> Words:
    """What it is expected to do to the bezel and to press with after ten years, as far as it is known."""
    fit, bezel = sizing.fit, sizing.consequences.stretch_words
    years, stretched = fit.ten_years_mpa, fit.stretched or fit.perhaps
    return (
        *(() if bezel == "not known" else (f"bezel {bezel}",)),
        *(() if stretched is None else (f"stays_wider {2.0 * stretched.set_um / 1000.0:.3f} mm",)),
        *(
            ()
            if years is None
            else (f"ten_years_low {years[0]:.1f} MPa", f"ten_years_high {years[1]:.1f} MPa")
        ),
    )


def _diameter_words(name: str, size: Summary) -> Words:
    """What one diameter was when the ring was decided."""
    return (
        f"{name} {fixed(size.mean_mm, 3)} mm",
        f"{name}_u {fixed(size.expanded_mm, 3)} mm",
        f"{name}_oval {fixed(size.ovality_mm, 3)} mm",
        f"{name}_n {size.n}",
    )


def decided_from(words: Words) -> Decided:
    """Read a ring back from the words of its answer; raises ValueError where one is missing."""

    def need(name: str) -> float:
        value = named(words, name)
        if value is None:
            raise ValueError(f"the accepted ring lacks its {name}")
        return value

    return Decided(
        ring=Ring(
            outside_diameter_mm=need("outside"),
            bore_mm=need("bore"),
            height_mm=need("height"),
            chamfer_mm=need("chamfer"),
            lower_chamfer_mm=need("lower_chamfer"),
            **{f"{name}_mm": named(words, name) or 0.0 for name in ("foot", "foot_bore", "corner")},
        ),
        gap=Gap(
            case_bore_mm=need("seat"),
            case_bore_u_mm=need("seat_u"),
            glass_mm=need("glass"),
            glass_u_mm=need("glass_u"),
            believed_mm=named(words, "gap"),
            believed_u_mm=named(words, "gap_u") or 0.0,
            to_20_mm=named(words, "to_20") or 0.0,
        ),
        band=Band(
            named(words, "squeeze_low") or USUAL_BAND.low_pct,
            named(words, "squeeze_high") or USUAL_BAND.high_pct,
        ),
        plastic=named_text(words, "plastic"),
        force_words=named_text(words, "press"),
        spares=int(named(words, "spares") or 0),
        at_hand=named_text(words, "at_hand"),
        walls_mm=several(words, "walls"),
        highest_mm=named(words, "highest"),
        lands_mm=named(words, "lands") or 0.0,
        shut=named_text(words, "shut"),
    )


def as_turned(job: Job, sizing: Sizing) -> Sizing:
    """The sizing of a ring that was turned before its readings were corrected, with the edges cut on it."""
    accepted = job.newest(keys.RING)
    if accepted is None:
        return sizing
    ring = decided_from(accepted.words).ring
    edges = {"chamfer_mm": ring.chamfer_mm, "lower_chamfer_mm": ring.lower_chamfer_mm}
    return replace(sizing, ring=replace(sizing.ring, **edges))

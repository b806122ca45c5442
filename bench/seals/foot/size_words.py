"""How a ring with a foot is put before the repairer: the page of the straight ring, with what the foot adds.

Invariant: every figure that is shown is one of the sizing; what is not known is called unknown.
"""

from __future__ import annotations

from dataclasses import replace

from bench.job.kept import UNKNOWN
from bench.job.steps import Choice, Picture, Step, Why, Words
from bench.job.values import named
from bench.seals.foot import own_keys
from bench.seals.foot.measure_steps import HANGS, HOLDS
from rules.checks import fixed
from rules.foot.bearing import SPREADS
from rules.foot.sizing import FootSizing
from rules.gasket.sizing import GasketSizing
from rules.lengths import bare, length, short, size, translated

SOURCES = (
    "geometry",
    "bearing stress, force over area: mechanics of materials",
    "a strip in plane strain; how it spreads under the edge of the glass was fitted to finite elements",
)
"""Where the figures of a foot come from: its sizes, what it bears, how far it sinks."""


def with_foot(step: Step, foot: FootSizing, clamp: GasketSizing | None, lacks: str) -> Step:
    """The page on which the ring is accepted, with its foot; `lacks`: what the shop lacks to turn it."""
    accept, *others = step.choices
    kept = accept.with_it
    high = (named(kept, "height") or 0.0) + foot.thick_mm
    whole = (*(word for word in kept if not word.startswith("height ")), f"height {fixed(high)} mm")
    ways = [
        *(one for one in others if one.word != "at_hand"),
        Choice("thick", "another thickness of the foot", goto=own_keys.THICK_WANTED),
        Choice("inside", "another inside of the foot", goto=own_keys.INSIDE_WANTED),
    ]
    _, squeezed, *rest = step.say
    checks = tuple(
        f"CHECK  {translated(text)}" for text in (*foot.warnings, *clamp_warnings(clamp), lacks) if text
    )
    return replace(
        step,
        say=(size_line(kept, high), foot_line(foot, high), squeezed, *rest),
        consequence=(*checks, *step.consequence, *follows(foot, clamp)),
        choices=(replace(accept, with_it=(*whole, *kept_words(foot, clamp))), *ways),
        picture=footed_section(step.picture, foot, high),
        why=f"{step.why} {WHY}",
        figures=(*step.figures, *figures(foot)),
    )


WHY = (
    "The wall seals, as that of a straight ring. The foot is as thick as the height wanted for the glass "
    "asks, and bears what the water pushes; it is no seal unless a bezel clamps it."
)


def size_line(kept: Words, high_mm: float) -> str:
    """The ring as a person reads it to the lathe."""
    outside, bore = (named(kept, name) or 0.0 for name in ("outside", "bore"))
    return f"outside {bare(outside)}, bore {size(bore)}, high {bare(high_mm)}"


def foot_line(foot: FootSizing, high_mm: float) -> str:
    """The foot, and the wall that stands on it."""
    thick, inside = bare(foot.thick_mm), bare(foot.inside_mm)
    wall = bare(high_mm - foot.thick_mm)
    return f"foot {thick} thick, inside {inside}; the wall on it {wall} high ({short()})"


def follows(foot: FootSizing, clamp: GasketSizing | None) -> Words:
    """Where the glass stands, what the water does, what a bezel does."""
    return (stands_words(foot), load_words(foot), *clamp_words(clamp))


def stands_words(foot: FootSizing) -> str:
    """Where the edge of the glass stands beside the rim."""
    if not foot.question.home:
        return "the glass hangs in the wall; down on the foot its edge would stand " + beside_rim(foot)
    return f"home on the foot the edge of the glass stands {beside_rim(foot)}"


def beside_rim(foot: FootSizing) -> str:
    """Over, under or level with the rim."""
    over = foot.stands_over_mm
    if abs(over) < 0.005:
        return "level with the rim"
    return f"{length(abs(over))} {'over' if over > 0 else 'under'} the rim"


def load_words(foot: FootSizing) -> str:
    """What the water pushes with, what the foot bears, and how far it sinks."""
    bar, wide = f"{foot.question.pressure_bar:g} bar", bare(foot.bearing.width_mm)
    bears = f"{foot.stress_mpa:.0f} MPa on a foot {wide} wide"
    carries = bears if foot.question.home else f"once down on the foot {bears}"
    push = f"{bar} push the glass with {foot.load_n:.0f} N: {carries}"
    now, years = foot.sinks_mm, foot.years_mm
    if now is None and not foot.gives_way:
        return f"{push}; how it sinks is {UNKNOWN}"
    if now is None or foot.gives_way:
        return f"{push}; it gives way {foot.gives_way}"
    later = f", {length(years, 3)} in ten years of it" if years is not None else f", in years {UNKNOWN}"
    return f"{push}; goes down {bare(now, 3)} at once{later} (estimate)"


def clamp_words(clamp: GasketSizing | None) -> Words:
    """What the bezel does to the foot."""
    if clamp is None:
        return ()
    later = "" if clamp.later_mpa is None else f", after years about {min(clamp.later_mpa):.1f}"
    drive = clamp.question.drive
    return (
        f"as a flat gasket: {translated(drive.words)}, gives {drive.low_n:.0f} to {drive.high_n:.0f} N; "
        f"presses with {clamp.state.pressure_mpa:.1f} MPa{later} (estimate)",
    )


NOT_COUNTED_ON = "the wall seals, what the foot adds is not counted on"
"""Of a foot that a bezel clamps: page and papers say the same."""


def clamp_warnings(clamp: GasketSizing | None) -> Words:
    """The needs of a flat gasket that it does not meet."""
    return () if clamp is None else tuple(f"clamped, as a flat gasket: {need}" for need in clamp.broken)


def kept_words(foot: FootSizing, clamp: GasketSizing | None) -> Words:
    """Everything that is decided with a foot, as it is written."""
    one = foot.question
    years = () if foot.years_mm is None else (f"sinks_years {foot.years_mm:.4f} mm",)
    return (
        f"foot {fixed(foot.thick_mm)} mm",
        f"foot_bore {fixed(foot.inside_mm)} mm",
        f"corner {fixed(one.bevel_mm)} mm",
        f"ledge {fixed(one.ledge_mm, 3)} mm",
        f"carries {HOLDS if one.home else HANGS}",
        f"stands_over {fixed(foot.stands_over_mm)} mm",
        f"load {foot.load_n:.0f} N",
        f"bears {foot.stress_mpa:.1f} MPa",
        *(() if foot.sinks_mm is None else (f"sinks {foot.sinks_mm:.4f} mm",)),
        *years,
        *(() if clamp is None else (f"clamp_presses {clamp.state.pressure_mpa:.1f} MPa",)),
    )


def footed_section(picture: Picture | None, foot: FootSizing, high_mm: float) -> Picture | None:
    """The numbers of the section with the foot under wall and glass."""
    if picture is None:
        return None
    numbers = dict(picture.numbers)
    numbers |= {"height_mm": high_mm, "seat_depth_mm": foot.question.seat_depth_mm}
    numbers |= {
        "foot_mm": foot.thick_mm,
        "foot_bore_mm": foot.inside_mm,
        "glass_edge_mm": foot.question.edge_mm,
    }
    return replace(picture, numbers=tuple(numbers.items()))


def figures(foot: FootSizing) -> tuple[Why, ...]:
    """Where the figures of the foot come from."""
    one, bears = foot.question, foot.bearing
    geometry, bearing, strip = SOURCES
    found = [
        Why(
            f"foot {length(foot.thick_mm)}",
            "seat + height over the rim - edge of the glass",
            f"seat {length(one.seat_depth_mm)}, over {length(one.over_mm)}, edge {length(one.edge_mm)}",
            geometry,
        ),
        Why(
            f"bears {foot.stress_mpa:.1f} MPa",
            "pressure x area of the glass / area of the bearing",
            f"glass {length(one.glass_mm)}, bearing {bare(bears.inside_mm)} to {length(bears.outside_mm)}",
            bearing,
        ),
    ]
    if foot.sinks_mm is not None:
        formula = (
            f"thickness x stress (1 - nu^2) / (E (1 + {SPREADS:g} thickness / width)), by the plastic's curve"
        )
        inputs = f"width {length(bears.width_mm)}, thickness {length(foot.thick_mm)}"
        found.append(Why(f"goes down {length(foot.sinks_mm, 3)}", formula, inputs, strip))
    return tuple(found)

"""What an answer of the sizing says in several places, held against itself: nothing may deny another.

Each claim reads what a person reads, warnings, window, remedies, lines of the command, page of the ring and
the verdict after the cut, and yields in words what cannot both be true.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from bench.commands.size_text import lines
from bench.seals.ring.decided import Decided, decided_from, decided_words as decided_words
from bench.seals.ring.hand import Hand, Judged, judge, judged
from bench.seals.ring.measure import Measured
from bench.seals.ring.size_words import consequences, follows
from bench.shop.shop import built_in
from rules import limits
from rules.measuring.instruments import walls_by
from rules.measuring.reading import Summary
from rules.sizing.decision import DOES_NOT, FITS
from rules.sizing.sizing import Sizing

PAIRS = (
    ("the ring is loose", "will stay stretched"),
    ("the ring is loose", "more than the press gives"),
    ("the ring is loose", "higher than its room"),
    ("outside larger", "outside smaller"),
    ("wall under 0.30", "gap over 1.2"),
    ("may leak", "may shave"),
    ("may leak", "under the smallest"),
    ("may shave", "over the largest"),
)
"""Pairs of warnings that would say the opposite of each other."""
SPOILS = (
    *("the ring is loose", "it may leak", "may shave", "bore under the smallest", "bore over the largest"),
    *("no bore meets", "will stay stretched", "higher than its room", "more than the press gives"),
)
"""Warnings that no ring inside its window may have."""
YEARS = "after ten years, under"
"""In the warning of a bezel that may stay stretched."""
NOISE = 1e-6
ROUNDED_MM = 0.0006
"""What writing seat, glass and wall to a thousandth moves."""
Claim = Callable[[Sizing], Iterator[str]]


BY = walls_by(built_in().instruments)[0]
"""What the walls are measured with."""


def inside(answer: Sizing) -> bool:
    """Whether the ring lies in its window."""
    window, bore = answer.window, answer.ring.bore_mm
    if window.bore_low_mm is None or window.bore_high_mm is None:
        return False
    return window.bore_low_mm - NOISE <= bore <= window.bore_high_mm + NOISE


def proposed(answer: Sizing) -> bool:
    """Whether the ring is the sizing's own."""
    return answer.resolved.question.bore_mm is None


def warnings(answer: Sizing) -> Iterator[str]:
    """Warnings among themselves, and beside window and figures."""
    said, window = " | ".join(answer.warnings), answer.window
    for one, other in PAIRS:
        if one in said and other in said:
            yield f"{one} / {other}"
    if len(set(answer.warnings)) != len(answer.warnings):
        yield "the same warning twice"
    if window.feasible == ("no bore meets every requirement" in said):
        yield "window open / no bore works"
    if inside(answer):
        for words in SPOILS:
            if words in said:
                yield f"inside its window / {words}"
    elif window.feasible and not any(words in said for words in SPOILS):
        yield "outside its window / no warning"
    for found in re.finditer(r"squeeze ([\d.]+) %, (under|over) ([\d.]+) %", said):
        if (float(found[1]) < float(found[3])) != (found[2] == "under") or found[1] == found[3]:
            yield f"printed {found[0]}"
    for found in re.finditer(r"needs about (\d+) N, more than the press gives \((\d+) N\)", said):
        if int(found[1]) <= int(found[2]):
            yield f"printed {found[0]}"


def bezel(answer: Sizing) -> Iterator[str]:
    """What the bezel does, in words, warnings and figures."""
    fit, words = answer.fit, answer.consequences.stretch_words
    said = any("will stay stretched" in one for one in answer.warnings)
    if said != (words == "will stay stretched") or said != bool(fit.case_yields):
        yield f"bezel {words} / {'a' if said else 'no'} warning that it stays stretched"
    if words == "springs back" and (fit.stretched or fit.perhaps):
        yield "springs back / figures of a stretched bezel"
    if words == "will stay stretched" and fit.stretched is None:
        yield "will stay stretched / elastic figures"
    if fit.stretched is not None and not fit.stretched.set_um > 0.0:
        yield "will stay stretched / by nothing"


def window(answer: Sizing) -> Iterator[str]:
    """Window, band, aim and chances."""
    found, outside = answer.window, answer.ring.outside_diameter_mm
    if proposed(answer) and found.feasible and not inside(answer):
        yield "proposed / outside its own window"
    for one in (found.chance, found.ring_chance, found.tenth_chance, found.nine_chance):
        if not 0.0 <= one <= 1.0:
            yield "a chance that is none"
    if found.bore_low_mm is None or found.bore_high_mm is None or found.target_bore_mm is None:
        return
    if not found.bore_low_mm - NOISE <= found.target_bore_mm <= found.bore_high_mm + NOISE:
        yield "aim / outside the window"
    for bore, squeeze in ((found.bore_high_mm, found.band.low_pct), (found.bore_low_mm, found.band.high_pct)):
        wall = (outside - bore) / 2.0
        if abs(100.0 * (wall - answer.fit.gap_mm) / wall - squeeze) > 0.001:
            yield "band / another band by the bores"
    if proposed(answer) and abs(found.ring_chance - found.chance) > NOISE:
        yield "chance of the aim / another for the ring proposed with it"
    for bore, chance in (
        (answer.thumb.tenth_bore_mm, found.tenth_chance),
        (answer.thumb.nine_bore_mm, found.nine_chance),
    ):
        lies = found.bore_low_mm <= round(bore, 2) <= found.bore_high_mm
        if lies and chance > found.chance + 0.005 and not _off_step(answer):
            yield "best aim / a rule of thumb inside the window has a better chance"


def _off_step(answer: Sizing) -> bool:
    """Whether the lathe cannot cut every hundredth."""
    return answer.resolved.question.lathe_step_mm > limits.SIZE_STEP_MM + NOISE


def remedies(answer: Sizing) -> Iterator[str]:
    """What would help: something new, better than now, and named where it is needed."""
    found, question = answer.window, answer.resolved.question
    poor = not found.feasible or found.ring_chance < 0.5
    if poor != bool(found.help):
        yield "poor chance / nothing said" if poor else "good chance / something would help"
    if answer.remedies and any("nothing tried helps" in one for one in found.help):
        yield "nothing helps / a remedy"
    for one in answer.remedies:
        if one.chance < found.ring_chance + 0.01:
            yield f"remedy / no better: {one.said}"
        now, then = replace(question, bore_mm=None, tried=()), replace(one.question, tried=())
        lower = (one.ring.height_mm, one.ring.bore_mm) != (answer.ring.height_mm, answer.ring.bore_mm)
        if now == then and not lower:
            yield f"remedy / is so already: {one.words}"
        for number, value in _named(one.words, question):
            if value is not None and abs(number - value) < NOISE:
                yield f"remedy / is so already: {one.words}"
    truing = [one for one in answer.remedies if re.fullmatch(r"truing the seat[^,]*", one.words)]
    if truing and any("truing it alone would not" in one for one in answer.warnings):
        yield "truing helps / truing does not help"


def _named(words: str, asked: object) -> Iterator[tuple[float, float | None]]:
    """What a remedy names, and what stands there now."""
    for shape, field in (
        (r"truing the seat to ([\d.]+)", "ovality_mm"),
        (r"measuring the seat to ([\d.]+)", "case_bore_u_mm"),
        (r"measuring the glass to ([\d.]+)", "glass_u_mm"),
        (r"a glass of ([\d.]+) mm", "glass_mm"),
        (r"a press of ([\d.]+) N", "press_force_n"),
        (r"a test at ([\d.]+) bar", "overpressure_bar"),
    ):
        for found in re.finditer(shape, words):
            yield float(found[1]), getattr(asked, field)


def limits_met(answer: Sizing) -> Iterator[str]:
    """The figures of a ring inside its window, beside the limits of the window."""
    fit, demands = answer.fit, answer.resolved.demands
    if not inside(answer) or demands.joint.rigid:
        return
    room, press, height = demands.room_mm, demands.press_force_n, answer.ring.height_mm or 0.0
    if fit.contact_pressure_10y_mpa is not None and fit.contact_pressure_10y_mpa < 10.0 - 1e-4:
        yield f"window of 10 MPa after ten years / {fit.contact_pressure_10y_mpa:.2f} MPa"
    least = fit.ten_years_mpa
    warned = any(YEARS in one for one in answer.warnings)
    if warned != (least is not None and round(least[0], 6) < 10.0 and fit.perhaps is not None):
        yield f"ten years {least} / {'a' if warned else 'no'} warning of it"
    force = fit.seating_force_n.mid
    if press is not None and force is not None and force > press * (1.0 + 1e-6):
        yield "window of the press / more force"
    if room is not None and height + (fit.axial_growth_mm or 0.0) > room + 1e-6:
        yield "window of the room / grows higher"
    keyed = demands.joint.case_yield_mpa
    if keyed is not None and (fit.case_hoop_stress_mpa or 0.0) > keyed * (1.0 + 1e-6):
        yield "window of the yield / over it"


def glass(answer: Sizing) -> Iterator[str]:
    """Words of the glass beside its figures."""
    pane, bar = answer.glass, answer.resolved.question.overpressure_bar
    found = re.search(r"about (\d+) MPa, (above|below) the published design stress of ([\d.]+)", pane.words)
    if found:
        if pane.stress_supported_mpa is None or pane.design_stress_mpa is None:
            yield "a stress in words / not known"
        elif (pane.stress_supported_mpa > pane.design_stress_mpa) != (found[2] == "above"):
            yield "above / below the design stress"
        reached = pane.pressure_at_design_bar
        if reached is not None and bar is not None and (bar > reached) != (found[2] == "above"):
            yield "stress / pressure at the design stress"
    if not found and pane.stress_supported_mpa is not None and pane.design_stress_mpa is not None:
        yield "stress known / not in words"


def measured(answer: Sizing) -> Measured:
    """Seat and glass as the bench hands them to the sizing."""
    asked = answer.resolved.question

    def size(mean: float, good_to: float) -> Summary:
        return Summary(round(mean, 3), 4, 0.0, 0.0, good_to / 2.0, math.inf, good_to, ())

    return Measured(
        seat=size(asked.case_bore_mm, asked.case_bore_u_mm or 0.0),
        glass=size(asked.glass_mm, asked.glass_u_mm or 0.0),
        oval_mm=asked.ovality_mm or 0.0,
        glass_material=None,
        seat_depth_mm=asked.seat_depth_mm or 1.0,
        glass_edge_mm=asked.glass_edge_mm,
        temperature_c=asked.temperature_c or 20.0,
        gap_keys=(),
        keys=(),
    )


def kept(answer: Sizing) -> Decided:
    """The ring as it is written when it is accepted, read back."""
    return decided_from(decided_words(measured(answer), answer, "0"))


def page(answer: Sizing) -> Iterator[str]:
    """The page of the ring and the lines of the command beside the figures and each other."""
    words, command = "\n".join(consequences(measured(answer), answer)), "\n".join(lines(answer))
    opened = answer.window.feasible
    if opened == ("is usual" in words) or opened == ("no bore works" in command):
        yield "window open / page or command says it is not"
    shown = re.search(r"squeeze (-?[\d.]+) % of the wall", words)
    other = re.search(r"Squeeze: (-?[\d.]+) % of the wall", command)
    if not shown or not other or shown[1] != other[1]:
        yield "squeeze on the page / another in the command"
    years = re.search(r"presses with (\d+)(?: to (\d+))? MPa", words)
    told = re.search(r"after ten years: about ([\d or]+) MPa left", command)
    loose = answer.fit.interference_mm <= 0.0 or answer.fit.upper_bound
    if not loose and (years is None) != (told is None):
        yield "ten years known / not known"
    if years and told and {years[1], years[2] or years[1]} != set(told[1].split(" or ")) | {years[1]}:
        yield f"ten years {years[0]} / {told[0]}"
    bezel_words = re.search(r"bezel: ([^;]+);", "\n".join(follows(answer)))
    if bezel_words and not loose and f"Bezel: {bezel_words[1]}" not in command:
        yield "bezel on the page / another in the command"


def after_the_cut(answer: Sizing) -> Iterator[str]:
    """A ring cut to its bore: the verdict by its walls beside page, window and warnings."""
    decided, wall = kept(answer), round(answer.ring.wall_mm, 3)
    verdict = judged(BY, (wall,) * 4, decided.gap, decided.band, decided.shut)
    if abs(verdict.squeeze_pct - answer.fit.nominal_squeeze_pct) > 0.01 + 100.0 * ROUNDED_MM / wall:
        yield "squeeze of the page / another of the sheet for the wall as planned"
    if abs(decided.band.low_pct - answer.window.band.low_pct) > 0.001:
        yield "band of the page / another of the sheet"
    if inside(answer) and verdict.decision == DOES_NOT:
        yield "inside its window / does not fit"
    middle = answer.window.chance > 0.9 and proposed(answer)
    if middle and verdict.off:
        yield "good chance / by its wall it is off"
    if verdict.decision == FITS and not answer.window.feasible:
        yield "no bore works / it fits"
    if verdict.decision == FITS and answer.window.feasible and not inside(answer):
        yield "outside its window / it fits"


def at_hand(answer: Sizing) -> Iterator[str]:
    """The same ring as one that is there: its verdict beside the warnings."""
    question, ring = answer.resolved.question, answer.ring
    height = ring.height_mm
    if proposed(answer) or height is None or height < limits.RANGES["height"][0]:
        return
    hand = Hand("new", (round(ring.wall_mm, 3),) * 4, height, "lies", (), BY)
    found: Judged = judge(hand, measured(answer), question, ring.outside_diameter_mm)
    said = " | ".join(found.sizing.warnings)
    bad = [words for words in SPOILS if words in said and words != "higher than its room"]
    if found.fits and any(
        words in ("no bore meets", "it may leak", "may shave", "the ring is loose") for words in bad
    ):
        yield f"{found.verdict} / {bad[0]}"
    other = (("loose", "may shave"), ("tight", "may leak"))
    if any(one in found.verdict and denied in said for one, denied in other):
        yield f"{found.verdict} / {said}"
    if "it fits" in found.verdict and found.decision.off:
        yield "it fits / off by its wall"


CLAIMS: tuple[Claim, ...] = (
    *(warnings, bezel, window, remedies, limits_met, glass, page, after_the_cut, at_hand),
)


def contradictions(answer: Sizing) -> Iterator[str]:
    """Everything in one answer that cannot both be true."""
    for claim in CLAIMS:
        yield from (f"{claim.__name__}: {words}" for words in claim(answer))

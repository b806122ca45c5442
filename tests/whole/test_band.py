"""The band of squeezes is decided once, with the ring; every later page says the same of it."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from bench.job.values import named
from bench.seals.ring.decided import decided_from
from rules.sizing.squeeze import USUAL_BAND
from tests.whole.places import at
from tests.whole.repairer import Repairer, fresh

GAP_MM = (36.43 - 35.305) / 2
"""Of the invented watch: seat 36.42 and 36.44, glass 35.31 and 35.30."""
PLATED = {"case_wall": "2.0", "case_height": "2.0"}


def plated() -> Repairer:
    """A straight job in a bezel of plated brass, before its ring is accepted."""
    repairer = at("ring")
    repairer.give("metal")
    repairer.give("brass_plated")
    return repairer.on_to("ring", PLATED)


def ends(text: str) -> tuple[float, float]:
    """The two figures of `5.8 to 9` where a band is said."""
    found = re.search(r"(?:\(|band )(\d+(?:\.\d)?) to (\d+(?:\.\d)?)", text)
    assert found is not None, text
    return float(found[1]), float(found[2])


def said(repairer: Repairer) -> str:
    """What the page says follows."""
    return next(line for line in (*repairer.step.say, *repairer.step.consequence) if "queeze" in line)


def test_a_plated_bezel_keeps_its_band_from_the_size_page_to_the_press() -> None:
    repairer = plated()
    size_page = ends(said(repairer))
    words = repairer.step.choices[0].with_it
    written = named(words, "squeeze_low"), named(words, "squeeze_high")
    assert size_page == pytest.approx(written, abs=0.051) and size_page[1] < 9.0 < USUAL_BAND.high_pct
    repairer.on_to("wall_1")
    gauge = repairer.step.gauge
    assert gauge is not None
    squeezes = tuple(100 * (1 - GAP_MM / wall) for wall in (gauge.low, gauge.high))
    assert squeezes == pytest.approx(written, abs=0.01)
    repairer.on_to("ring_height", {f"wall_{place}": "0.640" for place in range(1, 5)})
    verdict = said(repairer)
    assert verdict.startswith("Squeeze 12.1 %") and ends(verdict) == size_page
    assert "It fits" not in verdict
    repairer.on_to(None, {"off_band": "press", "fit_outcome": "would_not_start"})
    offer = named(repairer.step.choices[0].with_it, "wall")
    assert offer is not None and 100 * (1 - GAP_MM / offer) <= (written[1] or 0.0) + 0.001


def test_the_page_says_of_the_squeeze_what_it_says_of_the_bores() -> None:
    """An oval of 0.02 takes a quarter of it off each end: 5.8 and 8.2 %, not 5 and 9."""
    repairer = plated()
    page = "\n".join(repairer.step.consequence)
    bores = re.search(r"bores that work: (\S+) \(9 % .*\) to (\S+) \(5 %", page)
    assert bores is not None
    squeezes = tuple(100 * (1 - 2 * GAP_MM / (36.43 - float(bore))) for bore in (bores[2], bores[1]))
    assert squeezes == pytest.approx(ends(said(repairer)), abs=0.85)
    assert squeezes[0] >= ends(said(repairer))[0] - 0.06 and squeezes[1] <= ends(said(repairer))[1] + 0.06


def test_a_ring_written_without_its_band_takes_the_usual_one() -> None:
    words = at("ring").step.choices[0].with_it
    older = tuple(text for text in words if not text.startswith(("squeeze_low", "squeeze_high")))
    assert len(older) == len(words) - 2
    assert decided_from(words).band != USUAL_BAND
    assert decided_from(older) == replace(decided_from(words), band=USUAL_BAND)


def test_where_no_bore_works_the_page_does_not_say_that_the_band_does() -> None:
    """Gap 0.15: the thinnest wall that can be turned is more than 13 % thicker."""
    seats = {"case_bore_1": "36.42", "case_bore_2": "36.42", "glass_1": "36.08", "glass_2": "36.08"}
    repairer = fresh().on_to("ring", seats)
    page = "\n".join(repairer.step.consequence)
    assert "no bore meets every requirement" in page and "works" not in said(repairer)

"""The ring after one that failed: worked out from its walls as measured,
for that seat and that glass alone.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from bench.job.values import named
from rules.sizing.question import SizingQuestion
from rules.sizing.sizing import size
from tests.campaigns.lathe_walks import remembered
from tests.whole.places import SHORTEST, at, bore_of
from tests.whole.repairer import Repairer

GAP_MM = (36.43 - 35.305) / 2
"""Of the invented watch: seat 36.42 and 36.44, glass 35.31 and 35.30."""
OUTSIDE_MM = 36.43


@pytest.fixture(autouse=True)
def _remembered() -> Iterator[None]:
    with remembered():
        yield


def tried(repairer: Repairer, wall: str, outcome: str) -> Repairer:
    """The ring on the lathe measured with this wall at four places, and what happened under the press."""
    walls = {f"wall_{place}": wall for place in range(1, 5)}
    repairer.on_to("ring_height", walls).answer()
    if repairer.asked == "off_band":
        repairer.give("press")
    return repairer.on_to(None, {"fit_outcome": outcome})


def squeeze_pct(wall: float) -> float:
    """Nominal squeeze of a wall in the gap as measured."""
    return 100 * (1 - GAP_MM / wall)


def replaced(repairer: Repairer, key: str, reading: str) -> None:
    """Another reading in place of one that was answered."""
    repairer.pick("replace")
    repairer.pick_key(key)
    repairer.give(reading)


@pytest.mark.parametrize(
    ("wall", "outcome", "wanted"),
    # a quarter of the oval, 0.005, off each end of the band: 5.84 to 12.22 % nominal, begun at the nearer end
    [
        pytest.param("0.585", "too_easy", 0.618, id="3.8 %, so half of 5.84 to 12.22"),
        pytest.param("0.600", "too_easy", 0.620, id="6.25 %, half the way to 12.22: 9.2 %"),
        pytest.param("0.645", "would_not_start", 0.618, id="12.8 %, so half of 12.22 to 5.84"),
    ],
)
def test_the_next_ring_follows_from_the_walls_as_measured(wall: str, outcome: str, wanted: float) -> None:
    repairer = tried(at("wall_1"), wall, outcome)
    offer = next(choice for choice in repairer.step.choices if choice.word == "ring")
    said = " ".join(repairer.step.say)
    repairer.give("ring")
    bore = named(repairer.step.choices[0].with_it, "bore")
    assert bore is not None and f"bore {bore:.2f} mm" in offer.text
    assert (OUTSIDE_MM - bore) / 2 == pytest.approx(wanted, abs=0.0051)
    assert f"squeeze {squeeze_pct((OUTSIDE_MM - bore) / 2):.1f} %" in said
    assert f"squeeze {squeeze_pct((OUTSIDE_MM - bore) / 2):.1f} %" in " ".join(repairer.step.consequence)
    assert not any("CHECK" in text for text in repairer.step.consequence)


def test_without_room_in_the_band_no_ring_is_offered_before_measuring() -> None:
    repairer = tried(at("wall_1"), "0.640", "too_easy")
    assert [choice.word for choice in repairer.step.choices] == ["measure", "keep", "hand_back"]


@pytest.mark.parametrize("later", ["empty", "cased"])
def test_another_ring_later_repeats_no_old_bore(later: str) -> None:
    """Ring 1 too easy, ring 2 home and leaking:
    ring 3 has the wall that went home, not the bore of ring 2.
    """
    repairer = tried(at("wall_1"), "0.585", "too_easy")
    repairer.give("ring")
    tried(repairer, "0.630", "home")
    repairer.on_to("ring", {f"{later}_result": "fail", **SHORTEST, f"{later}_found": "ring"})
    repairer.on_to("lathe_hands")
    assert bore_of(repairer, 2) == pytest.approx(35.19)
    assert (OUTSIDE_MM - bore_of(repairer, 3)) / 2 == pytest.approx(0.630, abs=0.0051)


def test_rings_that_only_went_home_teach_nothing_of_the_gap() -> None:
    repairer = tried(at("wall_1"), "0.600", "home")
    repairer.on_to("ring", {"empty_result": "fail", **SHORTEST, "empty_found": "ring"}).on_to("lathe_hands")
    assert bore_of(repairer, 2) == bore_of(repairer, 1)


@pytest.mark.parametrize("keys", [("glass_1", "glass_2"), ("case_bore_1", "case_bore_2")])
def test_new_readings_start_from_themselves(keys: tuple[str, str]) -> None:
    """After both glass readings, or both of the seat, are replaced the ring
    is the one a new job would have.
    """
    repairer = tried(at("wall_1"), "0.600", "too_easy")
    repairer.give("ring")
    low = 35.36 if keys[0] == "glass_1" else 36.47
    for key, reading in zip(keys, (low, low + 0.01), strict=True):
        replaced(repairer, key, f"{reading:.2f}")
    repairer.on_to("ring")
    bore = named(repairer.step.choices[0].with_it, "bore")
    seat, glass = (36.43, low + 0.005) if keys[0] == "glass_1" else (low + 0.005, 35.305)
    assert bore is not None
    expected = size(
        SizingQuestion(case_bore_mm=seat, glass_mm=glass, ovality_mm=0.02 if keys[0] == "glass_1" else 0.01)
    )
    assert bore == pytest.approx(expected.ring.bore_mm, abs=0.0051)
    assert not any("CHECK" in text for text in repairer.step.consequence)


def test_a_keyed_outside_keeps_the_wall() -> None:
    """The bore goes with the outside that will be made:
    before the first ring, and after one that was tried.
    """
    first = at("ring")
    first.give("outside")
    first.type("36.46")
    bore = named(first.step.choices[0].with_it, "bore")
    assert bore == pytest.approx(bore_of(at("lathe_hands"), 1) + 0.03, abs=0.0101)
    second = tried(at("wall_1"), "0.585", "too_easy")
    second.give("ring")
    before = named(second.step.choices[0].with_it, "bore")
    second.give("outside")
    second.type("36.46")
    after = named(second.step.choices[0].with_it, "bore")
    assert before is not None and after == pytest.approx(before + 0.03)

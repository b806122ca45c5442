"""Verdicts on rings as made beside the same by numerical derivatives, over drawn walls and gaps."""

from __future__ import annotations

import random
from collections import Counter

import pytest

from rules.sizing.decision import ring_decision
from rules.sizing.squeeze import Band, Gap, gap_mm, squeeze_pct, wall_for_mm


def squeeze(wall: float, gap: float) -> float:
    """Interference over wall, per cent."""
    return 100.0 * (wall - gap) / wall


def by(quantity: str, wall: float, gap: float) -> float:
    """How the squeeze moves with one of the two, by a difference."""
    tiny = 1e-6
    moved = (wall + tiny, gap) if quantity == "wall" else (wall, gap + tiny)
    return (squeeze(*moved) - squeeze(wall, gap)) / tiny


@pytest.mark.parametrize("first", range(0, 400, 100))
def test_verdict_words_and_what_to_measure_better(first: int) -> None:
    seen: Counter[str] = Counter()
    for seed in range(first, first + 100):
        dice = random.Random(seed)
        gap, band = dice.uniform(0.3, 0.9), Band(dice.choice((5.0, 6.0)), dice.choice((9.0, 13.0)))
        mean = gap / (1 - dice.uniform(0.0, 0.18))
        walls = [mean + dice.uniform(-0.01, 0.01) for _ in range(4)]
        wall_u, gap_u = dice.choice((0.001, 0.006, 0.02)), dice.choice((0.001, 0.006, 0.02))
        wall = sum(walls) / 4
        found = ring_decision(walls_mm=walls, wall_u_mm=wall_u, gap_mm=gap, gap_u_mm=gap_u, band=band)
        of_wall, of_gap = abs(by("wall", wall, gap) * wall_u), abs(by("gap", wall, gap) * gap_u)
        half, at = (of_wall**2 + of_gap**2) ** 0.5, squeeze(wall, gap)
        assert found.squeeze_pct == pytest.approx(at) and found.squeeze_u_pct == pytest.approx(half, rel=1e-4)
        edges = [band.low_pct - half, band.low_pct + half, band.high_pct - half, band.high_pct + half]
        edges += [band.low_pct - of_wall, band.high_pct + of_wall]
        if min(abs(at - edge) for edge in edges) < 1e-3:
            continue
        inside = band.low_pct + half < at < band.high_pct - half
        outside = at < band.low_pct - half or at > band.high_pct + half
        verdict = "fits" if inside else "does_not" if outside else "undecided"
        off = "loose" if at + of_wall < band.low_pct else "tight" if at - of_wall > band.high_pct else ""
        better = None if verdict != "undecided" else "wall" if of_wall >= of_gap else "gap"
        assert (found.decision, found.off, found.measure_better) == (verdict, off, better), seed
        uneven = max(walls) - min(walls) > 0.5 * (wall - gap) > 0
        assert ("the bore is not central" in found.words) == uneven
        if verdict == "undecided":
            says = (
                f"By its wall it is too {off}"
                if off
                else "the wall (ball"
                if better == "wall"
                else "the gap (seat"
            )
            assert says in found.words
        else:
            assert found.words.partition(" %. ")[2].startswith(
                "It fits" if inside else f"It does not fit: too {off}"
            )
        seen[f"{verdict} {off}"] += 1
    for kind in ("fits ", "does_not loose", "does_not tight", "undecided "):
        assert seen[kind] >= 3, seen


def test_a_gap_from_seat_and_glass_and_as_taught() -> None:
    plain = Gap(case_bore_mm=31.46, case_bore_u_mm=0.03, glass_mm=30.44, glass_u_mm=0.04)
    assert plain.mm == pytest.approx(0.51) and plain.u_mm == pytest.approx(0.025)
    taught = Gap(
        case_bore_mm=31.46,
        case_bore_u_mm=0.03,
        glass_mm=30.44,
        glass_u_mm=0.04,
        believed_mm=0.52,
        believed_u_mm=0.01,
    )
    assert (taught.mm, taught.u_mm) == (0.52, 0.01)
    assert gap_mm(case_bore_mm=31.0, glass_mm=30.0) == 0.5
    assert squeeze_pct(wall_mm=0.5, gap_mm=0.45) == pytest.approx(10.0)
    assert wall_for_mm(squeeze_pct=10.0, gap_mm=0.45) == pytest.approx(0.5)
    assert list(Band(5.0, 10.0).walls_mm(0.45)) == pytest.approx([0.45 / 0.95, 0.5])
    assert Band().words == "5 to 13" and Band(5.0, 12.26).words == "5 to 12.3"

"""Ways through the tests of case and watch that are seldom gone, as scripts of `tests.whole.rare_ways`."""

from __future__ import annotations

from dataclasses import replace

from bench.shop.shop import Shop, built_in
from tests.whole.rare_ways import Rare

FAILED = "empty_pressure 2.0; empty_result fail"
DRY = "cased_pressure 2.0; cased_result pass; hand_back again"
"""A dry test of the watch passed, and another one begun."""


def signals(*um: str) -> str:
    """Readings of the gauge, and where it stands once the pressure is off."""
    return "; ".join(f"empty_signal_{n} {one}" for n, one in enumerate(um))


FALLING = signals("020.0", *(f"0{20.0 - n / 10:.1f}" for n in range(1, 13)))
"""A tenth of a micrometre from reading to reading."""


def strong() -> Shop:
    """A tester that gives readings and reaches 12.5 bar, equipped for divers' watches."""
    shop = built_in()
    return replace(
        shop, divers_equipped=True, tester=replace(shop.tester, largest_bar=12.5, gives="deflection")
    )


PROOFS: dict[str, Rare] = {
    "underpressure, stopped early": Rare(
        "empty_pressure",
        "empty_method underpressure; empty_minutes 12; empty_temperature 26; empty_hold start; "
        "empty_result not_judged; empty_unclear again; empty_check",
    ),
    "underpressure for less than is needed": Rare(
        "empty_pressure",
        "empty_method underpressure; empty_minutes 002; empty_hold start; empty_result not_judged;"
        "empty_unclear",
    ),
    "a bubble test that fails, keyed over": Rare(
        "empty_pressure",
        "empty_method bubble; empty_hold start; empty_result fail; /empty_result pass; "
        "empty_correction again; empty_check",
    ),
    "a fail that was keyed wrong": Rare(
        "empty_pressure",
        f"{FAILED}; /empty_result pass; empty_correction keyed_wrong; empty_result pass; renewed",
    ),
    "a search that ends at the glass": Rare(
        "empty_pressure",
        f"{FAILED}; hunt_kind; hunt_kind loose; hunt_glass_lifts yes; "
        "empty_found ring; leak_cause none; ring",
    ),
    "a search that ends with the case handed back": Rare(
        "empty_pressure", f"{FAILED}; empty_found hand_back"
    ),
    "a search that measures again": Rare(
        "empty_pressure", f"{FAILED}; empty_found measure; measure_again done; case_bore_1"
    ),
    "left in the middle of a hold": Rare(
        "empty_pressure", "empty_method underpressure; empty_hold start; again; empty_check"
    ),
    "left under pressure with a verdict to come": Rare(
        "empty_pressure", "empty_pressure 2.0; empty_hold start; again; empty_check"
    ),
    "water after a dry test": Rare(
        "cased_pressure",
        f"{DRY}; cased_method water_overpressure; cased_check; cased_hold start; cased_result fail; "
        "hunt_kind",
    ),
    "shallow water": Rare(
        "cased_pressure",
        f"{DRY}; cased_method shallow_immersion; cased_hold start; cased_result pass; cased_result pass; "
        "hand_back done",
    ),
    "the crown pulled and pushed under water": Rare(
        "cased_pressure",
        f"{DRY}; cased_method crown_force; cased_hold start; cased_result pass; hand_back done",
    ),
    "a warm plate and a cold drop": Rare(
        "cased_pressure",
        f"{DRY}; cased_method condensation; cased_hold start; cased_result pass; hand_back done",
    ),
    "a divers' watch": Rare(
        "marking",
        "marking divers_20; empty_pressure usual; empty_volume; empty_volume_exact 2.0; "
        + FALLING
        + "; empty_vented; empty_result",
        strong,
    ),
    "a gauge that stands outward once vented": Rare(
        "empty_pressure",
        f"empty_method dry_deflection; empty_volume; empty_volume_exact 2.0; {FALLING};"
        "empty_vented outward; empty_vented_by 001.0; empty_result pass; renewed",
    ),
    "a gauge that stands inward once vented": Rare(
        "empty_pressure",
        f"empty_method dry_deflection; empty_volume; empty_volume_exact 2.0; {FALLING};"
        "empty_vented inward; empty_vented_by 001.0; empty_result",
    ),
    "a glass with a short straight edge": Rare("ring", "glass_edge 1.10; ring"),
    "words alone on the case": Rare(
        "marking",
        "marking words_only; empty_pressure usual; empty_result not_judged; empty_unclear go_on; "
        "renewed all; cased_pressure",
    ),
    "a marking that is keyed": Rare(
        "marking",
        "marking_keyed 7.0; empty_pressure usual; empty_result pass; cased_pressure usual; "
        "cased_result pass; hand_back done",
    ),
    "a ring with a foot": Rare("hold", "hold foot; not_this_ring closed"),
    "a flat gasket that is clamped": Rare("hold", "hold clamped; not_this_ring closed"),
    "a glass that springs, closed": Rare("hold", "hold spring; not_this_ring closed"),
    "nobody knows how it is held": Rare("hold", "hold unknown; not_this_ring closed"),
    "a seat that is dented": Rare("bench", "bench dented; not_this_ring closed"),
    "no glass, and a seat out of round": Rare(
        "case_bore_1",
        "case_bore_1 3637; case_bore_2 3649; case_bore_3 3643; case_bore_4 3643; glass_1 usual;"
        "seat_depth 1.45; glass_order",
    ),
    "handed back the day after": Rare("hand_back", "hand_back"),
}
PAPERS = (
    "a ring with a foot",
    "a flat gasket that is clamped",
    "a glass that springs, closed",
    "nobody knows how it is held",
    "a seat that is dented",
    "a glass of another stock, as ordered",
    "a bought ring that is too high",
    "a bought ring likely too loose, pressed all the same",
    "a higher used ring as a pattern",
    "a glass corrected late",
    "two spares, the first ring shaved",
    "a ring that would not start, then shaved for no other cause",
    "an acrylic glass, given up",
    "glued in",
    "keyed over: it was keyed wrong",
    "a bubble test that fails, keyed over",
    "a search that ends with the case handed back",
    "shallow water",
    "a warm plate and a cold drop",
    "words alone on the case",
    "a marking that is keyed",
    "a divers' watch",
    "an outside past its size, with a smaller bore",
)
"""Ways, also of `tests.whole.rare_ways`, whose papers are kept."""

"""What would help where no bore works, or where the chance is poor, in the trade's words.

Invariant: a change is named only after it was tried on the same limits and opened the window.
"""

from __future__ import annotations

from dataclasses import replace

from rules import limits
from rules.sizing.demands import Demands, some_wall_works
from rules.sizing.resolved import AFTER_RINGS, Resolved
from rules.tables import plastics

POOR_CHANCE = 0.5
"""Under this even chance the aim is not worth cutting for (own judgement)."""


def measure_better(resolved: Resolved, reliefs: tuple[str, ...]) -> tuple[str, ...]:
    """What to work on when the window is there but the chance is poor: the budget, and what binds."""
    worst = max(resolved.budget.components, key=lambda one: one.share)
    words = {
        "case bore": "measure the seat more closely: compare with a micrometer, or turn a stepped plug",
        "glass": "measure the glass with a micrometer",
        AFTER_RINGS: "measure seat and glass again, more closely",
        "turning": "measure the wall before the last pass and correct it",
        "temperature": "let case, glass and instruments stand together until they are equally warm",
    }
    return (words[worst.name], *(relief for relief in reliefs if relief))


Change = tuple[str, Demands, float | None]
"""Words, the changed demands and the height of the ring."""


def _changes(demands: Demands, height_mm: float | None) -> list[Change]:
    """What could be done differently, simplest first."""
    joint = demands.joint
    tried: list[Change] = []
    if demands.ovality_mm > 0.0:
        tried.append(("true the bezel first", replace(demands, ovality_mm=0.0), height_mm))
    if demands.press_force_n is not None:
        tried.append(("a stronger press", replace(demands, press_force_n=None), height_mm))
    if joint.case_yield_mpa is not None:
        held = replace(demands, joint=replace(joint, case_yield_mpa=None))
        tried.append(("support the bezel under the seat while pressing", held, height_mm))
    low, high, _ = limits.RANGES["height"]
    for factor, words in ((0.75, "a lower ring"), (1.33, "a higher ring")):
        if height_mm is not None and low <= height_mm * factor <= high:
            other = height_mm * factor
            tried.append((f"{words}, about {other:.1f} mm", demands, other))
    if demands.overpressure_bar:
        words = "a lower test pressure, and venting slowly"
        tried.append((words, replace(demands, overpressure_bar=None), height_mm))
    for plastic in plastics().values():
        if plastic.advised and plastic.key != joint.plastic.key:
            other_joint = replace(joint, plastic=plastic)
            tried.append((f"another plastic: {plastic.name}", replace(demands, joint=other_joint), height_mm))
    return tried


def what_helps(demands: Demands, height_mm: float | None, clash: tuple[str, str]) -> tuple[str, ...]:
    """Changes that were tried and open the window: alone, or else two together; of plastics the first."""
    tried = _changes(demands, height_mm)
    found = [words for words, changed, height in tried if some_wall_works(changed, height)]
    others = [words for words in found if words.startswith("another plastic")]
    found = [words for words in found if words not in others[1:]]
    if found:
        return tuple(found)
    for k, (words, changed, height) in enumerate(tried[:4]):
        for more, further, other_height in _changes(changed, height)[k:]:
            if more != words and some_wall_works(further, other_height):
                return (f"{words}, and {more}",)
    return (f"nothing tried helps: {clash[0]} and {clash[1]} cannot both be met; check the sizes",)

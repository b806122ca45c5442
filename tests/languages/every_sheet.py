"""Sheets that between them say everything a customer's paper can say: each word that is asked of a language.

Invariant: sheets are those of the samples with single answers changed, as `bench.sheet.data` holds them.
"""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from pathlib import Path
from typing import Any, ClassVar

from bench.asking.bars import COLOURS
from bench.edits.stored import read
from bench.job.kept import HURRIED
from bench.job.statement import Statement
from bench.languages import ENGLISH, LANGUAGES
from bench.paper.customer import write_customers
from bench.paper.slip import write_slip
from bench.seals import SEALS
from bench.seals.gasket.kind import PLACES
from bench.seals.oring.kind import PLACES as ORING_PLACES
from bench.seals.ring.hand_steps import NEW
from bench.sheet.customer_text import customer_lines
from bench.sheet.data import sheet_data
from bench.sheet.proofs import LIMITS
from bench.sheet.slip import slip
from bench.sheet.tongue import TRANSLATION, Tongue
from bench.shop.shop import built_in
from bench.stages.whole import walk
from rules.gasket.materials import CUT, READY, gasket_materials
from rules.tables import plastics, rubbers
from rules.testing.methods import methods

Sheet = dict[str, Any]
SAMPLES = sorted((Path(__file__).resolve().parents[2] / "sample_sessions").glob("*.toml"))


def sample(path: Path) -> Sheet:
    """What the sheet of a sample says."""
    job, _ = read(path, shop := built_in())
    return sheet_data(job, finished=walk(job, shop).open is None)


def every_sheet() -> Iterator[Sheet]:
    """Sheets that bring about every statement."""
    own = [sample(path) for path in SAMPLES]
    finished = own[0]
    yield from own
    for changed in (*tests_changed(finished), *ring_changed(finished)):
        yield {**finished, **changed}
    of_kind = {**{one["seal"]: one for one in own}, finished["seal"]: finished}
    for changed in gasket_changed(of_kind["gasket"]):
        yield {**of_kind["gasket"], **changed}
    for changed in foot_changed(of_kind["foot"]):
        yield {**of_kind["foot"], **changed}
    for changed in oring_changed(of_kind["oring"]):
        yield {**of_kind["oring"], **changed}
    for seal, changed in endings():
        yield {**of_kind[seal], **changed}
    for changed in others():
        yield {**finished, **changed}


def tests_changed(sheet: Sheet) -> Iterator[Sheet]:
    """Every way in which a test may end, by every method, with and without a pressure."""
    last = sheet["tests"][-1]
    near = {"decision": "UNDECIDED"}
    ends: tuple[Sheet, ...] = (
        {"result": "pass", "stands": True},
        {"result": "fail", "stands": False},
        {"result": "not_judged", "stands": False, "at_local": None},
        {"result": "not_judged", "stands": False, "leak": near},
        {"result": "pass", "stands": False, "counts": False},
        {"result": "pass", "stands": False, "timed": HURRIED},
        {"result": "not_judged", "stands": False, "stopped_after_min": 4.0, "minutes": 10.0},
    )
    for end, bar in product(ends, (None, 2.0)):
        yield {"tests": [{**last, **end, "overpressure_bar": bar}]}
    for key in methods():
        yield {"tests": [{**last, **ends[0], "method": key}]}
    yield {"tests": [], "limits": dict.fromkeys(LIMITS, 2.0), "tester_number": "T 4", "retest": None}
    yield {"tests": [last], "tester_number": "T 4", "retest_soon": True, "renewed_in_search": ["back"]}
    yield {"marking": "bar_5", "marking_bar": 5.0, "marking_tested": True, "retest_soon": True}


def ring_changed(sheet: Sheet) -> Iterator[Sheet]:
    """Every plastic, colour and origin of a ring, what was measured of it and what that proves."""
    for plastic, colour in (*product(plastics(), (None,)), *product(("acetal", None), COLOURS)):
        yield {
            "ring": {**sheet["ring"], "plastic": plastic},
            "turned": {**sheet["turned"], "colour": colour},
            "at_hand": {**sheet["at_hand"], "what": NEW},
        }
    yield {
        "ring": {**sheet["ring"], "plastic": None},
        "turned": {**sheet["turned"], "colour": None},
        **AT_HAND,
    }
    for walls, height, final in product(([0.49], [0.49, 0.48], []), (0.9, None), (True, False)):
        mean = walls[0] if walls else None
        yield {
            "made": {**sheet["made"], "wall_mm": walls, "height_mm": height},
            "on_the_ring": {"wall_mean_mm": mean, "outside_on_bar_mm": 28.4, "outside_final": final},
        }
    yield {"turned": {**sheet["turned"], "spare": True}}
    for decision, shut in (("does_not", None), ("undecided", None), ("undecided", "shut"), ("fits", None)):
        yield {"made": {**sheet["made"], "decision": decision, "shut": shut}}
    for outcome in (None, "too_easy"):
        yield {"fitting": {"outcome": outcome, "at": None}, "fitted": False}


AT_HAND: Sheet = {
    "at_hand": {"what": NEW, "used_wall_mm": None, "used_height_mm": None, "made_after_it": False}
}


def gasket_changed(sheet: Sheet) -> Iterator[Sheet]:
    """Every material, place and origin of a gasket, and what was measured of it."""
    one, made, room = sheet["gasket"], sheet["made_gasket"], sheet["room"]
    for material, way in (*product(gasket_materials(), (READY,)), ("nbr", CUT)):
        yield {"gasket": {**one, "material": material, "way": way}}
    for joint in (*PLACES, None):
        yield {"room": {**room, "joint": joint}}
    for thick, mean in (([0.6], 0.6), ([], None)):
        wide = made["width_mm"] if thick else None
        yield {"made_gasket": {**made, "thickness_mm": thick, "mean_mm": mean, "width_mm": wide}}
    yield {"made_gasket": {**made, "off_its_band": True}}
    for outcome in (None, "torn"):
        yield {"laid": {"outcome": outcome, "at": None, "lid": None}, "fitted": False}


def oring_changed(sheet: Sheet) -> Iterator[Sheet]:
    """Every rubber, place and origin of an O-ring, and what was measured of it."""
    one, made, groove = sheet["oring"], sheet["measured_oring"], sheet["groove"]
    for place in (*ORING_PLACES, None):
        yield {"groove": {**groove, "place": place}}
    unread: Sheet = {"cord_mm": [], "inside_mm": None, "mean_mm": None}
    for changed in (unread, {"off_its_band": True}):
        yield {"measured_oring": {**made, **changed}}
    for outcome in (None, "cut"):
        yield {"put_in": {"outcome": outcome, "at": None, "with": None}, "fitted": False}
    for rubber in rubbers():
        yield {"oring": {**one, "material": rubber}}


def foot_changed(sheet: Sheet) -> Iterator[Sheet]:
    """A foot as measured at several places, at one, and not."""
    foot = sheet["foot"]
    for measured, mean in (([0.4, 0.41], 0.405), ([0.4], 0.4), ([], None)):
        yield {"foot": {**foot, "measured_mm": measured, "mean_mm": mean}}


def endings() -> Iterator[tuple[str, Sheet]]:
    """The seal, and every way in which a job of it may end, for every reason."""
    for seal in SEALS.values():
        for key, word in seal.endings:
            reasons = [f"{one}: {found}" for one, found in seal.reasons.get(key, {})]
            for because in (None, *reasons):
                yield seal.word, {"ended": f"{key}: {word}", "ended_because": because}


def others() -> Iterator[Sheet]:
    """Marking, other seals, old paint, the end of the job, and the days on which a month begins."""
    for reached, finished, tests in product((True, False), (True, False), ("kept", "none")):
        changed: Sheet = {"marking": "bar_5", "marking_bar": 5.0, "marking_tested": reached}
        yield {**changed, "finished": finished, **({"tests": []} if tests == "none" else {})}
    yield {"marking": "nothing", "marking_bar": None, "old_paint": True, "as_of": "2026-03-01T09:05:00+00:00"}
    for known, job in (("made_here", "214"), ("made_here", None), ("left", None), ("not_looked_at", None)):
        yield {"seals_of_watch": [{"seal": "back", "known": known, "job": job, "size": None}]}
    for renewed in ("glass", "none", "all"):
        yield {"renewed": renewed, "shop_name": "", "watch": "\u767d"}


@dataclass(frozen=True)
class Listening(Tongue):
    """English that remembers what it was asked for: each sentence, and the names of its statements."""

    heard: ClassVar[dict[tuple[str, ...], set[str]]] = {}
    """By its English words, one and several where they are counted."""
    names: ClassVar[set[str]] = set()

    def words(self, text: str) -> str:
        if text:
            self.heard.setdefault((text,), set())
        return super().words(text)

    def counted(self, one: str, several: str, n: int) -> str:
        self.heard.setdefault((one, several), set())
        return super().counted(one, several, n)

    def sentence(self, said: Statement) -> str:
        self.names.add(said.name)
        found = super().sentence(said)
        self.heard[(said.one, said.sentence) if said.one else (said.sentence,)].add(said.name)
        return found


def listened() -> tuple[dict[tuple[str, ...], set[str]], set[str]]:
    """Every sentence that a paper can say, with the names of its statements; and all these names."""
    ear = Listening(LANGUAGES[ENGLISH])
    ear.heard.clear()
    ear.names.clear()
    for sheet in every_sheet():
        customer_lines(sheet, ear)
        for said in slip(sheet):
            ear.sentence(said)
        if (drawn := SEALS[sheet["seal"]].drawing(sheet)) is not None:
            for words in (
                drawn.of,
                drawn.above,
                drawn.across,
                drawn.upright,
                *(one.words for one in drawn.leaders),
            ):
                ear.on_drawing(words)
    with tempfile.TemporaryDirectory() as folder:
        write_customers({**sheet, "finished": False}, Path(folder) / "sheet.pdf", tongue=ear)
        write_slip({**sheet, "finished": False}, Path(folder) / "slip.pdf", tongue=ear)
    ear.words(TRANSLATION)
    return dict(ear.heard), set(ear.names)

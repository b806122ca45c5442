"""What a sheet may claim, worked out anew from the raw session file; imports nothing of what it checks.

`complaints` takes the sheet's JSON, its text and the session file and names every claim that the entries do not hold.
"""

from __future__ import annotations

import math
import re
from datetime import datetime
from itertools import pairwise
from pathlib import Path
from typing import Any

from tests.independent.raw_session import Kept, figure, is_settled, kept_entries, largest_group, newest

CLOCK = ("12", "3", "1:30", "4:30", "6", "9", "7:30", "10:30")
ENDS = {
    ("hand_back", "done"),
    ("paint_go", "stop"),
    ("not_this_ring", "closed"),
    ("acrylic_anyway", "no"),
    ("no_ring", "closed"),
    ("cannot_turn", "closed"),
    ("remake", "hand_back"),
    ("empty_found", "hand_back"),
    ("cased_found", "hand_back"),
}
RESTED_ON = re.compile(
    r"(case_bore|glass)_\d+|(seat|glass)_way|plug_enters|plug_stays_out(_again)?|temperature|measure_again"
)
FORBIDDEN = ("waterproof", "water-proof", "conform", "guarantee", "complies", "certif", "original part,")
VOLUMES = {
    "empty": {"small": 1.5, "middle": 3.0, "large": 6.0, "chronograph": 4.0},
    "cased": {"small": 0.5, "middle": 1.0, "large": 2.0, "chronograph": 1.2},
}


class Claims:
    """One sheet against its file."""

    def __init__(self, sheet: dict[str, Any], text: str, path: Path) -> None:
        self.sheet, self.text = sheet, text
        self.head, self.all = kept_entries(path)
        self.answers = [one for one in self.all if one.kind == "answer"]
        borders = [one.n for one in self.all if one.kind == "mark" and one.key == "attempt"]
        edges = [0, *borders, 10**9]
        self.spans = [
            [one for one in self.answers if low < one.n < high]
            for low, high in pairwise(edges)
        ]
        self.now = self.spans[-1]
        self.found: list[str] = []
        self.tests = tests_in(self.now)

    def must(self, holds: bool, what: str) -> None:
        """Keep a complaint."""
        if not holds:
            self.found.append(what)

    def same(self, name: str, shown: object, own: object, within: float = 0.0) -> None:
        """A figure shown must be the one worked out."""
        if isinstance(shown, (int, float)) and isinstance(own, (int, float)):
            self.must(abs(shown - own) <= within + 1e-9, f"{name}: sheet says {shown}, entries give {own}")
        else:
            self.must(shown == own, f"{name}: sheet says {shown!r}, entries give {own!r}")

    def check(self) -> list[str]:
        """Every complaint."""
        self.same("attempt", self.sheet["attempt"], len(self.spans))
        self.same("number of attempts", len(self.sheet["attempts"]), len(self.spans))
        self.same("job", self.sheet["job"], self.head["job"])
        self.finished()
        self.measured()
        self.ring()
        self.made()
        self.tested()
        self.proved()
        self.before()
        self.words()
        return self.found

    def finished(self) -> None:
        """A job is finished only behind an answer that ends it."""
        harmless = ("watch", "remark", "old_ring", "dial_ring")
        last = next((one for one in reversed(self.answers) if one.key not in harmless), None)
        marks = [one.n for one in self.all if one.kind == "mark" and one.key == "attempt"]
        ended = last is not None and (last.key, last.word) in ENDS and last.n > max(marks, default=0)
        self.same("finished", self.sheet["finished"], ended)
        tidy = last is not None and last.key == "hand_back"
        own = f"{last.key}: {last.word}" if last is not None and ended and not tidy else None
        self.same("ended", self.sheet["ended"], own)

    def measured(self) -> None:
        """Means, ovality and number of readings from the readings that agree."""
        ring = newest(self.answers, "ring")
        if ring and any(RESTED_ON.fullmatch(one.key) for one in self.answers if one.n > ring.n):
            ring = None
        for name, key in (("case_bore", "case_bore"), ("glass", "glass")):
            shown = self.sheet["measured"][name]
            if ring is None:
                self.must(
                    all(value is None for value in shown.values()), f"{name} shown, but nothing holds it"
                )
                continue
            way = newest(self.answers, "seat_way", ring.n)
            if name == "case_bore" and way and way.word == "stepped plug":
                self.by_plug(shown, ring.n)
                continue
            mean, ovality, count = self.diameter(key, ring.n)
            self.same(f"{name} mean", shown["mean_mm"], mean, 0.00051)
            self.same(f"{name} ovality", shown["ovality_mm"], ovality, 0.00051)
            self.same(f"{name} readings", shown["n"], count)
            self.must(shown["u_mm"] > 0.0, f"{name} without uncertainty")

    def by_plug(self, shown: dict[str, Any], before: int) -> None:
        """A seat found by a plug lies between its steps."""
        enters = newest(self.answers, "plug_enters", before)
        stays = newest(self.answers, "plug_stays_out", before)
        again = newest(self.answers, "plug_stays_out_again", before, stays.n if stays else 0)
        assert enters and stays
        high = max(figure(stays.word), figure(again.word) if again else 0.0, figure(enters.word) + 0.02)
        self.must(figure(enters.word) <= shown["mean_mm"] <= high + 1e-9, "plug: seat outside its steps")

    def readings(self, key: str, before: int) -> list[float]:
        """The readings of a diameter in order, as they stood."""
        again = newest(self.answers, "measure_again", before)
        taken = []
        for n in range(1, 30):
            one = newest(self.answers, f"{key}_{n}", before, again.n if again else 0)
            if one is None or one.word == "none":
                break
            taken.append(figure(one.word))
        return taken

    def diameter(self, key: str, before: int) -> tuple[float, float, int]:
        """Mean, ovality and number of the readings that agree."""
        values = self.readings(key, before)
        places: list[str] = []
        for n in range(len(values)):
            unsure = n >= 2 and not is_settled(values[:n], 0.20)
            distinct = len(dict.fromkeys(places))
            places.append(places[-1] if unsure else CLOCK[min(distinct, len(CLOCK) - 1)])
        used = largest_group(values, 0.20)
        by_place: dict[str, list[float]] = {}
        for i in used:
            by_place.setdefault(places[i], []).append(values[i])
        means = [sum(group) / len(group) for group in by_place.values()]
        return sum(values[i] for i in used) / len(used), max(means) - min(means), len(used)

    def ring_sizes(self, span: list[Kept]) -> tuple[float | None, float | None, Kept | None]:
        """Outside and bore of a span's ring, the smaller bore included."""
        ring = newest(span, "ring")
        if ring is None:
            return None, None, None
        sizes = {
            word.split()[0]: figure(word.split(" ", 1)[1])
            for word in ring.words
            if re.match(r"(outside|bore) ", word)
        }
        outside, bore = sizes["outside"], sizes["bore"]
        past = newest(span, "past_outside", after=ring.n)
        if past and past.word == "smaller_bore":
            read = [
                one for one in span if one.key.endswith(("outside_reading",)) or "outside_reading_" in one.key
            ]
            outside = figure([one for one in read if one.n < past.n][-1].word)
            bore = figure(past.words[1].split(" ", 1)[1])
        return outside, bore, ring

    def ring(self) -> None:
        """The ring shown is the ring of this attempt."""
        outside, bore, _ = self.ring_sizes(self.now)
        shown = self.sheet["ring"]
        self.same("outside", shown["outside_diameter_mm"], outside)
        self.same("bore", shown["bore_mm"], bore)
        own = None if outside is None or bore is None else (outside - bore) / 2
        self.same("wall of the ring", shown["wall_mm"], own, 0.0001)

    def made(self) -> None:
        """Walls, height and squeeze as measured on this ring."""
        made, outcome = self.sheet["made"], newest(self.now, "fit_outcome")
        outside, bore, ring = self.ring_sizes(self.now)
        later = [
            one.key
            for one in self.answers
            if outcome
            and one.n > outcome.n
            and (RESTED_ON.fullmatch(one.key) or re.fullmatch(r"wall_\d+|ring", one.key))
        ]
        heights = [figure(one.word) for one in self.now if re.fullmatch(r"ring_height(_\d+)?", one.key)]
        self.must(made["height_mm"] in (None, *heights), "height that was not keyed for this ring")
        if outcome is None or ring is None or outside is None or bore is None or later:
            self.must(not made["wall_mm"] and made["squeeze_pct"] is None, "walls shown that do not stand")
            return
        walls = self.walls(ring.n, outcome.n, (outside - bore) / 2)
        self.must(
            len(walls) == len(made["wall_mm"])
            and all(abs(a - b) < 0.00051 for a, b in zip(walls, made["wall_mm"], strict=True)),
            f"walls: sheet says {made['wall_mm']}, entries give {walls}",
        )
        way = newest(self.answers, "seat_way", ring.n)
        if way is None or way.word != "stepped plug":
            gap = (self.diameter("case_bore", ring.n)[0] - self.diameter("glass", ring.n)[0]) / 2
            wall = sum(walls) / len(walls)
            squeeze = 100 * (wall - gap) / wall
            self.same("squeeze", made["squeeze_pct"], squeeze, 0.006 + 100 * 0.0005 / wall)
        low, high = (made["squeeze_pct"] + sign * made["squeeze_u_pct"] for sign in (-1, 1))
        if made["decision"] == "fits":
            self.must(low >= 5 - 0.02 and high <= 13 + 0.02, "fits, but its interval leaves the band")

    def walls(self, after: int, before: int, planned: float) -> list[float]:
        """The walls that agree with one another and with the ring as planned."""
        values = []
        for n in range(1, 30):
            one = newest(self.now, f"wall_{n}", before, after)
            if one is None or one.word == "none":
                break
            values.append(figure(one.word))
        group = largest_group([planned, *values], 0.05)
        if is_settled([planned, *values], 0.05) and 0 in group:
            return [values[i - 1] for i in group if i]
        return [values[i] for i in largest_group(values, 0.05)]

    def tested(self) -> None:
        """Every test with what was raised, held and seen."""
        shown = self.sheet["tests"]
        self.same("number of tests", len(shown), len(self.tests))
        for n, (one, own) in enumerate(zip(shown, self.tests, strict=False), 1):
            for key in (
                "sitting",
                "method",
                "overpressure_bar",
                "result",
                "timed",
                "early",
                "counts",
                "stands",
                "at",
            ):
                self.same(f"test {n} {key}", one[key], own[key])
            self.must(
                one["minutes"] <= own["minutes"] + 1e-9, f"test {n}: {one['minutes']} min were not held"
            )
            self.must(
                own["full"] or one["stopped_after_min"] is not None, f"test {n}: stopped early, not said"
            )
            self.same(f"test {n} temperature", one["temperature_c"], own["temperature_c"])
            self.leak(n, one, own)

    def leak(self, n: int, one: dict[str, Any], own: dict[str, Any]) -> None:
        """The leak of a test with readings, by an own fit."""
        leak, signals = one["leak"], own["signals"]
        if own["method"] != "dry_deflection":
            self.must(leak is None and one["readings"] is None, f"test {n}: a leak without readings")
            return
        self.same(f"test {n} readings", one["readings"]["signals_um"], signals)
        self.must(
            one["readings"]["times_s"][-1] <= own["minutes"] * 60 + 1e-6, f"test {n}: readings past the hold"
        )
        if leak is None:
            self.must(one["result"] != "pass", f"test {n}: a pass without a leak rate")
            return
        low, high, rate = leak["low_ug_min"], leak["high_ug_min"], leak["rate_ug_min"]
        self.must(
            low <= rate and (high is None or rate <= high), f"test {n}: the rate lies outside its interval"
        )
        expected = {"PASS": "pass", "FAIL": "fail"}.get(leak["decision"], "not_judged")
        self.must(one["result"] in (expected, "not_judged"), f"test {n}: result and decision differ")
        if leak["decision"] == "PASS":
            self.must(high is not None and high <= 50.05, f"test {n}: PASS with {high} above the limit")
        if min(signals) >= max(own["step"], 0.1 * max(signals[:3])):
            fitted = own_rate(one["readings"]["times_s"], signals, own)
            self.same(f"test {n} leak", rate, fitted, 0.06 + 0.0005 * abs(fitted))

    def proved(self) -> None:
        """Marking, what was not tested, when to test again."""
        marking = self.marking()
        self.same("marking", self.sheet["marking_bar"], marking)
        cased = [one for one in self.tests if one["sitting"] == "cased" and one["stands"]]
        raised = [one["overpressure_bar"] for one in cased if one["overpressure_bar"] is not None]
        covered = marking is not None and max(raised, default=0.0) >= marking - 1e-9
        self.same("marking_tested", self.sheet["marking_tested"], covered)
        said = self.sheet["not_tested"]
        judged = [one for one in self.tests if one["counts"] and one["result"] in ("pass", "fail")]
        wet = any(one["method"] in ("water_overpressure", "shallow_immersion") for one in cased)
        expected = {
            f"The marking {marking:g} bar was not tested." if marking is not None else "": marking is not None
            and not covered,
            "The cased watch has not passed a test.": not cased,
            "It was not tested in water.": not wet,
            f"Nothing is said of pressures above {max(raised, default=0.0):g} bar.": bool(raised),
            "No overpressure was raised on the cased watch.": bool(cased) and not raised,
            "It passed only early, while the ring was settling: the test is to be repeated.": bool(cased)
            and all(one["early"] for one in cased),
            "The last test was a fail: as it stands the watch is not water-resistant.": bool(judged)
            and judged[-1]["result"] == "fail",
        }
        self.same("not_tested", sorted(said), sorted(words for words, holds in expected.items() if holds))
        day = cased[-1]["at"][:10] if cased else None
        retest = f"{int(day[:4]) + 1}{day[4:]}".replace("-02-29", "-02-28") if day else None
        self.same("retest", self.sheet["retest"], retest)

    def marking(self) -> float | None:
        """What the case says, in bar."""
        chosen = newest(self.answers, "marking")
        keyed = newest(self.answers, "marking_keyed", after=chosen.n if chosen else 0)
        if keyed and keyed.word != "as chosen":
            return figure(keyed.word)
        if chosen is None or chosen.word == "nothing":
            return None
        return 2.0 if chosen.word == "words_only" else figure(chosen.words[1])

    def before(self) -> None:
        """The rings before this one."""
        for n, (one, span) in enumerate(zip(self.sheet["attempts"], self.spans, strict=False), 1):
            outside, bore, _ = self.ring_sizes(span)
            outcome, spoiled = (
                newest(span, "fit_outcome"),
                newest(span, "spoiled") or newest(span, "fresh_ring"),
            )
            own = outcome.word if outcome else "spoiled" if spoiled else None
            self.same(f"ring {n} outcome", one["outcome"], own)
            self.same(f"ring {n} sizes", (one["outside_diameter_mm"], one["bore_mm"]), (outside, bore))
            results = [test["result"] for test in tests_in(span) if test["counts"]]
            self.same(f"ring {n} tests", [test["result"] for test in one["tests"]], results)

    def words(self) -> None:
        """The text claims nothing beyond the data."""
        text = " ".join(self.text.split())
        lower = text.lower()
        for word in FORBIDDEN:
            self.must(word not in lower, f"the text says {word!r}")
        raised = {one["overpressure_bar"] for one in self.tests}
        allowed = {*raised, self.sheet["marking_bar"], 2.0}
        for shown in re.findall(r"(\d+(?:\.\d+)?) bar", text):
            self.must(
                float(shown) in allowed, f"the text names {shown} bar, which was neither raised nor marked"
            )
        body = text.split(" Tested ")[-1].split(" To know ")[0]
        for word, result in (("PASS", "pass"), ("FAIL", "fail")):
            shown_times = len(re.findall(rf"(?<!\d\)): {word}\.", strip_leaks(body)))
            own = sum(one["result"] == result for one in self.tests)
            self.same(f"{word} in the text", shown_times, own)
        self.same("methods named", text.count("tested by method:"), len(self.tests))
        self.must(
            ("NOT FINISHED" in text) != self.sheet["finished"], "the text and the end of the job differ"
        )
        for sentence in (*self.sheet["not_tested"], *self.sheet["cautions"]):
            self.must(" ".join(sentence.split()) in text, f"the text leaves out: {sentence}")
        self.must("not an original part" in text, "the text does not say where the gasket comes from")


def strip_leaks(text: str) -> str:
    """The text without the decisions on leak rates, which are counted apart."""
    return re.sub(r"limit 50\): [A-Z ]+\.", "", text)


def tests_in(span: list[Kept]) -> list[dict[str, Any]]:
    """The tests of one ring from its answers: pressures, holds and results where they were given."""
    home = newest(span, "fit_outcome")
    found = []
    for place, result in enumerate(span):
        if result.key not in ("empty_result", "cased_result"):
            continue
        name = result.key.partition("_")[0]
        later = [one for one in span[place + 1 :] if one.key.startswith(f"{name}_") or one.key in SHARED]
        if any(one.key == result.key for one in takewhile_not(later, {f"{name}_hold"})):
            continue
        own = one_test(span, result, name)
        fresh = {f"{name}_{word}" for word in ("method", "found", "unclear")} | set(SHARED)
        rekeyed = any(one.key == f"{name}_pressure" for one in takewhile_not(later, fresh))
        own["counts"] = home is not None and result.n > home.n and not rekeyed
        found.append(own)
    fails = [n for n, one in enumerate(found) if one["counts"] and one["result"] == "fail"]
    for n, one in enumerate(found):
        one["stands"] = one["counts"] and one["result"] == "pass" and n > max(fails, default=-1)
    return found


SHARED = ("fit_outcome", "marking", "marking_keyed")


def takewhile_not(entries: list[Kept], stops: set[str]) -> list[Kept]:
    """The entries before the first with one of these keys."""
    out = []
    for one in entries:
        if one.key in stops:
            break
        out.append(one)
    return out


def one_test(span: list[Kept], result: Kept, name: str) -> dict[str, Any]:
    """What was raised, held and read before one result."""
    said = {word.split(" ", 1)[0]: word.split(" ", 1)[1] for word in result.words[2:]}
    hold, pressure = newest(span, f"{name}_hold", result.n), newest(span, f"{name}_pressure", result.n)
    warmth = newest(span, f"{name}_temperature", result.n)
    volume, exact = newest(span, f"{name}_volume", result.n), newest(span, f"{name}_volume_exact", result.n)
    step = newest(span, f"{name}_gauge_step", result.n)
    home = newest(span, "fit_outcome", result.n)
    assert hold is not None
    held = figure(hold.words[-1])
    at = result.words[1]
    took = minutes_between(hold.words[1], at)
    since = minutes_between(home.words[1], at) if home and home.word == "home" else None
    signals = []
    for n in range(40):
        read = newest(span, f"{name}_signal_{n}", result.n)
        if read is None:
            break
        signals.append(figure(read.word))
    with_pressure = said["method"] not in (
        "underpressure",
        "shallow_immersion",
        "crown_force",
        "condensation",
    )
    warm = warmth.word if warmth else "unknown"
    return {
        "sitting": name,
        "method": said["method"],
        "overpressure_bar": figure(pressure.word) if with_pressure and pressure else None,
        "minutes": held,
        "timed": "program" if hold.word == "start" else "keyed",
        "full": hold.word != "start" or took >= held - 0.06,
        "temperature_c": None if warm == "unknown" else figure(warm),
        "result": result.word,
        "at": at,
        "early": since is not None and since < 12 * 60,
        "signals": signals,
        "step": float(step.word) if step else 0.1,
        "volume": figure(exact.word)
        if exact and exact.word != "not measured"
        else VOLUMES[name][volume.word]
        if volume
        else None,
    }


def minutes_between(start: str, end: str) -> float:
    """Minutes from one moment to another."""
    return (datetime.fromisoformat(end) - datetime.fromisoformat(start)).total_seconds() / 60


def own_rate(times_s: list[float], signals: list[float], own: dict[str, Any]) -> float:
    """Leak in ug/min at 2 bar overpressure: least squares of the logarithm, air as an ideal gas, both flow laws."""
    logs = [math.log(one) for one in signals]
    mean_t, mean_y = sum(times_s) / len(times_s), sum(logs) / len(logs)
    slope = sum((t - mean_t) * (y - mean_y) for t, y in zip(times_s, logs, strict=True))
    slope /= sum((t - mean_t) ** 2 for t in times_s)
    bar, warm = own["overpressure_bar"], own["temperature_c"] if own["temperature_c"] is not None else 20.0
    density = 1188.4 * 293.15 / (273.15 + warm)  # ug per cm3 and bar, dry air at 20 C
    air = 1.01325
    laminar = ((2 + air) ** 2 - air**2) / ((bar + air) ** 2 - air**2)
    return float(-slope * 60 * own["volume"] * density * bar * max(2 / bar, laminar))


def complaints(sheet: dict[str, Any], text: str, path: Path) -> list[str]:
    """Everything the sheet claims that the session file does not hold; empty when it is honest."""
    return Claims(sheet, text, path).check()

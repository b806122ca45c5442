"""What the customer's page and the slip may claim, from their words and the raw session file alone."""

from __future__ import annotations

import re
from datetime import datetime
from pathlib import Path
from typing import Any

from tests.independent.claims_proof import UNDER_WATER, ProofClaims
from tests.independent.raw_session import Kept, newest

INTERNAL = re.compile(
    r"%|\bUTC\b|\b(squeeze|undecided|cased|sitting|attempt|last pass|on the bar|band|leak_|dry_|not opened"
    r"|waterproof|water-proof|conform|guarantee|complies|certif)",
    re.IGNORECASE,
)
"""What a customer's paper never says."""
WHAT = {"empty": "Empty case", "cased": "Finished watch"}
MONTHS = (
    *("January", "February", "March", "April", "May", "June", "July"),
    *("August", "September", "October", "November", "December"),
)
RENEWED = {
    "none": "none",
    "back": "back",
    "crown": "crown",
    "back_crown": "back and crown",
    "back_crown_tube": "back, crown and tube",
    "all": "back, crown, tube and pushers",
}
SEALS = ("glass", "back", "crown", "tube", "pushers")
SEARCHED = {
    "hunt_back": ("back",),
    "hunt_back_seal": ("back",),
    "hunt_crown_seal": ("crown",),
    "hunt_pushers": ("pushers",),
    "hunt_stem_seal": ("crown", "tube", "pushers"),
    "hunt_glass_seal": ("glass",),
}
"""Questions of a search that renew a seal, and which."""
OF_EACH = {
    "left": "Old seals that were looked at and left",
    "not_looked_at": "Seals that were not looked at",
    "new": "",
    "has_none": "",
}
"""What stands on the page of a seal by what is known of it; nothing of those that are empty."""
REASONS = {
    ("hold", "foot"): "on the foot of its ring",
    ("hold", "clamped"): "clamps the glass",
    ("hold", "spring"): "by its own spring",
    ("hold", "glued"): "was glued",
    ("hold", "unknown"): "how the glass is held is not known",
    ("bench", "pit"): "pit or scratch",
    ("bench", "dented"): "dented",
}
"""Why this ring was not the answer, in words that must stand on the page."""


class CustomerClaims(ProofClaims):
    """One customer's page, or one slip, against its file; `sheet` says only whether the job is finished."""

    def __init__(self, page: str, path: Path, *, finished: bool, is_slip: bool) -> None:
        super().__init__({}, page, path)
        self.finished, self.is_slip = finished, is_slip
        self.page = own_words_out(" ".join(page.split()), self.all)
        put = self.pressed(self.now)
        self.home = put if put is not None and put.word == "home" else None
        self.cased = [one for one in self.tests if one["sitting"] == "cased" and one["stands"]]
        self.early_only = bool(self.cased) and all(one["early"] for one in self.cased)

    def says(self, words: str, holds: bool) -> None:
        """Words stand on the paper where they hold, and nowhere else."""
        name = "the slip" if self.is_slip else "the customer's page"
        if (words in self.page) is not holds:
            self.found.append(f"{name} {'leaves out' if holds else 'says'}: {words}")

    def check(self) -> list[str]:
        """Every complaint."""
        for word in dict.fromkeys(found[0] for found in INTERNAL.finditer(self.page)):
            self.must(False, f"an internal word: {word}")
        self.pressures()
        self.again()
        self.marked()
        if self.is_slip:
            self.on_the_slip()
        else:
            self.on_the_page()
        return self.found

    def pressures(self) -> None:
        """No pressure but those that were raised, and the figure on the case."""
        marking = None if self.worded() else self.marking()
        allowed = {*(one["overpressure_bar"] for one in self.tests), marking}
        for shown in re.findall(r"(\d+(?:\.\d+)?) bar", self.page):
            self.must(float(shown) in allowed, f"{shown} bar was neither raised nor marked")

    def marked(self) -> None:
        """What stands on the case, a marking without a figure as that."""
        marking = self.marking()
        self.says('The case says "water-resistant", without a figure', self.worded())
        figured = marking is not None and not self.worded()
        self.says("The case is marked for", figured)
        if figured:
            self.says(f"The case is marked for {marking:g} bar", True)
            raised = max(
                (one["overpressure_bar"] or 0.0 for one in self.cased if of_marking(one)), default=0.0
            )
            self.says("The test reached that.", raised >= (marking or 0.0) - 1e-9)
            short, cased = (
                raised < (marking or 0.0) - 1e-9,
                any(one["sitting"] == "cased" for one in self.tests),
            )
            self.says("No test of the finished watch reached that.", short and cased)
            self.says("The finished watch was not tested.", short and not cased and self.finished)
            self.says("The finished watch is not tested yet.", short and not cased and not self.finished)

    def again(self) -> None:
        """One answer to when it is tested again."""
        by = f"{'Test again by' if self.is_slip else 'By'} "
        lead = re.search(rf"{by}(\d+ [A-Z][a-z]+ \d{{4}})", self.page)
        soon = re.search(r"\b[Ss]oon\b", self.page)
        self.must(not (lead and soon), "a date beside 'soon'")
        self.must("to be repeated" not in self.page, "a paper for the customer says: to be repeated")
        dated = bool(self.cased) and not self.early_only
        fitted = self.home is not None
        self.must(bool(soon) is (self.early_only and fitted), "soon, or the lack of it")
        self.must(bool(lead) is (dated and fitted), "a date for the next test, or the lack of it")
        if lead and dated:
            year, rest = self.cased[-1]["at"][:4], self.cased[-1]["at"][5:10].replace("02-29", "02-28")
            self.same("next test", lead[1], day(f"{int(year) + 1}-{rest}"))

    def local(self, result: dict[str, Any]) -> str:
        """When a test was over on the clock of the bench."""
        entry = next(
            one for one in self.now if one.key == f"{result['sitting']}_result" and said_at(one, result)
        )
        return moment(result["at"], entry.at)

    def on_the_page(self) -> None:
        """Tests, limits, fitting, cautions and the end of the job."""
        for one in self.tests:
            self.says(f"{WHAT[one['sitting']]}, {self.local(one)}: {ending_of(one)}", True)
        for word in ("passed", "did not pass", "not proved"):
            own = sum(word.lower() in ending_of(one).lower() for one in self.tests)
            shown = len(re.findall(rf"\d\d:\d\d: [^:]*?{word}", self.page, re.IGNORECASE))
            self.same(f"tests with {word!r}", shown, own)
        self.limits()
        ring = newest(self.now, "ring")
        ours = self.home is not None and not (ring and "at_hand new" in ring.words)
        self.says("The gasket was made in this workshop. It is not an original part.", ours)
        paint = newest(self.answers, "paint")
        self.says("may hold radium. Do not open the watch", paint is not None and paint.word != "none")
        self.fitted()
        self.closed()
        self.must(("NOT FINISHED" in self.page) is not self.finished, "page and end of the job differ")

    def limits(self) -> None:
        """What the tests do not prove; of a seal that is not in its place nothing is said."""
        fitted = self.home is not None
        raised = [one["overpressure_bar"] for one in self.cased if one["overpressure_bar"] is not None]
        judged = [one for one in self.tests if one["counts"] and one["result"] in ("pass", "fail")]
        wet = any(one["method"] in UNDER_WATER for one in self.cased)
        self.says("It was not tested in water.", fitted and not wet)
        self.says("The finished watch has not passed a test.", fitted and not self.cased)
        self.says("The last test was not passed", fitted and bool(judged) and judged[-1]["result"] == "fail")
        self.says("Nothing is said of pressures above", fitted and bool(raised))
        if raised:
            self.says(f"Nothing is said of pressures above {max(raised):g} bar.", fitted)
        self.says("It passed only while the gasket was still settling", fitted and self.early_only)
        failed = fitted and not self.cased
        self.says("Before it meets water: no test of the finished watch stands.", failed)

    def fitted(self) -> None:
        """When it went home, and the other seals."""
        self.says("home and level all round", self.home is not None)
        if self.home is not None:
            at = moment(self.home.words[1], self.home.at)
            self.says(f"home and level all round: {at}.", True)
        renewed = newest(self.now, "renewed")
        said = RENEWED.get(renewed.word, renewed.word) if renewed is not None else "none"
        new = {seal for seal in SEALS if seal in re.split(r"\W+|_", said)} | self.found_leaking()
        self.says("Other seals renewed", renewed is not None or bool(new))
        if renewed is not None or new:
            told = re.search(r"Other seals renewed: ([a-z, ]+)\.", self.page)
            self.must(
                told is not None and set(re.split(r", | and ", told[1])) == (new or {"none"}), "other seals"
            )

        self.of_each(renewed)

    def of_each(self, renewed: Kept | None) -> None:
        """What was said of each other seal: those of which nothing was said are not told of."""
        behind = renewed is not None and "said each" in renewed.words
        told: dict[str, set[str]] = {}
        for seal in SEALS:
            before = [one for one in self.now if behind and renewed is not None and one.n < renewed.n]
            said = newest(before, f"besides_{seal}")
            found = {"left", "not_looked_at"} if seal in self.found_leaking() else set[str]()
            if said is None or said.word in found:
                continue
            numbers = [word[4:] for word in said.words if word.startswith("job ")]
            keyed = newest(before, f"besides_{seal}_job")
            numbers += [keyed.word] if keyed is not None and keyed.n > said.n else []
            here = f"Made in this workshop too, in job {numbers[0]}" if numbers else "unknown"
            here = "Made in this workshop too" if "unknown" in here else here
            told.setdefault(OF_EACH.get(said.word, here), set()).add(seal)
        for words in (*OF_EACH.values(), *told):
            shown = re.search(rf"{re.escape(words)}: ([a-z, ]+)\.", self.page) if words else None
            given = set(re.split(r", | and ", shown[1])) if shown else set[str]()
            self.must(given == told.get(words, set()) or not words, f"what is said of each seal: {words}")
        made = sum(words.startswith("Made") for words in told)
        self.same("jobs of other seals", self.page.count("Made in this workshop too"), made)
        old = told.keys() & {OF_EACH["left"], OF_EACH["not_looked_at"]}
        dated = bool(self.cased) and not self.early_only and self.home is not None
        self.says("An old seal may begin to leak before that.", bool(old) and dated)

    def found_leaking(self) -> set[str]:
        """Seals that were tight once they were renewed in a search; a question answered otherwise leads
        elsewhere, and what was answered behind it no longer counts.
        """
        searches: list[dict[str, str]] = [{}]
        for one in self.now:
            given = searches[-1]
            if one.key.startswith("hunt_") and given.get(one.key, one.word) != one.word:
                for behind in list(given)[list(given).index(one.key) :]:
                    del given[behind]
            given[one.key] = one.word
            if one.key in ("empty_result", "cased_result"):
                searches.append({})
        return {
            seal
            for given in searches
            for key, seals in SEARCHED.items()
            for seal in seals
            if given.get(key) == "tight"
        }

    def closed(self) -> None:
        """A job closed since this ring is not the answer names what was found."""
        last = self.answers[-1] if self.answers else None
        if not self.finished or last is None or (last.key, last.word) != ("not_this_ring", "closed"):
            return
        words = [
            said
            for (key, word), said in REASONS.items()
            if (found := newest(self.answers, key)) and found.word == word
        ]
        self.must(any(word in self.page for word in words), f"the reason is not named: {words}")

    def on_the_slip(self) -> None:
        """The last fail, or the last pass that stands, with its pressure and day."""
        judged = [one for one in self.tests if ending_of(one) != "not proved"]
        failed = bool(judged) and judged[-1]["result"] == "fail"
        standing = [one for one in self.tests if one["stands"]]
        self.says("Last test not passed: not water-resistant as it stands.", failed)
        self.says("Not proved: no test was passed.", not standing and not failed)
        if standing and not failed:
            one = (self.cased or standing)[-1]
            bar = one["overpressure_bar"]
            held = f"held at {bar:g} bar over the room" if bar is not None else "passed"
            self.says(f"{WHAT[one['sitting']]}: {held}, {self.local(one)}", True)


def in_mm(text: str) -> str:
    """The text with lengths in inch turned into mm; a ten-thousandth of an inch is 0.0025 mm."""
    return re.sub(r"(\d+\.\d+) in\b", lambda one: f"{float(one[1]) * 25.4:.5f} mm", text)


def sizes_complaints(page: str, sheet: dict[str, Any]) -> list[str]:
    """Sizes on a customer's page against the sheet's data: measured as measured, the others as planned."""
    found, text = [], in_mm(" ".join(page.split()))
    close = 0.00051 if text == " ".join(page.split()) else 0.0014
    wall, high = sheet["on_the_ring"]["wall_mean_mm"], sheet["made"]["height_mm"]
    said = re.search(
        r"Measured on the ring: wall (\d+\.\d+) mm \((?:mean of (\d+) places|at one place)\)", text
    )
    if (said is None) is not (wall is None):
        found.append("the measured wall, or the lack of it")
    if (
        said
        and wall is not None
        and (abs(float(said[1]) - wall) > close or int(said[2] or 1) != len(sheet["made"]["wall_mm"]))
    ):
        found.append(f"wall {said[1]} at {said[2] or 1} places, the data give {wall}")
    tall = re.search(r"height (\d+\.\d+) mm", text)
    if tall and (high is None or abs(float(tall[1]) - high) > 0.0051):
        found.append(f"height {tall[1]}, the data give {high}")
    planned = re.search(
        r"Planned, not measured on the ring:(?: outside (\d+\.\d+) mm,)? bore (\d+\.\d+) mm", text
    )
    ring, final = sheet["ring"], sheet["on_the_ring"]["outside_final"]
    if sheet["turned"]["spare"]:
        if planned is not None:
            found.append("the sizes of a spare called planned")
        planned = re.search(
            r"It is a spare ring.*not measured on this one: outside (\d+\.\d+) mm, bore (\d+\.\d+) mm", text
        )
    if (planned is None) is not (ring["bore_mm"] is None):
        found.append("sizes called planned, or the lack of them")
    if planned and abs(float(planned[2]) - (ring["bore_mm"] or 0.0)) > close:
        found.append(f"bore {planned[2]}, the data give {ring['bore_mm']}")
    if planned and (planned[1] is None) is not final:
        found.append("an outside that was measured called planned, or the other way round")
    return found


def of_marking(test: dict[str, Any]) -> bool:
    """Whether a test tests the marking once its pressure was raised."""
    return test["method"] in ("dry_deflection", "dry_pass_fail", "water_overpressure")


def ending_of(test: dict[str, Any]) -> str:
    """How a test ended, in the words that must stand on the page."""
    bar = test["overpressure_bar"]
    at = f" at {bar:g} bar over the pressure of the room" if bar is not None else ""
    if not test["counts"] or test["result"] == "not_judged":
        return "not proved"
    if test["result"] == "fail":
        return f"did not pass{at}"
    return f"held{at}. Passed." if at else "passed."


def said_at(entry: Kept, test: dict[str, Any]) -> bool:
    """Whether an answer is the result of a test."""
    return len(entry.words) > 1 and entry.words[1] == test["at"] and entry.word == test["result"]


def moment(stamp: str, kept: str) -> str:
    """A time on the clock of the bench, by the offset of when the answer was kept."""
    at = datetime.fromisoformat(stamp).astimezone(datetime.fromisoformat(kept).tzinfo)
    return f"{day(at.date().isoformat())}, {at:%H:%M}"


def day(iso: str) -> str:
    """A day in English."""
    year, month, number = (int(part) for part in iso.split("-"))
    return f"{number} {MONTHS[month - 1]} {year}"


def own_words_out(text: str, entries: list[Kept]) -> str:
    """A page without what a person wrote on it, who may write anything."""
    for one in entries:
        if one.key in ("watch", "remark", "note") and one.word.strip():
            text = text.replace(" ".join(one.word.split()), "")
    return text


def customer_complaints(page: str, path: Path, sheet: dict[str, Any]) -> list[str]:
    """What the customer's page claims that the session file does not hold; empty when it is honest."""
    own = CustomerClaims(page, path, finished=sheet["finished"], is_slip=False).check()
    return [*own, *sizes_complaints(page, sheet)]


def slip_complaints(slip: str, path: Path, sheet: dict[str, Any]) -> list[str]:
    """The same of the slip."""
    return CustomerClaims(slip, path, finished=sheet["finished"], is_slip=True).check()

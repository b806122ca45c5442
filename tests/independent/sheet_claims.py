"""What a sheet may claim, worked out anew from the raw session file; imports nothing of what it checks.

`complaints` takes the sheet's JSON, its text and the session file and names every claim
that the entries do not hold.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from tests.independent.claims_over import OverClaims
from tests.independent.claims_proof import ProofClaims, tests_in
from tests.independent.claims_ring import RingClaims
from tests.independent.hand_claims import HandClaims
from tests.independent.raw_session import newest

ENDS = {
    ("hand_back", "done"),
    ("paint_go", "stop"),
    ("not_this_ring", "closed"),
    ("acrylic_anyway", "no"),
    ("no_ring", "closed"),
    ("cannot_turn", "closed"),
    ("gasket_not_here", "closed"),
    ("gasket_none_fits", "closed"),
    ("gasket_cannot_turn", "closed"),
    ("gasket_after", "hand_back"),
    ("oring_not_here", "closed"),
    ("oring_clue", "closed"),
    ("oring_none_fits", "closed"),
    ("oring_after", "hand_back"),
    ("remake", "hand_back"),
    ("empty_found", "hand_back"),
    ("cased_found", "hand_back"),
}
"""Answers after which nothing is left to do."""
FORBIDDEN = ("waterproof", "water-proof", "conform", "guarantee", "complies", "certif", "original part,")


class Claims(RingClaims, ProofClaims, OverClaims, HandClaims):
    """One sheet against its file."""

    def check(self) -> list[str]:
        """Every complaint."""
        self.same("attempt", self.sheet["attempt"], len(self.spans))
        self.same("number of attempts", len(self.sheet["attempts"]), len(self.spans))
        self.same("job", self.sheet["job"], self.head["job"])
        self.finished()
        self.measured()
        self.ring()
        self.on_the_ring()
        self.made()
        self.tested()
        self.timed_in_text()
        self.proved()
        self.before()
        self.over()
        self.by_hand()
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

    def before(self) -> None:
        """The rings before this one."""
        for n, (one, span) in enumerate(zip(self.sheet["attempts"], self.spans, strict=False), 1):
            outcome, spoiled = (
                self.pressed(span),
                newest(span, "spoiled") or newest(span, "fresh_ring"),
            )
            own = outcome.word if outcome else "spoiled" if spoiled else None
            self.same(f"ring {n} outcome", one["outcome"], own)
            self.same(f"ring {n} sizes", (one["outside_diameter_mm"], one["bore_mm"]), self.sizes_known(span))
            alone = [one for one in span if not one.key.startswith("seal_")]
            results = [test["result"] for test in tests_in(alone, self.sittings) if test["counts"]]
            self.same(f"ring {n} tests", [test["result"] for test in one["tests"]], results)

    def words(self) -> None:
        """The text claims nothing beyond the data."""
        text = " ".join(self.text.split())
        lower = text.lower()
        for word in FORBIDDEN:
            self.must(word not in lower, f"the text says {word!r}")
        raised = {one["overpressure_bar"] for one in self.tests}
        allowed = {*raised, self.sheet["marking_bar"], 2.0}
        tested = re.sub(r"hold\s+against\s+[\d.]+\s+bar", "", text)  # what a wall has to meet, no test
        for shown in re.findall(r"(\d+(?:\.\d+)?) bar", tested):
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
        outcome = self.pressed(self.now)
        fitted = outcome is not None and outcome.word == "home"
        ring = newest(self.now, "ring")
        ours = fitted and not (ring is not None and "at_hand new" in ring.words)
        said = "not an original part" in text
        self.must(
            said is ours, "the text says where a gasket comes from that was not fitted, or does not say it"
        )


def strip_leaks(text: str) -> str:
    """The text without the decisions on leak rates, which are counted apart."""
    return re.sub(r"limit 50\): [A-Z ]+\.", "", text)


def complaints(sheet: dict[str, Any], text: str, path: Path) -> list[str]:
    """Everything the sheet claims that the session file does not hold; empty when it is honest."""
    return Claims(sheet, text, path).check()

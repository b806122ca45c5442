"""What was keyed over: results and readings that were first given otherwise,
from the raw file to sheet and page.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path

from tests.independent.claims_ground import Ground, in_turn
from tests.independent.raw_session import Kept

WHAT = {"empty": "Empty case", "cased": "Cased watch", "fitting": "Fitting"}
SAID = {
    "pass": "PASS",
    "fail": "FAIL",
    "not_judged": "NOT JUDGED",
    "home": "home and level",
    "too_easy": "went in too easily",
    "would_not_start": "would not start",
    "shaved": "ring shaved",
    "chipped": "glass chipped",
    "bezel_moved": "bezel moved",
}
HOW = {
    "keyed_wrong": r"keyed wrong, read once more and keyed as {then}, {at}",
    "again": r"{then} keyed over it, {at}, did not count: (tested again|another ring was pressed)",
    "corrected": r"changed to {then}, {at}",
    "open": r"{then} keyed over it, {at}, does not count: not said yet whether .* or keyed wrong",
}
READ = re.compile(r"(signal_[1-9]\d*|vented|vented_by|volume|volume_exact|gauge_step|temperature)")


class OverClaims(Ground):
    """Corrected results in the data and on the workshop's page."""

    def over(self) -> None:
        """Every result that was keyed over stands in the data, and nothing else;
        so do readings keyed again.
        """
        own = [
            {
                "attempt": n,
                "what": what,
                "first": first.word,
                "first_at": utc(first),
                "then": then.word,
                "then_at": utc(then),
                "how": how,
            }
            for n, what, first, then, how in self.results_over()
        ]
        self.same("corrected results", self.sheet["corrections"], own)
        read = [
            {
                "attempt": n,
                "what": name,
                "reading": key,
                "first": was.word if was else None,
                "then": now.word,
                "then_at": utc(now),
            }
            for n, name, key, was, now in self.readings_over()
        ]
        self.same("readings keyed again", self.sheet["readings_changed"], read)
        self.must("first given" not in self.text, "the customer's sheet names corrected results")

    def results_over(self) -> list[tuple[int, str, Kept, Kept, str]]:
        """(ring, empty, cased or fitting, first, then, what was said of it), in the order of the file."""
        keys = {
            "empty": ("empty_result", "empty_correction", "empty_hold"),
            "cased": ("cased_result", "cased_correction", "cased_hold"),
            "fitting": ("fit_outcome", "fit_correction", "part"),
        }
        found = [
            (n, what, *trace)
            for n, span in enumerate(self.spans, 1)
            for what, (result, asked, border) in keys.items()
            for _, traces in in_turn(span, result, asked, border)
            for trace in traces
        ]
        return sorted(found, key=lambda one: one[3].n)

    def readings_over(self) -> list[tuple[int, str, str, Kept | None, Kept]]:
        """(ring, sitting, what, before, after) of what a verdict from readings rests on,
        keyed again in its hold.
        """
        found = []
        for n, span in enumerate(self.spans, 1):
            for name in ("empty", "cased"):
                holds = [one.n for one in span if one.key == f"{name}_hold"]
                for begun, end in pairwise([*holds, 10**9]):
                    verdicts = [
                        one.n
                        for one in span
                        if one.key == f"{name}_result"
                        and begun < one.n < end
                        and "method dry_deflection" in one.words
                    ]
                    for one in span:
                        key = one.key.removeprefix(f"{name}_")
                        if not (
                            READ.fullmatch(key)
                            and key != one.key
                            and begun < one.n < max(verdicts, default=0)
                        ):
                            continue
                        taken = key.startswith(("signal", "vented"))
                        earlier = [was for was in span if was.key == one.key and was.n < one.n]
                        was = earlier[-1] if earlier else None
                        if taken and (was is None or was.n < begun):
                            continue
                        if was is None or was.word != one.word:
                            found.append((n, name, key, was, one))
        return sorted(found, key=lambda one: one[4].n)


def utc(one: Kept) -> str:
    """When an answer was given."""
    stamped = len(one.words) > 1 and re.match(r"\d{4}-\d\d-\d\dT", one.words[1])
    moment = datetime.fromisoformat(one.words[1] if stamped else one.at)
    return moment.astimezone(UTC).isoformat(timespec="seconds")


def shown(one: Kept) -> str:
    """The same as a page shows it."""
    return utc(one)[:16].replace("T", " ") + " UTC"


def shop_complaints(page: str, path: Path) -> list[str]:
    """What the workshop's page hides or invents of results and readings that were keyed over;
    reads only the page.
    """
    ground = OverClaims({}, page, path)
    text = " ".join(page.split())
    over, read = ground.results_over(), ground.readings_over()
    for n, what, first, then, how in over:
        name = WHAT[what] if n == len(ground.spans) else f"Ring {n}, {WHAT[what][0].lower()}{WHAT[what][1:]}"
        ending = HOW[how].format(then=re.escape(SAID[then.word]), at=re.escape(shown(then)))
        sentence = f"{re.escape(f'{name}: first given as {SAID[first.word]}, {shown(first)}')}; {ending}"
        ground.must(re.search(sentence, text) is not None, f"the workshop's page hides: {sentence}")
    for _, _, _, was, now in read:
        first_words = was.word.replace("_", " ") if was else "as usual"
        sentence = (
            f"first {first_words}, keyed again after the hold had begun as "
            f"{now.word.replace('_', ' ')}, {shown(now)}"
        )
        ground.must(sentence in text, f"the workshop's page hides: {sentence}")
    ground.same("corrected results on the page", text.count("first given as"), len(over))
    ground.same("readings keyed again on the page", text.count("keyed again after the hold"), len(read))
    return ground.found

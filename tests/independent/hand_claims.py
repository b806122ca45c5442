"""What was changed by hand in a session file and accepted, from the raw file to data and page."""

from __future__ import annotations

import re
import tomllib
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from tests.independent.claims_ground import Ground

SIGNS = ("Changed by hand", "Missing in the file", "left out: entry", "Something was written into the file")
SENTENCE = {
    "changed": "Changed by hand{after}: entry {entry}, {key} is now {value}; accepted {at}.",
    "taken_back": (
        "Changed by hand{after}: entry {entry} takes back entry {takes_back}, {key} = {value}; accepted {at}."
    ),
    "missing": "Missing in the file{after}: entry {entry}; accepted {at}.",
}


class HandClaims(Ground):
    """Accepted edits in the data, on the workshop's page, and not on the customer's."""

    def by_hand(self) -> None:
        """Every edit that was accepted stands in the data, and nothing else."""
        self.same("changed by hand", self.sheet["changed_by_hand"], accepted_in(self.path))
        for sign in SIGNS:
            self.must(sign not in self.text, f"the customer's sheet says: {sign}")


def accepted_in(path: Path) -> list[dict[str, Any]]:
    """What the confirms of a raw file accepted, in their order."""
    raw = tomllib.loads(path.read_text(encoding="utf-8"))
    entries = {one["n"]: one for one in raw.get("entry", [])}
    found: dict[int, dict[str, Any]] = {}
    for one in entries.values():
        if one["kind"] == "confirm":
            found[one["of"]] = accepted_by(one, entries)
    return list(found.values())


def accepted_by(confirm: dict[str, Any], entries: dict[int, dict[str, Any]]) -> dict[str, Any]:
    """What one confirm accepted."""
    entry = entries.get(confirm["of"])
    undo = bool(entry and entry["kind"] == "undo")
    gap = re.fullmatch(r"missing (\d+)-(\d+)", str(confirm.get("value", "")))
    return {
        "entry": confirm["of"],
        "last": int(gap[2]) if gap else confirm["of"],
        "what": "missing" if gap else "taken_back" if undo else "changed",
        "after_end": is_over([one for one in entries.values() if one["n"] < confirm["n"]]),
        "key": entry["key"] if entry else None,
        "takes_back": entry["of"] if entry and undo else None,
        "value": shown(entry["value"]) if entry else None,
        "accepted_at": datetime.fromisoformat(confirm["at"]).astimezone(UTC).isoformat(timespec="seconds"),
    }


def is_over(before: list[dict[str, Any]]) -> bool:
    """Whether the last of some raw entries that says where the job stands says that it is over."""
    for one in reversed(before):
        words = one.get("value", "")
        for word in words if isinstance(words, list) else [words]:
            if str(word).startswith("stands "):
                return str(word) == "stands over"
    return False


def shown(value: object) -> str:
    """A value as a page shows it, decimal commas read as points."""
    words = [str(one) for one in (value if isinstance(value, list) else [value])]
    text = ", ".join(word for word in words if not word.startswith("stands "))
    text = re.sub(r"(\d),(\d)", r"\1.\2", text)
    return text if len(text) <= 60 else text[:57] + "..."


def page_complaints(page: str, path: Path) -> list[str]:
    """What the workshop's page hides or invents of edits; reads only the page."""
    text, own = " ".join(page.split()), accepted_in(path)
    hidden = []
    for one in own:
        number = one["entry"] if one["entry"] == one["last"] else f"{one['entry']} to {one['last']}"
        at = one["accepted_at"][:16].replace("T", " ") + " UTC"
        facts = {
            "takes_back": one["takes_back"],
            "key": one["key"],
            "value": one["value"],
            "after": " after the end" * one["after_end"],
        }
        sentence = SENTENCE[one["what"]].format(entry=number, at=at, **facts)
        if " ".join(sentence.split()) not in text:
            hidden.append(f"the workshop's page hides: {sentence}")
    said = sum(text.count(sign) for sign in SIGNS)
    return hidden + ([f"{said} edits on the page, {len(own)} in the file"] if said != len(own) else [])

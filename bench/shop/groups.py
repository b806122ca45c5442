"""The groups in which a shop is said: each a section of shop.toml, asked and written as one.

Invariant: a group is said once its section stands in the file; until then what is built in is assumed.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable

LATHE, TOOLS, INSTRUMENTS, BARS, PRESS, TESTER = "lathe", "tool", "instrument", "bar", "press", "tester"
GROUPS = {
    LATHE: "lathe",
    TOOLS: "tools",
    INSTRUMENTS: "measuring tools",
    BARS: "bar",
    PRESS: "press",
    TESTER: "tester",
}
"""Section of shop.toml, and what a person calls it."""
TO_CUT = (LATHE, TOOLS, INSTRUMENTS, BARS)
"""What has to be said before the first cut."""
AT_THE_LATHE = (LATHE, TOOLS, BARS)
"""What the pages at the lathe go by."""
UNITS = "works_in"
"""mm or inch: no section but a line at the top, asked with the rest and never on its own."""
LEARNING = "learn_from_jobs"
"""Whether sizing goes by the rings finished here: a line at the top too, asked with mm or inch."""
PAPERS = "papers_in"
"""Language of the customer's papers: a line at the top too, asked only where it is chosen from the list."""
ON_TOP = (UNITS, PAPERS, LEARNING)
"""What is no group: each the name of its line, and of what it is in a shop."""

SAY_IT = "say your own in the program, * then my shop, or in shop.toml"
"""What to do where something is assumed."""


def assumed_words(used: Iterable[str], said: Collection[str]) -> str:
    """What of the shop a page goes by and nobody has said, in few words; empty where all is said.

    >>> assumed_words(("lathe", "tool", "bar"), {"tool"})
    'assumed lathe, bar'
    """
    missing = [GROUPS[group] for group in used if group not in said]
    return f"assumed {', '.join(missing)}" if missing else ""

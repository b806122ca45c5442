"""The gate: what was changed, damaged or is missing in a file is settled before any value is used.

Invariant: while a finding is unsettled the desk has no job;
accepting appends a confirm entry, nothing is rewritten.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.effects import Append, Close, Reload
from bench.desk.pages import Outcome, say
from bench.desk.typed import AnswerLine


def choose(desk: Desk) -> Outcome:
    """Enter on the page of findings: use the file as it stands now, or leave it."""
    if desk.line.text == "2":
        return replace(desk, line=AnswerLine(), message="", findings=()), (Close(),)
    if desk.line.text != "1":
        return say(desk, f"there is no choice {desk.line.text}")
    if not desk.writable:
        return say(desk, "the file can only be read; nothing can be settled here")
    if any(finding.refused for finding in desk.findings):
        return say(desk, "not accepted: correct what cannot be used in an editor, then open the job again")
    confirms = tuple(Append(key="", value=item.mark, kind="confirm", of=item.of) for item in desk.findings)
    if not confirms:
        return replace(desk, line=AnswerLine()), (Reload(),)
    return replace(desk, pending=confirms[0], then=confirms[1:]), (confirms[0],)


def settled(desk: Desk) -> Outcome:
    """One finding is settled: the next, or the file is read again with all of them settled."""
    if desk.then:
        return replace(desk, pending=desk.then[0], then=desk.then[1:]), (desk.then[0],)
    return replace(desk, findings=()), (Reload(),)

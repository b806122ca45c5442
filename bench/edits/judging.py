"""A loaded file whose changed answers were read by the steps that they are answers to.

Invariant: a changed value is used only as its step reads it; what cannot be read closes the gate, accepted
before or not, and names line, value and what is expected. A file that nobody changed is passed through.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.file import words
from bench.file.entry import Accepted, Entry, Head
from bench.file.gather import SHOWN, shown
from bench.file.load import Finding, FoundEntry, Loaded, counts
from bench.file.pieces import BY_HAND, EDITED
from bench.job import keys
from bench.job.standing import last_said

if TYPE_CHECKING:
    from bench.shop.shop import Shop

CHANGED = (EDITED, BY_HAND)
MOST_NAMED = 3
"""More words that are not as they were offered come from something else than a slip."""


def judged(loaded: Loaded, shop: Shop) -> Loaded:
    """What may be used of a file, changed values as they are meant; gated where one cannot be read."""
    if loaded.head is None or loaded.read_only or not any(map(_is_concerned, loaded.entries)):
        return loaded
    read = _read(loaded.head, loaded.entries, shop)
    findings = [_said(finding, read) for finding in loaded.findings]
    known = {finding.of for finding in findings}
    findings += [_reopened(one, read) for one in loaded.entries if one.entry.n in read.refused.keys() - known]
    findings.sort(key=lambda finding: finding.line)
    if findings:
        state = loaded.state if loaded.findings else findings[0].state
        said = words.message(
            state, [one.words for one in findings], torn=0, accepted=0, many_torn=False,
            refused=any(one.refused for one in findings),
        )  # fmt: skip
        return replace(loaded, findings=tuple(findings), state=state, message=said, gated=True, usable=())
    return replace(loaded, usable=_accepted(loaded.head, read.entries, loaded.entries, shop))


def _goes_on(head: Head, entries: Sequence[Entry], shop: Shop) -> bool:
    """Whether a route can be gone with these entries."""
    from bench.edits.asked import NO_WAY
    from bench.job.job import replay
    from bench.stages.whole import walk

    try:
        walk(replay(head, entries), shop)
    except NO_WAY:
        return False
    return True


def _is_concerned(one: FoundEntry) -> bool:
    return one.found in CHANGED or one.entry.kind == "confirm"


@dataclass(slots=True)
class _Read:
    """The entries of a file as they are meant."""

    entries: list[Entry] = field(default_factory=list)
    refused: dict[int, str] = field(default_factory=dict)
    """What is expected instead, by number."""
    other_words: dict[int, tuple[str, ...]] = field(default_factory=dict)
    """Words that are not as they were offered, by number."""
    otherwise: dict[int, Entry] = field(default_factory=dict)
    """Those that are meant otherwise than they are written."""


def _read(head: Head, found: Sequence[FoundEntry], shop: Shop) -> _Read:
    from bench.edits.agreeing import disagreements  # the route comes only with a file that was changed
    from bench.edits.meant import as_meant, not_as_offered
    from bench.job.job import replay
    from bench.job.kept import Misfit

    read = _Read()
    changed: set[int] = set()
    for one in found:
        entry = one.entry
        if one.found in CHANGED:
            if entry.kind == "answer" and not one.settled and len(shown(entry)) == SHOWN:
                read.other_words[entry.n] = not_as_offered(head, read.entries, entry, shop, changed)
            try:
                meant = as_meant(head, read.entries, entry, shop, changed)
            except Misfit as why:
                read.refused[entry.n] = str(why)
                continue
            if meant.value != entry.value or meant.key != entry.key:
                read.otherwise[entry.n] = meant
            changed.add(entry.n)
            entry = meant
        elif not counts(one):
            continue
        read.entries.append(entry)
    for one_more in disagreements(replay(head, read.entries).answers, changed, shop):
        read.refused.setdefault(one_more.n, one_more.expected)
    if not read.refused and not _goes_on(head, read.entries, shop):
        read.refused.update(dict.fromkeys(changed, "values that go together with the rest of the job"))
    return read


def _said(finding: Finding, read: _Read) -> Finding:
    """A finding with how its value is read, or why it is not."""
    if 0 < len(other := read.other_words.get(finding.of, ())) <= MOST_NAMED:
        finding = replace(finding, words=clean(f"{finding.words}, not as offered: {', '.join(other)}"))
    if (expected := read.refused.get(finding.of)) is not None:
        return replace(finding, words=_not_used(finding.words, expected), refused=True)
    if (meant := read.otherwise.get(finding.of)) is not None:
        named = "" if finding.entry is None or meant.key == finding.entry.key else f"{meant.key} = "
        return replace(finding, words=f"{finding.words}, read as {named}{shown(meant)}")
    return finding


def _reopened(one: FoundEntry, read: _Read) -> Finding:
    """A value that was accepted and cannot be used."""
    entry = one.entry
    what = (
        f"line {one.line}: entry {entry.n} was changed by hand; it says {clean(entry.key)} = {shown(entry)}"
    )
    return Finding(
        of=entry.n,
        state="by_hand",
        line=one.line,
        words=_not_used(what, read.refused[entry.n]),
        mark="",
        entry=entry,
        refused=True,
    )


def _not_used(what: str, expected: str) -> str:
    return clean(f"{what}; this cannot be used: expected {expected}")


def _accepted(
    head: Head, entries: Sequence[Entry], found: Sequence[FoundEntry], shop: Shop
) -> tuple[Entry, ...]:
    """The entries, each changed one with what is known of its being accepted."""
    changed = {one.entry.n for one in found if one.found in CHANGED}
    known: dict[int, Accepted] = {}
    for confirm in [one for one in entries if one.kind == "confirm"]:
        by, n = confirm.n, confirm.of
        then = [_with(one, known, entries, by) for one in entries if one.n < by]
        over = ended(head, then)
        known[by] = Accepted(by=by, counted=False, after_end=over)
        if n in changed:
            known[n] = Accepted(by=by, counted=_counted(head, then, n, changed, shop), after_end=over)
    return tuple(replace(one, accepted=known.get(one.n)) for one in entries)


def _with(one: Entry, known: Mapping[int, Accepted], entries: Sequence[Entry], by: int) -> Entry:
    """An entry as it stood before a gate: what was accepted at the same gate had not its place yet."""
    accepted = known.get(one.n)
    if accepted is None or all(other.kind == "confirm" for other in entries if accepted.by < other.n < by):
        return one
    return replace(one, accepted=accepted)


def _counted(head: Head, then: Sequence[Entry], n: int, changed: Set[int], shop: Shop) -> bool:
    """Whether the job rested on an entry: the newest of its key, and newer than what it rests on."""
    from bench.edits.asked import step_asked
    from bench.job.job import TEACH, replay

    job = replay(head, then)
    answer = next((one for one in job.answers if one.number == n), None)
    if answer is None or job.newest(answer.key) != answer:
        return False
    if answer.key in TEACH and answer.n < job.newest_n(keys.ATTEMPT):
        return False  # it stays with its ring, and the next one rests on what was changed of it
    if keys.is_slip(answer.key):
        return True  # it rests on nothing, and checks rest on it
    step = step_asked(job, shop, answer.key, changed)
    return step is not None and job.fresh(answer.key, step.rests_on) is not None


def ended(head: Head, entries: Sequence[Entry]) -> bool:
    """Whether a job was finished with these entries."""
    from bench.job.endings import ending_of
    from bench.job.job import replay
    from bench.seals import seal_of

    said = last_said(reversed(entries))
    if said is not None:
        return said.over
    job = replay(head, entries)
    given = job.newest(keys.HAND_BACK)
    last = max((one.n for one in job.answers), default=0)
    end = ending_of(job, seal_of(job).endings) or given
    return end is not None and end.n == last

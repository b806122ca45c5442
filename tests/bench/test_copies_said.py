"""Copies of one job put together, and answers changed in an editor, function by function, as it was read
once and found true.

python -m tests.bench.test_copies_said writes `copies_said.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from types import SimpleNamespace
from typing import Any

import pytest

from bench.edits import agreeing, asked as edits_asked, judging, meant
from bench.file.codec import render_entry, render_head
from bench.file.entry import Accepted, Entry
from bench.file.load import load
from bench.job.job import Answer, words_of
from bench.job.kept import Misfit
from bench.job.mask import Mask
from bench.job.steps import Choice, Gauge, Step
from bench.joining import asked, joined, numbering, parting, settling, twins, writing
from bench.joining.parting import Placed
from bench.joining.side import Side, bare, rests_of, side_with, standing_mark
from bench.refusal import Refused
from tests.bench.test_desk_said import AT, HEAD
from tests.seals.test_ring_measured import SHOP, Given, Kept, job_of, told

KEPT = Kept(__file__)
SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
BEGUN: tuple[Given, ...] = (
    ("sitting", "work"),
    ("watch", "a diver"),
    ("paint", "none"),
    ("bench", "clean"),
    ("hold", "front"),
    ("case_bore_1", "36.42 mm"),
)


def entries_of(*given: Given, hour: int = 9, first: int = 1) -> list[Entry]:
    """Entries of a file, one a minute from this hour on."""
    marks = ("sitting", "attempt", "joined")
    return [
        Entry(
            n=n,
            at=f"2026-03-02T{hour:02}:{n:02}:00+00:00",
            kind="mark" if key in marks else "undo" if key.startswith("-") else "answer",
            key=key.lstrip("-"),
            value=words if len(words) > 1 else words[0],
            of=int(words[0]) if key.startswith("-") else None,
        )
        for n, (key, *rest) in enumerate(given, first)
        for words in (tuple(rest),)
    ]


def pair(one: Sequence[Given], other: Sequence[Given], begun: Sequence[Given] = BEGUN) -> tuple[Side, Side]:
    """Two copies with a common beginning."""
    common = entries_of(*begun)
    ends = (entries_of(*rest, hour=hour, first=len(begun) + 1) for rest, hour in ((one, 10), (other, 11)))
    first, second = (side_with(HEAD, (*common, *rest), SHOP) for rest in ends)
    return first, second


def lines_of(found: Sequence[Entry]) -> Iterator[str]:
    """Entries in short."""
    for one in found:
        of = "" if one.of is None else f" of {one.of}"
        yield f"{one.n} {one.at[11:16]} {one.kind}{of} {one.key} = {told(one.value)}"


WAYS: dict[str, tuple[Sequence[Given], Sequence[Given]]] = {
    "each its own": ((("case_bore_2", "36.44 mm"),), (("remark", "a note"),)),
    "the same": ((("case_bore_2", "36.44 mm"),), (("case_bore_2", "36.44 mm"),)),
    "otherwise": ((("case_bore_2", "36.44 mm"),), (("case_bore_2", "36.45 mm"),)),
    "again, what it rests on": ((("measure_again", "done"),), (("case_bore_2", "36.44 mm"),)),
    "taken back": ((("-case_bore_1", "6"),), (("case_bore_2", "36.44 mm"),)),
    "taken back and again": ((("-case_bore_1", "6"),), (("case_bore_1", "36.45 mm"),)),
    "another begun": ((("attempt", "ring 2"), ("bench", "dressed")), (("case_bore_2", "36.44 mm"),)),
    "another begun on both": ((("attempt", "ring 2"),), (("attempt", "ring 2"),)),
    "a fail": (
        (("empty_hold", "start", AT, "10 min"), ("empty_result", "fail", AT)),
        (("empty_hold", "start", AT, "5 min"), ("empty_result", "pass", AT)),
    ),
    "the seal": ((("seal", "gasket"),), (("case_bore_2", "36.44 mm"),)),
}


@KEPT.case
def what_is_asked_of_two_copies() -> Iterator[object]:
    for name, (one, other) in WAYS.items():
        sides, parted = joined.asked_of(*pair(one, other))
        yield name
        yield from asked.questions(sides, parted)
        yield [sorted(asked.touched(parted, which)) for which in (0, 1)], parted.diverged
        yield " ".join(asked.route(sides))
        for key in ("case_bore_1", "case_bore_2", "remark"):
            yield key, [asked.counted(sides, which, key) for which in (0, 1)], asked.differs(sides, key)


@KEPT.case
def two_copies_joined() -> Iterator[object]:
    for name, (one, other) in WAYS.items():
        first, second = pair(one, other)
        choices: tuple[dict[str, int], ...] = ({},)
        try:
            joined.join(first, second, {})
        except asked.Undecided as why:
            yield f"undecided: {why.question.key}"
            choices = tuple({why.question.key: choice} for choice in (0, 1))
        for decisions in choices:
            made = joined.join(second, first, decisions)
            yield name, decisions
            yield from list(lines_of(made.entries))[len(BEGUN) :]


@KEPT.case
def copies_in_either_order() -> Iterator[object]:
    first, second = pair(*WAYS["another begun"])
    yield joined.join(first, second, {}) == joined.join(second, first, {})


def begun_ring(*other: Given, choice: int = 0) -> Iterator[object]:
    """A ring chosen and its bar measured on one copy, something else on the other: what is put behind."""
    sample = [one.entry for one in load((SAMPLES / "00208-ferry-captain.toml").read_bytes()).entries]
    keys = [one.key for one in sample]
    ring, turned = keys.index("ring"), keys.index("lathe_hands") + 1
    rest = entries_of(*other, hour=23, first=ring + 1)
    first, second = (side_with(HEAD, one, SHOP) for one in (sample[:turned], (*sample[:ring], *rest)))
    try:
        made = joined.join(first, second, dict.fromkeys({*keys, *(one.key for one in rest)}, choice))
    except Refused as why:
        yield str(why)
        return
    yield from (line[:50] for line in list(lines_of(made.entries))[turned + len(rest) :])
    yield sorted(made.by_hand)


@KEPT.case
def a_ring_and_a_depth() -> Iterator[object]:
    yield from begun_ring(("seat_depth", "1.65 mm", "stands size: a ring to be chosen"))


@KEPT.case
def a_ring_and_a_reading_taken_back() -> Iterator[object]:
    yield from begun_ring(("-case_bore_1", "7"))


@KEPT.case
def a_ring_and_another_ring() -> Iterator[object]:
    yield from begun_ring(("attempt", "ring 2"), ("bench", "dressed"), choice=1)


@KEPT.case
def a_ring_and_another_ring_given_up() -> Iterator[object]:
    yield from begun_ring(("attempt", "ring 2"), ("bench", "dressed"), choice=0)


@KEPT.case
def a_ring_and_another_bar() -> Iterator[object]:
    yield from begun_ring(("bar_measured", "36.40 mm"))


@KEPT.case
def copies_that_are_not_joined() -> Iterator[object]:
    first, second = pair((("case_bore_2", "36.44 mm"),), (("remark", "a note"),))
    for one, other in (
        (first, first),
        (first, replace(second, head=replace(HEAD, id="11111111"))),
        pair((), (("remark", "x"),)),
        pair((("-attempt", "7"),), (("remark", "x"),), begun=(*BEGUN, ("attempt", "ring 2"))),
    ):
        try:
            yield len(joined.join(one, other, {}).entries)
        except Refused as why:
            yield str(why)


@KEPT.case
def the_end_of_a_joined_job() -> Iterator[object]:
    yield joined.marks_for((("a.toml", "0123"), ("b.toml", "4567")), at=AT)
    marks = joined.marks_for((("a.toml", "0123"),), at=AT, stands="stands measure: readings")
    first, second = pair(*WAYS["each its own"])
    made = joined.join(first, second, {}, marks=marks)
    yield from list(lines_of(made.entries))[-3:]
    yield made.render().decode().split("[[entry]]")[-1], sorted(made.by_hand)
    yield standing_mark(HEAD, made.render(), SHOP), bare(("a", "stands measure: x", "b"))
    yield (
        sorted(rests_of(first.job, SHOP).items())[:2],
        first.settled,
        first.over,
        first.newest("watch"),
        first.newest("x"),
    )
    first, second = joined.in_order(second, first)
    yield [one.entries[-1].key for one in (first, second)]


@KEPT.case
def where_copies_part() -> Iterator[object]:
    first, second = pair(*WAYS["each its own"])
    by_hand = Accepted(by=7, counted=True, after_end=False)
    edited = tuple(
        replace(one, value="36.50 mm", accepted=by_hand) if one.n == 6 else one for one in first.entries
    )
    changed = replace(first, entries=edited)
    for sides in (
        (first, second),
        (first, first),
        (changed, second),
        (second, changed),
        (first, replace(second, entries=second.entries[:3])),
    ):
        found = parting.parted(sides)
        yield (
            found.diverged,
            len(found.common),
            [len(one) for one in found.tails],
            [len(one) for one in found.edits],
        )
        yield [
            (one.entry.n, one.places, one.by_hand)
            for one in (*found.common[-2:], *found.tails[0], *found.tails[1])
        ]
        yield [[one.entry.n for one in found.own(which)] for which in (0, 1)]
    entry = first.entries[0]
    for field, value in (
        ("n", 9),
        ("at", "x"),
        ("kind", "note"),
        ("key", "x"),
        ("value", "x"),
        ("of", 3),
        ("accepted", by_hand),
    ):
        yield field, parting.same(entry, replace(entry, **{field: value}))  # type: ignore[arg-type]
    yield (
        parting.is_by_hand(replace(entry, accepted=by_hand)),
        parting.is_by_hand(entry),
        parting.is_by_hand(replace(entry, kind="confirm", accepted=by_hand)),
    )
    tail = [
        Placed(one)
        for one in entries_of(("a", "b"), ("attempt", "ring 2"), ("c", "d"), ("attempt", "ring 3"))
    ]
    yield (
        [[one.entry.n for one in part] for part in parting.split(tail)],
        [[one.entry.n for one in part] for part in parting.split(tail[:1])],
    )


@KEPT.case
def new_numbers() -> Iterator[object]:
    one, two, three = (
        Placed(entry, ((0, entry.n),)) for entry in entries_of(("a", "b"), ("c", "d"), ("e", "f"))
    )
    undo = Placed(Entry(n=4, at=AT, kind="undo", key="c", value="d", of=2), ((0, 4),))
    gone = Placed(Entry(n=4, at=AT, kind="undo", key="c", value="d", of=9), ((0, 4),))
    confirm = Placed(Entry(n=4, at=AT, kind="confirm", key="", value="old", of=1), ((1, 4),))
    changed = Placed(
        replace(one.entry, accepted=Accepted(by=4, counted=True, after_end=False)), ((1, 1),), by_hand=True
    )
    added = Placed(Entry(n=1, at=AT, kind="undo", key="e", value="f"), takes_back=three)
    for items in (
        [one, two, three, undo],
        [one, three, two, undo],
        [one, undo],
        [one, gone],
        [changed, two, confirm],
        [one, two, confirm],
        [one, two, three, added],
        [changed, replace_key(two, "a"), confirm],
    ):
        made = numbering.numbered(HEAD, items)
        yield from lines_of(made.entries)
        yield sorted(made.by_hand), [entry.accepted for entry in numbering.entries_of(items)]


def replace_key(item: Placed, key: str) -> Placed:
    """An item under another key."""
    return Placed(replace(item.entry, key=key), item.places)


@KEPT.case
def holds_that_failed() -> Iterator[object]:
    tail = [
        Placed(one)
        for one in entries_of(
            ("empty_hold", "start"), ("empty_result", "fail"),
            ("empty_hold", "start"), ("empty_result", "pass"),
            ("cased_hold", "start"), ("cased_result", "fail"), ("remark", "x"),
        )
    ]  # fmt: skip
    yield [settling.fails(tail, one) for one in tail]
    for word in ("fail", "pass"):
        side, other = pair((("empty_hold", "start"), ("empty_result", word)), ())
        yield (
            word,
            [asked.failed(one, key) for one in (side, other) for key in ("empty_hold", "empty_result")],
        )
    first, _ = pair((), ())
    for key, word in (
        ("empty_result", "fail"),
        ("empty_result", "pass"),
        ("fit_outcome", "shaved"),
        ("fit_outcome", "home"),
        ("remark", "fail"),
    ):
        yield key, word, settling.is_bad(first, Placed(entries_of((key, word))[0]))


@KEPT.case
def names_of_the_third_file() -> Iterator[object]:
    for names in (
        ("00214-clerk.toml", "00214-clerk (copy).toml"),
        ("lantern.toml", "beacon.toml"),
        ("00007.toml", "00012-a-very-long-name-of-a-watch-indeed.toml"),
    ):
        one, other = (Path(name) for name in names)
        yield names, list(writing._names((one, other)))[:3], len(writing._names((one, other)))


def file_of(entries: Sequence[Entry]) -> bytes:
    """A session file."""
    return b"".join([render_head(HEAD), *(render_entry(one, salt=HEAD.id) for one in entries)])


@KEPT.case
def how_copies_stand() -> Iterator[object]:
    common = entries_of(*BEGUN)
    longer = file_of([*common, *entries_of(("remark", "a"), first=7)])
    other = file_of([*common, *entries_of(("remark", "b"), first=7)])
    third = file_of([*common, *entries_of(("remark", "c"), first=7)])
    both = file_of(
        [*common, *entries_of(("joined", "x", twins.digest_of(longer), "y", twins.digest_of(other)), first=7)]
    )
    for copies in (
        {"1.toml": file_of(common), "2.toml": longer},
        {"1.toml": longer, "2.toml": other},
        {"1.toml": longer, "2.toml": other, "3.toml": third},
        {"1.toml": longer, "2.toml": other, "3.toml": both},
        {"1.toml": longer, "2.toml": longer},
        {"1.toml": longer, "1-copy.toml": longer, "2.toml": other},
        {"1.toml": longer},
        {"1.toml": longer, "2.toml": b"rubbish"},
        {"1.toml": b"rubbish", "2.toml": b"no job"},
    ):
        found = twins.related(copies)
        yield {name: (one.state, one.other, one.words) for name, one in sorted(found.items())}
    yield (
        twins.id_in(longer),
        twins.id_in(b"id = x"),
        twins.id_in(b'[[entry]]\nid = "01234567"'),
        twins.digest_of(b"a"),
    )


@KEPT.case
def copies_in_a_folder() -> Iterator[object]:
    common = entries_of(*BEGUN)
    longer, other = (file_of([*common, *entries_of(("remark", word), first=7)]) for word in "ab")
    alone = file_of(common).replace(HEAD.id.encode(), b"11111111", 1)
    with TemporaryDirectory() as name:
        folder, jobs = Path(name), Path(name) / "jobs"
        yield twins.twins_in(folder), twins.Heads(folder).look(1)
        jobs.mkdir()
        for file, data in (
            ("00001.toml", alone), ("00002.toml", longer), ("00002-copy.toml", other), ("00003.toml", b"x"),
            ("00004.toml", longer), ("00002.txt", other),
        ):  # fmt: skip
            (jobs / file).write_bytes(data)
        heads = twins.Heads(folder)
        for most in (2, 0, 1, 1, 1, 1):
            yield most, heads.look(most), len(heads.families())
            yield sorted((key, one.words) for key, one in heads.twins().items()) if most != 1 else ""
        yield heads.families(), sorted(heads.twins().items())
        (jobs / "00005.toml").write_bytes(file_of(common))
        for files in (
            ("00002.toml", "00004.toml"),
            ("00002.toml", "00004.toml", "00005.toml", "00002-copy.toml"),
            ("00001.toml",),
        ):
            rows: Any = [SimpleNamespace(path=jobs / file, summary={twins.ID: HEAD.id}) for file in files]
            rows += [SimpleNamespace(path=jobs / "00003.toml", summary={})]
            yield files, sorted((file, one.words) for file, one in twins.uncounted(rows).items())
        (jobs / "00005.toml").unlink()
        (jobs / "00002-copy.toml").unlink()
        yield heads.look(0), heads.families(), heads.twins()
        (jobs / "00009.toml").write_bytes(longer)
        (jobs / "00009.toml").replace(jobs / "00001.toml")
        yield heads.look(9), heads.families(), sorted(twins.twins_in(folder).items())
        yield (
            twins.id_of(jobs / "00001.toml"),
            twins.id_of(jobs / "00003.toml"),
            twins.id_of(jobs / "none.toml"),
        )
        yield (
            twins._repeats(jobs, ["00001.toml", "00002.toml", "00003.toml"]),
            twins._repeats(jobs, ["none.toml"]),
        )
        yield sorted(twins.twins_of(jobs, ["none.toml", "00001.toml", "00002.toml"]).items())


# changed in an editor


@KEPT.case
def what_does_not_go_together() -> Iterator[object]:
    hold: Given = ("empty_hold", "start", "2026-03-02T09:02:00+00:00", "10 min")
    kept = (
        "method dry_deflection",
        "pressure 3 bar",
        "held 10 min",
        "timed program",
        "ran 10.0 min",
        "temperature unknown",
    )

    def result(word: str = "pass", at: str = "2026-03-02T09:15:00+00:00", **said: str) -> Given:
        names = {one.partition(" ")[0]: one for one in kept} | {
            name: f"{name} {text}" if text else "" for name, text in said.items()
        }
        return ("empty_result", word, at, *filter(None, names.values()))

    pressure: Given = ("empty_pressure", "3.0 bar")
    fitted: Given = ("fit_outcome", "home", "2026-03-02T09:01:00+00:00")
    later: Given = ("fit_outcome", "home", "2026-03-02T09:20:00+00:00")
    shaved: Given = ("fit_outcome", "shaved", "2026-03-02T09:20:00+00:00")
    warm, cool = ("empty_temperature", "21 C"), ("empty_temperature", "20 C")
    bounds = {"leak_low": "6 ug/min", "leak_high": "9 ug/min"}
    for name, given, changed in (
        ("nothing changed", (pressure, hold, result(pressure="4 bar")), ()),
        ("as it was", (fitted, pressure, hold, result()), (1, 2, 3, 4)),
        ("another pressure", (pressure, hold, result(pressure="2 bar")), (3,)),
        ("another pressure keyed", (("empty_pressure", "2.0 bar"), hold, result()), (1,)),
        ("over the tester", (("empty_pressure", "3.1 bar"), hold, result(pressure="3.1 bar")), (1, 3)),
        ("held too long", (pressure, hold, result(held="10.1 min")), (3,)),
        ("ran too short", (pressure, hold, result(ran="9.8 min")), (3,)),
        ("ran just long enough", (pressure, hold, result(ran="9.9 min")), (3,)),
        ("failed sooner", (pressure, hold, result("fail", ran="3.0 min")), (3,)),
        ("timed by another", (pressure, hold, result(timed="tester")), (3,)),
        ("the tester timed it", (pressure, ("empty_hold", "start", AT), result(timed="tester")), (3,)),
        ("keyed", (pressure, ("empty_hold", "keyed", AT, "10 min"), result(timed="keyed")), (3,)),
        ("of its own verdict", (pressure, hold, result(timed="tester", method="dry_pass_fail")), (3,)),
        ("its own verdict, longer", (pressure, hold, result(held="11 min", method="dry_pass_fail")), (3,)),
        ("its own verdict, keyed", (pressure, hold, result(timed="keyed", method="dry_pass_fail")), (3,)),
        ("just as long", (pressure, hold, result(held="10 min")), (2,)),
        ("untimed", (pressure, hold, result(timed="", ran="")), (3,)),
        ("asked", (pressure, hold, ("empty_throughout", "yes"), result(timed="asked")), (4,)),
        ("asked before", (("empty_throughout", "yes"), pressure, hold, result(timed="asked")), (4,)),
        ("as its hold", (pressure, hold, result(at="2026-03-02T09:02:00+00:00")), (3,)),
        ("before its hold", (pressure, hold, result(at="2026-03-02T09:01:59+00:00")), (3,)),
        ("before the fitting", (later, pressure, hold, result()), (4,)),
        ("the fitting changed", (later, pressure, hold, result()), (1,)),
        ("not home", (shaved, pressure, hold, result()), (4,)),
        ("another temperature", (warm, pressure, hold, result(temperature="20 C")), (4,)),
        ("that temperature", (cool, pressure, hold, result(temperature="20 C")), (4,)),
        ("measured before fitting", (cool, fitted, pressure, hold, result(temperature="20 C")), (5,)),
        ("no such method", (pressure, hold, result(method="by_ear")), (3,)),
        ("against its readings", (pressure, hold, result(leak_decision="FAIL")), (3,)),
        ("not judged in spite of them", (pressure, hold, result("not_judged", leak_decision="FAIL")), (3,)),
        ("passed, undecided", (pressure, hold, result(leak_decision="UNDECIDED")), (3,)),
        ("a leak off its bounds", (pressure, hold, result(leak="5 ug/min", **bounds)), (3,)),
        ("a leak on its bounds", (pressure, hold, result(leak="9 ug/min", **bounds)), (3,)),
        ("a leak without its high", (pressure, hold, result(leak="7 ug/min", leak_low="6 ug/min")), (3,)),
        ("a day too late", (("remark", "x", "2026-03-03T09:01:01+00:00"),), (1,)),
        ("just a day", (("remark", "x", "2026-03-03T09:01:00+00:00"),), (1,)),
    ):  # fmt: skip
        job = job_of(*given)
        yield name, [(one.n, one.expected) for one in agreeing.disagreements(job.answers, set(changed), SHOP)]


NUMBER = Step("case_bore_1", "measure", "number", "?", mask=Mask(2, 2, "mm", 5.0, 80.0))
CHOICE = Step(
    "hold",
    "measure",
    "choice",
    "?",
    choices=(Choice("keep", "k", goto="jobs"), Choice("front", "f", with_it=("a 1",), stamp=True)),
)


@KEPT.case
def answers_that_lead_on() -> Iterator[object]:
    check = Step("fit_ready", "verify", "safety", "?", choices=(Choice("so", "so"),), decided=("d",))
    for step in (
        NUMBER,
        replace(NUMBER, usual="36.40 mm"),
        replace(NUMBER, asked_of=("36.41 mm", "36.43 mm")),
        replace(NUMBER, gauge=Gauge(30.0, 40.0, 36.5)),
        replace(NUMBER, gauge=Gauge(30.0, 40.0)),
        replace(NUMBER, mask=Mask(2, 0, "", 5.0)),
        CHOICE,
        replace(CHOICE, choices=CHOICE.choices[:1]),
        replace(CHOICE, optional=True, usual="front"),
        replace(CHOICE, choices=()),
        check,
        replace(check, choices=(), readback=3),
    ):
        yield step.kind, edits_asked.made_up(step)


@KEPT.case
def what_is_asked_by_a_key() -> Iterator[object]:
    job = job_of(*BEGUN)
    for key in (
        "case_bore_1",
        "case_bore_2",
        "glass_material",
        "plastic",
        "ring",
        "wall_1",
        "empty_result",
        "zebra",
    ):
        step = edits_asked.step_asked(job, SHOP, key, set())
        yield key, step and step.title
    old = job_of(*BEGUN, ("glass_1", "35.30 mm"), ("measure_again", "done"))
    yield [
        (key, (step := edits_asked.step_asked(old, SHOP, key, set())) and step.title)
        for key in ("glass_1", "glass_2")
    ]


def changed_by_hand(key: str, *values: Any, kind: str = "answer") -> Entry:
    """An entry as somebody wrote it."""
    return Entry(n=9, at=AT, kind=kind, key=key, value=values if len(values) > 1 else values[0])


@KEPT.case
def words_not_as_offered() -> Iterator[object]:
    sample = [one.entry for one in load((SAMPLES / "00208-ferry-captain.toml").read_bytes()).entries]
    at = next(n for n, one in enumerate(sample) if one.key == "ring")
    offered = words_of(sample[at])
    for words in (
        offered,
        ("accept", "outside 34.29 mm", *offered[2:]),
        ("accept", "outside 34.29 mm", "bore 1 mm", "zebra 4"),
        ("accept",),
        ("no word of it", *offered[1:]),
    ):
        entry = replace(sample[at], value=words if len(words) > 1 else words[0])
        yield words[:2], meant.not_as_offered(HEAD, sample[:at], entry, SHOP, set())
    for key, *more in (("hold", "front", "outside 4"), ("zebra", "front", "outside 4")):
        yield key, meant.not_as_offered(HEAD, sample[:4], changed_by_hand(key, *more), SHOP, set())


@KEPT.case
def what_was_meant() -> Iterator[object]:
    before = entries_of(*BEGUN)
    for entry in (
        changed_by_hand("case_bore_2", "36.45"),
        changed_by_hand("case_bore_2", "36,45 mm"),
        changed_by_hand("case_bore_2", "1.4350 in"),
        changed_by_hand("case_bore_2", "99.00 mm"),
        changed_by_hand("Case_Bore_2 ", "36.45 mm"),
        changed_by_hand("hold", "Behind"),
        changed_by_hand("hold", "sideways"),
        changed_by_hand("zebra", "1"),
        changed_by_hand("sitting", "work"),
        changed_by_hand("sitting", "work", kind="mark"),
        changed_by_hand("sittin", "work", kind="mark"),
        changed_by_hand("learned", "looked up", kind="mark"),
        changed_by_hand("note", "anything", kind="note"),
        changed_by_hand("fit_slip", "Wrong", "fit_ready"),
        changed_by_hand("fit_slip", "right"),
        changed_by_hand("spoiled", "ring 1"),
        changed_by_hand("glass_material", "Sapphire"),
    ):
        try:
            read = meant.as_meant(HEAD, before, entry, SHOP, set())
            yield entry.key, entry.value, "->", read.key, read.value
        except Misfit as why:
            yield entry.key, entry.value, "expected", str(why)
    yield (
        meant.with_words(before[1], ("a diver",)) is before[1],
        meant.with_words(before[1], ("x",)).value,
        meant.with_words(changed_by_hand("a", "b", "c"), ("x", "y")).value,
    )


@KEPT.case
def a_file_that_was_changed() -> Iterator[object]:
    whole = file_of(entries_of(*BEGUN))
    for old, new in (
        ("36.42 mm", "36.42 mm"),
        ("36.42 mm", "36,47"),
        ("36.42 mm", "99.00 mm"),
        ('"front"', '"behind"'),
        ('"front"', '"sideways"'),
        ('key = "hold"', 'key = "held"'),
    ):
        data = whole.replace(old.encode(), new.encode(), 1)
        marks = [(one.of, one.mark) for one in load(data).findings]
        loaded = judging.judged(load(data), SHOP)
        yield new, loaded.state, loaded.gated, [(one.of, one.words, one.refused) for one in loaded.findings]
        yield loaded.message
        confirms = [
            Entry(n=n, at=AT, kind="confirm", key="", value=mark, of=of)
            for n, (of, mark) in enumerate(marks, 7)
        ]
        data += b"".join(render_entry(one, salt=HEAD.id) for one in confirms)
        loaded = judging.judged(load(data), SHOP)
        yield (
            "accepted",
            loaded.state,
            loaded.gated,
            [(one.of, one.words, one.refused) for one in loaded.findings],
        )
        yield (
            loaded.message,
            [f"{one.n} {told(one.value)}" for one in loaded.usable],
            [one.accepted for one in loaded.usable if one.accepted],
        )
    confirm = Entry(n=7, at=AT, kind="confirm", key="", value="x", of=6)
    yield (
        judging.ended(HEAD, entries_of(*BEGUN)),
        judging.ended(HEAD, entries_of(*BEGUN, ("hand_back", "done", "stands over"))),
    )
    yield judging.ended(HEAD, entries_of(*BEGUN, ("hand_back", "done"))), confirm.of
    yield Answer(1, AT, "a", ("b",), 5).number


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_is_made_of_copies_and_changes(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()

"""What the entries of a job add up to: staleness, attempts, what was taken back or changed by hand, times."""

from collections.abc import Sequence
from datetime import UTC, datetime

from bench.file.entry import Accepted, Entry, Head
from bench.job import keys
from bench.job.in_words import moment
from bench.job.job import Answer, Job, newest_of, replay, undone, words_of
from bench.job.when import believed, longest_run

HEAD = Head(format=1, id="00000000", job="84", made_by="test")
AT = "2026-03-02T10:00:00+01:00"


def answers(*lines: str, first: int = 1) -> tuple[Answer, ...]:
    """Answers `key word|words`, numbered."""
    parts = (line.partition(" ") for line in lines)
    return tuple(Answer(n, AT, key, tuple(text.split("|"))) for n, (key, _, text) in enumerate(parts, first))


def entry(
    n: int, line: str, *, at: str = AT, of: int | None = None, accepted: Accepted | None = None
) -> Entry:
    """`key word|words`; a mark begins with @, a note with #, an undo or a confirm with its name."""
    kind = {"@": "mark", "#": "note", "undo": "undo", "confirm": "confirm"}.get(line.split(" ")[0], "answer")
    key, _, text = (line if kind == "answer" else line.partition(" ")[2]).partition(" ")
    value = tuple(text.split("|")) if "|" in text else text
    return Entry(n=n, at=at, kind=kind, key=key, value=value, of=of, accepted=accepted)


def job_of(*lines: str) -> Job:
    """The job of these entries."""
    return replay(HEAD, [entry(n, line) for n, line in enumerate(lines, 1)])


def test_times_that_can_be_believed() -> None:
    runs: dict[tuple[float, ...], list[int]] = {
        (): [],
        (5,): [0],
        (5, 4): [1],
        (1, 9, 2, 3, 3, 0, 4): [0, 2, 3, 4, 6],
        (2, 2): [0, 1],
    }
    assert {times: longest_run(times) for times in runs} == runs

    def moments(*times: str) -> list[int | None]:
        found = believed([entry(n, "x y", at=at) for n, at in enumerate(times, 1)])
        return [found[n].day if n in found else None for n in range(1, len(times) + 1)]

    day = "2026-03-{:02}T10:00:00+00:00".format
    assert moments(day(2), day(3), day(9), day(4)) == [2, 3, 3, 4]
    assert moments(day(9), day(3), day(4)) == [3, 3, 4] and moments("x", day(3), "x") == [3, 3, 3]
    assert moments("x", "") == [None, None]
    assert moments("2024-03-05T10:00:00+00:00", day(3)) == [3, 3]
    assert moments("2025-01-01T00:00:00+00:00", day(3)) == [1, 3]
    assert moments("2020-01-05T00:00:00+00:00", "2020-01-06T00:00:00+00:00") == [5, 6]
    backwards = believed([entry(2, "x y", at=day(2)), entry(1, "x y", at=day(1))])
    assert backwards == {1: datetime(2026, 3, 1, 10, tzinfo=UTC), 2: datetime(2026, 3, 2, 10, tzinfo=UTC)}
    assert moment("2026-03-02T09:15:30+00:00") == "2026-03-02 09:15 UTC"


def test_one_rule_of_staleness() -> None:
    job = job_of("a 1", "b 2", "@ sitting work", "a 3|4", "# note seen")
    assert (job.newest_n("a"), job.newest_n("c"), job.last_n) == (4, 0, 5)
    assert job.fresh("a", ("b", "sitting")) == Answer(4, AT, "a", ("3", "4"), 4)
    assert job.fresh("b", ("a",)) is None is job.fresh("c", ()) and job.fresh("b", ("b", "c")) is not None
    assert [one.key for one in job.answers] == ["a", "b", "a"] and [one.key for one in job.notes] == ["note"]
    assert [one.key for one in job.marks] == ["sitting"] and job.newest("note") is None
    assert job.unchecked().fresh("a", ("sitting",)) is None and job.unchecked().newest_n("sitting") == 6
    renamed = job.renamed({"a": "x", "sitting": "s"}.get)  # type: ignore[arg-type]
    assert [one.key for one in (*renamed.answers, *renamed.marks)] == ["x", "x", "s"] and renamed.newest(
        "b"
    ) is None
    assert renamed.newest_n("x") == 4
    assert (
        Answer(1, AT, "a", ()).word,
        Answer(3, AT, "a", ("x",), 2, 3).number,
        Answer(3, AT, "a", ()).number,
    ) == ("", 2, 3)
    assert Answer(3, AT, "a", (), 2, 3).by_hand and not Answer(3, AT, "a", ()).by_hand
    assert (
        newest_of(answers("a 1", "b 2", "a 3"), "a") == Answer(3, AT, "a", ("3",))
        and newest_of((), "a") is None
    )
    assert words_of(entry(1, "a 1|2")) == ("1", "2") and words_of(entry(1, "a 1")) == ("1",)


def test_what_was_taken_back_and_taken_back_again() -> None:
    some = [
        entry(1, "a 1"),
        entry(2, "undo a", of=1),
        entry(3, "undo ", of=2),
        entry(4, "b 1"),
        entry(5, "undo b", of=4),
    ]
    assert undone(some) == {2, 4}
    job = replay(HEAD, some)
    assert [one.key for one in job.answers] == ["a"] and job.last_n == 5
    assert (replay(HEAD, []).last_n, replay(HEAD, []).attempt) == (0, 1)


def test_every_attempt_has_its_answers() -> None:
    job = job_of("a 1", "@ attempt again", "a 2", "b 1", "@ lid_attempt again", "a 3")
    assert job.attempt == 3
    assert [[one.word for one in span] for span in job.attempt_spans()] == [["1"], ["2", "1"], ["3"]]
    before = job.before_attempt("a")
    assert before is not None and before.word == "2" and job.before_attempt("c") is None
    assert job_of("a 1").before_attempt("a") is None


def test_an_answer_changed_by_hand_counts_from_where_it_was_accepted() -> None:
    def changed(*, counted: bool, after_end: bool, more: Sequence[Entry] = ()) -> Job:
        hand = Accepted(by=4, counted=counted, after_end=after_end)
        some = [
            entry(1, "a 9", accepted=hand),
            entry(2, "b 1"),
            entry(3, "c 1"),
            entry(4, "confirm a 9", of=1),
        ]
        return replay(HEAD, [*some, *more])

    moved = changed(counted=True, after_end=False)
    assert (moved.newest_n("a"), [one.key for one in moved.answers], moved.closed) == (
        4,
        ["b", "c", "a"],
        False,
    )
    first = moved.newest("a")
    assert first is not None and (first.number, first.accepted) == (1, 4)
    ((of, was, after),) = [(one.of, one.entry and one.entry.value, one.after_end) for one in moved.changes]
    assert (of, was, after, moved.changes[0].mark) == (1, "9", False, "9")
    uncounted = changed(counted=False, after_end=False).newest("a")
    assert uncounted is not None and (uncounted.n, uncounted.accepted) == (1, 4)
    ended = changed(counted=True, after_end=True)
    assert (
        ended.closed
        and ended.newest_n("a") == 1
        and not (ended.newest("a") or Answer(0, "", "", (), 0, 1)).accepted
    )
    beside = changed(counted=True, after_end=True, more=[entry(5, f"{keys.REMARK} x")])
    assert beside.closed and changed(counted=True, after_end=True, more=[entry(5, "@ sitting work")]).closed
    on = changed(counted=True, after_end=True, more=[entry(5, "d 1")])
    assert not on.closed and on.newest_n("a") == 4


def test_an_earlier_ring_that_teaches_otherwise_is_rested_on() -> None:
    hand = Accepted(by=4, counted=False, after_end=False)
    begun = [entry(2, "@ attempt again"), entry(3, "b 1"), entry(4, "confirm x 9", of=1)]
    for key in (
        keys.RING,
        keys.FIT_OUTCOME,
        keys.FIT_CORRECTION,
        keys.FIT_CAUSE,
        keys.LEAK_CAUSE,
        keys.REMAKE,
    ):
        assert replay(HEAD, [entry(1, f"{key} 9", accepted=hand), *begun]).newest_n("taught") == 4
    for other in (
        [entry(1, "wall 9", accepted=hand), *begun],
        [entry(1, "ring 9"), *begun],
        [entry(1, "ring 9", accepted=hand), *begun[1:]],
    ):
        assert replay(HEAD, other).newest_n("taught") == 0

"""Results keyed over one another, how a job ended, where it stands, which seals are new."""

from dataclasses import replace

from bench.job import corrections, endings, keys
from bench.job.corrections import Course, Over
from bench.job.job import Answer
from bench.job.of_each_seal import KnownSeal, as_data, known_seals, new_ones, others_of
from bench.job.other_jobs import like_number, linked_number
from bench.job.renewed import in_order, listed, named, renewed_in_search, seals_of, word_of
from bench.job.route import Walk
from bench.job.standing import OVER, Standing, last_said, said_in, standing_of
from tests.bench.test_job_entries import AT, answers, entry, job_of
from tests.bench.test_job_words import STEP

TEST = corrections.TESTS["empty"]
HOLD, RESULT, ASKS = keys.EMPTY.hold, keys.EMPTY.result, keys.EMPTY.correction
PRESSED = corrections.fitting(result="fit_outcome", begins="part", asks="fit_correction", again="made again")


def course_of(*lines: str) -> Course:
    """The last course of these answers of a test."""
    *_, last = corrections.courses(answers(*lines), TEST)
    return last


def test_which_result_holds() -> None:
    first, then, last = answers(f"{RESULT} fail", f"{RESULT} pass", f"{RESULT} not_judged")
    fail, passed = f"{RESULT} fail", f"{RESULT} pass"
    assert course_of() == Course() == course_of("wall_1 0.6") == course_of(f"{ASKS} again")
    assert course_of(fail, passed) == Course(holds=first, refused=then)
    assert course_of(fail, passed).traces == (Over(first, then, "open"),)
    assert course_of(fail, passed, f"{ASKS} again").traces == (Over(first, then, "again"),)
    said = course_of(fail, passed, f"{ASKS} keyed_wrong")
    assert (said.holds, said.refused, said.said) == (first, then, "keyed_wrong")
    *_, wrong = corrections.courses((*answers(fail, passed, f"{ASKS} keyed_wrong"), replace(then, n=4)), TEST)
    assert (wrong.holds, wrong.refused, wrong.over) == (
        replace(then, n=4),
        None,
        (Over(first, replace(then, n=4), "keyed_wrong"),),
    )
    assert course_of(passed, fail).over == (Over(replace(then, n=1), replace(first, n=2), "corrected"),)
    assert course_of(passed, f"{RESULT} not_judged").holds == replace(last, n=2)
    assert course_of(fail, f"{RESULT} not_judged").refused == replace(last, n=2)
    assert course_of(fail, passed, fail) == Course(holds=replace(first, n=3))
    assert course_of(fail, passed, f"{ASKS} again", f"{RESULT} not_judged").said == ""
    assert [one.holds for one in corrections.courses(answers(fail, f"{HOLD} start", passed), TEST)] == [
        first,
        replace(then, n=3),
    ]
    assert course_of(passed, f"{ASKS} keyed_wrong").said == ""
    assert Course(refused=then).traces == ()


def test_a_seal_that_did_not_go_home_holds_likewise() -> None:
    tight, home = answers("fit_outcome too_tight", "fit_outcome home")
    assert (
        PRESSED.bad(tight)
        and not PRESSED.bad(home)
        and (PRESSED.what, PRESSED.again) == ("fitting", "made again")
    )
    assert TEST.bad(answers("x fail")[0]) and not any(
        TEST.bad(answers(f"x {word}")[0]) for word in ("pass", "home")
    )
    assert (TEST.what, TEST.result, TEST.begins, TEST.asks, TEST.again) == (
        "empty",
        RESULT,
        HOLD,
        ASKS,
        "tested again",
    )
    assert corrections.outcome((tight, home), PRESSED) == tight and corrections.outcome((), PRESSED) is None
    made_again = answers("fit_outcome too_tight", "part done", "fit_outcome home", "part done")
    assert corrections.outcome(made_again, PRESSED) == made_again[2]
    bad = [
        corrections.bad_result(one, PRESSED)
        for one in answers(
            f"{RESULT} fail",
            "cased_result fail",
            "fit_outcome chip",
            f"{RESULT} pass",
            "fit_outcome home",
            "x fail",
        )
    ]
    assert bad == [True, True, True, False, False, False]


def test_results_of_both_sittings_in_their_order_and_what_is_to_be_asked() -> None:
    given_ones = answers(
        "cased_result pass", f"{RESULT} fail", f"{HOLD} start", f"{RESULT} pass", f"{HOLD} start"
    )
    assert corrections.results(given_ones) == [given_ones[0], given_ones[1], given_ones[3]]
    over = (f"{RESULT} fail", f"{RESULT} pass")
    asked = corrections.to_ask(job_of(*over), TEST)
    assert asked is not None and asked.refused is not None and asked.refused.word == "pass"
    assert corrections.to_ask(job_of(*over, f"{ASKS} again"), TEST) is not None
    for nothing in (
        (*over, f"{ASKS} keyed_wrong"),
        over[:1],
        (*over, "@ attempt again"),
        (*over, f"{HOLD} start"),
    ):
        assert corrections.to_ask(job_of(*nothing), TEST) is None


def test_every_result_keyed_over_stands_for_the_sheet() -> None:
    stamped = answers(
        f"{RESULT} fail|2026-03-02T09:00:00+00:00",
        f"{RESULT} pass|no time",
        "cased_result pass",
        "cased_result fail",
    )
    spans = [answers("fit_outcome chip", "fit_outcome home", first=11), stamped]
    found = corrections.corrections_of(spans, PRESSED)
    rows = [tuple(one.values()) for one in found]
    utc, later = "2026-03-02T09:00:00+00:00", "2026-03-02T09:00:00+00:00"
    assert rows == [
        (2, "empty", "fail", utc, "pass", later, "open"),
        (2, "cased", "pass", later, "fail", later, "corrected"),
        (1, "fitting", "chip", later, "home", later, "open"),
    ]
    assert list(found[0]) == ["attempt", "what", "first", "first_at", "then", "then_at", "how"]
    assert (
        corrections.given_at(Answer(1, "x", "a", ("fail", "2026-03-02T10:00:00+02:00")))
        == "2026-03-02T08:00:00+00:00"
    )
    assert corrections.given_at(Answer(1, "x", "a", ("fail", "y", AT))) is None


def test_how_a_job_ended() -> None:
    known = endings.endings({("fit_outcome", "stopped"): "Given up."}, stopped="Not opened.")
    assert dict(known) == {
        (keys.PAINT_GO, "stop"): "Not opened.",
        ("fit_outcome", "stopped"): "Given up.",
        ("empty_found", "hand_back"): "Handed back as not water-resistant.",
        ("cased_found", "hand_back"): "Handed back as not water-resistant.",
    }
    ended = endings.ending_of(job_of("paint_go stop", "empty_found hand_back"), known)
    assert ended is not None and endings.ending_word(ended) == "empty_found: hand_back"
    assert endings.ending_of(job_of("empty_found ring", "hand_back done"), known) is None
    assert endings.ending_of(job_of("empty_found hand_back", "hand_back done"), known) is None
    again = endings.ending_of(job_of("hand_back done", "empty_found hand_back"), known)
    assert again is not None and again.n == 2
    assert endings.ending_said("paint_go: stop", known) == "Not opened."
    reasons = {"paint_go": endings.PAINT_REASONS}
    stop = answers("paint_go stop")[0]
    assert endings.because(job_of("paint old", "paint_go stop"), stop, reasons) == "paint: old"
    assert (
        endings.because(job_of("paint none"), stop, reasons)
        is None
        is endings.because(job_of("paint old"), stop, {})
    )
    two = {"paint_go": {("a", "1"): "A", ("b", "1"): "B"}}
    assert (
        endings.because(job_of("b 1", "a 1"), stop, two) == "a: 1"
        and endings.because(job_of("a 1", "b 1"), stop, two) == "b: 1"
    )
    assert endings.reason_said("paint_go: stop", "b: 1", two) == "B"
    assert set(endings.PAINT_REASONS) == {(keys.PAINT, "old"), (keys.PAINT, "unknown")}


def test_where_a_job_stands() -> None:
    waiting = replace(STEP, stage="size")
    walk = Walk((), (), (), waiting, None, seal="gasket")
    assert standing_of(walk) == Standing("size", "a gasket to be chosen")
    assert standing_of(replace(walk, open=replace(waiting, waits_for="the glass"))) == Standing(
        "size", "the glass"
    )
    said = {
        stage: standing_of(replace(walk, open=replace(waiting, stage=stage))).waits_for
        for stage in ("measure", "cut", "verify")
    }
    assert said == {"measure": "readings", "cut": "turning", "verify": "testing"}
    over = standing_of(replace(walk, open=None))
    assert (
        over == Standing(OVER, "")
        and over.over
        and over.word == "stands over"
        and not Standing("size", "").over
    )
    assert Standing("cut", "turning: the last").word == "stands cut: turning: the last"
    assert said_in(entry(1, "a 1|stands cut: turning: the last")) == Standing("cut", "turning: the last")
    assert (
        said_in(entry(1, "a 1|stands size: x|stands over"))
        == Standing("over", "")
        == said_in(entry(1, "a stands size|stands over|2"))
    )
    for nothing in ("a stands over", "a 1|2", "a 1|stands glued: x", "a 1|stands"):
        assert said_in(entry(1, nothing)) is None
    assert said_in(replace(entry(1, "a 1"), value=(1, "stands cut"))) == Standing("cut", "")
    assert last_said([entry(2, "a 1"), entry(3, "a 1|stands cut"), entry(1, "a 1|stands over")]) == Standing(
        "cut", ""
    )
    assert last_said([]) is None


def test_which_seals_are_new() -> None:
    searched = ("empty_result fail", "hunt_kind rate", "hunt_opened back", "hunt_back tight")
    assert renewed_in_search(answers(*searched)) == ("back",)
    assert renewed_in_search(answers(*searched[:2], "cased_result fail", *searched[2:])) == ()
    assert renewed_in_search(answers(*searched[:3], "cased_result pass", searched[3])) == ()
    assert renewed_in_search(answers(*searched[:-1], "back tight")) == () == renewed_in_search(())
    crown = (
        "cased_result fail",
        "hunt_kind rate",
        "hunt_opened crown",
        "hunt_crown_positions changes",
        "hunt_crown_seal tight",
    )
    assert renewed_in_search(answers(*crown, *searched)) == ("back", "crown")
    assert in_order(["tube", "back", "glass", "back", "x"]) == ("glass", "back", "tube")
    words = {
        "none": (),
        "all": ("back", "crown", "tube", "pushers"),
        "back_crown": ("back", "crown"),
        "glass": ("glass",),
        "x": (),
    }
    assert {word: seals_of(word) for word in words} == words
    assert {seals: word_of(seals) for seals in ((), ("back", "crown", "tube", "pushers"),
        ("glass", "back"))} == {
        (): "none", ("back", "crown", "tube", "pushers"): "all", ("glass", "back"): "glass_back",
    }  # fmt: skip
    assert [named(one) for one in ((), ("back",), ("back", "tube"), ("back", "crown", "tube"))] == [
        "none",
        "back",
        "back and tube",
        "back, crown and tube",
    ]
    assert listed(()) == ("none", ("none",)) and listed(("back", "tube")) == (
        "back and tube",
        ("back", "tube"),
    )


def test_what_is_known_of_each_seal() -> None:
    each = (
        "besides_back made_here",
        "besides_back_job 31",
        "besides_crown new",
        "besides_crown_size 2.50 x 0.9",
        "besides_tube left",
        "besides_pushers has_none",
    )
    found = known_seals(answers(*each, "renewed back_crown|said each"), ("glass",))
    assert found == (
        KnownSeal("glass", "this_job"), KnownSeal("back", "made_here", job="31"),
        KnownSeal("crown", "new", size="2.50 x 0.9"),
        KnownSeal("tube", "left"), KnownSeal("pushers", "has_none"),
    )  # fmt: skip
    assert as_data(found)[1] == {"seal": "back", "known": "made_here", "job": "31", "size": None}
    assert [one.is_new for one in found] == [False, True, True, False, False]
    by_names = known_seals(answers(*each, "renewed crown"), ("back",))
    assert by_names == (
        KnownSeal("glass"),
        KnownSeal("back", "this_job"),
        KnownSeal("crown", "new"),
        KnownSeal("tube"),
        KnownSeal("pushers"),
    )
    by_hand = known_seals(answers(*each, "renewed tube|said each"), ("glass",))
    assert [one.known for one in by_hand] == ["this_job", None, None, "new", None]
    later = known_seals(answers("renewed none|said each", *each), ("glass",))
    assert [one.known for one in later] == ["this_job", None, None, None, None] and known_seals(
        (), ("glass",)
    ) == later
    kept_with = known_seals(answers("besides_back made_here|job 77", "renewed back|said each"), ("glass",))
    assert kept_with[1] == KnownSeal("back", "made_here", job="77")
    unknown = known_seals(
        answers("besides_back made_here", "besides_back_job unknown", "renewed back|said each"), ("glass",)
    )[1]
    assert unknown == KnownSeal("back", "made_here")
    stale = known_seals(
        answers("besides_back_job 31", "besides_back made_here", "renewed back|said each"), ("glass",)
    )[1]
    assert stale == unknown
    searched = ("empty_result fail", "hunt_kind rate", "hunt_opened back", "hunt_back tight")
    over_left = known_seals(answers("besides_back left", *searched, "renewed back|said each"), ("glass",))[1]
    assert over_left == KnownSeal("back", "new")
    assert new_ones(answers(*each), ()) == ("back", "crown") and new_ones(
        answers("besides_tube left"), ("tube",)
    ) == ("tube",)
    assert known_seals(
        answers("besides_back new", "besides_back_size ", "renewed back|said each"), ("glass",)
    )[1] == KnownSeal("back", "new")
    assert others_of(("tube",)) == ("glass", "back", "crown", "pushers")


def test_other_jobs_are_named_by_number() -> None:
    assert (like_number(job_of("@ like 47|plastic pa66")), like_number(job_of())) == ("47", None)
    assert [linked_number(job) for job in (job_of("linked 12"), job_of("linked none"), job_of())] == [
        "12",
        None,
        None,
    ]

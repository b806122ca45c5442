"""The seals of a watch said one by one at casing: what is kept, what the papers say, what stays as it was."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bench.command import DONE
from bench.file.entry import Entry
from bench.job.job import Answer, replay
from bench.job.of_each_seal import known_seals, others_of
from bench.seals import SEALS
from bench.sheet.customer_text import customer_lines
from bench.sheet.seals_of_watch import shop_line
from ringwright import main
from tests.campaigns.sheet_claims import customers_of, slip_of
from tests.independent.claims_customer import customer_complaints, slip_complaints
from tests.independent.promised import unlike
from tests.languages.every_sheet import SAMPLES, sample
from tests.seals.test_gasket import sheet
from tests.seals.test_oring import begun
from tests.whole.hands import lines
from tests.whole.places import at
from tests.whole.repairer import HEAD, Repairer
from tests.whole.script import Hand

SAID = ("new", "made_here", "left", "has_none")
"""Of back, crown, tube and pushers."""
TOLD = (
    "Other seals renewed: back and crown.",
    "Made in this workshop too, in job 214: crown.",
    "Old seals that were looked at and left: tube.",
    "Not renewed: tube. An old seal may begin to leak before that.",
)


def said_of_each(repairer: Repairer) -> Repairer:
    """The other seals of the watch said one by one, up to the page that sums them up."""
    repairer.give("each")
    for answer in SAID:
        repairer.give(answer)
        if answer == "made_here":
            repairer.give("214")
    return repairer


def test_the_usual_answers_keep_their_numbers_and_one_more_says_it_of_each() -> None:
    words = [one.word for one in at("renewed").step.choices]
    assert words == ["none", "back", "back_crown", "back_crown_tube", "all", "crown", "parked", "each"]


def test_of_each_seal_by_keypad_opened_again_taken_back_and_said_again() -> None:
    repairer = at("renewed")
    repairer.give("each")
    repairer.give("new")
    repairer.feed(repairer.bench.opened())
    repairer.answer()
    assert repairer.asked == "besides_crown", "opened again it stands where it was left"
    for answer in ("made_here", "214", "not_looked_at"):
        repairer.give(answer)
    repairer.pick("undo")
    assert repairer.asked == "besides_tube"
    repairer.give("left")
    repairer.give("has_none")
    first = repairer.step.choices[0]
    assert (first.word, first.text) == ("back_crown", "as said of each, new: back and crown")
    repairer.answer()
    assert repairer.asked == "cased_pressure"
    job = repairer.desk.job
    assert job is not None and (kept := job.newest("renewed")) is not None
    assert kept.words[:2] == ("back_crown", "said each"), "its first word is read as ever"
    repairer.on_to("")
    data = sheet(repairer)
    assert [(one["known"], one["job"]) for one in data["seals_of_watch"]] == [
        ("this_job", None), ("new", None), ("made_here", "214"), ("left", None), ("has_none", None),
    ]  # fmt: skip
    assert shop_line(data) == (
        "Seals of this watch: glass: made or chosen in this job; back: new; crown: made here in job 214; "
        "tube: old, looked at and left; pushers: this watch has none."
    )


def test_a_usual_answer_given_instead_counts_alone() -> None:
    repairer = said_of_each(at("renewed"))
    assert [one.word for one in repairer.step.choices] == ["back_crown", "parked", "each"]
    repairer.give("each")
    repairer.give("not_said")
    repairer.give("none")
    data = sheet(repairer)
    assert {one["known"] for one in data["seals_of_watch"]} == {"this_job", None}
    assert shop_line(data).endswith("back, crown, tube and pushers: nothing said.")


def test_a_seal_that_a_search_renewed_is_new_whatever_was_said_before() -> None:
    """What was said of the others stays said after the test that failed."""
    repairer = said_of_each(at("renewed"))
    repairer.answer()
    search = {"hunt_opened": "pushers", "hunt_pushers": "tight"}
    repairer.on_to("cased_found", {"cased_result": "fail", **search})
    repairer.give("test")
    assert repairer.asked == "renewed"
    assert repairer.step.choices[0].text == "as said of each, new: back, crown and pushers"
    repairer.answer()
    known = {one["seal"]: one["known"] for one in sheet(repairer)["seals_of_watch"]}
    assert known["pushers"] == "new" and known["tube"] == "left" and known["crown"] == "made_here"


def test_a_seal_not_to_be_had_is_sized_in_a_job_of_its_own() -> None:
    repairer = at("cased_check")
    way = {"cased_result": "fail", "hunt_opened": "back", "hunt_back": "cannot"}
    repairer.on_to("cased_found", way)
    assert "or in a job of its own" in repairer.step.say[1] and "key 1 there" in repairer.step.say[1]
    repairer = at("cased_check")
    repairer.on_to("cased_found", {"cased_result": "fail", "hunt_opened": "back", "hunt_back": "tight"})
    assert len(repairer.step.say) == 1


def test_the_seal_that_is_made_is_not_asked_of() -> None:
    """An O-ring of the back: the first question is of the glass, whose seal may be new too."""
    repairer = begun().on_to("renewed")
    repairer.give("each")
    assert repairer.asked == "renewed" and repairer.desk.at == "besides_glass"
    for answer in ("new", "left", "left", "not_looked_at"):
        repairer.give(answer)
    repairer.answer()
    data = sheet(repairer)
    assert [one["seal"] for one in data["seals_of_watch"] if one["known"] == "this_job"] == ["back"]
    page = " ".join(customer_lines(data))
    assert "Other seals renewed: glass." in page and "looked at and left: crown and tube." in page


@pytest.mark.parametrize(("place", "seal"), [("tube", "tube"), ("pusher", "pushers")])
def test_which_seal_of_the_watch_an_o_ring_is(place: str, seal: str) -> None:
    kept = Entry(n=1, at="", kind="answer", key="oring_place", value=place)
    assert SEALS["oring"].closes(replay(HEAD, (kept,))) == seal and seal not in others_of((seal,))


def test_in_plain_lines_linked_and_on_paper(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The job that this one is linked to is offered; the papers are read beside the raw file."""
    each = dict(zip(("crown", "tube", "pushers"), SAID[1:], strict=True))
    script = [
        ("linked", "214"),
        ("renewed", "each"),
        ("besides_back", "new"),
        *((f"besides_{seal}", answer) for seal, answer in each.items()),
    ]
    _, said = lines(tmp_path, [Hand(script)])
    assert "made here in job 214" in said and "as said of each, new: back and crown" in said
    file = next((tmp_path / "jobs").glob("00001*.toml"))
    page = " ".join(customers_of(file, tmp_path).split())
    assert [words for words in TOLD if words not in page] == []
    capsys.readouterr()
    assert main(["sheet", str(file), "--json", "--folder", str(tmp_path)]) == DONE
    data = json.loads(capsys.readouterr().out)
    assert unlike("sheet", data) == []
    assert [*customer_complaints(page, file, data), *slip_complaints(slip_of(data), file, data)] == []
    for right, wrong in (("left: tube", "left: back"), ("job 214: crown", "job 215: crown"), ("Old", "Odd")):
        assert customer_complaints(page.replace(right, wrong), file, data), wrong
    text = file.read_text(encoding="utf-8")
    assert re.search(r'value = \["back_crown", "said each"', text)


def test_what_does_not_go_with_the_seals_named_is_not_said_of_each() -> None:
    """The named ones changed in an editor to none: that the back is new, as said of it, does not count."""
    said = [Answer(1, "", "besides_back", ("new",)), Answer(2, "", "besides_crown", ("left",))]
    for word, known in (("back", ["new", "left"]), ("none", [None, None])):
        now = (*said, Answer(3, "", "renewed", (word, "said each")))
        assert [one.known for one in known_seals(now, "glass")[1:3]] == known


def test_an_older_file_says_what_it_said() -> None:
    """Those that were named are new, and of the others nothing is said."""
    data = next(one for path in SAMPLES if (one := sample(path))["renewed"] == "back_crown")
    known = {one["seal"]: one["known"] for one in data["seals_of_watch"]}
    assert known == {"glass": "this_job", "back": "new", "crown": "new", "tube": None, "pushers": None}

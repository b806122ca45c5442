"""Copies of a job that went on apart: found, said, compared, joined by keypad and by command."""

from __future__ import annotations

import io
import random
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from bench.joining.asked import questions
from bench.joining.joined import asked_of, join
from bench.joining.numbering import Joined
from bench.joining.side import side_of
from bench.joining.twins import BEHIND, PARTED, WITHIN, Heads, related
from screens.dispatch import main as ringwright
from screens.look import Look
from screens.view import view
from tests.campaigns import diverged
from tests.campaigns.diverged_draws import Copy, file_of, shop
from tests.whole.hands import lines
from tests.whole.stated import stated

ONE, OTHER, JOINED = "00214-clerk.toml", "00214-clerk (conflicted copy).toml", "00214-clerk-joined.toml"


@pytest.fixture(name="copies", scope="module")
def _copies() -> tuple[bytes, bytes]:
    """A job to its first glass reading, then answered otherwise on two computers."""
    first = Copy((), random.Random(1), asides=0.0)
    first.go_on(5)
    ends = []
    for glass in ("35.31 mm", "35.34 mm"):
        copy = Copy(first.entries, random.Random(2), asides=0.0)
        copy.add("answer", "case_bore_2", ("36.44 mm",))
        copy.add("answer", "glass_1", (glass,))
        ends.append(file_of(copy.entries))
    return ends[0], ends[1]


@pytest.fixture(name="folder")
def _folder(tmp_path: Path, copies: tuple[bytes, bytes]) -> Path:
    jobs = stated(tmp_path) / "jobs"
    jobs.mkdir(exist_ok=True)
    for name, data in zip((ONE, OTHER), copies, strict=True):
        (jobs / name).write_bytes(data)
    return tmp_path


def states(folder: Path) -> dict[str, str]:
    """How the copies of a folder stand to each other."""
    heads = Heads(folder)
    assert heads.look(100)
    return {name: twin.state for name, twin in heads.twins().items()}


def test_copies_are_found_by_their_id_under_any_name(folder: Path, copies: tuple[bytes, bytes]) -> None:
    (folder / "jobs" / OTHER).rename(folder / "jobs" / "lantern.toml")
    assert states(folder) == {ONE: PARTED, "lantern.toml": PARTED}
    earlier = copies[0][: copies[0].rindex(b"\n[[entry]]")]
    assert {name: twin.state for name, twin in related({"a": copies[0], "b": earlier}).items()} == {
        "b": BEHIND
    }
    anew = copies[1].replace(b'job = "214"', b'job = "215"', 1)
    assert not related({"a": copies[0], "b": anew}), "a file begun from another one is a job of its own"


def test_a_ring_counts_only_on_the_readings_its_copy_knew() -> None:
    """One copy has a third reading of the seat: that reading holds whichever ring is right, and the
    ring that did not know of it is asked again.
    """
    first = Copy((), random.Random(1), asides=0.0)
    first.go_on(8)
    assert first.entries[-1].key == "seat_depth"
    ends = []
    for readings in (("36.44 mm",), ()):
        copy = Copy(first.entries, random.Random(2), asides=0.0)
        copy.add("note", "note", ("seen",))
        for reading in readings:
            copy.add("answer", "case_bore_3", (reading,))
        copy.go_on(1)
        assert copy.entries[-1].key == "ring"
        ends.append(side_of(file_of(copy.entries), "a copy", shop()))
    one, other = ends
    (question,) = questions(*asked_of(one, other))
    assert all(said.startswith("accept it: ") for said in question.said), (
        "they read alike, and are told apart"
    )
    assert question.said[0] != question.said[1]
    counting = [ring_of(join(one, other, {"ring": which})) for which in (0, 1)]
    assert set(counting) == {("36.44 mm", None), ("36.44 mm", "accept")}


def test_what_both_answered_is_asked_though_the_route_of_one_leads_there_no_more(
    copies: tuple[bytes, bytes],
) -> None:
    """Such as what to do after a test without a verdict: said and done on one, still to do on the other."""
    one, other = (side_of(data, "a copy", shop()) for data in copies)
    off = replace(one, counting={key: found for key, found in one.counting.items() if key != "glass_1"})
    for pair in ((off, other), (other, off)):
        (question,) = questions(*asked_of(*pair))
        assert set(question.said) == {"35.31 mm", "35.34 mm"}


def ring_of(made: Joined) -> tuple[str, str | None]:
    """The third reading and the ring, as they count in a joined job."""
    whole = side_of(made.render(), "joined", shop())
    ring = whole.counting.get("ring")
    return whole.counting["case_bore_3"].answer.word, ring.answer.word if ring else None


def test_by_keypad_both_stay_and_a_third_is_opened(folder: Path, copies: tuple[bytes, bytes]) -> None:
    desk, said = lines(folder, ["214", "2", "2"])
    assert "Glass, outside" in said and "35.31 mm" in said and "35.34 mm" in said
    assert desk.file.endswith(JOINED) and desk.walk is not None
    assert tuple((folder / "jobs" / name).read_bytes() for name in (ONE, OTHER)) == copies
    assert states(folder) == {ONE: WITHIN, OTHER: WITHIN}
    again, _ = lines(folder, ["214"])
    assert again.file.endswith(JOINED)


def test_the_list_says_which_copies_went_apart(folder: Path) -> None:
    desk, _ = lines(folder, ["214", "1"])
    page = "\n".join("".join(text for text, _ in line) for line in view(desk, Look("ascii")))
    assert desk.page == "jobs" and page.count("went on otherwise than") == 2


def test_the_command_writes_nothing_undecided(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    words = ["--folder", str(folder), "join", "214"]
    assert ringwright([*words, "--decide", "glass_1=3"]) == 2
    monkeypatch.setattr(sys, "stdin", io.StringIO("7\n"))
    assert ringwright(words) == 2
    assert "glass_1 is not decided" in capsys.readouterr().err and len(states(folder)) == 2
    assert ringwright([*words, "--decide", "glass_1=2"]) == 0
    assert capsys.readouterr().out.rstrip().endswith(JOINED)
    assert ringwright(words) == 2 and "joined into" in capsys.readouterr().err


def test_a_copy_that_went_on_after_joining_is_offered_again(folder: Path) -> None:
    assert ringwright(["--folder", str(folder), "join", "214", "--decide", "glass_1=1"]) == 0
    with (folder / "jobs" / ONE).open("ab") as file:
        file.write(b"\n")  # it is not what was joined any more
    assert states(folder)[OTHER] == WITHIN and states(folder).get(ONE) != WITHIN


def test_drawn_copies_lose_and_invent_nothing() -> None:
    counts = diverged.run()
    met = ("asked of a key", "asked which piece", "edited by hand", "a fail on a side", "a hold on one side")
    assert counts.clean and all(counts.seen[what] for what in met), counts


@pytest.mark.parametrize("fault", diverged.PLANTED)
def test_a_fault_planted_in_the_joining_is_caught(fault: str) -> None:
    assert diverged.caught(fault)

"""The rings of finished jobs: read from their files alone, kept beside them, and never trusted over them."""

from __future__ import annotations

import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.edits.meant import as_meant
from bench.file.entry import Entry, Head
from bench.file.listing import Row, rows
from bench.file.load import Loaded, load as load_job
from bench.job import keys
from bench.job.job import Answer, replay, words_of
from bench.job.kept import Misfit
from bench.job.learned import learned_from, learned_in, learned_words
from bench.job.past import PastRing, from_json, to_json
from bench.past import shelf
from bench.past.learning import landed, looked_up, promises_of, repeats
from bench.seals import seal_of
from bench.seals.ring.past import given_up, repeats as read_twice
from bench.shop.shop import built_in
from rules.learning.promised import Promise
from rules.learning.repeating import Repeating
from tests.whole.past_jobs import NOW, job_in, learned_folder, loaded_in


@pytest.fixture(scope="module")
def shop_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Made once for all of them."""
    return learned_folder(tmp_path_factory.mktemp("learned"))


def test_a_ring_is_read_as_it_came_out(shop_folder: Path) -> None:
    """Aims, walls, tools, outcome; what was allowed for is taken out of where it landed."""
    (ring,) = seal_of(job_in(shop_folder)).past(job_in(shop_folder))
    assert ring.walls_mm == (0.628, 0.631, 0.633, 0.630) and ring.outcome == "home"
    assert ring.allowed_mm == pytest.approx(-0.006) and ring.off_mm == pytest.approx(0.6305 - 0.641)
    assert ring.turned_by == "small bench lathe | tool 2 boring bar, nose 0.20 | acetal"
    assert [tool for tool, _ in ring.tools] == [
        "tool 1 keen right-hand turning tool, nose 0.20",
        "tool 2 boring bar, nose 0.20",
    ]
    assert from_json(to_json([ring])) == (ring,)
    second = job_in(shop_folder, 214)
    first, other = seal_of(second).past(second)
    assert (first.outcome, other.outcome) == ("too_easy", "home") and first.promised == 0.769
    assert first.off_mm == pytest.approx(0.46775 - 0.485)


def test_the_book_beside_the_jobs_is_never_trusted_over_them(
    shop_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rubbish, an older state and a file that changed: read again; what did not change is not."""
    shutil.copytree(shop_folder / "jobs", tmp_path / "jobs")
    wanted = shelf.rings_in(tmp_path)
    assert len(wanted) == 6
    opened: list[int] = []

    def counted(data: bytes) -> Loaded:
        opened.append(len(data))
        return load_job(data)

    monkeypatch.setattr(shelf, "load", counted)
    assert shelf.rings_in(tmp_path) == wanted and opened == []
    book = tmp_path / shelf.KNOWN_NAME
    book.write_text(book.read_text(encoding="utf-8").replace("aimed_mm", "aimed"), encoding="utf-8")
    assert shelf.rings_in(tmp_path) != wanted, "a ring that cannot be read is left out, nothing falls"
    book.write_bytes(b"\xff rubbish")
    assert shelf.rings_in(tmp_path) == wanted and len(opened) == 5
    path = next((tmp_path / "jobs").glob("00226*"))
    path.write_bytes(path.read_bytes()[:1200])
    assert len(shelf.rings_in(tmp_path)) == 5 and len(opened) == 5, "no ring was accepted in what is left"


def test_only_the_newest_jobs_are_looked_at(
    shop_folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ten thousand jobs cost no more than the newest of them."""
    (tmp_path / "jobs").mkdir()
    for number in range(1, 400):
        (tmp_path / "jobs" / f"{number:05d}-old.toml").write_bytes(b"")
    shutil.copy(next((shop_folder / "jobs").glob("00208*")), tmp_path / "jobs" / "00400-new.toml")
    looked: list[Path] = []

    def counted(paths: list[Path], **more: Any) -> list[Row]:
        looked.extend(paths)
        return rows(paths, **more)

    monkeypatch.setattr(shelf, "rows", counted)
    assert len(shelf.rings_in(tmp_path)) == 1 and len(looked) == shelf.LOOKED_AT


ASKED = ("a | b | acetal", "seat", "glass")
HEAD = Head(format=1, id="00000000", job="1", made_by="test")
RING = PastRing(
    job="1", number=1, at=NOW, plastic="acetal", outside_mm=30.0, bore_mm=29.0, height_mm=1.0, aimed_mm=0.5
)


def test_what_says_nothing_of_landing_or_promise_is_left_out() -> None:
    """A ring not turned, not measured or never promised; an outcome with another cause."""
    turned = replace(RING, walls_mm=(0.51,) * 4, turned_by="a | b | acetal")
    assert turned.off_mm == pytest.approx(0.01) and RING.off_mm is None
    assert replace(RING, walls_mm=(0.51,) * 4).off_mm is None
    assert landed([RING], built_in(), ASKED[0], NOW) is None
    assert looked_up([RING], built_in(), ASKED, NOW) == ()
    tried = replace(turned, promised=0.8, outcome="home")
    rings = [
        tried,
        replace(tried, leaked=True),
        replace(tried, outcome="shaved", other_cause="burr"),
        replace(tried, outcome="too_easy"),
        replace(tried, outcome=""),
    ]
    assert promises_of(rings) == (Promise(0.8, True), Promise(0.8, False), Promise(0.8, False))
    pairs = [replace(RING, repeats=(("glass", 0.01), ("seat", 0.02)))] * 4
    assert repeats(pairs, NOW) == ()
    (glass, seat) = repeats([*pairs, replace(RING, repeats=(("glass", -0.01), ("seat", 0.02)))], NOW)
    assert (glass.pairs, seat.what) == (5, "seat") and seat.sd_mm > glass.sd_mm


def test_a_mark_is_kept_as_it_is_read_and_rubbish_counts_for_nothing(shop_folder: Path) -> None:
    """Every figure comes back; what was changed by hand into nothing leaves what is assumed."""
    job = job_in(shop_folder)
    learned, mark = learned_in(job, goes_by_it=True), job.newest(keys.LEARNED)
    assert learned is not None and mark is not None
    assert learned_from(learned_words(learned)) == learned and learned_words(learned) == mark.words
    paired = replace(learned, glass=Repeating(22, 0.0061, 27.0), seat=Repeating(6, 0.0093, 11.0))
    assert learned_from(learned_words(paired)) == paired
    assert learned_from((*mark.words, "glass_pairs 22", "glass_sd 0.0 mm", "glass_dof 27.0")) is None
    for text in ("lands_sd nothing", "lands_sd 0.0000 mm", "dof 1.0", "rings 0"):
        spoiled = tuple(text if word.startswith(text.split()[0][:5]) else word for word in mark.words)
        assert learned_from(spoiled) is None
    odd = replace(learned, lands=replace(learned.lands, odd=("1 of job 9", "2 of job 12")))
    assert learned_from(learned_words(odd)) == odd


def test_a_mark_changed_by_hand_is_read_or_refused(shop_folder: Path) -> None:
    """Its figures have to be those of a lathe; what they are is named where they are not."""
    mark = next(entry for entry in loaded_in(shop_folder).usable if entry.key == keys.LEARNED)
    head, shop = job_in(shop_folder).head, built_in()
    kept = words_of(mark)
    thicker = replace(mark, value=tuple(word.replace("lands -", "lands ") for word in kept))
    assert as_meant(head, (), thicker, shop, set()) == thicker
    for wrong in ("lands_sd 4.0 mm", "lands_sd mm", "lands_sd"):
        words = tuple(wrong if word.startswith("lands_sd") else word for word in kept)
        with pytest.raises(Misfit, match="the figures that were looked up"):
            as_meant(head, (), replace(mark, value=words), shop, set())


@pytest.mark.parametrize(
    ("key", "word", "outcome"),
    [
        (keys.OFF_BAND, "another", keys.OFF_BAND),
        (keys.OFF_BAND, "press", ""),
        (keys.PAST_BORE, "fresh", keys.PAST_BORE),
        (keys.PAST_OUTSIDE, "smaller_bore", ""),
    ],
)
def test_a_ring_given_up_for_its_size_did_not_fit(key: str, word: str, outcome: str) -> None:
    """Left out it would make every chance look better than it is."""
    span = (Answer(3, NOW, keys.RING, ("accept",)), Answer(7, NOW, key, (word,)))
    assert given_up(span, 3) == outcome and given_up(span, 8) == ""
    ring = replace(RING, promised=0.8, outcome=outcome)
    assert promises_of([ring]) == ((Promise(0.8, False),) if outcome else ())


def test_readings_that_are_no_pair_say_nothing_of_how_they_repeat() -> None:
    """A slip of keying, another instrument, an acrylic glass; a seat read twice at one place is a pair."""
    read = (
        Answer(1, NOW, "glass_1", ("33.04 mm",)),
        Answer(2, NOW, "glass_2", ("33.02 mm",)),
        Answer(3, NOW, "case_bore_1", ("34.18 mm",)),
        Answer(4, NOW, "case_bore_2", ("34.20 mm",)),
        Answer(5, NOW, "case_bore_1", ("34.21 mm",)),
        Answer(6, NOW, "case_bore_2", ("43.20 mm",)),
    )
    plain = replay(HEAD, ())
    assert read_twice(plain, read) == (("glass", 0.02), ("seat", -0.03))
    other = (*read[:1], replace(read[1], words=("33.021 mm", "by micrometer")))
    assert read_twice(plain, other) == ()
    acrylic = Entry(n=1, at=NOW, kind="answer", key=keys.GLASS_MATERIAL, value="acrylic")
    assert read_twice(replay(HEAD, (acrylic,)), read[:2]) == ()
    way = Entry(n=1, at=NOW, kind="answer", key=keys.GLASS_WAY, value="micrometer")
    assert read_twice(replay(HEAD, (way,)), read[:2]) == (("glass (micrometer)", 0.02),)


def test_a_shop_that_lands_thick_comes_to_land_on_size() -> None:
    """What was allowed for is not learned a second time, and the allowance stays where it belongs."""
    rings: list[PastRing] = []
    allowed, made = 0.0, 0.0
    for nth in range(25):
        learned = learned_from(looked_up(rings, built_in(), ASKED, NOW))
        allowed = round(learned.lands.mean_mm, 3) if learned else 0.0
        made = 0.5 - allowed + 0.008
        one = replace(
            RING, job=str(nth), allowed_mm=allowed, walls_mm=(made,) * 4, turned_by="a | b | acetal"
        )
        rings.insert(0, one)
    assert allowed == pytest.approx(0.008, abs=0.0011) and made == pytest.approx(0.5, abs=0.0011)

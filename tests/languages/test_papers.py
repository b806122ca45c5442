"""Sheet and slip of every sample in every language, and every statement, as they were read once and kept.

python -m tests.languages.test_papers writes `papers.md` anew; read it before it is kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from bench.job.statement import AtTime, Lasting, Long, Pressing, Statement
from bench.languages import ENGLISH, LANGUAGES, Language
from bench.sheet.customer import customers_sheet
from bench.sheet.customer_text import customer_lines, papers_data
from bench.sheet.slip import slip
from bench.sheet.tongue import TRANSLATION, Tongue
from rules.lengths import speaking
from tests.campaigns.sheet_claims import figures
from tests.languages.every_sheet import SAMPLES, every_sheet, sample

KEPT = Path(__file__).with_name("papers.md")
TONGUES = {word: Tongue(language) for word, language in LANGUAGES.items()}
COLUMNS = 100
SAMPLE = {path.stem: sample(path) for path in SAMPLES}


def in_words(data: dict[str, Any], tongue: Tongue) -> list[str]:
    """Sheet and slip, a line each."""
    lines = [
        *customer_lines(data, tongue, columns=COLUMNS),
        "",
        *(tongue.sentence(one) for one in slip(data)),
    ]
    return [*lines, *tongue.notice()]


def statements() -> Iterator[Statement]:
    """Each sentence of each statement once, with what stands in it somewhere."""
    seen = set[tuple[str, str]]()
    for sheet in every_sheet():
        said = (*(one for part in customers_sheet(sheet) for one in part.statements), *slip(sheet))
        for one in said:
            if (one.name, one.sentence) not in seen:
                seen.add((one.name, one.sentence))
                yield one


def kept_now() -> str:
    """The text of the kept file as it would be written now."""
    parts = ["# The customer's papers in every language\n"]
    for name, data in SAMPLE.items():
        for word, tongue in TONGUES.items():
            parts.append(f"## {name}, {word}\n\n```\n" + "\n".join(in_words(data, tongue)) + "\n```\n")
    parts.append("## Every statement\n")
    for one in statements():
        lines = (f"- {word}: {tongue.sentence(one)}" for word, tongue in TONGUES.items())
        parts.append(f"{one.name}\n\n" + "\n".join(lines) + "\n")
    return "\n".join(parts)


def test_papers_are_as_they_were_kept() -> None:
    assert kept_now().splitlines() == KEPT.read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize("word", LANGUAGES)
def test_every_language_says_the_same_figures(word: str) -> None:
    """Whatever the words: figure by figure what the English says, with the decimal mark of the language."""
    for said in statements():
        english, other = (figures(TONGUES[one].sentence(said)) for one in (ENGLISH, word))
        assert english == other, said.name


def test_a_language_not_read_through_says_that_the_english_holds() -> None:
    data = SAMPLE["00214-harbour-clerk"]
    for word, tongue in TONGUES.items():
        notice = tongue.notice()
        assert (word == ENGLISH) is (notice == ()) and notice[1:] == (
            () if word == ENGLISH else (TRANSLATION,)
        )
        assert customer_lines(data, tongue)[-2:] == notice or not notice
        assert papers_data(data, tongue)["translation_notice"] == list(notice)
    read = Tongue(Language("de", "German", "Deutsch", "de", read_through=True))
    assert read.notice() == () and not any(TRANSLATION in line for line in customer_lines(data, read))


def test_programs_read_english_beside_the_language() -> None:
    data = SAMPLE["00226-lighthouse-keeper"]
    plain, german = papers_data(data), papers_data(data, TONGUES["de"])
    assert (plain["language"], german["language"]) == ("en", "de")
    for ours, theirs in zip(plain["slip"], german["slip"], strict=True):
        assert ours == {**theirs, "translated": ours["text"]}
    assert german["customer"][1]["heading_translated"] == "Was geprüft wurde"
    assert german["customer"][1]["heading"] == "What was tested"


@pytest.mark.parametrize(
    ("word", "wall", "inch", "day", "first"),
    [
        ("en", "0.490 mm", "0.0193 in", "3 March 2026, 09:53", "1 May 2027"),
        ("de", "0,490 mm", "0,0193\u00a0in", "3. März 2026, 09:53", "1. Mai 2027"),
        ("fr", "0,490\u202fmm", "0,0193\u202fpo", "3 mars 2026, 09:53", "1er mai 2027"),
        ("it", "0,490 mm", "0,0193 in", "3 marzo 2026, 09:53", "1º maggio 2027"),
        ("es", "0,490 mm", "0,0193 in", "3 de marzo de 2026, 09:53", "1 de mayo de 2027"),
    ],
)
def test_figures_units_and_days_follow_the_language(
    word: str, wall: str, inch: str, day: str, first: str
) -> None:
    tongue = TONGUES[word]
    assert tongue.shown(Long(0.4895, 3)) == wall
    with speaking("inch"):
        assert tongue.shown(Long(0.4895, 3)) == inch
        assert tongue.unit() == inch[-2:]
    assert tongue.shown(AtTime("2026-03-03T09:53:00+00:00")) == day
    assert tongue.day(date(2027, 5, 1)) == first
    assert tongue.shown(Pressing(2.5)) == ("2.5 bar" if word == "en" else "2,5 bar")
    assert tongue.shown(Lasting(10.0)).startswith("10")


@pytest.mark.parametrize("word", LANGUAGES)
def test_a_count_of_one_has_a_sentence_of_its_own(word: str) -> None:
    forms = [
        TONGUES[word].sentence(Statement("measured", several, {"wall": Long(0.5), "n": n}, one=one))
        for n in (1, 4)
        for one, several in [(ONE_PLACE, PLACES)]
    ]
    assert "4" in forms[1] and "4" not in forms[0] and "1" not in forms[0]


ONE_PLACE = "Measured on the ring: wall {wall} (at one place)."
PLACES = "Measured on the ring: wall {wall} (mean of {n} places)."


def main() -> None:
    """Write it anew."""
    KEPT.write_text(kept_now(), encoding="utf-8")


if __name__ == "__main__":
    main()

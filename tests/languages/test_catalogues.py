"""The catalogues of the customer's papers: complete, nothing stale, no blank lost, no claim made softer."""

from __future__ import annotations

import ast
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po

from bench.job.renewed import NONE, SEALS as WATCH_SEALS
from bench.languages import ENGLISH, LANGUAGES
from bench.paper.page import Paper
from bench.seals import SEALS
from bench.seals.foot.drawing import DRAWN as DRAWN_FOOT
from bench.seals.gasket.drawing import DRAWN as DRAWN_GASKET
from bench.seals.gasket.kind import PLACES
from bench.seals.oring.drawing import DRAWN as DRAWN_ORING, DRAWN_INSIDE
from bench.seals.oring.kind import PLACES as ORING_PLACES
from bench.seals.ring.drawing import DRAWN
from bench.sheet.proved import LIMITS, SENTENCES, WHAT
from bench.sheet.slip import HELD
from rules.testing.methods import methods
from tests.languages.every_sheet import listened
from tests.languages.extract import FOLDER

TOP = Path(__file__).resolve().parents[2]
STRONG = tomllib.loads(Path(__file__).with_name("strong_words.toml").read_text(encoding="utf-8"))
TRANSLATED = [word for word in LANGUAGES if word != ENGLISH]
BLANK = re.compile(r"\{\w*\}")
NEXT = re.compile(r"[.] (?=[A-ZÀ-Þ])")
"""Where another sentence begins."""
SAYING = {"Statement": 1, "Headed": 0, "Ours": 0, "words": 0}
"""Which argument of what makes a statement holds English words."""
Entry = tuple[str, ...]


def catalogue(word: str) -> Catalog:
    """The catalogue of a language as it stands in its file."""
    with (FOLDER / f"{word}.po").open("rb") as source:
        return read_po(source, locale=word)


def as_entry(words: str | tuple[str, ...] | list[str]) -> Entry:
    """The forms of a sentence, one or several."""
    return (words,) if isinstance(words, str) else tuple(words)


def forms_of(message: Message) -> Entry:
    """The forms of a translation, empty where there is none."""
    return as_entry(message.string or "")


def entries(word: str) -> dict[Entry, Message]:
    """The sentences of a language by their English ones."""
    return {as_entry(one.id): one for one in catalogue(word) if one.id}


@pytest.fixture(scope="module")
def heard() -> tuple[dict[Entry, set[str]], set[str]]:
    """What papers say, and the names of the statements that say it."""
    return listened()


def said_in_code() -> tuple[set[str], set[str]]:
    """Every English text that stands where a statement is made, and every name of a statement there."""
    words, names = set[str](), set[str]()
    for path in sorted((TOP / "bench").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            called = getattr(node.func, "id", getattr(node.func, "attr", ""))
            given = node.args[SAYING[called] : SAYING[called] + 1] if called in SAYING else []
            given += [one.value for one in node.keywords if one.arg == "one" and called == "Statement"]
            assert not any(isinstance(one, ast.JoinedStr) for one in given), f"{path}: put together"
            words |= {text for one in given for text in texts(one)}
            names |= {text for one in node.args[:1] if called == "Statement" for text in texts(one)}
    return words, names


def texts(node: ast.expr) -> Iterator[str]:
    """The texts that an argument may be: itself, or one of two."""
    if isinstance(node, ast.IfExp):
        yield from (*texts(node.body), *texts(node.orelse))
    elif isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value


def said_in_tables() -> set[str]:
    """Every English text that stands in a table of the code or of the rules."""
    claims = [one.claim for one in methods().values()]
    reasons = (text for one in SEALS.values() for found in one.reasons.values() for text in found.values())
    endings = (text for one in SEALS.values() for text in one.endings.values())
    return {
        *(
            *SENTENCES.values(),
            *HELD.values(),
            *LIMITS.values(),
            *DRAWN.values(),
            *DRAWN_GASKET.values(),
            *DRAWN_ORING.values(),
            *DRAWN_INSIDE.values(),
            *DRAWN_FOOT.values(),
            *PLACES.values(),
            *ORING_PLACES.values(),
            *endings,
            *reasons,
        ),
        *(text for one in claims for text in (one.words, one.can, one.cannot)),
        *WHAT.values(),
        *(*WATCH_SEALS, NONE),
    }


def test_what_is_listened_to_is_all_that_papers_can_say(
    heard: tuple[dict[Entry, set[str]], set[str]],
) -> None:
    words, names = said_in_code()
    assert len(words) > 50 and len(names) > 40
    assert (words | said_in_tables()) - {text for entry in heard[0] for text in entry} == set()
    assert names - heard[1] == set()


@pytest.mark.parametrize("word", TRANSLATED)
def test_every_sentence_has_an_entry_and_no_entry_is_stale(
    word: str, heard: tuple[dict[Entry, set[str]], set[str]]
) -> None:
    found = catalogue(word)
    assert entries(word).keys() == heard[0].keys(), "python -m tests.languages.extract"
    assert not found.obsolete, "delete what no paper says any more"
    for entry, message in entries(word).items():
        forms = forms_of(message)
        assert all(forms) and not message.fuzzy, f"{entry}: to be translated"
        assert len(forms) == (found.num_plurals if len(entry) > 1 else 1)
        assert set(message.auto_comments) == heard[0][entry], "python -m tests.languages.extract"


@pytest.mark.parametrize("word", TRANSLATED)
def test_blanks_and_the_end_of_a_sentence_stay(word: str) -> None:
    for entry, message in entries(word).items():
        forms = forms_of(message)
        for text, of in ((forms[0], entry[0]), *((text, entry[-1]) for text in forms[1:])):
            assert sorted(BLANK.findall(text)) == sorted(BLANK.findall(of)), text
            assert text.strip() == text and (text[-1] == ".") is (of[-1] == "."), text
            assert len(NEXT.split(text)) == len(NEXT.split(of)), f"as many sentences: {text}"


@pytest.mark.parametrize("word", TRANSLATED)
def test_a_claim_is_as_strong_as_in_english(word: str) -> None:
    held = dict.fromkeys(STRONG, 0)
    for entry, message in entries(word).items():
        for english, patterns in STRONG.items():
            if re.search(english, entry[-1], re.IGNORECASE):
                held[english] += 1
                assert re.search(patterns[word], forms_of(message)[-1], re.IGNORECASE), (
                    english,
                    message.string,
                )
    assert all(held.values()), held


def test_a_softer_claim_is_found() -> None:
    """The check of strong words refuses what it is there for."""
    soft = "{what}, {at}: vermutlich dicht, obwohl {reason}. Verfahren: {method}."
    said = [
        english for english in STRONG if re.search(english, SENTENCES["not_proved", False], re.IGNORECASE)
    ]
    assert said and not any(re.search(STRONG[english]["de"], soft, re.IGNORECASE) for english in said)


def test_no_line_breaks_before_a_sign_of_french() -> None:
    loose = [one.string for one in entries("fr").values() if re.search(r" [:;?!»]|« ", str(one.string))]
    assert loose == []


def test_the_font_has_every_letter() -> None:
    pytest.importorskip("fpdf", reason="the PDF library is an extra")
    has = Paper().has
    for word in TRANSLATED:
        letters = set("".join(text for one in entries(word).values() for text in forms_of(one)))
        assert {letter for letter in letters if ord(letter) not in has} == set()

"""The words: explained once, used as explained;
and those that the product does not say, with what it says instead.
"""

from __future__ import annotations

import ast
import io
import re
import tokenize
from collections.abc import Iterator
from pathlib import Path

import pytest

from rules.glossary import bench_words
from rules.tables import raw_table
from tests.house.checks import PACKAGES, TOP

PROGRAM_WORDS: dict[str, str] = raw_table("glossary")["program"]
NOT_SAID = {
    "long slide": "carriage",
    "lost motion": "backlash",
    r"touch(es)? the (outside|face|bore)\b": "touch off on",
    r"reckon\w*": "compute, count",
    "hold (is |was )?told": "length of the hold is fixed",
    "promise[sd] (by|of) the slide": "should be",
    "slides? promised?": "should be by the cross slide",
    r"leaves? .{0,12}over (its|the) figure": "cuts larger than it shows",
    "holds the blade": "the width of the blade is in the figure",
    "keenest": "sharpest",
    "took the ground": "rests on an answer changed later",
    "by its lights": "as it says",
    "let go": "passed on, released",
    "tak(e|en|ing) note": "accept",
    r"\bdear\b": "expensive; left out first",
    "readings that cannot be": "impossible readings",
    "brought to 20": "corrected to 20",
    r"\bafresh\b": "again",
    r"\banew\b": "again",
    r"\btaken in( under)?:": "imported",
    "what (became|came|becomes) of": "what happened to, the result",
    "tolerance of the instrument": "limit of error",
    "accuracy": "limit of error, uncertainty, good to",
    "precision": "resolution, uncertainty",
    "error bar": "uncertainty",
    r"\bcrystal\b": "glass",
    "a water pipe": "lets water through",
}
"""Private, stilted or wrong words, as patterns, and what is said instead."""


def said_in(path: Path) -> Iterator[tuple[int, str]]:
    """Line and text of all that a file says:
    strings, docstrings and comments of code, every line of a text.
    """
    text = path.read_text(encoding="utf-8")
    if path.suffix != ".py":
        yield from enumerate(text.splitlines(), 1)
        return
    kinds = (tokenize.STRING, tokenize.COMMENT, getattr(tokenize, "FSTRING_MIDDLE", tokenize.COMMENT))
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type in kinds:
            yield token.start[0], " ".join(token.string.split())


def product() -> Iterator[Path]:
    """Every file that the product says something in."""
    yield TOP / "README.md"
    for package in PACKAGES[:4]:
        for path in sorted((TOP / package).rglob("*")):
            if path.suffix in (".py", ".toml", ".md"):
                yield path


def test_the_product_does_not_say_them() -> None:
    found = [
        f"{path.relative_to(TOP)}:{number}: {there[0]!r}; say: {instead}"
        for path in product()
        for number, text in said_in(path)
        for pattern, instead in NOT_SAID.items()
        if (there := re.search(pattern, text, re.IGNORECASE))
    ]
    assert found == []


@pytest.mark.parametrize("pattern", NOT_SAID)
def test_what_is_said_instead_may_be_said(pattern: str) -> None:
    assert not any(re.search(one, NOT_SAID[pattern], re.IGNORECASE) for one in NOT_SAID)


def test_a_word_of_the_bench_is_met_on_the_screen() -> None:
    """On a page besides its own, or in a sentence of the product that another page shows."""
    golden = (TOP / "tests" / "screens" / "golden" / "pages_80x24.txt").read_text(encoding="utf-8")
    pages = [page for page in golden.split("==== ") if "keys and words" not in page]
    shown = " ".join(" ".join([*pages, *sentences()]).split())
    assert [word for word in bench_words() if not re.search(rf"\b{word}\b", shown, re.IGNORECASE)] == []


def test_a_word_of_the_program_is_used_in_it() -> None:
    code = " ".join(text for path in product() if path.suffix == ".py" for _, text in said_in(path))
    assert [word for word in PROGRAM_WORDS if len(re.findall(rf"\b{word}s?\b", code)) < 5] == []


def sentences() -> Iterator[str]:
    """The strings of the product that are no docstrings."""
    for path in product():
        if path.suffix == ".py":
            tree = ast.parse(path.read_text(encoding="utf-8"))
            explained = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
            for node in ast.walk(tree):
                if (
                    isinstance(node, ast.Constant)
                    and isinstance(node.value, str)
                    and id(node) not in explained
                ):
                    yield node.value


def markdown(words: dict[str, str]) -> str:
    """A table of words as the README prints it."""
    return "\n".join(("| word | meaning |", "| --- | --- |", *(f"| {one} | {words[one]} |" for one in words)))


def test_the_readme_says_what_the_screen_says() -> None:
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    assert markdown(bench_words()) in readme and markdown(PROGRAM_WORDS) in readme

"""The sentences of the customer's papers, brought into the catalogues: `python -m tests.languages.extract`.

A sentence that is new stands in each `bench/data/papers/LANGUAGE.po` without a translation; one that no paper
says any more is put at its end as a comment, for whoever words it again to look at, and is then deleted.
"""

from __future__ import annotations

from pathlib import Path
from typing import BinaryIO

from babel.messages.catalog import Catalog
from babel.messages.pofile import read_po, write_po

from bench.languages import ENGLISH, LANGUAGES
from tests.languages.every_sheet import listened

FOLDER = Path(__file__).resolve().parents[2] / "bench" / "data" / "papers"
HEAD = """\
# The customer's papers of ringwright in one language. Braces stay as they are; what stands after #. is the
# name of the statement. Words that a claim hangs on stand in tests/languages/strong_words.toml.
msgid ""
msgstr ""
"Language: {language}\\n"
"Plural-Forms: {plural}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""


def template() -> Catalog:
    """Every sentence without a translation."""
    found = Catalog()
    for words, names in listened()[0].items():
        found.add(words if len(words) > 1 else words[0], auto_comments=sorted(names))
    return found


def written(out: BinaryIO, catalogue: Catalog, language: str) -> None:
    """Write a catalogue, in whose head stands nothing that changes by itself."""
    out.write(HEAD.format(language=language, plural=catalogue.plural_forms).encode())
    write_po(out, catalogue, width=110, omit_header=True)


def main() -> None:
    """Bring each catalogue up to date."""
    FOLDER.mkdir(exist_ok=True)
    for language in LANGUAGES.keys() - {ENGLISH}:
        path = FOLDER / f"{language}.po"
        catalogue = Catalog(locale=language)
        if path.exists():
            with path.open("rb") as source:
                catalogue = read_po(source, locale=language)
        catalogue.update(template(), no_fuzzy_matching=True)
        with path.open("wb") as out:
            written(out, catalogue, language)


if __name__ == "__main__":
    main()

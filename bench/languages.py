"""The languages in which the customer's papers are printed.

Invariant: which there are, and which of them a speaker has read through, stands here and nowhere else.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Language:
    """One language."""

    word: str
    """In shop.toml, in a job and on the command line (ISO 639-1)."""
    name: str
    own_name: str
    """As who speaks it calls it."""
    locale: str
    """How figures, dates and units are written (Unicode CLDR, by Babel)."""
    read_through: bool = False
    """A speaker has read every sentence beside the English; else the papers say that the English holds."""
    first_of_month: str = "1"
    """How the first day of a month is written, where CLDR has it as a bare figure."""

    @property
    def known_as(self) -> str:
        """Both its names."""
        return self.name if self.name == self.own_name else f"{self.name} ({self.own_name})"


ENGLISH = "en"
"""The language in which every sentence is written; the others are its translations."""
LANGUAGES = {
    one.word: one
    for one in (
        Language(ENGLISH, "English", "English", "en_GB", read_through=True),
        Language("de", "German", "Deutsch", "de"),
        Language("fr", "French", "fran\u00e7ais", "fr", first_of_month="1er"),
        Language("it", "Italian", "italiano", "it", first_of_month="1\u00ba"),
        Language("es", "Spanish", "espa\u00f1ol", "es"),
    )
}


def language_words() -> Iterable[str]:
    """Every language by its word and its name.

    >>> ", ".join(language_words())[:22]
    'en English, de German,'
    """
    return (f"{one.word} {one.name}" for one in LANGUAGES.values())


def instead_of(word: str) -> str:
    """What is written instead of a word that names no language here.

    >>> instead_of("Deutsch"), instead_of("fr-CH")
    ('write "de"', 'write "fr"')
    """
    said = word.strip().casefold()
    for one in LANGUAGES.values():
        if (
            said in (one.name.casefold(), one.own_name.casefold())
            or said[:2] + said[2:3].strip("-_") == one.word
        ):
            return f'write "{one.word}"'
    return f"known are {', '.join(language_words())}"

"""Statements put together: sentences, figures, dates and units in one language.

Invariant: nothing is added to what the statements say; a sentence without a translation stands in English.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from gettext import GNUTranslations, NullTranslations
from importlib.resources import files
from io import BytesIO

from bench import languages
from bench.job.statement import (
    AtTime,
    Blank,
    DecidedSize,
    Lasting,
    Long,
    OnDay,
    Ours,
    Pressing,
    Said,
    Statement,
    WordList,
)
from bench.languages import LANGUAGES, Language
from rules.lengths import INCH, bare, size, spoken

TRANSLATION = "Translation; the English text holds. The workshop gives it on request."
"""What papers say in a language that no speaker has read through."""


@lru_cache(maxsize=len(LANGUAGES))
def catalogue(word: str) -> NullTranslations:
    """The sentences of a language, by their English ones; of English none."""
    if word == languages.ENGLISH:
        return NullTranslations()
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    made = BytesIO()
    with files("bench").joinpath("data", "papers", f"{word}.po").open("rb") as source:
        write_mo(made, read_po(source))
    made.seek(0)
    return GNUTranslations(made)


@dataclass(frozen=True, slots=True)
class Tongue:
    """One language of the customer."""

    language: Language

    def words(self, text: str) -> str:
        """A sentence or a word of ours."""
        return catalogue(self.language.word).gettext(text) if text else ""

    def counted(self, one: str, several: str, n: int) -> str:
        """One of two sentences, by how many there are."""
        return catalogue(self.language.word).ngettext(one, several, n)

    def sentence(self, said: Statement) -> str:
        """A statement as a sentence."""
        shown = {name: self.shown(value) for name, value in said.values.items()}
        if said.one and isinstance(n := said.values["n"], int):
            return self.counted(said.one, said.sentence, n).format(**shown)
        return self.words(said.sentence).format(**shown)

    def on_drawing(self, said: Said) -> str:
        """What stands on a drawing; words that are no statement as they are."""
        return self.sentence(said) if isinstance(said, Statement) else said

    def notice(self) -> tuple[str, ...]:
        """That the English text holds, in this language and in English; nothing once it was read through."""
        return () if self.language.read_through else (self.words(TRANSLATION), TRANSLATION)

    def shown(self, value: Blank) -> str:
        """What stands in a blank."""
        match value:
            case Ours(words):
                return self.words(words)
            case WordList(_, words, joined_by_and):
                return self.row([self.words(one) for one in words], joined_by_and=joined_by_and)
            case Long(mm, places, with_unit):
                return self.length(bare(mm, places), with_unit=with_unit)
            case DecidedSize(mm, with_unit):
                return self.length(size(mm), with_unit=with_unit)
            case Pressing(bar):
                return self.measured(f"{bar:g}", "pressure-bar")
            case Lasting(minutes):
                return self.measured(f"{minutes:g}", "duration-minute")
            case AtTime(at):
                return self.moment(datetime.fromisoformat(at))
            case OnDay(day):
                return self.day(date.fromisoformat(day))
            case _:
                return str(value)

    def row(self, words: list[str], *, joined_by_and: bool) -> str:
        """Several words one after the other."""
        from babel.lists import format_list

        return format_list(words, locale=self.language.locale) if joined_by_and else ", ".join(words)

    def length(self, figure: str, *, with_unit: bool) -> str:
        """The figure of a length in the unit that is spoken, bare or with that unit."""
        unit = "length-inch" if spoken() == INCH else "length-millimeter"
        return self.measured(figure, unit) if with_unit else self.figure(figure)

    def unit(self) -> str:
        """The unit of lengths on a drawing, where it stands alone."""
        return self.length("", with_unit=True).strip()

    def measured(self, figure: str, unit: str) -> str:
        """A figure with its unit, by the name that CLDR has for it."""
        from babel.units import format_unit

        return format_unit(self.figure(figure), unit, length="short", locale=self.language.locale)

    def figure(self, text: str) -> str:
        """A figure with the decimal mark of the language, its places as they are."""
        from babel.numbers import get_decimal_symbol

        return text.replace(".", get_decimal_symbol(self.language.locale))

    def day(self, day: date) -> str:
        """A day in words."""
        from babel.dates import format_date

        said = format_date(day, "long", locale=self.language.locale)
        return said.replace("1", self.language.first_of_month, 1) if day.day == 1 else said

    def moment(self, at: datetime) -> str:
        """Day and time of day."""
        return f"{self.day(at.date())}, {at:%H:%M}"


ENGLISH = Tongue(LANGUAGES[languages.ENGLISH])

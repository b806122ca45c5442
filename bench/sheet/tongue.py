"""Statements put together: sentences, figures and dates in one language.

Invariant: nothing is added to what the statements say; figures and dates follow the language, lengths the
unit that is spoken.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from bench.job.statement import AtTime, Blank, DecidedSize, Lasting, Long, OnDay, Ours, Pressing, Statement
from rules.lengths import bare, short, size


@dataclass(frozen=True, slots=True)
class Tongue:
    """One language of the customer."""

    locale: str

    def words(self, text: str) -> str:
        """A sentence or a word of ours."""
        return text

    def sentence(self, said: Statement) -> str:
        """A statement as a sentence."""
        shown = {name: self.shown(value) for name, value in said.values.items()}
        return self.words(said.sentence).format(**shown)

    def shown(self, value: Blank) -> str:
        """What stands in a blank."""
        match value:
            case Ours(words):
                return self.words(words)
            case Long(mm, places):
                return f"{self.figure(bare(mm, places))} {short()}"
            case DecidedSize(mm):
                return f"{self.figure(size(mm))} {short()}"
            case Pressing(bar):
                return f"{self.figure(f'{bar:g}')} bar"
            case Lasting(minutes):
                return f"{self.figure(f'{minutes:g}')} min"
            case AtTime(at):
                return self.moment(datetime.fromisoformat(at))
            case OnDay(day):
                return self.day(date.fromisoformat(day))
            case _:
                return str(value)

    def figure(self, text: str) -> str:
        """A figure with the decimal mark of the language, its places as they are."""
        from babel.numbers import get_decimal_symbol

        return text.replace(".", get_decimal_symbol(self.locale))

    def day(self, day: date) -> str:
        """A day in words."""
        from babel.dates import format_date

        return format_date(day, "long", locale=self.locale)

    def moment(self, at: datetime) -> str:
        """Day and time of day."""
        from babel.dates import format_time

        return f"{self.day(at.date())}, {format_time(at.replace(tzinfo=None), 'HH:mm', locale=self.locale)}"


ENGLISH = Tongue("en_GB")

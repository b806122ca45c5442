"""Faults worth a name: each must be noticed by a test that reaches it. `python -m tests.mutation --named`."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from tests.mutation.mutants import TOP, Mutant


@dataclass(frozen=True)
class Named:
    """A piece of a file that stands there once, and by what it is replaced."""

    what: str
    file: str
    before: str
    after: str

    def mutant(self, top: Path = TOP) -> Mutant:
        """The fault as a mutant; ValueError if the piece does not stand there once."""
        source = (top / self.file).read_bytes()
        old = self.before.encode()
        if source.count(old) != 1:
            raise ValueError(f"{self.what}: stands {source.count(old)} times in {self.file}: {self.before}")
        start = source.index(old)
        line = source[:start].count(b"\n") + 1
        return Mutant(
            file=self.file,
            scope=self.what,
            operator="named",
            start=start,
            end=start + len(old),
            text=self.after,
            line=line,
            lines=range(line, line + old.count(b"\n") + 1),
            inside=True,
        )


NAMED: tuple[Named, ...] = ()

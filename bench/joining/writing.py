"""The third file of two copies: named, written whole, never over another.

Invariant: the copies are read and not touched; what is written names them with their digests.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from bench.clean import clean
from bench.file.disk import REAL, Disk, write_new
from bench.file.entry import FILE_LIMIT
from bench.file.ordinary import read_regular
from bench.file.plain import NotSaved, cause, not_created
from bench.file.slug import ENDING, NUMBER_LIMIT, file_name, number_of
from bench.joining.asked import Decisions, Question, questions
from bench.joining.joined import asked_of, join, marks_for
from bench.joining.side import Side, side_of, standing_mark
from bench.joining.twins import digest_of
from bench.refusal import Refused

if TYPE_CHECKING:
    from bench.shop.shop import Shop

_TRIES = 1000


@dataclass(frozen=True, slots=True)
class TwoCopies:
    """Two copies as they stand in their files, in the order in which questions name them."""

    paths: tuple[Path, Path]
    data: tuple[bytes, bytes]
    sides: tuple[Side, Side]

    @property
    def names(self) -> tuple[str, str]:
        """The names of their files."""
        one, two = (clean(path.name) for path in self.paths)
        return one, two

    @property
    def questions(self) -> tuple[Question, ...]:
        """All that has to be decided."""
        return questions(*asked_of(*self.sides))


def pair_of(one: Path, other: Path, shop: Shop) -> TwoCopies:
    """Two copies read; raises Refused."""
    read = {path: _content(path) for path in (one, other)}
    sides = {path: side_of(data, clean(path.name), shop) for path, data in read.items()}
    first, _ = asked_of(sides[one], sides[other])[0]
    paths = (one, other) if first is sides[one] else (other, one)
    return TwoCopies(paths, (read[paths[0]], read[paths[1]]), (sides[paths[0]], sides[paths[1]]))


def _content(path: Path) -> bytes:
    try:
        return read_regular(path, FILE_LIMIT)
    except OSError as error:
        raise Refused(f"{clean(path.name)} cannot be read: {cause(error)}") from error


def joined_file(pair: TwoCopies, decisions: Decisions, shop: Shop, *, at: str) -> bytes:
    """The joined file; raises Undecided and Refused."""
    copies = [(path.name, digest_of(data)) for path, data in zip(pair.paths, pair.data, strict=True)]
    made = join(*pair.sides, decisions, marks=marks_for(copies, at=at))
    marks = marks_for(copies, at=at, stands=standing_mark(made.head, made.render(), shop))
    return join(*pair.sides, decisions, marks=marks).render()


def write_joined(pair: TwoCopies, decisions: Decisions, shop: Shop, *, at: str, disk: Disk = REAL) -> Path:
    """Join two copies into a further file beside the first; its path. Raises Undecided, Refused, NotSaved."""
    data = joined_file(pair, decisions, shop, at=at)
    for place, before in zip(pair.paths, pair.data, strict=True):
        if _content(place) != before:
            raise Refused(f"{clean(place.name)} was changed meanwhile: begin again")
    for name in _names(pair.paths):
        path = pair.paths[0].with_name(name)
        try:
            write_new(disk, path, data)
        except FileExistsError:
            continue
        except OSError as error:
            raise NotSaved(not_created(error), certain=True) from error
        return path
    raise NotSaved("The joined file was not made: too many of that name stand there.", certain=True)


def _names(paths: tuple[Path, Path]) -> Mapping[str, None]:
    """Names for the joined file, the best first."""
    stems = sorted((path.name.removesuffix(ENDING) for path in paths), key=lambda stem: (len(stem), stem))
    text = stems[0].lstrip("0123456789")
    known = [number for path in paths if (number := number_of(path.name))]
    number = min(known, default=NUMBER_LIMIT - 1)
    texts = (f"{text[:28]} joined", *(f"{text[:28]} joined {k}" for k in range(2, _TRIES)))
    return dict.fromkeys(file_name(number=number, text=one) for one in texts)

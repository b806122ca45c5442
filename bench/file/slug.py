"""The name of a session file: a job number that orders the list and a slug that a person recognises.

Invariant: whatever the text, the name holds only a-z, 0-9, - and one ".toml"; it can never leave its folder.
"""

from __future__ import annotations

import re
import unicodedata
import zlib
from collections.abc import Iterable

ENDING = ".toml"
JOBS = "jobs"
"""The folder of session files inside the ringwright folder."""
SHOP = "shop.toml"
"""Name of the file that says what stands in the shop, beside the folder of jobs."""
SHOP_LIMIT = 1_000_000
"""Largest such file, bytes."""
SLUG_LIMIT = 40
"""Most characters of the slug."""
NUMBER_LIMIT = 10**9
"""Highest job number."""
OWN_NUMBERS = 9 * 10**8
"""From here on lie the numbers of jobs that are named with letters."""

_NAME = re.compile(r"([0-9]{1,9})(?:-[^/]*)?\.toml")


def slug(text: str) -> str:
    """Lower-case letters, digits and single hyphens out of any text; may be empty.

    >>> slug("Diver's watch, Réf. 1042/7")
    'diver-s-watch-ref-1042-7'
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:SLUG_LIMIT].strip("-")


def file_name(*, number: int, text: str = "") -> str:
    """The file name of a job, number 1 to 10**9 - 1; raises ValueError outside that.

    >>> file_name(number=42, text="../../etc/passwd")
    '00042-etc-passwd.toml'
    """
    if not 1 <= number < NUMBER_LIMIT:
        raise ValueError(f"job number {number} is not between 1 and {NUMBER_LIMIT - 1}: start a new folder")
    short = slug(text)
    return f"{number:05d}-{short}{ENDING}" if short else f"{number:05d}{ENDING}"


def number_of(name: str) -> int | None:
    """The job number in a file name, or None for a name that carries none.

    >>> number_of("00042-etc-passwd.toml"), number_of("shop.toml")
    (42, None)
    """
    found = _NAME.fullmatch(name)
    return int(found[1]) if found else None


def own_number(name: str) -> int | None:
    """The number of a job whose file is named with letters, by which it is opened and scanned: of
    nine digits, from the name alone; None for a name that carries one.

    >>> own_number("lantern.toml"), own_number("00042-etc-passwd.toml")
    (969153497, None)
    """
    if number_of(name) is not None:
        return None
    return OWN_NUMBERS + zlib.crc32(name.encode("utf-8", "surrogateescape")) % (NUMBER_LIMIT - OWN_NUMBERS)


def next_number(taken: Iterable[int]) -> int:
    """The number after the highest one taken; a job that has the last number of all is passed over.

    >>> next_number([1, 2, 7]), next_number([1, 2, 7, 999_999_999]), next_number([])
    (8, 8, 1)
    """
    known = {0, *taken}
    return max(number + 1 for number in known if number + 1 not in known and number + 1 < NUMBER_LIMIT)

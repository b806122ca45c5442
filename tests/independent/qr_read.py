"""A QR code read back from a page of a PDF: version 1 of ISO/IEC 18004, in numeric and byte mode.

Invariant: imports nothing of the program and no library for codes; whatever is wrong with a code (finders,
timing, format, correction, quiet zone) is refused with ValueError.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from pypdf import PdfReader

MM = 72.0 / 25.4
SIDE, QUIET = 21, 4
LEVELS = {0b01: ("L", 7), 0b00: ("M", 10), 0b11: ("Q", 13), 0b10: ("H", 17)}
"""Level of correction by its two bits, with its correction codewords of 26 (tables 9 and 12)."""
MASKS = (
    lambda i, j: (i + j) % 2,
    lambda i, j: i % 2,
    lambda i, j: j % 3,
    lambda i, j: (i + j) % 3,
    lambda i, j: (i // 2 + j // 3) % 2,
    lambda i, j: i * j % 2 + i * j % 3,
    lambda i, j: (i * j % 2 + i * j % 3) % 2,
    lambda i, j: ((i + j) % 2 + i * j % 3) % 2,
)
FORMAT_MASK, FORMAT_GENERATOR, FIELD = 0b101010000010010, 0b10100110111, 0x11D
Matrix = Sequence[Sequence[int]]
Bar = tuple[float, float, float, float]


def bars(path: Path) -> list[Bar]:
    """The filled rectangles of the first page, mm from the upper left corner: left, top, right, bottom."""
    page = PdfReader(path).pages[0]
    contents, height = page.get_contents(), float(page.mediabox.height)
    assert contents is not None
    found = re.findall(rb"(-?[\d.]+) (-?[\d.]+) (-?[\d.]+) (-?[\d.]+) re f\b", contents.get_data())
    out = []
    for x, y, wide, high in (map(float, one) for one in found):
        ends = sorted((height - y, height - y - high))
        out.append((x / MM, ends[0] / MM, (x + wide) / MM, ends[1] / MM))
    return out


def printed(path: Path, module_mm: float) -> Matrix:
    """The modules of the one code on a page, found by its corner; raises ValueError where paper round it is
    not white.
    """
    dark = bars(path)
    left, top = min(one[0] for one in dark), min(one[1] for one in dark)

    def at(row: int, column: int) -> int:
        x, y = left + (column + 0.5) * module_mm, top + (row + 0.5) * module_mm
        return int(any(a < x < c and b < y < d for a, b, c, d in dark))

    around = range(-QUIET, SIDE + QUIET)
    if any(at(i, j) for i in around for j in around if not (0 <= i < SIDE and 0 <= j < SIDE)):
        raise ValueError("something is printed in the quiet zone")
    if left < QUIET * module_mm - 1e-2 or top < QUIET * module_mm - 1e-2:
        raise ValueError("the quiet zone leaves the paper")
    return [[at(row, column) for column in range(SIDE)] for row in range(SIDE)]


def text_of(matrix: Matrix) -> str:
    """What a code says; raises ValueError."""
    patterns(matrix)
    correction, mask = form(matrix)
    bits = [matrix[i][j] ^ (MASKS[mask](i, j) == 0) for i, j in places()]
    words = [as_number(bits[at : at + 8]) for at in range(0, len(bits), 8)]
    if any(syndromes(words, correction)):
        raise ValueError("the correction does not agree with the data")
    return said(bits[: 8 * (26 - correction)])


def patterns(matrix: Matrix) -> None:
    """Finders with their separators, timing and the dark module."""
    for top, left in ((0, 0), (0, SIDE - 7), (SIDE - 7, 0)):
        for i in range(-1, 8):
            for j in range(-1, 8):
                ring = max(abs(i - 3), abs(j - 3))
                inside = 0 <= top + i < SIDE and 0 <= left + j < SIDE
                if inside and matrix[top + i][left + j] != (ring not in (2, 4)):
                    raise ValueError("a finder is broken")
    if any(matrix[6][k] != (k + 1) % 2 or matrix[k][6] != (k + 1) % 2 for k in range(8, 13)):
        raise ValueError("the timing is broken")
    if not matrix[13][8]:
        raise ValueError("the dark module is light")


def form(matrix: Matrix) -> tuple[int, int]:
    """How many codewords are correction, and which mask; both copies must agree."""
    first = [(8, j) for j in (0, 1, 2, 3, 4, 5, 7, 8)] + [(i, 8) for i in (7, 5, 4, 3, 2, 1, 0)]
    second = [(i, 8) for i in range(20, 13, -1)] + [(8, j) for j in range(13, 21)]
    one, other = (as_number([matrix[i][j] for i, j in places]) for places in (first, second))
    if one != other or remainder(one ^ FORMAT_MASK):
        raise ValueError("the format is broken")
    read = (one ^ FORMAT_MASK) >> 10
    return LEVELS[read >> 3][1], read & 7


def remainder(bits: int) -> int:
    """What is left of fifteen bits by the generator of the format."""
    for at in range(14, 9, -1):
        if bits >> at & 1:
            bits ^= FORMAT_GENERATOR << (at - 10)
    return bits


def places() -> Iterator[tuple[int, int]]:
    """Where the 208 bits stand: two columns at a time from the right, up and down in turn."""
    upward = True
    for right in (20, 18, 16, 14, 12, 10, 8, 5, 3, 1):
        for i in range(SIDE - 1, -1, -1) if upward else range(SIDE):
            for j in (right, right - 1):
                corner = (i < 9 and (j < 9 or j > 12)) or (i > 12 and j < 9)
                if not corner and i != 6:
                    yield i, j
        upward = not upward


def syndromes(words: Sequence[int], correction: int) -> list[int]:
    """The codewords as a polynomial at so many powers of two; all nought where nothing is broken."""
    out, power = [], 1
    for _ in range(correction):
        total = 0
        for word in words:
            total = times(total, power) ^ word
        out.append(total)
        power = times(power, 2)
    return out


def times(one: int, other: int) -> int:
    """A product in the field of 256."""
    product = 0
    while other:
        product ^= one * (other & 1)
        one, other = one << 1, other >> 1
        one ^= FIELD * (one >> 8)
    return product


def said(bits: Sequence[int]) -> str:
    """The text of the data bits: one segment of digits, or of bytes, up to the end."""
    mode = as_number(bits[:4])
    if mode == 0b0001:
        many, at, text = as_number(bits[4:14]), 14, ""
        for digits in (3,) * (many // 3) + ((many % 3,) if many % 3 else ()):
            width = 3 * digits + 1
            text += f"{as_number(bits[at : at + width]):0{digits}d}"
            at += width
    elif mode == 0b0100:
        many, at = as_number(bits[4:12]), 12 + 8 * as_number(bits[4:12])
        text = bytes(as_number(bits[12 + 8 * n : 20 + 8 * n]) for n in range(many)).decode()
    else:
        raise ValueError(f"mode {mode:04b} is not read here")
    if any(bits[at : at + 4]):
        raise ValueError("another segment follows")
    return text


def as_number(bits: Sequence[int]) -> int:
    """Bits as a number, the first one the highest."""
    return int("".join(map(str, map(int, bits))), 2)

"""What can be planted: every single change that one syntax node allows, as a piece of source and another.

Left alone, since no figure and no choice hangs on it: annotations, decorators, docstrings, `__all__`, text of
more than one word (prose), how a number is printed, and whether `zip` is strict (a check of our own). A
string counts where it is one word in small letters: a key, a choice, a name of a thing.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable, Iterator, Mapping

Change = tuple[str, int, int, str]
"""operator, first byte and byte after the last of what is replaced, by what."""
Span = Callable[[ast.AST], tuple[int, int]]
Defaults = Mapping[str, frozenset[str]]
"""Names of a function or class, and which of its arguments may be left out."""

COMPARED = {
    ast.Lt: ("<", "<=", ">="),
    ast.LtE: ("<=", "<", ">"),
    ast.Gt: (">", ">=", "<="),
    ast.GtE: (">=", ">", "<"),
    ast.Eq: ("==", "!="),
    ast.NotEq: ("!=", "=="),
    ast.Is: ("is", "is not"),
    ast.IsNot: ("is not", "is"),
    ast.In: ("in", "not in"),
    ast.NotIn: ("not in", "in"),
}
SWAPPED = {
    ast.Add: ("+", "-"),
    ast.Sub: ("-", "+"),
    ast.Mult: ("*", "/"),
    ast.Div: ("/", "*"),
    ast.FloorDiv: ("//", "/"),
    ast.Mod: ("%", "*"),
    ast.Pow: ("**", "*"),
    ast.BitOr: ("|", "&"),
    ast.BitAnd: ("&", "|"),
}
WORD = re.compile(r"[a-z][a-z0-9_]*")
STANDS_ALONE = ast.Call | ast.Await | ast.Yield | ast.YieldFrom


def between(source: bytes, start: int, end: int, word: str) -> tuple[int, int] | None:
    """Where an operator stands between its two sides."""
    pattern = rb"\s+".join(re.escape(part.encode()) for part in word.split())
    found = re.search(pattern, source[start:end])
    return (start + found.start(), start + found.end()) if found else None


def comparisons(node: ast.Compare, span: Span, source: bytes) -> Iterator[Change]:
    """Each comparison at its edge, and turned round."""
    sides = [node.left, *node.comparators]
    for left, right, kind in zip(sides, sides[1:], node.ops, strict=False):
        word, *others = COMPARED[type(kind)]
        if place := between(source, span(left)[1], span(right)[0], word):
            yield from (("comparison", *place, other) for other in others)


def arithmetic(node: ast.BinOp, span: Span, source: bytes) -> Iterator[Change]:
    """Plus for minus, times for divided by; text joined to text is left alone."""
    text = any(
        isinstance(side, ast.JoinedStr) or (isinstance(side, ast.Constant) and isinstance(side.value, str))
        for side in (node.left, node.right)
    )
    if type(node.op) in SWAPPED and not text:
        word, other = SWAPPED[type(node.op)]
        if place := between(source, span(node.left)[1], span(node.right)[0], word):
            yield ("arithmetic", *place, other)


def joins(node: ast.BoolOp, span: Span, source: bytes) -> Iterator[Change]:
    """`and` for `or`, one at a time."""
    word, other = ("and", "or") if isinstance(node.op, ast.And) else ("or", "and")
    for left, right in zip(node.values, node.values[1:], strict=False):
        if place := between(source, span(left)[1], span(right)[0], word):
            yield ("and, or, not", *place, other)


def constants(node: ast.Constant, span: Span, source: bytes, signed: bool) -> Iterator[Change]:
    """A number a little off and, but for an index, of the other sign; a truth turned round; another word."""
    start, end = span(node)
    value = node.value
    if isinstance(value, bool):
        yield ("constant", start, end, str(not value))
    elif isinstance(value, int | float):
        off = value + 1 if isinstance(value, int) else value * 1.2 or 1.0
        yield ("constant", start, end, f"{off:.12g}" if isinstance(off, float) else str(off))
        if value and not signed:
            yield ("constant", start, end, f"(-{source[start:end].decode()})")
    elif isinstance(value, str) and WORD.fullmatch(value) and source[start:end].count(value.encode()) == 1:
        inside = start + source[start:end].index(value.encode())
        yield ("word", inside, inside + len(value), value + "_x")


def conditions(node: ast.AST, span: Span) -> Iterator[Change]:
    """A condition that always holds, and one that never does; a loop that would never end is left alone."""
    if isinstance(node, ast.If | ast.IfExp):
        yield ("condition", *span(node.test), "True")
    if isinstance(node, ast.If | ast.IfExp | ast.While):
        yield ("condition", *span(node.test), "False")
    if isinstance(node, ast.comprehension):
        yield from (("condition", *span(test), "True") for test in node.ifs)


def arguments(node: ast.Call, span: Span, defaults: Defaults, source: bytes) -> Iterator[Change]:
    """An argument left to its usual value."""
    name = getattr(node.func, "id", getattr(node.func, "attr", ""))
    for one in node.keywords:
        if one.arg in defaults.get(name, ()):
            start, end = span(one)
            comma = re.match(rb"\s*,", source[end:])
            before = re.search(rb",\s*$", source[:start])
            if comma:
                yield ("argument", start, end + comma.end(), "")
            elif before:
                yield ("argument", before.start(), end, "")
            else:
                yield ("argument", start, end, "")


def statements(node: ast.stmt, span: Span) -> Iterator[Change]:
    """A statement taken out, and what a function answers."""
    places = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    kept = isinstance(node, ast.Assign | ast.AnnAssign) and not any(
        isinstance(place, ast.Attribute | ast.Subscript) for place in places
    )
    if isinstance(node, ast.Return):
        if node.value is not None and not (isinstance(node.value, ast.Constant) and node.value.value is None):
            yield ("return", *span(node), "return None")
    elif isinstance(node, ast.Expr):
        if isinstance(node.value, STANDS_ALONE):
            yield ("statement", *span(node), "pass")
    elif (isinstance(node, ast.AugAssign | ast.Assign | ast.AnnAssign) and not kept) or isinstance(
        node, ast.Raise | ast.Continue | ast.Break | ast.Delete
    ):
        yield ("statement", *span(node), "pass")


def changes(
    node: ast.AST, span: Span, source: bytes, defaults: Defaults, *, signed: bool
) -> Iterator[Change]:
    """Every change that this one node allows; `signed` if a sign stands before it."""
    if isinstance(node, ast.Compare):
        yield from comparisons(node, span, source)
    elif isinstance(node, ast.BinOp):
        yield from arithmetic(node, span, source)
    elif isinstance(node, ast.AugAssign) and type(node.op) in SWAPPED:
        word, other = SWAPPED[type(node.op)]
        if place := between(source, span(node.target)[1], span(node.value)[0], f"{word}="):
            yield ("arithmetic", *place, f"{other}=")
    elif isinstance(node, ast.BoolOp):
        yield from joins(node, span, source)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        kind, word = ("and, or, not", "not") if isinstance(node.op, ast.Not) else ("arithmetic", "-")
        start = span(node)[0]
        yield (kind, start, start + len(word), "")
    elif isinstance(node, ast.Constant):
        yield from constants(node, span, source, signed)
    elif isinstance(node, ast.Call):
        yield from arguments(node, span, defaults, source)
    yield from conditions(node, span)
    if isinstance(node, ast.stmt):
        yield from statements(node, span)

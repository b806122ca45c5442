"""All mutants of a file, each with the statement that a test must reach to meet it."""

from __future__ import annotations

import ast
import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.mutation.operators import Change, Defaults, changes

TOP = Path(__file__).resolve().parents[2]
PRODUCT = ("rules", "bench")


@dataclass(frozen=True, kw_only=True)
class Mutant:
    """One change: bytes `start` to `end` of the file are replaced by `text`."""

    file: str
    scope: str
    """Function or class in which it stands, dotted; empty on the floor of the module."""
    operator: str
    start: int
    end: int
    text: str
    line: int
    lines: range
    """Lines of its statement, or of the whole function where its head is changed."""
    inside: bool
    """Whether it stands in a function; what does not is met through the names that it gives."""
    names: tuple[str, ...] = ()

    def applied(self, source: bytes) -> bytes:
        """The file with the change."""
        return source[: self.start] + self.text.encode() + source[self.end :]

    def words(self, source: bytes) -> str:
        """File, place, and the changed lines before and after, on one line."""
        first = source.rfind(b"\n", 0, self.start) + 1
        last = source.find(b"\n", self.end)
        before = source[first:last]
        after = source[first : self.start] + self.text.encode() + source[self.end : last]
        was, now = (" ".join(text.decode().split()) for text in (before, after))
        return f"{self.file} in {self.scope or 'module'}: {was} -> {now}"


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where the walk stands."""

    scope: str = ""
    lines: range = range(0)
    inside: bool = False
    names: tuple[str, ...] = ()
    signed: bool = False
    """A minus stands before it, or it is an index: its sign is left alone."""
    quoted: bool = False


def head(node: ast.stmt) -> range:
    """Lines of a statement without the block below it."""
    body = getattr(node, "body", None) or getattr(node, "cases", None)
    end = node.end_lineno or node.lineno
    if body:
        first = body[0].pattern if isinstance(node, ast.Match) else body[0]
        end = max(node.lineno, first.lineno - 1)
    return range(node.lineno, end + 1)


def given(node: ast.stmt) -> tuple[str, ...]:
    """Names that a statement gives to things."""
    places = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", node)]
    names = [one.id for place in places for one in ast.walk(place) if isinstance(one, ast.Name)]
    return tuple(names) if isinstance(node, ast.Assign | ast.AnnAssign | ast.AugAssign) else ()


def within(node: ast.AST, here: Place) -> Place:
    """The place of what stands below a node."""
    if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
        scope = f"{here.scope}.{node.name}".lstrip(".")
        whole = range(node.body[0].lineno, (node.end_lineno or node.lineno) + 1)
        inside = here.inside or not isinstance(node, ast.ClassDef)
        return Place(scope=scope, lines=whole, inside=inside, names=(*here.names, node.name))
    if isinstance(node, ast.stmt):
        names = here.names if here.inside else (*here.names, *given(node))
        return Place(scope=here.scope, lines=head(node), inside=here.inside, names=names, quoted=here.quoted)
    minus = isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub)
    signed = minus or isinstance(node, ast.Subscript)
    quoted = here.quoted or isinstance(node, ast.JoinedStr)
    return Place(
        scope=here.scope, lines=here.lines, inside=here.inside, names=here.names, signed=signed, quoted=quoted
    )


def below(node: ast.AST) -> Iterator[ast.AST]:
    """What stands below a node and may be changed: no annotation, decorator, docstring, form of a number."""
    body = getattr(node, "body", None)
    for name, field in ast.iter_fields(node):
        if name == "value" and getattr(node, "arg", "") == "strict":
            continue
        if name in ("annotation", "returns", "decorator_list", "format_spec", "bases"):
            continue
        for one in field if isinstance(field, list) else [field]:
            first = isinstance(body, list) and body and one is body[0]
            prose = isinstance(one, ast.Expr) and isinstance(one.value, ast.Constant)
            named = isinstance(one, ast.Assign) and "__all__" in given(one)
            kinds = isinstance(one, ast.Subscript) and getattr(one.value, "id", "") == "Literal"
            typing = isinstance(one, ast.If) and getattr(one.test, "id", "") == "TYPE_CHECKING"
            if isinstance(one, ast.AST) and not ((first and prose) or prose or named or kinds or typing):
                yield one


def compiles(source: bytes) -> bool:
    """Whether Python reads it."""
    try:
        compile(source, "mutant", "exec", dont_inherit=True)
    except (SyntaxError, ValueError):
        return False
    return True


def mutants_of(file: str, source: bytes, defaults: Defaults) -> Iterator[Mutant]:
    """Every mutant of one file, in the order of its text."""
    starts = [0]
    for text_line in source.split(b"\n"):
        starts.append(starts[-1] + len(text_line) + 1)

    def span(node: ast.AST) -> tuple[int, int]:
        one = node if isinstance(node, ast.expr | ast.stmt | ast.keyword) else None
        assert one is not None and one.end_lineno is not None and one.end_col_offset is not None
        return starts[one.lineno - 1] + one.col_offset, starts[one.end_lineno - 1] + one.end_col_offset

    def true_to_text(node: ast.AST) -> bool:
        """Inside a formatted string places are not always right: only what reads the same counts."""
        try:
            text = source[slice(*span(node))].decode()
            return ast.dump(ast.parse(f"({text})", mode="eval").body) == ast.dump(node)
        except (SyntaxError, ValueError, AssertionError):
            return False

    def walk(node: ast.AST, here: Place) -> Iterator[tuple[Change, Place, int]]:
        if not here.quoted or (isinstance(node, ast.expr) and true_to_text(node)):
            line = getattr(node, "lineno", here.lines.start)
            stands = within(node, here) if isinstance(node, ast.stmt) else here
            for change in changes(node, span, source, defaults, signed=here.signed):
                yield change, stands, line
        for one in below(node):
            yield from walk(one, within(node, here))

    for (operator, start, end, text), place, line in walk(ast.parse(source), Place()):
        made = source[:start] + text.encode() + source[end:]
        if not place.quoted or compiles(made):
            yield Mutant(
                file=file, scope=place.scope, operator=operator, start=start, end=end, text=text, line=line,
                lines=place.lines, inside=place.inside, names=place.names,
            )  # fmt: skip


def files_in(rooms: Iterable[str], top: Path = TOP) -> list[Path]:
    """Python files of the rooms, by name."""
    found: set[Path] = set()
    for room in rooms:
        place = top / room
        if not place.exists():
            raise SystemExit(f"no such room: {room}")
        found.update(place.rglob("*.py") if place.is_dir() else [place])
    return sorted(found)


def defaults_in(top: Path = TOP) -> Defaults:
    """Which arguments may be left out, by the name of what is called, over the whole product."""
    known: dict[str, set[str]] = {}
    for path in files_in(PRODUCT, top):
        for node in ast.walk(ast.parse(path.read_bytes())):
            if isinstance(node, ast.FunctionDef):
                last = node.args.args[len(node.args.args) - len(node.args.defaults) :]
                pairs = zip(node.args.kwonlyargs, node.args.kw_defaults, strict=True)
                names = {one.arg for one in last} | {one.arg for one, usual in pairs if usual is not None}
                known.setdefault(node.name, set()).update(names)
            elif isinstance(node, ast.ClassDef):
                fields = [
                    one for one in node.body if isinstance(one, ast.AnnAssign) and one.value is not None
                ]
                names = {one.target.id for one in fields if isinstance(one.target, ast.Name)}
                known.setdefault(node.name, set()).update(names)
    return {name: frozenset(names) for name, names in known.items()}


def all_mutants(rooms: Iterable[str], top: Path = TOP) -> list[Mutant]:
    """Every mutant of the rooms."""
    defaults = defaults_in(top)
    found: list[Mutant] = []
    for path in files_in(rooms, top):
        found.extend(mutants_of(path.relative_to(top).as_posix(), path.read_bytes(), defaults))
    return found


def drawn_evenly(every: list[Mutant], count: int, seed: int) -> list[Mutant]:
    """So many of them, each as likely as any other, the same for the same seed."""
    return random.Random(seed).sample(every, min(count, len(every)))

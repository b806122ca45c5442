"""Each key of the session file is written once, and nothing but the register knows a kind of seal."""

from __future__ import annotations

import ast
import re
from collections import Counter
from collections.abc import Iterator

import pytest

from bench.job import keys
from bench.seals.foot import own_keys as foot_keys
from bench.seals.gasket import own_keys
from bench.seals.oring import own_keys as oring_keys
from rules.turning import operations
from tests.house.test_circles import PACKAGES, TOP, imported, name_of

HOMES = {
    "bench.job.keys": keys,
    "bench.seals.gasket.own_keys": own_keys,
    "bench.seals.oring.own_keys": oring_keys,
    "bench.seals.foot.own_keys": foot_keys,
    "rules.turning.operations": operations,
}
ASKED = (
    "key",
    "goto",
    "rests_on",
    "guarded_by",
    "result",
    "begins",
    "asks",
    "accepted",
    "hold_key",
    "reading",
)
"""Arguments that take a key, or several."""
FIRST = (
    "newest",
    "newest_n",
    "fresh",
    "before_attempt",
    "Append",
    "nth",
    "readings_of",
    "action",
    "tool_change",
)
"""Functions whose first argument is a key."""
SECOND = ("newest_of", "changed", "chosen")
"""Functions whose second is one."""
PARTS = ("startswith", "endswith", "removeprefix", "removesuffix", "partition", "split")
NO_KEYS = {
    "": "a step that is filled in below",
    "jobs": "the list of jobs, where a choice may lead",
    "shop": "so may my shop",
}
"""Texts that stand in the place of a key and are none."""
BUILT = re.compile(
    r"(last|more|odd|second|third)_(outside|bore|finish|wall)\w*|spare_\d+|\w+_(afresh|slip)|(empty|cased|hunt)_\w+"
)
"""Keys that a function makes."""
OF_JSON = "key of JSON"
OF_WORDS = "name of a word kept with an answer"
OF_CHOICE = "word of a choice"
OF_SIZING = "name of an input of the sizing, also a key of JSON"
OF_SHOP = "name of a table or entry in shop.toml, and of equipment in messages"
ALSO = {
    "at_hand": OF_JSON + "; " + OF_WORDS + "; " + OF_CHOICE,
    "attempt": OF_JSON,
    "bar": "unit of pressure; " + OF_SHOP,
    "bench": OF_CHOICE + "; where the state of the seat is a reason",
    "case_bore": OF_SIZING,
    "case_height": OF_SIZING,
    "case_wall": OF_SIZING,
    "centre": "how a label of a picture stands",
    "chamfer": "kind of tool; " + OF_WORDS,
    "friction": OF_SIZING,
    "glass": OF_SIZING,
    "glass_edge": OF_SIZING,
    "glass_thickness": OF_SIZING,
    "hand_back": OF_CHOICE,
    "hold": "name of a length of time in messages; where the way the glass is held is a reason",
    "lathe": OF_SHOP + "; place of a caution",
    "lower_chamfer": OF_WORDS,
    "marking": "name of a figure in messages",
    "measure_again": "verdict on a reading",
    "note": "entry of the list; kind of entry in the file; role of a text on the screen",
    "papers_in": OF_SHOP + "; " + OF_JSON,
    "plastic": OF_SIZING,
    "remark": OF_JSON,
    "renewed": OF_JSON,
    "ring": OF_JSON + "; the kind of seal itself",
    "ring_offset": OF_SIZING,
    "seal": OF_JSON,
    "seat_depth": OF_SIZING,
    "sitting": OF_JSON,
    "spares": OF_WORDS,
    "spoiled": "entry of the list; word of an outcome",
    "temperature": "name of a figure in messages; " + OF_JSON,
    "tool_set": OF_SHOP,
    "wall": "name of a figure in messages; what is measured",
    "watch": OF_JSON,
}
"""Keys that are words of another vocabulary too, and of which."""
OTHER_KEYS = {
    "bench.shop.file": "keys of shop.toml",
    "bench.shop.sections": "keys of shop.toml",
    "screens.bench_screen": "keys of the keyboard",
}
"""Modules in which a key is something else."""
SHARED = r"bench\.seals\.((seal|several)$|lathe(\.|$))"
"""Modules beside the kinds: what every kind may use, and the seals of one job."""
MAY_KNOW = {"bench.seals": "registers it"}
"""Who may import a kind of seal."""
STANDS_ON = {"bench.seals.foot": ("bench.seals.ring", "bench.seals.gasket")}
"""A kind that is made of others, and those: it may know them, never they it."""


def product() -> Iterator[tuple[str, ast.Module]]:
    """Every module of the product by its name."""
    for package in PACKAGES:
        for path in sorted((TOP / package).rglob("*.py")):
            yield name_of(path, TOP), ast.parse(path.read_text(encoding="utf-8"))


def texts(node: ast.AST) -> Iterator[str]:
    """Texts written out in an expression; what is called or decided in it answers for itself."""
    if isinstance(node, ast.Lambda | ast.Call | ast.Compare | ast.GeneratorExp | ast.Subscript):
        return
    if isinstance(node, ast.JoinedStr):
        yield ast.unparse(node)
    elif isinstance(node, ast.Constant):
        if isinstance(node.value, str) and node.value not in NO_KEYS:
            yield node.value
    elif isinstance(node, ast.IfExp):
        yield from texts(node.body)
        yield from texts(node.orelse)
    else:
        for child in ast.iter_child_nodes(node):
            yield from texts(child)


def is_key(node: ast.AST) -> bool:
    """Whether an expression is a key by its name: `key`, `step.key`."""
    name = node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""
    return name == "key" or name.endswith("_key")


def called(node: ast.Call) -> str:
    """The last part of the name of what is called."""
    return ast.unparse(node.func).rpartition(".")[2]


def places_of_keys(tree: ast.Module) -> Iterator[ast.AST]:
    """Every expression that stands where a key belongs."""
    for node in ast.walk(tree):
        if isinstance(node, ast.keyword) and node.arg in ASKED:
            yield node.value
        elif isinstance(node, ast.Call):
            yield from node.args[:1] if called(node) in FIRST else ()
            yield from node.args[1:2] if called(node) in SECOND else ()
            if called(node) in PARTS and isinstance(node.func, ast.Attribute) and is_key(node.func.value):
                yield from node.args
        elif isinstance(node, ast.Compare) and any(map(is_key, (node.left, *node.comparators))):
            yield from (node.left, *node.comparators)
        elif isinstance(node, ast.Assign) and any(map(is_key, node.targets)):
            yield node.value


def written_out(tree: ast.Module) -> list[str]:
    """Keys written out where a name belongs."""
    return [text for place in places_of_keys(tree) for text in texts(place)]


def whole_texts(tree: ast.Module) -> list[str]:
    """Every text of a module that stands whole."""
    return [
        one.value for one in ast.walk(tree) if isinstance(one, ast.Constant) and isinstance(one.value, str)
    ]


def fixed_keys() -> Counter[str]:
    """Every key and operation that is a constant, and how often it is one."""
    return Counter(
        value
        for home in HOMES.values()
        for name, value in vars(home).items()
        if name.isupper() and isinstance(value, str)
    )


def repeated(modules: dict[str, ast.Module]) -> set[str]:
    """Keys that stand as a whole text outside their home and are no word of another vocabulary."""
    known = fixed_keys()
    said = {text for name, tree in modules.items() if name not in HOMES for text in whole_texts(tree)}
    return {text for text in said if (text in known and text not in ALSO) or BUILT.fullmatch(text)}


def knows_a_seal(name: str, tree: ast.Module, seals: frozenset[str]) -> set[str]:
    """Modules of a kind of seal that a module outside that kind imports."""
    own = ".".join((*name.split("."), "")[:3])
    may = tuple(f"{kind}." for kind in (own, *STANDS_ON.get(own, ())))
    return {one for one in imported(tree, seals) if not f"{one}.".startswith(may)}


def test_no_key_is_written_out_where_it_is_used() -> None:
    found = {
        name: faults
        for name, tree in product()
        if name.startswith(("bench", "screens"))
        and name not in (*HOMES, *OTHER_KEYS)
        and (faults := written_out(tree))
    }
    assert found == {}


@pytest.mark.parametrize(
    "planted",
    [
        'Step(key="wall_thickness")',
        'Step(key=f"{name}_wall")',
        'Step(rests_on=(keys.RING, "part"))',
        'Step(rests_on=(*BASE, f"{key}_slip"))',
        'Step(guarded_by=("lathe_key",))',
        'Choice("again", "again", goto="ring")',
        'job.newest("ring")',
        'job.fresh("rough_" + name, BASE)',
        'newest_of(span, "dress")',
        'Append("spoiled", f"ring {n}")',
        'found = [one for one in answers if one.key == "ring"]',
        'done = step.key in ("rest", "dress")',
        'spare = step.key.startswith("spare_")',
        'key = "ring" if first else f"ring_{n}"',
        'action("drill", passes, made, last)',
    ],
)
def test_the_checker_sees_a_key_that_is_written_out(planted: str) -> None:
    assert written_out(ast.parse(planted))


@pytest.mark.parametrize(
    "fine",
    [
        "Step(key=keys.WALL, rests_on=(*BASE, keys.nth(keys.WALL, 1)))",
        'Choice("again", "again", goto="jobs")',
        'sorted(words, key=lambda word: word != "right")',
        'said(words, "bar")',
        "one.key == keys.RING",
    ],
)
def test_the_checker_leaves_names_alone(fine: str) -> None:
    assert written_out(ast.parse(fine)) == []


def test_each_key_stands_once() -> None:
    modules = dict(product())
    assert repeated(modules) == set()
    known = fixed_keys()
    assert [key for key, times in known.items() if times > 1] == []
    for name, home in HOMES.items():
        written = Counter(
            node.value.value
            for node in modules[name].body
            if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant)
        )
        assert set(written) == {v for k, v in vars(home).items() if k.isupper() and isinstance(v, str)}
    said = {text for name, tree in modules.items() if name not in HOMES for text in whole_texts(tree)}
    assert {word for word in ALSO if word not in known or word not in said} == set(), (
        "these need not stand here"
    )


def test_the_checker_sees_a_key_that_stands_twice() -> None:
    planted = (
        'A = "fit_outcome"\nB = {"spare_2": 1}\nC = "empty_result"\nD = "finish_bore_afresh"\nE = "wall"\n'
    )
    found = repeated({"bench.planted": ast.parse(planted)})
    assert found == {"fit_outcome", "spare_2", "empty_result", "finish_bore_afresh"}


def kinds_of_seal() -> frozenset[str]:
    """Modules that belong to a kind of seal, and the kinds themselves."""
    return frozenset(
        name
        for name, _ in product()
        if re.match(r"bench\.seals\.\w+(\.|$)", name) and not re.match(SHARED, name)
    )


def test_nobody_knows_the_kinds_of_seal_but_their_register() -> None:
    seals = kinds_of_seal()
    found = {name: known for name, tree in product() if (known := knows_a_seal(name, tree, seals))}
    assert set(found) == set(MAY_KNOW), found


def test_the_checker_sees_who_knows_a_kind_of_seal() -> None:
    seals = kinds_of_seal()
    planted = ast.parse(
        "def f():\n    from bench.seals.ring.decided import decided_from\n    return decided_from\n"
    )
    assert knows_a_seal("bench.sheet.data", planted, seals) == {"bench.seals.ring.decided"}
    assert knows_a_seal("bench.seals.ring.cut", planted, seals) == set()
    assert knows_a_seal("bench.seals.foot.size", planted, seals) == set()
    assert knows_a_seal("bench.seals.gasket.size", planted, seals) == {"bench.seals.ring.decided"}

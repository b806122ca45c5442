"""What a shop file says and what is made of it; what past jobs say of the shop, its drawer and its year,
function by function, as it was read once and found true.

python -m tests.bench.test_shop_said writes `shop_said.md` anew; read the difference before keeping it.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from bench.desk.effects import JobRow
from bench.file.codec import render_entry
from bench.file.entry import Entry
from bench.file.slug import SHOP_LIMIT
from bench.job.in_drawer import BarLeft, InDrawer
from bench.past import drawer, learning, shelf
from bench.shop import (
    changes,
    file,
    groups,
    layout,
    pieces,
    sections,
    shop,
    starter,
    tables,
    unreadable,
    words,
    writing,
)
from bench.shop.changes import Change
from bench.shop.serial_line import SerialLine
from bench.year import counted, facts, words as year_words
from bench.year.facts import Happened, JobFacts
from rules.bars import Bar, Grip
from rules.checks import OutOfRange
from rules.equipment import Axis, Tool
from rules.lengths import speaking
from rules.press_and_tester import Press, Tester as AirTester
from tests.seals.test_ring_cut import turned_to
from tests.seals.test_ring_measured import SHOP, Given, Kept, job_of, told
from tests.seals.test_ring_sized import LIKE, lying, pressed

KEPT = Kept(__file__)
SAMPLES = Path(__file__).resolve().parents[2] / "sample_sessions"
FULL = """
shop_name = "Quay"  # ours
tester_number = "T 4"
works_in = "inch"
papers_in = "fr"
theme = "night"
bell = false
bounce_ms = 40
divers_equipped = true
turning_spread_in = 0.0005
hand_scale_pct = 1.5
glass_step_mm = 0.05
learn_from_jobs = false

[[lathe]]
name = "large"
speeds_rpm = [400, 800]
largest_rpm = 900
stepless = true
largest_drill_mm = 16
drills_mm = [8, 10.5]
spindle_hole_in = 1.0
drill_unit = "mm"
speed_names = []
shows_speed = false
numbered_tools = false

[lathe.cross]
division_in = 0.001
divisions_per_turn = 100
backlash_mm = 0.1

[lathe.long]
step_mm = 0.02
direction = "from_chuck"

[[lathe.grip]]
name = "chuck"
smallest_mm = 3
largest_mm = 80

[[lathe.grip]]
name = "collets"
smallest_mm = 2
largest_mm = 12
length_mm = 18
kind = "collet"

[[tool]]
number = 1
kind = "turning"
nose_radius_mm = 0.4
set = "fine"

[[tool]]
number = 2
kind = "boring"
name = "bar"
smallest_bore_mm = 8
longest_reach_mm = 20
shank_mm = 6
set = "fine"

[[tool]]
number = 3
kind = "chamfer"
set = "fine"

[[tool]]
number = 4
kind = "parting"
blade_mm = 1.2
set = "fine"

[[tool]]
number = 5
kind = "face_grooving"
blade_mm = 2.0
smallest_groove_mm = 20
largest_groove_mm = 40
depth_mm = 12
set = "fine"

[[bar]]
plastic = "acetal"
diameter_in = 1.5
length_mm = 90
kind = "tube"
outside_mm = 38.2
bore_mm = 30.5
bore_deep_mm = 40

[[instrument]]
name = "calliper"
kind = "calliper"
resolution_in = 0.0005
limit_of_error_mm = 0.03

[press]
largest_force_n = 1500

[tester]
largest_bar = 10
gauge_step_bar = 0.1
gives = "deflection"

[[line]]
port = "COM3"
speed_baud = 4800
data_bits = 7
parity = "even"
pattern = "([0-9.]+)"

[plastic.mine]
name = "plastic from the drawer"
youngs_modulus_mpa = { value = 2500, unit = "MPa", source = "maker", basis = "published" }
"""


def refused(work: Callable[[], object]) -> str:
    """Why something cannot be."""
    try:
        return f"= {told(work())}"
    except OutOfRange as why:
        return f"! {why}"


def read(text: str) -> shop.Shop:
    """The shop of a text."""
    return shop.shop_of(text.encode(), "shop.toml")


@KEPT.case
def a_shop_said_in_full() -> Iterator[object]:
    found = read(FULL)
    for name in ("lathes", "tools", "bars", "instruments", "press", "tester", "lines", "turning_spread_mm"):
        yield name, getattr(found, name)
    yield found.hand_scale_pct, found.glass_step_mm, found.bounce_ms, found.bell, found.theme, found.shop_name
    yield found.tester_number, found.divers_equipped, found.works_in, found.learn_from_jobs, found.papers_in
    yield sorted(found.said), found.is_built_in, sorted(found.materials["plastics"])
    bare = read("")
    yield (
        bare == replace(shop.built_in(), is_built_in=False, materials=bare.materials),
        sorted(bare.said),
        bare.is_built_in,
    )
    yield replace(read('works_in = "inch"'), materials={}, is_built_in=True) == shop.built_in("inch")


@KEPT.case
def lines_that_cannot_be_used() -> Iterator[object]:
    for old, new in (
        ("bounce_ms = 40", 'bounce_ms = "40"'),
        ("bounce_ms = 40", "bounce_ms = 40.5"),
        ("bounce_ms = 40", "bounce_ms = 501"),
        ("bounce_ms = 40", "bounce_ms = true"),
        ("bounce_ms = 40", "bounce_ms = 1e400"),
        ("bounce_ms = 40", "bounce_ms = 10000000000000000"),
        ("bell = false", "bell = 1"),
        ("bell = false", "bell = [1"),
        ('theme = "night"', 'theme = "dusk"'),
        ('theme = "night"', "theme = 3"),
        ('theme = "night"', f'theme = "{"x" * 201}"'),
        ('papers_in = "fr"', 'papers_in = "Deutsch"'),
        ('works_in = "inch"', 'works_in = "cm"'),
        ("turning_spread_in = 0.0005", "turning_spread_in = 0.0005\nturning_spread_mm = 0.01"),
        ("glass_step_mm = 0.05", "glas_step_mm = 0.05"),
        ("glass_step_mm = 0.05", "blade_mm = 0.05"),
        ("glass_step_mm = 0.05", "zzz = 0.05"),
        ("glass_step_mm = 0.05", "glass_step_mm = 2"),
        ("speeds_rpm = [400, 800]", "speeds_rpm = 400"),
        ("speeds_rpm = [400, 800]", 'speeds_rpm = ["400"]'),
        ("speeds_rpm = [400, 800]", ""),
        ("speeds_rpm = [400, 800]", "speed_rpm = [400, 800]"),
        ("speed_names = []", "speed_names = [1]"),
        ("speed_names = []", 'speed_names = ["a"]'),
        ("speed_names = []", f'speed_names = ["{"x" * 41}", "b"]'),
        ("shows_speed = false", 'shows_speed = "no"'),
        ("[lathe.cross]", "[lathe.crosss]"),
        ("[lathe.long]", "[lathe.longer]"),
        ('direction = "from_chuck"', 'direction = "outward"'),
        ('kind = "collet"', 'kind = "collett"'),
        ("[press]", "[[press]]"),
        ("[[bar]]", "[bar]"),
        ("blade_mm = 1.2", ""),
        ("blade_mm = 1.2", "blade_mm = 9"),
        ("number = 5", "number = 4"),
        ('kind = "parting"', 'kind = "turning"'),
        ('plastic = "acetal"', 'plastic = "acetate"'),
        ("bore_mm = 30.5", "bore_mm = 39"),
        ('port = "COM3"', 'port = " "'),
        ("data_bits = 7", "data_bits = 9"),
        ('parity = "even"', 'parity = "none at all"'),
        ('pattern = "([0-9.]+)"', 'pattern = "[0-9.]+"'),
        ('pattern = "([0-9.]+)"', 'pattern = "(["'),
        ('pattern = "([0-9.]+)"', 'pattern = "(a)(b)(c)"'),
        ("value = 2500, ", ""),
        ("value = 2500", "value = -1"),
        ("[plastic.mine]", "[plastic]"),
    ):
        assert old in FULL
        yield f"{new[:60]}: {refused(lambda new=new, old=old: read(FULL.replace(old, new, 1)))[:220]}"  # type: ignore[misc]
    twice = '\n[[lathe]]\nname = "large"\n'
    yield refused(lambda: read(FULL + twice)), refused(lambda: read(FULL + '\n[[line]]\nport = "COM3"\n'))
    yield refused(lambda: read(FULL + '\n[[instrument]]\nname = "calliper"\n'))
    for raw in (
        b"\xff",
        b"a\nb = \xff",
        b"x" * (SHOP_LIMIT + 1),
        b"",
        b"\xef\xbb\xbfbell = 1",
        b"a = 1\na = 2",
    ):
        yield refused(lambda raw=raw: shop.shop_of(raw, "shop.toml"))  # type: ignore[misc]
    stiff = '{ value = 110000, unit = "MPa", source = "s", basis = "memory" }'
    metal = f'[metal.mine]\nname = "m"\nyoungs_modulus_mpa = {stiff}\n'
    yield refused(lambda: read(metal)), refused(lambda: read(metal.replace("[metal", "[glass")))


@KEPT.case
def a_shop_that_cannot_be() -> Iterator[object]:
    for said in (
        {"lathes": ()},
        {"instruments": ()},
        {"lathes": SHOP.lathes * 2},
        {"instruments": SHOP.instruments * 2},
        {"tools": SHOP.tools * 2},
        {"tools": SHOP.tools[1:]},
        {"tools": ()},
        {"turning_spread_mm": 0.0004},
        {"glass_step_mm": 1.1},
        {"bounce_ms": 501},
        {"theme": "x"},
        {"works_in": "x"},
        {"papers_in": "x"},
        {"hand_scale_pct": 9.0},
    ):
        yield str(sorted(said)), refused(lambda said=said: replace(SHOP, **said).theme)  # type: ignore[misc]
    yield SHOP.tool_sets, SHOP.lathe_named("gone"), len(SHOP.tools_of("bench")), SHOP.tools_of("x")
    thin = Bar(plastic="acetal", diameter_mm=36.0, length_mm=10.0, colour="x", bore_mm=20.0)
    yield [(one.diameter_mm, one.bore_mm) for one in replace(SHOP, bars=(*SHOP.bars, thin)).bars_of("acetal")]
    for line in (
        {"port": ""},
        {"port": "a", "speed_baud": 49},
        {"port": "a", "speed_baud": 50},
        {"port": "a", "data_bits": 6},
        {"port": "a", "unit": "cm"},
        {"port": "a", "pattern": "(a)(b)"},
    ):
        yield line, refused(lambda line=line: SerialLine(**line))  # type: ignore[misc]


@KEPT.case
def where_a_word_stands() -> Iterator[object]:
    yield [
        (word, words.section_of(word), words.example(word))
        for word in (*words.EXAMPLES, "backlash_mm", "gives", "zzz", "colour")
    ]
    yield (
        sections.unit(read_table("step_in = 1"), "step"),
        sections.unit(read_table("step_mm = 1"), "step"),
        sections.unit(read_table('unit = "inch"'), "step"),
    )
    yield (
        groups.assumed_words(("lathe", "tool", "bar"), {"tool"}),
        groups.assumed_words(("press",), {"press"}),
        groups.GROUPS,
    )
    yield file.line_numbers(FULL.split("[[tool]]")[0]), sorted(file.singular(["tools", "bar"]))
    counts: dict[str, int] = {}
    yield [
        file.path_of(*one, counts)
        for one in (
            ("lathe", True),
            ("lathe.cross", False),
            ("lathe.grip", True),
            ("lathe.grip", True),
            ("lathe", True),
            ("lathe.grip", True),
            ("press", False),
        )
    ]
    for line in (
        "[bar]",
        "[bar",
        "[[bar]",
        "a: 5",
        "a 5",
        "a = 0,5",
        "a = yes",
        "a = TRUE",
        "a = 5 mm",
        'a = "b',
        "a = b",
        "a = ",
        "a = \u201eb\u201c",
        "= 3",
    ):
        yield line, unreadable.by_line(line)


def read_table(text: str) -> file.ShopTable:
    """A text as one section."""
    return file.parsed(text.encode(), "shop.toml")


# written


@KEPT.case
def the_starter() -> Iterator[object]:
    own = replace(shop.built_in(), lathes=read(FULL).lathes, tools=read(FULL).tools)
    texts = (starter.sections_text(own, group) for group in groups.GROUPS)
    yield starter.starter_text(shop.built_in(), ("press",))
    yield from texts


@KEPT.case
def things_as_tables() -> Iterator[object]:
    found = read(FULL)
    for group in groups.GROUPS:
        yield group, tables.is_list(group), [tables.table(one) for one in tables.things(found, group)]
    dial = Axis(
        shows="diameter",
        step_mm=0.0254,
        division_mm=0.0254,
        divisions_per_turn=50,
        backlash_mm=0.05,
        unit="inch",
        direction="inward",
    )
    lathe = replace(SHOP.lathes[0], cross=dial)
    yield tables.table(lathe)["cross"], tables.table(SHOP.lathes[0])["cross"]
    yield tables.table(Press(name="p", largest_force_n=None)), tables.table(Tool(number=9, kind="turning"))
    yield tables.table(Grip(name="g", smallest_mm=1.0, largest_mm=2.0))


TEXT = """# our shop
bell = true # loud

# the lathe
[[bar]] # the thin one
plastic = "acetal"
diameter_mm = 36.0 # turned
length_mm = 200
colour = "white"

# the thick one
[[bar]]
plastic = "acetal"
diameter_mm = 45
length_mm = 150
# end

[press]
name = "p"

[tester]
largest_bar = 3
"""


@KEPT.case
def a_text_in_pieces() -> Iterator[object]:
    for one in layout.pieces(TEXT):
        yield one.path, one.header, one.body, one.above_the_next
    odd = 'a = """\n[x]\n# no\n"""\nb = [\n  1, # one\n]\n[c]\nd = "#" # yes\ne = \'\'\'\nz\n\'\'\'\n'
    yield list(layout.marked(odd.splitlines(keepends=True)))
    nested = "a = [\n  [1, 2],\n  {b = [3]},\n]\n[[bar]]\n[lathe.cross]\nc = 1\n"
    yield list(layout.marked(nested.splitlines(keepends=True))), [one.path for one in layout.pieces(nested)]
    yield layout.comments(odd), "".join(one.text for one in layout.pieces(odd)) == odd, layout.comments(TEXT)
    yield [
        layout.taken_apart(line)
        for line in ('a = "b # c" # d', r'a = "\"" # e', "a = 'x' # f", 'a = """g', "h # i", '"')
    ]
    yield layout.taken_apart('x""" # j', '"""'), layout.only_comments(layout.pieces(TEXT)[1])


@KEPT.case
def a_text_changed_piece_by_piece() -> Iterator[object]:
    def after(work: Callable[[pieces.Pieces], object], text: str = TEXT) -> str:
        edited = pieces.Pieces(text)
        work(edited)
        return edited.text

    def changed(text: str) -> Iterator[str]:
        before = TEXT.splitlines()
        yield from (f"+ {line}" for line in text.splitlines() if line not in before)
        yield from (f"- {line}" for line in before if line not in text.splitlines())

    for name, work in {
        "a value": lambda one: one.set(("bar", 0), "length_mm", 120.0),
        "a new value": lambda one: one.set(("bar", 1), "colour", "black"),
        "in the head": lambda one: one.set((), "bell", False),
        "in the other unit": lambda one: one.set(("bar", 0), "diameter_in", 1.5),
        "taken out": lambda one: one.remove(("bar", 0), "diameter_mm"),
        "not there": lambda one: one.remove(("bar", 9), "diameter_mm"),
        "another bar": lambda one: one.add(("bar",), {"plastic": "pa66", "diameter_mm": 30.0}),
        "a first tool": lambda one: one.add(("tool",), {"number": 1}),
        "a bar taken out": lambda one: one.take_out(("bar", 0)),
    }.items():
        text = after(work)
        yield name
        yield from changed(text)
    yield after(lambda one: one.add(("bar",), {"plastic": "pa66"})) + "END"
    yield after(lambda one: one.take_out(("bar", 0)))
    within = '[[lathe]]\nname = "l"\ncross = { step_mm = 0.01 }\n[lathe.long]\nstep_mm = 0.02\n'
    within += '[[lathe.grip]]\nname = "g"\n'
    yield after(lambda one: one.set(("lathe", 0, "cross"), "step_mm", 0.05), within)
    yield after(lambda one: one.set(("lathe", 0, "carriage"), "step_mm", 0.05), within)
    yield after(lambda one: one.add(("lathe", 0, "grip"), {"name": "h"}), within)
    was = [{"name": name, "largest_mm": 9.0} for name in "ghk"]
    now: list[dict[str, Any]] = [{"name": "h", "largest_mm": 8.0}, {"name": "m"}]
    grips = within + "".join(f'[[lathe.grip]]\nname = "{name}"\nlargest_mm = 9.0\n' for name in "hk")
    yield after(lambda one: writing.differ_in_list(one, ("lathe", 0, "grip"), was, now), grips)


@KEPT.case
def what_is_said_is_written() -> Iterator[object]:
    standing = read(TEXT)
    thin, thick = standing.bars
    for name, told_so in {
        "a bar shorter": (Change("bar", (replace(thin, length_mm=90.0), thick)),),
        "a bar gone, one more": (Change("bar", (None, thick, replace(thin, colour="red"))),),
        "the press": (Change("press", (Press(name="p", largest_force_n=900.0),)),),
        "the tester": (Change("tester", (AirTester(name="air tester", largest_bar=6.0),)),),
        "a group for the first time": (Change("instrument", SHOP.instruments[:1]),),
        "inch": (Change("works_in", ("inch",)),),
        "nothing learned": (Change("learn_from_jobs", (False,)),),
        "papers": (Change("papers_in", ("fr",)),),
    }.items():
        wanted = changes.changed(standing, told_so)
        text = writing.rewritten(TEXT, standing, wanted, told_so)
        yield name
        yield from (f"+ {line}" for line in text.splitlines() if line not in TEXT.splitlines())
        yield from (f"- {line}" for line in TEXT.splitlines() if line not in text.splitlines())
        writing.check(TEXT, text, wanted)
        yield (
            sorted(wanted.said),
            wanted.works_in,
            wanted.learn_from_jobs,
            wanted.papers_in,
            wanted.is_built_in,
        )
    yield refused(lambda: writing.check(TEXT, TEXT.replace("# end", ""), standing))
    yield (
        refused(lambda: writing.check(TEXT, TEXT + "x = 1\n", standing)),
        refused(lambda: writing.check(TEXT, TEXT, replace(standing, bell=False))),
    )
    yield changes.as_they_are(SHOP, ("press", "tester"))
    inch = changes.in_units(replace(SHOP, said=frozenset(("bar",))), "inch")
    yield inch.bars == SHOP.bars, inch.instruments == shop.built_in("inch").instruments, inch.works_in
    yield refused(lambda: changes.changed(SHOP, (Change("lathe", (None,)),)))
    drills = writing.with_drills(replace(SHOP, works_in="inch"), '[[lathe]]\nname = "a"\n')
    yield (
        drills.lathes[0].drill_unit,
        writing.with_drills(SHOP, '[[lathe]]\ndrill_unit = "mm"\n').lathes == SHOP.lathes,
    )


@KEPT.case
def a_shop_file_is_written() -> Iterator[object]:
    bars = (Change("bar", (SHOP.bars[0],)),)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        yield sorted(writing.write_said(folder / "new", shop.load(folder / "new"), bars).said)
        path = folder / "shop.toml"
        for raw in (
            TEXT.replace("\n", "\r\n").encode(),
            b"\xef\xbb\xbf" + TEXT.encode(),
            TEXT.rstrip("\n").encode(),
        ):
            path.write_bytes(raw)
            before = shop.load(folder)
            thin, thick = before.bars
            after = writing.write_said(
                folder, before, (Change("bar", (replace(thin, length_mm=90.0), thick)),)
            )
            new = path.read_bytes()
            yield (
                [one.length_mm for one in after.bars],
                new.count(b"\r\n"),
                new.count(b"\n"),
                new[:3] == b"\xef\xbb\xbf",
            )
            yield refused(lambda before=before: writing.write_said(folder, before, bars))  # type: ignore[misc]
        unchanged = path.read_bytes()
        writing.write_said(folder, shop.load(folder), changes.as_they_are(shop.load(folder), ("press",)))
        yield path.read_bytes() == unchanged


# past rings


@KEPT.case
def what_lies_in_the_drawer() -> Iterator[object]:
    gap, rings = 0.5625, []
    for at, (wall, outside) in enumerate(
        (
            (0.5625, 36.43),
            (0.563, 36.43),
            (0.759, 36.43),
            (0.7594, 36.43),
            (0.62, 36.73),
            (0.62, 36.731),
            (0.62, 36.13),
            (0.65, 36.43),
            (0.6, 36.43),
            (0.61, 36.43),
            (0.63, 36.43),
        )
    ):
        rings.append(lying(f"ring-{at}", wall_mm=wall, outside_mm=outside, walls_mm=(wall,)))
    yield gap, [one.piece for one in drawer.near(rings, "acetal", 36.43, 35.305)]
    for changed in ({"free": False}, {"walls_mm": ()}, {"plastic": "pa66"}):
        yield changed, drawer.near([replace(rings[1], **changed)], "acetal", 36.43, 35.305)
    for seat, glass in ((36.41, 35.31), (36.46, 35.36), (36.461, 35.31), (36.41, 35.361)):
        yield seat, glass, [one.job for one in drawer.alike([LIKE], seat, glass)]
    yield (
        drawer.alike([replace(LIKE, outcome="")], 36.41, 35.31),
        drawer.alike(
            [replace(LIKE, tools=(("t", 1.0),), repeats=(("s", 1.0),), turned_by="l")], 36.41, 35.31
        ),
    )
    bars = [
        BarLeft(job=f"{n}", at=at, plastic="acetal", colour=colour, diameter_mm=36.0, left_mm=left)
        for n, at, colour, left in (
            (1, "2026-01-01T00:00:00+00:00", "white", 100.0),
            (2, "2026-02-01T00:00:00+00:00", "white", 90.0),
            (3, "2026-01-15T00:00:00+00:00", "white", 95.0),
            (4, "2026-01-20T00:00:00+00:00", "black", 80.0),
        )
    ]
    books = [
        InDrawer(lying=(lying(), lying("ring-1")), taken=("7009 ring-1",)),
        *(InDrawer(bar=bar) for bar in bars),
    ]
    for swelling, now in (
        (frozenset(), "2026-03-01T00:00:00+00:00"),
        (frozenset(("acetal",)), "2026-03-01T00:00:00+00:00"),
        (frozenset(("acetal",)), "2026-04-01T00:00:00+00:00"),
    ):
        found = drawer.drawer_of(books, swelling, lambda now=now: now)  # type: ignore[misc]
        yield (
            [(one.ref, one.again) for one in found.rings],
            [(one.job, one.colour, one.left_mm) for one in found.bars],
        )
    yield (
        drawer._read(""),
        drawer._read("{"),
        [shelf.moment(at) for at in ("", "x", "1970-01-01T00:00:10+00:00")],
    )
    for data in (b"", b'"from 7009 ring-1"', b'key = "ring"'):
        yield data.decode(), drawer.all_of(data), drawer.rings_of(data), shelf.finished(data)
    parts = (SAMPLES / "00208-ferry-captain.toml").read_bytes().split(b"[[entry]]")
    until_ring = b"[[entry]]".join(parts[:13])
    back = Entry(n=13, at="2026-03-02T09:00:00+00:00", kind="undo", key="ring", value="accept", of=12)
    for data in (b"[[entry]]".join(parts), until_ring, until_ring + render_entry(back, salt="2aa2e6c8")):
        yield shelf.finished(data)


RINGS = tuple(
    replace(
        LIKE,
        job=f"70{n:02}",
        at=f"2026-0{1 + n}-05T10:00:00+00:00",
        walls_mm=(0.605 + 0.002 * n,) * 4,
        turned_by="lathe | tool 2 bar | acetal" if n % 2 else "lathe | tool 9 bar | acetal",
        promised=0.9 if n < 3 else None,
        tools=(("tool 2 bar", 0.01 * n), ("tool 1 turning", -0.02)),
        outcome=("home", "too_easy", "home", "home")[n],
        leaked=n == 2,
        repeats=(("seat", 0.01 * n), ("glass", 0.005)),
    )
    for n in range(4)
)[::-1]
NOW = "2026-06-01T10:00:00+00:00"


@KEPT.case
def what_finished_rings_say() -> Iterator[object]:
    yield learning.landed(RINGS, SHOP, "lathe | tool 2 bar | acetal", NOW)
    yield learning.landed(RINGS, replace(SHOP, instruments=SHOP.instruments[:1]), "another", NOW)
    yield learning.looked_up(RINGS, SHOP, ("lathe | tool 2 bar | acetal", "seat", "glass"), NOW)
    yield (
        learning.looked_up((), SHOP, ("x", "seat", "glass"), NOW),
        learning.looked_up((replace(LIKE, turned_by=""),), SHOP, ("x", "seat", "glass"), NOW),
    )
    yield learning.tools_before(RINGS, NOW), learning.tools_before((), NOW)
    yield learning.lately(RINGS, SHOP, NOW)
    yield learning.lately((replace(LIKE, turned_by=""),), SHOP, NOW)
    yield learning.pairs_of(RINGS, NOW), learning.repeats(RINGS, NOW), learning.repeats(RINGS * 4, NOW)
    yield (
        learning.promises_of(RINGS),
        learning.promises_of([replace(RINGS[1], other_cause="tilt"), replace(RINGS[1], outcome="")]),
    )
    for then, now in (
        ("2025-06-01T10:00:00+00:00", NOW),
        (NOW, "2025-06-01T10:00:00+00:00"),
        ("x", NOW),
        (NOW, ""),
    ):
        yield then[:10], now[:10], learning.years_ago(then, now)


# a year


def file_of(given: tuple[Given, ...], apart_min: int = 3) -> list[Entry]:
    """Entries so many minutes apart."""
    job = job_of(*given)
    return [
        Entry(
            n=one.n,
            at=f"2026-03-02T{9 + one.n * apart_min // 60:02}:{one.n * apart_min % 60:02}:00+00:00",
            kind="mark" if one in job.marks else "answer",
            key=one.key,
            value=one.words,
        )
        for one in sorted((*job.answers, *job.marks), key=lambda one: one.n)
    ]


@KEPT.case
def what_happened_in_a_job() -> Iterator[object]:
    turned = (*turned_to("dress"), ("dress", "done"))
    test: Given = (
        "empty_result",
        "pass",
        "2026-03-02T10:30:00+00:00",
        "method dry_pass_fail",
        "pressure 3 bar",
        "held 10 min",
        "timed program",
    )
    for name, given in {
        "turned": turned,
        "with spares": (*turned_to("dress", spares="2"), ("dress", "done")),
        "pressed": (*turned, pressed("shaved")),
        "pressed twice": (*turned, pressed("shaved"), ("attempt", "another"), *turned[3:], pressed("home")),
        "tested": (*turned, pressed("home"), test),
        "begun alone": turned_to("drill"),
        "no order": (("sitting", "work"), ("rough_outside", "done"), ("dress", "done")),
        "nothing": (),
    }.items():
        entries = file_of(given)
        yield name
        yield from facts._added(facts.happened(job_of(*given), entries))
    parked = file_of((("sitting", "work"), ("a", "b"), ("c", "d")), apart_min=40)
    yield [
        (one.what, one.much)
        for one in facts.happened(job_of(("sitting", "work"), ("a", "b"), ("c", "d")), parked)
    ]
    known = JobFacts("7", "w", (Happened("2026-03", "made", "ring", 2.0),), "2027-03-01")
    yield facts.from_json(facts.to_json(known)) == known, facts.facts_of(SHOP, b"")
    sample = (SAMPLES / "00208-ferry-captain.toml").read_bytes()
    found = facts.facts_of(SHOP, sample)
    assert found is not None
    yield found.job, found.watch, found.retest
    yield from found.happened
    yield facts.order_of(()), facts.order_of(job_of(("lathe_bar", "right", "order x")).answers)


FACTS = (
    JobFacts(
        "7001",
        "a diver",
        (
            Happened("2026-01", "made", "ring", 2.0),
            Happened("2026-01", "spare", "ring"),
            Happened("2026-02", "made", "gasket"),
            Happened("2026-02", "tried", "home"),
            Happened("2026-02", "tried", "shaved"),
            Happened("2026-12", "tested", "pass", 3.0),
            Happened("2026-12", "tested", "fail"),
            Happened("2026-12", "tested", "not_judged"),
            Happened("2026-12", "bench", "", 65.25),
            Happened("2026-12", "sitting"),
            Happened("2026-12", "bar", "acetal white 36 mm", 12.345),
            Happened("2025-12", "made", "ring"),
        ),
        "2026-07-02",
    ),
    JobFacts("7002", "", (Happened("2026-02", "bar", "acetal white 36 mm", 1.0),), "2026-07-03"),
    JobFacts("7003", "old", (Happened("2024-02", "made", "ring"),), "2025-05-31"),
    JobFacts("7004", "older", (), "2025-05-30"),
    JobFacts("7005", "never", (), ""),
)


@KEPT.case
def a_year_counted() -> Iterator[object]:
    year = counted.year_of(FACTS, 2026)
    yield year
    yield counted.year_of(FACTS, 2023)
    yield (
        counted.due(FACTS, "2026-06-01"),
        counted.due(FACTS, "2026-06-02T10:00"),
        counted.due(FACTS, "someday"),
    )
    for unit in ("mm", "inch"):
        with speaking(unit):
            yield from year_words.whole_lines(year)
            yield from year_words.year_lines(year, 2)
    yield from year_words.year_lines(counted.year_of((), 2026), 0)
    yield year_words.table(year)
    yield (
        year_words.share(1, 3),
        year_words.share(0, 0),
        year_words.several(1, "job"),
        year_words.several(1200, "job"),
    )


@KEPT.case
def what_waits() -> Iterator[object]:
    rows = [
        JobRow(
            number=f"{n}",
            file=f"{n}",
            watch="w" * n,
            stage="cut",
            since=f"2026-02-{n:02}T10:00:00+00:00",
            waiting_for="a glass" if n % 2 else "",
        )
        for n in range(1, 15)
    ]
    due, longer = counted.due(FACTS, "2026-06-02")
    yield from year_words.reminder_lines(rows, due, longer, "2026-06-02T10:00:00+00:00")
    yield from year_words.reminder_lines([replace(rows[0], since="")], due[:1], 0, "2026-07-02")
    yield from year_words.reminder_lines(rows[:12], (), 0, "2026-07-02")
    yield due[0]


@pytest.mark.parametrize("name", KEPT.cases)
def test_what_is_said_of_a_shop(name: str) -> None:
    KEPT.check(name)


if __name__ == "__main__":
    KEPT.write()

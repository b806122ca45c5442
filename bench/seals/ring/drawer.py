"""What a job leaves in the drawer: spares not used, rings not pressed, and what is left of its bar.

Invariant: read from the answers alone. A ring that came to the press, or was given up as spoiled, never lies
there; the ring in work does not either, until its job is over.
"""

from __future__ import annotations

from collections.abc import Sequence

from bench.file.entry import STANDS
from bench.job import keys
from bench.job.in_drawer import RING, SPARE, TIGHTER, BarLeft, InDrawer, Lying
from bench.job.job import Answer, Job, newest_of
from bench.job.standing import OVER
from bench.job.values import named, named_text, number, several
from bench.seals.ring.decided import Decided, decided_from
from bench.seals.ring.hand_steps import DRAWER, MADE, NEW
from bench.seals.ring.past import walls_read
from bench.seals.ring.spares import Spare, spare_taken, spare_tried, spares_cut
from rules.turning import operations

THERE = (NEW, MADE, DRAWER)
"""Ways in which a ring was there already and may be pressed."""
KINDS = {"spare": SPARE, "spare_tighter": TIGHTER}


def in_drawer(job: Job) -> InDrawer:
    """What a job has to do with the drawer."""
    over = is_over(job)
    spans = job.attempt_spans()
    left: dict[str, Lying] = {}
    for nth, span in enumerate(spans, 1):
        ring = newest_of(span, keys.RING)
        if ring is None or named(ring.words, "seat") is None:
            continue
        decided = decided_from(ring.words)
        turned = newest_of(span, operations.DRESS)
        if turned is None:
            take_out(left, spans[nth - 2] if nth > 1 else (), decided)
        left |= {one.piece: one for one in spares_of(job, span, nth, free=over)}
        if (nth < len(spans) or over) and (kept := unpressed(job, spans, nth, decided)) is not None:
            left[kept.piece] = kept
    bars = [found for span in spans if (found := bar_left(job, span)) is not None]
    return InDrawer(lying=tuple(left.values()), taken=taken(job), bar=bars[-1] if bars else None)


def is_over(job: Job) -> bool:
    """Whether the job says of itself that it is finished."""
    said = (word for one in reversed(job.answers) for word in one.words if word.startswith(STANDS))
    return next(said, "").removeprefix(STANDS) == OVER


def take_out(left: dict[str, Lying], before: Sequence[Answer], now: Decided) -> None:
    """Take out the piece of its own job that a ring is which was not turned for its attempt."""
    if now.at_hand == MADE and left:
        del left[min(left, key=lambda piece: abs(left[piece].wall_mm - now.ring.wall_mm))]
    tried = spare_tried(before)
    if tried is None or not spare_taken(before, now):
        return
    pieces = [piece for piece in left if piece.partition("-")[0] == KINDS.get(tried.word)]
    for piece in pieces[-1:]:
        del left[piece]


def spares_of(job: Job, span: Sequence[Answer], nth: int, *, free: bool) -> list[Lying]:
    """The spares that were turned with a ring."""
    dressed = newest_of(span, operations.DRESS)
    ring = newest_of([one for one in span if dressed is not None and one.n < dressed.n], keys.RING)
    if dressed is None or ring is None:
        return []
    decided = decided_from(ring.words)
    return [
        _spare(job, span, f"{KINDS[one.word]}-{nth}", place, one, decided, dressed, free)
        for place, one in enumerate(spares_cut(span), 1)
    ]


def _spare(
    job: Job,
    span: Sequence[Answer],
    piece: str,
    place: int,
    cut: Spare,
    decided: Decided,
    dressed: Answer,
    free: bool,
) -> Lying:
    read = newest_of(span, keys.nth(keys.SPARE_WALL, place))
    wall = read is not None and read.word[:1].isdigit() and read.n > dressed.n
    walls = (number(read.word),) if read is not None and wall else ()
    return Lying(
        job=job.head.job,
        piece=piece,
        at=read.at if read is not None and walls else dressed.at,
        plastic=decided.plastic,
        outside_mm=decided.ring.outside_diameter_mm,
        wall_mm=walls[0] if walls else round(cut.wall_mm, 4),
        height_mm=decided.ring.height_mm,
        chamfer_mm=cut.chamfer_mm,
        lower_chamfer_mm=cut.lower_chamfer_mm,
        walls_mm=walls,
        free=free,
    )


def unpressed(job: Job, spans: Sequence[Sequence[Answer]], nth: int, decided: Decided) -> Lying | None:
    """The ring of an attempt that was made or was there, and that did not come to the press; None where there
    is none.
    """
    span = spans[nth - 1]
    ring, made = newest_of(span, keys.RING), newest_of(span, operations.DRESS)
    there = decided.at_hand in THERE or (nth > 1 and spare_taken(spans[nth - 2], decided))
    if ring is None or (made is None and not there) or newest_of(span, keys.SPOILED) is not None:
        return None
    if pressed_after(span, made.n if made is not None else 0):
        return None
    since = ring.n if there or made is None else made.n
    walls = several(ring.words, "walls") if decided.at_hand else walls_read(span, since)
    height = height_measured(span, since, decided)
    return Lying(
        job=job.head.job,
        piece=f"{RING}-{nth}",
        at=finished_at(span, since, made or ring),
        plastic=decided.plastic,
        outside_mm=decided.ring.outside_diameter_mm,
        wall_mm=round(sum(walls) / len(walls) if walls else decided.ring.wall_mm, 4),
        height_mm=decided.ring.height_mm if height is None else height,
        chamfer_mm=decided.ring.chamfer_mm,
        lower_chamfer_mm=decided.ring.lower_chamfer_mm,
        walls_mm=walls,
        high_as_measured=height is not None,
        free=is_over(job),
    )


def finished_at(span: Sequence[Answer], since: int, made: Answer) -> str:
    """When the walls of a ring were measured, or it was made where they were not."""
    walls = keys.readings_of(keys.WALL, keys.HAND_WALL)
    read = [one.at for one in span if walls.fullmatch(one.key) and (one.n > since or made.n == since)]
    return read[-1] if read else made.at


def height_measured(span: Sequence[Answer], since: int, decided: Decided) -> float | None:
    """The height of a ring as measured or dressed to; None where it was neither."""
    read = decided.ring.height_mm if decided.at_hand else None
    height = keys.readings_of(keys.RING_HEIGHT)
    for one in span:
        if one.n > since and height.fullmatch(one.key):
            read = number(one.word)
        elif one.n > since and one.key == keys.DRESS_LOWER:
            read = named(one.words, "height")
    return read


def pressed_after(span: Sequence[Answer], n: int) -> bool:
    """Whether the press was made ready after a place in the file: what was there counts as pressed then."""
    return any(one.key in (keys.FIT_READY, keys.FIT_OUTCOME) and one.n > n for one in span)


def taken(job: Job) -> tuple[str, ...]:
    """What a job took out: what each attempt says last of a ring that is there, and what was pressed."""
    found: dict[str, None] = {}
    for span in job.attempt_spans():
        at_hand = newest_of(span, keys.AT_HAND)
        pressed = [one for one in span if one.key == keys.RING and pressed_after(span, one.n)]
        for one in (*pressed, *((at_hand,) if at_hand is not None else ())):
            found |= dict.fromkeys(filter(None, (named_text(one.words, "from"),)))
    return tuple(found)


def taken_before(job: Job) -> tuple[str, ...]:
    """What a job has used up, besides what is chosen for the ring of this attempt."""
    span = job.attempt_spans()[-1]
    chosen = newest_of(span, keys.AT_HAND)
    now = named_text(chosen.words, "from") if chosen is not None else ""
    used = {
        named_text(one.words, "from") for one in span if one.key == keys.RING and pressed_after(span, one.n)
    }
    return tuple(one for one in taken(job) if one != now or one in used)


def bar_left(job: Job, span: Sequence[Answer]) -> BarLeft | None:
    """What is left of the bar that a ring was turned from; None where none was, or it is not known."""
    begun, ring = newest_of(span, operations.ROUGH_OUTSIDE), newest_of(span, keys.RING)
    diameter, left = (named(begun.words, name) for name in ("bar", "left")) if begun else (None, None)
    if begun is None or ring is None or diameter is None or left is None:
        return None
    return BarLeft(
        job=job.head.job,
        at=begun.at,
        plastic=named_text(ring.words, "plastic"),
        colour=named_text(begun.words, "colour"),
        diameter_mm=diameter,
        left_mm=left,
    )

"""A reading from a gauge on a serial line, put into the open question.

Invariant: it is never accepted by itself: it stands in the answer line until a person's Enter, and what hands
have typed there is left alone.
"""

from __future__ import annotations

from dataclasses import replace

from bench.desk.desk import Desk
from bench.desk.gauges import TAKES, UNSEEN, is_number, is_unseen
from bench.desk.pace import QUIET_S
from bench.desk.pages import Outcome
from bench.desk.typed import AnswerLine
from bench.job.mask import LENGTHS
from bench.wire.heard import Heard

LOOK_FIRST = "That reading came just now: look at it, then Enter."
NOT_ASKED = "{reading} came from the {name}: no length is asked here, nothing is taken."
TYPED_ALREADY = (
    "{reading} came from the {name}: something is typed here. Enter or - first, then send it again."
)
CAME = "{text} from the {name}: " + TAKES


def heard(desk: Desk, sent: Heard) -> Outcome:
    """One line of a gauge, or word of its port."""
    desk = replace(desk, now=max(desk.now, sent.at), wall=sent.wall or desk.wall)
    if desk.too_small or desk.pending is not None or desk.page == "left":
        return desk, ()
    if not sent.number:
        return replace(desk, message=sent.words, alarm=sent.gone), ()
    step = desk.step
    if not is_number(desk) or step is None or step.mask is None or step.mask.unit not in LENGTHS:
        return told(desk, NOT_ASKED, sent)
    if (desk.line.text or desk.line.void) and not desk.pace.held:
        return told(desk, TYPED_ALREADY, sent)
    text = sent.number + (sent.unit if sent.unit != step.mask.unit else "")
    words = UNSEEN if is_unseen(desk) else CAME.format(text=text, name=sent.name)
    pace = replace(desk.pace, steps=(), held=True, jammed=False, taken="", last_at=sent.at)
    line = replace(desk, line=AnswerLine(text), pace=pace, sent_at=sent.at, conversion="", offer=None)
    return replace(line, message=words, alarm=False), ()


def told(desk: Desk, words: str, sent: Heard) -> Outcome:
    """Said, and nothing else changed."""
    return replace(desk, message=words.format(reading=sent.reading, name=sent.name), alarm=False), ()


def too_soon(desk: Desk, text: str, at: float) -> bool:
    """Whether an Enter follows a reading sooner than anybody could have looked at it."""
    waits = desk.pace.held and bool(desk.line.text) and not desk.hasty
    return text == "enter" and waits and at - desk.sent_at < QUIET_S

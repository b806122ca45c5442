"""The names of the questions about the shop, every one written here and nowhere else.

Invariant: they are kept on the desk while a group is asked, and in no file.
"""

OPENING = "your_shop"
"""Is what is assumed right?"""
PART = "shop_part"
"""Which part of the shop is looked at."""
WORKS_IN = "works_in"
LEARNS = "learns"
"""Whether sizing goes by the rings finished here."""
PAPERS_IN = "papers_in"
WHICH = "which"
"""Which of several lathes or tool sets."""

CROSS, CARRIAGE = "cross", "carriage"
"""Begin the names of the questions about a slide."""
SHOWN_BY = "shown_by"
MARKED_IN = "marked_in"
COUNTS = "counts"
SMALLEST_STEP = "smallest_step"
DIVISION = "division"
TURN = "turn"
BACKLASH = "backlash"
FIGURES = "figures"

SPEEDS_BY = "speeds_by"
SPEEDS_ARE = "speeds_are"
SPEED = "speed"
SLOWEST, FASTEST = "slowest", "fastest"
HOLDS = "holds"
HOLDS_MORE = "holds_more"
HOLDS_TO = "holds_to"
DRILLS_TO = "drills_to"
NUMBERED = "numbered"

TOOL_NUMBER = "tool_number"
GOES_INTO = "goes_into"
REACHES = "reaches"
BLADE = "blade"
TOOL_MORE = "tool_more"

READS_TO = "reads_to"
READS_MORE = "reads_more"

BARS_ARE = "bars_are"
BAR_PLASTIC = "bar_plastic"
BAR_ACROSS = "bar_across"
BAR_LENGTH = "bar_length"
BAR_COLOUR = "bar_colour"
BAR_MORE = "bar_more"
BAR_WHICH = "bar_which"
BAR_LEFT = "bar_left"

FORCE = "force"
GIVES = "gives"
REACHES_BAR = "reaches_bar"
GAUGE_STEP = "gauge_step"


def of(slide: str, what: str) -> str:
    """Name of a question about a slide."""
    return f"{slide}_{what}"


def nth(name: str, n: int) -> str:
    """Name of a question about the nth thing, 1 the first."""
    return f"{name}_{n}"

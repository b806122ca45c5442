"""What walks at lathe and tester have come to, and how often each thing has to happen with the tests."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

LEAST = {
    "reached": 300,
    "right after the checks": 60,
    "raising": 30,
    "resumed": 60,
    "taken back": 60,
    "away": 45,
    "clock set": 20,
    "keys unseen": 75,
    "second windows": 30,
    "plain lines": 100,
    "edited by hand": 20,
    "gates": 15,
    "sent and taken in": 10,
    "refused": 20,
    "hasty": 30,
    "forms": 30,
}
"""How often each must have happened with the tests; a planted fault shows within a third of these walks."""


@dataclass
class Tally:
    """What walks have come to; `met` counts by the words of LEAST."""

    walks: int = 0
    read: int = 0
    """How many times a page was read."""
    met: Counter[str] = field(default_factory=Counter)
    steps: set[str] = field(default_factory=set)
    """The turning steps that were reached."""
    pages: Counter[str] = field(default_factory=Counter)
    """The pages that were read, the plain lines among them."""
    sizes: Counter[str] = field(default_factory=Counter)
    """The windows in which pages were read."""
    faults: list[str] = field(default_factory=list)

    def enough(self) -> bool:
        """Whether everything has happened as often as it has to with the tests."""
        return all(self.met[name] >= least for name, least in LEAST.items())

    def __add__(self, other: Tally) -> Tally:
        return Tally(
            self.walks + other.walks,
            self.read + other.read,
            self.met + other.met,
            self.steps | other.steps,
            self.pages + other.pages,
            self.sizes + other.sizes,
            self.faults + other.faults,
        )

    def __str__(self) -> str:
        return "\n".join(
            (
                f"{self.walks} walks, turning reached {self.met['reached']} times, {self.read} pages read, "
                f"{len(self.faults)} faults",
                ", ".join(f"{name} {times}" for name, times in sorted(self.met.items())),
                "pages: " + ", ".join(f"{name} {times}" for name, times in sorted(self.pages.items())),
                "windows: " + ", ".join(f"{name} {times}" for name, times in sorted(self.sizes.items())),
                "turning: " + ", ".join(sorted(self.steps)),
            )
        )

"""A signal to go on that comes while another is being answered is answered after it, never inside it."""

from __future__ import annotations

from screens.terminal import BenchDriver


class Interrupted(BenchDriver):
    """A driver that is told to go on again while it takes the terminal for the first time."""

    def __init__(self) -> None:
        self._suspended = self._continued = self._resuming = False
        self.inside = 0
        self.deepest = 0
        self.taken = 0

    def suspend_application_mode(self) -> None:
        """The terminal as it was."""

    def resume_application_mode(self) -> None:
        """The terminal is taken; the first time a further signal comes meanwhile."""
        self.inside += 1
        self.deepest = max(self.deepest, self.inside)
        self.taken += 1
        if self.taken == 1:
            self._sigcont_application()
        self.inside -= 1


def test_one_after_the_other() -> None:
    driver = Interrupted()
    driver._sigcont_application()
    assert (driver.deepest, driver.taken) == (1, 2)
    driver._sigcont_application()
    assert (driver.deepest, driver.taken) == (1, 3)

"""The smallest full-screen program worth the name in the same toolkit:
it shows the last key, and that is all.
"""

from __future__ import annotations

from textual import events
from textual.app import App, ComposeResult
from textual.widgets import Static


class Smallest(App[None]):
    """One line of text."""

    def compose(self) -> ComposeResult:
        """The line."""
        yield Static("the last key: none")

    def on_key(self, event: events.Key) -> None:
        """Show the key."""
        self.query_one(Static).update(f"the last key: {event.key}")


if __name__ == "__main__":
    Smallest().run()

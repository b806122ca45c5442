"""The same question with the toolkit's own text input: shows that the streams find what they should."""

from __future__ import annotations

import sys
import time
from pathlib import Path

from textual.app import App, ComposeResult
from textual.widgets import Input, Static


class Stock(App[None]):
    """An input that keeps what is submitted."""

    def __init__(self, path: Path, save_ms: float) -> None:
        super().__init__()
        self._path = path
        self._save_ms = save_ms
        self._kept = 0

    def compose(self) -> ComposeResult:
        """The input and a count."""
        yield Static("ready", id="count")
        yield Input()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Keep what was submitted."""
        with self._path.open("a", encoding="utf-8") as file:
            file.write(f"{event.value}\n")
        time.sleep(self._save_ms / 1000)
        event.input.value = ""
        self._kept += 1
        self.query_one("#count", Static).update(f"{self._kept} kept")


if __name__ == "__main__":
    Stock(Path(sys.argv[1]), float(sys.argv[2])).run(mouse=False)

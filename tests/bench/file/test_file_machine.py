"""Random lives of a job against a model, and the fault that the model must find."""

from __future__ import annotations

import pytest

from bench.file import load as load_module, pieces
from tests.campaigns import lives


def test_random_lives_equal_the_model() -> None:
    lives.REACHED.clear()
    lives.run()
    for what in ("changed", "taken out", "torn", "settled", "kill", "power cut", "refused while it asks"):
        assert lives.REACHED[what] > 0, lives.REACHED


def test_the_machine_finds_a_checksum_that_is_ignored(monkeypatch: pytest.MonkeyPatch) -> None:
    true_read = pieces.read_block

    def trusting(*args: object, **words: object) -> pieces.Piece:
        piece: pieces.Piece = true_read(*args, **words)  # type: ignore[arg-type]
        if piece.found in (pieces.EDITED, pieces.BY_HAND):
            return pieces.Piece(found="ok", line=1, mark=piece.mark, content=piece.content, n=piece.n)
        return piece

    monkeypatch.setattr(load_module, "read_block", trusting)
    life = lives.Life()
    life.begin(1)
    life.answer("case_bore", 2946)
    life.leave()
    content = life.disk.content(life.path)
    life._rewrite(content.replace(b"29.46", b"29.64"))
    life.model.present[1] = (1, "answer", "case_bore", "29.64 mm", None)
    with pytest.raises(AssertionError):
        life.reopen()

"""The four stages of a job, in order, by name."""

from __future__ import annotations

STAGES = ("measure", "size", "cut", "verify")
"""The four stages of a job, in order."""

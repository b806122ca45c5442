"""Readings made into a size: which count, how well it is known, and decisions beside a limit."""

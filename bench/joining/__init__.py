"""Copies of one job that were worked on apart: found by their id, shown side by side, joined into a third."""

"""The shop asked by keypad: short pages, each with a usual value."""

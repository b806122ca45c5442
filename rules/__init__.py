"""What the trade and the physics know: pure functions of plain numbers, and their tables."""

"""What a shop's own finished rings say of how it measures and turns: pure estimators of plain numbers."""

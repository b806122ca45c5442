"""The sheet, the plan and the slip as pages of PDF."""

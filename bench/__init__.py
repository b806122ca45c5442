"""The job on the bench: session file, answers, route of steps, desk, shop, sheet and commands."""

"""What every seal that is turned shares at the lathe: checks, the sentences of a page, the plan as text."""

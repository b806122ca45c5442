"""The ring with a foot: the wall of the straight ring beside the glass, a foot under it."""

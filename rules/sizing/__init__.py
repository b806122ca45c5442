"""The ring that fits: the joint, the window of bores, the chance, and what follows."""

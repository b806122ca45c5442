"""The foot of a ring: how thick and how wide it has to be, and how it carries the water's load."""

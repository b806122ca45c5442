"""The O-ring: what its groove makes of it, what it needs, and which stock size is most likely to seal."""

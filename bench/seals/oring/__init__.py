"""The O-ring of back, crown, tube or pusher: chosen from stock sizes for its groove, not made."""

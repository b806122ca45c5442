"""What a shop did in a year, and what waits in it, from its session files alone."""

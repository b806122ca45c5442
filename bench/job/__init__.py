"""A job: the replay of its file, its steps, and the route through them."""

"""All that a person sees: pages as pure functions of the desk, and the shell that paints them."""

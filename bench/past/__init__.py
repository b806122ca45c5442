"""The finished jobs of a folder: their rings as plain data, and what these say of the shop."""

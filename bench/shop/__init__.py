"""What stands in this workshop, read from shop.toml or the built-in small shop."""

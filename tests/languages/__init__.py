"""The customer's papers in every language."""

"""The kinds of seal this program knows, one folder each."""

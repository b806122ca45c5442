"""Gauges on a serial line: bytes into lines, lines into readings, and the port itself."""

"""Tests of water resistance: methods, air leaks, settling, and the search for a leak."""

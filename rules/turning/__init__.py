"""From a ring to passes on this lathe, and their correction from what is measured."""

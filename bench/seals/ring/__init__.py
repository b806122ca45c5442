"""The straight ring between case and glass: measured, sized, turned, pressed in."""

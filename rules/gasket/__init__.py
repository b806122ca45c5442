"""The flat gasket: what squeezes it, what it needs, and what size of it is most likely to seal."""

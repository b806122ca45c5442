"""The flat gasket under a screwed bezel or back: cut from sheet, turned, or taken from stock."""

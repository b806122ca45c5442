"""The stages of a job that are the same for every kind of seal, and the whole job made of them."""

"""Pictures for paper: they lose nothing in black and white, and their words can be read small."""

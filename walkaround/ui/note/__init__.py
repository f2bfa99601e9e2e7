"""The screen for what is noted about a step besides its answer: words and photos."""

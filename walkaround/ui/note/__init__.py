"""What is noted of a step besides its answer: words and photos."""

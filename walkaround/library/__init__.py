"""Files that people write, read."""
